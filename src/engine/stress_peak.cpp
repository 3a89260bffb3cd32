// The highest stress along the edges, between the reported points too.
#include <algorithm>
#include <cmath>
#include <limits>

#include "stress_shape.hpp"

namespace sunstrain {

namespace stress_detail {

namespace {

// Highest value that a curve concave around points 1 and 2 of four can take between them: where the chords of the
// neighboring intervals, drawn on, meet. It keeps the cubic from overshooting beside a jump.
double concave_bound(const double* x, const double* y, double at) {
  const double from_left = y[1] + (y[1] - y[0]) / (x[1] - x[0]) * (at - x[1]);
  const double from_right = y[2] + (y[3] - y[2]) / (x[3] - x[2]) * (at - x[2]);
  return std::min(from_left, from_right);
}

// The cubic through four points in Newton's form.
struct Cubic {
  double x0, x1, x2, c0, c1, c2, c3;
  Cubic(const double* x, const double* y) : x0(x[0]), x1(x[1]), x2(x[2]), c0(y[0]) {
    const double d01 = (y[1] - y[0]) / (x[1] - x[0]), d12 = (y[2] - y[1]) / (x[2] - x[1]),
                 d23 = (y[3] - y[2]) / (x[3] - x[2]);
    const double d012 = (d12 - d01) / (x[2] - x[0]), d123 = (d23 - d12) / (x[3] - x[1]);
    c1 = d01;
    c2 = d012;
    c3 = (d123 - d012) / (x[3] - x[0]);
  }
  double at(double x) const { return c0 + (x - x0) * (c1 + (x - x1) * (c2 + (x - x2) * c3)); }
};

}  // namespace

CurvePeak curve_peak(std::span<const double> position, std::span<const double> value, double near) {
  CurvePeak peak{0.0, -std::numeric_limits<double>::infinity()};
  const std::size_t n = value.size();
  for (std::size_t i = 0; i < n; ++i)
    if (value[i] > peak.value) peak = {position[i], value[i]};
  if (peak.value < near) return peak;
  for (std::size_t i = 1; i + 2 < n; ++i) {
    // Only where the curve is high and turns over: rising before, falling after.
    if (std::max(value[i], value[i + 1]) < near || value[i] < value[i - 1] || value[i + 1] < value[i + 2]) continue;
    const Cubic cubic(&position[i - 1], &value[i - 1]);
    for (int k = 1; k < 8; ++k) {
      const double at = position[i] + (position[i + 1] - position[i]) * k / 8.0;
      const double reached = std::min(cubic.at(at), concave_bound(&position[i - 1], &value[i - 1], at));
      if (reached > peak.value) peak = {at, reached};
    }
  }
  return peak;
}

}  // namespace stress_detail

EdgePeak EdgeStressSolver::Shape::peak(std::span<const double> stress_pa) const {
  const std::size_t n = 2 * half();
  double highest_point = stress_pa[0];
  for (double v : stress_pa) highest_point = std::max(highest_point, v);
  const double near = highest_point - 0.05 * std::abs(highest_point);
  EdgePeak highest{-std::numeric_limits<double>::infinity(), Side::bottom, 0.0};
  for (Side side : all_sides) {
    const auto s = static_cast<std::size_t>(side);
    const auto& position = side == Side::bottom || side == Side::top ? x.edge_points : y.edge_points;
    const stress_detail::CurvePeak peak = stress_detail::curve_peak(position, stress_pa.subspan(s * n, n), near);
    if (peak.value > highest.stress_pa) highest = {peak.value, side, peak.position};
  }
  return highest;
}

EdgeStress EdgeStressSolver::Shape::with_peak(std::span<const double> stress_pa) const {
  const std::size_t n = 2 * half();
  EdgeStress result;
  for (Side side : all_sides) {
    const auto s = static_cast<std::size_t>(side);
    result.position_m[s] = side == Side::bottom || side == Side::top ? x.edge_points : y.edge_points;
    result.stress_pa[s].assign(stress_pa.begin() + static_cast<std::ptrdiff_t>(s * n),
                               stress_pa.begin() + static_cast<std::ptrdiff_t>((s + 1) * n));
  }
  const EdgePeak highest = peak(stress_pa);
  result.peak_pa = highest.stress_pa;
  result.peak_side = highest.side;
  result.peak_position_m = highest.position_m;
  return result;
}

EdgePeak EdgeStressSolver::find_peak(std::span<const double> stress_pa) const { return shape_->peak(stress_pa); }

}  // namespace sunstrain
