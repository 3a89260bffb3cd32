// The bounds that rule steps of a moving shadow out: no step's stress passes them, whichever way its border lies.
#include <catch2/catch.hpp>

#include "../../src/engine/lite_day.hpp"
#include "../../src/engine/loads.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

TEST_CASE("Step bounds: no step of a day passes its bound, and most of a day falls by them") {
  const Reference& reference = builtin_reference();
  const auto* shadow =
      GENERATE("shading.overhang_depth=0.5 m", "shading.left_fin_depth=0.4 m", "shading.right_fin_depth=0.4 m");
  CAPTURE(shadow);
  const Case pane = complete_double_case({shadow, "pane.width=0.7 m", "pane.height=1.8 m", "pane.facing=200 deg"});
  const DesignDay day = design_day(pane.place, 4, DayKind::cold_clear, pane.tilt_rad, pane.facing_rad,
                                   pane.ground_reflectance, 144, reference);
  const GlazingState& state = pane.after;
  const internal::AbsorptionTable table(state, 0.0);
  std::vector<std::vector<StepLoads>> loads(2);
  for (std::size_t line : {0u, 1u})
    for (const DayStep& step : day.steps)
      loads[line].push_back(internal::step_loads(pane, table, step, day.kind, line == 0 ? 1.0 : 0.0));
  std::vector<LineDay> lines;
  march_days({state.thermal, pane.edge, pane.room.shade, pane.air}, loads, day.step_s, lines);
  const std::vector<internal::DayStrips> strips{{&lines[0], &lines[1]}};
  ChainCache cache;
  const auto maps = internal::maps_of_lites(pane, state, strips, day.steps.size(), cache.store());
  const internal::DayLight light = internal::light_through(pane, day.steps);
  for (std::size_t lite = 0; lite < maps.size(); ++lite) {
    const internal::LiteDay lite_day(pane, light, strips[0], lite, maps[lite], cache.store());
    std::size_t bordered = 0, left = 0;
    std::vector<double> bounds_pa, highest_pa;
    for (std::size_t step = 0; step < day.steps.size(); ++step) {
      bordered += !light[step].parts.empty();
      const std::vector<double> stress = lite_day.stress(step);
      bounds_pa.push_back(lite_day.highest_possible_pa(step));
      highest_pa.push_back(*std::max_element(stress.begin(), stress.end()));
      CAPTURE(lite, step);
      CHECK(bounds_pa.back() + 1.0 >= highest_pa.back());
    }
    const double peak_pa = *std::max_element(highest_pa.begin(), highest_pa.end());
    for (double bound_pa : bounds_pa) left += bound_pa >= peak_pa;
    CHECK(left < bounds_pa.size() / 3);
    CHECK(bordered > 10);
  }
}
