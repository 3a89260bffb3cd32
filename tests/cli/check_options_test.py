"""check: options over the file, a job by options alone, exit codes, the template."""
import json

from harness import KNOWN, LEAST, ProgramTest, main


class CheckOptions(ProgramTest):
    def job(self, *words):
        return json.loads(self.answered("check", "--json", *words))["job"]

    def test_set_goes_over_the_file_and_the_last_one_counts(self):
        path = self.known()
        self.assertEqual(self.job(path)["film.solar_absorptance"], 0.30)
        self.assertEqual(self.job(path, "--set", "film.solar_absorptance=0.305")["film.solar_absorptance"], 0.305)
        twice = self.job("--set", "pane.height=2 m", path, "--set", "pane.height=5 ft 3 1/2 in")
        self.assertAlmostEqual(twice["pane.height"], 63.5 * 0.0254)
        self.assertNotIn("frame.color", self.job(path, "--set", "frame.color=unknown"))

    def test_what_is_known_in_part_is_told_and_read_out(self):
        path = self.known('kind = "float"', 'kind = "float or wired"')
        answer = json.loads(self.answered("check", "--json", path, "--set", "lite.1.thickness=5 to 7 mm"))
        self.assertEqual(answer["job"]["lite.1.kind"], {"one_of": ["float", "wired"]})
        self.assertEqual(answer["job"]["lite.1.thickness"], {"from": 0.005, "to": 0.007})
        self.assertEqual(answer["verdict"], "caution")
        self.assertEqual([(one["key"], one["value"], one["rule"]["id"]) for one in answer["open_rules"]],
                         [("lite.1.kind", "wired", "W2")])
        kind = next(one for one in answer["unknowns"] if one["key"] == "lite.1.kind")
        self.assertEqual([one["value"] for one in kind["readings"]], ["float", "wired"])
        for reading in kind["readings"]:
            alone = json.loads(self.answered("check", "--json", path, "--set", "lite.1.thickness=5 to 7 mm",
                                             "--set", "lite.1.kind=" + reading["value"]))
            self.assertEqual(alone["verdict"], reading["verdict"])
        text = " ".join(self.answered("check", path).split())
        self.assertIn("Settle one thing: lite 1 kind. Wire and pattern show at once.", text)
        self.assertIn("(float or wired, taken wired", text)
        self.assertIn("If lite 1 kind is wired, W2: This is wired glass.", text)
        self.refused("check", path, "--set", "lite.1.thickness=7 to 5 mm", says=["--set", "least to the most"])

    def test_set_goes_over_every_file(self):
        paths = [self.known(), self.known("0.60", "0.59", "other.toml")]
        answers = json.loads(self.answered("check", "--json", *paths, "--set", "pane.height=1.2 m"))
        self.assertEqual([answer["job"]["pane.height"] for answer in answers], [1.2, 1.2])

    def test_a_whole_job_by_options_alone_is_that_of_the_file(self):
        words, table = [], ""
        for line in KNOWN.strip().splitlines():
            if line.startswith("["):
                table = line.strip("[]")
            else:
                key, value = line.split(" = ", 1)
                words += ["--set", f"{table}.{key}={value.strip(chr(34))}"]
        by_options = json.loads(self.answered("check", "--json", *words))
        by_file = json.loads(self.answered("check", "--json", self.known()))
        self.assertEqual(by_options.pop("source"), "options")
        by_file.pop("source")
        self.assertEqual(by_options, by_file)

    def test_set_is_named_when_it_is_wrong(self):
        path = self.known()
        self.refused("check", path, "--set", "pane.width=-1 m", says=["--set", "pane.width", "-1 m"])
        self.refused("check", path, "--set", "pane.widht=1 m", says=["--set", "pane.widht", "pane.width"])
        self.refused("check", path, "--set", "film.solar_absorptance=NaN", says=["--set", "film.solar_absorptance", "NaN"])
        self.refused("check", path, "--set", "film.solar_absorptance=45", says=["--set", "0.45", "45 %"])
        self.refused("check", path, "--set", "frame.kind", says=["--set", "key=value"])
        self.refused("check", path, "--set", "=3", says=["--set", "key=value"])
        self.refused("check", "--set", "pane.width=1 m", says=["options"])  # no height, no film

    def test_standard_input(self):
        path = self.known()
        with open(path, "rb") as job:
            self.assertEqual(self.answered("check", "-", stdin=job), self.answered("check", path))

    def test_exit_code_follows_fail_on_only(self):
        refer = [self.known(), "--set", "lite.1.kind=wired"]
        self.answered("check", *refer)
        self.answered("check", *refer, "--fail-on", "refer", code=1)
        self.answered("check", *refer, "--fail-on", "caution", code=1)
        go = [self.known("SE", "N"), "--set", "film.solar_absorptance=0.10", "--set", "film.solar_transmittance=0.80",
              "--set", "lite.1.treatment=tempered"]
        self.assertEqual(json.loads(self.answered("check", "--json", *go))["verdict"], "go")
        self.answered("check", *go, "--fail-on", "caution")
        caution = [self.known(), "--set", "edge.finish=unknown", "--set", "film.solar_absorptance=0.55", "--set",
                   "film.solar_transmittance=0.35"]
        self.assertEqual(json.loads(self.answered("check", "--json", *caution))["verdict"], "caution")
        self.answered("check", *caution, "--fail-on", "refer")
        self.answered("check", *caution, "--fail-on", "caution", code=1)
        # of several answers the worst counts
        self.answered("check", self.known("SE", "N"), self.known('"float"', '"wired"', "wired.toml"), "--fail-on", "refer",
                      code=1)

    def test_template_is_a_job(self):
        template = self.answered("check", "--template")
        answer = json.loads(self.answered("check", "--json", self.file(template)))
        self.assertLessEqual({"pane.width", "pane.height", "film.solar_absorptance"}, answer["job"].keys())
        for key in ("facing", "thickness", "coating_surface", "emissivity", "bite"):
            self.assertIn(f"\n#{key} = ", template)
        self.assertLessEqual(max(map(len, template.splitlines())), 80)
        self.refused("check", "--template", self.known(), says=["--template"])
        self.refused("check", "--template", "--json", says=["--template"])

    def test_wrong_options(self):
        path = self.known()
        self.refused("check", says=["--set", "--template"])
        self.refused("check", "--ful", path, says=["--ful", "--full"])  # no abbreviations
        self.refused("check", "--job", path, says=["--job"])
        self.refused("check", "--units", "feet", path, says=["--units", "feet", "metric, inch"])
        self.refused("check", "--fail-on", "go", path, says=["--fail-on", "caution, refer"])
        for width in ("59", "201", "80.5", "wide", "", "-80", "99999999999999999999"):
            self.refused("check", f"--width={width}", path, says=["--width"])
        self.refused("check", "--json=yes", path, says=["--json"])
        self.refused("check", "--full", "--full", path, says=["--full"])

    def test_the_program_itself(self):
        short = self.answered()
        self.assertEqual(short, self.answered("help"))
        self.assertEqual(short, self.answered("--help"))
        self.assertEqual(short, self.answered("-h"))
        self.assertRegex(self.answered("--version"), r"^sunstrain \d+\.\d+\.\d+\n")
        for command in ("check", "sun"):
            self.assertIn(command, short)
            page = self.answered(command, "--help")
            self.assertEqual(page, self.answered("help", command))
            self.assertEqual(page, self.answered(command, "--no-such-option", "-h"))
            self.assertLessEqual(max(map(len, page.splitlines())), 80)
        self.assertLessEqual(max(map(len, short.splitlines())), 80)
        self.refused("chek", says=["chek", "check", "sun"])
        self.refused("--chek", says=["--chek"])
        self.refused("help", "chek", says=["chek", "check"])
        self.refused("", says=["no such command"])


main()
