// What the edge-stress solver keeps of a pane shape. Internal to the stress stage.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "stress_block.hpp"
#include "stress_direction.hpp"
#include "sunstrain/stress.hpp"

namespace sunstrain {

struct EdgeStressSolver::Shape {
  stress_detail::Direction x, y;
  std::array<stress_detail::Block, 4> blocks;  // even-even, odd-even (in x), even-odd, odd-odd; empty: never asked
  double stress_per_k = 0.0;                   // E alpha
  int points_per_side = 0;
  std::size_t most_columns = 0;

  std::size_t half() const { return x.half_edge(); }

  // Mirror symmetry leaves nothing of these fields in the block.
  bool nothing_in(const stress_detail::Block& block, std::span<const Product> products) const;
  // Integrals of a sum of products against the modes of a block.
  void integrals(const stress_detail::Block& block, std::span<const Product> products, double* into) const;
  // Adds to H along the half edges of a block what lies beyond the last mode, and takes the temperature off.
  void add_traces(const stress_detail::Block& block, std::span<const Product> products, double* half_edges) const;
  // Four blocks' half edges (top, right each), `stride` apart, to the stress along bottom, right, top, left.
  void unfold(const double* half_edges, std::size_t stride, double* stress_pa) const;
  EdgePeak peak(std::span<const double> stress_pa) const;
  EdgeStress with_peak(std::span<const double> stress_pa) const;
};

namespace stress_detail {

// The highest value of a curve given at points; between the points too, where it is above `near`.
struct CurvePeak {
  double position, value;
};
CurvePeak curve_peak(std::span<const double> position, std::span<const double> value, double near);

}  // namespace stress_detail

}  // namespace sunstrain
