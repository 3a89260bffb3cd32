// Internal: the strip of glass from the cut edge to the middle, with the frame's nodes, solved for one step.
#pragma once

#include "strip_core.hpp"

namespace sunstrain::internal {

struct StripState {
  std::vector<double> cell_k;  // [lite * cells + cell], from the cut edge to the middle
  std::array<double, 4> frame_k;
};

struct StripAudit {
  double residual_w_m, exchanged_w_m;
};

// Solves the steady strip with given exchanges; scratch is reused between calls.
class StripSolver {
 public:
  StripSolver(const Line& line, StripMesh mesh);
  const StripMesh& mesh() const { return rows_.mesh; }
  StripAudit solve(const StepLoads& loads, const CenterBalance& center, StripState& state);

 private:
  StripRows rows_;
  StripScratch<double> scratch_;
  StripTemperatures<double> temperatures_;
};

// Storage for a strip's rows.
template <class R>
StripScratch<R> scratch_for(const StripRows& s) {
  return {std::vector<R>(s.cells * half_matrix(s.lites)), std::vector<R>(s.rows), std::vector<R>(s.rows),
          std::vector<R>(s.rows)};
}

// Row of a lite's cell, cells counted from the cut edge.
inline std::size_t row_of(const StripRows& s, std::size_t lite, std::size_t cell) {
  return (s.cells - 1 - cell) * s.lites + lite;
}

}  // namespace sunstrain::internal
