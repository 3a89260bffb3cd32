"""Sheets on paper: valid html (HTML Tidy, Debian's `tidy`), the same figures as `check --json` says, read off the
PDF by pdftotext (poppler) and off the html, pages and paper sizes by pdfinfo (poppler), nothing that a user typed at
work in the document, and every refusal. What the PDF needs is WeasyPrint; where it is missing, that refusal is all."""
import csv
import hashlib
import html
import json
import os
import pathlib
import re
import resource
import shutil
import signal
import subprocess
import time
import unittest

import harness

HERE = pathlib.Path(__file__).resolve().parent
EXAMPLES = HERE.parents[1] / "examples"
JOBS = {"single": EXAMPLES / "reading-room.toml", "sealed": EXAMPLES / "school-low-e.toml", "unknown": EXAMPLES / "telephone.toml",
        "shadow": EXAMPLES / "bakery-shadow.toml", "laminated": HERE / "reports/laminated.toml"}
SLOW = HERE / "reports/triple.toml"
PURPOSES = ("customer", "file", "maker")
DAY = ("--date", "2025-02-21")
SCHEDULE = (str(EXAMPLES / "school-panes.csv"), "--defaults", str(EXAMPLES / "school-defaults.toml"))
PDF = all(shutil.which(program) for program in ("weasyprint", "pdftotext", "pdfinfo"))


def visible(page):
    """What a reader sees, blanks as one."""
    body = page[page.index("<body>"):]
    return re.sub(r"\s+", " ", html.unescape(re.sub(r"<[^>]*>", " ", body)).replace("\u00a0", " "))


printed = {}  # sheets that several tests read, by what was asked for


class Reports(harness.ProgramTest):
    def report(self, *words, code=0):
        words = tuple(map(str, words))
        if words not in printed:
            done = self.run_program("report", *words, *DAY)
            self.assertEqual(done.returncode, code, (words, done.stderr.decode()))
            printed[words] = done.stdout.decode()
        return printed[words]

    def tidied(self, page):
        done = subprocess.run(["tidy", "-quiet", "-errors", "-utf8"], input=page.encode(), capture_output=True, check=False)
        self.assertEqual((done.returncode, done.stderr.decode()), (0, ""))

    def pdf(self, *words, code=0):
        path = self.directory / "sheet.pdf"
        done = self.run_program("report", *map(str, words), *DAY, "-o", str(path))
        self.assertEqual(done.returncode, code, done.stderr.decode())
        text = subprocess.run(["pdftotext", "-layout", str(path), "-"], capture_output=True, check=True).stdout.decode()
        info = subprocess.run(["pdfinfo", str(path)], capture_output=True, check=True).stdout.decode()
        pages = int(re.search(r"Pages:\s+(\d+)", info).group(1))
        size = tuple(float(x) for x in re.search(r"Page size:\s+([\d.]+) x ([\d.]+)", info).groups())
        return re.sub(r"\s+", " ", text.replace("\u00a0", " ")), pages, size

    @unittest.skipUnless(shutil.which("tidy"), "tidy is not installed")
    def test_every_sheet_is_valid_html(self):
        for job in JOBS.values():
            for purpose in PURPOSES:
                for more in (("--units", "inch"), ("--language", "es", "--paper", "letter")):
                    page = self.report(job, "--for", purpose, *more)
                    self.tidied(page)
                    self.assertTrue(page.startswith("<!doctype html>\n<html lang=\"%s\">" % ("es" if "es" in more else "en")))
        for purpose in PURPOSES:
            self.tidied(self.report(*SCHEDULE, "--for", purpose, code=2))

    def test_it_fetches_nothing_and_runs_nothing(self):
        for purpose in PURPOSES:
            page = self.report(SCHEDULE[0], *SCHEDULE[1:], "--for", purpose, code=2)
            self.assertNotRegex(page, r"(?i)<script|<link|<img|<iframe|<object|@import|url\(|\son\w+=|javascript:")
            self.assertEqual(set(re.findall(r"https?://[^\"' <)]*", page)), {"http://www.w3.org/2000/svg"})
            self.assertIn("default-src 'none'", html.unescape(page))

    # ---- the figures are check's -------------------------------------------------------------------

    def figures_of(self, answer, inch):
        """What stands in the table of each sheet of glass, as text, from the JSON of check."""
        warm = (lambda c: 1.8 * c + 32) if inch else (lambda c: c)
        # 1 psi = 6894.757 Pa; shown to ten.
        stress = (lambda mpa: f"{round(mpa * 1e6 / 6894.757 / 10) * 10:.0f}") if inch else (lambda mpa: f"{mpa:.1f}")
        for lite in answer["lites"]:
            before, after = lite["before_film"], lite["after_film"]
            both = lambda key, text: f"{text(before[key])} \u2192 {text(after[key])}"
            yield both("absorbed_fraction", lambda x: f"{100 * x:.0f} %")
            yield both("center_temperature_c", lambda x: f"{warm(x):.1f}")
            yield both("edge_temperature_c", lambda x: f"{warm(x):.1f}")
            yield both("peak_edge_stress_mpa", stress)
            yield both("peak_edge_stress_middle_mpa", stress)
            yield f"{stress(after['allowable_edge_stress_mpa'])} / {stress(after['refer_edge_stress_mpa'])}"
            yield both("stress_ratio", lambda x: f"{x:.2f}")
        for key in ("solar_transmittance", "solar_reflectance", "shgc", "u_value_en673_w_m2k"):
            yield f"{answer['glazing']['before_film'][key]:.2f} \u2192 {answer['glazing']['after_film'][key]:.2f}"

    def holds(self, text, job, inch):
        answer = json.loads(self.answered("check", str(job), "--json", *(("--units", "inch") if inch else ())))
        for figure in self.figures_of(answer, inch):
            self.assertIn(figure, text)
        for reason in answer["reasons"]:
            self.assertIn(re.sub(r"\s+", " ", reason["text"]), text)
        for unknown in answer["unknowns"]:
            self.assertIn(unknown["why"], text)
        for rule in answer["rules"]:
            self.assertIn(f"{rule['id']}: {rule['text']}", text)
        for words in [answer["to_do"], answer["safety_note"], answer["reference_version"], *answer["helps"]]:
            self.assertIn(words, text)
        self.curves_agree(text, answer, inch)

    def curves_agree(self, text, answer, inch):
        """The pictures' tables: their highest stress, and middle and edge in the worst hour, are the answer's."""
        which = answer["governing"]
        sheets = [s for s in answer["lites"]]
        worst = max(sheets, key=lambda s: s["after_film"]["stress_ratio"])["after_film"]
        self.assertAlmostEqual(worst["stress_ratio"], answer["stress_ratio"], places=9)
        hour = f"{int(which['local_hour'] * 60 + 0.5) // 60}:{int(which['local_hour'] * 60 + 0.5) % 60:02}"
        day = re.search(r"hour ((?:\d+:\d\d )+)middle ((?:-?[\d.]+ )+)edge ((?:-?[\d.]+ )+)", text)
        at = day.group(1).split().index(hour)
        warm = (lambda c: 1.8 * c + 32) if inch else (lambda c: c)
        self.assertAlmostEqual(float(day.group(2).split()[at]), warm(worst["center_temperature_c"]), delta=0.11)
        self.assertAlmostEqual(float(day.group(3).split()[at]), warm(worst["edge_temperature_c"]), delta=0.11)
        table = re.search(r"0 % 25 % 50 % 75 % 100 % ((?:(?:bottom|right|top|left) (?:-?[\d.]+ ){5}){4})", text)
        most = max(float(x) for x in re.findall(r"-?[\d.]+", table.group(1)))
        highest = worst["peak_edge_stress_mpa"] * (1e6 / 6894.757 if inch else 1.0)
        self.assertLess(most, highest * 1.001 + 1)
        # Between the table's five places a side the stress may be higher; it is no more than twice as high anywhere here.
        self.assertGreater(most, 0.5 * highest)

    def test_the_files_figures_are_those_of_check(self):
        for name, job in JOBS.items():
            for inch in (False, True):
                with self.subTest(name, inch=inch):
                    page = self.report(job, "--for", "file", *(("--units", "inch") if inch else ()))
                    self.holds(visible(page).replace(" :", ":"), job, inch)

    def test_the_maker_is_told_the_figures(self):
        for job in JOBS.values():
            answer = json.loads(self.answered("check", str(job), "--json"))
            text = visible(self.report(job, "--for", "maker"))
            for figure in list(self.figures_of(answer, False))[:-4]:
                self.assertIn(figure, text)
            for line in ("The maker's answer", "Yes / no / on these conditions", "Name", "Date", "Your reference"):
                self.assertIn(line, text)

    def test_the_customer_is_told_no_stress_and_no_odds(self):
        for job, languages in [*((job, ("en", "es")) for job in JOBS.values()), (SLOW, ("es",))]:
            for language in languages:
                text = visible(self.report(job, "--for", "customer", "--language", language))
                self.assertNotRegex(text, r"MPa|psi\b|\b1 in \d|\b1 en \d|(?i:odds|stress|esfuerzo|probabilidad)")
                self.assertNotRegex(text, r"(?i)\bsafe\b|\bapproved\b|\bsegur[oa]\b|\baprobad[oa]\b")
        self.assertIn("keep the piece where the crack begins with 15 cm", visible(self.report(JOBS["single"], "--for", "customer")))

    def test_in_spanish_nothing_of_ours_is_english(self):
        with open(HERE.parents[1] / "reference/texts.csv", encoding="utf-8", newline="") as file:
            rows = [row for row in csv.reader(file)][1:]
        ours = [english for english, spanish in rows if english != spanish and len(english) > 12 and "{" not in english and " " in english]
        self.assertGreater(len(ours), 500)
        for job in JOBS.values():
            for purpose in PURPOSES:
                text = re.sub(r"\[[^][]*\]", "", visible(self.report(job, "--for", purpose, "--language", "es")))  # sources stay
                self.assertEqual([words for words in ours if words in text], [])

    # ---- on paper ------------------------------------------------------------------------------------

    @unittest.skipUnless(PDF, "weasyprint or poppler-utils is not installed")
    def test_pdf_text_pages_and_paper(self):
        sizes = {"a4": (595.28, 841.89), "letter": (612.0, 792.0)}  # ISO 216 and ANSI/ASME Y14.1, in points
        for name, job in JOBS.items():
            for purpose in PURPOSES:
                paper, units, language = ("letter", "inch", "en") if purpose == "file" else ("letter", "metric", "es")
                with self.subTest(name, purpose=purpose):
                    text, pages, size = self.pdf(job, "--for", purpose, "--paper", paper, "--units", units, "--language", language)
                    self.assertLessEqual(pages, 2 if purpose == "file" else 1)
                    self.assertTrue(all(abs(a - b) < 1 for a, b in zip(size, sizes[paper])), size)
                    if purpose == "file":
                        answer = json.loads(self.answered("check", str(job), "--json", "--units", "inch"))
                        for figure in self.figures_of(answer, True):
                            self.assertIn(figure, text)
        text, pages, size = self.pdf(JOBS["sealed"], "--for", "file")
        self.assertTrue(all(abs(a - b) < 1 for a, b in zip(size, sizes["a4"])), size)
        self.assertIn("page 2 / 2", text)
        answer = json.loads(self.answered("check", str(JOBS["sealed"]), "--json"))
        for figure in self.figures_of(answer, False):
            self.assertIn(figure, text)

    @unittest.skipUnless(PDF, "weasyprint or poppler-utils is not installed")
    def test_a_schedule_is_one_document_with_a_summary(self):
        text, pages, _ = self.pdf(*SCHEDULE, "--for", "maker", code=2)
        self.assertEqual(pages, 1 + 7)
        self.assertLessEqual(self.pdf(*SCHEDULE, "--for", "file", code=2)[1], 1 + 2 * 7)
        rows = list(map(json.loads, self.run_program("schedule", *SCHEDULE, "--json").stdout.decode().split("\n")[:-1]))
        for row in rows:
            if row["verdict"] == "error":
                self.assertIn(row["error"][:40].split(": ", 1)[1], text)
            else:
                self.assertIn(f"{row['stress_ratio']:.2f}", text.split("Question to the maker", 1)[0])

    def test_a_schedule_says_which_row_has_no_answer(self):
        done = self.run_program("report", *SCHEDULE, *DAY, "--for", "file")
        self.assertEqual(done.returncode, 2)
        self.assertIn("pane.height", done.stderr.decode())
        text = visible(done.stdout.decode())
        self.assertIn("No answer", text)
        self.assertIn("Expected breaks", text)
        one = self.run_program("report", *SCHEDULE, *DAY, "--for", "file", "--threads", "1").stdout
        self.assertEqual(one, done.stdout)

    # ---- what people type ------------------------------------------------------------------------------

    def test_papers(self):
        page = visible(self.report(EXAMPLES / "stair-window.toml", "--for", "file", "--papers", EXAMPLES / "stair-papers.toml"))
        digest = hashlib.sha256((EXAMPLES / "stair-corner.svg").read_bytes()).hexdigest()  # FIPS 180-4, Python's hashlib
        for words in ("Tallow Lane pottery", "3-0417, cut from roll 2", "table of glass and film, page 4", "third", digest,
                      "stair-corner.svg", "Ines Marrow", "hidden in the frame; no rust at the beads", "for five years"):
            self.assertIn(words, page)
        empty = visible(self.report(EXAMPLES / "stair-window.toml", "--for", "file"))
        for words in ("Condition of the edges", "Damage", "Photos, by name", "Lot or roll", "Terms", "signature"):
            self.assertIn(words, empty)

    def test_hostile_texts_are_text(self):
        nasty = "<script>alert(1)</script> \"quoted\" 'x' & \u202egnp.exe\u2066 " + "W" * 300
        job = self.known('name = "Reading room, east bay"', "name = '''" + nasty.replace("'x'", "x") + "'''\naddress = \"</title><b>\"")
        papers = self.file('[customer]\nname = """%s"""\n[[cover]]\nterms = "a\\nb</style>"\n' % nasty.replace('"quoted"', "q"), "papers.toml")
        for purpose in PURPOSES:
            page = self.report(job, "--for", purpose, "--papers", papers)
            self.assertNotRegex(page, r"(?i)<script|<b>\s*</title>|</title><b>|\u202e|\u2066")
            self.assertEqual(page.count("</style>"), 1)
            self.assertIn("&lt;script&gt;alert(1)&lt;/script&gt;", page)
            self.tidied(page)

    @unittest.skipUnless(PDF, "weasyprint or poppler-utils is not installed")
    def test_a_long_word_stays_on_the_paper(self):
        job = self.known('name = "Reading room, east bay"', 'name = "%s"' % ("W" * 300))
        path = self.directory / "long.pdf"
        self.answered_quietly("report", job, "--for", "file", *DAY, "-o", str(path))
        boxes = subprocess.run(["pdftotext", "-bbox", str(path), "-"], capture_output=True, check=True).stdout.decode()
        rights = [float(x) for x in re.findall(r'xMax="([\d.]+)"', boxes)]
        self.assertGreater(len(rights), 100)
        self.assertLess(max(rights), 595.3 - 20)

    def answered_quietly(self, *words):
        done = self.run_program(*words)
        self.assertEqual((done.returncode, done.stdout, done.stderr), (0, b"", b""))

    # ---- refusals ----------------------------------------------------------------------------------------

    def test_refusals(self):
        job, base = self.known(), ("report", self.known(), "--for", "file")
        out = self.directory / "sheet.html"
        self.refused("report", job, says=["--for customer"])
        self.refused("report", job, "--for", "friend", says=["--for", "customer, file, maker"])
        self.refused("report", "--for", "file", says=["name a job file"])
        self.refused(*base, "--paper", "a5", says=["a4, letter"])
        self.refused(*base, "--date", "soon", says=["--date", "soon"])
        self.refused(*base, "-o", str(self.directory / "sheet.doc"), says=["FILE.html, FILE.pdf"])
        self.refused(*base, "-o", str(self.directory / "none/sheet.html"), says=["cannot be written"])
        self.refused("report", job, SCHEDULE[0], "--for", "file", says=["reported alone"])
        self.refused("report", str(self.directory / "none.toml"), "--for", "file", "-o", str(out), says=["none.toml"])
        for text, says in (("[custmer]\nname = 'x'\n", ["custmer", "customer"]),
                           ("[customer]\nnme = 'x'\n", ["nme", "nearest is name"]),
                           ("[customer]\nname = 3\n", ["name", "text between quotes"]),
                           ("guidance = 'x'\n", ["guidance", "[[guidance]]"]),
                           ("[[film]]\nlot = 'x'\n", ["film", "[film]"]),
                           ("[[on_site]]\nphotos = ['none.jpg']\n", ["none.jpg", "no ordinary file"]),
                           ("[[on_site]]\npane = 'East bay'\n", ["East bay", "job.name"]),
                           ("", ["is empty"]), ("name = \n", ["line 1"])):
            papers = self.file(text, "papers.toml")
            self.refused(*base, "--papers", papers, "-o", str(out), says=says)
        self.assertFalse(out.exists())
        self.assertEqual([p.name for p in self.directory.iterdir() if "unfinished" in p.name], [])

    def test_without_the_renderer_a_pdf_is_refused_and_names_the_package(self):
        out = self.directory / "sheet.pdf"
        self.refused("report", self.known(), "--for", "file", "-o", str(out), says=["weasyprint", "apt-get install"],
                     env={**os.environ, "PATH": str(self.directory)})
        self.assertEqual(list(self.directory.glob("sheet*")), [])

    def test_a_renderer_that_fails_leaves_nothing(self):
        fake = self.directory / "weasyprint"
        for body in ("echo no such font >&2; exit 1", "exit 0", "kill -9 $$"):
            fake.write_text("#!/bin/sh\n" + body + "\n")
            fake.chmod(0o755)
            self.refused("report", self.known(), "--for", "file", "-o", str(self.directory / "sheet.pdf"), code=3,
                         says=["weasyprint made no PDF"], env={**os.environ, "PATH": f"{self.directory}:/usr/bin:/bin"})
        self.assertEqual(list(self.directory.glob("sheet*")), [])

    def test_ctrl_c_while_it_is_rendered_leaves_nothing(self):
        fake = self.directory / "weasyprint"
        fake.write_text("#!/bin/sh\ntouch %s/started\nexec sleep 60\n" % self.directory)
        fake.chmod(0o755)
        scratch = self.directory / "tmp"
        scratch.mkdir()
        process = subprocess.Popen([harness.PROGRAM, "report", self.known(), "--for", "file", "-o", str(self.directory / "sheet.pdf")],
                                   env={**os.environ, "PATH": f"{self.directory}:/usr/bin:/bin", "TMPDIR": str(scratch)},
                                   stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True)
        until = time.monotonic() + 120
        while not (self.directory / "started").exists() and time.monotonic() < until:
            time.sleep(0.05)
        os.killpg(process.pid, signal.SIGINT)  # as a terminal does it: to the program and what it started
        out, error = process.communicate(timeout=30)
        self.assertEqual((process.returncode, out), (130, b""), error)
        self.assertIn(b"nothing was written", error)
        self.assertEqual((list(self.directory.glob("sheet*")), list(scratch.iterdir())), ([], []))

    def test_a_full_disk_leaves_the_old_sheet(self):
        out = self.directory / "sheet.html"
        out.write_text("before")
        # The file's size is limited: a write past it fails as on a full disk (setrlimit(2), EFBIG).
        def small():
            signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
            resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))
        self.refused("report", self.known(), "--for", "file", "-o", str(out), code=3, says=["could not be written"], preexec_fn=small)
        self.assertEqual(out.read_text(), "before")
        self.assertEqual([p.name for p in self.directory.iterdir() if "unfinished" in p.name], [])


if __name__ == "__main__":
    harness.main()
