// Setting up the edge-stress solver of a pane shape, and its way in for sampled profiles and plain functions.
#include "sunstrain/stress.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "stress_shape.hpp"

namespace sunstrain {

using namespace stress_detail;

namespace {

constexpr int most_modes = 2400;  // a direction; beyond this the set-up takes seconds
constexpr int fewest_modes = 24;  // along the shorter side: the corners need them however smooth the field

void require(bool good, const char* what, double value, const char* allowed) {
  if (!good) throw std::invalid_argument(std::string(what) + " = " + std::to_string(value) + ": must be " + allowed);
}

// The sharpest width of both directions; 20 mm, the scale of the strip behind a sightline, if none is given.
double finest_width(const FieldFeatures& features) {
  double finest = 0.0;
  for (const auto* list : {&features.along_x, &features.along_y})
    for (const Feature& f : *list) {
      require(f.width_m >= 0.001 && f.width_m <= 100.0, "feature width_m", f.width_m, "0.001 to 100");
      require(std::isfinite(f.position_m), "feature position_m", f.position_m, "finite");
      require(f.reach_m >= 0.0 && f.reach_m <= 100.0, "feature reach_m", f.reach_m, "0 to 100");
      finest = finest == 0.0 ? f.width_m : std::min(finest, f.width_m);
    }
  return finest == 0.0 ? 0.02 : finest;
}

// Half a wave of the last mode is no longer than the sharpest change.
int mode_count(double length_m, double shorter_m, double half_wave_m) {
  return static_cast<int>(std::ceil(length_m / std::min(half_wave_m, shorter_m / fewest_modes)));
}

std::vector<double> sample(const std::vector<double>& points, const std::function<double(double)>& profile) {
  std::vector<double> values(points.size());
  std::transform(points.begin(), points.end(), values.begin(), profile);
  return values;
}

void require_size(std::size_t have, std::size_t want, const char* what) {
  if (have != want)
    throw std::invalid_argument(std::string(what) + ": " + std::to_string(have) + " values, must be " +
                                std::to_string(want));
}

void transform_all(const Direction& direction, std::span<const double> samples, std::span<double> into) {
  const std::size_t each = direction.sample_points.size(), size = direction.layout.size, count = samples.size() / each;
  require_size(samples.size(), count * each, "samples");
  require_size(into.size(), count * size, "transforms");
  for (std::size_t i = 0; i < count; i += 4) {
    const std::size_t many = std::min<std::size_t>(4, count - i);
    transform(direction, many, samples.subspan(i * each, many * each), into.subspan(i * size, many * size));
  }
}

}  // namespace

EdgeStressSolver::EdgeStressSolver(double width_m, double height_m, const FieldFeatures& features,
                                   PaneElasticity elasticity, int points_per_side, StressResolution resolution) {
  require(width_m >= 0.05 && width_m <= 12.0, "width_m", width_m, "0.05 to 12");
  require(height_m >= 0.05 && height_m <= 12.0, "height_m", height_m, "0.05 to 12");
  require(points_per_side >= 8 && points_per_side <= 4096 && points_per_side % 2 == 0, "points_per_side",
          points_per_side, "even, 8 to 4096");
  require(std::isfinite(elasticity.young_pa), "young_pa", elasticity.young_pa, "finite");
  require(std::isfinite(elasticity.expansion_per_k), "expansion_per_k", elasticity.expansion_per_k, "finite");
  require(resolution.half_waves_per_width > 0.0 && resolution.half_waves_per_width <= 100.0, "half_waves_per_width",
          resolution.half_waves_per_width, "over 0, to 100");
  require(resolution.panel_per_width >= 0.05 && resolution.panel_per_width <= 100.0, "panel_per_width",
          resolution.panel_per_width, "0.05 to 100");
  const double finest = finest_width(features), shorter = std::min(width_m, height_m);
  const double half_wave = finest / resolution.half_waves_per_width;
  const int modes_x = mode_count(width_m, shorter, half_wave), modes_y = mode_count(height_m, shorter, half_wave);
  require(std::max(modes_x, modes_y) <= most_modes, "feature width_m", finest,
          "at least the longer side of the pane / 2400");

  auto shape = std::make_unique<Shape>();
  shape->x = make_direction(width_m, height_m, modes_x, modes_y, features.along_x, finest, resolution.panel_per_width,
                            points_per_side, features.mirrored_in_x ? 1 : 2);
  shape->y = make_direction(height_m, width_m, modes_y, modes_x, features.along_y, finest, resolution.panel_per_width,
                            points_per_side, 2);
  shape->stress_per_k = elasticity.young_pa * elasticity.expansion_per_k;
  shape->points_per_side = points_per_side;
  for (std::size_t b = 0; b < 4; ++b) {
    if (features.mirrored_in_x && b % 2 == 1) continue;
    shape->blocks[b] = make_block(shape->x, shape->y, static_cast<int>(b % 2), static_cast<int>(b / 2));
    shape->most_columns = std::max(shape->most_columns, shape->blocks[b].columns());
  }
  shape_ = std::move(shape);
}

EdgeStressSolver::~EdgeStressSolver() = default;
EdgeStressSolver::EdgeStressSolver(EdgeStressSolver&&) noexcept = default;
EdgeStressSolver& EdgeStressSolver::operator=(EdgeStressSolver&&) noexcept = default;

std::span<const double> EdgeStressSolver::x_sample_points() const { return shape_->x.sample_points; }
std::span<const double> EdgeStressSolver::y_sample_points() const { return shape_->y.sample_points; }
std::span<const double> EdgeStressSolver::x_edge_points() const { return shape_->x.edge_points; }
std::span<const double> EdgeStressSolver::y_edge_points() const { return shape_->y.edge_points; }
std::size_t EdgeStressSolver::x_sample_size() const { return shape_->x.sample_points.size(); }
std::size_t EdgeStressSolver::y_sample_size() const { return shape_->y.sample_points.size(); }
std::size_t EdgeStressSolver::x_profile_size() const { return shape_->x.layout.size; }
std::size_t EdgeStressSolver::y_profile_size() const { return shape_->y.layout.size; }
int EdgeStressSolver::modes_x() const { return shape_->x.modes; }
int EdgeStressSolver::modes_y() const { return shape_->y.modes; }
int EdgeStressSolver::points_per_side() const { return shape_->points_per_side; }

std::vector<double> EdgeStressSolver::sample_x(const std::function<double(double)>& profile) const {
  return sample(shape_->x.sample_points, profile);
}

std::vector<double> EdgeStressSolver::sample_y(const std::function<double(double)>& profile) const {
  return sample(shape_->y.sample_points, profile);
}

void EdgeStressSolver::transform_x_batch(std::span<const double> samples, std::span<double> into) const {
  transform_all(shape_->x, samples, into);
}

void EdgeStressSolver::transform_y_batch(std::span<const double> samples, std::span<double> into) const {
  transform_all(shape_->y, samples, into);
}

EdgeStressSolver::Profile EdgeStressSolver::transform_x(std::span<const double> x_samples) const {
  require_size(x_samples.size(), x_sample_size(), "x_samples");
  Profile profile{std::vector<double>(x_profile_size())};
  transform_x_batch(x_samples, profile.data);
  return profile;
}

EdgeStressSolver::Profile EdgeStressSolver::transform_y(std::span<const double> y_samples) const {
  require_size(y_samples.size(), y_sample_size(), "y_samples");
  Profile profile{std::vector<double>(y_profile_size())};
  transform_y_batch(y_samples, profile.data);
  return profile;
}

EdgeStress EdgeStressSolver::solve(std::span<const SampledProduct> products) const {
  std::vector<Profile> profiles;
  std::vector<Product> ready;
  profiles.reserve(2 * products.size());
  for (const SampledProduct& p : products) {
    const Profile& x = profiles.emplace_back(transform_x(p.x_samples));
    const Profile& y = profiles.emplace_back(transform_y(p.y_samples));
    ready.push_back({p.amplitude_k, x.data, y.data});
  }
  return solve(std::span<const Product>(ready));
}

EdgeStress EdgeStressSolver::solve(std::span<const ProductTerm> terms) const {
  std::vector<std::vector<double>> samples;
  std::vector<SampledProduct> sampled;
  samples.reserve(2 * terms.size());
  for (const ProductTerm& t : terms) {
    const auto& x = samples.emplace_back(sample_x(t.x_profile));
    const auto& y = samples.emplace_back(sample_y(t.y_profile));
    sampled.push_back({t.amplitude_k, x, y});
  }
  return solve(std::span<const SampledProduct>(sampled));
}

}  // namespace sunstrain
