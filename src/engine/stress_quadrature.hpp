// Points along one direction of a pane: panels graded to the ends and to the features, mirrored about the
// middle so that profiles fold into even and odd halves. Internal to the stress stage.
#pragma once

#include <span>
#include <vector>

#include "sunstrain/stress.hpp"

namespace sunstrain::stress_detail {

inline constexpr int gauss_order = 8;

struct GaussRule {
  std::vector<double> node, weight;
};  // on -1 to 1
GaussRule gauss_rule(int order);

// A stretch of the half direction, in distance from its far end (0 at x = length, length/2 in the middle).
struct Panel {
  double from_m, to_m;
};

std::vector<Panel> graded_panels(double length_m, std::span<const Feature> features, double end_width_m,
                                 double panel_per_width);

// Points of the half direction (distance from the far end, ascending) at which the stress is reported. Further from
// a feature than the pane's shorter side the stress hardly changes along the edge.
std::vector<double> graded_edge_points(double length_m, std::span<const Feature> features, double end_width_m,
                                       double shorter_m, int count);

}  // namespace sunstrain::stress_detail
