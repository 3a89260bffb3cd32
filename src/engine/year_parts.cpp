// The design days of a pane, and their strips.
#include "year_parts.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "highest.hpp"
#include "strip_mesh.hpp"

namespace sunstrain::internal {
namespace {

// The steps in which the sun stands before the pane on one of the days at least: then a shadow that moves may lie
// there.
struct SunnySteps {
  std::size_t first, end;
};
SunnySteps sunny_steps(std::span<const DesignDay> days) {
  SunnySteps sunny{days.front().steps.size(), 0};
  for (const DesignDay& day : days) {
    for (std::size_t step = 0; step < day.steps.size(); ++step) {
      if (!day.steps[step].slope.sun_on_pane) continue;
      sunny.first = std::min(sunny.first, step);
      sunny.end = std::max(sunny.end, step + 1);
    }
  }
  return sunny;
}

void load_days(const Case& pane, const AbsorptionTable& table, std::span<const DesignDay> days, SunnySteps steps,
               double beam_on_glass, std::vector<std::vector<StepLoads>>& loads) {
  loads.resize(days.size());
  for (std::size_t d = 0; d < days.size(); ++d) {
    loads[d].clear();
    loads[d].reserve(steps.end - steps.first);
    for (std::size_t step = steps.first; step < steps.end; ++step)
      loads[d].push_back(step_loads(pane, table, days[d].steps[step], days[d].kind, beam_on_glass));
  }
}

// Snow may lie.
double cold_ground(const Case& pane, int month) {
  return in_winter_half(month, pane.place.latitude_rad < 0.0) ? pane.winter_ground_reflectance
                                                              : pane.ground_reflectance;
}

// Under a shadow that moves the shade need be followed only while there is a beam to shade: light frames and glass have
// forgotten the day before by then.
void march(const Case& pane, const GlazingState& state, const AbsorptionTable& table, std::span<const DesignDay> days,
           ChainCache::Store& store, MarchCare care, std::vector<LineDay>& lines, std::vector<LineDay>& shaded_lines) {
  const Line line{state.thermal, pane.edge, pane.room.shade, pane.air};
  const SunnySteps whole{0, days.front().steps.size()};
  const double step_s = days.front().step_s;
  load_days(pane, table, days, whole, 1.0, store.loads);
  march_days(line, store.loads, step_s, lines, care);
  shaded_lines.clear();
  if (!pane.shadow.any()) return;
  const bool in_part = !pane.shadow.stands_still() && !is_heavy(fit_of(pane.edge));
  const SunnySteps followed = in_part ? sunny_steps(days) : whole;
  if (followed.first >= followed.end) return;  // no sun stands before the pane on any of these days
  load_days(pane, table, days, followed, 0.0, store.shaded_loads);
  if (in_part)
    march_aside(line, lines, store.shaded_loads, followed.first, step_s, shaded_lines, care);
  else
    march_days(line, store.shaded_loads, step_s, shaded_lines, care);
}

}  // namespace

std::vector<DayStrips> strips_of_days(const Case& pane, const GlazingState& state, const AbsorptionTable& table,
                                      std::span<const DesignDay> days, ChainCache::Store& store, MarchCare care) {
  march(pane, state, table, days, store, care, store.lines, store.shaded_lines);
  store.other_lines.clear();
  store.other_shaded_lines.clear();
  if (state.other) {
    const OtherPart& other = *state.other;
    march(pane_of_part(pane, other), other.state, AbsorptionTable(other.state, other.room.back_reflectance()), days,
          store, care, store.other_lines, store.other_shaded_lines);
  }
  const auto day_of = [](const std::vector<LineDay>& lines, std::size_t day) {
    return lines.empty() ? nullptr : &lines[day];
  };
  std::vector<DayStrips> strips;
  for (std::size_t d = 0; d < days.size(); ++d)
    strips.push_back({&store.lines[d], day_of(store.shaded_lines, d), day_of(store.other_lines, d),
                      day_of(store.other_shaded_lines, d)});
  return strips;
}

LitesThroughDays::LitesThroughDays(const Case& pane, const GlazingState& state, std::span<const DesignDay> days,
                                   ChainCache::Store& store, MarchCare care)
    : LitesThroughDays(
          pane, state,
          strips_of_days(pane, state, AbsorptionTable(state, pane.room.back_reflectance()), days, store, care), days,
          store) {}

LitesThroughDays::LitesThroughDays(const Case& pane, const GlazingState& state, std::vector<DayStrips> strips,
                                   std::span<const DesignDay> days, ChainCache::Store& store)
    : strips_(std::move(strips)),
      maps_(maps_of_lites(pane, state, strips_, days.front().steps.size(), store)),
      light_(light_of_days(pane, days)) {
  for (std::size_t lite = 0; lite < maps_.size(); ++lite)
    days_.push_back(days_of_lite(pane, light_, strips_, lite, maps_[lite], store));
}

double highest_ratio(const LitesThroughDays& through, std::size_t lite, std::span<const LiteDay> days,
                     std::size_t steps_a_day, double go_pa) {
  if (days.empty()) return 0.0;
  const Highest highest = highest_of_days(days, {0, steps_a_day}, Steps::that_can_govern);
  return std::max(0.0, through.solver(lite).find_peak(highest.stress_pa).stress_pa / go_pa);
}

void add_reflected(const Case& pane, DesignDay& day) {
  if (!pane.reflectors.any()) return;
  for (DayStep& step : day.steps)
    sunstrain::add_reflected(pane.reflectors, pane.tilt_rad, pane.facing_rad, pane.height_m, step);
}

const std::vector<DesignDay>& design_year(const Case& pane, const Reference& reference, ChainCache::Store& store,
                                          int steps_per_day) {
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
  key.insert(key.end(), {static_cast<double>(p.tau_edition), static_cast<double>(steps_per_day)});
  for (const auto* months : {&p.tau_beam, &p.tau_diffuse, &p.daily_range_k}) {
    key.insert(key.end(), months->begin(), months->end());
  }
  const Reflectors& r = pane.reflectors;
  if (r.any()) {
    key.insert(key.end(), {r.wall_distance_m, r.wall_top_m, r.wall_reflectance.value_or(-1.0), r.wall_foot_m,
                           r.water_distance_m, r.water_width_m, r.water_drop_m, pane.height_m});
  }
  auto& year = store.years[key];
  if (!year.empty()) return year;
  for (int month = 1; month <= 12; ++month) {
    for (DesignDay& day : design_days(p, month, pane.tilt_rad, pane.facing_rad, cold_ground(pane, month),
                                      pane.ground_reflectance, steps_per_day, reference)) {
      add_reflected(pane, day);
      year.push_back(std::move(day));
    }
  }
  return year;
}

DesignDay in_finer_steps(const Case& pane, const DesignDay& day, int times, const Reference& reference) {
  const double ground = day.kind == DayKind::cold_clear ? cold_ground(pane, day.month) : pane.ground_reflectance;
  DesignDay finer = design_day(pane.place, day.month, day.kind, pane.tilt_rad, pane.facing_rad, ground,
                               ten_minutes * times, reference);
  add_reflected(pane, finer);
  return finer;
}

DesignDay day_of_pane(const Case& pane, const GivenDay& day, const Reference& reference) {
  const auto under = [&](double ground_reflectance) {
    return given_day(pane.place, day, pane.tilt_rad, pane.facing_rad, ground_reflectance, ten_minutes, reference);
  };
  DesignDay own = under(pane.ground_reflectance);
  if (own.kind == DayKind::cold_clear) own = under(cold_ground(pane, day.month));
  add_reflected(pane, own);
  return own;
}

DayAndStep find_moment(std::span<const DesignDay> days, const Moment& moment) {
  for (std::size_t d = 0; d < days.size(); ++d) {
    if (days[d].month != moment.month || days[d].kind != moment.day) continue;
    for (std::size_t step = 0; step < days[d].steps.size(); ++step)
      if (days[d].steps[step].local_hour == moment.local_hour) return {d, step};
  }
  throw std::logic_error("a moment is none of the days'");
}

}  // namespace sunstrain::internal
