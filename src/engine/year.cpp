// One run of the chain over the design days: sun, optics, heat, field and stress, step by step; the peak of every lite.
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "lite_day.hpp"
#include "loads.hpp"

namespace sunstrain {

ChainCache::ChainCache() : store_(std::make_unique<Store>()) {}
ChainCache::~ChainCache() = default;

namespace {

constexpr int steps_per_day = 144;  // ten minutes: with the second-order march the glass (tau 5 to 30 min) is followed

using internal::DayStrips;
using internal::LiteDay;

LineDay march(const Case& pane, const GlazingState& state, const internal::AbsorptionTable& table, const DesignDay& day,
              double beam_on_glass) {
  std::vector<StepLoads> loads;
  for (const DayStep& step : day.steps)
    loads.push_back(internal::step_loads(pane, table, step, day.kind, beam_on_glass));
  return march_day({state.thermal, pane.edge, pane.room.shade, pane.air}, loads, day.step_s);
}

DayStrips day_strips(const Case& pane, const GlazingState& state, const internal::AbsorptionTable& table,
                     const DesignDay& day) {
  DayStrips strips{march(pane, state, table, day, 1.0), {}};
  if (pane.shadow.any()) strips.shaded = march(pane, state, table, day, 0.0);
  return strips;
}

double largest_residual(const DayStrips& strips) {
  double largest = 0.0;
  for (const LineDay* line : {&strips.lit, &strips.shaded}) {
    for (const LineStep& step : line->steps) {
      largest = std::max(largest, std::abs(step.residual_w_m) / std::max(step.exchanged_w_m, 1e-3));
    }
  }
  return largest;
}

// The step of the day with the highest stress above `floor_pa` at any of the solver's points, if there is one. Steps
// are taken from the highest bound down, and the rest is left alone as soon as the bound falls to what was found.
struct Highest {
  std::size_t step;
  double sample_pa;
  std::vector<double> stress_pa;
};
std::optional<Highest> highest_step(const LiteDay& lite, std::size_t steps, double floor_pa, Steps which) {
  std::vector<std::pair<double, std::size_t>> by_bound;
  for (std::size_t i = 0; i < steps; ++i) {
    const double bound = which == Steps::all ? std::numeric_limits<double>::infinity() : lite.highest_possible_pa(i);
    if (bound > floor_pa) by_bound.emplace_back(bound, i);
  }
  std::stable_sort(by_bound.begin(), by_bound.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::optional<Highest> highest;
  for (const auto& [bound, step] : by_bound) {
    const double so_far = highest ? highest->sample_pa : floor_pa;
    if (bound <= so_far) break;
    std::vector<double> stress = lite.stress(step);
    const double most = *std::max_element(stress.begin(), stress.end());
    if (most > so_far) highest = Highest{step, most, std::move(stress)};
  }
  return highest;
}

EdgeHistory edge_history(const LiteDay& lite, const DesignDay& day) {
  const EdgeStressSolver& solver = lite.solver();
  const auto side_points = static_cast<std::size_t>(solver.points_per_side());
  EdgeHistory history{day.step_s, {}, {}};
  for (Side side : all_sides) {
    const auto at = side == Side::bottom || side == Side::top ? solver.x_edge_points() : solver.y_edge_points();
    for (std::size_t i = 0; i < side_points; ++i) {
      const double before = i == 0 ? at[0] : 0.5 * (at[i - 1] + at[i]);
      const double after = i + 1 == side_points ? at[i] : 0.5 * (at[i] + at[i + 1]);
      history.point_length_m.push_back(after - before);
    }
  }
  for (std::size_t step = 0; step < day.steps.size(); ++step) history.stress_pa.push_back(lite.stress(step));
  return history;
}

// A lite's peak so far over the days, with the sample by which steps are compared.
struct PeakSoFar {
  LitePeak peak;
  double sample_pa = -std::numeric_limits<double>::infinity();
};

void note_peak(const Case& pane, const DesignDay& day, const DayStrips& strips, std::size_t lite,
               const LiteDay& lite_day, const Highest& highest, PeakSoFar& so_far) {
  const EdgePeak found = lite_day.solver().find_peak(highest.stress_pa);
  const std::size_t cells = strips.lit.depth_m.size();
  const LineStep& step = strips.lit.steps[highest.step];
  const DayStep& sky = day.steps[highest.step];
  so_far.sample_pa = highest.sample_pa;
  LitePeak& peak = so_far.peak;
  peak.stress_pa = std::max(0.0, found.stress_pa);
  peak.when = {day.month, day.kind, sky.local_hour};
  peak.side = found.side;
  peak.position_m = found.position_m;
  peak.center_k = step.cell_k[(lite + 1) * cells - 1];
  const bool colder = lite + 1 == step.center.mean_k.size() && found.side == Side::bottom;
  peak.edge_k = step.cell_k[lite * cells] - (colder ? pane.bottom_edge_colder_k : 0.0);
  peak.shaded_center_k =
      strips.shaded.steps.empty() ? peak.center_k : strips.shaded.steps[highest.step].cell_k[(lite + 1) * cells - 1];
  peak.frame_k = step.frame_k;
  peak.irradiance_w_m2 = sky.pane.beam_w_m2 + sky.pane.sky_w_m2 + sky.pane.ground_w_m2;
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
    for (DayKind kind : {DayKind::cold_clear, DayKind::hot_clear}) {
      const bool snow_may_lie = winter && kind == DayKind::cold_clear;
      const double ground = snow_may_lie ? pane.winter_ground_reflectance : pane.ground_reflectance;
      year.push_back(design_day(p, month, kind, pane.tilt_rad, pane.facing_rad, ground, steps_per_day, reference));
    }
  }
  return year;
}

}  // namespace

YearPeaks worst_of_days(const Case& pane, const GlazingState& state, std::span<const DesignDay> days,
                        const Reference& reference, ChainCache& cache, bool with_odds, Steps steps) {
  const std::size_t lites = state.thermal.lites.size();
  const internal::AbsorptionTable table(state.optics, pane.room.shade.closure * pane.room.shade_reflectance);
  std::vector<PeakSoFar> peaks(lites);
  YearPeaks year{{}, 0.0};
  for (const DesignDay& day : days) {
    const DayStrips strips = day_strips(pane, state, table, day);
    year.worst_energy_residual = std::max(year.worst_energy_residual, largest_residual(strips));
    for (std::size_t lite = 0; lite < lites; ++lite) {
      const LiteDay lite_day(pane, state, day, strips, lite, cache.store());
      const auto highest = highest_step(lite_day, day.steps.size(), peaks[lite].sample_pa, steps);
      if (!highest) continue;
      note_peak(pane, day, strips, lite, lite_day, *highest, peaks[lite]);
      const FaceSources sun = internal::step_loads(pane, table, day.steps[highest->step], day.kind, 1.0).absorbed[lite];
      peaks[lite].peak.absorbed_w_m2 = sun.outer_face_w_m2 + sun.bulk_w_m2 + sun.inner_face_w_m2;
    }
  }
  for (std::size_t lite = 0; lite < lites; ++lite) {
    LitePeak& peak = peaks[lite].peak;
    const auto its_day = std::find_if(days.begin(), days.end(), [&](const DesignDay& day) {
      return day.month == peak.when.month && day.kind == peak.when.day;
    });
    if (with_odds && its_day != days.end()) {
      const DayStrips strips = day_strips(pane, state, table, *its_day);
      const LiteDay lite_day(pane, state, *its_day, strips, lite, cache.store());
      peak.odds = breakage_odds(edge_history(lite_day, *its_day), pane.strengths[lite], reference);
    }
    year.lites.push_back(peak);
  }
  return year;
}

YearPeaks worst_of_year(const Case& pane, const GlazingState& state, const Reference& reference, ChainCache& cache,
                        bool with_odds) {
  return worst_of_days(pane, state, design_year(pane, reference, cache.store()), reference, cache, with_odds);
}

}  // namespace sunstrain
