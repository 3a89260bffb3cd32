"""Long work: a bar on a terminal, none when piped; Ctrl-C leaves whole output of what was done."""
import json
import os
import pty
import re
import signal
import subprocess
import time

from harness import PROGRAM, ProgramTest, main

HEADER = "job.name,pane.width,pane.height,frame.kind\n"


class Terminal:
    """The program with its standard error on a terminal of its own (and its output too, if asked)."""

    def __init__(self, *words, output=subprocess.PIPE):
        self.master, slave = pty.openpty()
        self.running = subprocess.Popen([PROGRAM, *words], stdin=subprocess.DEVNULL, stderr=slave,
                                        stdout=slave if output is None else output)
        os.close(slave)
        self.drawn = b""

    def read(self, until=None, seconds=120):
        """What was drawn, to the end or until the pattern shows."""
        end = time.monotonic() + seconds
        while time.monotonic() < end and not (until and re.search(until, self.drawn)):
            try:
                piece = os.read(self.master, 4096)
            except OSError:  # the other end is closed
                break
            if not piece:
                break
            self.drawn += piece
        return self.drawn

    def close(self):
        text = self.running.stdout.read() if self.running.stdout else b""
        self.read()
        code = self.running.wait(60)
        if self.running.stdout:
            self.running.stdout.close()
        os.close(self.master)
        return code, text, self.drawn


def on_screen(drawn):
    """What is left to see when carriage returns have gone over it."""
    lines = []
    for line in drawn.decode().replace("\r\n", "\n").split("\n"):
        shown = ""
        for part in line.split("\r"):
            shown = part + shown[len(part):]
        lines.append(shown.rstrip())
    return "\n".join(lines).strip()


class ProgressTest(ProgramTest):
    def jobs(self, count):
        return [self.known(name=f"job-{i}.toml") for i in range(count)]

    def table(self, rows):
        return self.file(HEADER + "".join(f"type {i},{800 + i} mm,1.5 m,wood\n" for i in range(rows)), "panes.csv")

    def test_a_bar_on_a_terminal_gone_at_the_end(self):
        out = str(self.directory / "out.csv")
        words = ["schedule", self.table(40), "--defaults", self.known(), "-o", out]
        code, text, drawn = Terminal(*words).close()
        self.assertEqual(code, 0)
        self.assertRegex(drawn, rb"\[#* *\] +\d+ %  \d+ rows")
        shares = [int(share) for share in re.findall(rb"(\d+) %", drawn)]
        self.assertEqual(shares, sorted(shares))
        self.assertTrue(shares and shares[-1] <= 100, shares)
        self.assertEqual(on_screen(drawn), "")
        self.assertEqual(text, self.run_program(*words).stdout)

    def test_redrawn_at_most_ten_times_a_second(self):
        start = time.monotonic()
        _, _, drawn = Terminal("schedule", self.table(60), "--defaults", self.known(), "-o",
                               str(self.directory / "o.csv")).close()
        # one at the start, then one every tenth of a second, and one to erase it
        self.assertLessEqual(drawn.count(b" rows"), 2 + 10 * (time.monotonic() - start))

    def test_check_and_limit(self):
        jobs = self.jobs(3)
        code, text, drawn = Terminal("check", *jobs).close()
        self.assertEqual((code, text), (0, self.answered("check", *jobs).encode()))
        self.assertRegex(drawn, rb"\[ +\]   0 %  0 of 3 jobs")
        self.assertEqual(on_screen(drawn), "")
        code, text, drawn = Terminal("limit", jobs[0]).close()
        self.assertEqual((code, text), (0, self.answered("limit", jobs[0]).encode()))
        self.assertRegex(drawn, rb"0 films tried")
        self.assertEqual(on_screen(drawn), "")

    def test_no_bar_for_one_job_or_where_rows_go_to_the_terminal(self):
        self.assertEqual(Terminal("check", self.known()).close()[2], b"")
        code, _, drawn = Terminal("schedule", self.table(3), "--defaults", self.known(), output=None).close()
        self.assertEqual(code, 0)
        self.assertNotIn(b" rows", drawn)
        self.assertIn(b"answer.verdict", drawn)

    def test_none_when_piped(self):
        for words in (["check", *self.jobs(2)], ["limit", self.known()]):
            self.assertEqual(self.run_program(*words).stderr, b"")
        done = self.run_program("schedule", self.table(5), "--defaults", self.known(), "-o", str(self.directory / "o.csv"))
        self.assertEqual(done.stderr, b"")

    def test_ctrl_c_ends_check_after_the_job_in_hand(self):
        jobs = self.jobs(400)
        for more in ([], ["--json"]):
            terminal = Terminal("check", *jobs, *more)
            terminal.read(until=rb"[1-9]\d* of 400 jobs")
            terminal.running.send_signal(signal.SIGINT)
            code, text, drawn = terminal.close()
            self.assertEqual(code, 130)
            said = re.fullmatch(r"Stopped: (\d+) of 400 jobs answered\.", on_screen(drawn))
            self.assertTrue(said, on_screen(drawn))
            done = int(said.group(1))
            self.assertTrue(0 < done < 400, done)
            if more:
                self.assertEqual([answer["source"] for answer in json.loads(text)], jobs[:done])
            else:
                self.assertEqual(re.findall(r"(?m)^(\S+\.toml):$", text.decode()), jobs[:done])
                self.assertIn("No", text.decode().splitlines()[-4])  # the last answer has its note: "Note ..."

    def test_ctrl_c_ends_a_schedule_with_whole_rows(self):
        out = self.directory / "out.csv"
        terminal = Terminal("schedule", self.table(3000), "--defaults", self.known(), "-o", str(out))
        terminal.read(until=rb" [1-9]\d* rows")
        terminal.running.send_signal(signal.SIGINT)
        code, text, drawn = terminal.close()
        self.assertEqual((code, on_screen(drawn)), (130, ""))
        self.assertTrue(text.startswith(b"Stopped before the end of the table.\n"), text)
        rows = out.read_bytes().splitlines()
        self.assertTrue(1 < len(rows) < 3001)
        self.assertTrue(all(row.count(b",") >= 8 for row in rows))

    def test_ctrl_c_ends_limit_with_a_line(self):
        terminal = Terminal("limit", "--set", "pane.width=1 m", "--set", "pane.height=1.5 m")
        terminal.read(until=rb" films tried")
        terminal.running.send_signal(signal.SIGINT)
        code, text, drawn = terminal.close()
        self.assertEqual((code, text, on_screen(drawn)), (130, b"", "Stopped before the limit was found."))


main()
