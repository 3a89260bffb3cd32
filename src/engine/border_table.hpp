// Internal: what a shadow's border across the whole width gives along the edge, for borders in a row of places: enough
// to bound it for any place without solving.
#pragma once

#include <array>

#include "soft_steps.hpp"

namespace sunstrain::internal {

struct Bounds {
  double least, most;
};

// For each of a strip's nodes, the light below the border filling the pane up to a place: sigma along the edge, less
// what follows the light at the point itself, so that the rest changes smoothly from place to place. Place 0 is no
// light, place 1 a border at the bottom of the glass, the last but one a border at its top, the last all light.
struct BorderTable {
  double height_m = 0.0, smoothing_m = 0.0, stress_pa_per_k = 0.0;
  std::size_t nodes = 0, places = 0;
  std::size_t points = 0;             // half the bottom, the right side, half the top: the rest mirrors them
  std::vector<double> side_height_m;  // of the points along left and right
  std::vector<double> smooth_pa;      // [(place * nodes + node) * points + point]
  std::array<double, 2> local_m{};    // two softnesses of the light as the edge feels it
  std::array<SoftSteps, 2> steps;     // of each of them, along a side
  std::vector<std::array<double, 2>> with_light_pa;  // per node: times those lights at the point, the rest of sigma
  std::vector<double> middle_m;                      // per node: depth of the middle of its ramp
  std::vector<Bounds> anywhere;  // [place * nodes + node]: sigma while the border is between this place and the next
};

BorderTable border_table(const StripRamps& ramps, double smoothing_m, double stress_pa_per_k);

// The same for a border softened over more: it is a mixture of borders softened over less.
BorderTable softened(const BorderTable& sharper, double smoothing_m);

// Sigma of one node with the border at border_m, anywhere along the edge. border_m over 0; from the height on: all
// light.
Bounds sigma_anywhere(const BorderTable& table, std::size_t node, double border_m);

// Adds an upper bound of sigma point by point, for a field of rise_k K at each node.
void add_highest(const BorderTable& table, std::span<const double> rise_k, double border_m, std::span<double> pa);

}  // namespace sunstrain::internal
