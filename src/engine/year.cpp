// One run of the chain over the design days: sun, optics, heat, field and stress, step by step; the peak of every lite.
#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "highest.hpp"
#include "loads.hpp"
#include "strip_mesh.hpp"

namespace sunstrain {

ChainCache::ChainCache() : store_(std::make_unique<Store>()) {}
ChainCache::~ChainCache() = default;

namespace {

constexpr int steps_per_day = 144;  // ten minutes: with the second-order march the glass (tau 5 to 30 min) is followed

using internal::DayStrips;
using internal::Highest;
using internal::LiteDay;

// The steps in which the sun stands before the pane on one of the days at least: then a shadow that moves may lie
// there.
struct SunnySteps {
  std::size_t first, end;
};
SunnySteps sunny_steps(const Case& pane, std::span<const DesignDay> days) {
  SunnySteps sunny{days.front().steps.size(), 0};
  for (const DesignDay& day : days) {
    for (std::size_t step = 0; step < day.steps.size(); ++step) {
      if (!shadow_slope(day.steps[step].sun, pane.facing_rad).sun_on_pane) continue;
      sunny.first = std::min(sunny.first, step);
      sunny.end = std::max(sunny.end, step + 1);
    }
  }
  return sunny;
}

void load_days(const Case& pane, const internal::AbsorptionTable& table, std::span<const DesignDay> days,
               SunnySteps steps, double beam_on_glass, std::vector<std::vector<StepLoads>>& loads) {
  loads.resize(days.size());
  for (std::size_t d = 0; d < days.size(); ++d) {
    loads[d].clear();
    for (std::size_t step = steps.first; step < steps.end; ++step)
      loads[d].push_back(internal::step_loads(pane, table, days[d].steps[step], days[d].kind, beam_on_glass));
  }
}

// Every day's strip in the sun and, with a shadow, in the shade; all of them marched side by side. They live in the
// store until the next run. Under a shadow that moves the shade need be followed only while there is a beam to shade:
// light frames and glass have forgotten the day before by then.
std::vector<DayStrips> strips_of_days(const Case& pane, const GlazingState& state,
                                      const internal::AbsorptionTable& table, std::span<const DesignDay> days,
                                      ChainCache::Store& store) {
  const Line line{state.thermal, pane.edge, pane.room.shade, pane.air};
  const SunnySteps whole{0, days.front().steps.size()};
  const double step_s = days.front().step_s;
  load_days(pane, table, days, whole, 1.0, store.loads);
  march_days(line, store.loads, step_s, store.lines);
  store.shaded_lines.clear();
  if (pane.shadow.any()) {
    const bool in_part =
        pane.shadow.pattern == ShadowPlan::Pattern::none && !internal::is_heavy(internal::fit_of(pane.edge));
    const SunnySteps followed = in_part ? sunny_steps(pane, days) : whole;
    load_days(pane, table, days, followed, 0.0, store.shaded_loads);
    if (!in_part)
      march_days(line, store.shaded_loads, step_s, store.shaded_lines);
    else if (followed.first < followed.end)
      march_aside(line, store.lines, store.shaded_loads, followed.first, step_s, store.shaded_lines);
  }
  std::vector<DayStrips> strips;
  for (std::size_t d = 0; d < days.size(); ++d)
    strips.push_back({&store.lines[d], store.shaded_lines.empty() ? nullptr : &store.shaded_lines[d]});
  return strips;
}

EdgeHistory edge_history(const LiteDay& lite, const EdgeStressSolver& solver, const DesignDay& day) {
  EdgeHistory history{day.step_s, internal::point_lengths_m(solver), {}};
  for (std::size_t step = 0; step < day.steps.size(); ++step) history.stress_pa.push_back(lite.stress(step));
  return history;
}

LitePeak peak_of(const Case& pane, const DesignDay& day, const DayStrips& strips, std::size_t lite,
                 const EdgeStressSolver& solver, const Highest& highest) {
  const EdgePeak found = solver.find_peak(highest.stress_pa);
  const auto strip_k = strips.lit->strip(highest.step, lite);
  const DayStep& sky = day.steps[highest.step];
  LitePeak peak;
  peak.stress_pa = std::max(0.0, found.stress_pa);
  peak.when = {day.month, day.kind, sky.local_hour};
  peak.side = found.side;
  peak.position_m = found.position_m;
  peak.center_k = strip_k.back();
  const bool colder = lite + 1 == strips.lit->lites && found.side == Side::bottom;
  peak.edge_k = strip_k.front() - (colder ? pane.bottom_edge_colder_k : 0.0);
  peak.shaded_center_k = strips.in_shade(highest.step, lite).back();
  peak.frame_k = strips.lit->frame_k[highest.step];
  peak.irradiance_w_m2 = sky.pane.beam_w_m2 + sky.pane.sky_w_m2 + sky.pane.ground_w_m2;
  return peak;
}

const std::vector<DesignDay>& design_year(const Case& pane, const Reference& reference, ChainCache::Store& store) {
  const Place& p = pane.place;
  std::vector<double> key{p.latitude_rad,
                          p.longitude_rad,
                          p.coldest_k,
                          p.hottest_k,
                          p.hottest_month_range_k,
                          p.altitude_m,
                          p.utc_offset_h,
                          pane.tilt_rad,
                          pane.facing_rad,
                          pane.ground_reflectance,
                          pane.winter_ground_reflectance};
  key.push_back(p.tau_edition);
  for (const auto* months : {&p.tau_beam, &p.tau_diffuse, &p.daily_range_k}) {
    key.insert(key.end(), months->begin(), months->end());
  }
  auto& year = store.years[key];
  if (!year.empty()) return year;
  for (int month = 1; month <= 12; ++month) {
    const bool winter = p.latitude_rad >= 0 ? month <= 3 || month >= 11 : month >= 5 && month <= 9;
    const double cold_ground = winter ? pane.winter_ground_reflectance : pane.ground_reflectance;  // snow may lie
    for (DesignDay& day : design_days(p, month, pane.tilt_rad, pane.facing_rad, cold_ground, pane.ground_reflectance,
                                      steps_per_day, reference))
      year.push_back(std::move(day));
  }
  return year;
}

// The gas of every cavity, midway between its lites, in the step in which the cavities are hottest together.
std::vector<double> hottest_gas_k(std::span<const DayStrips> days, std::size_t cavities) {
  std::vector<double> hottest;
  double most = 0.0;
  for (const DayStrips& day : days) {
    const LineDay& line = *day.lit;
    for (std::size_t step = 0; step < line.steps() && cavities > 0; ++step) {
      const double* mean_k = &line.mean_k[step * line.lites];
      double sum = 0.0;
      for (std::size_t k = 0; k < cavities; ++k) sum += 0.5 * (mean_k[k] + mean_k[k + 1]);
      if (sum <= most) continue;
      most = sum;
      hottest.clear();
      for (std::size_t k = 0; k < cavities; ++k) hottest.push_back(0.5 * (mean_k[k] + mean_k[k + 1]));
    }
  }
  return hottest;
}

}  // namespace

YearPeaks worst_of_days(const Case& pane, const GlazingState& state, std::span<const DesignDay> days,
                        const Reference& reference, ChainCache& cache, bool with_odds, Steps steps) {
  const internal::AbsorptionTable table(state.optics, pane.room.shade.closure * pane.room.shade_reflectance);
  const std::vector<DayStrips> strips = strips_of_days(pane, state, table, days, cache.store());
  const ChainCache::Store& store = cache.store();
  YearPeaks year{{},
                 hottest_gas_k(strips, state.thermal.cavities.size()),
                 std::max(internal::largest_residual(store.lines), internal::largest_residual(store.shaded_lines))};
  const std::vector<internal::PaneMaps> maps =
      internal::maps_of_lites(pane, state, strips, days.front().steps.size(), cache.store());
  for (std::size_t lite = 0; lite < maps.size(); ++lite) {
    std::vector<LiteDay> lite_days;
    for (std::size_t i = 0; i < days.size(); ++i)
      lite_days.emplace_back(pane, state, days[i], strips[i], lite, maps[lite], cache.store());
    const Highest highest = internal::highest_of_days(lite_days, days.front().steps.size(), steps);
    const DesignDay& day = days[highest.day];
    LitePeak peak = peak_of(pane, day, strips[highest.day], lite, *maps[lite].solver, highest);
    const FaceSources sun = internal::step_loads(pane, table, day.steps[highest.step], day.kind, 1.0).absorbed[lite];
    peak.absorbed_w_m2 = sun.outer_face_w_m2 + sun.bulk_w_m2 + sun.inner_face_w_m2;
    if (with_odds)
      peak.odds =
          breakage_odds(edge_history(lite_days[highest.day], *maps[lite].solver, day), pane.strengths[lite], reference);
    year.lites.push_back(peak);
  }
  return year;
}

YearPeaks worst_of_year(const Case& pane, const GlazingState& state, const Reference& reference, ChainCache& cache,
                        bool with_odds) {
  return worst_of_days(pane, state, design_year(pane, reference, cache.store()), reference, cache, with_odds);
}

}  // namespace sunstrain
