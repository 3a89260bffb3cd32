"""A job with a weather file: where the file is looked for, what the answer says, what is refused."""
import json
import math

from harness import KNOWN, ProgramTest, main

HEADER = """LOCATION,Kettle Bridge,-,-,invented,000000,45.00,-93.00,-6.0,250.0
DESIGN CONDITIONS,1,invented,,Heating,1,-24.0,-21.0,Cooling,7,11.0,32.0,22.0
TYPICAL/EXTREME PERIODS,0
GROUND TEMPERATURES,0
HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0
COMMENTS 1,made for tests
COMMENTS 2,
DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31
"""
DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def epw():
    rows = [HEADER]
    for month, days in enumerate(DAYS, 1):
        for day in range(1, days + 1):
            for hour in range(1, 25):
                air = 8 - 14 * math.cos(2 * math.pi * month / 12) - 6 * math.cos(2 * math.pi * (hour - 3) / 24)
                up = math.sin(math.pi * (hour - 6.5) / 12) if 6 < hour <= 18 else 0
                rows.append(f"2019,{month},{day},{hour},60,?,{air:.1f},{air - 7:.1f},60,98000,0,0,9999,0,"
                            f"{800 * up:.0f},{90 * up:.0f},0,0,0,0,180,3,5,5,20,77777,9,999999999,10,0.1,0,88,0,0,1\n")
    return "".join(rows)


class Weather(ProgramTest):
    def setUp(self):
        super().setUp()
        (self.directory / "weather").mkdir()
        (self.directory / "weather" / "kettle.epw").write_text(epw())

    def job(self, text):
        path = self.directory / "job.toml"
        path.write_text(text)
        return str(path)

    def test_looked_for_beside_the_job(self):
        text = self.answered("check", self.job('weather = "weather/kettle.epw"\n' + KNOWN))
        self.assertIn("The year of weather/kettle.epw (8760 h)", text)
        self.assertIn("of the go line or more", text)
        self.assertIn("see --full", text)

    def test_full_says_days_odds_and_remarks(self):
        text = self.answered("check", "--full", self.job('weather = "weather/kettle.epw"\n' + KNOWN))
        for words in ("fatigue, as hours at the go line", "worst days, with film", "1 / 10 / 25 such years",
                      "about the file: sky long-wave"):
            self.assertIn(words, text.replace("\n  ", " "))

    def test_json(self):
        answer = json.loads(self.answered("check", "--json", self.job('weather = "weather/kettle.epw"\n' + KNOWN)))
        lite = answer["weather"]["lites"][0]
        self.assertEqual(answer["weather"]["hours"], 8760)
        self.assertGreater(lite["after_film"]["stress_ratio"], lite["before_film"]["stress_ratio"])
        self.assertEqual(lite["after_film"]["worst_days"][0]["month"], lite["after_film"]["month"])
        plain = json.loads(self.answered("check", "--json", self.job(KNOWN)))
        self.assertIsNone(plain["weather"])
        self.assertEqual(plain["verdict"], answer["verdict"])

    def test_place_from_the_file(self):
        without = KNOWN.replace('place = "chicago"\n', "")
        answer = json.loads(self.answered("check", "--json", self.job('weather = "weather/kettle.epw"\n' + without)))
        self.assertAlmostEqual(answer["bad_end"]["site.latitude"], math.radians(45))
        self.assertAlmostEqual(answer["bad_end"]["site.coldest"], 273.15 - 24)

    def test_refused(self):
        self.refused("check", self.job('weather = "none.epw"\n' + KNOWN), says=["none.epw"])
        (self.directory / "bad.epw").write_text(epw().replace("2019,1,2,3,60,?,", "2019,1,2,3,60,?,9"))
        self.refused("check", self.job('weather = "bad.epw"\n' + KNOWN), says=["bad.epw, line 35", "air temperature"])


if __name__ == "__main__":
    main()
