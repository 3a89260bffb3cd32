"""sunstrain break: the answer as text and JSON, in both units and languages; what it never says; every refusal."""
import csv
import json
import math
import pathlib
import re

from harness import ProgramTest, main

SOURCE = pathlib.Path(__file__).resolve().parents[2]
EXAMPLE = str(SOURCE / "examples/reading-room-crack.toml")
DAY = '[day]\ndate = "2025-01-20"\nlowest = "-20 C"\nhighest = "-9 C"\nsky = "clear"\n'
SQUARE = '[origin]\nplace = "edge"\nangle_to_edge = 90\nangle_to_face = 90\n'

# What would claim or deny a cause, in either language.
NEVER = [r"caused by", r"not caused", r"film (has |had )?caused", r"because of the film", r"due to (the )?film", r"blame",
         r"film('s| is| was)? (to blame|guilty|innocent)", r"\bfault of the (film|glass|crew|owner)",
         r"causad[oa]s? por", r"caus[óo] la película", r"la película (no )?caus", r"por culpa de", r"debid[oa] a la película",
         r"\bsafe\b", r"\bapproved\b", r"\bsegur[oa]\b", r"\baprobad[oa]\b"]


def plain(text):
    return " ".join(text.split())


class BreakTest(ProgramTest):
    def report(self, text, name="crack.toml"):
        return self.file(text, name)

    def with_job(self, text):
        self.known()
        return self.report('job = "job.toml"\n' + text)

    def json_of(self, *words):
        return json.loads(self.answered("break", "--json", *words))

    def never_says(self, text):
        for phrase in NEVER:
            self.assertNotRegex(text.lower(), phrase)

    def test_the_example_in_both_languages_and_units(self):
        words = {}
        for language in ("en", "es"):
            for units in ("metric", "inch"):
                for width in ("60", "80", "120"):
                    text = self.answered("break", EXAMPLE, "--language", language, "--units", units, "--width", width)
                    self.assertLessEqual(max(map(len, text.splitlines())), int(width))
                    self.never_says(text)
                    words[language, units] = plain(text)
        self.assertIn("CONSISTENT WITH THERMAL", words["en", "metric"])
        self.assertIn("COMPATIBLE CON LO TÉRMICO", words["es", "metric"])
        self.assertIn("origin first fork 178 mm: about 5.2 MPa", words["en", "metric"])
        self.assertIn("origin first fork 7 in: about 760 psi", words["en", "inch"])
        self.assertIn("primera bifurcación 7 in: cerca de 760 psi", words["es", "inch"])
        self.assertIn("[4, recalled]", words["en", "metric"])

    def test_the_parts_of_the_answer_in_their_order(self):
        text = self.answered("break", EXAMPLE)
        labels = [line[:11].strip() for line in text.splitlines()[1:] if line[:1].strip()]
        self.assertEqual(labels, ["Why", "Seen", "For heat", "Against", "Weak edge", "No say", "Stress", "Engine",
                                  "Not known", "Could turn", "Keep", "Handling", "Note", "Sources"])
        text = plain(text)
        for words in ("The origin piece: both sides of the crack", "Mark both faces", "with both sides present",
                      "Cut-proof gloves", "who or what is at fault",
                      "qualified examiner decide", "local codes and licensed practice", "no promise"):
            self.assertIn(words, text)

    def test_json_and_text_have_the_same_figures(self):
        answer = self.json_of(EXAMPLE)
        text = plain(self.answered("break", EXAMPLE))
        self.assertEqual(answer["schema"], "sunstrain-break-1")
        self.assertEqual(answer["result"], "consistent with thermal")
        sign = answer["stress"]["signs"][0]
        self.assertAlmostEqual(sign["likely_mpa"], 2.2 / math.sqrt(answer["seen"]["origin.first_fork"]), places=9)
        self.assertIn(f"about {sign['likely_mpa']:.1f} MPa ({sign['least_mpa']:.1f} MPa to {sign['most_mpa']:.1f} MPa)", text)
        engine = answer["engine"]
        self.assertIn(f"most likely {engine['edge_stress_middle_mpa']:.1f} MPa ({engine['band_middle']} stress)", text)
        self.assertIn(f"bad end {engine['edge_stress_mpa']:.1f} MPa ({engine['band']} stress)", text)
        self.assertIn(answer["result_text"], text)
        for clue in answer["clues"]:
            self.assertIn(clue["text"], text)
        for advice in answer["keep"] + answer["handling"] + [answer["note"], answer["safety_note"]]:
            self.assertIn(advice, text)

    def test_the_engine_has_the_day_as_the_record_works_it(self):
        record = str(self.directory / "crew.record")
        self.answered("record", "add", "-r", record, "--begin", self.known())
        rerun = json.loads(self.answered("record", "rerun", "1", "-r", record, "--day", "2025-01-20", "--low", "-20C",
                                         "--high", "-9C", "--sky", "clear", "--json"))["given_day"]
        engine = self.json_of(self.with_job(DAY))["engine"]
        for key in ("edge_stress_mpa", "edge_stress_without_film_mpa", "stress_ratio", "edge_stress_middle_mpa",
                    "local_hour", "month", "day", "cloud"):
            self.assertEqual(engine[key], rerun[key], key)

    def test_engine_and_crack_side_by_side(self):
        cold = self.json_of(self.with_job(DAY))["engine"]
        self.assertIsNone(cold["beside_the_break"])
        bands = ["low", "middle", "high"]
        def near(fork):
            return self.json_of(self.with_job(f'[origin]\nfirst_fork = "{fork}"\n' + DAY))["engine"]["beside_the_break"]
        span = [bands.index(cold["band_middle"]), bands.index(cold["band"])]
        for fork, band in (("300 mm", 0), ("50 mm", 1), ("4 mm", 2)):
            expected = "lower" if max(span) < band else "higher" if min(span) > band else "same band"
            self.assertEqual(near(fork), expected)
        # The three of them come about on one pane: by the sky.
        overcast = self.with_job('[origin]\nfirst_fork = "4 mm"\n' + DAY.replace("clear", "overcast"))
        self.assertEqual(self.json_of(overcast)["engine"]["beside_the_break"], "lower")

    def test_found_before_the_peak_is_said(self):
        hour = self.json_of(self.with_job(DAY))["engine"]["local_hour"]
        for found, said in ((hour - 1, True), (hour + 1, False)):
            text = plain(self.answered("break", self.with_job(DAY + f'found = "{found:.2f} h"\n')))
            self.assertEqual("found before that hour" in text, said)

    def test_nothing_known_cannot_tell(self):
        template = self.report(self.answered("break", "--template"))
        answer = self.json_of(template)
        self.assertEqual((answer["result"], answer["clues"], answer["seen"]), ("cannot tell", [], {}))
        self.assertEqual(answer["stress"]["bands"], [])
        self.assertIsNone(answer["engine"])
        self.assertIn("names no job", answer["engine_not_worked"])
        self.assertGreater(len(answer["not_known"]), 20)
        self.assertTrue(all(row["find_out"] for row in answer["not_known"]))
        unknown = self.report('[crack]\npath = "unknown"\n[origin]\nfirst_fork = "unknown"\nplace = "unknown"\n')
        self.assertEqual(self.json_of(unknown)["not_known"], answer["not_known"])
        for language in ("en", "es"):
            text = self.answered("break", template, "--language", language)
            self.never_says(text)

    def test_a_part_of_the_day_not_known_is_named(self):
        text = plain(self.answered("break", self.with_job(DAY.replace('sky = "clear"\n', ""))))
        self.assertIn("Not worked: it takes day sky.", text)
        self.assertIn("On the worst design day of the year it would be", text)

    def test_conflict_and_against(self):
        self.assertEqual(self.json_of(self.report(SQUARE))["result"], "consistent with thermal")
        self.assertEqual(self.json_of(self.report(SQUARE + 'impact = "yes"\n'))["result"], "cannot tell")
        self.assertEqual(self.json_of(self.report('[crack]\npieces = "dice"\npair = "yes"\n'))["result"], "not consistent")
        text = plain(self.answered("break", self.report(SQUARE + 'impact = "yes"\n')))
        self.assertIn("The clues disagree. Strong clues for heat: 2; clues against it: 1, of them decisive: 1.", text)

    def test_settings_go_over_the_report_or_its_job(self):
        path = self.with_job(DAY)
        base = self.json_of(path)
        more = self.json_of(path, "--set", "origin.first_fork=20 mm", "--set", "film.solar_absorptance=0.5",
                            "--set", "film.solar_transmittance=0.4")
        self.assertEqual(more["stress"]["bands"], ["high"])
        self.assertGreater(more["engine"]["edge_stress_mpa"], base["engine"]["edge_stress_mpa"])
        self.assertEqual(self.json_of(path, "--set", "day.sky=unknown")["engine"], None)
        self.refused("break", self.report(SQUARE), "--set", "pane.width=1 m", says=["--set pane.width=1 m", "names no job"])
        self.refused("break", path, "--set", "orign.place=edge", says=["orign.place", "origin.place"])

    def test_the_job_is_found_from_where_the_report_lies(self):
        folder = self.directory / "reports"
        folder.mkdir()
        self.known()
        (folder / "crack.toml").write_text('job = "../job.toml"\n' + DAY)
        self.assertIsNotNone(self.json_of(str(folder / "crack.toml"))["engine"])
        done = self.run_program("break", "-", "--json", stdin=None, input=b'job = "job.toml"\n' + DAY.encode(),
                                cwd=self.directory)
        self.assertEqual((done.returncode, json.loads(done.stdout)["source"]), (0, "standard input"))
        self.refused("break", self.report('job = "nowhere.toml"\n'), says=["nowhere.toml"])
        self.refused("break", self.report('job = "crack.toml"\n'), says=["crack.toml"])

    def test_the_lite_that_cracked(self):
        single = self.with_job('[crack]\nlite = "middle"\n' + DAY)
        self.refused("break", single, says=["crack.toml", "crack.lite", "no middle lite"])
        unit = str(SOURCE / "examples/school-low-e.toml")
        lites = [self.json_of(self.report(f'job = "{unit}"\n[crack]\nlite = "{lite}"\n' + DAY))["engine"]
                 for lite in ("outer", "inner", "several")]
        self.assertEqual([one["lite"] for one in lites[:2]], ["outer lite", "inner lite"])
        self.assertNotEqual(lites[0]["edge_stress_mpa"], lites[1]["edge_stress_mpa"])
        self.assertEqual(lites[2]["stress_ratio"], max(one["stress_ratio"] for one in lites[:2]))

    def test_bad_input(self):
        path = self.report(SQUARE)
        self.refused("break", says=["break", "--template"])
        self.refused("break", path, path, says=["name one report"])
        self.refused("break", "nowhere.toml", says=["nowhere.toml"])
        self.refused("break", str(self.directory), says=["directory"])
        self.refused("break", "--template", path, says=["--template"])
        self.refused("break", "--template", "--json", says=["--template"])
        self.refused("break", path, "--width", "10", says=["--width"])
        self.refused("break", path, "--units", "feet", says=["--units"])
        self.refused("break", path, "--rules", "x", says=["--rules"])
        self.refused("break", self.report(""), says=["empty"])
        self.refused("break", self.report("[origin\n"), says=["line 1"])
        self.refused("break", self.report('[pane]\nwidth = "1 m"\n'), says=["[pane]", "belongs in the job file"])
        self.refused("break", self.report(b"note = \"\xff\"\n"), says=["crack.toml"])
        for language in ("en", "es"):
            self.refused("break", self.report('[origin]\nplace = "egde"\n'), "--language", language, says=["edge"])

    def test_hostile_text_stays_text(self):
        for text in ('note = "<script>alert(1)</script> {} {0} %s %n \\\\u0000"\n', 'note = "' + "x " * 240 + '"\n',
                     'note = "😀 \u202e reversed"\n'):
            path = self.report(text)
            self.assertIn(json.loads(self.answered("break", path, "--json"))["seen"]["note"][:20], text.replace("\\\\", "\\"))
            self.assertLessEqual(max(map(len, self.answered("break", path).splitlines())), 600)
        for text in ('note = "\\u001b[31m"\n', 'note = "a\\nb"\n', 'job = "a\\u0007.toml"\n', 'note = "' + "x" * 501 + '"\n',
                     "[" * 5000 + "\n", "note = " + "[" * 3000 + "\n", "[\"\\u001b\"]\na = 1\n", "x" * 100 + "\n"):
            self.refused("break", self.report(text))

    def test_a_full_disk_is_an_error(self):
        with open("/dev/full", "wb") as full:
            done = self.run_program("break", EXAMPLE, stdout=full)
        self.assertEqual(done.returncode, 3)

    def test_no_sentence_of_it_claims_a_cause(self):
        with open(SOURCE / "reference/texts.csv", encoding="utf-8", newline="") as file:
            rows = dict(list(csv.reader(file))[1:])
        tables = (SOURCE / "reference/break.toml").read_text() + (SOURCE / "reference/break_keys.toml").read_text()
        sources = "".join(path.read_text() for path in SOURCE.glob("src/*/break*.cpp"))
        self.never_says(re.sub(r"^#.*$", "", tables, flags=re.M))
        told = re.sub(r'"\s*\n\s*"', "", sources)
        told = [row for row in rows if row in tables or row.replace('"', '\\"').replace("\n", "\\n") in told]
        self.assertGreater(len(told), 150)
        for row in told:
            self.never_says(row)
            self.never_says(rows[row])

    def test_that_test_would_see_one(self):
        for text in ("It was caused by the film.", "This break was not caused by film", "La película causó la grieta",
                     "causada por la película", "no causada por la película", "The film had caused it"):
            with self.assertRaises(AssertionError):
                self.never_says(text)


main()
