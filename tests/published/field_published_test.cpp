// The temperature over the pane: how far warmth runs along glass, where an overhang's shadow ends, and what a shadow's
// shape does.
#include <catch2/catch.hpp>
#include <numbers>

#include "support/pane_strips.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

// Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, example on very long rods (3.9 in several editions),
// recalled, not read from the book: 5 mm in diameter, h = 100 W/(m2 K), of copper (398), aluminum (180) and stainless
// steel (14 W/(m K)); a rod is as good as endless from 2.65/m on, m^2 = h P/(k A) = 4 h/(k D): 0.19, 0.13, 0.04 m.
TEST_CASE("Field: how long a rod must be to count as endless", "[field][published]") {
  const auto endless_m = [](double conductivity_w_mk) {
    return 2.65 * smearing_length_m(conductivity_w_mk, 0.005, 4.0 * 100.0);
  };
  CHECK(endless_m(398.0) == Approx(0.19).margin(0.005));
  CHECK(endless_m(180.0) == Approx(0.13).margin(0.005));
  CHECK(endless_m(14.0) == Approx(0.04).margin(0.005));
}

// Same book, table of fins, endless fin (recalled): theta/theta_b = exp(-m x), here out from a shadow's border at half
// the sun's step; exp(-x) from Abramowitz & Stegun, Handbook of Mathematical Functions, table 4.4 (recalled).
TEST_CASE("Field: warmth fades into the shade as along an endless fin", "[field][published]") {
  const double reach_m = 0.013;
  const auto share = [&](double reaches) {
    return soft_step(-reaches * reach_m, 0.0, reach_m) / soft_step(0.0, 0.0, reach_m);
  };
  CHECK(share(0.5) == Approx(0.60653).margin(5e-6));
  CHECK(share(1.0) == Approx(0.36788).margin(5e-6));
  CHECK(share(2.0) == Approx(0.13534).margin(5e-6));
  CHECK(share(3.0) == Approx(0.04979).margin(5e-6));
}

namespace {

// The sun at a solar hour of the first of August (declination 17.9 degrees).
SunPosition august_sun(double latitude_deg, double solar_hour) {
  constexpr double deg = std::numbers::pi / 180.0, declination = 17.9 * deg;
  const double latitude = latitude_deg * deg, hour_angle = (solar_hour - 12.0) * 15.0 * deg;
  const double sin_elevation =
      std::sin(latitude) * std::sin(declination) + std::cos(latitude) * std::cos(declination) * std::cos(hour_angle);
  const double south = std::cos(hour_angle) * std::sin(latitude) - std::tan(declination) * std::cos(latitude);
  SunPosition sun{};
  sun.elevation_rad = sun.apparent_elevation_rad = std::asin(sin_elevation);
  sun.azimuth_rad = std::numbers::pi + std::atan2(std::sin(hour_angle), south);
  return sun;
}

// Depth of an overhang's shadow on a tall window, over the overhang's own, in the mean of the five hours in which the
// beam on the wall is strongest; its strength by the handbook's old clear-sky constants for August (A, B = 0.201).
double shade_line_factor(double latitude_deg, double facing_deg) {
  ShadowPlan plan;
  plan.overhang_depth_m = 0.1;
  const double facing_rad = facing_deg * std::numbers::pi / 180.0, tall_m = 20.0;
  std::vector<double> beam, depth;
  for (int hour = 5; hour <= 19; ++hour) {
    const SunPosition sun = august_sun(latitude_deg, hour);
    const double sine = std::max(1e-3, std::sin(sun.elevation_rad));
    beam.push_back(std::max(0.0, cos_incidence(sun, std::numbers::pi / 2.0, facing_rad)) * std::exp(-0.201 / sine));
    const LitArea lit = lit_area(plan, 200.0, tall_m, 0.0, shadow_slope(sun, facing_rad));
    depth.push_back(lit.everything ? 0.0 : (lit.nothing ? tall_m : tall_m - lit.top_m));
  }
  double strongest = 0.0, factor = 0.0;
  for (std::size_t first = 0; first + 5 <= beam.size(); ++first) {
    double sum = 0.0, mean = 0.0;
    for (std::size_t i = first; i < first + 5; ++i) {
      sum += beam[i];
      mean += depth[i] / 5.0;
    }
    if (sum > strongest) {
      strongest = sum;
      factor = mean / plan.overhang_depth_m;
    }
  }
  return factor;
}

}  // namespace

// ASHRAE Handbook of Fundamentals (1997), residential cooling load, table of shade line factors (recalled, not read
// from the book): depth of the shadow below an overhang over the overhang's, mean of the five hours of greatest
// intensity on 1 August. Given to 0.1, with a sky that is not ours: 10 %.
TEST_CASE("Field: shade line factors of south windows", "[field][published]") {
  CHECK(shade_line_factor(36.0, 180.0) == Approx(3.4).epsilon(0.1));
  CHECK(shade_line_factor(40.0, 180.0) == Approx(2.6).epsilon(0.1));
  CHECK(shade_line_factor(44.0, 180.0) == Approx(2.1).epsilon(0.1));
  CHECK(shade_line_factor(48.0, 180.0) == Approx(1.8).epsilon(0.1));
  CHECK(shade_line_factor(52.0, 180.0) == Approx(1.5).epsilon(0.1));
}

// The same table (recalled), east and west.
TEST_CASE("Field: shade line factors of east and west windows", "[field][published]") {
  for (double facing_deg : {90.0, 270.0}) {
    CHECK(shade_line_factor(36.0, facing_deg) == Approx(0.8).epsilon(0.1));
    CHECK(shade_line_factor(40.0, facing_deg) == Approx(0.8).epsilon(0.1));
    CHECK(shade_line_factor(44.0, facing_deg) == Approx(0.8).epsilon(0.1));
  }
}

// The same table (recalled), southeast and southwest.
TEST_CASE("Field: shade line factors of southeast and southwest windows", "[field][published]") {
  for (double facing_deg : {135.0, 225.0}) {
    CHECK(shade_line_factor(36.0, facing_deg) == Approx(1.4).epsilon(0.1));
    CHECK(shade_line_factor(40.0, facing_deg) == Approx(1.3).epsilon(0.1));
    CHECK(shade_line_factor(44.0, facing_deg) == Approx(1.1).epsilon(0.1));
  }
}

// JGJ 113 and its Japanese parent, shadow coefficient (recalled, not read from the standards): 1.3 for a shadow along
// one side, 1.6 for two that meet, against no shadow. Round figures for shadows of any depth and shade of any warmth;
// ours is a quarter of the pane, warmed by the room and the sky, on a cold day. A disagreement: along one side ours is
// 16 % above (L: 1 %). An independent finite-element program has 1.43 for shade as cold as the rebate
// (stress_published_test); here the shade is colder than the rim of the glass beside it in the sun, which adds the
// rest. Ours is left on the side of more stress, and 20 % is what the two may differ.
TEST_CASE("Field: shadow coefficients of the Asian standards", "[field][published]") {
  const Strips s = strips();
  const auto peak = [&](Pattern pattern) {
    const ShadowPlan plan = plan_of(pattern, 0.25);
    const EdgeStressSolver solver = solver_for(plan);
    return solver.find_peak(mapped_stress(solver, s, area_of(plan))).stress_pa;
  };
  const double none = peak(Pattern::none);
  CHECK(peak(Pattern::side_band) / none == Approx(1.3).epsilon(0.2));
  CHECK(peak(Pattern::l_shape) / none == Approx(1.6).epsilon(0.2));
}
