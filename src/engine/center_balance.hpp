// Internal: the balance of the middle of the pane in one step, steady or with heat stored.
#pragma once

#include "sunstrain/heat.hpp"

namespace sunstrain::internal {

// Heat stored over a step as a backward formula: rate = capacity (weight T - history), per lite.
struct Storage {
  double weight_per_s = 0.0;            // 0: steady
  std::vector<double> history_k_per_s;  // per lite
};

// Settles temperatures and exchanges together, starting from `guess`. Throws std::runtime_error if they do not settle.
void settle_center(const Glazing& glazing, const StepLoads& loads, const RoomShade& shade, const Gas& air,
                   const Storage& storage, CenterBalance& balance);

// A first guess: outdoor to room temperature in equal parts.
CenterBalance first_guess(const Glazing& glazing, const StepLoads& loads);

double heat_capacity_j_m2k(const Glazing& glazing, std::size_t lite);

}  // namespace sunstrain::internal
