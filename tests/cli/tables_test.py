"""sunstrain tables: everything the engine runs on, with its source, and nothing that it does not run on."""
import csv
import json
import pathlib
import re

from harness import ProgramTest, main

REFERENCE = pathlib.Path(__file__).resolve().parents[2] / "reference"
CERTAINTIES = {"read", "derived", "recalled", "common practice", "judgement"}

NO_DATA = {"practice.toml", "texts.csv", "break_keys.toml", "warmth_scale.csv"}  # windows to practice at, sentences, what a report may say, colors: no answer rests on them


class Tables(ProgramTest):
    def tables(self, *names):
        return json.loads(self.answered("tables", "--json", *names))["tables"]

    def test_every_row_of_every_file_is_there_with_its_source(self):
        shown = {}
        for table in self.tables():
            shown[table["file"]] = shown.get(table["file"], 0) + len(table["rows"])
            for row in table["rows"]:
                with self.subTest(table=table["name"], row=row["name"]):
                    self.assertTrue(row["values"])
                    self.assertTrue(row["source"])
                    self.assertIn(row["certainty"], CERTAINTIES)
            self.assertTrue(table["about"].endswith("."), table["name"])
        # Counted in the files themselves: a row states its certainty once; a key's takings are rows.
        for path in REFERENCE.glob("*.toml"):
            if path.name in NO_DATA:
                continue
            text = path.read_text()
            pattern = r"^\[\[key\.taken\]\]" if path.name == "job_keys.toml" else r"^certainty = "
            self.assertEqual(shown.pop(path.name), len(re.findall(pattern, text, re.M)), path.name)
        for path in REFERENCE.glob("*.csv"):
            if path.name in NO_DATA:
                continue
            self.assertEqual(shown.pop(path.name), sum(1 for _ in csv.reader(path.open())) - 1, path.name)
        self.assertEqual(shown, {})

    def test_a_table_gives_the_values_the_engine_runs_on(self):
        (constants,) = self.tables("constants")
        young = next(row for row in constants["rows"] if row["name"] == "glass_young_pa")
        self.assertEqual(float(young["values"]["value"]), 70e9)
        self.assertEqual(young["values"]["unit"], "Pa")
        (places,) = self.tables("places")
        denver = next(row for row in places["rows"] if row["name"] == "denver")
        self.assertEqual(denver["values"]["utc_offset_h"], "-7")
        self.assertIn("ASHRAE", denver["source"])
        text = self.answered("tables", "rule")
        self.assertIn("common practice, no source", text)
        self.assertLessEqual(max(map(len, text.splitlines())), 80)

    def test_the_list_adds_up(self):
        for line in self.answered("tables").splitlines()[3:]:
            cells = line.split()
            if not cells:
                break
            numbers = [0 if cell == "-" else int(cell) for cell in cells[1:]]
            self.assertEqual(numbers[0], sum(numbers[1:]), line)

    def test_bad_input(self):
        self.assertIn("the nearest is coating", self.refused("tables", "coatings"))
        self.refused("tables", "frame", "gas")
        self.refused("tables", "--xml")


main()
