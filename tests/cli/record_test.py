"""sunstrain record: what is kept, found, shown, verified, exported, worked again and erased."""
import hashlib
import json
import sqlite3
import struct
import unittest

from harness import KNOWN, ProgramTest
from weather_test import epw

NOTE = "A screen from what was entered, no promise"


def part(text):
    data = text.encode() if isinstance(text, str) else text
    return struct.pack(">Q", len(data)) + data


def entry_hash(line):
    """The hash of an exported entry as DEVELOPERS.md and record/entry.hpp put it down, without the program."""
    whole = part("sunstrain record entry, form 1")
    for name in ("number", "kind", "made_utc"):
        whole += part(name) + part(str(line[name]))
    for name in ("corrects", "pane", "lot", "looked_on", "program", "tables", "job", "own_rules", "weather", "result"):
        whole += part(name)
        whole += part("0") if line[name] is None else part("1") + part(str(line[name]))
    for name, keys in (("attachments", ("place", "sha256", "bytes")), ("sealed", ("field", "seal")),
                       ("erased", ("entry", "field"))):
        whole += part(name) + part(str(len(line[name])))
        for one in line[name]:
            whole += b"".join(part(str(one[key])) for key in keys)
    return hashlib.sha256(whole + part("previous") + part(line["previous"])).hexdigest()


def seal_of(one):
    return hashlib.sha256(part("sunstrain record seal, form 1") + part(bytes.fromhex(one["salt_hex"])) +
                          part(one["field"]) + part(one["text"])).hexdigest()


class Record(ProgramTest):
    def setUp(self):
        super().setUp()
        self.path = str(self.directory / "crew.record")

    def record(self, action, *words, **more):
        return self.answered("record", action, "-r", self.path, *words, **more)

    def record_json(self, action, *words, **more):
        return json.loads(self.record(action, "--json", *words, **more))

    def refuse(self, action, *words, says=()):
        self.refused("record", action, "-r", self.path, *words, says=says)

    def add(self, *words, begin=True, file=None):
        job = file or self.known('name = "Reading room, east bay"',
                                 'name = "Reading room"\naddress = "2 Weir Street"\nnote = "keys at number 3"\n'
                                 'date = "2026-02-16"')
        return self.record_json("add", job, *(["--begin"] if begin else []), *words)

    def verified(self, *words, code=0):
        return self.record_json("verify", *words, code=code)

    def meddle(self, sql):
        """What any SQLite program can do that takes the triggers away and puts them back."""
        base = sqlite3.connect(self.path)
        triggers = base.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
        for name, _ in triggers:
            base.execute("DROP TRIGGER " + name)
        base.execute(sql)
        for _, trigger in triggers:
            base.execute(trigger)
        base.commit()
        base.close()

    def exported(self):
        lines = [json.loads(line) for line in self.record("export").splitlines()]
        return lines[0], lines[1:-1], lines[-1]

    def test_an_entry_keeps_what_check_says(self):
        added = self.add("--customer", "Moss and Daughters", "--by", "AB", "--lot", "4711", "--pane", "east bay")
        checked = json.loads(self.answered("check", self.known(), "--json"))
        self.assertEqual((added["entry"], added["verdict"]), (1, checked["verdict"]))
        entry = self.record_json("show", "1")["entry"]
        result = entry["result"]
        for key, value in checked.items():
            if key not in ("source", "job", "bad_end", "middle"):
                self.assertEqual(result[key], value, key)
        self.assertEqual(entry["job"]["values"]["pane.height"], 1.5)
        self.assertEqual(entry["apart"]["job_file"].count("Reading room"), 1)
        self.assertEqual(entry["looked_on"], "2026-02-16")
        self.assertEqual(entry["tables"]["version"], checked["reference_version"])
        text = self.record("show", "1")
        for said in ("Moss and Daughters", "2 Weir Street", "keys at number 3", "Lot 4711", "By AB", NOTE):
            self.assertIn(said, " ".join(text.split()))

    def test_names_stand_outside_the_chain(self):
        self.add("--customer", "Moss and Daughters", "--address", "4 Tallow Lane", "--by", "Ada B",
                 "--set", "job.note=back gate")
        _, entries, _ = self.exported()
        chain = json.dumps({key: value for key, value in entries[0].items() if key != "apart"})
        for personal in ("Moss", "Tallow", "Ada", "back gate", "Weir", "Reading room", "job.toml", str(self.directory)):
            self.assertNotIn(personal, chain)
        apart = json.dumps(entries[0]["apart"])
        for personal in ("Moss", "Tallow", "Ada", "back gate", "Weir", "Reading room"):
            self.assertIn(personal, apart)

    def test_any_program_can_reckon_the_chain_of_an_export(self):
        photo = self.file(b"\x89PNG\x00 photo", "corner of pane.png")
        for lot in ("1", "2", "3"):
            self.add("--lot", lot, "--customer", "C" + lot, "--attach", photo)
        self.record("erase", "2")
        head, entries, last = self.exported()
        previous = hashlib.sha256(part("sunstrain record beginning, form 1") + part(head["mark"])).hexdigest()
        for number, line in enumerate(entries, 1):
            self.assertEqual((line["number"], line["previous"]), (number, previous))
            self.assertEqual(line["hash"], entry_hash(line))
            seals = {one["field"]: one["seal"] for one in line["sealed"]}
            for one in line["apart"]:
                self.assertEqual(seals[one["field"]], seal_of(one))
            previous = line["hash"]
        self.assertEqual(head["head"], {"entries": 4, "hash": previous})
        self.assertEqual(entries[0]["attachments"][0]["sha256"], hashlib.sha256(b"\x89PNG\x00 photo").hexdigest())
        self.assertIn(NOTE, last["safety_note"])

    def test_kept_files_come_out_as_they_went_in(self):
        photo = bytes(range(256)) * 50
        path = self.file(photo, "corner $(x) .png")
        self.add("--attach", path, "--keep-files", "--attach", self.file("paper", "sheet.txt"))
        out = self.directory / "out"
        out.mkdir()
        lines = self.directory / "lines"
        done = self.run_program("record", "export", "-r", self.path, "--files", str(out), "-o", str(lines))
        self.assertEqual((done.returncode, done.stdout, done.stderr), (0, b"", b""))
        self.assertEqual({file.name: file.read_bytes() for file in out.iterdir()},
                         {"1-1-corner___x__.png": photo, "1-2-sheet.txt": b"paper"})
        self.assertEqual(len(lines.read_text().splitlines()), 3)

    def test_find_and_list(self):
        self.add("--lot", "4711", "--pane", "east bay")
        self.add("--lot", "4712", "--customer", "Moss", "--address", "4 Tallow Lane")
        numbers = lambda *words: [one["entry"] for one in self.record_json("find", *words)["entries"]]
        self.assertEqual(numbers("--address", "tallow"), [2])
        self.assertEqual(numbers("--address", "weir street"), [1, 2])
        self.assertEqual(numbers("--pane", "EAST"), [1])
        self.assertEqual(numbers("--pane", "reading"), [1, 2])
        self.assertEqual(numbers("--lot", "471", "--customer", "moss"), [2])
        self.assertEqual(numbers("--to", "2026-02-16", "--from", "2026-02-16"), [1, 2])
        self.assertEqual(numbers("--to", "2026-02-15"), [])
        self.assertIn("No entry has all of that.", self.record("find", "--lot", "9"))
        self.assertEqual([one["entry"] for one in self.record_json("list", "--last", "1")["entries"]], [2])
        text = self.record("list")
        self.assertIn("4 Tallow Lane", text)
        self.assertTrue(" ".join(text.split()).endswith("hold lead."))
        self.refuse("find", says=["--address"])
        self.refuse("find", "--from", "yesterday", says=["--from", "yesterday"])

    def test_a_correction_is_a_new_entry(self):
        self.add()
        self.add("--set", "pane.width=1 m", "--corrects", "1", begin=False)
        self.assertEqual(self.record_json("show", "1")["entry"]["corrected_by"], [2])
        self.assertIn("no longer stands", " ".join(self.record("show", "1").split()))
        self.refuse("add", self.known(), "--corrects", "3", says=["no entry 3"])
        self.assertEqual(self.verified()["head"]["entries"], 2)

    def test_verify_holds_against_a_printed_head(self):
        heads = [self.add("--lot", str(n))["head"] for n in range(4)]
        spaced = " ".join(heads[2]["hash"][i:i + 8] for i in range(0, 64, 8)).upper()
        self.assertTrue(self.verified("--head", spaced, "--entries", "3")["whole"])
        self.assertIn(" ".join(heads[3]["hash"][i:i + 8] for i in range(0, 64, 8)), " ".join(self.record("verify").split()))
        self.assertIn("was true", " ".join(self.record("verify").split()))
        wrong = self.verified("--head", heads[2]["hash"], "--entries", "2", code=1)
        self.assertEqual([one["entry"] for one in wrong["findings"]], [2])
        self.assertFalse(self.verified("--head", heads[3]["hash"], "--entries", "7", code=1)["whole"])
        for words in (["--head", heads[0]["hash"]], ["--entries", "1"], ["--head", "12", "--entries", "1"],
                      ["--head", heads[0]["hash"], "--entries", "-1"]):
            self.refuse("verify", *words)

    def test_a_change_is_found_by_its_entry(self):
        for n in range(3):
            self.add("--lot", str(n))
        base = sqlite3.connect(self.path)
        with self.assertRaises(sqlite3.DatabaseError):
            base.execute("UPDATE entries SET lot = 'x' WHERE number = 2")
        base.close()
        self.meddle("UPDATE entries SET result = replace(result, '\"verdict\":\"go\"', '\"verdict\":\"no\"') "
                    "WHERE number = 2")
        self.assertEqual([one["entry"] for one in self.verified(code=1)["findings"]], [2])

    def test_erasing_takes_names_out_and_leaves_the_chain(self):
        photo = self.file(b"secret photo bytes " * 40, "customer-house.png")
        self.add("--customer", "Moss and Daughters", "--by", "Ada", "--attach", photo, "--keep-files")
        head = self.add("--customer", "Other")["head"]
        erased = self.record_json("erase", "1", "--by", "Bo")
        self.assertEqual(erased["entry"], 3)
        verified = self.verified("--head", head["hash"], "--entries", "2")
        self.assertTrue(verified["whole"])
        self.assertEqual(verified["erased_fields"], erased["fields"])
        raw = (self.directory / "crew.record").read_bytes()
        for gone in (b"Moss and", b"secret photo", b"customer-house"):
            self.assertNotIn(gone, raw)
        self.assertIn(b"Other", raw)
        entry = self.record_json("show", "1")["entry"]
        self.assertEqual(entry["apart"], {"by": "Ada"})
        self.assertEqual(entry["result"]["verdict"], "go")
        self.assertIn("name erased", self.record("show", "1"))
        self.assertIn("nothing", self.record("rerun", "1"))
        self.record("erase", "1", "--recorder-too")
        self.assertEqual(self.record_json("show", "1")["entry"]["apart"], {})
        self.refuse("erase", "1", "--recorder-too", says=["nothing is left"])
        self.refuse("erase", "9", says=["no entry 9"])
        self.refuse("erase", says=["record find"])

    def test_rerun_says_what_changed_and_why(self):
        rules = self.file('[[rule]]\nid = "Q1"\nseverity = "ask"\nwhen = { fact = "pane.width", at_least = "0.1 m" }\n'
                          'text = "Measure twice."\n', "crew.toml")
        self.add("--rules", rules)
        self.add("--set", "lite.1.thickness=5 to 7 mm", "--set", "edge.finish=seamed or as-cut")
        for number in ("1", "2"):
            same = self.record_json("rerun", number, "--fail-on-change")
            self.assertEqual(same["changes"], [])
            self.assertEqual(same["then"], same["now"])
            self.assertIn("to the last bit", same["why"][0])
        self.assertIn("Q1", [rule["id"] for rule in self.record_json("rerun", "1")["now"]["rules"]])
        other = self.record_json("rerun", "1", "--set", "film.solar_absorptance=0.2", "--set",
                                 "film.solar_transmittance=0.7")
        self.assertIn("ratio at the bad end", [one["what"] for one in other["changes"]])
        self.assertIn("--set", other["why"][0])
        self.assertIn(NOTE, " ".join(self.record("rerun", "1").split()))
        self.refuse("rerun", "1", "--set", "pane.width=1 kg", says=["pane.width"])
        self.refuse("rerun", "8", says=["no entry 8"])

    def test_a_weather_file_is_known_by_its_hash(self):
        (self.directory / "annas").mkdir()
        year = self.file(epw(), "annas/kettle.epw")
        self.add(file=self.file('weather = "annas/kettle.epw"\n' + KNOWN))
        _, entries, _ = self.exported()
        chain = json.dumps({key: value for key, value in entries[0].items() if key != "apart"})
        self.assertNotIn("annas", chain)
        self.assertEqual(entries[0]["weather"], hashlib.sha256(epw().encode()).hexdigest())
        without, with_it = self.record_json("rerun", "1"), self.record_json("rerun", "1", "--weather", year)
        self.assertEqual((without["changes"], with_it["changes"]), ([], []))
        self.assertEqual(with_it["now"], with_it["then"])
        self.assertEqual(with_it["now"]["weather"]["hours"], 8760)
        self.assertIn("--weather", without["weather"])
        self.refuse("rerun", "1", "--weather", self.file(epw().replace("800", "801"), "other.epw"), says=["SHA-256"])

    def test_rerun_works_one_day_as_it_was(self):
        self.add()
        day = lambda sky, high="-5 C": self.record_json("rerun", "1", "--day", "2026-01-20", "--low", "-22 C", "--high",
                                                        high, "--sky", sky)["given_day"]
        clear, some, overcast = day("clear"), day("3/8"), day("overcast")
        self.assertEqual((clear["month"], clear["day"], some["cloud"]), (1, 20, 0.375))
        self.assertGreater(clear["edge_stress_mpa"], some["edge_stress_mpa"])
        self.assertGreater(some["edge_stress_mpa"], 2.0 * overcast["edge_stress_mpa"])
        self.assertGreater(clear["edge_stress_mpa"], clear["edge_stress_without_film_mpa"])
        self.assertNotEqual(clear["edge_stress_mpa"], day("clear", "-15 C")["edge_stress_mpa"])
        text = " ".join(self.record("rerun", "1", "--day", "2026-01-20", "--low", "-8 F", "--high", "23 F", "--sky",
                                    "3/8").split())
        self.assertIn("01-20, -22 C to -5 C, 3/8 under cloud", text)
        self.assertIn("clouds that break", text)
        for words, says in ((["--day", "2026-01-20"], "all four"), (["--day", "2026-02-30", "--low", "1 C", "--high",
                            "2 C", "--sky", "clear"], "2026-02-30"), (["--day", "2026-02-20", "--low", "3 C", "--high",
                            "2 C", "--sky", "clear"], "--high"), (["--day", "2026-02-20", "--low", "1 C", "--high",
                            "2 C", "--sky", "9/8"], "--sky"), (["--day", "2026-02-20", "--low", "1", "--high", "2 C",
                            "--sky", "clear"], "--low")):
            self.refuse("rerun", "1", *words, says=[says])

    def test_rerun_names_the_tables_that_changed(self):
        self.add()
        # As an older program would have left it.
        self.meddle("UPDATE entries SET program = '0.0.9', tables = replace(tables, '\"frames.toml\":\"', "
                    "'\"frames.toml\":\"0'), result = replace(result, '\"verdict\":\"go\"', '\"verdict\":\"caution\"')")
        rerun = self.record_json("rerun", "1", "--fail-on-change", code=1)
        self.assertIn({"what": "verdict", "then": "caution", "now": "go"}, rerun["changes"])
        self.assertEqual(rerun["why"][0], "the program was 0.0.9, it is " + rerun["now"]["engine_version"])
        self.assertEqual(rerun["why"][1], "tables that are not as they were: frames.toml")
        text = " ".join(self.record("rerun", "1").split())
        self.assertIn("verdict: caution -> go", text)

    def test_bad_input_writes_nothing(self):
        job = self.known()
        self.refuse("add", job, says=["--begin"])
        self.refuse("add", self.file("[pane]\nwidth = \"1 kg\"\n", "bad.toml"), "--begin", says=["pane.width"])
        self.refuse("add", job, "--begin", "--attach", str(self.directory / "none"), says=["--attach"])
        self.refuse("add", job, "--begin", "--lot", " ", says=["--lot"])
        self.refuse("add", job, "--begin", "--keep-files", says=["--attach"])
        self.refuse("add", "--begin", says=["job file"])
        self.refused("record", says=["add, list"])
        self.refused("record", "ad", says=["ad:", "add"])
        self.refused("record", "list", says=["-r FILE"])
        self.assertEqual([file.name for file in self.directory.glob("crew*")], [])
        self.refuse("list", says=["no such record"])
        for content, says in ((b"", "empty file"), (b"no record at all\n" * 100, "is no record"), (b"x", "is no record")):
            self.file(content, "crew.record")
            self.refuse("list", says=[says])
            if content:
                self.refuse("add", job, "--begin", says=[says])
                self.assertEqual((self.directory / "crew.record").read_bytes(), content)

    def test_spanish(self):
        self.add()
        text = self.record("list", "--language", "es")
        self.assertRegex(text, r"(?m)^Nota ")
        self.assertRegex(self.record("verify", "--language", "es"), r"(?m)^No prueba ")
        self.refuse("show", "7", "--language", "es", says=["no hay asiento 7"])

    def test_what_a_person_typed_cannot_steer_a_terminal(self):
        self.add("--customer", "\x1b[31mred\nMoss", "--lot", "a\x1b]0;b", "--pane", "p\tq")
        for action in (["list"], ["show", "1"], ["find", "--customer", "moss"]):
            self.assertNotRegex(self.record(*action), r"[\x00-\x09\x0b-\x1f]")


if __name__ == "__main__":
    unittest.main()
