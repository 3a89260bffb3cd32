"""sunstrain schedule: rows in, rows out, as spreadsheets write them."""
import csv
import io
import json
import math
import os
import pathlib
import re
import signal
import subprocess
import time
import unittest

from harness import KNOWN, PROGRAM, ProgramTest, main

ANSWER = ["answer.verdict", "answer.ratio", "answer.odds", "answer.reason", "answer.rules"]
HEADER = "job.name,pane.width [mm],pane.height,frame.kind,quantity,remark\n"
GOOD = ['stair,946,1.5 m,aluminum,4,"says ""now"", he does"\n', "hall,37 1/4 in,5 ft,wood,2,\n", "attic,600,0.9 m,vinyl,1,x\n"]
BAD = [("zero,0,1 m,wood,1,\n", "pane.width"), ("typo,900,1 m,wod,1,\n", "wood"), ("short,900\n", "cells"),
       ("none,900,1 m,wood,0,\n", "quantity"), ('"open,900,1 m,wood,1,\n', "quote"), ("empty,,1 m,wood,1,\n", "pane.width")]


EXAMPLES = pathlib.Path(__file__).parents[2] / "examples"


class Schedule(ProgramTest):
    def setUp(self):
        super().setUp()
        lines = KNOWN.splitlines(keepends=True)
        left_out = ('name = "Reading', "width =", "height =", "kind = \"aluminum")
        self.defaults = self.file("".join(line for line in lines if not line.startswith(left_out)), "defaults.toml")

    def schedule(self, table, *words, code=0, **more):
        path = self.file(table, "panes.csv")
        done = self.run_program("schedule", path, "--defaults", self.defaults, *words, **more)
        self.assertEqual(done.returncode, code, done.stderr)
        return done

    def rows(self, table, *words, code=0, delimiter=","):
        text = self.schedule(table, *words, code=code).stdout.decode("utf-8-sig")
        return list(csv.DictReader(io.StringIO(text, newline=""), delimiter=delimiter))

    def test_good_rows_and_bad_ones_keep_their_order(self):
        mixed = [GOOD[0], BAD[0][0], GOOD[1], BAD[1][0], "\n", BAD[2][0], BAD[3][0], GOOD[2], BAD[4][0], BAD[5][0]]
        done = self.schedule(HEADER + "".join(mixed), code=2)
        self.assertIn(b"3 of 9 pane types examined, 7 panes; 6 could not be", done.stderr)
        rows = list(csv.reader(io.StringIO(done.stdout.decode(), newline="")))
        self.assertEqual(rows[0], ["job.name", "pane.width [mm]", "pane.height", "frame.kind", "quantity", "remark"] + ANSWER)
        self.assertEqual([row[0] for row in rows[1:]],
                         ["stair", "zero", "hall", "typo", "", "short", "none", "attic", '"open,900,1 m,wood,1,', "empty"])
        self.assertTrue(all(len(row) == len(rows[0]) for row in rows))
        self.assertEqual(rows[1][5], 'says "now", he does')
        for name, says in BAD:
            row = next(row for row in rows if row[0].startswith(name.split(",")[0]))
            self.assertEqual((row[6], row[7]), ("error", ""))
            self.assertRegex(row[9], r"^line \d+: ")
            self.assertIn(says, row[9])
        self.assertEqual(rows[5], [""] * len(rows[0]))

    def test_a_row_says_what_check_says_of_the_pane(self):
        row = self.rows(HEADER + GOOD[0])[0]
        answer = json.loads(self.answered("check", self.known(), "--json", "--set", "pane.width=946 mm"))
        self.assertEqual(row["answer.verdict"], answer["verdict"])
        self.assertEqual(row["answer.ratio"], f"{answer['stress_ratio']:.3f}")
        self.assertEqual(row["answer.reason"], answer["reasons"][0]["text"])
        self.assertEqual(row["answer.rules"].split(), [rule["id"] for rule in answer["rules"]])

    def test_the_same_bytes_for_any_number_of_threads(self):
        table = HEADER + "".join(GOOD + [bad for bad, _ in BAD] + GOOD)
        for more in ([], ["--json"]):
            runs = [self.schedule(table, "--threads", n, *more, code=2) for n in ("1", "2", "5")]
            self.assertEqual(len({(run.stdout, run.stderr) for run in runs}), 1)

    def test_as_spreadsheets_save_it(self):
        plain = [(row["answer.verdict"], row["answer.ratio"]) for row in self.rows(HEADER + "".join(GOOD))]
        semicolons = "\ufeffjob.name;pane.width [mm];pane.height;frame.kind;quantity;remark\r\n" \
                     "stair;946,0;1,5 m;aluminum;4;a,b\r\nhall;37 1/4 in;5 ft;wood;2;\r\n\r\nattic;600;0,9 m;vinyl;1;x\r\n"
        done = self.schedule(semicolons)
        self.assertTrue(done.stdout.startswith(b"\xef\xbb\xbfjob.name;"))
        self.assertEqual(done.stdout.count(b"\r\n"), done.stdout.count(b"\n"))
        rows = [row for row in self.rows(semicolons, delimiter=";") if row["job.name"]]
        self.assertEqual([(row["answer.verdict"], row["answer.ratio"].replace(",", ".")) for row in rows], plain)
        self.assertEqual(rows[0]["remark"], "a,b")
        rows = self.rows((HEADER + "".join(GOOD[1:])).replace(",", "\t"), delimiter="\t")
        self.assertEqual([(row["answer.verdict"], row["answer.ratio"]) for row in rows], plain[1:])

    def test_latin_1(self):
        # ISO 8859-1: 0xE9 is e with acute, 0xBD one half
        row = self.rows(b"job.name,pane.width,pane.height,frame.kind,\xe9tage\ncaf\xe9,37 \xbd in,5 ft,wood,2\n")[0]
        self.assertEqual((row["job.name"], row["\u00e9tage"]), ("caf\u00e9", "2"))
        self.assertNotEqual(row["answer.verdict"], "error")

    def test_standard_input_to_standard_output_row_by_row(self):
        running = subprocess.Popen([PROGRAM, "schedule", "-", "--defaults", self.defaults, "--threads", "2"],
                                   stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        with running:
            for line in [HEADER, *GOOD]:
                running.stdin.write(line.encode())
                running.stdin.flush()
                # the answer comes before the next row is there
                self.assertTrue(running.stdout.readline().startswith(line.split(",")[0].encode()))
            running.stdin.close()
            self.assertEqual(running.stdout.read(), b"")
            self.assertIn(b"3 of 3 pane types examined", running.stderr.read())
        self.assertEqual(running.returncode, 0)

    def test_ctrl_c_leaves_the_rows_that_were_done(self):
        out = self.directory / "out.csv"
        running = subprocess.Popen([PROGRAM, "schedule", "-", "--defaults", self.defaults, "-o", str(out)],
                                   stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        with running:
            running.stdin.write((HEADER + GOOD[0] + GOOD[1] + "half a r").encode())
            running.stdin.flush()
            unfinished = lambda: b"".join(path.read_bytes() for path in self.directory.glob("out.csv.unfinished-*"))
            end = time.monotonic() + 60
            while unfinished().count(b"\n") < 3 and time.monotonic() < end:
                time.sleep(0.02)
            running.send_signal(signal.SIGINT)
            self.assertEqual(running.wait(60), 130)
            summary = running.stdout.read()
        self.assertTrue(summary.startswith(b"Stopped before the end of the table.\n2 of 2 pane types examined"), summary)
        self.assertEqual(out.read_bytes(), self.schedule(HEADER + GOOD[0] + GOOD[1]).stdout)
        self.assertEqual(list(self.directory.glob("out.csv.*")), [])

    def test_json_lines(self):
        done = self.schedule(HEADER + GOOD[0] + BAD[0][0], "--json", code=2)
        good, bad = map(json.loads, done.stdout.decode().splitlines())
        self.assertEqual((good["line"], good["quantity"], bad["line"], bad["verdict"]), (2, 4, 3, "error"))
        self.assertEqual(good["cells"][0], {"column": "job.name", "text": "stair"})
        odds = good["breakage_probability"]
        self.assertTrue(0 <= odds["low"] <= odds["best"] <= odds["high"] <= 1)
        self.assertIn("pane.width", bad["error"])

    def test_the_file_is_there_whole_or_not_at_all(self):
        out = self.directory / "out.csv"
        done = self.schedule(HEADER + GOOD[2], "-o", str(out))
        self.assertIn(b"1 of 1 pane types examined", done.stdout)
        self.assertEqual(done.stderr, b"")
        self.assertEqual(out.read_bytes(), self.schedule(HEADER + GOOD[2]).stdout)
        out.write_text("before")
        path = self.file("mark,floor\n1,2\n", "other.csv")
        self.refused("schedule", path, "-o", str(out), says=["pane.width"])
        self.assertEqual(out.read_text(), "before")
        panes = self.file(HEADER + GOOD[2], "panes.csv")
        self.assertEqual(self.run_program("schedule", panes, "--defaults", self.defaults, "-o", panes).returncode, 0)
        self.assertIn(b"answer.verdict", (self.directory / "panes.csv").read_bytes())
        self.assertEqual(sorted(os.listdir(self.directory)), ["defaults.toml", "other.csv", "out.csv", "panes.csv"])

    def test_the_summary_counts_what_the_rows_say(self):
        self.defaults = str(EXAMPLES / "school-defaults.toml")
        table = "job.name,pane.width,pane.height,frame.kind,pane.facing,quantity\n"
        table += "".join(f"type {i},{600 + 100 * i} mm,1.5 m,{'wood' if i == 3 else 'aluminum'},{'S' if i % 2 else 'N'},{i}\n"
                         for i in range(1, 7)) + "bad,0,1 m,wood,S,1\n"
        done = self.schedule(table, "--json", code=2)
        summary = done.stderr.decode()
        rows = [json.loads(line) for line in done.stdout.decode().splitlines()]
        good = [row for row in rows if row["verdict"] != "error"]
        self.assertTrue(summary.startswith("6 of 7 pane types examined, 21 panes; 1 could not be"), summary)
        self.assertLess(summary.index("frame kind wood: line 4, type 3; 5 of 6 types have aluminum"),
                        summary.index("By verdict"))
        self.assertNotIn("pane facing", summary)
        self.assertIn("local codes and licensed practice come first", " ".join(summary.split()))
        for verdict in ("go", "caution", "refer"):
            those = [row["quantity"] for row in good if row["verdict"] == verdict]
            self.assertRegex(summary, rf"\n  {verdict} +{len(those)} +{sum(those)}\n")
        for facing, odd in (("N", 0), ("S", 1)):
            those = [row for row in good if (row["line"] - 1) % 2 == odd]
            worst = max(row["stress_ratio"] for row in those)
            self.assertRegex(summary, rf"\n  {facing} +{len(those)} +{sum(row['quantity'] for row in those)} .* {worst:.2f}\n")
        self.assertGreater(len({row["verdict"] for row in good}), 1)
        worst = max((row for row in good if row["verdict"] != "go"), key=lambda row: row["stress_ratio"])
        self.assertIn(f"type {worst['line'] - 1}", summary.split("Worst types\n")[1].splitlines()[0])
        # Panes break each for itself: sum of n p, and 1 - product of (1 - p)^n.
        text = " ".join(summary.split("Expected breaks")[1].split())
        low, high, least, most = re.search(r"worst: (.+) to (.+) of 21 panes; .* one: (\S+ ?\S*) to (.+?)\. Note ", text).groups()
        for printed, end in ((low, "low"), (high, "high")):
            self.near(printed, sum(row["quantity"] * row["breakage_probability"][end] for row in good), 0.001)
        for printed, end in ((least, "low"), (most, "high")):
            whole = math.prod((1 - row["breakage_probability"][end]) ** row["quantity"] for row in good)
            self.near(printed.replace(" %", ""), 100 * (1 - whole), 0.1)

    def test_an_overall_unit_thickness(self):
        self.defaults = str(EXAMPLES / "school-defaults.toml")
        header = "pane.width [mm],pane.height [mm],pane.facing,frame.kind,unit.thickness [mm],lite.1.thickness [mm],cavity.1.width [mm]\n"
        size = "900,1200,S,vinyl,"
        rows = self.rows(header + size + "24,,\n" + size + "1 in,,\n" + size + "24,4,16\n" + size + "24,6,40\n", code=2)
        self.assertEqual([row["answer.verdict"] == "error" for row in rows], [False, False, False, True])
        self.assertRegex(rows[3]["answer.reason"], r"^line 5: unit\.thickness = \"24 mm\": no unit .* is that thick")
        # of 24 mm the worst build-up counts: no better than 4-16-4, which the third row gives
        self.assertGreaterEqual(float(rows[0]["answer.ratio"]), float(rows[2]["answer.ratio"]))

    def test_the_example(self):
        done = self.run_program("schedule", str(EXAMPLES / "school-panes.csv"), "--defaults",
                                str(EXAMPLES / "school-defaults.toml"))
        self.assertEqual(done.returncode, 2)
        self.assertIn(b"7 of 8 pane types examined, 46 panes; 1 could not be", done.stderr)
        self.assertIn(b"frame kind wood: line 6, staff room", done.stderr)
        self.assertIn(b'"line 8: pane.height = ""14500 mm"": allowed:', done.stdout)

    def near(self, printed, value, least):
        """Two figures, or that it is under the least or over the most that is printed."""
        if printed.startswith("under"):
            self.assertLess(value, least)
        elif printed.startswith("over"):
            self.assertGreater(value, 99)
        else:
            self.assertAlmostEqual(float(printed), value, delta=0.051 * value)

    @unittest.skipUnless(os.path.exists("/dev/full"), "needs a disk that is full")
    def test_a_full_disk(self):
        with open("/dev/full", "wb") as full:
            done = self.schedule(HEADER + GOOD[2], code=3, stdout=full)
        self.assertRegex(done.stderr, rb"\Asunstrain: [^\n]+could not be written[^\n]+\n\Z")

    def test_bad_input(self):
        panes = self.file(HEADER + GOOD[2], "panes.csv")
        self.refused("schedule", says=["schedule", "table"])
        self.refused("schedule", panes, panes, says=["one table"])
        self.refused("schedule", str(self.directory / "none.csv"), says=["none.csv", "No such file"])
        self.refused("schedule", str(self.directory), says=["directory"])
        self.refused("schedule", self.file("", "empty.csv"), says=["empty.csv", "is empty"])
        self.refused("schedule", self.file(b"\xff\xfea\0", "wide.csv"), says=["wide.csv", "UTF-16"])
        self.refused("schedule", self.file("pane.widht\n", "typo.csv"), says=["pane.widht", "pane.width"])
        self.refused("schedule", self.file("pane.width,answer.ratio\n", "old.csv"), says=["answer.ratio"])
        self.refused("schedule", panes, "--defaults", self.file('weather = "a.epw"\n', "w.toml"), says=["w.toml", "weather"])
        self.refused("schedule", panes, "--defaults", self.file("[fil]\n", "d.toml"), says=["d.toml"])
        self.refused("schedule", panes, "-o", str(self.directory), says=["no ordinary file"])
        self.refused("schedule", panes, "-o", str(self.directory / "no" / "out.csv"), says=["cannot be written"])
        self.refused("schedule", panes, "--output=", says=["--output"])
        for threads in ("0", "-1", "257", "two"):
            self.refused("schedule", panes, f"--threads={threads}", says=["--threads", "1 to 256"])


main()
