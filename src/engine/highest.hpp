// Internal: where and when a lite's stress is highest over days.
#pragma once

#include <limits>

#include "lite_day.hpp"

namespace sunstrain::internal {

// Steps of a day, from the first up to before the end.
struct StepRange {
  std::size_t first, end;
};

// Where and when a lite's stress is highest over all days.
struct Highest {
  std::size_t day = 0, step = 0;
  double sample_pa = -std::numeric_limits<double>::infinity();  // at the solver's points
  std::vector<double> stress_pa;
};

// Steps are taken from the highest bound down; a tighter bound is asked before a step is solved, and the rest is left
// alone once the bound falls below what was found. Of equals the earliest counts.
Highest highest_of_days(std::span<const LiteDay> days, StepRange steps, Steps which);

// The largest energy that a step's balance leaves over, as a share of absorbed sun and gross exchange.
double largest_residual(std::span<const LineDay> lines);

// The length of edge that each of the solver's points stands for: bottom, right, top, left.
std::vector<double> point_lengths_m(const EdgeStressSolver& solver);

}  // namespace sunstrain::internal
