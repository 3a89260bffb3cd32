// The highest stress along the edges, between the reported points too.
#include <algorithm>
#include <cmath>
#include <limits>

#include "stress_shape.hpp"

namespace sunstrain {

namespace stress_detail {

namespace {

// Highest value that a curve concave around points a < b, in which b or a is the highest sample, can take
// between them: where the chords of the neighboring intervals, drawn on, meet.
double concave_bound(const double* x, const double* y, double at) {
  const double from_left = y[1] + (y[1] - y[0]) / (x[1] - x[0]) * (at - x[1]);
  const double from_right = y[2] + (y[3] - y[2]) / (x[3] - x[2]) * (at - x[2]);
  return std::min(from_left, from_right);
}

double cubic_through(const double* x, const double* y, double at) {
  double sum = 0.0;
  for (int k = 0; k < 4; ++k) {
    double term = y[k];
    for (int j = 0; j < 4; ++j)
      if (j != k) term *= (at - x[j]) / (x[k] - x[j]);
    sum += term;
  }
  return sum;
}

}  // namespace

CurvePeak curve_peak(std::span<const double> position, std::span<const double> value) {
  const std::size_t n = value.size();
  const auto highest = static_cast<std::size_t>(std::ranges::max_element(value) - value.begin());
  CurvePeak peak{position[highest], value[highest]};
  const double near = peak.value - 0.05 * std::abs(peak.value);
  for (std::size_t i = 1; i + 2 < n; ++i) {
    if (std::max(value[i], value[i + 1]) < near) continue;
    // Only where the curve turns over: rising before, falling after.
    if (value[i] < value[i - 1] || value[i + 1] < value[i + 2]) continue;
    for (int k = 1; k < 8; ++k) {
      const double at = position[i] + (position[i + 1] - position[i]) * k / 8.0;
      const double reached = std::min(cubic_through(&position[i - 1], &value[i - 1], at),
                                      concave_bound(&position[i - 1], &value[i - 1], at));
      if (reached > peak.value) peak = {at, reached};
    }
  }
  return peak;
}

}  // namespace stress_detail

EdgePeak EdgeStressSolver::Shape::peak(std::span<const double> stress_pa) const {
  const std::size_t n = 2 * half();
  EdgePeak highest{-std::numeric_limits<double>::infinity(), Side::bottom, 0.0};
  for (Side side : all_sides) {
    const auto s = static_cast<std::size_t>(side);
    const bool along_x = side == Side::bottom || side == Side::top;
    const auto peak = stress_detail::curve_peak(along_x ? x.edge_points : y.edge_points, stress_pa.subspan(s * n, n));
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
