// What a light wall opposite and water in front of the pane add to the sun on it.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "sunstrain/optics.hpp"
#include "sunstrain/sun.hpp"

namespace sunstrain {
namespace {

using std::numbers::pi;

void add_from_wall(const Reflectors& r, double facing_rad, double pane_height_m, DayStep& step) {
  const double seen = strip_view_factor(pane_height_m, r.wall_distance_m, -r.wall_foot_m, r.wall_top_m);
  const double above = strip_view_above_horizon(pane_height_m, r.wall_distance_m, r.wall_top_m);
  // The ground lights an upright face of either side alike.
  const PaneIrradiance on_wall =
      on_pane({step.beam_normal_w_m2, step.diffuse_horizontal_w_m2}, step.sun, pi / 2.0, facing_rad + pi, 0.0);
  const double on_wall_w_m2 = on_wall.beam_w_m2 + on_wall.sky_w_m2 + step.pane.ground_w_m2;
  constexpr double sky_away_from_sun = 0.45;  // the least that ASHRAE's ratio Y gives
  step.pane.wall_w_m2 = *r.wall_reflectance * seen * on_wall_w_m2;
  step.pane.sky_w_m2 -= std::min(step.pane.sky_w_m2, 2.0 * above * sky_away_from_sun * step.diffuse_horizontal_w_m2);
  step.pane.ground_w_m2 *= 1.0 - 2.0 * std::max(0.0, seen - above);
}

// Whether light on its way by the water at `spot_m` out, which climbs by tan_profile, passes over the wall: before it
// comes down, or after it has turned up.
bool clears_wall(const Reflectors& r, double spot_m, double tan_profile) {
  return r.wall_distance_m <= 0.0 ||
         std::abs(r.wall_distance_m - spot_m) * tan_profile >= r.wall_top_m + r.water_drop_m;
}

bool sees_sun_in_water(const Reflectors& r, double pane_height_m, double tan_profile) {
  const double near_m = r.water_drop_m / tan_profile, far_m = (r.water_drop_m + pane_height_m) / tan_profile;
  const double from_m = std::max(near_m, r.water_distance_m),
               to_m = std::min(far_m, r.water_distance_m + r.water_width_m);
  // Of a stretch the end that lies further from the wall clears it first.
  return from_m <= to_m && (clears_wall(r, from_m, tan_profile) || clears_wall(r, to_m, tan_profile));
}

void add_from_water(const Reflectors& r, double tilt_rad, double facing_rad, double pane_height_m, DayStep& step) {
  if (!step.slope.sun_on_pane || !sees_sun_in_water(r, pane_height_m, step.slope.tan_profile)) return;
  SunPosition image = step.sun;
  image.apparent_elevation_rad = -image.apparent_elevation_rad;
  const double cos_image = cos_incidence(image, tilt_rad, facing_rad);
  if (cos_image <= 0.0) return;
  const double reflectance = fresnel_reflectance(pi / 2.0 - step.sun.apparent_elevation_rad, r.water_refractive_index);
  step.pane.water_w_m2 = reflectance * step.beam_normal_w_m2 * cos_image;
  step.pane.water_cos_incidence = cos_image;
}

}  // namespace

double strip_view_factor(double height_m, double distance_m, double from_m, double to_m) {
  if (!(height_m > 0.0 && distance_m > 0.0 && from_m <= to_m))
    throw std::invalid_argument("strips that face each other need a height, a distance, and borders in order");
  const double crossed = std::hypot(distance_m, to_m) + std::hypot(distance_m, height_m - from_m);
  const double uncrossed = std::hypot(distance_m, from_m) + std::hypot(distance_m, height_m - to_m);
  return std::max(0.0, crossed - uncrossed) / (2.0 * height_m);
}

double strip_view_above_horizon(double height_m, double distance_m, double to_m) {
  if (!(height_m > 0.0 && distance_m > 0.0))
    throw std::invalid_argument("strips that face each other need a height and a distance");
  if (to_m <= 0.0) return 0.0;
  const double faced_m = std::min(height_m, to_m);
  return (std::hypot(distance_m, to_m) - std::hypot(distance_m, to_m - faced_m)) / (2.0 * height_m);
}

void add_reflected(const Reflectors& reflectors, double tilt_rad, double facing_rad, double pane_height_m,
                   DayStep& step) {
  if (reflectors.wall_reflectance) add_from_wall(reflectors, facing_rad, pane_height_m, step);
  if (reflectors.water_width_m > 0.0) add_from_water(reflectors, tilt_rad, facing_rad, pane_height_m, step);
}

}  // namespace sunstrain
