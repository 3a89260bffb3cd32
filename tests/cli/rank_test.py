"""sunstrain rank: a list of films on one pane and on a table of panes, beside the answers of check."""
import csv
import io
import json
import os
import pathlib
import re
import signal
import subprocess
import time
import unittest

from harness import KNOWN, PROGRAM, ProgramTest, main

EXAMPLES = pathlib.Path(__file__).parents[2] / "examples"
ANSWER = ["answer.place", "answer.verdict", "answer.ratio", "answer.heat_kept_out", "answer.heat_cut", "answer.daylight",
          "answer.reason", "answer.rules"]
HEADER = "film.name,film.solar_transmittance,film.solar_reflectance,film.solar_absorptance,film.visible_transmittance," \
         "film.reference_glass,shelf\n"
FILMS = ["light,0.70,0.10,,0.75,3-mm-clear,a\n", "dark,0.20,0.10,,0.15,3-mm-clear,b\n",
         "mirror,0.15,0.50,,0.18,6-mm-clear,c\n", "old sheet,,,0.40,,,d\n"]
BAD = [("typo,0.6,0.1,,0.7,3-mm-claer,\n", "film.reference_glass"), ("sum,0.6,0.9,,0.7,3-mm-clear,\n", "more than the whole"),
       ("short,0.6\n", "cells"), ("bare,,,,0.35,,\n", "visible darkness alone")]
PANES = "job.name,pane.width [mm],pane.height,frame.kind,quantity,storey\n"
PANE_ROWS = ["stair,946,1.5 m,aluminum,4,1\n", "hall,37 1/4 in,5 ft,wood,2,2\n"]


class Rank(ProgramTest):
    def setUp(self):
        super().setUp()
        self.job = self.known()
        lines = KNOWN.splitlines(keepends=True)
        left_out = ('name = "Reading', "width =", "height =", "kind = \"aluminum")
        self.defaults = self.file("".join(line for line in lines if not line.startswith(left_out)), "defaults.toml")

    def films(self, text=HEADER + "".join(FILMS), name="films.csv"):
        return self.file(text, name)

    def panes(self, text=PANES + "".join(PANE_ROWS)):
        return ["--panes", self.file(text, "panes.csv"), "--defaults", self.defaults]

    def ranked(self, *words, code=0, films=None):
        """The JSON document for the known pane."""
        path = self.films() if films is None else self.films(films)
        return json.loads(self.answered("rank", self.job, "--films", path, "--json", *words, code=code))

    def names(self, *words, **more):
        return [film["name"] for film in self.ranked(*words, **more)["films"]]

    def check_settings(self, row):
        """The row's cells as settings over the job without its film."""
        cells = next(csv.reader([row]))
        columns = HEADER.strip().split(",")
        gone = ["film.solar_absorptance", "film.solar_transmittance", "film.solar_reflectance", "film.reference_glass",
                "film.emissivity"]
        settings = {key: "unknown" for key in gone}
        settings.update({key: cell for key, cell in zip(columns, cells) if cell and key != "shelf"})
        return [word for key, cell in settings.items() for word in ("--set", f"{key}={cell}")]

    def test_every_verdict_is_that_of_check(self):
        for path in (self.job, str(EXAMPLES / "stair-window.toml")):
            document = json.loads(self.answered("rank", path, "--films", self.films(), "--json"))
            self.assertEqual(document["schema"], "sunstrain-rank-1")
            self.assertIn("no promise", document["safety_note"])
            self.assertEqual(len(document["films"]), len(FILMS))
            for film in document["films"]:
                row = FILMS[film["line"] - 2]
                self.assertTrue(row.startswith(film["name"] + ","))
                answer = json.loads(self.answered("check", path, "--json", *self.check_settings(row)))
                for key in ("verdict", "stress_ratio", "stress_ratio_middle"):
                    self.assertEqual(film[key], answer[key], (film["name"], key))
                for key in ("figures", "guidance"):
                    self.assertEqual(film[key], answer[key]["verdict"], (film["name"], key))
                self.assertEqual(film["rules"], [rule["id"] for rule in answer["rules"]])
                self.assertEqual(len(film["open_rules"]), len(answer["open_rules"]))
                self.assertEqual(film["reason"], answer["reasons"][0]["text"])
                self.assertEqual(film["decided_by"], [{"key": unknown["key"], "most_likely": answer["middle"][unknown["key"]]}
                                                      for unknown in answer["unknowns"] if unknown["decided"]])
                before, after = answer["glazing"]["before_film"]["shgc"], answer["glazing"]["after_film"]["shgc"]
                self.assertEqual((film["shgc_without_film"], film["shgc"]), (before, after))
                self.assertAlmostEqual(film["sun_heat_kept_out"], 1 - after, places=12)
                self.assertAlmostEqual(film["sun_heat_cut"], 1 - after / before, places=12)

    def test_every_order(self):
        films = self.ranked()["films"]
        rank = {"go": 0, "caution": 1, "refer": 2}
        by_line = sorted(films, key=lambda film: film["line"])
        self.assertGreater(len({film["verdict"] for film in films}), 1)
        keys = {"verdict": lambda film: (rank[film["verdict"]], -film["sun_heat_kept_out"]),
                "heat": lambda film: -film["sun_heat_kept_out"],
                "daylight": lambda film: (film["daylight"] is None, -(film["daylight"] or 0)),
                "stress": lambda film: film["stress_ratio"],
                "list": lambda film: film["line"]}
        orders = set()
        for word, key in keys.items():
            expected = [film["name"] for film in sorted(by_line, key=key)]
            self.assertEqual(self.names("--sort", word), expected, word)
            orders.add(tuple(expected))
        self.assertGreaterEqual(len(orders), 4)
        self.assertEqual(self.names(), self.names("--sort", "verdict"))
        self.assertEqual(self.names("--sort", "daylight")[-1], "old sheet")
        self.assertEqual([film["place"] for film in films], [1, 2, 3, 4])

    def test_filters_say_what_they_leave_out(self):
        every = self.ranked()["films"]
        go = [film["name"] for film in every if film["verdict"] == "go"]
        document = self.ranked("--at-worst", "go")
        self.assertEqual([film["name"] for film in document["films"]], go)
        self.assertEqual({film["why"] for film in document["left_out"]}, {"verdict"})
        self.assertEqual(len(document["left_out"]), len(every) - len(go))
        document = self.ranked("--least-daylight", "18%")
        self.assertEqual({film["name"] for film in document["films"]}, {"light", "mirror"})
        self.assertEqual({(film["name"], film["why"]) for film in document["left_out"]},
                         {("dark", "daylight"), ("old sheet", "daylight_not_given")})
        heat = {film["name"]: film["sun_heat_kept_out"] for film in every}
        middle = round(sorted(heat.values())[2], 2)
        self.assertEqual(set(self.names("--least-heat", str(middle))),
                         {name for name, kept in heat.items() if round(kept, 2) >= middle})
        self.assertEqual(self.names("--first", "2"), [film["name"] for film in every][:2])
        text = " ".join(self.answered("rank", self.job, "--films", self.films(), "--least-daylight", "0.18", "--first",
                                      "1").split())
        self.assertIn("Left out 1 under 18 % daylight, 1 whose daylight is not given, 1 further down", text)
        text = self.answered("rank", self.job, "--films", self.films(), "--least-heat", "99 %")
        self.assertIn("no film to show", text)

    def test_a_bad_film_says_so_and_stops_no_other(self):
        films = HEADER + FILMS[0] + BAD[0][0] + FILMS[1] + "".join(row for row, _ in BAD[1:]) + "\n" + FILMS[2]
        document = self.ranked(code=2, films=films)
        self.assertEqual({film["name"] for film in document["films"]}, {"light", "dark", "mirror"})
        self.assertEqual([error["name"] for error in document["errors"]], ["typo", "sum", "short", "bare"])
        for error, (_, says) in zip(document["errors"], BAD):
            self.assertRegex(error["error"], r"films.csv, line \d+: ")
            self.assertIn(says, error["error"])
        text = " ".join(self.answered("rank", self.job, "--films", self.films(films), code=2).split())
        self.assertRegex(text, r"No answer typo: \S+films.csv, line 3: film.reference_glass")
        # one that can be a film, and not on this pane
        document = self.ranked(code=2, films="film.name,film.solar_absorptance,film.surface\nin,0.3,2\nunit,0.3,4\n")
        self.assertEqual([film["name"] for film in document["films"]], ["in"])
        self.assertIn("line 3: film.surface", document["errors"][0]["error"])

    def test_a_real_year_is_left_aside_and_said_to_be(self):
        days = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
        rows = "".join(f"{month + 1},{day + 1},{hour},10,0,50\n" for month in range(12) for day in range(days[month])
                       for hour in range(1, 25))
        self.file("month,day,hour,air_c,beam_normal_w_m2,diffuse_horizontal_w_m2\n" + rows, "year.csv")
        path = self.file('weather = "year.csv"\n' + KNOWN)
        text = self.answered("rank", path, "--films", self.films())
        without = self.answered("rank", self.known(), "--films", self.films())
        said = "Left aside the year of year.csv: films are ranked on the design days\n"
        self.assertEqual(text.replace(said, ""), without)
        self.assertIn(said, text)

    def test_films_of_one_name_are_told_apart(self):
        document = self.ranked(films=HEADER + FILMS[0] + FILMS[0].replace("light", "") + FILMS[0])
        self.assertEqual([film["name"] for film in document["films"]], ["light, line 2", "line 3", "light, line 4"])

    def test_the_jobs_own_film_is_left_aside_and_where_it_goes_stays(self):
        own = self.ranked()["films"]
        without = self.known("solar_absorptance = 0.30\nsolar_transmittance = 0.60\nsolar_reflectance = 0.10\n", "", "w.toml")
        self.assertEqual(own, json.loads(self.answered("rank", without, "--films", self.films(), "--json"))["films"])
        band = [word for setting in ("film.bare=top", "shading.pattern=unknown", "shading.share=unknown") for word in ("--set", setting)]
        banded = json.loads(self.answered("rank", self.job, "--films", self.films(), "--json", *band))["films"]
        row = FILMS[banded[0]["line"] - 2]
        answer = json.loads(self.answered("check", self.job, "--json", *self.check_settings(row), *band))
        self.assertEqual(banded[0]["stress_ratio"], answer["stress_ratio"])
        self.assertNotEqual(banded[0]["stress_ratio"], own[0]["stress_ratio"])

    def test_the_same_bytes_for_any_number_of_threads(self):
        films = self.films(HEADER + "".join(FILMS + [row for row, _ in BAD]))
        for words in ([self.job], self.panes(PANES + "".join(PANE_ROWS) + "bad,0,1 m,wood,1,\n")):
            for more in ([], ["--json"]):
                runs = [self.run_program("rank", *words, "--films", films, "--threads", n, *more) for n in ("1", "3")]
                self.assertEqual(runs[0].returncode, 2)
                self.assertEqual(len({(run.stdout, run.stderr) for run in runs}), 1)

    def test_every_pane_of_a_table_has_its_list(self):
        table = PANES + PANE_ROWS[0] + "bad,0,1 m,wood,1,\n\n" + PANE_ROWS[1]
        done = self.run_program("rank", *self.panes(table), "--films", self.films(), "--json")
        self.assertEqual(done.returncode, 2, done.stderr)
        stair, bad, hall = map(json.loads, done.stdout.decode().splitlines())
        self.assertEqual((stair["line"], stair["quantity"], bad["line"], hall["line"]), (2, 4, 3, 5))
        self.assertEqual(bad["verdict"], "error")
        self.assertIn("line 3: pane.width", bad["error"])
        self.assertEqual(stair["cells"][0], {"column": "job.name", "text": "stair"})
        # a pane's list is what the pane alone has
        alone = json.loads(self.answered("rank", self.job, "--films", self.films(), "--json", "--set", "pane.width=946 mm"))
        self.assertEqual(stair["films"], alone["films"])
        summary = done.stderr.decode()
        self.assertIn("2 of 3 pane types tried, 6 panes; 1 could not be", " ".join(summary.split()))
        self.assertIn("local codes and licensed practice come first", " ".join(summary.split()))
        for film in ("light", "dark", "mirror", "old sheet"):
            tried = [(pane["quantity"], next(one for one in pane["films"] if one["name"] == film)) for pane in (stair, hall)]
            panes = {verdict: sum(count for count, one in tried if one["verdict"] == verdict)
                     for verdict in ("go", "caution", "refer")}
            worst = max(one["stress_ratio"] for _, one in tried)
            heat = min(one["sun_heat_kept_out"] for _, one in tried)
            self.assertRegex(summary, rf"\n  {film} +{panes['go']} +{panes['caution']} +{panes['refer']} +{worst:.2f} +"
                                      rf"{100 * heat:.0f} %\n")
        text = self.answered("rank", *self.panes(table), "--films", self.films(), code=2)
        self.assertRegex(text, r"\AFilms on line 2, stair \(4 panes\)\n")
        self.assertIn("\nNo answer  line 3: pane.width", text)
        self.assertIn("\nFilms on line 5, hall (2 panes)\n", text)
        self.assertTrue(" ".join(text.split()).endswith("may hold lead."))

    def test_an_error_of_the_list_is_told_once_and_not_under_every_pane(self):
        text = self.answered("rank", *self.panes(), "--films", self.films(HEADER + FILMS[0] + BAD[3][0]), code=2)
        self.assertEqual(text.count("No answer"), 1)

    def test_the_table_has_a_row_for_each_film_on_each_pane(self):
        out = self.directory / "out.csv"
        films = self.films(HEADER + "".join(FILMS) + BAD[0][0])
        text = self.answered("rank", self.job, "--films", films, "-o", str(out), code=2)
        self.assertTrue(text.startswith("Films on Reading room, east bay\n"))
        rows = list(csv.DictReader(io.StringIO(out.read_text(), newline="")))
        self.assertEqual(list(rows[0]), HEADER.strip().split(",") + ANSWER)
        document = self.ranked(code=2, films=HEADER + "".join(FILMS) + BAD[0][0])
        self.assertEqual([row["film.name"] for row in rows], [film["name"] for film in document["films"]] + ["typo"])
        for row, film in zip(rows, document["films"]):
            self.assertEqual(row["answer.place"], str(film["place"]))
            self.assertEqual(row["answer.verdict"], film["verdict"])
            self.assertEqual(row["answer.ratio"], f"{film['stress_ratio']:.3f}")
            self.assertEqual(row["answer.heat_kept_out"], f"{film['sun_heat_kept_out']:.3f}")
            self.assertEqual(row["answer.heat_cut"], f"{film['sun_heat_cut']:.3f}")
            self.assertEqual(row["answer.daylight"], "" if film["daylight"] is None else f"{film['daylight']:.3f}")
            self.assertEqual(row["answer.reason"], film["reason"])
            self.assertEqual(row["answer.rules"].split(), film["rules"] + film["open_rules"])
            self.assertEqual(row["shelf"], FILMS[film["line"] - 2].strip()[-1])
        self.assertEqual(rows[-1]["answer.verdict"], "error")
        self.assertIn("film.reference_glass", rows[-1]["answer.reason"])
        self.answered("rank", self.job, "--films", films, "-o", str(out), "--json", code=2)
        self.assertEqual(json.loads(out.read_text()), document)

    def test_the_table_of_several_panes(self):
        out = self.directory / "out.csv"
        table = "\ufeffjob.name;pane.width [mm];pane.height;film.shgc;remark\r\nstair;946,0;1,5 m;0,3;a,b\r\nbad;0;1 m;;\r\n"
        panes = [*self.panes(table), "--set", "frame.kind=wood"]
        self.refused("rank", *panes, "--films", self.films(), says=["--panes", "--set"])
        text = self.answered("rank", *panes[:4], "--films", self.films(), "-o", str(out), code=2)
        self.assertNotIn("Films on", text)
        self.assertIn("Left aside film.shgc of ", " ".join(text.split()))
        self.assertTrue(out.read_bytes().startswith(b"\xef\xbb\xbfjob.name;pane.width [mm];pane.height;remark;film.name;"))
        rows = list(csv.DictReader(io.StringIO(out.read_text("utf-8-sig"), newline=""), delimiter=";"))
        self.assertEqual([row["job.name"] for row in rows], ["stair"] * len(FILMS) + ["bad"])
        self.assertEqual(rows[0]["remark"], "a,b")
        self.assertRegex(rows[0]["answer.ratio"], r"^\d,\d{3}$")
        self.assertEqual([row["answer.place"] for row in rows], ["1", "2", "3", "4", ""])
        self.assertEqual((rows[-1]["answer.verdict"], rows[-1]["film.name"]), ("error", ""))
        self.assertEqual(sorted(os.listdir(self.directory)), ["defaults.toml", "films.csv", "job.toml", "out.csv", "panes.csv"])

    def test_from_standard_input(self):
        asked = self.answered("rank", self.job, "--films", self.films())
        with open(self.films(), "rb") as films:
            self.assertEqual(self.answered("rank", self.job, "--films", "-", stdin=films), asked)
        with open(self.job, "rb") as job:
            self.assertEqual(self.answered("rank", "-", "--films", self.films(), stdin=job), asked)
        for words in (["-"], ["--panes", "-"]):
            self.refused("rank", *words, "--films", "-", says=["--films", "standard input"])

    def test_ctrl_c_leaves_what_was_done(self):
        films = self.films(HEADER + "".join(f"film {i},{0.70 - 0.0001 * i:.4f},0.10,,,3-mm-clear,\n" for i in range(3000)))
        running = subprocess.Popen([PROGRAM, "rank", str(EXAMPLES / "school-low-e.toml"), "--films", films],
                                   stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        with running:
            time.sleep(2)
            running.send_signal(signal.SIGINT)
            self.assertEqual(running.wait(60), 130)
            text = running.stdout.read().decode()
            self.assertEqual(running.stderr.read(), b"Stopped before the end of the list.\n")
        self.assertIn("film 0 ", text)
        self.assertRegex(" ".join(text.split()), r"No answer \d+ films not tried: stopped")
        self.assertLess(text.count("\n"), 3100)

    def test_width_units_and_color(self):
        longest = HEADER + FILMS[0].replace("light", "a film whose name is long and as long as names on sheets can be") + FILMS[1]
        for width in (60, 80, 120):
            for words in ([self.job], self.panes()):
                text = self.answered("rank", *words, "--films", self.films(longest), "--width", str(width))
                self.assertLessEqual(max(map(len, text.splitlines())), width, text)
                self.assertNotIn("\x1b", text)
        for units, warmer in (("metric", " K "), ("inch", " F ")):
            self.assertIn(warmer, self.ranked("--units", units)["films"][0]["reason"])
        self.assertLessEqual(max(map(len, self.answered("rank", "--help").splitlines())), 80)

    def test_the_example(self):
        films = str(EXAMPLES / "invented-films.csv")
        with open(films, newline="") as rows:
            self.assertEqual({row["sheet"] for row in csv.DictReader(rows)}, {"invented"})
        done = self.run_program("rank", "--panes", str(EXAMPLES / "school-panes.csv"), "--defaults",
                                str(EXAMPLES / "school-defaults.toml"), "--films", films)
        self.assertEqual(done.returncode, 2)
        self.assertEqual(done.stdout.count(b"Films on line"), 7)
        self.assertIn(b"7 of 8 pane types tried, 46 panes", done.stdout)

    def test_bad_input(self):
        films = self.films()
        self.refused("rank", self.job, says=["--films"])
        self.refused("rank", "--films", films, says=["rank", "job file"])
        self.refused("rank", self.job, self.job, "--films", films, says=["one job file"])
        self.refused("rank", self.job, "--films", str(self.directory / "none.csv"), says=["none.csv", "No such file"])
        self.refused("rank", self.job, "--films", self.file("", "empty.csv"), says=["empty.csv", "is empty"])
        self.refused("rank", self.job, "--films", self.file(HEADER, "header.csv"), says=["header.csv", "no film"])
        self.refused("rank", self.job, "--films", self.file("film.shcg\n0.5\n", "typo.csv"), says=["film.shcg", "film.shgc"])
        self.refused("rank", self.job, "--films", self.file("film.shgc,frame.kind\n", "f.csv"), says=["frame.kind", "no key of the film"])
        self.refused("rank", self.job, "--films", self.file("film.shgc,answer.ratio\n0.5,1\n", "old.csv"), says=["answer.ratio"])
        self.refused("rank", self.known("width =", "widht =", "typo.toml"), "--films", films, says=["widht"])
        self.refused("rank", self.job, *self.panes(), "--films", films, says=["--panes"])
        self.refused("rank", self.job, "--defaults", self.defaults, "--films", films, says=["--defaults"])
        for option, value in (("sort", "price"), ("at-worst", "refer"), ("least-heat", "1.5"), ("least-daylight", "dark"),
                              ("first", "0"), ("threads", "0"), ("width", "10"), ("output", "")):
            self.refused("rank", self.job, "--films", films, f"--{option}={value}", says=[f"--{option}"])
        self.refused("rank", self.job, "--films", films, "-o", str(self.directory), says=["no ordinary file"])

    @unittest.skipUnless(os.path.exists("/dev/full"), "needs a disk that is full")
    def test_a_full_disk(self):
        with open("/dev/full", "wb") as full:
            for words in ([self.job], self.panes()):
                done = self.run_program("rank", *words, "--films", self.films(), stdout=full)
                self.assertEqual(done.returncode, 3)
                self.assertRegex(done.stderr, rb"\Asunstrain: [^\n]+could not be written[^\n]+\n\Z")


main()
