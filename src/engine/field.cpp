#include "sunstrain/field.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

namespace sunstrain {
namespace {

using Matrix = Eigen::MatrixXd;

// 0 before `from`, 1 after `to`, linear between; measured from the nearer end of a side of length `end`.
double ramp(double position_m, double end_m, double from_m, double to_m) {
  const double d = std::min(position_m, end_m - position_m);
  return std::clamp((d - from_m) / (to_m - from_m), 0.0, 1.0);
}

// One product field's stress at all edge points.
std::vector<double> product_stress(const EdgeStressSolver& solver, const std::function<double(double)>& x,
                                   const std::function<double(double)>& y) {
  const auto px = solver.transform_x(solver.sample_x(x)), py = solver.transform_y(solver.sample_y(y));
  const EdgeStressSolver::Product product{1.0, px.data, py.data};
  std::vector<double> stress(4 * static_cast<std::size_t>(solver.points_per_side()));
  solver.solve_into({&product, 1}, stress);
  return stress;
}

std::vector<double> general_stress(const EdgeStressSolver& solver, const std::function<double(double, double)>& field) {
  const EdgeStress result = solver.solve_general(field);
  std::vector<double> stress;
  for (const auto& side : result.stress_pa) stress.insert(stress.end(), side.begin(), side.end());
  return stress;
}

void put_column(Matrix& matrix, Eigen::Index column, const std::vector<double>& values) {
  matrix.col(column) = Eigen::Map<const Eigen::VectorXd>(values.data(), static_cast<Eigen::Index>(values.size()));
}

// Below the diagonal from top left to bottom right: signed distance to it, softened.
double below_diagonal(double x, double y, double w, double h, double smoothing_m) {
  const double distance_m = (1.0 - x / w - y / h) / std::hypot(1.0 / w, 1.0 / h);
  return soft_step(distance_m, 0.0, smoothing_m);
}

}  // namespace

double soft_step(double position_m, double from_m, double smoothing_m) {
  const double d = (position_m - from_m) / smoothing_m;
  return d >= 0.0 ? 1.0 - 0.5 * std::exp(-d) : 0.5 * std::exp(d);
}

double lit_share(double position_m, double from_m, double to_m, double end_m, double smoothing_m) {
  const double rising = from_m <= 0.0 ? 1.0 : soft_step(position_m, from_m, smoothing_m);
  const double falling = to_m >= end_m ? 0.0 : soft_step(position_m, to_m, smoothing_m);
  return rising - falling;
}

struct StressMap::Impl {
  Matrix unmasked;  // points x (cells - 1): per K of each step of the strip, over the whole pane
  Matrix masked;    // points x cells: the lit difference; column 0 for its value at the cut edge
  std::size_t cells = 0;
};

StressMap::StressMap(const EdgeStressSolver& solver, double w, double h, std::span<const double> depth_m,
                     const LitArea& lit, double smoothing_m) {
  auto impl = std::make_shared<Impl>();
  impl->cells = depth_m.size();
  const auto steps = static_cast<Eigen::Index>(depth_m.size()) - 1;
  const auto points = static_cast<Eigen::Index>(4 * solver.points_per_side());
  impl->unmasked.resize(points, steps);
  const auto x_ramp = [&](std::size_t k) { return [=](double x) { return ramp(x, w, depth_m[k], depth_m[k + 1]); }; };
  const auto y_ramp = [&](std::size_t k) { return [=](double y) { return ramp(y, h, depth_m[k], depth_m[k + 1]); }; };
  for (Eigen::Index k = 0; k < steps; ++k) {
    const auto cell = static_cast<std::size_t>(k);
    put_column(impl->unmasked, k, product_stress(solver, x_ramp(cell), y_ramp(cell)));
  }
  if (!lit.everything && !lit.nothing) {
    impl->masked.resize(points, steps + 1);
    const auto lit_x = [&](double x) { return lit_share(x, lit.left_m, lit.right_m, w, smoothing_m); };
    const auto lit_y = [&](double y) { return lit_share(y, lit.bottom_m, lit.top_m, h, smoothing_m); };
    for (Eigen::Index k = -1; k < steps; ++k) {
      const auto cell = static_cast<std::size_t>(std::max<Eigen::Index>(k, 0));
      const auto rx = [&](double x) { return k < 0 ? 1.0 : x_ramp(cell)(x); };
      const auto ry = [&](double y) { return k < 0 ? 1.0 : y_ramp(cell)(y); };
      const auto column =
          lit.diagonal ? general_stress(solver, [&](double x, double y) {
            return rx(x) * ry(y) * below_diagonal(x, y, w, h, smoothing_m); })
                       : product_stress(solver, [&](double x) { return rx(x) * lit_x(x); },
                                        [&](double y) { return ry(y) * lit_y(y); });
      put_column(impl->masked, k + 1, column);
    }
  }
  impl_ = std::move(impl);
}

void StressMap::stress(std::span<const double> shaded_k, std::span<const double> lit_k, std::size_t steps,
                       std::vector<double>& stress_pa) const {
  const auto cells = static_cast<Eigen::Index>(impl_->cells), columns = static_cast<Eigen::Index>(steps);
  const bool split = impl_->masked.cols() > 0;
  const Eigen::Map<const Matrix> lit(lit_k.data(), cells, columns);
  const Eigen::Map<const Matrix> base(split || lit_k.empty() ? shaded_k.data() : lit_k.data(), cells, columns);
  stress_pa.resize(static_cast<std::size_t>(impl_->unmasked.rows()) * steps);
  Eigen::Map<Matrix> result(stress_pa.data(), impl_->unmasked.rows(), columns);
  result.noalias() = impl_->unmasked * (base.bottomRows(cells - 1) - base.topRows(cells - 1));
  if (!split) return;
  const Matrix difference = lit - base;
  Matrix steps_of_difference(cells, columns);
  steps_of_difference.row(0) = difference.row(0);
  steps_of_difference.bottomRows(cells - 1) = difference.bottomRows(cells - 1) - difference.topRows(cells - 1);
  result.noalias() += impl_->masked * steps_of_difference;
}

void add_moving_shadow(const EdgeStressSolver& solver, double w, double h, std::span<const double> depth_m,
                       std::span<const double> shaded_k, std::span<const double> lit_k, const LitArea& lit,
                       double smoothing_m, std::span<double> stress_pa) {
  const std::size_t cells = depth_m.size();
  const double at_edge = lit_k[0] - shaded_k[0], at_middle = lit_k[cells - 1] - shaded_k[cells - 1];
  const double rise = at_middle - at_edge;
  const auto profile = [&](double position_m, double end_m) {
    const double d = std::min(position_m, end_m - position_m);
    const auto above = static_cast<std::size_t>(std::upper_bound(depth_m.begin(), depth_m.end(), d) - depth_m.begin());
    double q = at_edge;
    if (above == cells) q = at_middle;
    else if (above > 0) {
      const double share = (d - depth_m[above - 1]) / (depth_m[above] - depth_m[above - 1]);
      q = (1 - share) * (lit_k[above - 1] - shaded_k[above - 1]) + share * (lit_k[above] - shaded_k[above]);
    }
    return std::abs(rise) < 1e-12 ? 0.0 : (q - at_edge) / rise;
  };
  const auto lit_x = [&](double x) { return lit_share(x, lit.left_m, lit.right_m, w, smoothing_m); };
  const auto lit_y = [&](double y) { return lit_share(y, lit.bottom_m, lit.top_m, h, smoothing_m); };
  const auto mx = solver.transform_x(solver.sample_x(lit_x)), my = solver.transform_y(solver.sample_y(lit_y));
  const auto gx = solver.transform_x(solver.sample_x([&](double x) { return profile(x, w) * lit_x(x); }));
  const auto gy = solver.transform_y(solver.sample_y([&](double y) { return profile(y, h) * lit_y(y); }));
  const EdgeStressSolver::Product products[]{{at_edge, mx.data, my.data}, {rise, gx.data, gy.data}};
  std::vector<double> added(stress_pa.size());
  solver.solve_into(products, added);
  for (std::size_t i = 0; i < added.size(); ++i) stress_pa[i] += added[i];
}

std::vector<double> colder_bottom_stress_pa_per_k(const EdgeStressSolver& solver, double bite_m, double fading_m) {
  return product_stress(solver, [](double) { return 1.0; },
                        [=](double y) { return y <= bite_m ? -1.0 : -std::exp(-(y - bite_m) / fading_m); });
}

FieldFeatures field_features(double w, double h, double bite_m, const ShadowPlan& plan, double smoothing_m) {
  constexpr double sightline_m = 0.010;  // half-waves that hold the strip's bend to 0.3 % of the peak, see theory.md
  FieldFeatures features{{{bite_m, sightline_m}, {w - bite_m, sightline_m}}, {{bite_m, sightline_m}, {h - bite_m, sightline_m}}};
  const LitArea lit = lit_area(plan, w - 2 * bite_m, h - 2 * bite_m, bite_m, {0.0, 0.0, false});
  if (lit.diagonal || plan.moves()) {  // the border may lie anywhere
    for (double x = bite_m; x < w; x += 2 * smoothing_m) features.along_x.push_back({x, smoothing_m});
    for (double y = bite_m; y < h; y += 2 * smoothing_m) features.along_y.push_back({y, smoothing_m});
    return features;
  }
  for (double x : {lit.left_m, lit.right_m}) if (!lit.everything && x > 0 && x < w) features.along_x.push_back({x, smoothing_m});
  for (double y : {lit.bottom_m, lit.top_m}) if (!lit.everything && y > 0 && y < h) features.along_y.push_back({y, smoothing_m});
  return features;
}

}  // namespace sunstrain
