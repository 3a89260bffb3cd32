// One run of the chain over the design days: sun, optics, heat, field and stress, step by step; the peak of every lite.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "chain_cache.hpp"
#include "loads.hpp"

namespace sunstrain {

ChainCache::ChainCache() : store_(std::make_unique<Store>()) {}
ChainCache::~ChainCache() = default;

namespace {

constexpr int steps_per_day = 144;  // ten minutes: with the second-order march the glass (tau 5 to 30 min) is followed

struct Shape { double width_m, height_m, bite_m; };  // of the glass, edge to edge

Shape glass_shape(const Case& pane) {
  return {pane.width_m + 2 * pane.edge.bite_m, pane.height_m + 2 * pane.edge.bite_m, pane.edge.bite_m};
}

// Exchange of a lite's two faces at a settled moment: over which length shadows blur. Kept to half a millimeter
// so that runs which differ in the last digit share their maps.
double blur_m(const Case& pane, const GlazingState& state, const CenterBalance& center, std::size_t lite) {
  const double outside = lite == 0 ? center.outdoor.conductance_w_m2k : center.cavity_w_m2k[lite - 1];
  const double inside = lite + 1 == state.thermal.lites.size() ? center.room.conductance_w_m2k : center.cavity_w_m2k[lite];
  (void)pane;
  const double length_m = smearing_length_m(state.thermal.material.conductivity_w_mk, state.thermal.lites[lite].thickness_m,
                                            outside + inside);
  return std::max(0.005, std::round(length_m / 0.0005) * 0.0005);
}

const EdgeStressSolver& solver_for(const Case& pane, double blur, ChainCache::Store& store) {
  const Shape shape = glass_shape(pane);
  const LitArea lit = lit_area(pane.shadow, pane.width_m, pane.height_m, shape.bite_m, {0, 0, false});
  const bool shadow = pane.shadow.any();
  const std::vector<double> key{shape.width_m, shape.height_m, shape.bite_m, shadow ? blur : 0.0,
                                pane.shadow.moves() ? 1.0 : 0.0, lit.left_m, lit.right_m, lit.bottom_m, lit.top_m,
                                lit.diagonal ? 1.0 : 0.0};
  auto& slot = store.solvers[key];
  if (!slot) {
    slot = std::make_shared<EdgeStressSolver>(
        shape.width_m, shape.height_m, field_features(shape.width_m, shape.height_m, shape.bite_m, pane.shadow, blur),
        pane.elasticity);
  }
  return *slot;
}

const StressMap& map_for(const Case& pane, std::span<const double> depth_m, const LitArea& lit, double blur,
                         ChainCache::Store& store) {
  const Shape shape = glass_shape(pane);
  std::vector<double> key{shape.width_m, shape.height_m, shape.bite_m, pane.shadow.any() ? blur : 0.0,
                          pane.shadow.moves() ? 1.0 : 0.0, lit.everything ? 1.0 : 0.0, lit.nothing ? 1.0 : 0.0,
                          lit.diagonal ? 1.0 : 0.0, lit.left_m, lit.right_m, lit.bottom_m, lit.top_m};
  auto& slot = store.maps[key];
  if (!slot) {
    slot = std::make_shared<StressMap>(solver_for(pane, blur, store), shape.width_m, shape.height_m, depth_m, lit, blur);
  }
  return *slot;
}

// The strips of one day: glass in the sun and, where there is a shadow, glass in the shade.
struct DayStrips { LineDay lit, shaded; double residual; };

LineDay march(const Case& pane, const GlazingState& state, const internal::AbsorptionTable& table, const DesignDay& day,
              double beam_on_glass) {
  std::vector<StepLoads> loads;
  for (const DayStep& step : day.steps) loads.push_back(internal::step_loads(pane, table, step, day.kind, beam_on_glass));
  return march_day({state.thermal, pane.edge, pane.room.shade, pane.air}, loads, day.step_s);
}

DayStrips day_strips(const Case& pane, const GlazingState& state, const internal::AbsorptionTable& table, const DesignDay& day) {
  DayStrips strips{march(pane, state, table, day, 1.0), {}, 0.0};
  if (pane.shadow.any()) strips.shaded = march(pane, state, table, day, 0.0);
  for (const LineDay* line : {&strips.lit, &strips.shaded}) {
    for (const LineStep& step : line->steps) {
      strips.residual = std::max(strips.residual, std::abs(step.residual_w_m) / std::max(step.exchanged_w_m, 1e-3));
    }
  }
  return strips;
}

std::vector<double> strip_of(const LineDay& day, std::size_t lite) {
  const std::size_t cells = day.depth_m.size();
  std::vector<double> strip;
  for (const LineStep& step : day.steps) {
    const auto* first = step.cell_k.data() + lite * cells;
    strip.insert(strip.end(), first, first + cells);
  }
  return strip;
}

// Stress of one lite through a day under a shadow that moves: what is wholly lit or wholly dark comes from the map,
// a border on the glass is worked for its step.
void moving_day(const Case& pane, const DesignDay& day, std::span<const double> depth_m, std::span<const double> shaded,
                std::span<const double> lit, double blur, ChainCache::Store& store, std::vector<double>& stress) {
  const Shape shape = glass_shape(pane);
  const EdgeStressSolver& solver = solver_for(pane, blur, store);
  const std::size_t cells = depth_m.size(), points = 4 * static_cast<std::size_t>(solver.points_per_side());
  LitArea everything;
  const StressMap& whole = map_for(pane, depth_m, everything, blur, store);
  whole.stress({}, shaded, day.steps.size(), stress);
  std::vector<double> in_sun;
  whole.stress({}, lit, day.steps.size(), in_sun);
  for (std::size_t i = 0; i < day.steps.size(); ++i) {
    const ShadowSlope slope = shadow_slope(day.steps[i].sun, pane.facing_rad);
    const LitArea area = lit_area(pane.shadow, pane.width_m, pane.height_m, shape.bite_m, slope);
    const std::span<double> step_stress{stress.data() + i * points, points};
    if (area.nothing) continue;
    if (area.everything || !slope.sun_on_pane) {
      std::copy_n(in_sun.data() + i * points, points, step_stress.begin());
      continue;
    }
    add_moving_shadow(solver, shape.width_m, shape.height_m, depth_m, shaded.subspan(i * cells, cells),
                      lit.subspan(i * cells, cells), area, blur, step_stress);
  }
}

std::vector<double> day_stress(const Case& pane, const GlazingState& state, const DesignDay& day, const DayStrips& strips,
                               std::size_t lite, ChainCache::Store& store, const EdgeStressSolver*& solver) {
  const double blur = blur_m(pane, state, strips.lit.steps[day.steps.size() / 2].center, lite);
  solver = &solver_for(pane, blur, store);
  const std::vector<double> lit = strip_of(strips.lit, lite);
  const std::vector<double> shaded = pane.shadow.any() ? strip_of(strips.shaded, lite) : std::vector<double>{};
  std::vector<double> stress;
  if (pane.shadow.moves()) {
    moving_day(pane, day, strips.lit.depth_m, shaded, lit, blur, store, stress);
  } else {
    const LitArea area = lit_area(pane.shadow, pane.width_m, pane.height_m, pane.edge.bite_m, {0, 0, false});
    map_for(pane, strips.lit.depth_m, area, blur, store).stress(shaded, area.nothing ? shaded : lit, day.steps.size(), stress);
  }
  if (pane.bottom_edge_colder_k > 0.0 && lite + 1 == state.thermal.lites.size()) {
    const auto colder = colder_bottom_stress_pa_per_k(*solver, pane.edge.bite_m, blur);
    for (std::size_t i = 0; i < stress.size(); ++i) stress[i] += pane.bottom_edge_colder_k * colder[i % colder.size()];
  }
  return stress;
}

EdgeHistory edge_history(const EdgeStressSolver& solver, std::span<const double> stress, double step_s) {
  const auto side_points = static_cast<std::size_t>(solver.points_per_side());
  EdgeHistory history{step_s, {}, {}};
  for (Side side : all_sides) {
    const auto at = side == Side::bottom || side == Side::top ? solver.x_edge_points() : solver.y_edge_points();
    for (std::size_t i = 0; i < side_points; ++i) {
      const double before = i == 0 ? at[0] : 0.5 * (at[i - 1] + at[i]);
      const double after = i + 1 == side_points ? at[i] : 0.5 * (at[i] + at[i + 1]);
      history.point_length_m.push_back(after - before);
    }
  }
  const std::size_t points = 4 * side_points;
  for (std::size_t i = 0; i * points < stress.size(); ++i) {
    history.stress_pa.emplace_back(stress.begin() + static_cast<std::ptrdiff_t>(i * points),
                                   stress.begin() + static_cast<std::ptrdiff_t>((i + 1) * points));
  }
  return history;
}

void keep_peak(const Case& pane, const DesignDay& day, const DayStrips& strips, std::size_t lite,
               const EdgeStressSolver& solver, std::span<const double> stress, bool with_odds, const Reference& reference,
               LitePeak& peak) {
  const std::size_t points = 4 * static_cast<std::size_t>(solver.points_per_side());
  const auto highest = static_cast<std::size_t>(std::max_element(stress.begin(), stress.end()) - stress.begin()) / points;
  const EdgePeak found = solver.find_peak(stress.subspan(highest * points, points));
  if (found.stress_pa <= peak.stress_pa && peak.when.month != 0) return;
  const std::size_t cells = strips.lit.depth_m.size();
  const LineStep& step = strips.lit.steps[highest];
  const DayStep& sky = day.steps[highest];
  peak.stress_pa = std::max(0.0, found.stress_pa);
  peak.when = {day.month, day.kind, sky.local_hour};
  peak.side = found.side;
  peak.position_m = found.position_m;
  peak.center_k = step.cell_k[(lite + 1) * cells - 1];
  const bool colder = lite + 1 == step.center.mean_k.size() && found.side == Side::bottom;
  peak.edge_k = step.cell_k[lite * cells] - (colder ? pane.bottom_edge_colder_k : 0.0);
  peak.shaded_center_k = strips.shaded.steps.empty() ? peak.center_k : strips.shaded.steps[highest].cell_k[(lite + 1) * cells - 1];
  peak.frame_k = step.frame_k;
  peak.irradiance_w_m2 = sky.pane.beam_w_m2 + sky.pane.sky_w_m2 + sky.pane.ground_w_m2;
  if (with_odds) peak.odds = breakage_odds(edge_history(solver, stress, day.step_s), pane.strengths[lite], reference);
}

const std::vector<DesignDay>& design_year(const Case& pane, const Reference& reference, ChainCache::Store& store) {
  const Place& p = pane.place;
  std::vector<double> key{p.latitude_rad, p.longitude_rad, p.coldest_k, p.hottest_k, p.hottest_month_range_k, p.altitude_m,
                          p.utc_offset_h, pane.tilt_rad, pane.facing_rad, pane.ground_reflectance, pane.winter_ground_reflectance};
  key.insert(key.end(), p.tau_beam.begin(), p.tau_beam.end());
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
                        const Reference& reference, ChainCache& cache, bool with_odds) {
  const std::size_t lites = state.thermal.lites.size();
  const internal::AbsorptionTable table(state.optics, pane.room.shade.closure * pane.room.shade_reflectance);
  YearPeaks peaks{std::vector<LitePeak>(lites), 0.0};
  for (const DesignDay& day : days) {
    const DayStrips strips = day_strips(pane, state, table, day);
    peaks.worst_energy_residual = std::max(peaks.worst_energy_residual, strips.residual);
    for (std::size_t lite = 0; lite < lites; ++lite) {
      const EdgeStressSolver* solver = nullptr;
      const std::vector<double> stress = day_stress(pane, state, day, strips, lite, cache.store(), solver);
      LitePeak& peak = peaks.lites[lite];
      const Moment before = peak.when;
      keep_peak(pane, day, strips, lite, *solver, stress, with_odds, reference, peak);
      if (peak.when.month == before.month && peak.when.day == before.day && peak.when.local_hour == before.local_hour) continue;
      const auto at = static_cast<std::size_t>(std::lround(peak.when.local_hour * 3600.0 / day.step_s - 0.5));
      const FaceSources sun = internal::step_loads(pane, table, day.steps.at(at), day.kind, 1.0).absorbed[lite];
      peak.absorbed_w_m2 = sun.outer_face_w_m2 + sun.bulk_w_m2 + sun.inner_face_w_m2;
    }
  }
  return peaks;
}

YearPeaks worst_of_year(const Case& pane, const GlazingState& state, const Reference& reference, ChainCache& cache,
                        bool with_odds) {
  return worst_of_days(pane, state, design_year(pane, reference, cache.store()), reference, cache, with_odds);
}

}  // namespace sunstrain
