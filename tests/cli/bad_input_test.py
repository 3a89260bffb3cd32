"""Whatever is handed to it: one line that names file, key, value and what is allowed; exit 2; nothing on stdout."""
import random

from harness import KNOWN, LEAST, ProgramTest, main


class BadInput(ProgramTest):
    def bad_line(self, old, new, *says):
        path = self.known(old, new)
        return self.refused("check", path, says=[path, *says])

    def test_sizes(self):
        width = 'width = "37 1/4 in"'
        self.bad_line(width, 'width = "0 mm"', "pane.width", "0 mm", "allowed")
        self.bad_line(width, 'width = "-37 in"', "pane.width", "-37 in", "allowed")
        self.bad_line(width, 'width = "1e308 m"', "pane.width", "1e308 m")
        self.bad_line(width, "width = 1e308", "pane.width", "1e+308")
        self.bad_line(width, "width = nan", "width = nan", "finite")
        self.bad_line(width, "width = inf", "width = inf", "finite")
        self.bad_line(width, 'width = "NaN m"', "pane.width", "NaN m")
        self.bad_line(width, "width = 37", "pane.width", "37")  # of what?
        self.bad_line(width, 'width = ""', "pane.width")
        self.bad_line(width, 'width = "1/0 in"', "pane.width", "1/0 in")
        self.bad_line(width, "width = [1, 2]", "pane.width")
        self.bad_line(width, "", "pane.width")  # required

    def test_glass(self):
        thickness = 'thickness = "6 mm"'
        self.bad_line(thickness, 'thickness = "-6 mm"', "lite.1.thickness", "-6 mm", "allowed")
        self.bad_line(thickness, 'thickness = "0 mm"', "lite.1.thickness", "0 mm", "allowed")
        self.bad_line('kind = "float"', 'kind = "flaot"', "lite.1.kind", "flaot", "float")
        self.bad_line("panes = 1", "panes = 4", "glass.panes", "4", "allowed")
        self.bad_line("[lite.1]", "[lite.7]", "lite.7")

    def test_surfaces_that_the_unit_lacks(self):
        self.bad_line("surface = 2", "surface = 4", "film.surface", "4")
        self.bad_line("surface = 2", "surface = 7", "film.surface", "7", "allowed")
        self.bad_line("surface = 2", "surface = 0", "film.surface", "0", "allowed")
        self.bad_line('coating = "none"', 'coating = "low-e-hard"\ncoating_surface = 5', "lite.1.coating_surface", "5")

    def test_films_that_cannot_be(self):
        transmittance = "solar_transmittance = 0.60"
        self.bad_line(transmittance, "solar_transmittance = 0.80", "film.solar_", "1.2")  # adds up to 1.2
        self.bad_line(transmittance, "solar_transmittance = 0.40", "film.solar_")         # to 0.8
        self.bad_line(transmittance, "solar_transmittance = 60", "film.solar_transmittance", "0.6", "60 %")
        self.bad_line(transmittance, "solar_transmittance = -0.6", "film.solar_transmittance", "-0.6")
        self.bad_line(transmittance, "solar_transmittance = nan", "solar_transmittance = nan", "finite")
        self.bad_line(transmittance, 'solar_transmittance = "NaN"', "film.solar_transmittance", "NaN")
        self.bad_line("solar_absorptance = 0.30", "solar_absorptance = 1e308", "film.solar_absorptance")
        # more sun through film and glass than the glass lets through
        self.refused("check", *LEAST[:4], "--set", "film.solar_transmittance=0.98", "--set", "film.solar_reflectance=0.01",
                     says=["options: film", "solar reflectance 0.01", "lies between"])
        self.refused("check", *LEAST[:4], says=["film"])  # no film at all

    def test_keys(self):
        self.bad_line('height = "1.5 m"', 'hieght = "1.5 m"', "pane.hieght", "pane.height")
        self.bad_line("[shading]", "[shadng]", "shadng", "shading")
        self.bad_line("[job]", '[job]\nzzzzzz = "x"', "job.zzzzzz")
        self.bad_line('height = "1.5 m"', 'height = "1.5 m"\nheight = "1.6 m"', "height")
        self.bad_line('name = "Reading', 'name = "Rea\x07ding')

    def test_files(self):
        for content in ("", "   \n\n"):
            path = self.file(content)
            self.refused("check", path, says=[path, "empty"])
        for content in (b"\x7fELF\x02\x01\x01\x00\x00\xff\xfe" * 400, b"\x00" * 1000, KNOWN.encode("utf-16"),
                        random.Random(3).randbytes(5000)):
            path = self.file(content)
            self.refused("check", path, says=[path])
        for content in ("[pane", "pane = ", "[pane]\nwidth = \"1 m", "a" * 100_000, "[" * 100_000, "a." * 100_000 + "b = 1",
                        "x = " + "[" * 100_000):
            path = self.file(content)
            self.refused("check", path, says=[path])
        self.refused("check", str(self.directory), says=[str(self.directory), "directory"])
        self.refused("check", str(self.directory / "none.toml"), says=["none.toml", "no such file"])
        self.refused("check", "", says=["file"])
        self.refused("check", "-")  # nothing on standard input

    def test_a_file_of_100_mb(self):
        for filling in (b"# padding, padding, padding, padding\n", b"\x00"):
            path = self.file(KNOWN)
            with open(path, "ab") as out:
                for _ in range(100):
                    out.write(filling * (1_000_000 // len(filling)))
            self.refused("check", path, says=[path, "larger"])

    def test_one_bad_job_among_good_ones_stops_all(self):
        good, bad = self.known(), self.known('"SE"', '"up"', "bad.toml")
        self.refused("check", good, bad, says=[bad, "pane.facing", "up"])
        self.refused("check", "--json", good, bad, good, says=[bad])

    def test_messages_hold_no_escape_sequences(self):
        evil = "\x1b[31mred\nnext line\x7f"
        self.refused(evil)
        self.refused("check", evil)
        self.refused("check", "--" + evil)
        self.refused("check", *LEAST, "--set", f"frame.kind={evil}")
        self.refused("check", *LEAST, "--set", f"{evil}=1")
        self.refused("check", *LEAST, "--width", evil)
        self.refused("sun", "--place", evil, "--date", "2026-01-20")
        self.refused("sun", "--place", "boston", "--date", evil)
        self.refused("check", b"\xff\xfe.toml")

    def test_damaged_jobs_are_answered_or_refused(self):
        chance = random.Random(1)
        for _ in range(40):
            damaged = bytearray(KNOWN.encode())
            for _ in range(chance.randint(1, 4)):
                damaged[chance.randrange(len(damaged))] = chance.randrange(256)
            done = self.run_program("check", self.file(bytes(damaged)))
            self.assertIn(done.returncode, (0, 2), (bytes(damaged), done.stderr))
            self.assertEqual(done.returncode == 0, done.stdout != b"", bytes(damaged))
            self.assertEqual(done.returncode == 0, done.stderr == b"", bytes(damaged))


main()
