"""check --json: the keys that other programs rely on, and that they agree with one another."""
import json

from harness import LEAST, ProgramTest, main

VERDICTS = ["go", "caution", "refer"]
TOP = {"schema", "verdict", "figures", "guidance", "stress_ratio", "stress_ratio_middle", "governing", "reasons", "rules",
       "unknowns", "safety_note", "to_do", "lites", "glazing", "engine_version", "reference_version", "job"}
LITE = {"absorbed_fraction", "absorbed_w_m2", "peak_edge_stress_mpa", "peak_edge_stress_middle_mpa",
        "allowable_edge_stress_mpa", "refer_edge_stress_mpa", "stress_ratio", "breakage_probability",
        "center_temperature_c", "edge_temperature_c", "when"}
WHEN = {"month", "day_kind", "local_hour"}
GLAZING = {"solar_transmittance", "solar_reflectance", "u_value_en673_w_m2k", "shgc"}


class CheckJson(ProgramTest):
    def json(self, *words, **more):
        return json.loads(self.answered("check", "--json", *words, **more))

    def has(self, keys, item):
        self.assertLessEqual(keys, item.keys())

    def judge(self, answer):
        """What holds for every answer."""
        self.has(TOP, answer)
        self.assertEqual(answer["schema"], "sunstrain-assessment-1")
        rank = [VERDICTS.index(v) for v in (answer["verdict"], answer["figures"]["verdict"], answer["guidance"]["verdict"])]
        self.assertEqual(rank[0], max(rank[1:]))
        self.assertTrue(answer["safety_note"])
        self.assertRegex(answer["engine_version"], r"^\d+\.\d+\.\d+$")
        self.assertTrue(answer["reference_version"])
        effects = [abs(one["stress_ratio"] - answer["stress_ratio"]) for one in answer["drivers"]]
        self.assertTrue(effects)
        self.assertEqual(effects, sorted(effects, reverse=True))
        for driver in answer["drivers"]:
            self.assertIn(driver["act"], ("can_do", "find_out", "given"))
            self.assertEqual(driver["how"] == "", driver["act"] == "given")
            self.assertNotEqual(driver["taken_as"], driver["tried"])
        for reason in answer["reasons"]:
            self.has({"text", "kind", "source"}, reason)
            self.assertTrue(reason["text"])
        for rule in answer["rules"]:
            self.has({"id", "severity", "text", "source"}, rule)
            self.assertIn(rule["severity"], ["note", "ask", "refer"])
        for unknown in answer["unknowns"]:
            self.has({"key", "taken_as", "decided"}, unknown)
            self.assertIsInstance(unknown["taken_as"], str)
            self.assertIsInstance(unknown["decided"], bool)
        for state in ("before_film", "after_film"):
            self.has(GLAZING, answer["glazing"][state])
            for lite in answer["lites"]:
                self.judge_lite(lite[state])
        self.judge_governing(answer)

    def judge_lite(self, lite):
        self.has(LITE, lite)
        self.has(WHEN, lite["when"])
        self.assertIn(lite["when"]["month"], range(1, 13))
        self.assertIn(lite["when"]["day_kind"], ["cold-clear", "hot-clear"])
        odds = lite["breakage_probability"]
        self.assertTrue(0 <= odds["low"] <= odds["best"] <= odds["high"] <= 1)
        self.assertTrue(0 < lite["absorbed_fraction"] < 1)
        self.assertAlmostEqual(lite["stress_ratio"], lite["peak_edge_stress_mpa"] / lite["allowable_edge_stress_mpa"])
        self.assertTrue(1 < lite["allowable_edge_stress_mpa"] < 200)  # MPa, not Pa
        self.assertTrue(-60 < lite["center_temperature_c"] < 150)     # C, not K

    def judge_governing(self, answer):
        governing = answer["governing"]
        self.has({"lite", *WHEN}, governing)
        lite = answer["lites"][governing["lite"] - 1]["after_film"]
        self.assertEqual({key: governing[key] for key in WHEN}, lite["when"])
        self.assertEqual(answer["stress_ratio"], lite["stress_ratio"])
        self.assertEqual(answer["stress_ratio"], max(each["after_film"]["stress_ratio"] for each in answer["lites"]))
        self.assertAlmostEqual(answer["stress_ratio_middle"],
                               lite["peak_edge_stress_middle_mpa"] / lite["refer_edge_stress_mpa"])

    def test_a_known_pane(self):
        answer = self.json(self.known())
        self.judge(answer)
        self.assertEqual(len(answer["lites"]), 1)
        self.assertEqual(answer["job"]["pane.width"], 37.25 * 0.0254)  # SI
        self.assertEqual(answer["job"]["film.solar_absorptance"], 0.30)
        self.assertEqual(answer["job"]["frame.kind"], "aluminum")
        self.assertGreater(answer["lites"][0]["after_film"]["absorbed_fraction"],
                           answer["lites"][0]["before_film"]["absorbed_fraction"])

    def test_plies_and_panels_say_what_they_are(self):
        whole = {"pane.width": "0.9 m", "pane.height": "1.2 m", "film.solar_absorptance": "0.4", "glass.panes": "2",
                 "lite.2.kind": "laminated", "panel.side": "outdoors"}
        sets = [word for key, value in whole.items() for word in ("--set", f"{key}={value}")]
        answer = self.json(*sets)
        said = [{key: lite[key] for key in ("panel", "lite", "ply") if key in lite} for lite in answer["lites"]]
        self.assertEqual(said, [{"panel": True}, {}, {"lite": 2, "ply": 1}, {"lite": 2, "ply": 2}])
        self.assertIn("panel" if "panel" in answer["governing"] else "lite", answer["governing"])
        text = self.answered("check", "--full", *sets)
        for name in ("The storm panel", "Lite 1 (outer lite)", "Lite 2 (inner lite, outer ply)", "Lite 2 (inner lite, inner ply)"):
            self.assertIn(name, text)

    def test_a_unit_has_its_lites_from_outdoors(self):
        answer = self.json(self.known("panes = 1", "panes = 2"), "--set", "film.surface=4", "--set", "lite.2.kind=float",
                           "--set", "lite.2.tint=clear", "--set", "lite.2.thickness=6 mm", "--set",
                           "lite.2.treatment=annealed", "--set", "lite.2.coating=none")
        self.judge(answer)
        self.assertEqual(len(answer["lites"]), 2)
        added = [lite["after_film"]["absorbed_fraction"] - lite["before_film"]["absorbed_fraction"] for lite in answer["lites"]]
        self.assertGreater(added[1], 0.1)  # the film is on the inner lite
        self.assertLess(abs(added[0]), 0.05)

    def test_what_was_taken_can_be_typed(self):
        first = self.json(*LEAST)
        self.judge(first)
        self.assertIn("frame.kind", [unknown["key"] for unknown in first["unknowns"]])
        for unknown in first["unknowns"]:
            self.assertIn(unknown["key"], first["bad_end"])  # the middle run may not need it
        typed = [word for unknown in first["unknowns"] for word in ("--set", f"{unknown['key']}={unknown['taken_as']}")]
        second = self.json(*LEAST, *typed)
        self.judge(second)
        self.assertEqual(second["unknowns"], [])
        # lengths and angles are shown rounded
        self.assertAlmostEqual(second["stress_ratio"], first["stress_ratio"], delta=1e-6 * first["stress_ratio"])

    def test_several_jobs_are_a_list(self):
        one, other = self.known(), self.known("0.30", "0.31", "other.toml")
        answers = self.json(one, other)
        self.assertEqual([answer["source"] for answer in answers], [one, other])
        self.assertEqual(answers[0], self.json(one))

    def test_fail_on_still_prints(self):
        answer = self.json(self.known(), "--set", "lite.1.kind=wired", "--fail-on", "refer", code=1)
        self.assertEqual(answer["guidance"]["verdict"], "refer")


main()
