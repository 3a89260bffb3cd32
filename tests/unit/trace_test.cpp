// The working behind an answer is the answer's own.
#include "sunstrain/trace.hpp"

#include <catch2/catch.hpp>

#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

const TraceFigure& figure(const Trace& t, const std::string& stage, const std::string& what) {
  for (const TraceStage& s : t.stages)
    for (const TraceFigure& f : s.figures)
      if (s.name == stage && f.what == what) return f;
  FAIL(stage << " tells nothing of: " << what);
  throw std::logic_error("not reached");
}

}  // namespace

TEST_CASE("Trace: its figures are those of the answer, and follow from each other", "[slow]") {
  const auto* shadow = GENERATE("shading.pattern=none", "shading.pattern=L", "shading.overhang_depth=0.5 m");
  CAPTURE(shadow);
  const Job job = complete_double({shadow});
  const Trace t = trace(job, builtin_reference());
  const Assessment a = assess(job, builtin_reference());
  const LiteFigures& lite = a.lites[a.governing_lite].after;
  CHECK(t.lite == a.governing_lite);
  const double mpa = figure(t, "stress", "highest tension along the edge").value;
  CHECK(mpa == Approx(lite.peak_stress_pa / 1e6).epsilon(1e-9));
  CHECK(figure(t, "stress", "middle less edge").value == Approx(lite.center_k - lite.edge_k).epsilon(1e-9));
  CHECK(figure(t, "strength", "stress over the go line, bad end").value == Approx(a.stress_ratio).epsilon(1e-12));
  const double sun = figure(t, "sun", "sun on the pane").value;
  CHECK(sun == Approx(figure(t, "sun", "beam on the pane").value + figure(t, "sun", "sky on the pane").value +
                      figure(t, "sun", "ground on the pane").value));
  const double taken_up = figure(t, "optics", "lite 2 takes up in the sun").value;
  CHECK(taken_up == Approx(lite.absorbed_w_m2 + (t.lite == 1 ? 0.0 : taken_up - lite.absorbed_w_m2)));
  CHECK(std::abs(figure(t, "heat", "energy not accounted for, share").value) < 1e-6);
  const double in_plane = figure(t, "stress", "highest tension along the edge, in its plane").value;
  CHECK(in_plane + figure(t, "stress", "bending that the frame keeps down adds").value == Approx(mpa));
  CHECK(figure(t, "plane", "quick route: highest tension in that hour").value == Approx(in_plane));
  CHECK(figure(t, "plane", "energy not accounted for, largest share").value < 1e-6);
  CHECK(figure(t, "plane", "stress counts times").value == a.raised_by());
  const double in_full = figure(t, "plane", "followed in full: in that hour").value;
  CHECK(figure(t, "plane", "error of the quick route").value == Approx(100.0 * (in_plane / in_full - 1.0)));
  CHECK(figure(t, "plane", "followed in full: highest in half an hour around").value >= in_full);
  // The go line from its own factors.
  double line = figure(t, "strength", "characteristic strength of float").value;
  const TraceStage& strength = t.stages[t.stages.size() - 2];
  REQUIRE(strength.name == "strength");
  for (const char* factor : {"factor of a cut edge", "factor for a load of six hours"})
    line *= figure(t, "strength", factor).value;
  for (const TraceFigure& f : strength.figures)
    if (f.what.starts_with("factor of the ")) line *= f.value;
  line /= figure(t, "strength", "divided by, for the go line").value;
  CHECK(line == Approx(figure(t, "strength", "go line").value).epsilon(1e-9));
  for (const TraceStage& stage : t.stages)
    for (const TraceFigure& f : stage.figures) {
      CAPTURE(stage.name, f.what);
      CHECK_FALSE(f.unit.empty());
      CHECK_FALSE(f.how.empty());
      CHECK(std::isfinite(f.value));
    }
}

TEST_CASE("Trace: the hand methods see the pane as the job has it") {
  const Trace plain = trace(complete_double({"shading.pattern=none"}), builtin_reference());
  const Trace under = trace(complete_double({"shading.overhang_depth=0.5 m"}), builtin_reference());
  REQUIRE(plain.by_hand.size() >= 2);
  CHECK(plain.by_hand.front().shadow_factor == 1.0);
  CHECK(under.by_hand.front().shadow_factor == 1.3);
  CHECK(plain.hand_case.absorbed_w_m2.size() == 2);
  CHECK(plain.limits.size() >= 8);
  CHECK(under.why_differ.size() == plain.why_differ.size() + 1);
}

TEST_CASE("Trace: cold water strains hot glass by the sheet's own balance, and a hose more than rain") {
  const Trace t = trace(complete_double({"pane.facing=180 deg"}), builtin_reference());
  const double hot_c = figure(t, "cold water", "lite 1, middle, at its hottest").value;
  CHECK(hot_c >= figure(t, "heat", "lite 1, middle, in the sun").value);
  double before_mpa = 0.0;
  for (const std::string water : {"cloudburst: ", "garden hose: "}) {
    const double first_k = hot_c - figure(t, "cold water", water + "water").value;
    const double colder_k = figure(t, "cold water", water + "face colder than the sheet by").value;
    CHECK(colder_k > 0.0);
    CHECK(colder_k < first_k);
    const double mpa = figure(t, "cold water", water + "tension in the wet face").value;
    CHECK(mpa == Approx(70e3 * 9e-6 / (1.0 - 0.23) * colder_k));
    CHECK(mpa > before_mpa);
    before_mpa = mpa;
  }
}

TEST_CASE("Trace: cold water strikes the hottest part of the outermost glass, which may be a panel's") {
  const auto hot_c = [](std::initializer_list<const char*> changes, const char* what) {
    return figure(trace(complete_double(changes), builtin_reference()), "cold water", what).value;
  };
  const char* lite = "lite 1, middle, at its hottest";
  CHECK(
      hot_c({"inside.shade=dark-blind", "inside.gap=50 mm", "inside.vented=no", "inside.closure=90 %",
             "inside.drawn=from-top"},
            lite) ==
      Approx(hot_c({"inside.shade=dark-blind", "inside.gap=50 mm", "inside.vented=no", "inside.closure=100 %"}, lite)));
  CHECK(hot_c({"panel.side=outdoors", "panel.gap=50 mm"}, "panel, middle, at its hottest") > 30.0);
}
