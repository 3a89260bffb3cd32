#include "sunstrain/year_table.hpp"

#include <algorithm>
#include <stdexcept>

#include "highest.hpp"
#include "year_parts.hpp"

namespace sunstrain {
namespace {

RatioByHour ratio_by_hour(const Case& pane, const GlazingState& state, std::size_t lite, const Reference& reference,
                          ChainCache& cache) {
  const std::vector<DesignDay>& days = internal::design_year(pane, reference, cache.store());
  const internal::LitesThroughDays through(pane, state, days, cache.store());
  const std::span<const internal::LiteDay> of_lite = through.days_of(lite);
  const std::size_t an_hour = days.front().steps.size() / hours_a_day, kinds = days.size() / months_a_year;
  const double go_pa = allowable_stress(pane.strengths[lite], reference).go_pa;
  RatioByHour ratio{};
  for (std::size_t month = 0; month < months_a_year; ++month) {
    const std::span<const internal::LiteDay> of_month = of_lite.subspan(month * kinds, kinds);
    for (std::size_t hour = 0; hour < hours_a_day; ++hour) {
      const internal::Highest highest =
          internal::highest_of_days(of_month, {hour * an_hour, (hour + 1) * an_hour}, Steps::that_can_govern);
      const double peak_pa = through.solver(lite).find_peak(highest.stress_pa).stress_pa;
      ratio[month][hour] = std::max(0.0, peak_pa) / go_pa;
    }
  }
  return ratio;
}

}  // namespace

YearTable year_table(const Assessment& assessment, const Reference& reference, ChainCache& cache) {
  const Case pane = build_case(assessment.bad_end, Run::bad_end, reference);
  const std::size_t lite = assessment.governing_lite;
  if (lite >= pane.strengths.size()) throw std::logic_error("the lite that governs is none of the pane's");
  return {lite, ratio_by_hour(pane, pane.before, lite, reference, cache),
          ratio_by_hour(pane, pane.after, lite, reference, cache)};
}

}  // namespace sunstrain
