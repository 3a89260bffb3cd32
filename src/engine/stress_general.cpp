// Any field, sampled: the integrals against the modes by a tensor product of the one-dimensional tables.
#include <algorithm>
#include <array>
#include <stdexcept>

#include "stress_kernels.hpp"
#include "stress_shape.hpp"

namespace sunstrain {

namespace stress_detail {

using Point = EdgeStressSolver::Point;

std::vector<Point> general_points(const Direction& x, const Direction& y) {
  std::vector<Point> points;
  for (double v : y.nodes)
    for (double u : x.nodes) points.push_back({u, v});
  const auto along_x = [&](double v) { for (double u : x.edge_points) points.push_back({u, v}); };
  const auto along_y = [&](double u) { for (double v : y.edge_points) points.push_back({u, v}); };
  along_x(0.0);
  along_y(x.length_m);
  along_x(y.length_m);
  along_y(0.0);
  return points;
}

}  // namespace stress_detail

using namespace stress_detail;

namespace {

constexpr std::size_t up(int n) { return static_cast<std::size_t>(n); }

// One parity quadrant of the grid as seen from the far corner: half nodes of one direction by those of the other,
// `inner` of them running fastest.
struct Quadrant {
  std::size_t inner, outer;
  std::vector<double> value;
};

struct Folded { Quadrant x_inner, y_inner; };

// Quadrant 2 * parity_y + parity_x, both ways round.
std::array<Folded, 4> fold_grid(std::span<const double> t, std::size_t nx, std::size_t ny) {
  const std::size_t hx = nx / 2, hy = ny / 2;
  std::array<Folded, 4> folded;
  for (Folded& f : folded) f = {{hx, hy, std::vector<double>(hx * hy)}, {hy, hx, std::vector<double>(hx * hy)}};
  for (std::size_t j = 0; j < hy; ++j) {
    const double *near = &t[nx * j], *far = &t[nx * (ny - 1 - j)];
    for (std::size_t i = 0; i < hx; ++i) {
      const double nn = near[i], fn = near[nx - 1 - i], nf = far[i], ff = far[nx - 1 - i];
      const double value[4]{0.25 * (ff + nf + fn + nn), 0.25 * (ff - nf + fn - nn), 0.25 * (ff + nf - fn - nn),
                            0.25 * (ff - nf - fn + nn)};
      for (std::size_t q = 0; q < 4; ++q) {
        folded[q].x_inner.value[hx * j + i] = value[q];
        folded[q].y_inner.value[hy * i + j] = value[q];
      }
    }
  }
  return folded;
}

// Integrals of a quadrant against the family sin(a s) hyp(a t), s along `inner`, t along `outer`: the sines first,
// a chunk of modes at a time, and only as far from the edge as the chunk's hyperbolic profiles reach. Also the
// integral against the bilinear function.
void family_integrals(const Direction& inner, int parity_inner, const Direction& outer, int parity_outer,
                      const Quadrant& quadrant, double* bilinear, double* modes) {
  constexpr std::size_t chunk = ChunkedTable::chunk;
  const ChunkedTable& sines = inner.integral[up(parity_inner)];
  const ChunkedTable& across = outer.integral[up(parity_outer)];
  const double* profile = outer.dense_integral[up(parity_outer)].data();
  const std::size_t count = up(modes_of_parity(inner.modes, parity_inner)), profile_rows = up(across.rows);
  const std::size_t first_profile = 1 + up(modes_of_parity(outer.modes, parity_outer));
  const auto profile_of = [&](std::size_t row) {
    return row == 0 ? 0 : first_profile + 2 * (row - 1) + up(parity_inner);
  };
  std::vector<double> lines(chunk * quadrant.outer);
  for (std::size_t first = 0; first <= count; first += chunk) {
    const std::size_t last = std::min(first + chunk, count + 1);
    const std::size_t reach = up(across.columns_of[profile_of(first) / chunk]);
    std::fill_n(lines.begin(), chunk * reach, 0.0);
    multiply_add_many(&sines.entries[sines.start_of[first / chunk]], quadrant.value.data(), chunk, quadrant.inner,
                      reach, lines.data(), chunk);
    for (std::size_t row = first; row < last; ++row) {
      double sum = 0.0;
      for (std::size_t j = 0; j < reach; ++j)
        sum += lines[chunk * j + row - first] * profile[profile_rows * j + profile_of(row)];
      (row == 0 ? *bilinear : modes[row - 1]) = sum;
    }
  }
}

// Takes the temperature along a far and a near edge, folded, off H along the far half edge.
void take_off_edge(std::span<const double> far, std::span<const double> near, int parity_along, int parity_across,
                   double* out) {
  const double along = parity_along == 0 ? 1.0 : -1.0, across = parity_across == 0 ? 1.0 : -1.0;
  const std::size_t last = far.size() - 1;
  for (std::size_t i = 0; 2 * i < far.size(); ++i)
    out[i] -= 0.25 * (far[last - i] + along * far[i] + across * (near[last - i] + along * near[i]));
}

}  // namespace

EdgeStress EdgeStressSolver::solve_field(std::span<const double> temperature_k) const {
  const Direction &x = shape_->x, &y = shape_->y;
  if (temperature_k.size() != shape_->field_points.size())
    throw std::invalid_argument("temperature_k: must hold one value for each of field_points()");
  const std::size_t grid = x.nodes.size() * y.nodes.size(), side = up(points_per_side());
  const auto quadrants = fold_grid(temperature_k.first(grid), x.nodes.size(), y.nodes.size());
  const auto edge = [&](Side s) { return temperature_k.subspan(grid + static_cast<std::size_t>(s) * side, side); };
  const std::size_t half = shape_->half(), stride = 2 * half;
  std::vector<double> integrals(shape_->most_columns), edges(4 * stride), stress_pa(4 * side);
  for (std::size_t b = 0; b < 4; ++b) {
    const Block& block = shape_->blocks[b];
    const int px = block.parity_x, py = block.parity_y;
    double* out = &edges[b * stride];
    family_integrals(y, py, x, px, quadrants[b].y_inner, &integrals[0], &integrals[1 + block.trig_x]);
    family_integrals(x, px, y, py, quadrants[b].x_inner, &integrals[0], &integrals[1]);
    multiply_add(block.to_edge.data(), integrals.data(), block.rows(), block.columns(), out);
    take_off_edge(edge(Side::top), edge(Side::bottom), px, py, out);
    take_off_edge(edge(Side::right), edge(Side::left), py, px, out + half);
  }
  shape_->unfold(edges.data(), stride, stress_pa.data());
  return shape_->with_peak(stress_pa);
}

EdgeStress EdgeStressSolver::solve_general(const std::function<double(double, double)>& temperature) const {
  std::vector<double> sampled;
  sampled.reserve(shape_->field_points.size());
  for (const Point& p : shape_->field_points) sampled.push_back(temperature(p.x_m, p.y_m));
  return solve_field(sampled);
}

}  // namespace sunstrain
