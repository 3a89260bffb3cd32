#include "sunstrain/field.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "stress_kernels.hpp"

namespace sunstrain {
namespace {

using Matrix = Eigen::MatrixXd;

// 0 before `from`, 1 after `to`, linear between; measured from the nearer end of a side of length `end`.
double ramp(double position_m, double end_m, double from_m, double to_m) {
  const double d = std::min(position_m, end_m - position_m);
  return std::clamp((d - from_m) / (to_m - from_m), 0.0, 1.0);
}

// Makes equal to the last bit what mirror symmetry makes equal: the solver then knows the field as even and works half
// as much. Samples come as quadrature points, edge points, both ends, and a point just inside each.
void mirror(std::span<double> samples, std::size_t edge_points) {
  const std::size_t quadrature = samples.size() - edge_points - 4;
  std::size_t from = 0;
  for (std::size_t count : {quadrature, edge_points, std::size_t{2}, std::size_t{2}}) {
    for (std::size_t i = 0; 2 * i < count; ++i) samples[from + count - 1 - i] = samples[from + i];
    from += count;
  }
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
  constexpr double none = 40.0;  // exp(-40) is under the last digit of 1
  const double d = (position_m - from_m) / smoothing_m;
  if (std::abs(d) > none) return d > 0.0 ? 1.0 : 0.0;
  return d >= 0.0 ? 1.0 - 0.5 * std::exp(-d) : 0.5 * std::exp(d);
}

double lit_share(double position_m, double from_m, double to_m, double end_m, double smoothing_m) {
  const double rising = from_m <= 0.0 ? 1.0 : soft_step(position_m, from_m, smoothing_m);
  const double falling = to_m >= end_m ? 0.0 : soft_step(position_m, to_m, smoothing_m);
  return rising - falling;
}

StripRamps::StripRamps(const EdgeStressSolver& with, double w, double h, std::span<const double> depths)
    : solver(&with), width_m(w), height_m(h), depth_m(depths.begin(), depths.end()) {
  const auto sample = [&](std::span<const double> points, double end, std::vector<double>& up) {
    const auto edge_points = static_cast<std::size_t>(with.points_per_side());
    up.assign(points.size(), 1.0);
    for (std::size_t k = 1; k < depth_m.size(); ++k) {
      for (double position : points) up.push_back(ramp(position, end, depth_m[k - 1], depth_m[k]));
      mirror(std::span(up).last(points.size()), edge_points);
    }
  };
  sample(with.x_sample_points(), w, x_up);
  sample(with.y_sample_points(), h, y_up);
  x_profiles.resize(depth_m.size() * with.x_profile_size());
  with.transform_x_batch(x_up, x_profiles);
}

namespace {

// The transforms of every node's ramp times the light along one side. A ramp is 1 but for a rim, so they are the
// light's own less those of the rims, which hold few points.
using Transform = void (EdgeStressSolver::*)(std::span<const double>, std::span<double>) const;
std::vector<double> lit_profiles(const EdgeStressSolver& solver, Transform transform, std::span<const double> light,
                                 std::span<const double> up, std::size_t size) {
  const std::size_t points = light.size(), nodes = up.size() / points;
  stress_detail::Scratch rims((nodes - 1) * points);
  for (std::size_t k = 1; k < nodes; ++k)
    for (std::size_t i = 0; i < points; ++i) rims.data()[(k - 1) * points + i] = (up[k * points + i] - 1.0) * light[i];
  std::vector<double> profiles(nodes * size);
  (solver.*transform)(light, std::span(profiles).first(size));
  (solver.*transform)({rims.data(), (nodes - 1) * points}, std::span(profiles).subspan(size));
  for (std::size_t k = 1; k < nodes; ++k)
    for (std::size_t i = 0; i < size; ++i) profiles[k * size + i] += profiles[i];
  return profiles;
}

std::vector<double> light_at(std::span<const double> points, double from_m, double to_m, double end_m,
                             double smoothing_m) {
  std::vector<double> light;
  light.reserve(points.size());
  for (double position_m : points) light.push_back(lit_share(position_m, from_m, to_m, end_m, smoothing_m));
  return light;
}

// A strip's ramps under a light, made ready for products. x is empty where the light covers the whole width: the ramps'
// own are right then.
struct LitProfiles {
  std::vector<double> x, y;
};
LitProfiles lit_profiles_of(const StripRamps& ramps, const LitArea& lit, double smoothing_m) {
  const EdgeStressSolver& solver = *ramps.solver;
  const double w = ramps.width_m, h = ramps.height_m;
  const double left = lit.everything ? 0.0 : lit.left_m, right = lit.everything ? w : lit.right_m;
  const double bottom = lit.everything ? 0.0 : lit.bottom_m, top = lit.everything ? h : lit.top_m;
  LitProfiles made;
  if (left > 0.0 || right < w) {
    made.x = lit_profiles(solver, &EdgeStressSolver::transform_x_batch,
                          light_at(solver.x_sample_points(), left, right, w, smoothing_m), ramps.x_up,
                          solver.x_profile_size());
  }
  made.y = lit_profiles(solver, &EdgeStressSolver::transform_y_batch,
                        light_at(solver.y_sample_points(), bottom, top, h, smoothing_m), ramps.y_up,
                        solver.y_profile_size());
  return made;
}

void diagonal_columns(const StripRamps& ramps, double smoothing_m, Matrix& columns) {
  const double w = ramps.width_m, h = ramps.height_m;
  const auto& depth = ramps.depth_m;
  for (std::size_t k = 0; k < depth.size(); ++k) {
    const auto up = [&](double position, double end) {
      return k == 0 ? 1.0 : ramp(position, end, depth[k - 1], depth[k]);
    };
    put_column(columns, static_cast<Eigen::Index>(k), general_stress(*ramps.solver, [&](double x, double y) {
                 return up(x, w) * up(y, h) * below_diagonal(x, y, w, h, smoothing_m);
               }));
  }
}

}  // namespace

void ramp_stress(const StripRamps& ramps, const LitArea& lit, double smoothing_m, std::size_t first,
                 std::span<double> stress_pa) {
  const EdgeStressSolver& solver = *ramps.solver;
  const LitProfiles made = lit_profiles_of(ramps, lit, smoothing_m);
  const std::span<const double> x(made.x.empty() ? ramps.x_profiles : made.x), y(made.y);
  const std::size_t nx = solver.x_profile_size(), ny = solver.y_profile_size();
  std::vector<EdgeStressSolver::Product> products;
  std::vector<std::size_t> starts{0};
  for (std::size_t k = first; k < ramps.depth_m.size(); ++k) {
    products.push_back({1.0, x.subspan(k * nx, nx), y.subspan(k * ny, ny)});
    starts.push_back(products.size());
  }
  solver.solve_batch(products, starts, stress_pa);
}

namespace {

// A strip with all its light mirrors itself along both directions: half the bottom and half the right side tell all.
Matrix quarter_of(const Matrix& columns) {
  const Eigen::Index side = columns.rows() / 4, half = side / 2;
  Matrix quarter(side, columns.cols());
  quarter << columns.topRows(half), columns.middleRows(side, half);
  return quarter;
}

void add_quarter(std::span<const double> quarter, std::span<double> whole) {
  const std::size_t side = quarter.size(), half = side / 2;
  for (std::size_t first : {std::size_t{0}, side, 2 * side, 3 * side}) {
    const double* from = &quarter[first % (2 * side) == 0 ? 0 : half];
    for (std::size_t i = 0; i < half; ++i) whole[first + i] += from[i];
    for (std::size_t i = 0; i < half; ++i) whole[first + side - 1 - i] += from[i];
  }
}

}  // namespace

struct StripStress::Impl {
  bool mirrored;                // the columns tell a quarter of the edge
  Matrix columns;               // points x nodes: per K at the cut edge, then per K of each step of the strip
  Eigen::VectorXd most, least;  // of each column over the points
};

StripStress::StripStress(const StripRamps& ramps, const LitArea& lit, double smoothing_m) {
  auto impl = std::make_shared<Impl>();
  const auto points = static_cast<Eigen::Index>(4 * ramps.solver->points_per_side());
  impl->columns.resize(points, static_cast<Eigen::Index>(ramps.depth_m.size()));
  if (lit.everything || lit.nothing) impl->columns.setZero();
  if (lit.diagonal) {
    diagonal_columns(ramps, smoothing_m, impl->columns);
  } else if (!lit.nothing) {
    const std::size_t first = lit.everything ? 1 : 0;  // a constant has no stress
    const std::span<double> all(impl->columns.data(), static_cast<std::size_t>(impl->columns.size()));
    ramp_stress(ramps, lit, smoothing_m, first, all.subspan(first * static_cast<std::size_t>(points)));
  }
  impl->mirrored = lit.everything;
  if (impl->mirrored) impl->columns = quarter_of(impl->columns);
  impl->most = impl->columns.colwise().maxCoeff();
  impl->least = impl->columns.colwise().minCoeff();
  impl_ = std::move(impl);
}

void StripStress::add(std::span<const double> strip_k, std::span<double> stress_pa) const {
  std::vector<double> rise_k(strip_k.begin(), strip_k.end());
  for (std::size_t k = rise_k.size(); k-- > 1;) rise_k[k] -= rise_k[k - 1];
  const std::size_t rows = static_cast<std::size_t>(impl_->columns.rows());
  if (!impl_->mirrored) {
    stress_detail::multiply_add(impl_->columns.data(), rise_k.data(), rows, rise_k.size(), stress_pa.data());
    return;
  }
  stress_detail::Scratch quarter(rows);
  std::fill_n(quarter.data(), rows, 0.0);
  stress_detail::multiply_add(impl_->columns.data(), rise_k.data(), rows, rise_k.size(), quarter.data());
  add_quarter({quarter.data(), rows}, stress_pa);
}

double StripStress::highest_possible_pa(std::span<const double> strip_k) const {
  return stress_detail::highest_sum(strip_k.data(), impl_->least.data(), impl_->most.data(), strip_k.size());
}

std::vector<double> colder_bottom_stress_pa_per_k(const EdgeStressSolver& solver, double bite_m, double fading_m) {
  return product_stress(
      solver, [](double) { return 1.0; },
      [=](double y) { return y <= bite_m ? -1.0 : -std::exp(-(y - bite_m) / fading_m); });
}

FieldFeatures field_features(double w, double h, double bite_m, const ShadowPlan& plan, double smoothing_m) {
  constexpr double sightline_m = 0.010;  // half-waves that hold the strip's bend to 0.3 % of the peak, see theory.md
  FieldFeatures features{{{bite_m, sightline_m}, {w - bite_m, sightline_m}},
                         {{bite_m, sightline_m}, {h - bite_m, sightline_m}},
                         plan.mirrored_in_x()};
  const Light light = light_of(plan, w - 2 * bite_m, h - 2 * bite_m, bite_m, {0.0, 0.0, false});
  const bool diagonal = plan.pattern == ShadowPlan::Pattern::diagonal;
  if (diagonal || plan.moves()) {  // the border may lie anywhere
    features.along_x.push_back({0.5 * w, smoothing_m, 0.5 * w});
    features.along_y.push_back({0.5 * h, smoothing_m, 0.5 * h});
    return features;
  }
  for (const auto& [lit, share] : light.parts) {
    for (double x : {lit.left_m, lit.right_m})
      if (x > 0 && x < w) features.along_x.push_back({x, smoothing_m});
    for (double y : {lit.bottom_m, lit.top_m})
      if (y > 0 && y < h) features.along_y.push_back({y, smoothing_m});
  }
  return features;
}

}  // namespace sunstrain
