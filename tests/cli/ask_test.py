"""sunstrain ask: whole conversations, what is written, and that nothing is when it ends early."""
import os
import pty
import re
import subprocess

from harness import PROGRAM, ProgramTest, main

LOOKS = 7  # questions of the first part when nothing is wrong
SINGLE = ["1"] * LOOKS + ["1", "no odd", "clear", "", "37 1/4 in", "5 ft", "6 mm", "vinyl, hollow", "1/2 in", "none",
                          "", "chicago", "S", "none", "nothing", "none", "nothing", "none"]
FILM = ["0.25", "", "3 mm", "indoors", "Sample 1", "Stair window, rear"]
QUICK = ["1"] * LOOKS + ["1", "946 mm", "1.5 m", "0.25", ""]


class Ask(ProgramTest):
    def talk(self, lines, *words, code=0, error=b""):
        """What was printed; run in the test's own directory."""
        path = self.directory / "lines.txt"
        path.write_text("".join(line + "\n" for line in lines))
        with path.open("rb") as typed:
            done = self.run_program("ask", *words, stdin=typed, cwd=self.directory)
        path.unlink()
        self.assertEqual((done.returncode, done.stderr), (code, error), done.stdout.decode())
        return done.stdout.decode()

    def written(self):
        return sorted(path.name for path in self.directory.iterdir())

    def assert_same_as_check(self, text, name):
        answer = self.answered("check", name, cwd=self.directory)
        self.assertTrue(text.endswith(answer), text)
        self.assertIn(f"sunstrain check {name}\n", text)
        self.assertIn("come first", text.replace("\n", " "))

    def test_a_single_pane_from_the_first_question_to_the_answer(self):
        text = self.talk(SINGLE + FILM + [""])
        self.assertEqual(self.written(), ["stair-window-rear.toml"])
        self.assert_same_as_check(text, "stair-window-rear.toml")
        self.assertRegex(text, r"\n GO \[  \]  Stair window, rear")
        self.assertLessEqual(max(map(len, text.splitlines())), 80)
        self.assertNotIn("Not taken", text)
        asked = re.findall(r"^> ", text, re.M)
        self.assertEqual(len(asked), len(SINGLE + FILM) + 1)

    def test_nothing_known_but_size_and_film(self):
        size = SINGLE.index("37 1/4 in")
        lines = [line if size <= i < size + 2 else "?" for i, line in enumerate(SINGLE)]
        text = self.talk(lines + ["0.3", "", "", "", "", ""], "-o", "bare.toml")
        self.assert_same_as_check(text, "bare.toml")
        job = (self.directory / "bare.toml").read_text()
        self.assertEqual(sorted(re.findall(r"^(\w+) =", job, re.M)), ["height", "solar_absorptance", "width"])
        self.assertIn("Not known.", job)

    def test_a_double_low_e_unit(self):
        lines = ["1"] * LOOKS + ["2", "odd reflection: the 3rd", "clear", "tempered", "", "", "8 years", "1", "1.2 m",
                                 "1.5 m", "4 mm", "4 mm", "wood", "", "1", "lit", "dark", "boston", "SE", "a band along the top",
                                 "25 %", "2 ft", "12 in", "a light blind", "2 in", "yes", "nothing", "none",
                                 "", "0.4", "0.2", "6 mm", "indoors", "", ""]
        text = self.talk(lines, "-o", "unit.toml", "--units", "inch")
        job = (self.directory / "unit.toml").read_text()
        for line in ('panes = "2"', 'coating = "low-e-soft"', 'coating_surface = "3"', 'surface = "4"', 'sun = "lit"',
                     'unit_age = "8 years"', 'overhang_height = "12 in"', 'solar_reflectance = "0.2"'):
            self.assertIn("\n" + line + "\n", job)
        self.assertIn("Inner lite. How thick", text)
        self.assertTrue(text.endswith(self.answered("check", "unit.toml", "--units", "inch", cwd=self.directory)))

    def test_what_stops_a_job_is_said_at_once_and_one_may_stop(self):
        for line, rule in (("cracked", "The glass is cracked"), ("a chip", "The glass is chipped")):
            text = self.talk([line, "enough", "1 m", "1 m", "0.3", ""], "-o", line[:3] + ".toml")
            said = " ".join(text.split())
            self.assertIn("REFER [ ]-> " + rule, said)
            self.assertLess(said.index(rule), said.index("What is the pane made of?"))
            self.assertIn("You can stop here", said)
            self.assertRegex(text, r"\n REFER \[  \]->")
            self.assertEqual(text.count("> "), text.count("]-> ") + 6)
        wired = " ".join(self.talk(["no", "wired", "enough", "1 m", "1 m", "0.3", ""], "-o", "wired.toml").split())
        self.assertIn("This is wired glass", wired)
        self.assertIn('kind = "wired"', (self.directory / "wired.toml").read_text())
        fogged = " ".join(self.talk(["1", "1", "1", "yes", "enough", "1 m", "1 m", "0.3", ""], "-o", "fog.toml").split())
        self.assertIn("CAUTION [ v] The unit is fogged", fogged)
        self.assertNotIn("You can stop here", fogged)

    def test_eight_quick_answers_and_nothing_wrong(self):
        text = self.talk(QUICK, "--quick", "-o", "quick.toml")
        self.assertRegex(text, r"\n GO \[  \]")
        self.assertEqual(text.count("\n> "), 12)

    def test_bad_answers_are_told_and_asked_again(self):
        lines = ["perhaps", "9", "0"] + ["1"] * (LOOKS + 1) + ["37", "wide", "", "?", "37 1/4 in", "20 m", "1.5 m",
                                                               "45", "", "", "50 %", "40 %"]
        text = self.talk(lines, "--quick", "-o", "late.toml")
        self.assertEqual(text.count("Is the glass damaged?"), 4)
        self.assertEqual(text.count("How wide is"), 5)
        self.assertEqual(text.count("How high is"), 2)
        for part in ("write a number from 1 to 3", "unit", "cannot be left open", "ask the supplier"):
            self.assertIn(part, " ".join(text.split()))
        self.assertIn("late.toml", self.written())

    def test_figures_that_cannot_be_lead_back_to_the_film(self):
        start = QUICK[:-2]
        text = self.talk(start + ["", "0.9", "0.3", "0.05", "0.5", "0.3"], "--quick", "-o", "sum.toml")
        said = " ".join(text.split())
        self.assertIn("more than the whole", said)
        self.assertIn("passes through this reference glass", said)
        self.assertEqual((text.count("Solar transmittance (T)"), text.count("Solar reflectance (R)")), (2, 3))
        job = (self.directory / "sum.toml").read_text()
        self.assertIn('solar_transmittance = "0.5"', job)
        self.assertIn('solar_reflectance = "0.3"', job)

    def test_back(self):
        text = self.talk(["back", "cracked", "back", "1", "wired", "BACK", "plain"] + QUICK[2:], "--quick", "-o", "back.toml")
        self.assertIn("no question before this one", text)
        self.assertEqual(text.count("Is the glass damaged?"), 3)
        job = (self.directory / "back.toml").read_text()
        self.assertIn('cracked = "no"', job)
        self.assertNotIn("wired", job)

    def test_quit_and_an_early_end_write_nothing(self):
        self.assertTrue(self.talk(["1", "quit"]).endswith("Nothing was written.\n"))
        self.assertTrue(self.talk(SINGLE + FILM + ["quit"]).endswith("Nothing was written.\n"))
        for lines in ([], ["1"], SINGLE, SINGLE + FILM):
            done = b"sunstrain: ask: the input ended before the last question; nothing was written\n"
            self.talk(lines, code=2, error=done)
        self.assertEqual(self.written(), [])

    def test_a_file_that_is_there_is_never_written_over_unasked(self):
        there = self.directory / "pane.toml"
        there.write_text("mine\n")
        done = self.run_program("ask", "-o", str(there))
        self.assertEqual((done.returncode, done.stdout), (2, b""))
        self.assertIn(b"is there already", done.stderr)
        text = self.talk(QUICK + ["", "no", "other"], "--quick")
        self.assertIn("Write over it?", text)
        self.assertEqual((there.read_text(), self.written()), ("mine\n", ["other.toml", "pane.toml"]))
        self.talk(QUICK + ["pane", "yes"], "--quick")
        self.assertIn("width", there.read_text())
        there.write_text("mine\n")
        self.talk(QUICK, "--quick", "--force", "-o", "pane.toml")
        self.assertIn("width", there.read_text())

    def test_a_name_that_cannot_be_written_is_asked_for_again(self):
        text = self.talk(QUICK + ["good one"], "--quick", "-o", "no/such/folder.toml")
        self.assertIn("cannot be written", text)
        self.assertIn("sunstrain check 'good one.toml'", text)
        self.assertEqual(self.written(), ["good one.toml"])

    def test_ctrl_c(self):
        _, error = self.stopped("ask")
        self.assertEqual(error, "Stopped: nothing was written.\n")
        self.assertEqual(self.written(), [])

    def test_on_a_terminal_what_is_typed_is_not_shown_twice(self):
        ours, theirs = pty.openpty()
        process = subprocess.Popen([PROGRAM, "ask"], stdin=theirs, stdout=theirs, stderr=subprocess.PIPE, cwd=self.directory)
        os.close(theirs)
        os.write(ours, b"cracked\n\x04")
        text = b""
        while True:
            try:
                piece = os.read(ours, 65536)
            except OSError:
                break
            text += piece
        os.close(ours)
        error = process.stderr.read()
        process.stderr.close()
        self.assertEqual(process.wait(), 2, error)
        self.assertIn(b"nothing was written", error)
        self.assertEqual(len(re.findall(rb"cracked\r", text)), 1, text)

    def test_the_sheet(self):
        sheet = self.answered("ask", "--sheet")
        self.assertLessEqual(max(len(line) for line in re.split("[\n\f]", sheet)), 80)
        self.assertIn("Is the glass damaged?", sheet)
        self.refused("ask", "--sheet", "--quick", says=["--sheet"])

    def test_bad_options(self):
        self.refused("ask", "--units", "cubits", says=["metric, inch"])
        self.refused("ask", "stair.toml", says=["options only"])
        self.refused("ask", "-o", "", says=["name a file"])
        self.refused("ask", "--sheets", says=["nearest is --sheet"])


main()
