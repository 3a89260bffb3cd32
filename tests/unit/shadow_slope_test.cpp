// Where projections throw their shadow: the slopes against rays traced in space, compass directions named.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "sunstrain/sun.hpp"

using namespace sunstrain;

namespace {

using std::numbers::pi;

double rad(double deg) { return deg * pi / 180.0; }

SunPosition sun_at(double elevation_deg, double azimuth_deg) {
  return {rad(elevation_deg), rad(elevation_deg), rad(azimuth_deg)};
}

struct Vec {
  double east, north, up;
};
Vec operator*(double a, const Vec& v) { return {a * v.east, a * v.north, a * v.up}; }
Vec operator+(const Vec& a, const Vec& b) { return {a.east + b.east, a.north + b.north, a.up + b.up}; }
double dot(const Vec& a, const Vec& b) { return a.east * b.east + a.north * b.north + a.up * b.up; }

Vec toward_sun(const SunPosition& sun) {
  const double c = std::cos(sun.apparent_elevation_rad);
  return {c * std::sin(sun.azimuth_rad), c * std::cos(sun.azimuth_rad), std::sin(sun.apparent_elevation_rad)};
}

// The pane's axes, written down from the compass: who stands south of a pane that faces south looks
// north at it and has east on the right hand.
struct Axes {
  double facing_deg;
  Vec right, outward;
};
const Axes axes_by_compass[] = {
    {0.0, {-1, 0, 0}, {0, 1, 0}},    // faces north: right is west
    {90.0, {0, 1, 0}, {1, 0, 0}},    // faces east: right is north
    {180.0, {1, 0, 0}, {0, -1, 0}},  // faces south: right is east
    {270.0, {0, -1, 0}, {-1, 0, 0}}  // faces west: right is south
};
const Vec up{0, 0, 1};

}  // namespace

TEST_CASE("a morning sun on a south pane throws shadows to the west, left seen from outdoors", "[sun][shadow]") {
  const ShadowSlope morning = shadow_slope(sun_at(20.0, 135.0), rad(180.0));
  CHECK(morning.sun_on_pane);
  CHECK(morning.tan_gamma == Approx(1.0));  // x - d tan_gamma: to the left
  CHECK(morning.tan_profile == Approx(std::tan(rad(20.0)) / std::cos(rad(45.0))));
  CHECK(shadow_slope(sun_at(20.0, 225.0), rad(180.0)).tan_gamma == Approx(-1.0));
  CHECK(shadow_slope(sun_at(20.0, 10.0), rad(350.0)).tan_gamma == Approx(std::tan(rad(-20.0))));  // across north
}

TEST_CASE("no slopes when the sun is not on the pane", "[sun][shadow]") {
  for (const SunPosition& sun : {sun_at(20.0, 350.0), sun_at(20.0, 90.0), sun_at(-1.0, 180.0)}) {
    const ShadowSlope slope = shadow_slope(sun, rad(180.0));
    CHECK_FALSE(slope.sun_on_pane);
    CHECK(slope.tan_gamma == 0.0);
    CHECK(slope.tan_profile == 0.0);
  }
}

TEST_CASE("a point of a projection shadows the glass point whose ray to the sun meets it", "[sun][shadow]") {
  for (const Axes& axes : axes_by_compass) {
    for (double off = -80.0; off <= 80.0; off += 20.0) {
      for (double elevation = 5.0; elevation <= 75.0; elevation += 14.0) {
        const SunPosition sun = sun_at(elevation, std::fmod(axes.facing_deg + off + 360.0, 360.0));
        const ShadowSlope slope = shadow_slope(sun, rad(axes.facing_deg));
        REQUIRE(slope.sun_on_pane);
        const double x = 0.7, y = 1.6, d = 0.35;  // the occluder
        const Vec glass_point = (x - d * slope.tan_gamma) * axes.right + (y - d * slope.tan_profile) * up;
        const Vec ray = toward_sun(sun);
        const Vec met = glass_point + (d / dot(ray, axes.outward)) * ray;
        CHECK(dot(met, axes.right) == Approx(x).margin(1e-12));
        CHECK(dot(met, up) == Approx(y).margin(1e-12));
      }
    }
  }
}

namespace {

constexpr double width = 1.2, height = 1.5;

// Share of the pane's grid points whose ray to the sun is stopped, traced in space for a pane facing south.
template <class Stopped>
double shaded_by_rays(const SunPosition& sun, Stopped stopped) {
  const Axes& south = axes_by_compass[2];
  const Vec ray = toward_sun(sun);
  constexpr int n = 400;
  int count = 0;
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < n; ++j) {
      const double x = (i + 0.5) / n * width, y = (j + 0.5) / n * height;
      count += stopped(x, y, dot(ray, south.right), ray.up, dot(ray, south.outward)) ? 1 : 0;
    }
  }
  return static_cast<double>(count) / (n * n);
}

}  // namespace

TEST_CASE("overhang and reveal of a pane 1.2 by 1.5 m: slopes, rays and worked figures agree", "[sun][shadow]") {
  // Relations S_H = P tan(profile) - gap and S_W = P |tan gamma| - gap of the ASHRAE handbook's fenestration chapter
  // (recalled, not read); figures worked by an independent implementation, sun 25.2 deg high, 48.3 deg off the normal.
  const double off = GENERATE(48.3, -48.3);
  const SunPosition sun = sun_at(25.2, 180.0 + off);
  const ShadowSlope slope = shadow_slope(sun, rad(180.0));
  CHECK(slope.tan_profile == Approx(0.70735).margin(5e-5));
  CHECK(std::atan(slope.tan_profile) == Approx(rad(35.2745)).margin(1e-5));
  CHECK(std::signbit(slope.tan_gamma) == (off > 0.0));

  SECTION("long overhang 0.6 m deep, 0.3 m above the glass") {
    const double band = 0.6 * slope.tan_profile - 0.3;
    CHECK(band == Approx(0.1244).margin(5e-5));
    CHECK(band / height == Approx(0.0829).margin(5e-5));
    const double rays = shaded_by_rays(sun, [](double, double y, double, double b, double c) {
      return (height + 0.3 - y) / b * c <= 0.6;  // out where the ray passes the overhang's level
    });
    CHECK(rays == Approx(band / height).margin(0.0026));  // a row of the grid
  }
  SECTION("the same overhang only 0.2 m beyond each jamb") {
    // Its outer edge, at d = 0.6, shadows a band cut off on the sun's side by the line from the overhang's end.
    const double top = height, bottom = height + 0.3 - 0.6 * slope.tan_profile;
    double area = 0.0;
    constexpr int strips = 20000;
    for (int i = 0; i < strips; ++i) {
      const double y = bottom + (i + 0.5) / strips * (top - bottom);
      const double d = (height + 0.3 - y) / slope.tan_profile;  // of the overhang point that shadows this height
      const double left = std::max(0.0, -0.2 - d * slope.tan_gamma);
      const double right = std::min(width, width + 0.2 - d * slope.tan_gamma);
      area += std::max(0.0, right - left) * (top - bottom) / strips;
    }
    CHECK(area / (width * height) == Approx(0.0567).margin(0.001));  // worked by a grid of 400 x 400
    const double rays = shaded_by_rays(sun, [](double x, double y, double a, double b, double c) {
      const double run = (height + 0.3 - y) / b;
      const double at = x + run * a;
      return run * c <= 0.6 && at >= -0.2 && at <= width + 0.2;
    });
    CHECK(rays == Approx(0.0567).margin(5e-5));
  }
  SECTION("reveal of 150 mm all round: an L along the head and the jamb on the sun's side") {
    const double head = 0.15 * slope.tan_profile, jamb = 0.15 * std::abs(slope.tan_gamma);
    CHECK(jamb == Approx(0.1684).margin(5e-5));
    CHECK(head == Approx(0.1061).margin(5e-5));
    const double shaded = 1.0 - (width - jamb) * (height - head) / (width * height);
    CHECK(shaded == Approx(0.2011).margin(5e-5));
    const double rays = shaded_by_rays(sun, [](double x, double y, double a, double b, double c) {
      const double run = 0.15 / c;  // to the plane of the reveal's mouth
      return x + run * a < 0.0 || x + run * a > width || y + run * b > height;
    });
    CHECK(rays == Approx(shaded).margin(0.004));
  }
}
