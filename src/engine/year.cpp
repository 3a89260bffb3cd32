// One run of the chain over the design days: sun, optics, heat, field and stress, step by step; the peak of every lite.
#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "highest.hpp"
#include "year_parts.hpp"

namespace sunstrain {

ChainCache::ChainCache() : store_(std::make_unique<Store>()) {}
ChainCache::~ChainCache() = default;
void ChainCache::shed() { store_->shed(); }

void ChainCache::Store::shed() {
  constexpr std::size_t most = 96;  // a pane with a moving shadow takes 5 to 10
  constexpr std::size_t most_answers = 4096;
  years.clear();
  if (bad_end_ratios.size() + plane_checks.size() > most_answers) {
    bad_end_ratios.clear();
    plane_checks.clear();
  }
  if (solvers.size() + ramps.size() + maps.size() + nodes.size() + sharp_borders.size() + soft_borders.size() +
          colder_bottoms.size() <=
      most)
    return;
  // Borders and maps rest on ramps, those on solvers.
  colder_bottoms.clear();
  soft_borders.clear();
  sharp_borders.clear();
  maps.clear();
  nodes.clear();
  ramps.clear();
  solvers.clear();
}

namespace {

using internal::DayStrips;
using internal::Highest;
using internal::LiteDay;

// Of the steps whose stress may pass `from_pa`.
EdgeHistory edge_history(const LiteDay& lite, const EdgeStressSolver& solver, const DesignDay& day, double from_pa) {
  EdgeHistory history{day.step_s, internal::point_lengths_m(solver), {}};
  for (std::size_t step = 0; step < day.steps.size(); ++step)
    if (lite.highest_possible_pa(step) >= from_pa) history.stress_pa.push_back(lite.stress(step));
  return history;
}

constexpr double counting_share = 0.6;  // of the peak: see likely_worst_of_year
constexpr double every_step_pa = -std::numeric_limits<double>::infinity();

// What is asked of the day of a lite's peak.
enum class Breaking { nothing, odds, likely_risk };

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
  const bool colder = pane.bottom_is_colder(lite) && found.side == Side::bottom;
  peak.edge_k = strip_k.front() - (colder ? pane.bottom_edge_colder_k : 0.0);
  peak.shaded_center_k = strips.in_shade(highest.step, lite).back();
  peak.frame_k = strips.lit->frame_k[highest.step];
  peak.irradiance_w_m2 = sky.pane.total_w_m2();
  return peak;
}

// The gas of every cavity, midway between its lites, in the step in which the cavities are hottest together.
std::vector<double> hottest_gas_k(std::span<const DayStrips> days, const Glazing& glazing) {
  std::vector<std::size_t> gas;  // the sealed cavities
  for (std::size_t k = 0; k < glazing.cavities.size(); ++k)
    if (!glazing.cavities[k].solid() && !glazing.cavities[k].apart) gas.push_back(k);
  std::vector<double> hottest;
  double most = 0.0;
  for (const DayStrips& day : days) {
    const LineDay& line = *day.lit;
    for (std::size_t step = 0; step < line.steps() && !gas.empty(); ++step) {
      const double* mean_k = &line.mean_k[step * line.lites];
      double sum = 0.0;
      for (std::size_t k : gas) sum += 0.5 * (mean_k[k] + mean_k[k + 1]);
      if (sum <= most) continue;
      most = sum;
      hottest.clear();
      for (std::size_t k : gas) hottest.push_back(0.5 * (mean_k[k] + mean_k[k + 1]));
    }
  }
  return hottest;
}

YearPeaks peaks_of_days(const Case& pane, const GlazingState& state, std::span<const DesignDay> days,
                        const Reference& reference, ChainCache& cache, Breaking breaking, Steps steps) {
  const ChainCache::Store& store = cache.store();
  const internal::AbsorptionTable table(state, pane.room.back_reflectance());
  const internal::LitesThroughDays through(
      pane, state, internal::strips_of_days(pane, state, table, days, cache.store()), days, cache.store());
  YearPeaks year{{}, hottest_gas_k(through.strips(), state.thermal), 0.0};
  for (const auto* lines : {&store.lines, &store.shaded_lines, &store.other_lines, &store.other_shaded_lines})
    year.worst_energy_residual = std::max(year.worst_energy_residual, internal::largest_residual(*lines));
  for (std::size_t lite = 0; lite < through.lites(); ++lite) {
    const std::span<const LiteDay> lite_days = through.days_of(lite);
    const EdgeStressSolver& solver = through.solver(lite);
    const Highest highest = internal::highest_of_days(lite_days, {0, days.front().steps.size()}, steps);
    const DesignDay& day = days[highest.day];
    LitePeak peak = peak_of(pane, day, through.strips()[highest.day], lite, solver, highest);
    peak.bending_pa = lite_days[highest.day].bending_pa(highest.step);
    const DayStep& step = day.steps[highest.step];
    const FaceSources sun = internal::step_loads(pane, table, step, day.kind, 1.0).absorbed[lite];
    peak.absorbed_w_m2 = sun.outer_face_w_m2 + sun.bulk_w_m2 + sun.inner_face_w_m2;
    const auto history = [&](double from_pa) { return edge_history(lite_days[highest.day], solver, day, from_pa); };
    if (breaking == Breaking::odds) peak.odds = breakage_odds(history(every_step_pa), pane.strengths[lite], reference);
    if (breaking == Breaking::likely_risk)
      peak.likely_risk = likely_risk(history(counting_share * peak.stress_pa), pane.strengths[lite], reference);
    year.lites.push_back(peak);
  }
  return year;
}

}  // namespace

YearPeaks worst_of_days(const Case& pane, const GlazingState& state, std::span<const DesignDay> days,
                        const Reference& reference, ChainCache& cache, bool with_odds, Steps steps) {
  return peaks_of_days(pane, state, days, reference, cache, with_odds ? Breaking::odds : Breaking::nothing, steps);
}

YearPeaks likely_worst_of_year(const Case& pane, const GlazingState& state, const Reference& reference,
                               ChainCache& cache) {
  return peaks_of_days(pane, state, internal::design_year(pane, reference, cache.store()), reference, cache,
                       Breaking::likely_risk, Steps::that_can_govern);
}

YearPeaks worst_of_year(const Case& pane, const GlazingState& state, const Reference& reference, ChainCache& cache,
                        bool with_odds) {
  return worst_of_days(pane, state, internal::design_year(pane, reference, cache.store()), reference, cache, with_odds);
}

}  // namespace sunstrain
