// Steps that the bound rules out cannot govern: the answer with them and without is the same to the last bit, on random
// panes. A sample of them in every run; SUNSTRAIN_RANDOM_JOBS=1000 in the environment (target pruning_whole) does them
// all.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <random>

#include "../../src/engine/year_parts.hpp"
#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/resolve.hpp"
#include "support/random_jobs.hpp"

using namespace sunstrain;

namespace {

std::size_t job_count() {
  const char* wanted = std::getenv("SUNSTRAIN_RANDOM_JOBS");
  return wanted == nullptr ? 12 : std::strtoul(wanted, nullptr, 10);
}

}  // namespace

TEST_CASE("the bound rules out no step that governs") {
  const Reference& reference = builtin_reference();
  std::mt19937 random(20250221);
  for (std::size_t i = 0; i < job_count(); ++i) {
    const Job job = resolve(test::random_job(random), Run::bad_end, {}, reference).job;
    const Case pane = build_case(job, Run::bad_end, reference);
    // Four days of the year, one a season: the day with the peak is among them or not, the comparison holds all the
    // same.
    std::vector<DesignDay> days;
    for (int month : {1, 4, 7, 10}) {
      days.push_back(design_day(pane.place, month, month == 7 ? DayKind::hot_clear : DayKind::cold_clear, pane.tilt_rad,
                                pane.facing_rad, pane.ground_reflectance, 144, reference));
      internal::add_reflected(pane, days.back());
    }
    ChainCache cache;
    const YearPeaks some = worst_of_days(pane, pane.after, days, reference, cache, false);
    const YearPeaks every = worst_of_days(pane, pane.after, days, reference, cache, false, Steps::all);
    INFO("job " << i);
    CHECK(some.worst_energy_residual < 1e-6);
    for (std::size_t lite = 0; lite < some.lites.size(); ++lite) {
      CHECK(some.lites[lite].stress_pa == every.lites[lite].stress_pa);
      CHECK(some.lites[lite].when.local_hour == every.lites[lite].when.local_hour);
      CHECK(some.lites[lite].when.month == every.lites[lite].when.month);
    }
  }
}
