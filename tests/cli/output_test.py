"""Where the answer goes: terminal, pipe, full disk."""
import fcntl
import os
import pty
import struct
import subprocess
import termios

from harness import PROGRAM, LEAST, ProgramTest, main


class Output(ProgramTest):
    def on_terminal(self, *words, columns=80, **environment):
        """What the program writes to a terminal that many columns wide."""
        ours, theirs = pty.openpty()
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))
        keep = {key: value for key, value in os.environ.items() if key not in ("NO_COLOR", "TERM")}
        process = subprocess.Popen([PROGRAM, *words], stdin=subprocess.DEVNULL, stdout=theirs, stderr=subprocess.PIPE,
                                   env={**keep, "TERM": "xterm", **environment})
        os.close(theirs)
        text = b""
        while True:
            try:
                piece = os.read(ours, 65536)
            except OSError:  # the other end is closed
                break
            if not piece:
                break
            text += piece
        os.close(ours)
        self.assertEqual((process.wait(), process.stderr.read()), (0, b""))
        process.stderr.close()
        return text.decode().replace("\r\n", "\n")

    def test_color_only_where_it_is_wanted(self):
        path = self.known()
        plain = self.answered("check", path)
        self.assertNotIn("\x1b", plain)
        self.assertNotIn("\x1b", self.answered("check", path, env={**os.environ, "TERM": "xterm-256color"}))
        self.assertIn("\x1b[", self.on_terminal("check", path))
        self.assertIn("\x1b[", self.on_terminal("check", path, NO_COLOR=""))  # empty counts as unset
        for monochrome in (self.on_terminal("check", path, NO_COLOR="1"), self.on_terminal("check", path, "--no-color"),
                           self.on_terminal("check", path, TERM="dumb")):
            self.assertEqual(monochrome, plain)
        self.assertNotIn("\x1b", self.on_terminal("check", "--json", path))
        self.assertNotIn("\x1b", self.on_terminal("check", "--help"))

    def test_width(self):
        path = self.known()
        for width in (60, 80, 120):
            for words in ([path], [path, "--full"], LEAST):
                text = self.answered("check", *words, "--width", str(width))
                self.assertLessEqual(max(map(len, text.splitlines())), width, text)
        self.assertEqual(self.answered("check", path), self.answered("check", path, "--width", "80"))
        for columns, used in ((72, 72), (20, 60), (500, 200)):
            self.assertEqual(self.on_terminal("check", path, columns=columns, NO_COLOR="1"),
                             self.answered("check", path, "--width", str(used)))

    def test_one_screen_that_opens_with_the_verdict(self):
        for words in ([self.known()], LEAST, [self.known('"float"', '"wired"')]):
            lines = self.answered("check", *words).splitlines()
            self.assertLessEqual(len(lines), 24, "\n".join(lines))
            self.assertRegex(lines[0], r"^\s*(GO|CAUTION|REFER)\b")

    def test_units(self):
        path = self.known()
        metric, inch = self.answered("check", path), self.answered("check", path, "--units", "inch")
        self.assertIn("MPa", metric)
        self.assertIn("psi", inch)
        self.assertNotIn("MPa", inch)
        self.assertEqual(metric, self.answered("check", path, "--units", "metric"))

    def test_full_says_more(self):
        path = self.known()
        self.assertGreater(len(self.answered("check", path, "--full")), len(self.answered("check", path)))

    def test_several_answers_name_their_file(self):
        one, other = self.known(), self.known("0.60", "0.59", "other.toml")
        text = self.answered("check", one, other)
        self.assertLess(text.index(one + ":\n"), text.index(other + ":\n"))
        self.assertIn(self.answered("check", one), text)
        self.assertTrue(text.endswith(self.answered("check", other)))

    def test_the_same_bytes_every_time(self):
        self.assertEqual(self.answered("check", "--json", *LEAST), self.answered("check", "--json", *LEAST))

    def test_an_answer_that_cannot_be_written_is_a_fault(self):
        for words in (["check", self.known()], ["check", "--json", self.known()], ["check", "--template"], ["--version"], [],
                      ["sun", "--place", "boston", "--date", "2026-01-20"]):
            with open("/dev/full", "wb") as full:
                self.refused(*words, code=3, stdout=full, says=["No space left"])
            self.refused(*words, code=3, stdout=None, preexec_fn=lambda: os.close(1), says=["could not be written"])


main()
