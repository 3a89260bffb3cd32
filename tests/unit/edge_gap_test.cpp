// A film that stops short of the frame: the rim that stays bare.
#include <catch2/catch.hpp>

#include "../../src/engine/loads.hpp"
#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

DesignDay winter_day(const Case& pane) {
  return design_day(pane.place, 1, DayKind::cold_clear, pane.tilt_rad, pane.facing_rad, pane.ground_reflectance, 144,
                    builtin_reference());
}

struct Seen {
  double stress_pa, edge_k, center_k, residual_share;
};
Seen seen(const Case& pane, const GlazingState& state) {
  ChainCache cache;
  const DesignDay day = winter_day(pane);
  const YearPeaks peaks = worst_of_days(pane, state, {&day, 1}, builtin_reference(), cache, false);
  const LitePeak& lite = peaks.lites[pane.filmed_lite];
  return {lite.stress_pa, lite.edge_k, lite.center_k, peaks.worst_energy_residual};
}

}  // namespace

TEST_CASE("Edge gap: a bare rim leaves the edge cooler, the wider the more, and the middle as it was") {
  const Case none = complete_double_case({}), zero = complete_double_case({"film.edge_gap=0 mm"});
  const Seen whole = seen(none, none.after);
  CHECK(seen(zero, zero.after).stress_pa == whole.stress_pa);
  Seen before = whole;
  for (const char* gap : {"film.edge_gap=1 mm", "film.edge_gap=3 mm", "film.edge_gap=6 mm", "film.edge_gap=20 mm"}) {
    CAPTURE(gap);
    const Case pane = complete_double_case({gap});
    const Seen rim = seen(pane, pane.after);
    CHECK(rim.edge_k < before.edge_k);
    CHECK(rim.center_k == Approx(whole.center_k).margin(0.5));  // the hour that governs moves by a step
    CHECK(rim.stress_pa > before.stress_pa);
    CHECK(rim.residual_share < 1e-6);
    CHECK(seen(pane, pane.before).stress_pa == seen(none, none.before).stress_pa);  // no film, no rim
    before = rim;
  }
}

TEST_CASE("Edge gap: its rim absorbs what the lite absorbed without film") {
  const Case pane = complete_double_case({"film.edge_gap=3 mm"});
  const internal::AbsorptionTable filmed(pane.after, 0.0), bare(pane.before, 0.0);
  const std::size_t lite = pane.filmed_lite;
  for (const DayStep& step : winter_day(pane).steps) {
    const StepLoads with = internal::step_loads(pane, filmed, step, DayKind::cold_clear, 1.0);
    const StepLoads without = internal::step_loads(pane, bare, step, DayKind::cold_clear, 1.0);
    const auto total = [&](const StepLoads& loads) {
      const FaceSources& s = loads.absorbed[lite];
      return s.outer_face_w_m2 + s.bulk_w_m2 + s.inner_face_w_m2;
    };
    CHECK(total(with) - with.rim_less_w_m2 == Approx(total(without)).margin(1e-9));
    CHECK(without.rim_less_w_m2 == 0.0);
  }
}
