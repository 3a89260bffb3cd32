// Weather files: what is read, what is filled and said, what is refused.
#include "sunstrain/io/weather_read.hpp"

#include <catch2/catch.hpp>
#include <numeric>

#include "sunstrain/heat.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/weather_text.hpp"

using namespace sunstrain;
using namespace sunstrain::test;
using Catch::Matchers::Contains;

namespace {

bool on(const WeatherCell& c, int month, int day, int hour) {
  return c.month == month && c.day == day && c.hour == hour;
}

std::string remarks(const WeatherYear& year) {
  std::string all;
  for (const std::string& remark : year.remarks) all += remark + "\n";
  return all;
}

std::size_t index_of(int month, int day, int hour) {
  int days = day - 1;
  for (int m = 1; m < month; ++m) days += month_days[m - 1];
  return static_cast<std::size_t>(24 * days + hour - 1);
}

const WeatherPane south{1.5707963267948966, 3.141592653589793, 0.2, 0.5};

}  // namespace

TEST_CASE("Weather file: an EPW year is read whole, its place and design conditions with it") {
  const WeatherYear year = read_weather(epw_text(), "kettle.epw", builtin_reference());
  CHECK(year.records.size() == 8760);
  CHECK(year.interval_s == 3600.0);
  CHECK(*year.latitude_rad == Approx(0.7853981634));
  CHECK(*year.utc_offset_h == -6.0);
  CHECK(*year.altitude_m == 250.0);
  REQUIRE(year.design);
  CHECK(year.design->coldest_k == Approx(249.15));
  CHECK(year.design->hottest_k == Approx(305.15));
  CHECK(year.design->daily_range_k == Approx(11.0));
  CHECK(year.records.front().snow);
  CHECK_FALSE(year.records[index_of(7, 1, 12)].snow);
  CHECK_THAT(remarks(year), Contains("sky long-wave: 8760 of 8760 values missing"));
  CHECK(year.remarks.size() == 1);
}

TEST_CASE("Weather file: what is missing is filled, and said") {
  const WeatherYear whole = read_weather(epw_text(), "kettle.epw", builtin_reference());
  const WeatherYear year = read_weather(epw_text([](WeatherCell& c) {
                                          if (c.month == 3 && c.day == 9 && c.hour >= 4 && c.hour <= 6)
                                            c.air_c = "99.9";
                                          if (c.month == 5 && c.day == 2) c.air_c = "99.9";
                                          if (on(c, 6, 3, 12)) c.beam = "9999";
                                          if (on(c, 8, 8, 8)) c.dew_c = "99.9";
                                          return !(on(c, 10, 1, 1) || on(c, 10, 1, 2));
                                        }),
                                        "kettle.epw", builtin_reference());
  CHECK(year.records.size() == 8760);
  const std::string said = remarks(year);
  CHECK_THAT(said, Contains("2 records are left out"));
  CHECK_THAT(said, Contains("air temperature: 29 of 8760 values missing"));
  CHECK_THAT(said, Contains("direct sun: 3 of 8760"));
  const auto air = [&](int month, int day, int hour) { return *year.records[index_of(month, day, hour)].air_k; };
  // Straight across three hours; a whole day takes the day before.
  CHECK(air(3, 9, 5) == Approx(0.5 * (air(3, 9, 3) + air(3, 9, 7))));
  CHECK(air(5, 2, 14) == Approx(*whole.records[index_of(5, 1, 14)].air_k));
  CHECK(*year.records[index_of(6, 3, 12)].beam_normal_w_m2 == *whole.records[index_of(6, 2, 12)].beam_normal_w_m2);
  for (const WeatherRecord& r : year.records)
    REQUIRE((r.air_k && r.dew_point_k && r.beam_normal_w_m2 && r.diffuse_horizontal_w_m2));
}

TEST_CASE("Weather file: a leap day stays; half-hourly and named columns are read") {
  std::string table = "month,day,hour,air_c,beam_normal_w_m2,diffuse_horizontal_w_m2,my_own\n";
  for (int month = 1; month <= 12; ++month)
    for (int day = 1; day <= month_days[month - 1] + (month == 2); ++day)
      for (int half = 1; half <= 48; ++half)
        table += std::to_string(month) + "," + std::to_string(day) + "," + std::to_string(0.5 * half) + ",4.5,0,10,x\n";
  const WeatherYear year = read_weather(table, "table.csv", builtin_reference());
  CHECK(year.interval_s == 1800.0);
  CHECK(year.records.size() == 366 * 48);
  CHECK_FALSE(year.latitude_rad);
  CHECK_THAT(remarks(year), Contains("29 February"));
  CHECK_THAT(remarks(year), Contains("dew point: 17568 of 17568 values missing, taken 8 K below the air"));
}

TEST_CASE("Weather file: what cannot be is refused in one line that says where") {
  const auto refused = [](const std::string& text) {
    try {
      read_weather(text, "w.epw", builtin_reference());
    } catch (const BadInput& error) {
      return std::string(error.what());
    }
    return std::string("taken");
  };
  CHECK_THAT(refused(""), Contains("empty"));
  CHECK_THAT(refused("a,b,c\n1,2,3\n"), Contains("line 1: no column month"));
  CHECK_THAT(refused(epw_text([](WeatherCell& c) {
               if (on(c, 1, 2, 3)) c.air_c = "72";
               return true;
             })),
             Contains("w.epw, line 35: air temperature, C = 72: must be -75 to 65"));
  CHECK_THAT(refused(epw_text([](WeatherCell& c) {
               if (on(c, 1, 2, 3)) c.diffuse = "bright";
               return true;
             })),
             Contains("diffuse horizontal sun, W/m2 = \"bright\": must be a number"));
  CHECK_THAT(refused(epw_text([](WeatherCell& c) {
               if (on(c, 1, 2, 3)) c.hour = 2;
               return true;
             })),
             Contains("month 1, day 2, hour 2 comes twice or out of order"));
  CHECK_THAT(refused(epw_text([](WeatherCell& c) { return c.month <= 5; })), Contains("less than half a year"));
}

TEST_CASE("Weather steps: an interval keeps its mean sun, temperatures run straight, the sky is what the file says") {
  const WeatherYear year = read_weather(epw_text([](WeatherCell& c) {
                                          c.sky = "280";
                                          return true;
                                        }),
                                        "kettle.epw", builtin_reference());
  const std::vector<DayStep> steps = weather_steps(year, south, 600.0);
  REQUIRE(steps.size() == 8760 * 6);
  double worst_beam = 0.0, worst_diffuse = 0.0;
  for (std::size_t i = 0; i < year.records.size(); ++i) {
    double beam = 0.0, diffuse = 0.0;
    int up = 0;
    for (std::size_t k = 0; k < 6; ++k) {
      beam += steps[6 * i + k].beam_normal_w_m2 / 6.0;
      diffuse += steps[6 * i + k].diffuse_horizontal_w_m2 / 6.0;
      up += steps[6 * i + k].sun.apparent_elevation_rad > 0.0;
    }
    // Of an hour in which the file has sun and the sun is down all through, only the diffuse part can be kept; where
    // all of it would have to come in one step it may pass what comes in above the atmosphere.
    if (up >= 3) worst_beam = std::max(worst_beam, std::abs(beam - *year.records[i].beam_normal_w_m2));
    worst_diffuse = std::max(worst_diffuse, std::abs(diffuse - *year.records[i].diffuse_horizontal_w_m2));
  }
  CHECK(worst_beam < 1e-9);
  CHECK(worst_diffuse < 1e-9);
  const std::size_t noon = 6 * index_of(4, 6, 12);
  const double before = *year.records[noon / 6 - 1].air_k, after = *year.records[noon / 6].air_k;
  CHECK(steps[noon].outdoor_air_k == Approx(before + (after - before) / 12.0));
  CHECK(steps[noon].local_hour == Approx(11.0 + 1.0 / 12.0));
  CHECK(steps[noon].sky_k == Approx(std::pow(280.0 / stefan_boltzmann_w_m2k4, 0.25)));
  CHECK_THROWS_AS(weather_steps(year, south, 700.0), std::invalid_argument);
}
