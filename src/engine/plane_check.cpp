#include "plane_check.hpp"

#include <algorithm>

namespace sunstrain::internal {
namespace {

// In steps of the design day, of ten minutes. Three hours are more than glass remembers of where a shadow lay (its time
// constant is 10 to 30 minutes), and the transient's peak lies within half an hour of the quick route's.
constexpr std::size_t remembered = 18, around = 3;

std::size_t back_from(std::size_t step, std::size_t by) { return step > by ? step - by : 0; }

// A border lay or lies on the pane about that step.
bool border_about(const DayLight& light, std::size_t step) {
  constexpr std::size_t before = 6;
  if (light.size() == 1) return !light.front().parts.empty();
  for (std::size_t i = back_from(step, before); i <= std::min(step + around, light.size() - 1) && !light.empty(); ++i)
    if (!light[i].parts.empty()) return true;
  return false;
}

std::optional<PlaneCheck> check_of(const Case& pane, const GlazingState& state, std::size_t lite, const LitePeak& peak,
                                   const Reference& reference, ChainCache& cache) {
  const std::vector<DesignDay>& days = design_year(pane, reference, cache.store());
  const DayAndStep at = find_moment(days, peak.when);
  const DesignDay& day = days[at.day];
  if (!day.steps[at.step].slope.sun_on_pane || !border_about(light_through(pane, day.steps), at.step))
    return std::nullopt;
  const AbsorptionTable table(state, pane.room.back_reflectance());
  const DayStrips strips = strips_of_days(pane, state, table, {&day, 1}, cache.store()).front();
  return follow_in_plane({&pane, &state, &day, strips, at.step, lite, peak.in_plane_pa(), peak.bending_pa}, reference);
}

}  // namespace

PlaneCheck follow_in_plane(const QuickHour& hour, const Reference& reference) {
  const std::vector<DayStep>& steps = hour.day->steps;
  const PlaneSpan span{back_from(hour.step, remembered), back_from(hour.step, around),
                       std::min(hour.step + around, steps.size() - 1)};
  const PlanePeaks peaks = plane_peaks(*hour.pane, *hour.state, *hour.day, hour.strips, hour.lite, span, reference);
  const PlanePeak& highest = peaks.highest();
  PlaneCheck check{hour.peak_pa,
                   peaks.at(hour.step).edge.stress_pa,
                   highest.edge.stress_pa,
                   steps[highest.step].local_hour,
                   peaks.worst_residual_share,
                   1.0};
  if (check.highest_pa > (1.0 + constant(reference, "plane_small_share")) * check.quick_pa && check.quick_pa > 0.0)
    check.raised_by = (check.highest_pa + hour.bending_pa) / (check.quick_pa + hour.bending_pa);
  return check;
}

// Runs that differ in strength alone, as in the edge's finish, come to one peak to the last bit of all its figures: it
// is followed once.
std::optional<PlaneCheck> plane_check(const Case& pane, const GlazingState& state, std::size_t lite,
                                      const LitePeak& peak, const Reference& reference, ChainCache& cache) {
  if (!pane.shadow.any() || state.other) return std::nullopt;  // a part that is otherwise has no plane of its own
  std::vector<double> key{peak.stress_pa,       peak.position_m,    peak.center_k,        peak.edge_k,
                          peak.shaded_center_k, peak.absorbed_w_m2, peak.irradiance_w_m2, peak.when.local_hour,
                          pane.width_m,         pane.height_m,      pane.edge.bite_m,     static_cast<double>(lite)};
  key.insert(key.end(), peak.frame_k.begin(), peak.frame_k.end());
  auto& known = cache.store().plane_checks;
  if (const auto found = known.find(key); found != known.end()) return found->second;
  return known[key] = check_of(pane, state, lite, peak, reference, cache);
}

SuddenSun sudden_sun(const QuickHour& hour, const Reference& reference) {
  constexpr std::size_t earlier[]{12, 9, 6, 3}, watched = 9;
  constexpr int steps_in_ten_minutes = 11;  // of 55 s
  const Case& pane = *hour.pane;
  DesignDay cloudy = *hour.day;
  for (DayStep& step : cloudy.steps) step.pane.beam_w_m2 = 0.0;
  const AbsorptionTable table(*hour.state, pane.room.back_reflectance());
  std::vector<StepLoads> loads;
  for (const DayStep& step : cloudy.steps) loads.push_back(step_loads(pane, table, step, cloudy.kind, 0.0));
  const LineDay cloud = march_day({hour.state->thermal, pane.edge, pane.room.shade, pane.air}, loads, cloudy.step_s);
  SuddenSun worst;
  for (std::size_t back : earlier) {
    const std::size_t out = back_from(hour.step, back);
    const PlaneSpan span{out, out + 1, std::min(out + watched, cloudy.steps.size() - 1)};
    if (!cloudy.steps[out].slope.sun_on_pane || span.first > span.last) continue;
    const PlanePeak highest = plane_peaks(pane, *hour.state, *hour.day, {&cloud, &cloud}, hour.lite, span, reference,
                                          {{}, steps_in_ten_minutes})
                                  .highest();
    if (highest.edge.stress_pa > worst.peak_pa)
      worst = {cloudy.steps[out].local_hour, cloudy.steps[highest.step].local_hour, highest.edge.stress_pa};
  }
  return worst;
}

}  // namespace sunstrain::internal
