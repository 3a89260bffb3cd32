// Any field, sampled: the integrals against the modes by a tensor product of the one-dimensional tables.
#include <Eigen/Dense>
#include <algorithm>
#include <stdexcept>
#include <utility>

#include "stress_kernels.hpp"
#include "stress_shape.hpp"

namespace sunstrain {

namespace stress_detail {

using Point = EdgeStressSolver::Point;

std::vector<Point> general_points(const Direction& x, const Direction& y) {
  std::vector<Point> points;
  for (double v : y.nodes)
    for (double u : x.nodes) points.push_back({u, v});
  const double w = x.length_m, h = y.length_m;
  const auto along_x = [&](std::span<const double> at, double v) { for (double u : at) points.push_back({u, v}); };
  const auto along_y = [&](std::span<const double> at, double u) { for (double v : at) points.push_back({u, v}); };
  along_x(x.edge_points, 0.0);
  along_y(y.edge_points, w);
  along_x(x.edge_points, h);
  along_y(y.edge_points, 0.0);
  const auto line_x = std::span(x.sample_points).first(x.sample_points.size() - 2);
  const auto line_y = std::span(y.sample_points).first(y.sample_points.size() - 2);
  along_x(line_x, y.depth_m);
  along_y(line_y, w - x.depth_m);
  along_x(line_x, h - y.depth_m);
  along_y(line_y, x.depth_m);
  return points;
}

}  // namespace stress_detail

using namespace stress_detail;

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Table = Eigen::Map<const MatrixXd>;
using EveryOther = Eigen::Map<const MatrixXd, 0, Eigen::Stride<Eigen::Dynamic, 2>>;

constexpr std::size_t up(int n) { return static_cast<std::size_t>(n); }

// The grid folded both ways, as seen from the far corner; quadrant 2 * parity_y + parity_x.
std::array<MatrixXd, 4> fold_grid(const double* t, Index nx, Index ny) {
  const Index hx = nx / 2, hy = ny / 2;
  std::array<MatrixXd, 4> quadrant;
  for (MatrixXd& q : quadrant) q.resize(hx, hy);
  for (Index j = 0; j < hy; ++j) {
    const double *near = t + nx * j, *far = t + nx * (ny - 1 - j);
    for (Index i = 0; i < hx; ++i) {
      const double nn = near[i], fn = near[nx - 1 - i], nf = far[i], ff = far[nx - 1 - i];
      quadrant[0](i, j) = 0.25 * (ff + nf + fn + nn);
      quadrant[1](i, j) = 0.25 * (ff - nf + fn - nn);
      quadrant[2](i, j) = 0.25 * (ff + nf - fn - nn);
      quadrant[3](i, j) = 0.25 * (ff - nf - fn + nn);
    }
  }
  return quadrant;
}

struct Tables {
  Table all;
  Index trig;
  Tables(const Direction& dir, int parity)
      : all(dir.dense_integral[up(parity)].data(), dir.integral[up(parity)].rows, dir.integral[up(parity)].columns),
        trig(modes_of_parity(dir.modes, parity)) {}
  auto smooth() const { return all.topRows(1 + trig); }
  EveryOther hyperbolic(int parity, Index count) const {
    return {all.data() + 1 + trig + parity, count, all.cols(), Eigen::Stride<Eigen::Dynamic, 2>(all.rows(), 2)};
  }
};

Eigen::VectorXd grid_integrals(const Block& block, const Direction& x, const Direction& y, const MatrixXd& quadrant) {
  const Tables tx(x, block.parity_x), ty(y, block.parity_y);
  Eigen::VectorXd r(1 + tx.trig + ty.trig);
  const MatrixXd by_x = tx.smooth() * quadrant;
  r[0] = by_x.row(0).dot(ty.all.row(0));
  r.segment(1, tx.trig) =
      by_x.bottomRows(tx.trig).cwiseProduct(ty.hyperbolic(block.parity_x, tx.trig)).rowwise().sum();
  const MatrixXd by_y = ty.all.middleRows(1, ty.trig) * quadrant.transpose();
  r.tail(ty.trig) = by_y.cwiseProduct(tx.hyperbolic(block.parity_y, ty.trig)).rowwise().sum();
  return r;
}

// Half the sum (parity 0) or half the difference of two lines, far and near.
std::vector<double> fold_lines(std::span<const double> far, std::span<const double> near, int parity) {
  std::vector<double> folded(far.size());
  const double sign = parity == 0 ? 0.5 : -0.5;
  for (std::size_t i = 0; i < far.size(); ++i) folded[i] = 0.5 * far[i] + sign * near[i];
  return folded;
}

// The values of a general field after the grid: lines along an edge, and just inside it.
struct Lines {
  std::array<std::span<const double>, 4> edge, inner;  // indexed by Side
};

Lines split_lines(std::span<const double> t, const Direction& x, const Direction& y) {
  Lines lines;
  std::size_t at = x.nodes.size() * y.nodes.size();
  const auto take = [&](std::size_t count) { return t.subspan(std::exchange(at, at + count), count); };
  for (std::size_t s = 0; s < 4; ++s) lines.edge[s] = take(x.edge_points.size());
  for (std::size_t s = 0; s < 4; ++s)
    lines.inner[s] = take((s % 2 == 0 ? x : y).sample_points.size() - 2);
  return lines;
}

void add_line_traces(const Direction& along, int parity_along, int parity_across, const Lines& lines, Side far,
                     Side near, bool tail, double* out) {
  const auto f = static_cast<std::size_t>(far), n = static_cast<std::size_t>(near);
  const std::size_t half = along.half_edge(), last = 2 * half - 1;
  const std::vector<double> edge = fold_lines(lines.edge[f], lines.edge[n], parity_across);
  const double sign = parity_along == 0 ? 0.5 : -0.5;
  for (std::size_t i = 0; i < half; ++i) out[i] -= 0.5 * edge[last - i] + sign * edge[i];
  if (!tail) return;
  Scratch rest(half);
  line_tail(along, parity_along, fold_lines(lines.inner[f], lines.inner[n], parity_across), rest.data());
  for (std::size_t i = 0; i < half; ++i) out[i] += 2.0 * rest.data()[i];
}

}  // namespace

EdgeStress EdgeStressSolver::solve_field(std::span<const double> temperature_k) const {
  const Direction &x = shape_->x, &y = shape_->y;
  if (temperature_k.size() != shape_->field_points.size())
    throw std::invalid_argument("temperature_k: must hold one value for each of field_points()");
  const auto quadrants =
      fold_grid(temperature_k.data(), static_cast<Index>(x.nodes.size()), static_cast<Index>(y.nodes.size()));
  const Lines lines = split_lines(temperature_k, x, y);
  const std::size_t half = shape_->half(), stride = 2 * half;
  std::vector<double> edges(4 * stride), stress_pa(4 * up(points_per_side()));
  for (std::size_t b = 0; b < 4; ++b) {
    const Block& block = shape_->blocks[b];
    double* out = &edges[b * stride];
    const Eigen::VectorXd integrals = grid_integrals(block, x, y, quadrants[b]);
    multiply_add(block.to_edge.data(), integrals.data(), block.rows(), block.columns(), out);
    add_line_traces(x, block.parity_x, block.parity_y, lines, Side::top, Side::bottom, shape_->tail, out);
    add_line_traces(y, block.parity_y, block.parity_x, lines, Side::right, Side::left, shape_->tail, out + half);
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
