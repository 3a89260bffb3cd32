#include "scout.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <numeric>
#include <string_view>
#include <utility>

#include "highest.hpp"
#include "year_parts.hpp"

namespace sunstrain::internal {
namespace {

constexpr int hourly = 24, half_hours = 48;
constexpr MarchCare loosely{0.02, 1e-3, 0.5};
constexpr std::size_t days_run = 8, of_them_worst = 2, of_them_near = 3;  // as many as are marched side by side

// What sets when the sun shines on the pane, and how many lites it meets.
Facts facts_of_sun(const Job& complete) {
  constexpr std::array<std::string_view, 5> these{"site.", "shading.", "pane.facing", "pane.tilt", "glass.panes"};
  Facts facts;
  for (const auto& fact : complete.values) {
    if (std::any_of(these.begin(), these.end(), [&](std::string_view start) { return fact.first.starts_with(start); }))
      facts.insert(fact);
  }
  return facts;
}

// Each day's highest share of the go line, of any lite.
std::vector<double> ratio_by_day(const Case& pane, std::span<const DesignDay> days, MarchCare care,
                                 const Reference& reference, ChainCache& cache) {
  const LitesThroughDays through(pane, pane.after, days, cache.store(), care);
  std::vector<double> ratios(days.size(), 0.0);
  for (std::size_t lite = 0; lite < through.lites(); ++lite) {
    const double go_pa = allowable_stress(pane.strengths[lite], reference).go_pa;
    for (std::size_t day = 0; day < days.size(); ++day) {
      const Highest highest =
          highest_of_days(through.days_of(lite).subspan(day, 1), {0, days[day].steps.size()}, Steps::that_can_govern);
      ratios[day] = std::max(ratios[day], highest.sample_pa / go_pa);
    }
  }
  return ratios;
}

// The highest share of the go line of any lite: on the days that were the worst where they were looked for, on those
// that came next, and on those far from all these.
struct WorstOf {
  double here = 0.0, near = 0.0, far = 0.0;
  double all() const { return std::max({here, near, far}); }
};
WorstOf worst_of(const Case& pane, std::span<const DesignDay> days, MarchCare care, const Reference& reference,
                 ChainCache& cache) {
  const LitesThroughDays through(pane, pane.after, days, cache.store(), care);
  WorstOf worst;
  for (std::size_t lite = 0; lite < through.lites(); ++lite) {
    const double go_pa = allowable_stress(pane.strengths[lite], reference).go_pa;
    const std::span<const LiteDay> of_lite = through.days_of(lite);
    const auto highest = [&](std::span<const LiteDay> some) {
      return highest_ratio(through, lite, some, days.front().steps.size(), go_pa);
    };
    worst.here = std::max(worst.here, highest(of_lite.first(of_them_worst)));
    worst.near = std::max(worst.near, highest(of_lite.subspan(of_them_worst, of_them_near)));
    worst.far = std::max(worst.far, highest(of_lite.subspan(of_them_worst + of_them_near)));
  }
  return worst;
}

// A month away or less, and of the same kind.
bool alike(const DesignDay& a, const DesignDay& b) {
  const int apart = std::abs(a.month - b.month);
  return a.kind == b.kind && (apart <= 1 || apart >= 11);
}

// From days in order, the worst first: the first ones, then those like none taken so far, as long as there are any.
std::vector<std::size_t> worst_and_far(std::span<const DesignDay> year, std::span<const std::size_t> in_order) {
  constexpr std::size_t first = of_them_worst + of_them_near;
  std::vector<std::size_t> taken(in_order.begin(), in_order.begin() + first);
  for (const std::size_t day : in_order.subspan(first)) {
    const bool far =
        std::none_of(taken.begin(), taken.end(), [&](std::size_t other) { return alike(year[day], year[other]); });
    if (far && taken.size() < days_run) taken.push_back(day);
  }
  return taken;
}

}  // namespace

Scout::Scout(const Reference& reference, ChainCache& cache)
    : reference_(reference), cache_(cache), about_{loosely, half_hours, {}}, closely_{{}, ten_minutes, {}} {}

std::optional<double> Scout::about(const Job& job, const Choice& choice) { return ratio(job, choice, about_); }

std::optional<double> Scout::closely(const Job& job, const Choice& choice) { return ratio(job, choice, closely_); }

void Scout::focus(const Job& job, const Choice& choice) {
  const Job complete = resolve(job, Run::bad_end, choice, reference_).job;
  const auto before = worst_days_.find(facts_of_sun(complete));
  if (before == worst_days_.end()) return;
  WorstDays now = worst_days(build_case(complete, Run::bad_end, reference_));
  if (now.days != before->second.days) {
    about_.known.clear();
    closely_.known.clear();
  }
  before->second = std::move(now);
}

std::optional<double> Scout::ratio(const Job& job, const Choice& choice, Work& work) {
  const Job complete = resolve(job, Run::bad_end, choice, reference_).job;
  if (const auto known = work.known.find(complete.values); known != work.known.end()) return known->second;
  std::optional<double> found;
  try {
    found = ratio_of(complete, build_case(complete, Run::bad_end, reference_), work);
  } catch (const BadInput&) {
    // no pane is like that
  }
  return work.known[complete.values] = found;
}

double Scout::ratio_of(const Job& complete, const Case& pane, const Work& work) {
  constexpr double much_worse = 1.15, about_as_bad = 0.97;
  Facts sun = facts_of_sun(complete);
  auto place = worst_days_.find(sun);
  if (place == worst_days_.end()) place = worst_days_.emplace(std::move(sun), worst_days(pane)).first;
  WorstDays& worst = place->second;
  const auto on_days = [&](const WorstDays& these) {
    const std::vector<DesignDay>& year = design_year(pane, reference_, cache_.store(), work.steps_per_day);
    std::vector<DesignDay> days;
    for (const std::size_t day : these.days) days.push_back(year[day]);
    return worst_of(pane, days, work.care, reference_, cache_);
  };
  const WorstOf found = on_days(worst);
  if (found.all() > much_worse * worst.ratio) return on_days(worst = worst_days(pane)).all();
  const bool elsewhere = found.near > found.here || found.far > about_as_bad * std::max(found.here, found.near);
  if (elsewhere) return on_days(worst_days(pane)).all();
  return found.all();
}

Scout::WorstDays Scout::worst_days(const Case& pane) const {
  const std::vector<DesignDay>& year = design_year(pane, reference_, cache_.store(), hourly);
  const std::vector<double> ratios = ratio_by_day(pane, year, loosely, reference_, cache_);
  std::vector<std::size_t> days(ratios.size());
  std::iota(days.begin(), days.end(), std::size_t{0});
  std::stable_sort(days.begin(), days.end(), [&](std::size_t a, std::size_t b) { return ratios[a] > ratios[b]; });
  return {worst_and_far(year, days), ratios[days.front()]};
}

}  // namespace sunstrain::internal
