// What each sample of a profile along y is worth at the edge: for fields whose x profile stays and whose y profile is
// met in many forms.
#include <algorithm>
#include <array>
#include <stdexcept>

#include "stress_kernels.hpp"
#include "stress_shape.hpp"

namespace sunstrain {

using namespace stress_detail;

namespace {

constexpr std::size_t up(int n) { return static_cast<std::size_t>(n); }

// A block's matrix, its columns times what the x profile brings to each, in the order of the rows of the y direction's
// table: bilinear, sines, hyperbolic profiles of both families, of which an even x profile asks only the even one.
std::vector<double> weighted_columns(const Block& block, const Direction& x, const ChunkedTable& table,
                                     const double* px) {
  const ProfileLayout::Part& even = x.layout.part[0];
  const double* of_sines = px + even.hyperbolic[up(block.parity_y)];
  std::vector<double> columns(block.rows() * ChunkedTable::chunk * table.columns_of.size(), 0.0);
  const auto put = [&](std::size_t from, double factor, std::size_t to) {
    const double* column = &block.to_edge[from * block.rows()];
    std::transform(column, column + block.rows(), &columns[to * block.rows()],
                   [&](double value) { return factor * value; });
  };
  put(0, px[even.bilinear], 0);
  for (std::size_t n = 0; n < block.trig_y; ++n) put(1 + block.trig_x + n, of_sines[n], 1 + n);
  for (std::size_t m = 0; m < block.trig_x; ++m) put(1 + m, px[even.trig + m], 1 + block.trig_y + 2 * m);
  return columns;
}

// Half edges of a block from a value of 1 at each folded node along y.
std::vector<double> of_nodes(const Block& block, const Direction& x, const Direction& y, const double* px) {
  const ChunkedTable& table = y.integral[up(block.parity_y)];
  const std::vector<double> columns = weighted_columns(block, x, table, px);
  const std::size_t rows = block.rows(), half = y.half_edge(), nodes = y.node_distance.size();
  std::vector<double> edges(rows * nodes, 0.0);
  for (std::size_t c = 0; c < table.columns_of.size(); ++c)
    multiply_add_many(&columns[c * ChunkedTable::chunk * rows], &table.entries[table.start_of[c]], ChunkedTable::chunk,
                      rows, ChunkedTable::chunk, up(table.columns_of[c]), edges.data(), rows);
  const double twice_inside = 2.0 * px[x.layout.part[0].depth];
  const std::vector<double>& tail = y.tail_of_nodes[up(block.parity_y)];
  for (std::size_t j = 0; j < nodes; ++j)
    for (std::size_t i = 0; i < half; ++i) edges[j * rows + half + i] += twice_inside * tail[j * half + i];
  return edges;
}

// One sample in the upper half is half an even and half an odd profile: what they give adds up above the middle and is
// taken off below it.
SUNSTRAIN_WIDE_CLONES
void add_up(const double* even, const double* odd, std::size_t rows, double scale, double* lower, double* upper) {
  for (std::size_t i = 0; i < rows; ++i) {
    const double e = 0.5 * scale * even[i], o = 0.5 * scale * odd[i];
    lower[i] = e - o;
    upper[i] = e + o;
  }
}

}  // namespace

std::size_t EdgeStressSolver::y_half_samples() const { return shape_->y.node_distance.size() + shape_->half() + 2; }

void EdgeStressSolver::stress_of_y_samples(std::span<const double> x_profile, std::span<double> stress_pa) const {
  const Direction &x = shape_->x, &y = shape_->y;
  const double* px = x_profile.data();
  const ProfileLayout::Part &even = x.layout.part[0], &odd = x.layout.part[1];
  if (std::any_of(px + odd.bilinear, px + x.layout.size, [](double value) { return value != 0.0; }))
    throw std::invalid_argument("stress_of_y_samples: an x profile that does not mirror itself");
  const std::size_t half = shape_->half(), rows = 2 * half, nodes = y.node_distance.size();
  if (stress_pa.size() != y_half_samples() * 2 * rows) throw std::invalid_argument("stress_of_y_samples: wrong size");
  const double scale = shape_->stress_per_k;
  const std::array edges{of_nodes(shape_->blocks[0], x, y, px), of_nodes(shape_->blocks[2], x, y, px)};
  for (std::size_t j = 0; j < nodes; ++j) {
    double* out = &stress_pa[j * 2 * rows];
    add_up(&edges[0][j * rows], &edges[1][j * rows], rows, scale, out, out + rows);
  }
  // As in add_traces: the temperature at the edge itself, and what lies beyond the last mode.
  double* out = std::fill_n(&stress_pa[nodes * 2 * rows], (half + 2) * 2 * rows, 0.0) - (half + 2) * 2 * rows;
  for (std::size_t i = 0; i < half; ++i, out += 2 * rows)
    out[rows + half + i] = scale * (2.0 * px[even.depth] * y.edge_share[i] - px[even.end]);
  for (std::size_t i = 0; i < half; ++i) {
    const double of_even = y.tail_of_end[0][i], of_odd = y.tail_of_end[1][i];
    out[rows + i] = -scale * px[even.edge + i];
    out[half + i] = scale * px[even.depth] * (of_even - of_odd);
    out[rows + half + i] = scale * px[even.depth] * (of_even + of_odd);
  }
  out += 2 * rows;
  for (std::size_t i = 0; i < half; ++i) out[rows + i] = 2.0 * scale * px[even.tail + i];
}

}  // namespace sunstrain
