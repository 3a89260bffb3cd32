// From sun and sky to the pane: incidence, irradiance and where projections throw their shadow.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "sunstrain/sun.hpp"

namespace sunstrain {
namespace {

using std::numbers::pi;

// The rays arrive from the apparent sun, so every angle at the pane is taken to that.
double cos_incidence_vertical(const SunPosition& sun, double facing_rad) {
  return std::cos(sun.apparent_elevation_rad) * std::cos(sun.azimuth_rad - facing_rad);
}

// Diffuse on a vertical surface to diffuse on the horizontal, under a clear sky.
double sky_ratio_vertical(double cos_theta) {
  return std::max(0.45, 0.55 + 0.437 * cos_theta + 0.313 * cos_theta * cos_theta);
}

}  // namespace

double cos_incidence(const SunPosition& sun, double tilt_rad, double facing_rad) {
  return std::cos(tilt_rad) * std::sin(sun.apparent_elevation_rad) +
         std::sin(tilt_rad) * cos_incidence_vertical(sun, facing_rad);
}

PaneIrradiance on_pane(const ClearSky& sky, const SunPosition& sun, double tilt_rad, double facing_rad,
                       double ground_reflectance) {
  if (!(tilt_rad >= 0.0 && tilt_rad <= pi)) {
    throw std::invalid_argument("pane tilt must be 0 to pi, not " + std::to_string(tilt_rad));
  }
  if (!std::isfinite(facing_rad)) throw std::invalid_argument("pane facing must be a finite angle");
  if (!(ground_reflectance >= 0.0 && ground_reflectance <= 1.0)) {
    throw std::invalid_argument("ground reflectance must be 0 to 1, not " + std::to_string(ground_reflectance));
  }
  const double cos_vertical = cos_incidence_vertical(sun, facing_rad),
               sin_elevation = std::sin(sun.apparent_elevation_rad);
  const double cos_tilt = std::cos(tilt_rad), sin_tilt = std::sin(tilt_rad);
  const double cos_theta = cos_tilt * sin_elevation + sin_tilt * cos_vertical;
  // On a slope too, Y is that of the vertical surface with the same facing; a surface that looks
  // down sees no zenith, hence no cosine term.
  const double y = sky_ratio_vertical(cos_vertical);
  const double sky_part = sky.diffuse_horizontal_w_m2 * (y * sin_tilt + std::max(0.0, cos_tilt));
  const double global_horizontal = sky.beam_normal_w_m2 * std::max(0.0, sin_elevation) + sky.diffuse_horizontal_w_m2;
  return {sky.beam_normal_w_m2 * std::max(0.0, cos_theta), sky_part,
          0.5 * ground_reflectance * global_horizontal * (1.0 - cos_tilt), cos_theta};
}

ShadowSlope shadow_slope(const SunPosition& sun, double facing_rad) {
  // Positive toward the right hand of someone outdoors who faces the pane: for a pane facing south
  // (facing pi) that is east, where the azimuth is less than the pane's.
  if (sun.apparent_elevation_rad <= 0.0) return {0.0, 0.0, false};
  const double gamma = facing_rad - sun.azimuth_rad;
  const double cos_gamma = std::cos(gamma);
  constexpr double grazing = 1e-6;  // a beam along the glass lights nothing, and its slopes have no end
  if (cos_gamma < grazing) return {0.0, 0.0, false};
  return {std::tan(sun.apparent_elevation_rad) / cos_gamma, std::sin(gamma) / cos_gamma, true};
}

}  // namespace sunstrain
