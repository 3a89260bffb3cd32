#include "soft_steps.hpp"

#include <algorithm>
#include <cmath>

namespace sunstrain::internal {

SoftSteps::SoftSteps(std::span<const double> ascending_m, double softness_m)
    : softness_m_(softness_m), at_m_(ascending_m.begin(), ascending_m.end()) {
  for (std::size_t i = 0; i + 1 < at_m_.size(); ++i) fade_.push_back(std::exp(-(at_m_[i + 1] - at_m_[i]) / softness_m));
}

void SoftSteps::fill(double border_m, double* into) const {
  const std::size_t n = at_m_.size();
  const auto above = static_cast<std::size_t>(std::lower_bound(at_m_.begin(), at_m_.end(), border_m) - at_m_.begin());
  double half = above < n ? 0.5 * std::exp(-(at_m_[above] - border_m) / softness_m_) : 0.0;
  for (std::size_t i = above; i < n; ++i) {
    into[i] = 1.0 - half;
    if (i + 1 < n) half *= fade_[i];
  }
  half = above > 0 ? 0.5 * std::exp(-(border_m - at_m_[above - 1]) / softness_m_) : 0.0;
  for (std::size_t i = above; i-- > 0;) {
    into[i] = half;
    if (i > 0) half *= fade_[i - 1];
  }
}

SampledSteps::SampledSteps(std::span<const double> samples_m, std::size_t edge_points, double softness_m)
    : softness_m_(softness_m) {
  constexpr std::size_t rest = 4;
  const std::size_t nodes = samples_m.size() - edge_points - rest;
  nodes_ = SoftSteps(samples_m.first(nodes), softness_m);
  edge_ = SoftSteps(samples_m.subspan(nodes, edge_points), softness_m);
  rest_m_.assign(samples_m.end() - rest, samples_m.end());
}

void SampledSteps::fill(double border_m, double* into) const {
  nodes_.fill(border_m, into);
  edge_.fill(border_m, into += nodes_.size());
  into += edge_.size();
  for (double at_m : rest_m_) *into++ = soft_step(at_m, border_m, softness_m_);
}

std::vector<double> SampledSteps::light(double from_m, double to_m, double end_m) const {
  std::vector<double> light(nodes_.size() + edge_.size() + rest_m_.size(), 1.0);
  if (from_m > 0.0) fill(from_m, light.data());
  if (to_m >= end_m) return light;
  std::vector<double> falling(light.size());
  fill(to_m, falling.data());
  for (std::size_t i = 0; i < light.size(); ++i) light[i] -= falling[i];
  return light;
}

}  // namespace sunstrain::internal
