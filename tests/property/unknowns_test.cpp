// An unknown is never better than any value that it could be, on random jobs that leave much open.
#include "../../src/engine/unknowns.hpp"

#include <catch2/catch.hpp>

#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/random_job.hpp"

using namespace sunstrain;

namespace {

double worst_ratio(const Job& job, ChainCache& cache) {
  const Reference& reference = builtin_reference();
  return internal::bad_end_ratio(job, internal::worst_choice(job, reference, cache), reference, cache);
}

}  // namespace

TEST_CASE("unknowns: on random jobs none is better than any value that it could be", "[slow]") {
  const Reference& reference = builtin_reference();
  for (const unsigned seed : {2U, 8U, 17U}) {  // with those a climb of single keys alone falls short
    INFO("seed " << seed);
    const Job job = test::random_job(seed);
    check_job(job, reference);
    ChainCache cache;
    const Choice worst = internal::worst_choice(job, reference, cache);
    const double ratio = internal::bad_end_ratio(job, worst, reference, cache);
    for (const OpenKey& open : resolve(job, Run::bad_end, worst, reference).open) {
      for (const Value& value : open.candidates) {
        const Job known = internal::with_value(job, open.key, value);
        if (!internal::can_be(known, reference)) continue;
        INFO(open.key);
        CHECK(worst_ratio(known, cache) <= ratio * (1.0 + 1e-9));
      }
    }
  }
}
