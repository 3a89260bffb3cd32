#include "sunstrain/weather_year.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "highest.hpp"
#include "loads.hpp"
#include "strip_mesh.hpp"

namespace sunstrain {
namespace {

using internal::DayStrips;
using internal::LiteDay;

constexpr std::size_t stretches = 8;

// The year cut into stretches of equal length, marched side by side; the last may run on into the first.
struct Cut {
  std::vector<DayStep> steps;
  std::vector<DayKind> kinds;  // of each step: heating or not
  double step_s = 0.0;
  std::size_t a_day = 0, length = 0, lead_in = 0;
  std::size_t at(std::size_t stretch, std::size_t step) const { return (stretch * length + step) % steps.size(); }
  bool repeats(std::size_t stretch, std::size_t step) const { return stretch * length + step >= steps.size(); }
};

Cut cut_of(const Case& pane, const WeatherYear& year, const Reference& reference) {
  constexpr double longest_s = 600.0;
  Cut cut;
  cut.step_s = year.interval_s / std::ceil(year.interval_s / longest_s);
  cut.a_day = static_cast<std::size_t>(std::lround(86400.0 / cut.step_s));
  cut.steps = weather_steps(
      year, {pane.tilt_rad, pane.facing_rad, pane.ground_reflectance, pane.winter_ground_reflectance}, cut.step_s);
  for (DayStep& step : cut.steps) add_reflected(pane.reflectors, pane.tilt_rad, pane.facing_rad, pane.height_m, step);
  const std::size_t a_day = cut.a_day;
  const double limit_k = constant(reference, "heating_limit_k");
  for (std::size_t first = 0; first < cut.steps.size(); first += a_day) {
    double mean_k = 0.0;
    for (std::size_t i = 0; i < a_day; ++i) mean_k += cut.steps[first + i].outdoor_air_k / static_cast<double>(a_day);
    cut.kinds.insert(cut.kinds.end(), a_day, mean_k < limit_k ? DayKind::cold_clear : DayKind::hot_clear);
  }
  cut.length = (cut.steps.size() + stretches - 1) / stretches;
  cut.lead_in = cut.a_day * (internal::is_heavy(internal::fit_of(pane.edge)) ? 6 : 2);
  return cut;
}

void march_stretches(const Case& pane, const GlazingState& state, const internal::AbsorptionTable& table,
                     const Cut& cut, ChainCache::Store& store, std::vector<LineDay>& into) {
  const bool shade = pane.shadow.any();
  const std::size_t lines = shade ? 2 : 1, n = cut.steps.size();
  store.loads.resize(stretches * lines);
  for (std::size_t s = 0; s < stretches; ++s) {
    for (std::size_t line = 0; line < lines; ++line) {
      std::vector<StepLoads>& loads = store.loads[line * stretches + s];
      loads.clear();
      for (std::size_t i = 0; i < cut.lead_in + cut.length; ++i) {
        const std::size_t at = (cut.at(s, i) + n - cut.lead_in) % n;
        loads.push_back(internal::step_loads(pane, table, cut.steps[at], cut.kinds[at], line == 0 ? 1.0 : 0.0));
      }
    }
  }
  march_spans({state.thermal, pane.edge, pane.room.shade, pane.air}, store.loads, cut.lead_in, cut.step_s, into);
}

std::vector<DayStrips> march_cut(const Case& pane, const GlazingState& state, const internal::AbsorptionTable& table,
                                 const Cut& cut, ChainCache::Store& store) {
  march_stretches(pane, state, table, cut, store, store.lines);
  store.other_lines.clear();
  if (state.other) {
    const OtherPart& other = *state.other;
    march_stretches(internal::pane_of_part(pane, other), other.state,
                    internal::AbsorptionTable(other.state, other.room.back_reflectance()), cut, store,
                    store.other_lines);
  }
  const auto line = [](const std::vector<LineDay>& lines, std::size_t at) {
    return at < lines.size() ? &lines[at] : nullptr;
  };
  std::vector<DayStrips> strips;
  for (std::size_t s = 0; s < stretches; ++s)
    strips.push_back({&store.lines[s], line(store.lines, stretches + s), line(store.other_lines, s),
                      line(store.other_lines, stretches + s)});
  return strips;
}

struct Dates {
  std::vector<std::pair<int, int>> of_day;  // month, day
};
Dates dates_of(const WeatherYear& year) {
  Dates dates;
  for (const WeatherRecord& r : year.records)
    if (dates.of_day.empty() || dates.of_day.back() != std::pair(r.month, r.day))
      dates.of_day.emplace_back(r.month, r.day);
  return dates;
}

// Every step that counts, once: its day's highest, the hours above each share, and the history that fatigue needs.
struct Tally {
  std::map<std::size_t, double> highest_of_day;  // Pa
  EdgeHistory history;
};

Tally tally(std::span<const LiteDay> lite, const Cut& cut, const EdgeStressSolver& solver, double go_pa, double peak_pa,
            YearLite& result) {
  constexpr double fatigue_share = 0.4;
  const double least_pa = std::min(year_ratios.front() * go_pa, fatigue_share * peak_pa);
  Tally found{{}, {cut.step_s, internal::point_lengths_m(solver), {}}};
  for (std::size_t s = 0; s < stretches; ++s) {
    for (std::size_t i = 0; i < cut.length && !cut.repeats(s, i); ++i) {
      if (lite[s].highest_possible_pa(i) < least_pa) continue;
      std::vector<double> stress = lite[s].stress(i);
      const double most = *std::max_element(stress.begin(), stress.end());
      if (most < least_pa) continue;
      double& of_day = found.highest_of_day[cut.at(s, i) / cut.a_day];
      of_day = std::max(of_day, most);
      for (std::size_t r = 0; r < year_ratios.size(); ++r)
        if (most >= year_ratios[r] * go_pa) result.hours[r] += cut.step_s / 3600.0;
      found.history.stress_pa.push_back(std::move(stress));
    }
  }
  return found;
}

std::vector<YearDay> worst_days(const Tally& found, const Dates& dates, double go_pa) {
  constexpr std::size_t most = 10;
  std::vector<YearDay> days;
  for (const auto& [day, pa] : found.highest_of_day)
    days.push_back({dates.of_day[day].first, dates.of_day[day].second, pa / go_pa});
  std::stable_sort(days.begin(), days.end(),
                   [](const YearDay& a, const YearDay& b) { return a.stress_ratio > b.stress_ratio; });
  days.resize(std::min(days.size(), most));
  return days;
}

double hours_at_line(const EdgeHistory& history, double go_pa, double fatigue_n) {
  double worst = 0.0;
  for (std::size_t point = 0; point < history.point_length_m.size(); ++point) {
    double sum = 0.0;
    for (const auto& step : history.stress_pa)
      if (step[point] > 0.0) sum += std::pow(step[point] / go_pa, fatigue_n);
    worst = std::max(worst, sum);
  }
  return worst * history.step_s / 3600.0;
}

// So many such years are the same history with so many times as long a step.
Odds odds_of_years(EdgeHistory history, double years, const EdgeDescription& edge, const Reference& reference) {
  history.step_s *= years;
  return breakage_odds(history, edge, reference);
}

YearLite lite_through_year(const Case& pane, const Cut& cut, const Dates& dates, std::span<const LiteDay> lite,
                           std::size_t index, const EdgeStressSolver& solver, const Reference& reference) {
  const internal::Highest highest = internal::highest_of_days(lite, {0, cut.length}, Steps::that_can_govern);
  const EdgePeak peak = solver.find_peak(highest.stress_pa);
  const EdgeDescription& edge = pane.strengths[index];
  const double go_pa = allowable_stress(edge, reference).go_pa;
  const std::size_t at = cut.at(highest.day, highest.step);
  YearLite result;
  result.stress_pa = std::max(0.0, peak.stress_pa);
  result.stress_ratio = result.stress_pa / go_pa;
  std::tie(result.month, result.day) = dates.of_day[at / cut.a_day];
  result.local_hour = cut.steps[at].local_hour;
  result.side = peak.side;
  result.position_m = peak.position_m;
  const Tally found = tally(lite, cut, solver, go_pa, result.stress_pa, result);
  result.worst_days = worst_days(found, dates, go_pa);
  result.hours_at_line = hours_at_line(found.history, go_pa, constant(reference, "fatigue_n"));
  result.odds_1 = odds_of_years(found.history, 1.0, edge, reference);
  result.odds_10 = odds_of_years(found.history, 10.0, edge, reference);
  result.odds_25 = odds_of_years(found.history, 25.0, edge, reference);
  return result;
}

std::vector<internal::DayLight> light_of_stretches(const Case& pane, const Cut& cut) {
  std::vector<internal::DayLight> light;
  for (std::size_t s = 0; s < stretches; ++s) {
    std::vector<DayStep> steps;
    for (std::size_t i = 0; i < cut.length; ++i) steps.push_back(cut.steps[cut.at(s, i)]);
    light.push_back(internal::light_through(pane, steps));
  }
  return light;
}

}  // namespace

WeatherRun run_weather_year(const Case& pane, const GlazingState& state, const WeatherYear& year,
                            const Reference& reference, ChainCache& cache) {
  const internal::AbsorptionTable table(state, pane.room.back_reflectance());
  const Cut cut = cut_of(pane, year, reference);
  const std::vector<DayStrips> strips = march_cut(pane, state, table, cut, cache.store());
  const Dates dates = dates_of(year);
  WeatherRun run{
      {},
      std::max(internal::largest_residual(cache.store().lines), internal::largest_residual(cache.store().other_lines))};
  const std::vector<internal::PaneMaps> maps = internal::maps_of_lites(pane, state, strips, cut.a_day, cache.store());
  const std::vector<internal::DayLight> light = light_of_stretches(pane, cut);
  for (std::size_t lite = 0; lite < maps.size(); ++lite) {
    const std::vector<LiteDay> of_stretch =
        internal::days_of_lite(pane, light, strips, lite, maps[lite], cache.store());
    run.lites.push_back(lite_through_year(pane, cut, dates, of_stretch, lite, *maps[lite].solver, reference));
  }
  return run;
}

}  // namespace sunstrain
