"""sunstrain trace: the working as text and as JSON, and its bad input."""
import json

from harness import KNOWN, LEAST, ProgramTest, main


class TraceTest(ProgramTest):
    def test_json_is_the_working_of_the_answer(self):
        path = self.directory / "job.toml"
        path.write_text(KNOWN)
        working = json.loads(self.answered("trace", "--json", str(path)))
        answer = json.loads(self.answered("check", "--json", str(path)))
        self.assertEqual(working["verdict"], answer["verdict"])
        self.assertEqual([stage["name"] for stage in working["stages"]],
                         ["sun", "optics", "heat", "field", "stress", "plane", "strength", "cold water"])
        figures = {f["what"]: f["value"] for stage in working["stages"] for f in stage["figures"]}
        self.assertAlmostEqual(figures["stress over the go line, bad end"], answer["stress_ratio"], places=9)
        self.assertGreaterEqual(len(working["by_hand"]), 2)
        for method in working["by_hand"]:
            product = method["middle_less_edge_k"]
            for factor in ("shadow", "curtain", "area", "edge"):
                product *= method[factor + "_factor"]
            self.assertIn(round(method["stress_mpa"] / product, 3), (0.533, 0.471))
        self.assertEqual(working["safety_note"], answer["safety_note"])
        for limit in working["limits"]:
            self.assertTrue(limit["source"])

    def test_text_keeps_to_the_width_and_defers(self):
        text = self.answered("trace", *LEAST)
        self.assertLessEqual(max(map(len, text.splitlines())), 80)
        self.assertIn("the film maker's and the glass maker's word", " ".join(text.split()))
        self.assertIn("Broken glass and blades cut", " ".join(text.split()))

    def test_bad_input(self):
        self.refused("trace")
        self.refused("trace", "a.toml", "b.toml")
        self.refused("trace", "nowhere.toml")
        self.refused("trace", "--set", "pane.width=1 m", says=["pane.height"])


main()
