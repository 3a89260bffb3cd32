// What a first look may say, beside the whole answer, on random jobs that leave much open.
#include "sunstrain/first_look.hpp"

#include <catch2/catch.hpp>

#include "sunstrain/io/reference_load.hpp"
#include "support/random_job.hpp"

using namespace sunstrain;

namespace {

void check_same_figures(const Assessment& look, const Assessment& whole) {
  CHECK(look.verdict == whole.verdict);
  CHECK(look.stress_ratio == whole.stress_ratio);
  REQUIRE(look.lites.size() == whole.lites.size());
  for (std::size_t lite = 0; lite < look.lites.size(); ++lite) {
    CHECK(look.lites[lite].before.peak_stress_pa == whole.lites[lite].before.peak_stress_pa);
    CHECK(look.lites[lite].after.peak_stress_pa == whole.lites[lite].after.peak_stress_pa);
  }
}

}  // namespace

TEST_CASE("a first look: the middle run is the whole answer's, the bad end one that the whole passes or meets") {
  const Reference& reference = builtin_reference();
  for (const unsigned seed : {1U, 5U, 9U, 12U}) {
    INFO("seed " << seed);
    const Job job = test::random_job(seed);
    ChainCache cache;
    const auto look = first_look(job, {}, reference, cache);
    const Assessment whole = assess_briefly(job, reference, cache);
    REQUIRE(look);
    CHECK(look->middle.values == whole.middle.values);
    CHECK(look->stress_ratio / look->raised_by() <= whole.stress_ratio / whole.raised_by());
    CHECK((look->figures == Verdict::refer) == (whole.figures == Verdict::refer));
  }
}

TEST_CASE("a first look at a pane just assessed is that answer, to the last bit") {
  const Reference& reference = builtin_reference();
  for (const unsigned seed : {2U, 8U}) {
    INFO("seed " << seed);
    const Job job = test::random_job(seed);
    ChainCache cache;
    const Assessment whole = assess_briefly(job, reference, cache);
    const auto look = first_look(job, whole.bad_end.values, reference, cache);
    REQUIRE(look);
    CHECK(look->bad_end.values == whole.bad_end.values);
    check_same_figures(*look, whole);
  }
}

TEST_CASE("what was taken for another pane and is not plausible here is taken as the table has it") {
  const Reference& reference = builtin_reference();
  const Job job = test::random_job(5);
  ChainCache cache;
  const auto plain = first_look(job, {}, reference, cache);
  const auto odd =
      first_look(job, {{"lite.1.thickness", 0.5}, {"pane.width", 9.0}, {"no.such", 1.0}}, reference, cache);
  REQUIRE(plain);
  REQUIRE(odd);
  CHECK(odd->bad_end.values == plain->bad_end.values);
}
