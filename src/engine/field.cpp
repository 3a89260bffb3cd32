#include "sunstrain/field.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "soft_steps.hpp"
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
  constexpr double none = 37.0;  // exp(-37) is under the last digit of 1
  const double d = (position_m - from_m) / smoothing_m;
  if (std::abs(d) > none) return d > 0.0 ? 1.0 : 0.0;
  return d >= 0.0 ? 1.0 - 0.5 * std::exp(-d) : 0.5 * std::exp(d);
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

SUNSTRAIN_WIDE_CLONES
void cut_rims(const double* up, const double* light, std::size_t points, std::size_t nodes, double* rims) {
  for (std::size_t k = 0; k < nodes; ++k, up += points, rims += points)
    for (std::size_t i = 0; i < points; ++i) rims[i] = (up[i] - 1.0) * light[i];
}

SUNSTRAIN_WIDE_CLONES
void add_first_to_others(std::size_t size, std::size_t nodes, double* profiles) {
  for (std::size_t k = 1; k < nodes; ++k)
    for (std::size_t i = 0; i < size; ++i) profiles[k * size + i] += profiles[i];
}

// The transforms of every node's ramp times the light along one side. A ramp is 1 but for a rim, so they are the
// light's own less those of the rims, which hold few points.
using Transform = void (EdgeStressSolver::*)(std::span<const double>, std::span<double>) const;
void lit_profiles(const EdgeStressSolver& solver, Transform transform, std::span<const double> light,
                  std::span<const double> up, std::size_t size, std::span<double> profiles) {
  const std::size_t points = light.size(), nodes = up.size() / points;
  stress_detail::Scratch rims((nodes - 1) * points);
  cut_rims(&up[points], light.data(), points, nodes - 1, rims.data());
  (solver.*transform)(light, profiles.first(size));
  (solver.*transform)({rims.data(), (nodes - 1) * points}, profiles.subspan(size));
  add_first_to_others(size, nodes, profiles.data());
}

// A strip's ramps under a light, made ready for products. Where the light covers the whole width, the ramps' own x
// profiles are right.
class LitRamps {
 public:
  LitRamps(const StripLight& light, const LitArea& lit) : ramps_(light.ramps) {
    const EdgeStressSolver& solver = *ramps_->solver;
    const double w = ramps_->width_m, h = ramps_->height_m;
    const double left = lit.everything ? 0.0 : lit.left_m, right = lit.everything ? w : lit.right_m;
    const double bottom = lit.everything ? 0.0 : lit.bottom_m, top = lit.everything ? h : lit.top_m;
    if (left > 0.0 || right < w) {
      x_ = room(solver.x_profile_size());
      lit_profiles(solver, &EdgeStressSolver::transform_x_batch, light.x.light(left, right, w), ramps_->x_up,
                   solver.x_profile_size(), {x_.get(), ramps_->depth_m.size() * solver.x_profile_size()});
    }
    y_ = room(solver.y_profile_size());
    lit_profiles(solver, &EdgeStressSolver::transform_y_batch, light.y.light(bottom, top, h), ramps_->y_up,
                 solver.y_profile_size(), {y_.get(), ramps_->depth_m.size() * solver.y_profile_size()});
  }
  EdgeStressSolver::Product product(std::size_t node, double amplitude_k) const {
    const std::size_t nx = ramps_->solver->x_profile_size(), ny = ramps_->solver->y_profile_size();
    const double* x = x_ ? x_.get() : ramps_->x_profiles.data();
    return {amplitude_k, {x + node * nx, nx}, {y_.get() + node * ny, ny}};
  }

 private:
  std::unique_ptr<double[]> room(std::size_t profile) const {
    return std::unique_ptr<double[]>(new double[ramps_->depth_m.size() * profile]);
  }
  const StripRamps* ramps_;
  std::unique_ptr<double[]> x_, y_;
};

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

StripLight::StripLight(const StripRamps& of, double softness_m)
    : ramps(&of),
      x(of.solver->x_sample_points(), static_cast<std::size_t>(of.solver->points_per_side()), softness_m),
      y(of.solver->y_sample_points(), static_cast<std::size_t>(of.solver->points_per_side()), softness_m) {}

void ramp_stress(const StripLight& light, const LitArea& lit, std::size_t first, std::span<double> stress_pa) {
  const LitRamps lit_ramps(light, lit);
  std::vector<EdgeStressSolver::Product> products;
  std::vector<std::size_t> starts{0};
  for (std::size_t k = first; k < light.ramps->depth_m.size(); ++k) {
    products.push_back(lit_ramps.product(k, 1.0));
    starts.push_back(products.size());
  }
  light.ramps->solver->solve_batch(products, starts, stress_pa);
}

void add_strip_stress(const StripLight& light, const LitArea& lit, std::span<const double> node_k,
                      std::span<double> stress_pa) {
  const LitRamps lit_ramps(light, lit);
  std::vector<EdgeStressSolver::Product> products;
  for (std::size_t k = 0; k < node_k.size(); ++k)
    products.push_back(lit_ramps.product(k, k == 0 ? node_k[0] : node_k[k] - node_k[k - 1]));
  stress_detail::Scratch stress(stress_pa.size());
  light.ramps->solver->solve_into(products, {stress.data(), stress_pa.size()});
  for (std::size_t i = 0; i < stress_pa.size(); ++i) stress_pa[i] += stress.data()[i];
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
    ramp_stress(StripLight(ramps, smoothing_m), lit, first, all.subspan(first * static_cast<std::size_t>(points)));
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

double colder_bottom_share(double y_m, double bite_m, double fading_m) {
  return std::exp(-std::max(0.0, y_m - bite_m) / fading_m);
}

std::vector<double> colder_bottom_stress_pa_per_k(const EdgeStressSolver& solver, double bite_m, double fading_m) {
  return product_stress(
      solver, [](double) { return 1.0; }, [=](double y) { return -colder_bottom_share(y, bite_m, fading_m); });
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
  for (const LightPart& part : light.parts) {
    for (double x : {part.lit.left_m, part.lit.right_m})
      if (x > 0 && x < w) features.along_x.push_back({x, smoothing_m});
    for (double y : {part.lit.bottom_m, part.lit.top_m})
      if (y > 0 && y < h) features.along_y.push_back({y, smoothing_m});
  }
  return features;
}

}  // namespace sunstrain
