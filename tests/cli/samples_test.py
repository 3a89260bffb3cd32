"""check --samples: the same numbers for any number of threads, what it says, what it refuses, Ctrl-C."""
import json
import pathlib
import signal
import subprocess
import time

from harness import KNOWN, PROGRAM, ProgramTest, main

# A single pane of which little is left open: rows of few samples.
OPEN = KNOWN.replace('kind = "aluminum"\n', "").replace('shade = "none"\n', "")


class Samples(ProgramTest):
    def sampled(self, *words, text=OPEN, samples=400):
        return self.answered("check", self.file(text), "--samples", str(samples), *words)

    def test_the_same_for_any_number_of_threads_and_another_for_another_seed(self):
        one = self.sampled("--threads", "1", "--json")
        self.assertEqual(one, self.sampled("--threads", "3", "--json"))
        self.assertEqual(one, self.sampled("--json", "--seed", "1"))
        other = json.loads(self.sampled("--json", "--seed", "2"))["samples"]
        same = json.loads(one)["samples"]
        self.assertNotEqual(same["breakage_probability"]["value"], other["breakage_probability"]["value"])
        # Two estimates of one thing.
        self.assertLess(same["breakage_probability"]["low"], other["breakage_probability"]["high"])
        self.assertLess(other["breakage_probability"]["low"], same["breakage_probability"]["high"])

    def test_json(self):
        s = json.loads(self.sampled("--json"))["samples"]
        names = {unknown["name"]: unknown for unknown in s["unknowns"]}
        for name in ("frame.kind", "inside.shade", "wind on the glass", "frame in the sun, seen lit"):
            self.assertIn(name, names)
        self.assertEqual(s["samples"], s["rows"] * (len(names) + 2))
        self.assertLessEqual(s["samples"], 400)
        self.assertGreater(s["samples"], 400 - len(names) - 2)
        self.assertTrue(names["frame.kind"]["is_key"])
        self.assertIsNone(names["wind on the glass"]["question"])
        self.assertIn(s["measure_first"], names)
        self.assertIsNotNone(names[s["measure_first"]]["question"])
        ratios = [at["stress_ratio"] for at in s["stress_ratio_at"]]
        self.assertEqual(ratios, sorted(ratios))
        for name in ("share_over_line", "breakage_probability"):
            self.assertTrue(0 <= s[name]["low"] <= s[name]["value"] <= s[name]["high"] <= 1, name)
        firsts = [unknown["of_ratio"]["first"]["value"] for unknown in s["unknowns"]]
        self.assertEqual(firsts, sorted(firsts, reverse=True))
        self.assertIsNone(json.loads(self.answered("check", "--json", self.known()))["samples"])

    def test_text(self):
        text = self.sampled()
        flowing = " ".join(text.split())
        for part in ("Samples", "seed 1", "one in 20 over", "Odds", "upper estimate", "alone", "with others",
                     "frame kind", "Measure this first:", "nobody can measure"):
            self.assertIn(part, flowing)
        self.assertLess(text.index("Measure this first:"), text.index("Note "))
        self.assertTrue(all(len(line) <= 80 for line in text.splitlines()), text)
        self.assertTrue(all(len(line) <= 60 for line in self.sampled("--width", "60").splitlines()), text)

    def test_a_known_pane_has_its_weather_drawn(self):
        known = KNOWN.replace('sun = "lit"', 'sun = "shaded"')
        s = json.loads(self.sampled("--json", text=known))["samples"]
        self.assertEqual(len(s["unknowns"]), 3)
        self.assertIsNone(s["measure_first"])
        self.assertIn("Measure this first: nothing", self.sampled(text=known))

    def test_refused(self):
        path = self.file(OPEN)
        self.refused("check", path, "--samples", "20", says=["--samples = 20", "unknowns", "allowed"])
        self.refused("check", path, "--samples", "many", says=["--samples", "many"])
        self.refused("check", path, "--samples", "-5", says=["--samples"])
        self.refused("check", path, "--samples", "10000000", says=["--samples", "1000000"])
        self.refused("check", path, "--seed", "3", says=["--seed", "--samples"])
        self.refused("check", path, "--threads", "2", says=["--threads", "--samples"])
        self.refused("check", path, "--samples", "400", "--seed", "x", says=["--seed", "x"])
        self.refused("check", path, "--samples", "400", "--threads", "0", says=["--threads", "0"])

    def stopped_after(self, seconds):
        words = [PROGRAM, "check", self.file(OPEN), "--samples", "1000000", "--json"]
        with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as running:
            status = pathlib.Path(f"/proc/{running.pid}/status")
            held_back = lambda: int(status.read_text().split("SigBlk:")[1].split()[0], 16)
            end = time.monotonic() + 60
            while not held_back() & 1 << (signal.SIGINT - 1) and time.monotonic() < end:
                time.sleep(0.02)
            time.sleep(seconds)
            running.send_signal(signal.SIGINT)
            out, aside = running.communicate(timeout=120)
        self.assertEqual((running.returncode, aside), (130, b"Stopped: 1 of 1 jobs answered, the last with the samples that were done.\n"))
        return json.loads(out)["samples"]

    def test_ctrl_c_gives_what_is_done(self):
        least = 400  # more than the fewest that may be asked for; a busy machine takes longer for them
        for seconds in (2, 8, 32):
            s = self.stopped_after(seconds)
            if s["samples"] >= least:
                break
        self.assertTrue(s["stopped"])
        # Whole rows: the same as so many asked for.
        self.assertEqual(json.loads(self.sampled("--json", samples=s["samples"]))["samples"], {**s, "stopped": False})


main()
