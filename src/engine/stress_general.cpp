// Any field, sampled: the integrals against the modes by a tensor product of the one-dimensional tables.
#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>

#include "stress_kernels.hpp"
#include "stress_shape.hpp"

namespace sunstrain {

using namespace stress_detail;

namespace {

constexpr std::size_t up(int n) { return static_cast<std::size_t>(n); }

// Nodes, edge points and both ends.
std::size_t line_size(const Direction& along) { return along.sample_points.size() - 2; }

std::size_t general_size(const Direction& x, const Direction& y) {
  return x.nodes.size() * y.nodes.size() + 4 * x.edge_points.size() + 2 * line_size(x) + 2 * line_size(y);
}

// The tensor grid of nodes (x running fastest); the edge points of bottom, right, top and left; then just inside
// each of these edges a line of nodes, edge points and both ends.
template <typename Visit>
void visit_points(const Direction& x, const Direction& y, Visit&& visit) {
  const auto along_x = [&](std::span<const double> at, double v) {
    for (double u : at) visit(u, v);
  };
  const auto along_y = [&](std::span<const double> at, double u) {
    for (double v : at) visit(u, v);
  };
  for (double v : y.nodes) along_x(x.nodes, v);
  along_x(x.edge_points, 0.0);
  along_y(y.edge_points, x.length_m);
  along_x(x.edge_points, y.length_m);
  along_y(y.edge_points, 0.0);
  const auto line_x = std::span(x.sample_points).first(line_size(x));
  const auto line_y = std::span(y.sample_points).first(line_size(y));
  along_x(line_x, y.depth_m);
  along_y(line_y, x.length_m - x.depth_m);
  along_x(line_x, y.length_m - y.depth_m);
  along_y(line_y, x.depth_m);
}

// One parity quadrant of the grid as seen from the far corner: half nodes of one direction by those of the other,
// `inner` of them running fastest.
struct Quadrant {
  std::size_t inner, outer;
  std::vector<double> value;
};

struct Folded {
  Quadrant x_inner, y_inner;
};

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
  const std::size_t count = up(modes_of_parity(inner.modes, parity_inner));
  const std::size_t first_profile = 1 + up(modes_of_parity(outer.modes, parity_outer));
  const auto profile_of = [&](std::size_t row) {
    return row == 0 ? 0 : first_profile + 2 * (row - 1) + up(parity_inner);
  };
  std::vector<double> lines(chunk * quadrant.outer);
  for (std::size_t first = 0; first <= count; first += chunk) {
    const std::size_t last = std::min(first + chunk, count + 1);
    const std::size_t reach = up(across.columns_of[profile_of(first) / chunk]);
    std::fill_n(lines.begin(), chunk * reach, 0.0);
    multiply_add_many(&sines.entries[sines.start_of[first / chunk]], quadrant.value.data(), quadrant.inner, chunk,
                      quadrant.inner, reach, lines.data(), chunk);
    for (std::size_t row = first; row < last; ++row) {
      const double* profile = across.row_start(profile_of(row));
      const std::size_t columns = std::min(reach, up(across.columns_of[profile_of(row) / chunk]));
      double sum = 0.0;
      for (std::size_t j = 0; j < columns; ++j) sum += lines[chunk * j + row - first] * profile[chunk * j];
      (row == 0 ? *bilinear : modes[row - 1]) = sum;
    }
  }
}

struct Pair {
  std::span<const double> far, near;
};  // of lines along opposite edges

// Adds to H along the far half edge what lies beyond the last mode, from the lines just inside, and takes off the
// temperature along the edges.
void add_line_traces(const Direction& along, int parity_along, int parity_across, const Pair& edge, const Pair& inner,
                     double* out) {
  const double sign_along = parity_along == 0 ? 1.0 : -1.0, sign_across = parity_across == 0 ? 1.0 : -1.0;
  const std::size_t half = along.half_edge(), last = 2 * half - 1;
  Scratch folded(inner.far.size()), tail(half);
  for (std::size_t i = 0; i < inner.far.size(); ++i)
    folded.data()[i] = 0.5 * (inner.far[i] + sign_across * inner.near[i]);
  line_tail(along, parity_along, {folded.data(), inner.far.size()}, tail.data());
  for (std::size_t i = 0; i < half; ++i)
    out[i] += 2.0 * tail.data()[i] - 0.25 * (edge.far[last - i] + sign_along * edge.far[i] +
                                             sign_across * (edge.near[last - i] + sign_along * edge.near[i]));
}

}  // namespace

EdgeStress EdgeStressSolver::solve_field(std::span<const double> temperature_k) const {
  const Direction &x = shape_->x, &y = shape_->y;
  if (x.parities == 1)
    throw std::invalid_argument("a sampled field, for a solver made for fields that mirror themselves");
  if (temperature_k.size() != general_size(x, y))
    throw std::invalid_argument("temperature_k: must hold one value for each of field_points()");
  std::size_t taken = 0;
  const auto take = [&](std::size_t count) {
    return temperature_k.subspan(std::exchange(taken, taken + count), count);
  };
  const std::size_t side = up(points_per_side()), nx = x.nodes.size(), ny = y.nodes.size();
  const auto quadrants = fold_grid(take(nx * ny), nx, ny);
  const auto bottom = take(side), right = take(side), top = take(side), left = take(side);
  const auto in_bottom = take(line_size(x)), in_right = take(line_size(y)), in_top = take(line_size(x)),
             in_left = take(line_size(y));
  const std::size_t half = shape_->half(), stride = 2 * half;
  std::vector<double> integrals(shape_->most_columns), edges(4 * stride), stress_pa(4 * side);
  for (std::size_t b = 0; b < 4; ++b) {
    const Block& block = shape_->blocks[b];
    const int px = block.parity_x, py = block.parity_y;
    double* out = &edges[b * stride];
    family_integrals(y, py, x, px, quadrants[b].y_inner, &integrals[0], &integrals[1 + block.trig_x]);
    family_integrals(x, px, y, py, quadrants[b].x_inner, &integrals[0], &integrals[1]);
    multiply_add(block.to_edge.data(), integrals.data(), block.rows(), block.columns(), out);
    add_line_traces(x, px, py, {top, bottom}, {in_top, in_bottom}, out);
    add_line_traces(y, py, px, {right, left}, {in_right, in_left}, out + half);
  }
  shape_->unfold(edges.data(), stride, stress_pa.data());
  return shape_->with_peak(stress_pa);
}

std::vector<EdgeStressSolver::Point> EdgeStressSolver::field_points() const {
  std::vector<Point> points;
  points.reserve(general_size(shape_->x, shape_->y));
  visit_points(shape_->x, shape_->y, [&](double u, double v) { points.push_back({u, v}); });
  return points;
}

EdgeStress EdgeStressSolver::solve_general(const std::function<double(double, double)>& temperature) const {
  std::vector<double> sampled(general_size(shape_->x, shape_->y));
  visit_points(shape_->x, shape_->y,
               [&, i = std::size_t{0}](double u, double v) mutable { sampled[i++] = temperature(u, v); });
  return solve_field(sampled);
}

}  // namespace sunstrain
