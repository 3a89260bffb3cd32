// The scout's rough ratios beside those of whole runs over the year, and the worst choice that is found with them.
#include "../../src/engine/scout.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "../../src/engine/unknowns.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"
#include "support/random_job.hpp"

using namespace sunstrain;

namespace {

// The choices that are one change of one key away from this one.
std::vector<Choice> neighbors_of(const Choice& choice, const Job& job) {
  std::vector<Choice> neighbors;
  for (const OpenKey& open : resolve(job, Run::bad_end, choice, builtin_reference()).open) {
    for (std::size_t i = 0; i < open.candidates.size(); ++i) {
      neighbors.push_back(choice);
      neighbors.back()[open.key] = i;
    }
  }
  return neighbors;
}

}  // namespace

TEST_CASE("scout: among readings that are about as bad it errs by 1 % at most, and closely by less than 0.3 %") {
  const Reference& reference = builtin_reference();
  int compared = 0;
  for (const unsigned seed : {3U, 5U, 9U, 15U, 16U, 19U}) {
    INFO("seed " << seed);
    const Job job = test::random_job(seed);
    ChainCache cache;
    const Choice top = internal::worst_choice(job, reference, cache);
    const double worst = internal::bad_end_ratio(job, top, reference, cache);
    internal::Scout scout(reference, cache);
    const double about_worst = scout.about(job, top).value(), closely_worst = scout.closely(job, top).value();
    CHECK(closely_worst == Approx(worst).epsilon(0.003));
    for (const Choice& choice : neighbors_of(top, job)) {
      const auto ratio = internal::ratio_if_possible(job, choice, reference, cache);
      CHECK(scout.about(job, choice).has_value() == ratio.has_value());
      if (!ratio || *ratio < 0.95 * worst) continue;
      ++compared;
      CHECK(*scout.about(job, choice) / about_worst == Approx(*ratio / worst).epsilon(0.01));
      CHECK(*scout.closely(job, choice) / closely_worst == Approx(*ratio / worst).epsilon(0.003));
    }
  }
  CHECK(compared > 50);
}

TEST_CASE("worst choice: no change of one key, and none of two that matter, makes it worse") {
  const Reference& reference = builtin_reference();
  // With 83 and 106 the rough ratios alone stop short; with 78 a change of two keys makes it worse, none of one does.
  for (const unsigned seed : {5U, 78U, 83U, 106U}) {
    INFO("seed " << seed);
    const Job job = test::random_job(seed);
    ChainCache cache;
    const Choice top = internal::worst_choice(job, reference, cache);
    const double worst = internal::bad_end_ratio(job, top, reference, cache);
    for (const Choice& one : neighbors_of(top, job)) {
      const auto ratio = internal::ratio_if_possible(job, one, reference, cache);
      CHECK(ratio.value_or(0.0) <= worst * (1.0 + 1e-9));
      if (ratio.value_or(0.0) < 0.98 * worst) continue;
      for (const Choice& two : neighbors_of(one, job))
        CHECK(internal::ratio_if_possible(job, two, reference, cache).value_or(0.0) <= worst * (1.0 + 1e-9));
    }
  }
}

TEST_CASE("scout: days on which no sun stands before the pane are worked like any") {
  const Reference& reference = builtin_reference();
  const Job job = test::complete_double({"pane.facing=N", "shading.wall_distance=8 m", "shading.wall_height=8 m",
                                         "shading.wall_reflectance=70 %", "shading.wall_foot=1 m"});
  ChainCache cache;
  const Choice top = internal::worst_choice(job, reference, cache);
  internal::Scout scout(reference, cache);
  CHECK(scout.closely(job, top).value() == Approx(internal::bad_end_ratio(job, top, reference, cache)).epsilon(0.003));
}
