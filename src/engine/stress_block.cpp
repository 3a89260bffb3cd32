#include "stress_block.hpp"

#include <Eigen/Dense>
#include <cmath>
#include <numbers>

namespace sunstrain::stress_detail {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

// One family, sin(a_m s) along a direction of length L times hyp(a_m t) across one of length 2 B.
struct Family {
  VectorXd rate, mass, with_bilinear;
};

// integral over -B..B of hyp(a t)^2, hyp being cosh(a t)/cosh(a B) or sinh(a t)/sinh(a B)
double hyperbolic_square(double rate, double half_m, int parity) {
  const double e = std::exp(-2.0 * rate * half_m);
  const double tanh_ab = (1.0 - e) / (1.0 + e);
  if (parity == 0) return tanh_ab / rate + half_m * 4.0 * e / ((1.0 + e) * (1.0 + e));
  return 1.0 / (tanh_ab * rate) - half_m * 4.0 * e / ((1.0 - e) * (1.0 - e));
}

// integral over -B..B of hyp(a t) times 1 or t/B
double hyperbolic_moment(double rate, double half_m, int parity) {
  const double e = std::exp(-2.0 * rate * half_m);
  const double tanh_ab = (1.0 - e) / (1.0 + e);
  if (parity == 0) return 2.0 * tanh_ab / rate;
  return 2.0 / (tanh_ab * rate) - 2.0 / (rate * rate * half_m);
}

Family make_family(const Direction& along, int parity_along, double across_m, int parity_across) {
  const Index count = modes_of_parity(along.modes, parity_along);
  Family family{VectorXd(count), VectorXd(count), VectorXd(count)};
  for (Index m = 0; m < count; ++m) {
    const double rate = std::numbers::pi * mode_number(parity_along, static_cast<int>(m)) / along.length_m;
    family.rate[m] = rate;
    family.mass[m] = 0.5 * along.length_m * hyperbolic_square(rate, 0.5 * across_m, parity_across);
    family.with_bilinear[m] = 2.0 / rate * hyperbolic_moment(rate, 0.5 * across_m, parity_across);
  }
  return family;
}

double bilinear_at(const Direction& along, std::size_t i, int parity) {
  return parity == 0 ? 1.0 : 1.0 - 2.0 * along.edge_distance[i] / along.length_m;
}

// What the modes beyond the last one add along the edge, as a multiple of the last one's amplitude: their
// coefficients fall as m^-3, by which the harmonic function makes good for the sines' lack of curvature at the
// corners.
double beyond_last_mode(double last_rate, double rate_step, double distance_m, Index count) {
  const double turn_c = std::cos(rate_step * distance_m), turn_s = std::sin(rate_step * distance_m);
  double s = std::sin(last_rate * distance_m), c = std::cos(last_rate * distance_m), sum = 0.0;
  for (Index k = 1; k <= 6 * count; ++k) {
    const double next_s = s * turn_c + c * turn_s;
    c = c * turn_c - s * turn_s;
    s = next_s;
    const double ratio = last_rate / (last_rate + rate_step * static_cast<double>(k));
    sum += ratio * ratio * ratio * s;
  }
  return sum;
}

// The modes of a family along the half edge they live on, edge points x modes; the last few carry what lies beyond
// them, in shares that even out what fields inside the pane put there with changing sign.
MatrixXd modes_at_edge(const Family& family, const Direction& along) {
  const Index count = family.rate.size(), points = static_cast<Index>(along.half_edge());
  const Index shares = std::min<Index>(count, 8);
  VectorXd share(shares);
  for (Index k = 0; k < shares; ++k) {
    const double wave = std::sin(std::numbers::pi * (static_cast<double>(k) + 0.5) / static_cast<double>(shares));
    share[k] = wave * wave * std::pow(family.rate[count - shares + k] / family.rate[count - 1], 3);
  }
  share *= 2.0 / static_cast<double>(shares);  // the squared waves sum to shares / 2
  MatrixXd at_edge(points, count);
  for (Index i = 0; i < points; ++i) {
    const double d = along.edge_distance[static_cast<std::size_t>(i)];
    for (Index m = 0; m < count; ++m) at_edge(i, m) = std::sin(family.rate[m] * d);
    at_edge.row(i).tail(shares) +=
        beyond_last_mode(family.rate[count - 1], 2.0 * std::numbers::pi / along.length_m, d, count) *
        share.transpose();
  }
  return at_edge;
}

// The unknowns are taken as [small: bilinear, smaller family; big: larger family]. The big part is diagonal, so
//   S = A_ss - A_sb D^-1 A_bs,   c_s = S^-1 (r_s - A_sb D^-1 r_b),   c_b = D^-1 (r_b - A_bs c_s).
struct Split {
  MatrixXd small_mass, coupling;  // A_ss, A_sb
  VectorXd big_mass;              // D
};

Split make_split(const Family& small, const Family& big, double bilinear_mass) {
  const Index ns = small.rate.size(), nb = big.rate.size();
  Split split{MatrixXd::Zero(ns + 1, ns + 1), MatrixXd(ns + 1, nb), big.mass};
  split.small_mass(0, 0) = bilinear_mass;
  split.small_mass.block(1, 0, ns, 1) = small.with_bilinear;
  split.small_mass.block(0, 1, 1, ns) = small.with_bilinear.transpose();
  split.small_mass.block(1, 1, ns, ns).diagonal() = small.mass;
  split.coupling.row(0) = big.with_bilinear.transpose();
  for (Index n = 0; n < nb; ++n)
    for (Index m = 0; m < ns; ++m) {
      const double a = small.rate[m], b = big.rate[n], sum = a * a + b * b;
      split.coupling(m + 1, n) = 4.0 * a * b / (sum * sum);
    }
  return split;
}

// outputs (rows x unknowns) -> outputs * A^-1, A symmetric.
void apply_inverse(const Split& split, MatrixXd& out_small, MatrixXd& out_big) {
  const MatrixXd scaled = split.coupling * split.big_mass.cwiseInverse().asDiagonal();
  const MatrixXd schur = split.small_mass - scaled * split.coupling.transpose();
  out_small -= out_big * scaled.transpose();
  const Eigen::LLT<MatrixXd> factor(schur);
  out_small = factor.solve(out_small.transpose()).transpose().eval();
  out_big = out_big * split.big_mass.cwiseInverse().asDiagonal();
  out_big.noalias() -= out_small * scaled;
}

}  // namespace

Block make_block(const Direction& along_x, const Direction& along_y, int parity_x, int parity_y) {
  const Family fx = make_family(along_x, parity_x, along_y.length_m, parity_y);
  const Family fy = make_family(along_y, parity_y, along_x.length_m, parity_x);
  const Index mx = fx.rate.size(), my = fy.rate.size();
  const std::size_t half = along_x.half_edge();
  const double bilinear_mass =
      along_x.length_m * along_y.length_m / (parity_x == 0 ? 1.0 : 3.0) / (parity_y == 0 ? 1.0 : 3.0);

  // What each function is worth along the two half edges: those of the other direction vanish.
  const auto rows = static_cast<Index>(2 * half);
  MatrixXd bilinear(rows, 1), on_x = MatrixXd::Zero(rows, mx), on_y = MatrixXd::Zero(rows, my);
  for (std::size_t i = 0; i < half; ++i) {
    const auto top = static_cast<Index>(i), right = static_cast<Index>(half + i);
    bilinear(top, 0) = bilinear_at(along_x, i, parity_x);
    bilinear(right, 0) = bilinear_at(along_y, i, parity_y);
  }
  on_x.topRows(rows / 2) = modes_at_edge(fx, along_x);
  on_y.bottomRows(rows / 2) = modes_at_edge(fy, along_y);

  const bool x_small = mx <= my;
  const Split split = x_small ? make_split(fx, fy, bilinear_mass) : make_split(fy, fx, bilinear_mass);
  MatrixXd small(rows, 1 + (x_small ? mx : my));
  small << bilinear, (x_small ? on_x : on_y);
  MatrixXd big = x_small ? on_y : on_x;
  apply_inverse(split, small, big);

  Block block;
  block.parity_x = parity_x;
  block.parity_y = parity_y;
  block.trig_x = static_cast<std::size_t>(mx);
  block.trig_y = static_cast<std::size_t>(my);
  block.row_count = 2 * half;
  block.to_edge.resize(block.rows() * block.columns());
  Eigen::Map<MatrixXd> to_edge(block.to_edge.data(), rows, 1 + mx + my);
  to_edge.col(0) = small.col(0);
  to_edge.middleCols(1, mx) = x_small ? small.rightCols(mx) : big;
  to_edge.rightCols(my) = x_small ? big : small.rightCols(my);
  return block;
}

}  // namespace sunstrain::stress_detail
