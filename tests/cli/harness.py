"""Runs the program and says what it may never do. SUNSTRAIN in the environment names the binary."""
import os
import pathlib
import signal
import subprocess
import tempfile
import unittest

PROGRAM = os.environ["SUNSTRAIN"]

# A pane of which everything is known, so that one run is quick.
KNOWN = """
[job]
name = "Reading room, east bay"
[pane]
width = "37 1/4 in"
height = "1.5 m"
facing = "SE"
tilt = 90
[glass]
panes = 1
[lite.1]
kind = "float"
tint = "clear"
thickness = "6 mm"
treatment = "annealed"
coating = "none"
[edge]
finish = "as-cut"
[frame]
kind = "aluminum"
bite = "12 mm"
color = "dark"
sun = "lit"
[shading]
pattern = "head-band"
share = "30 %"
[inside]
shade = "none"
heat = "none"
[site]
place = "chicago"
ground = "grass"
[film]
solar_absorptance = 0.30
solar_transmittance = 0.60
solar_reflectance = 0.10
reference_glass = "3-mm-clear"
surface = 2
emissivity = 0.87
"""

# The least that makes a job; the rest is for the program to take at its worst.
LEAST = ["--set", "pane.width=1 m", "--set", "pane.height=1.5 m", "--set", "film.solar_absorptance=0.3"]


class ProgramTest(unittest.TestCase):
    def setUp(self):
        directory = tempfile.TemporaryDirectory()
        self.addCleanup(directory.cleanup)
        self.directory = pathlib.Path(directory.name)

    def file(self, content, name="job.toml"):
        path = self.directory / name
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return str(path)

    def known(self, old="", new="", name="job.toml"):
        """A file with the known job, one line of it replaced."""
        self.assertIn(old, KNOWN)
        return self.file(KNOWN.replace(old, new, 1) if old else KNOWN, name)

    def run_program(self, *words, **more):
        more = {"stdin": subprocess.DEVNULL, "stdout": subprocess.PIPE, "stderr": subprocess.PIPE, **more}
        return subprocess.run([PROGRAM, *words], timeout=600, check=False, **more)

    def answered(self, *words, code=0, **more):
        """What it printed when all went well."""
        done = self.run_program(*words, **more)
        self.assertEqual((done.returncode, done.stderr), (code, b""), words)
        self.assertTrue(done.stdout.endswith(b"\n"), words)
        return done.stdout.decode()

    def stopped(self, *words):
        """One line answered, Ctrl-C at the question after it: what was printed in all, and on stderr."""
        process = subprocess.Popen([PROGRAM, *words], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                                   stderr=subprocess.PIPE, cwd=self.directory)
        process.stdin.write(b"1\n")
        process.stdin.flush()
        read = b""
        while read.count(b"\n> ") < 2:
            read += process.stdout.read1(65536)
        process.send_signal(signal.SIGINT)
        out, error = process.communicate(timeout=60)
        self.assertEqual(process.returncode, 130, (read, out, error))
        return (read + out).decode(), error.decode()

    def refused(self, *words, says=(), code=2, **more):
        """Nothing on stdout, and one line on stderr that says what it must."""
        done = self.run_program(*words, **more)
        line = done.stderr.decode(errors="replace")
        self.assertEqual((done.returncode, done.stdout or b""), (code, b""), (words, line))
        self.assertRegex(line, r"\Asunstrain: [^\x00-\x1f\x7f]+\n\Z")
        for part in says:
            self.assertIn(part, line)
        return line


main = unittest.main
