#include "trace_hour.hpp"

#include <algorithm>

namespace sunstrain::internal {
namespace {

double hottest_outdoors_k(const LineDay& line) {
  double hottest_k = 0.0;
  for (std::size_t i = 0; i < line.steps(); ++i) hottest_k = std::max(hottest_k, line.mean_k[i * line.lites]);
  return hottest_k;
}

}  // namespace

GoverningHour::GoverningHour(const Assessment& a, const Reference& reference)
    : pane(build_case(a.bad_end, Run::bad_end, reference)),
      lite(a.governing_lite),
      table(pane.after, pane.room.back_reflectance()) {
  const std::vector<DesignDay>& days = design_year(pane, reference, cache.store());
  const std::vector<DayStrips> all = strips_of_days(pane, pane.after, table, days, cache.store());
  // No water gets behind a sash.
  const bool other_in_the_open = pane.after.other && !pane.after.other->sash;
  for (const DayStrips& each : all) {
    hottest_outdoor_lite_k = std::max(hottest_outdoor_lite_k, hottest_outdoors_k(*each.lit));
    if (other_in_the_open)
      hottest_outdoor_lite_k = std::max(hottest_outdoor_lite_k, hottest_outdoors_k(*each.other_lit));
  }
  const DayAndStep at = find_moment(days, a.lites[lite].after.when);
  day = &days[at.day];
  step = at.step;
  loads = step_loads(pane, table, sky(), day->kind, 1.0);
  strips = all[at.day];
  lit = lit_area(pane.shadow, pane.width_m, pane.height_m, pane.edge.bite_m, sky().slope);
  const std::vector<PaneMaps> maps = maps_of_lites(pane, pane.after, all, day->steps.size(), cache.store());
  blur_m = maps[lite].blur_m;
  const DayLight light = light_through(pane, day->steps);
  const LiteDay lite_day(pane, light, strips, lite, maps[lite], cache.store());
  solver = maps[lite].solver;
  stress_pa = lite_day.stress(step);
  peak = solver->find_peak(stress_pa);
  bending_pa = lite_day.bending_pa(step);
  residual_share = strips.lit->residual_w_m[step] / strips.lit->exchanged_w_m[step];
}

double GoverningHour::edge_k() const {
  const bool colder = pane.bottom_is_colder(lite) && peak.side == Side::bottom;
  return strips.lit->strip(step, lite).front() - (colder ? pane.bottom_edge_colder_k : 0.0);
}

double GoverningHour::middle_k() const { return strips.lit->strip(step, lite).back(); }

}  // namespace sunstrain::internal
