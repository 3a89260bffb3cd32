"""sunstrain record under real faults: killed at any moment, a disk that fills or fails, two who write at once.

SUNSTRAIN_KILL_ROUNDS: rounds of kill -9 (the target record_whole asks for 1,000). Faults at each system call are strace's
(its --inject option); without strace, or where tracing is not allowed, those tests are skipped.
"""
import json
import os
import pathlib
import random
import shutil
import signal
import subprocess
import time
import unittest

from harness import PROGRAM, ProgramTest

WRITER = os.environ["RECORD_WRITER"]
ROUNDS = int(os.environ.get("SUNSTRAIN_KILL_ROUNDS", "30"))
TRACES = shutil.which("strace") is not None and \
    subprocess.run(["strace", "-o", "/dev/null", "true"], capture_output=True, check=False).returncode == 0
# What SQLite does to its files.
CALLS = ("openat", "pwrite64", "fdatasync", "fsync", "unlink", "ftruncate", "fcntl", "pread64")


class Fault(ProgramTest):
    def setUp(self):
        super().setUp()
        self.path = str(self.directory / "crew.record")

    def write(self, count, **more):
        return subprocess.run([WRITER, self.path, str(count)], capture_output=True, check=False, timeout=300, **more)

    def verified(self, *words, code=0):
        return json.loads(self.answered("record", "verify", "-r", self.path, "--json", *words, code=code))

    def holds(self, acknowledged):
        """Every acknowledged entry is there: the chain is whole, and the last of them is in it."""
        number, head = acknowledged[-1].split()
        found = self.verified("--head", head, "--entries", number)
        self.assertTrue(found["whole"], found["findings"])
        return found["head"]["entries"]

    def test_kill_9_loses_no_acknowledged_entry(self):
        chance = random.Random(9)
        self.write(1)
        acknowledged, killed_while_writing = [], 0
        for _ in range(ROUNDS):
            writers = [subprocess.Popen([WRITER, self.path, "1000000"], stdout=subprocess.PIPE)
                       for _ in range(chance.choice((1, 1, 2)))]
            time.sleep(chance.uniform(0.0, 0.2))
            for writer in writers:
                writer.send_signal(signal.SIGKILL)
            lines = [line for writer in writers for line in writer.communicate()[0].decode().splitlines(keepends=True)]
            # A line cut off by the kill acknowledges nothing.
            acknowledged += [line for line in lines if line.endswith("\n")]
            killed_while_writing += os.path.exists(self.path + "-journal")
            if acknowledged:
                acknowledged.sort(key=lambda line: int(line.split()[0]))
                self.holds(acknowledged)
        numbers = [int(line.split()[0]) for line in acknowledged]
        self.assertEqual(len(numbers), len(set(numbers)))
        entries = self.holds(acknowledged)
        # Entry by entry, not the last alone.
        lines = self.answered("record", "export", "-r", self.path).splitlines()[1:-1]
        hashes = {one["number"]: one["hash"] for one in map(json.loads, lines)}
        for line in acknowledged:
            number, head = line.split()
            self.assertEqual(hashes[int(number)], head)
        print(f"{ROUNDS} rounds, {len(acknowledged)} entries acknowledged, {entries} there, "
              f"{killed_while_writing} killed with a journal open")
        self.assertGreater(len(acknowledged), ROUNDS // 4)

    def injected(self, call, fault, nth):
        """What the writer printed for two more entries with that fault at the nth such call; None: it never came."""
        log = self.directory / "strace.log"
        done = subprocess.run(["strace", "-f", "-o", str(log), "-P", self.path, "-P", self.path + "-journal",
                               "-P", str(self.directory), "-e", f"trace={call}", "-e", f"inject={call}:{fault}:when={nth}",
                               WRITER, self.path, "2"], capture_output=True, check=False, timeout=60)
        text = log.read_text(errors="replace")
        return done if "INJECTED" in text or "killed by SIGKILL" in text else None

    def sweep(self, call, fault):
        """The fault at every such call in turn; after each the record holds and takes another entry."""
        count = 0
        for nth in range(1, 200):
            pathlib.Path(self.path).unlink(missing_ok=True)
            pathlib.Path(self.path + "-journal").unlink(missing_ok=True)
            acknowledged = self.write(2).stdout.decode().splitlines()
            done = self.injected(call, fault, nth)
            if done is None:
                break
            count += 1
            acknowledged += done.stdout.decode().splitlines()
            with self.subTest(call=call, fault=fault, nth=nth, said=done.stderr):
                entries = self.holds(acknowledged)
                self.assertLessEqual(entries, len(acknowledged) + 1)
                if done.returncode == 1:
                    self.assertRegex(done.stderr.decode(), r"\A[^\n]*crew.record: [^\n]+\n\Z")
                self.assertEqual(len(self.write(1).stdout.splitlines()), 1)
        return count

    @unittest.skipUnless(TRACES, "no strace here")
    def test_killed_at_every_system_call(self):
        counts = {call: self.sweep(call, "signal=SIGKILL") for call in CALLS}
        print("killed at calls:", counts)
        for call in ("pwrite64", "unlink", "fcntl"):
            self.assertGreaterEqual(counts[call], 2)  # one an entry at least

    @unittest.skipUnless(TRACES, "no strace here")
    def test_a_disk_that_fills_or_fails_at_every_call(self):
        faults = (("pwrite64", "error=ENOSPC"), ("pwrite64", "error=EIO"), ("fdatasync", "error=EIO"),
                  ("fsync", "error=EIO"), ("openat", "error=EROFS"), ("openat", "error=EACCES"), ("unlink", "error=EIO"),
                  ("pread64", "error=EIO"), ("fcntl", "error=ENOLCK"))
        counts = {f"{call} {fault}": self.sweep(call, fault) for call, fault in faults}
        print("failed at calls:", counts)
        self.assertGreater(counts["pwrite64 error=ENOSPC"], 3)

    def said_by_add(self, *tracer):
        done = subprocess.run([*tracer, PROGRAM, "record", "add", "-r", self.path, self.known()], capture_output=True,
                              check=False, timeout=120)
        return done.returncode, done.stdout, done.stderr.decode()

    @unittest.skipUnless(TRACES, "no strace here")
    def test_the_program_says_what_is_wrong_in_one_line(self):
        acknowledged = self.write(3).stdout.decode().splitlines()
        for call, error, says in (("pwrite64", "ENOSPC", "the disk is full; nothing was changed"),
                                  ("pwrite64", "EIO", "the disk failed"), ("openat", "EROFS", "")):
            only = [] if call == "pwrite64" else ["-P", self.path]
            code, out, line = self.said_by_add("strace", "-f", "-o", "/dev/null", *only, "-e", f"trace={call}", "-e",
                                               f"inject={call}:error={error}")
            self.assertEqual((code, out), (2, b""), line)
            self.assertRegex(line, r"\Asunstrain: [^\n]*crew.record: [^\n]+\n\Z")
            self.assertIn(says, line)
            self.assertEqual(self.holds(acknowledged), 3)

    def test_a_small_disk_that_is_full(self):
        disk = self.directory / "disk"
        disk.mkdir()
        mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=400k", "tmpfs", str(disk)], capture_output=True,
                                 check=False)
        if mounted.returncode != 0:
            self.skipTest("no right to mount a small disk")
        self.addCleanup(subprocess.run, ["umount", str(disk)], check=False)
        self.path = str(disk / "crew.record")
        done = self.write(1000)
        self.assertEqual(done.returncode, 1)
        self.assertIn("the disk is full; nothing was changed", done.stderr.decode())
        acknowledged = done.stdout.decode().splitlines()
        self.assertGreater(len(acknowledged), 5)
        self.assertEqual(self.holds(acknowledged), len(acknowledged))
        self.refused("record", "add", "-r", self.path, self.known(), says=["the disk is full"])
        subprocess.run(["mount", "-o", "remount,ro", str(disk)], check=True)
        self.refused("record", "add", "-r", self.path, self.known(), says=["read-only"])
        self.assertEqual(self.holds(acknowledged), len(acknowledged))  # what is only read needs no right to write
        subprocess.run(["mount", "-o", "remount,rw,size=4m", str(disk)], check=True)
        self.assertEqual(self.write(1).returncode, 0)

    def test_no_file_to_write_to(self):
        for path, says in (("/dev/full", "no ordinary file"), ("/dev/null", "no ordinary file"),
                           (str(self.directory), "no ordinary file"),
                           (str(self.directory / "none" / "crew.record"), "cannot be opened or written")):
            self.refused("record", "add", "--begin", "-r", path, self.known(), says=[says])
        self.write(1)
        with open("/dev/full", "wb") as full:
            done = self.run_program("record", "add", "-r", self.path, self.known(), stdout=full)
        # It could not be acknowledged; the record says whether it is there.
        self.assertEqual(done.returncode, 3)
        self.assertIn(b"could not be written", done.stderr)
        self.assertEqual(self.verified()["head"]["entries"], 2)

    def test_two_write_at_once(self):
        self.write(1)
        writers = [subprocess.Popen([WRITER, self.path, "40"], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
                   for _ in range(3)]
        ends = [writer.communicate(timeout=120) for writer in writers]
        self.assertEqual([writer.returncode for writer in writers], [0, 0, 0], ends)
        acknowledged = sorted((line for out, _ in ends for line in out.decode().splitlines()),
                              key=lambda line: int(line.split()[0]))
        self.assertEqual([int(line.split()[0]) for line in acknowledged], list(range(2, 122)))
        self.assertEqual(self.holds(acknowledged), 121)

    def test_two_begin_at_once(self):
        for _ in range(10):
            pathlib.Path(self.path).unlink(missing_ok=True)
            writers = [subprocess.Popen([WRITER, self.path, "1"], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
                       for _ in range(3)]
            ends = [writer.communicate(timeout=120) for writer in writers]
            self.assertEqual([writer.returncode for writer in writers], [0, 0, 0], ends)
            self.assertEqual(self.verified()["head"]["entries"], 3)


if __name__ == "__main__":
    unittest.main()
