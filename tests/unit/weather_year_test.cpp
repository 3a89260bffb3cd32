// A pane through a year of weather.
#include "sunstrain/weather_year.hpp"

#include <catch2/catch.hpp>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/io/weather_read.hpp"
#include "support/heat_lines.hpp"
#include "support/jobs.hpp"
#include "support/weather_text.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

WeatherRun through(const Case& pane, const GlazingState& state, const WeatherYear& year) {
  ChainCache cache;
  return run_weather_year(pane, state, year, builtin_reference(), cache);
}

}  // namespace

TEST_CASE("Stretches of a day that repeats are that day") {
  const std::array<double, 2> absorbed{0.1, 0.4};
  const auto day = heat_lines::clear_day({-8, 7, 21, 10, 900, 0.5}, absorbed, 144);
  const Line section = heat_lines::line("vinyl", "metal", 0.012, 2);
  const LineDay periodic = march_day(section, day, 600.0);
  std::vector<StepLoads> three_days;
  for (int i = 0; i < 3; ++i) three_days.insert(three_days.end(), day.begin(), day.end());
  std::vector<LineDay> spans;
  march_spans(section, std::vector<std::vector<StepLoads>>(3, three_days), 288, 600.0, spans);
  REQUIRE(spans.size() == 3);
  REQUIRE(spans[0].steps() == 144);
  double worst = 0.0;
  for (std::size_t i = 0; i < periodic.cell_k.size(); ++i)
    worst = std::max(worst, std::abs(periodic.cell_k[i] - spans[2].cell_k[i]));
  CHECK(worst < 0.05);  // what a periodic day may be off at midnight
  CHECK(spans[0].cell_k == spans[2].cell_k);
}

TEST_CASE("Weather year: what it says of itself is of one piece") {
  const WeatherYear year = read_weather(epw_text(), "kettle.epw", builtin_reference());
  const Case pane = complete_double_case({"frame.kind=aluminum"});
  const WeatherRun before = through(pane, pane.before, year), after = through(pane, pane.after, year);
  REQUIRE(after.lites.size() == 2);
  CHECK(before.worst_energy_residual < 1e-6);
  CHECK(after.worst_energy_residual < 1e-6);
  for (const WeatherRun* run : {&before, &after}) {
    for (const YearLite& lite : run->lites) {
      for (std::size_t r = 1; r < lite.hours.size(); ++r) CHECK(lite.hours[r] <= lite.hours[r - 1]);
      for (std::size_t d = 1; d < lite.worst_days.size(); ++d)
        CHECK(lite.worst_days[d].stress_ratio <= lite.worst_days[d - 1].stress_ratio);
      CHECK(lite.odds_1.best <= lite.odds_10.best);
      CHECK(lite.odds_10.best <= lite.odds_25.best);
    }
  }
  const YearLite &bare = before.lites[1], &filmed = after.lites[1];
  REQUIRE(filmed.worst_days.size() == 10);
  CHECK(filmed.worst_days.front().month == filmed.month);
  CHECK(filmed.worst_days.front().day == filmed.day);
  CHECK(filmed.worst_days.front().stress_ratio == Approx(filmed.stress_ratio).epsilon(0.005));
  CHECK(filmed.stress_ratio > bare.stress_ratio);
  CHECK(filmed.hours[0] > bare.hours[0]);
  CHECK(filmed.hours_at_line > bare.hours_at_line);
  CHECK(filmed.odds_1.best > bare.odds_1.best);
  // The invented year is clear on every third day only: so is its worst day.
  CHECK(filmed.day % 3 == 0);
}

TEST_CASE("Weather year: with a moving shadow every step that counts is found, whatever the bound rules out") {
  const WeatherYear year = read_weather(epw_text(), "kettle.epw", builtin_reference());
  const Case pane = complete_double_case({"shading.overhang_depth=0.5 m", "shading.overhang_height=0.1 m"});
  const WeatherRun run = through(pane, pane.after, year);
  // Its worst day once more, as a day among itself that repeats, every step solved: the same within what a day before
  // of another kind leaves behind.
  const YearLite& worst = run.lites[1];
  const std::vector<DayStep> steps = weather_steps(
      year, {pane.tilt_rad, pane.facing_rad, pane.ground_reflectance, pane.winter_ground_reflectance}, 600.0);
  int days = worst.day - 1;
  for (int m = 1; m < worst.month; ++m) days += month_days[m - 1];
  const bool heated = worst.month <= 4 || worst.month >= 10;
  DesignDay day{worst.month, heated ? DayKind::cold_clear : DayKind::hot_clear, 600.0, {}};
  day.steps.assign(steps.begin() + 144 * days, steps.begin() + 144 * (days + 1));
  ChainCache cache;
  const YearPeaks alone = worst_of_days(pane, pane.after, {&day, 1}, builtin_reference(), cache, false, Steps::all);
  CHECK(worst.stress_pa == Approx(alone.lites[1].stress_pa).epsilon(0.03));
  CHECK(worst.local_hour == Approx(alone.lites[1].when.local_hour).margin(0.5));
}

TEST_CASE("Weather year: a part of the pane that is otherwise has strips of its own, and water sends its sun") {
  const WeatherYear year = read_weather(epw_text(), "kettle.epw", builtin_reference());
  const Case plain = complete_double_case({}), drawn = complete_double_case({"film.bare=top", "film.bare_share=50 %"}),
             lake = complete_double_case({"site.water_distance=0 m", "site.water_width=500 m", "site.water_drop=3 m"});
  const WeatherRun whole = through(plain, plain.after, year), part = through(drawn, drawn.after, year);
  CHECK(part.worst_energy_residual < 1e-6);
  CHECK(part.lites[1].stress_ratio > whole.lites[1].stress_ratio);
  CHECK(through(lake, lake.after, year).lites[1].stress_ratio > whole.lites[1].stress_ratio);
}

TEST_CASE("Weather year: a table without a place is taken at the job's, and the verdict stays the design days'") {
  std::string table = "month,day,hour,air_c,beam_normal_w_m2,diffuse_horizontal_w_m2\n";
  each_hour([&](int month, int day, int hour) {
    const WeatherCell c = plain_hour(month, day, hour);
    table += std::to_string(month) + "," + std::to_string(day) + "," + std::to_string(hour) + "," + c.air_c + "," +
             c.beam + "," + c.diffuse + "\n";
  });
  const WeatherYear year = read_weather(table, "own.csv", builtin_reference());
  const Job job = complete_double({});
  const Assessment plain = assess(job, builtin_reference()), with = assess(job, builtin_reference(), &year);
  CHECK_FALSE(plain.weather);
  REQUIRE(with.weather);
  CHECK(with.weather->hours == 8760.0);
  CHECK(with.weather->after.lites.size() == 2);
  CHECK(with.verdict == plain.verdict);
  CHECK(with.stress_ratio == plain.stress_ratio);
}
