"""--rules FILE: a user's own rules in every command that answers, shown as theirs."""
import csv
import io
import json
import pathlib

from harness import ProgramTest, main

EXAMPLES = pathlib.Path(__file__).parents[2] / "examples"
OWN = """
[[rule]]
id = "Q1"
severity = "ask"
when = { fact = "frame.kind", is = "aluminum" }
text = "Look at the gasket."

[[rule]]
id = "Q2"
severity = "note"
when = { fact = "pane.height", above = "1 m" }
text = "Two people."
"""


class Rules(ProgramTest):
    def setUp(self):
        super().setUp()
        self.rules = self.file(OWN, "crew.toml")
        self.job = self.known("solar_absorptance = 0.30\nsolar_transmittance = 0.60",
                              "solar_absorptance = 0.12\nsolar_transmittance = 0.78")

    def test_check_says_whose_rule_it_is(self):
        self.assertTrue(self.answered("check", self.job).startswith(" GO "))
        text = self.answered("check", self.job, "--rules", self.rules)
        flat = " ".join(text.split())
        self.assertTrue(text.startswith(" CAUTION "))
        self.assertIn("The figures are fine; your rule Q1 asks you to settle: Look at the gasket.", flat)
        self.assertIn("Guidance caution; figures alone: go. your rule Q1: Look at the gasket.", flat)
        full = " ".join(self.answered("check", self.job, "--rules", self.rules, "--full").split())
        self.assertIn("your rule Q2: Two people.", full)
        self.assertIn(f"your rules {self.rules} (2, ", full)

    def test_json_marks_them(self):
        plain = json.loads(self.answered("check", self.job, "--json"))
        own = json.loads(self.answered("check", self.job, "--json", "--rules", self.rules))
        self.assertIsNone(plain["own_rules"])
        self.assertEqual((own["own_rules"]["file"], own["own_rules"]["count"]), (self.rules, 2))
        self.assertEqual(own["reference_version"], plain["reference_version"])
        self.assertEqual({rule["id"] for rule in own["rules"] if rule["users_own"]}, {"Q1", "Q2"})
        self.assertEqual([rule for rule in own["rules"] if not rule["users_own"]], plain["rules"])
        self.assertEqual((plain["verdict"], own["verdict"], own["guidance"]["verdict"]), ("go", "caution", "caution"))
        self.assertEqual(own["stress_ratio"], plain["stress_ratio"])

    def test_limit_names_the_rule_that_holds_the_pane_back(self):
        text = " ".join(self.answered("limit", self.job, "--rules", self.rules).split())
        self.assertIn("no film stays go; whatever the film, held back by your rule Q1: Look at the gasket.", text)
        limits = json.loads(self.answered("limit", self.job, "--json", "--rules", self.rules))
        held = limits["panes"][0]["go"]["rules"]
        self.assertEqual([(rule["id"], rule["users_own"]) for rule in held], [("Q1", True)])

    def test_trace_lists_them(self):
        text = " ".join(self.answered("trace", self.job, "--rules", self.rules).split())
        self.assertIn("come on top of the figures (go), here your rule Q1.", text)
        working = json.loads(self.answered("trace", self.job, "--json", "--rules", self.rules))
        self.assertIn(("Q1", True), [(rule["id"], rule["users_own"]) for rule in working["rules"]])

    def test_a_schedule_has_them_in_its_column(self):
        table = self.file("job.name,pane.width,frame.kind\na,900 mm,aluminum\nb,900 mm,wood\n", "panes.csv")
        words = ["schedule", table, "--defaults", self.job, "--rules", self.rules]
        rows = list(csv.DictReader(io.StringIO(self.run_program(*words).stdout.decode())))
        self.assertEqual(rows[0]["answer.rules"].split()[-2:], ["own:Q1", "own:Q2"])
        self.assertEqual(rows[1]["answer.rules"].split()[-1], "own:Q2")
        self.assertNotIn("own:Q1", rows[1]["answer.rules"])
        lines = [json.loads(line) for line in self.run_program(*words, "--json").stdout.decode().splitlines()]
        self.assertEqual([line["own_rules"] for line in lines], [["Q1", "Q2"], ["Q2"]])

    def test_a_ranked_film_has_them(self):
        films = self.file("film.name,film.solar_absorptance\nlight,0.2\n", "films.csv")
        ranked = str(self.directory / "ranked.csv")
        words = ["rank", self.job, "--films", films, "--rules", self.rules]
        text = self.answered(*words, "-o", ranked)
        self.assertIn("your rule Q1: Look at the gasket.", " ".join(text.split()))
        with open(ranked, encoding="utf-8") as file:
            self.assertEqual(list(csv.DictReader(file))[0]["answer.rules"].split()[-2:], ["own:Q1", "own:Q2"])
        document = json.loads(self.answered(*words, "--json"))
        self.assertEqual(document["own_rules"]["count"], 2)
        self.assertEqual(document["films"][0]["own_rules"], ["Q1", "Q2"])
        self.assertFalse({"Q1", "Q2"} & set(document["films"][0]["rules"]))

    def test_tables_show_them(self):
        text = self.answered("tables", "own-rules", "--rules", self.rules)
        self.assertIn("fact = frame.kind, is = aluminum", text)
        self.assertIn(f"judgement: your own rule, {self.rules}", " ".join(text.split()))
        self.assertIn("own-rules", self.answered("tables", "--rules", self.rules))
        self.refused("tables", "own-rules", says=["no such table"])

    def test_the_example(self):
        job = self.known('kind = "aluminum"', "", "no-frame.toml")
        own = json.loads(self.answered("check", job, "--json", "--rules", str(EXAMPLES / "crew-rules.toml")))
        self.assertIn("Q1", [rule["id"] for rule in own["rules"] if rule["users_own"]])

    def test_bad_files(self):
        for command in (["check", self.job], ["limit", self.job], ["trace", self.job], ["tables"],
                        ["schedule", self.file("pane.width\n900 mm\n", "panes.csv"), "--defaults", self.job]):
            self.refused(*command, "--rules", "nowhere.toml", says=["nowhere.toml", "no such file"])
            broken = self.file(OWN.replace('"ask"', '"aks"'), "broken.toml")
            self.refused(*command, "--rules", broken, says=[broken, "rule 1 (Q1)", 'severity = "aks"', "note, ask, refer",
                                                            "the nearest is ask"])
        self.refused("check", self.job, "--rules=", says=["--rules"])
        self.refused("check", self.job, "--rules", self.rules, "--rules", self.rules, says=["--rules"])
        self.refused("check", self.job, "--rules", self.job, says=["this table is not known", "rule"])
        evil = self.file(OWN.replace("Look", "\\u001b[31mLook"), "evil.toml")
        self.refused("check", self.job, "--rules", evil, says=["evil.toml", "text", "control character"])


main()
