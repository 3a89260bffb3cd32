"""sunstrain practice: whole rounds from a script, the sheet, the crew's table, and what ends a round early."""
import csv
import io
import os
import re
import subprocess

from harness import PROGRAM, ProgramTest, main

COLUMNS = ["date", "learner", "item", "topic", "verdict.answered", "verdict.right", "driver.answered", "driver.right",
           "right", "tables"]
OWN = """
[job]
name = "=HYPERLINK(1)"
note = "What our crew saw."
[pane]
width = "1 m"
height = "1.2 m"
[glass]
panes = 1
[lite.1]
kind = "wired"
[film]
solar_absorptance = 0.3
"""


class Practice(ProgramTest):
    def practice(self, lines, *words, code=0):
        path = self.directory / "lines.txt"
        path.write_text("".join(line + "\n" for line in lines))
        with path.open("rb") as typed:
            done = self.run_program("practice", *words, stdin=typed, cwd=self.directory)
        path.unlink()
        self.assertEqual(done.returncode, code, (done.stdout.decode()[-2000:], done.stderr))
        return done.stdout.decode(), done.stderr.decode()

    def rows(self, name="crew.csv"):
        return list(csv.DictReader(io.StringIO((self.directory / name).read_text())))

    def test_a_window_from_the_question_to_the_sheet(self):
        text, error = self.practice(["caution", "1"], "--count", "1", "--topic", "who-agrees", "--seed", "3",
                                    "--results", "crew.csv", "--learner", "Second crew")
        self.assertEqual(error, "")
        self.assertIn("Rented studio on the wharf", text)
        self.assertIn("On the pad: pane width 900 mm", " ".join(text.split()))
        self.assertIn("history glass owner agrees no", " ".join(text.split()))
        self.assertRegex(text, r"Verdict +Right\. It is caution\.")
        for part in ("Lesson", "Rule P6", "Compare", "stretched most", "CAUTION [ v]", "verdicts right"):
            self.assertIn(part, text)
        self.assertIn("seed 3 Score sheet", " ".join(text.split()))
        self.assertRegex(text, r"\nNote +A screen from what was entered")
        self.assertTrue(text.endswith("A practice record, not a qualification.\n"), text)
        self.assertLessEqual(max(map(len, text.splitlines())), 80)
        row, = self.rows()
        self.assertEqual(list(row), COLUMNS)
        self.assertEqual((row["learner"], row["item"], row["topic"]), ("Second crew", "wharf-studio", "who-agrees"))
        self.assertEqual((row["verdict.answered"], row["verdict.right"]), ("caution", "caution"))
        self.assertRegex(row["date"], r"^\d{4}-\d\d-\d\d \d\d:\d\d$")
        self.assertIn("owner of the glass has not agreed", row["driver.right"])
        self.assertEqual(row["right"] == "yes", row["driver.answered"] == row["driver.right"])
        self.assertIn(row["tables"], self.answered("--version"))
        self.assertIn(row["tables"], text)

    def test_the_answer_is_the_one_of_check(self):
        text, _ = self.practice(["refer", "1"], "--count", "1", "--topic", "own", "--add", self.file(OWN))
        answer = text.split("prints it:\n\n")[1].split("\nsunstrain practice")[0]
        self.assertEqual(answer, self.answered("check", self.file(OWN)))
        self.assertIn("What our crew saw.", text)

    def test_no_answer_stands_in_a_question(self):
        text, _ = self.practice(["go", "1"], "--count", "1", "--topic", "coating", "--seed", "1")
        question = text[:text.index("Verdict")]
        for word in ("CAUTION", "REFER", "of what the edge bears", "Right."):
            self.assertNotIn(word, question)

    def test_the_seed_gives_the_same_round(self):
        lines = ["go", "1"] * 3
        first, _ = self.practice(lines, "--count", "3", "--seed", "5")
        second, _ = self.practice(lines, "--count", "3", "--seed", "5")
        titles = [re.findall(r"---- Window \d of \d ----\n\n(.+)\n", text) for text in (first, second)]
        self.assertEqual(titles[0], titles[1])
        self.assertEqual(len(set(titles[0])), 3)
        offered = [re.findall(r"^ +\d (?:Load|Guidance|Not known): .*$", text, re.M) for text in (first, second)]
        self.assertEqual(offered[0], offered[1])
        other, _ = self.practice(lines, "--count", "3", "--seed", "6")
        self.assertNotEqual(titles[0], re.findall(r"---- Window \d of \d ----\n\n(.+)\n", other))

    def test_drills(self):
        text, _ = self.practice(["1"] * 5, "--drills", "--count", "5", "--seed", "2", "--results", "crew.csv")
        self.assertEqual(text.count("---- Drill"), 5)
        rows = self.rows()
        right = sum(row["right"] == "yes" for row in rows)
        self.assertEqual(len(rows), 5)
        self.assertRegex(text, rf"drills right +{right} of 5")
        for row in rows:
            self.assertEqual(row["right"] == "yes", row["driver.answered"] == row["driver.right"])
            self.assertEqual((row["verdict.answered"], row["verdict.right"]), ("", ""))
        self.assertEqual(text.count("Shows "), 5)
        self.assertEqual(text.count("Not shown "), 5)

    def test_what_is_no_answer_is_asked_again(self):
        text, error = self.practice(["", "perhaps", "4", "GO", "", "9", "x", "2"], "--count", "1", "--topic", "1",
                                    "--seed", "1")
        self.assertEqual(error, "")
        self.assertEqual(text.count("or 1, 2, 3"), 3)
        self.assertEqual(text.count("A number from 1 to"), 3)

    def test_quit_and_the_end_of_the_input_leave_what_was_answered(self):
        text, _ = self.practice(["go", "1", "quit"], "--seed", "4", "--results", "crew.csv")
        self.assertRegex(text, r"verdicts right +\d of 1")
        self.assertEqual(len(self.rows()), 1)
        text, error = self.practice(["go", "1", "go"], "--seed", "4", "--results", "crew.csv", code=2)
        self.assertEqual(error, "sunstrain: practice: the input ended before the last question; what was answered counts\n")
        self.assertRegex(text, r"verdicts right +\d of 1")
        self.assertEqual(len(self.rows()), 2)
        text, _ = self.practice([], code=2)
        self.assertIn("Nothing was answered.", text)

    def test_ctrl_c_prints_the_sheet(self):
        text, error = self.stopped("practice", "--drills", "--seed", "1", "-o", "sheet.txt")
        self.assertEqual(error, "Stopped: the sheet is of what was answered.\n")
        for sheet in (text, (self.directory / "sheet.txt").read_text()):
            self.assertRegex(sheet, r"drills right +\d of 1")

    def test_the_table_takes_several_rounds_and_no_formula(self):
        own = self.file(OWN, "=cmd.toml")
        for learner in ("=1+1", "Net loft"):
            self.practice(["refer", "1"], "--count", "1", "--topic", "own", "--add", own, "--results", "crew.csv",
                          "--learner", learner)
        text = (self.directory / "crew.csv").read_text()
        self.assertEqual(text.count(COLUMNS[0] + ","), 1)
        self.assertEqual([row["learner"] for row in self.rows()], ["'=1+1", "Net loft"])
        self.assertEqual({row["item"] for row in self.rows()}, {"'=cmd"})
        self.assertEqual({row["topic"] for row in self.rows()}, {"own"})

    def test_rows_of_many_at_once_are_whole(self):
        rounds = [subprocess.Popen([PROGRAM, "practice", "--drills", "--count", "18", "--seed", str(i), "--results", "crew.csv",
                                    "--learner", f"learner {i}"], stdin=subprocess.PIPE, stdout=subprocess.DEVNULL,
                                   stderr=subprocess.PIPE, cwd=self.directory) for i in range(8)]
        for one in rounds:
            one.stdin.write(b"1\n" * 18)
            one.stdin.close()
        for one in rounds:
            self.assertEqual((one.wait(timeout=120), one.stderr.read()), (0, b""))
            one.stderr.close()
        rows = self.rows()
        self.assertEqual(len(rows), 8 * 18)
        for row in rows:
            self.assertNotIn(None, row)
            self.assertRegex(row["tables"], r"^[0-9a-f]{16}$")
        self.assertEqual({row["learner"] for row in rows}, {f"learner {i}" for i in range(8)})

    def test_a_table_that_is_another_is_left_alone(self):
        other = self.file("a,b\n1,2\n", "other.csv")
        self.refused("practice", "--results", other, says=["other.csv", "other columns"])
        self.assertEqual((self.directory / "other.csv").read_text(), "a,b\n1,2\n")
        self.refused("practice", "--results", str(self.directory), says=["cannot be opened"])
        self.refused("practice", "--results", "/dev/null", says=["no ordinary file"])
        self.refused("practice", "--results", "", says=["--results"])
        # A table that was saved without its last line end, with other line ends and a mark is one all the same.
        (self.directory / "crew.csv").write_bytes(b"\xef\xbb\xbf" + ",".join(COLUMNS).encode() + b"\r\nx")
        self.practice(["1"], "--drills", "--count", "1", "--results", "crew.csv")
        self.assertEqual((self.directory / "crew.csv").read_bytes().count(b"\n"), 3)

    def test_a_full_disk_leaves_no_half_row(self):
        if not os.path.exists("/dev/full"):
            self.skipTest("no /dev/full")
        self.refused("practice", "--results", "/dev/full", says=["no ordinary file"])

    def test_topics(self):
        text = self.answered("practice", "--topics")
        self.assertLessEqual(max(map(len, text.splitlines())), 80)
        for part in (" 1 no-mark", "18 makers-no", "A hot summer noon is the worst hour"):
            self.assertIn(part, text)

    def test_rules_of_ones_own_count(self):
        rules = self.file('[[rule]]\nid = "Z1"\nseverity = "refer"\nwhen = { fact = "pane.width", above = "100 mm" }\n'
                          'text = "Ask the senior fitter."\n', "rules.toml")
        text, _ = self.practice(["refer", "1"], "--count", "1", "--seed", "1", "--rules", rules)
        self.assertRegex(text, r"Verdict +Right\. It is refer\.")
        self.assertIn("Guidance: Ask the senior fitter.", text)

    def test_bad_options(self):
        self.refused("practice", "--topic", "seasons", says=["no such topic", "nearest is season"])
        self.refused("practice", "--topic", "99", says=["no such topic", "1 to"])
        self.refused("practice", "--topic", "own", says=["there is none of it"])
        self.refused("practice", "--count", "0", says=["--count", "from 1"])
        self.refused("practice", "--seed", "x", says=["--seed"])
        self.refused("practice", "--learner", "", says=["--learner"])
        self.refused("practice", "--learner", "a\nb", says=["one line"])
        self.refused("practice", "--add", "missing.toml", says=["missing.toml"])
        self.refused("practice", "--add", self.file("[pane]\nwidth = \"1 m\"\n"), says=["job.toml", "height"])
        self.refused("practice", "-o", "", says=["--output"])
        self.refused("practice", "windows", says=["options only"])


main()
