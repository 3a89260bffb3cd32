// What a light wall opposite and water in front of the pane add to the sun on it.
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "../../src/engine/year_parts.hpp"
#include "sunstrain/assess.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "sunstrain/optics.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

using std::numbers::pi;

double rad(double deg) { return deg * pi / 180.0; }

// A pane that faces south, 1.4 m high.
constexpr double facing = pi, height_m = 1.4;

DayStep step_under(double elevation_deg, double azimuth_deg) {
  DayStep step{};
  step.sun = {rad(elevation_deg), rad(elevation_deg), rad(azimuth_deg)};
  step.beam_normal_w_m2 = 800.0;
  step.diffuse_horizontal_w_m2 = 100.0;
  step.pane = on_pane({800.0, 100.0}, step.sun, pi / 2.0, facing, 0.2);
  step.slope = shadow_slope(step.sun, facing);
  return step;
}

PaneIrradiance with(const Reflectors& reflectors, DayStep step, double tilt = pi / 2.0) {
  add_reflected(reflectors, tilt, facing, height_m, step);
  return step.pane;
}

Reflectors wall(double distance_m, double top_m, double foot_m, double reflectance) {
  Reflectors r;
  r.wall_distance_m = distance_m;
  r.wall_top_m = top_m;
  r.wall_foot_m = foot_m;
  r.wall_reflectance = reflectance;
  return r;
}

Reflectors water(double distance_m, double width_m, double drop_m) {
  Reflectors r;
  r.water_distance_m = distance_m;
  r.water_width_m = width_m;
  r.water_drop_m = drop_m;
  return r;
}

// The pane's height cut into slices, and the wall's strip seen from each by the angles of its borders.
double by_slices(double distance_m, double from_m, double to_m, bool above_horizon) {
  constexpr int slices = 20000;
  double sum = 0.0;
  for (int i = 0; i < slices; ++i) {
    const double y = height_m * (i + 0.5) / slices;
    const auto sine = [&](double h) { return (h - y) / std::hypot(h - y, distance_m); };
    const double low = above_horizon ? std::max(0.0, sine(from_m)) : sine(from_m);
    sum += 0.5 * std::max(0.0, sine(to_m) - low);
  }
  return sum / slices;
}

}  // namespace

TEST_CASE("Reflected sun: the view of a wall is the mean of its slices, above the horizon too") {
  for (const auto& [distance, foot, top] :
       {std::tuple{6.0, 1.0, 5.0}, {2.0, 8.0, 0.7}, {30.0, 0.0, 12.0}, {4.0, 3.0, 0.0}}) {
    CAPTURE(distance, foot, top);
    CHECK(strip_view_factor(height_m, distance, -foot, top) ==
          Approx(by_slices(distance, -foot, top, false)).epsilon(1e-6));
    CHECK(strip_view_above_horizon(height_m, distance, top) ==
          Approx(by_slices(distance, -foot, top, true)).epsilon(1e-6).margin(1e-12));
  }
  CHECK_THROWS_AS(strip_view_factor(0.0, 1.0, 0.0, 1.0), std::invalid_argument);
  CHECK_THROWS_AS(strip_view_factor(1.0, 1.0, 1.0, 0.0), std::invalid_argument);
  CHECK_THROWS_AS(strip_view_above_horizon(1.0, 0.0, 1.0), std::invalid_argument);
}

TEST_CASE("Reflected sun: an endless wall all around sends what it takes up times its reflectance") {
  const DayStep behind = step_under(30.0, 0.0);  // in the north: on the wall's face, not on the pane
  const PaneIrradiance lit = with(wall(1.0, 1e5, 1e5, 0.6), behind);
  const double on_wall = on_pane({800.0, 100.0}, behind.sun, pi / 2.0, 0.0, 0.2).total_w_m2();
  CHECK(lit.wall_w_m2 == Approx(0.6 * on_wall).epsilon(1e-4));
  CHECK(lit.sky_w_m2 == Approx(0.0).margin(0.01));
  CHECK(lit.ground_w_m2 == Approx(0.0).margin(0.01));
  CHECK(lit.beam_w_m2 == 0.0);
}

TEST_CASE("Reflected sun: a wall as bright as ground and sky away from the sun changes next to nothing") {
  const DayStep behind = step_under(40.0, 0.0);
  const double before = behind.pane.total_w_m2();
  // Grey enough to send as much as the ground does (E = 0.2 x global): what it hides it replaces.
  const double global = 800.0 * std::sin(rad(40.0)) + 100.0;
  const double on_wall = on_pane({800.0, 100.0}, behind.sun, pi / 2.0, 0.0, 0.2).total_w_m2();
  const PaneIrradiance lit = with(wall(5.0, 0.0, 20.0, 0.2 * global / on_wall), behind);
  CHECK(lit.total_w_m2() == Approx(before).epsilon(1e-12));
  CHECK(with(wall(5.0, 4.0, 1.0, 0.7), behind).total_w_m2() > before);
  CHECK(with(wall(5.0, 4.0, 1.0, 0.0), behind).total_w_m2() < before);
}

TEST_CASE("Reflected sun: water mirrors a low sun, at the angle that Fresnel and the mirror say") {
  const DayStep low = step_under(10.0, 200.0);
  const PaneIrradiance lit = with(water(0.0, 1000.0, 3.0), low);
  const double cos_i = std::cos(rad(10.0)) * std::cos(rad(20.0));  // an upright pane sees sun and image alike
  CHECK(lit.water_cos_incidence == Approx(cos_i));
  CHECK(lit.water_w_m2 == Approx(800.0 * cos_i * fresnel_reflectance(rad(80.0), 1.333)));
  CHECK(lit.water_w_m2 == Approx(0.35 * lit.beam_w_m2).epsilon(0.02));
  CHECK(lit.beam_w_m2 == low.pane.beam_w_m2);
  const PaneIrradiance leaning = with(water(0.0, 1000.0, 3.0), low, rad(60.0));  // leans back: sees less of the water
  CHECK(leaning.water_cos_incidence == Approx(std::sin(rad(60.0)) * cos_i - 0.5 * std::sin(rad(10.0))));
  CHECK(with(water(0.0, 1000.0, 3.0), step_under(10.0, 20.0)).water_w_m2 == 0.0);   // the sun stands behind
  CHECK(with(water(0.0, 1000.0, 3.0), step_under(-2.0, 180.0)).water_w_m2 == 0.0);  // or is down
}

TEST_CASE("Reflected sun: the image must lie on the water, and the wall not between") {
  const DayStep sun = step_under(20.0, 180.0);  // seen z / 0.364 out: from 3 m up 8.2 m, from 4.4 m 12.1 m
  CHECK(with(water(0.0, 8.0, 3.0), sun).water_w_m2 == 0.0);
  CHECK(with(water(0.0, 8.5, 3.0), sun).water_w_m2 > 0.0);
  CHECK(with(water(12.0, 50.0, 3.0), sun).water_w_m2 > 0.0);
  CHECK(with(water(12.5, 50.0, 3.0), sun).water_w_m2 == 0.0);
  Reflectors behind_wall = water(0.0, 8.5, 3.0);  // met 8.2 to 8.5 m out
  behind_wall.wall_distance_m = 30.0;             // over which the light comes down from 7.9 m above the water
  behind_wall.wall_top_m = 4.8;
  CHECK(with(behind_wall, sun).water_w_m2 > 0.0);
  behind_wall.wall_top_m = 5.0;
  CHECK(with(behind_wall, sun).water_w_m2 == 0.0);
  Reflectors beyond_wall = water(8.4, 50.0, 3.0);  // met 8.4 to 12.1 m out, 6 m beyond which it has climbed 2.2 m
  beyond_wall.wall_distance_m = 6.0;
  beyond_wall.wall_top_m = 0.0;
  CHECK(with(beyond_wall, sun).water_w_m2 == 0.0);
  beyond_wall.wall_distance_m = 3.0;  // 9 m, and 3.3 m
  CHECK(with(beyond_wall, sun).water_w_m2 > 0.0);
}

TEST_CASE("Reflected sun: what is taken up grows by it, in the beam's shadow too, and the energy closes") {
  const Case bare = complete_double_case({"shading.overhang_depth=1 m", "shading.overhang_height=0.1 m"});
  const Case lake = complete_double_case({"shading.overhang_depth=1 m", "shading.overhang_height=0.1 m",
                                          "site.water_distance=0 m", "site.water_width=500 m", "site.water_drop=4 m"});
  ChainCache cache, other;
  const Reference& reference = builtin_reference();
  const std::vector<DesignDay>& plain = internal::design_year(bare, reference, cache.store());
  const std::vector<DesignDay>& days = internal::design_year(lake, reference, cache.store());
  REQUIRE(&plain != &days);
  const internal::AbsorptionTable table(lake.after, 0.0);
  int lit = 0;
  for (std::size_t i = 0; i < days[0].steps.size(); ++i) {
    const DayStep& step = days[0].steps[i];
    const double reflected = step.pane.water_w_m2;
    if (reflected == 0.0) continue;
    ++lit;
    const auto outer = [&](const DayStep& of, double beam) {
      const StepLoads loads = internal::step_loads(lake, table, of, DayKind::cold_clear, beam);
      const FaceSources& s = loads.absorbed[0];
      return s.outer_face_w_m2 + s.bulk_w_m2 + s.inner_face_w_m2;
    };
    // An upright pane takes up of the image what it takes up of the beam.
    const double of_beam = outer(plain[0].steps[i], 1.0) - outer(plain[0].steps[i], 0.0);
    CHECK(outer(step, 0.0) - outer(plain[0].steps[i], 0.0) == Approx(of_beam * reflected / step.pane.beam_w_m2));
  }
  CHECK(lit > 10);
  const YearPeaks with_lake = worst_of_year(lake, lake.after, reference, other, false);
  CHECK(with_lake.worst_energy_residual < 1e-6);
}

TEST_CASE("Reflected sun: the answer names the water and the wall, and a north pane feels a light wall") {
  const Reference& reference = builtin_reference();
  const Assessment north = assess(complete_double({"pane.facing=N"}), reference);
  const Assessment wall =
      assess(complete_double({"pane.facing=N", "shading.wall_distance=8 m", "shading.wall_height=8 m",
                              "shading.wall_reflectance=70 %", "shading.wall_foot=1 m"}),
             reference);
  CHECK(wall.shadow.wall_w_m2 > 50.0);
  CHECK(wall.stress_ratio > north.stress_ratio);
  const Assessment lake =
      assess(complete_double({"site.water_distance=0 m", "site.water_width=500 m", "site.water_drop=4 m"}), reference);
  CHECK(lake.shadow.water_w_m2 > 0.0);
  CHECK(lake.stress_ratio > assess(complete_double({}), reference).stress_ratio);
  CHECK(north.shadow.wall_w_m2 == 0.0);
}
