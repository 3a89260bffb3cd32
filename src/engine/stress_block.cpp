#include "stress_block.hpp"

#include <Eigen/Dense>
#include <cmath>
#include <numbers>

#include "stress_kernels.hpp"

namespace sunstrain::stress_detail {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr std::size_t up(Index n) { return static_cast<std::size_t>(n); }

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

void add_product(const MatrixXd& a, const MatrixXd& b, MatrixXd& sum) {
  multiply_add_many(a.data(), b.data(), up(b.rows()), up(a.rows()), up(a.cols()), up(b.cols()), sum.data(),
                    up(a.rows()));
}

// outputs (rows x unknowns) -> outputs * A^-1, A symmetric.
void apply_inverse(const Split& split, MatrixXd& out_small, MatrixXd& out_big) {
  const MatrixXd scaled = -split.coupling * split.big_mass.cwiseInverse().asDiagonal();
  MatrixXd schur = split.small_mass;
  add_product(scaled, split.coupling.transpose(), schur);
  add_product(out_big, scaled.transpose(), out_small);
  out_small = Eigen::LLT<MatrixXd>(schur).solve(out_small.transpose()).transpose().eval();
  out_big = out_big * split.big_mass.cwiseInverse().asDiagonal();
  add_product(out_small, scaled, out_big);
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
  on_x.topRows(rows / 2) = Eigen::Map<const MatrixXd>(along_x.edge_modes[up(parity_x)].data(), rows / 2, mx);
  on_y.bottomRows(rows / 2) = Eigen::Map<const MatrixXd>(along_y.edge_modes[up(parity_y)].data(), rows / 2, my);

  const bool x_small = mx <= my;
  const Split split = x_small ? make_split(fx, fy, bilinear_mass) : make_split(fy, fx, bilinear_mass);
  MatrixXd small(rows, 1 + (x_small ? mx : my));
  small << bilinear, (x_small ? on_x : on_y);
  MatrixXd big = x_small ? on_y : on_x;
  apply_inverse(split, small, big);

  Block block;
  block.parity_x = parity_x;
  block.parity_y = parity_y;
  block.trig_x = up(mx);
  block.trig_y = up(my);
  block.row_count = 2 * half;
  block.to_edge.resize(block.rows() * block.columns());
  Eigen::Map<MatrixXd> to_edge(block.to_edge.data(), rows, 1 + mx + my);
  to_edge.col(0) = small.col(0);
  to_edge.middleCols(1, mx) = x_small ? small.rightCols(mx) : big;
  to_edge.rightCols(my) = x_small ? big : small.rightCols(my);
  return block;
}

}  // namespace sunstrain::stress_detail
