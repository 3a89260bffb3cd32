// What the answer gives as reasons.
#include "sunstrain/report/reasons.hpp"

#include <catch2/catch.hpp>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;

TEST_CASE("reasons: a refer tells of the lite that is past its refer line, whichever lite governs") {
  const Reference& reference = builtin_reference();
  ChainCache cache;
  const Job job = test::complete_double({});
  Assessment a = assess_briefly(job, reference, cache);
  REQUIRE(a.lites.size() == 2);
  a.figures = a.verdict = Verdict::refer;
  LiteFigures &governs = a.lites[a.governing_lite].after, &other = a.lites[1 - a.governing_lite].after;
  governs.peak_stress_middle_pa = 0.5 * governs.refer_pa;
  other.refer_pa = 20e6;
  other.peak_stress_middle_pa = 25e6;
  bool told = false;
  for (const Reason& reason : reasons_of(a, reference, Units::metric))
    told = told || reason.text.find("the edge stress is 25.0 MPa, over the 20.0 MPa") != std::string::npos;
  for (const Reason& reason : reasons_of(a, reference, Units::metric)) UNSCOPED_INFO(reason.text);
  CHECK(told);
}
