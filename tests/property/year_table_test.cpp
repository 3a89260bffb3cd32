// The year by month and hour is the answer's own run: its highest hour is the answer's, and every step of every day is
// in the hour that it belongs to.
#include "sunstrain/year_table.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "../../src/engine/year_parts.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/random_jobs.hpp"

using namespace sunstrain;

namespace {

// With nothing left open: the year is of the bad end, which is known then.
Job known_job(std::mt19937& random) {
  return resolve(test::random_job(random), Run::bad_end, {}, builtin_reference()).job;
}

double highest(const RatioByHour& ratio) {
  double most = 0.0;
  for (const auto& month : ratio) most = std::max(most, *std::max_element(month.begin(), month.end()));
  return most;
}

double at(const RatioByHour& ratio, const Moment& when) {
  return ratio.at(static_cast<std::size_t>(when.month - 1)).at(static_cast<std::size_t>(when.local_hour));
}

// What the plane raised belongs to the answer's hour alone.
double unraised(double raised, double by) { return raised / by; }

// The ratio of one lite in one hour, none of its steps left out.
double ratio_of_hour(const internal::LiteDay& lite, const EdgeStressSolver& solver, const DesignDay& day,
                     std::size_t hour, double go_pa) {
  double most_pa = 0.0;
  for (std::size_t step = 0; step < day.steps.size(); ++step)
    if (static_cast<std::size_t>(day.steps[step].local_hour) == hour)
      most_pa = std::max(most_pa, solver.find_peak(lite.stress(step)).stress_pa);
  return most_pa / go_pa;
}

}  // namespace

TEST_CASE("the year's highest hour is the answer's", "[slow]") {
  const Reference& reference = builtin_reference();
  std::mt19937 random(20260211);
  for (int i = 0; i < 8; ++i) {
    INFO("job " << i);
    ChainCache cache;
    const Assessment a = assess_briefly(known_job(random), reference, cache);
    const YearTable year = year_table(a, reference, cache);
    const LiteFigures &before = a.lites[year.lite].before, &after = a.lites[year.lite].after;
    CHECK(year.lite == a.governing_lite);
    CHECK(at(year.after, after.when) == Approx(unraised(after.stress_ratio, a.raised_by())).epsilon(1e-12));
    // Samples decide which step governs; between them another hour may come out higher by what samples miss.
    CHECK(highest(year.after) <= unraised(after.stress_ratio, a.raised_by()) * 1.002);
    CHECK(at(year.before, before.when) <= before.stress_ratio * (1.0 + 1e-12));
    CHECK(highest(year.before) <= before.stress_ratio * 1.002);
    if (a.raised_by() == 1.0) CHECK(at(year.before, before.when) == Approx(before.stress_ratio).epsilon(1e-12));
  }
}

TEST_CASE("an hour of the year is the worse of its month's two days, every step of it solved", "[slow]") {
  const Reference& reference = builtin_reference();
  std::mt19937 random(77);
  for (int i = 0; i < 3; ++i) {
    INFO("job " << i);
    ChainCache cache;
    const Assessment a = assess_briefly(known_job(random), reference, cache);
    const YearTable year = year_table(a, reference, cache);
    const Case pane = build_case(a.bad_end, Run::bad_end, reference);
    const std::vector<DesignDay> days = internal::design_year(pane, reference, cache.store());
    const internal::AbsorptionTable table(pane.after, pane.room.back_reflectance());
    const auto strips = internal::strips_of_days(pane, pane.after, table, days, cache.store());
    const auto maps = internal::maps_of_lites(pane, pane.after, strips, days.front().steps.size(), cache.store());
    const auto light = internal::light_of_days(pane, days);
    const auto of_lite = internal::days_of_lite(pane, light, strips, year.lite, maps[year.lite], cache.store());
    const double go_pa = allowable_stress(pane.strengths[year.lite], reference).go_pa;
    for (std::size_t month = 0; month < 12; month += 3) {
      for (std::size_t hour = 0; hour < 24; ++hour) {
        INFO("month " << month + 1 << ", hour " << hour);
        double worst = 0.0;
        for (const std::size_t day : {2 * month, 2 * month + 1})
          worst = std::max(worst, ratio_of_hour(of_lite[day], *maps[year.lite].solver, days[day], hour, go_pa));
        CHECK(year.after[month][hour] <= worst * (1.0 + 1e-12));
        CHECK(year.after[month][hour] >= worst * 0.998 - 1e-4);
      }
    }
  }
}
