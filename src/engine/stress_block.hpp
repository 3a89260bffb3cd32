// One of the four blocks into which mirror symmetry splits the projection on harmonic functions: from the
// integrals of a temperature against the modes straight to H along two half edges. Internal to the stress stage.
#pragma once

#include <vector>

#include "stress_direction.hpp"

namespace sunstrain::stress_detail {

struct Block {
  int parity_x = 0, parity_y = 0;
  std::size_t trig_x = 0, trig_y = 0;  // modes of the families sin(a x) and sin(b y)
  std::size_t rows() const { return row_count; }
  std::size_t columns() const { return 1 + trig_x + trig_y; }
  std::size_t row_count = 0;
  // rows: H at the half edge points of the far (top) edge, then of the far (right) edge; columns: integrals
  // against the bilinear function, the modes sin(a x) hyp(a y), the modes sin(b y) hyp(b x)
  std::vector<double> to_edge;
};

Block make_block(const Direction& along_x, const Direction& along_y, int parity_x, int parity_y);

}  // namespace sunstrain::stress_detail
