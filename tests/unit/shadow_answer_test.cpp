// Which shadow lies on the pane at its worst hour, and what the worst lasting one would bring.
#include <catch2/catch.hpp>

#include "sunstrain/assess.hpp"
#include "sunstrain/field.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;
using namespace sunstrain::test;
using Names = std::vector<std::string>;

TEST_CASE("Casting: each part of a plan is named when its own shadow reaches the glass") {
  ShadowPlan plan;
  plan.overhang_depth_m = 0.5;
  plan.overhang_height_m = 0.3;
  plan.left_fin_depth_m = 0.4;
  plan.wall_distance_m = 6.0;
  plan.wall_height_m = 2.0;
  const auto names = [&](double tan_profile, double tan_gamma) {
    return casting(plan, 1.0, 1.4, {tan_profile, tan_gamma, true});
  };
  CHECK(names(1.0, 0.2) == Names{"overhang"});                // 0.5 m down from 0.3 m above the glass
  CHECK(names(0.5, 0.2).empty());                             // it stays above the glass
  CHECK(names(0.5, -0.5) == Names{"left fin"});               // the sun stands on the left
  CHECK(names(0.2, 0.0) == Names{"wall opposite"});           // 2 - 6 x 0.2 = 0.8 m up the glass
  CHECK(names(1.0, -0.5) == Names{"overhang", "left fin"});   // in the order of the list
  CHECK(casting(plan, 1.0, 1.4, {0.0, 0.0, false}).empty());  // no sun on the pane
  plan.pattern = ShadowPlan::Pattern::half;
  CHECK(names(0.5, 0.2) == Names{"lasting shadow"});
}

TEST_CASE("Shadow answer: the worst lasting shadow is the job's own answer once the job has it") {
  const Reference& reference = builtin_reference();
  const Job job = complete_double({});
  const Assessment open = assess(job, reference);
  CHECK(open.shadow.casting.empty());
  REQUIRE_FALSE(open.shadow.worst_pattern.empty());
  CHECK(open.shadow.worst_ratio > open.stress_ratio);
  Job shaded = job;
  set_key(shaded, "shading.pattern=" + open.shadow.worst_pattern, reference);
  if (open.shadow.worst_share > 0.0)
    set_key(shaded, "shading.share=" + std::to_string(open.shadow.worst_share), reference);
  const Assessment under = assess(shaded, reference);
  CHECK(under.stress_ratio == Approx(open.shadow.worst_ratio).epsilon(1e-6));
  CHECK(under.shadow.casting == Names{"lasting shadow"});
  CHECK(under.shadow.worst_ratio == Approx(open.shadow.worst_ratio).epsilon(1e-6));
  CHECK(under.shadow.worst_pattern == open.shadow.worst_pattern);
}

TEST_CASE("Shadow answer: no lasting shadow that a job can name is worse") {
  const Reference& reference = builtin_reference();
  const double worst_ratio = assess(complete_double({}), reference).shadow.worst_ratio;
  for (const auto& [pattern, share] : {std::pair{"shading.pattern=head-band", "shading.share=33 %"},
                                       {"shading.pattern=side-band", "shading.share=25 %"},
                                       {"shading.pattern=L", "shading.share=33 %"},
                                       {"shading.pattern=narrow-frame", "shading.share=10 %"},
                                       {"shading.pattern=sun-patch", "shading.share=40 %"}}) {
    CAPTURE(pattern);
    CHECK(assess(complete_double({pattern, share}), reference).stress_ratio <= worst_ratio * (1.0 + 1e-9));
  }
}

TEST_CASE("Shadow answer: an overhang is named in the hour in which its shadow governs") {
  const Assessment a =
      assess(complete_double({"shading.overhang_depth=0.6 m", "shading.overhang_height=0.2 m"}), builtin_reference());
  CHECK(a.shadow.casting == Names{"overhang"});
}
