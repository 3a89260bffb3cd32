#include "highest.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <queue>
#include <utility>

namespace sunstrain::internal {

namespace {

// Small, for thousands of them are put in order.
struct Candidate {
  double bound_pa;
  std::uint32_t step;
  std::uint16_t day;
};

bool lower(const Candidate& a, const Candidate& b) { return a.bound_pa < b.bound_pa; }

}  // namespace

// What may be highest comes first; the search ends when no bound is left that reaches the peak.
Highest highest_of_days(std::span<const LiteDay> days, StepRange steps, Steps which) {
  constexpr double rounding_pa = 1.0;  // of a bound, which adds up in another order than the stress
  const bool all = which == Steps::all;
  std::vector<Candidate> candidates;
  candidates.reserve(days.size() * (steps.end - steps.first));
  for (std::uint16_t day = 0; day < days.size(); ++day) {
    for (auto step = static_cast<std::uint32_t>(steps.first); step < steps.end; ++step) {
      const double bound_pa =
          all ? std::numeric_limits<double>::infinity() : days[day].highest_possible_pa(step) + rounding_pa;
      candidates.push_back({bound_pa, step, day});
    }
  }
  std::priority_queue queue(lower, std::move(candidates));
  Highest highest;
  while (!queue.empty() && queue.top().bound_pa >= highest.sample_pa) {
    const auto [bound_pa, step, day] = queue.top();
    queue.pop();
    std::vector<double> stress = days[day].stress(step);
    const double most = *std::max_element(stress.begin(), stress.end());
    const bool earlier = std::pair<std::size_t, std::size_t>(day, step) < std::pair(highest.day, highest.step);
    if (most > highest.sample_pa || (most == highest.sample_pa && earlier))
      highest = {day, step, most, std::move(stress)};
  }
  return highest;
}

double largest_residual(std::span<const LineDay> lines) {
  constexpr double least_w_m = 1e-3;
  double largest = 0.0;
  for (const LineDay& line : lines) {
    for (std::size_t i = 0; i < line.steps(); ++i)
      largest = std::max(largest, std::abs(line.residual_w_m[i]) / std::max(line.exchanged_w_m[i], least_w_m));
  }
  return largest;
}

std::vector<double> point_lengths_m(const EdgeStressSolver& solver) {
  const auto side_points = static_cast<std::size_t>(solver.points_per_side());
  std::vector<double> lengths_m;
  for (Side side : all_sides) {
    const auto at = side == Side::bottom || side == Side::top ? solver.x_edge_points() : solver.y_edge_points();
    for (std::size_t i = 0; i < side_points; ++i) {
      const double before = i == 0 ? at[0] : 0.5 * (at[i - 1] + at[i]);
      const double after = i + 1 == side_points ? at[i] : 0.5 * (at[i] + at[i + 1]);
      lengths_m.push_back(after - before);
    }
  }
  return lengths_m;
}

}  // namespace sunstrain::internal
