"""sunstrain limit: text, JSON, options and bad input, beside the answers of check."""
import json

from harness import LEAST, ProgramTest, main


class LimitTest(ProgramTest):
    def verdict(self, path, absorptance):
        """Of the known job with its reflectance of 10 % and that absorptance."""
        words = [f"film.solar_absorptance={absorptance}", f"film.solar_transmittance={0.9 - absorptance}"]
        return json.loads(self.answered("check", "--json", path, "--set", words[0], "--set", words[1]))["verdict"]

    def test_json_agrees_with_check_on_both_sides(self):
        path = self.known()
        limits = json.loads(self.answered("limit", "--json", path))
        self.assertEqual(limits["schema"], "sunstrain-limit-1")
        self.assertEqual((limits["reference_glass"], limits["reference_glass_known"]), ("3-mm-clear", True))
        self.assertEqual(limits["solar_reflectance"], 0.10)
        now = limits["panes"][0]
        self.assertIsNone(now["mended"])
        self.assertEqual(now["go"]["films"], "up_to")
        highest = now["go"]["solar_absorptance"]
        self.assertEqual(self.verdict(path, highest), "go")
        self.assertNotEqual(self.verdict(path, round(highest + 0.01, 2)), "go")
        self.assertEqual(now["go"]["with_it"]["solar_absorptance"], highest)
        self.assertEqual(now["go"]["with_it"]["verdict"], "go")
        self.assertIn("no promise", limits["safety_note"])

    def test_the_film_may_be_left_out(self):
        path = self.known("solar_absorptance = 0.30\nsolar_transmittance = 0.60\nsolar_reflectance = 0.10\n", "")
        limits = json.loads(self.answered("limit", "--json", path))
        self.assertIsNone(limits["solar_reflectance"])
        self.refused("check", path, says=["film"])
        self.assertIn("is not known and taken at its worst", " ".join(self.answered("limit", path).split()))
        self.assertEqual(limits, json.loads(self.answered("limit", "--json", path, "--set",
                                                          "film.solar_absorptance=0.3")))

    def test_a_rule_that_no_film_satisfies_is_named(self):
        path = self.known('kind = "aluminum"', 'kind = "aluminum"\nglass_touches_metal = "yes"')
        text = " ".join(self.answered("limit", path).split())
        self.assertIn("no film stays caution, let alone go; whatever the film, held back by rule C3", text)
        self.assertRegex(text, r"GO \[ \] no film CAUTION \[ v\] no film REFER \[ \]-> every film")
        self.assertRegex(text, r"Figures alone: (up to \d+ %|every film)\.")

    def test_what_can_be_mended_has_a_row(self):
        path = self.known('heat = "none"', 'heat = "supply-vent"')
        text = self.answered("limit", path)
        self.assertRegex(text, r"\n  as it is +\S")
        self.assertRegex(text, r"\n  no heat blown or caught on the glass +\S")
        self.assertNotIn("Once mended", self.answered("limit", self.known()))

    def test_width_units_and_color(self):
        for width in (60, 80, 120):
            for words in ([self.known('heat = "none"', 'heat = "supply-vent"')], LEAST):
                text = self.answered("limit", *words, "--width", str(width), "--no-color")
                self.assertLessEqual(max(map(len, text.splitlines())), width, text)
                self.assertNotIn("\x1b", text)
        self.assertIn(" MPa", self.answered("limit", self.known()))
        self.assertIn(" psi", self.answered("limit", self.known(), "--units", "inch"))

    def test_bad_input(self):
        self.refused("limit", says=["limit", "--set"])
        self.refused("limit", "a.toml", "b.toml", says=["one job file"])
        self.refused("limit", "nowhere.toml", says=["nowhere.toml"])
        self.refused("limit", "--set", "pane.width=1 m", says=["pane.height"])
        self.refused("limit", self.known(), "--width", "10", says=["--width"])
        self.refused("limit", self.known("solar_transmittance = 0.60\n", ""), says=["film.solar_transmittance"])
        self.assertIn("sunstrain limit JOB.toml", self.answered("limit", "--help"))


main()
