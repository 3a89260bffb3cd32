// A shadow's border that moves: the few nodes, and the table that holds every border.
#include <random>

#include "support/pane_strips.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

TEST_CASE("Moving shadow: the few nodes give what all of them give") {
  const char* frame = GENERATE("aluminum-break", "wood", "aluminum", "structural-silicone");
  const Strips s = strips(frame);
  const Pattern pattern =
      GENERATE(Pattern::head_band, Pattern::side_band, Pattern::l_shape, Pattern::half, Pattern::sun_patch);
  CAPTURE(frame, static_cast<int>(pattern));
  const ShadowPlan plan = plan_of(pattern, pattern == Pattern::sun_patch ? 0.6 : 0.25);
  const LitArea area = area_of(plan);
  const EdgeStressSolver solver = solver_for(plan);
  const StripNodes few = few_nodes(s.depth_m, bite_m);
  const std::vector<double> still = mapped_stress(solver, s, area);
  const std::vector<double> moving = mapped_stress(solver, s, area, &few);
  const double still_peak = solver.find_peak(still).stress_pa;
  CAPTURE(still_peak, largest_difference(still, moving));
  CHECK(solver.find_peak(moving).stress_pa == Approx(still_peak).epsilon(0.005));
}

TEST_CASE("The few nodes keep a strip's ends, its heat, and any strip that is straight") {
  const Strips s = strips();
  const StripNodes few = few_nodes(s.depth_m, bite_m);
  CHECK(few.depth_m.size() < 10);
  std::vector<double> straight;
  for (double depth : s.depth_m) straight.push_back(3.0 + 40.0 * depth);
  const std::vector<double> at_nodes = few.values(straight);
  for (std::size_t k = 0; k < few.depth_m.size(); ++k)
    CHECK(at_nodes[k] == Approx(3.0 + 40.0 * few.depth_m[k]).epsilon(1e-9));
  const auto heat = [](const std::vector<double>& depth_m, const std::vector<double>& k) {
    double sum = 0.0;
    for (std::size_t i = 1; i < k.size(); ++i) sum += 0.5 * (k[i] + k[i - 1]) * (depth_m[i] - depth_m[i - 1]);
    return sum;
  };
  const std::vector<double> added = sun_adds(s), few_added = few.values(added);
  CHECK(few_added.front() == added.front());
  CHECK(few_added.back() == added.back());
  CHECK(heat(few.depth_m, few_added) == Approx(heat(s.depth_m, added)).epsilon(1e-3));
}

TEST_CASE("Moving shadow: a solver with features for any border agrees with one made for the border") {
  const Strips s = strips();
  ShadowPlan reveal;
  reveal.reveal_depth_m = 0.2;
  const ShadowSlope slope{0.8, -0.9, true};
  const LitArea area = area_of(reveal, slope);
  REQUIRE_FALSE(area.everything);
  const EdgeStressSolver any = solver_for(reveal);
  FieldFeatures features = field_features(glass_w, glass_h, bite_m, {}, blur_m);
  features.mirrored_in_x = false;
  for (double x : {area.left_m, area.right_m})
    if (x > 0 && x < glass_w) features.along_x.push_back({x, blur_m});
  for (double y : {area.bottom_m, area.top_m})
    if (y > 0 && y < glass_h) features.along_y.push_back({y, blur_m});
  const EdgeStressSolver made(glass_w, glass_h, features, elasticity, any.points_per_side());
  const std::vector<double> a = mapped_stress(any, s, area), b = mapped_stress(made, s, area);
  CHECK(any.find_peak(a).stress_pa == Approx(made.find_peak(b).stress_pa).epsilon(0.01));
}

namespace {

// A strip of random temperatures: mostly warmer inwards, as sun leaves it, but not always; or a single step, which has
// nothing to make up for its own error.
std::vector<double> random_nodes(std::mt19937& random, std::size_t count) {
  std::vector<double> node_k;
  if (random() % 2 == 0) {
    node_k.assign(count, 10.0);
    std::fill_n(node_k.begin(), random() % count, 0.0);
    return node_k;
  }
  double k = 0.0;
  for (std::size_t i = 0; i < count; ++i)
    node_k.push_back(k += std::uniform_real_distribution<double>(i == 0 ? 0.0 : -1.0, 10.0)(random));
  return node_k;
}

ShadowPlan overhang() {
  ShadowPlan plan;
  plan.overhang_depth_m = 0.6;
  return plan;
}

// Borders across the whole width, anywhere from one end of the glass to the other.
LitArea random_light(std::mt19937& random, double height_m) {
  std::uniform_real_distribution<double> anywhere(0.0, height_m);
  LitArea area;
  area.everything = false;
  area.right_m = 12.0;  // beyond any pane's
  area.top_m = anywhere(random);
  if (random() % 3 == 0) {
    area.bottom_m = anywhere(random);
    if (area.bottom_m > area.top_m) std::swap(area.bottom_m, area.top_m);
    if (random() % 2 == 0) area.top_m = height_m;
  }
  return area;
}

}  // namespace

TEST_CASE("Soft borders: exactly what a solve of that border gives, and under its bound, wherever it lies") {
  struct Shape {
    double width_m, height_m;
  };
  const Shape pane = GENERATE(Shape{1.2, 1.5}, Shape{2.0, 0.5}, Shape{0.5, 2.2});
  const double sharpest_m = GENERATE(0.005, 0.0125, 0.02), softer = GENERATE(1.0, 1.3, 2.2);
  const FieldFeatures features = field_features(pane.width_m, pane.height_m, bite_m, overhang(), sharpest_m);
  const EdgeStressSolver solver(pane.width_m, pane.height_m, features, elasticity);
  const StripRamps ramps(solver, pane.width_m, pane.height_m, few_nodes(strips().depth_m, bite_m).depth_m);
  const double softness_m = softer * sharpest_m;
  const SoftBorders borders(SharpBorders(ramps), softness_m);
  std::mt19937 random(20251107);
  for (int i = 0; i < 60; ++i) {
    const LitArea light = random_light(random, pane.height_m);
    const std::vector<double> node_k = random_nodes(random, ramps.depth_m.size());
    std::vector<double> solved(4 * static_cast<std::size_t>(solver.points_per_side()), 0.0), mixed = solved;
    StripStress(ramps, light, softness_m).add(node_k, solved);
    borders.add(node_k, light, mixed);
    const double unit_pa = elasticity.young_pa * elasticity.expansion_per_k * highest(node_k);
    const double bound_pa = borders.highest_possible_pa(node_k, light);
    CAPTURE(pane.width_m, pane.height_m, softness_m, light.bottom_m, light.top_m);
    CHECK(largest_difference(solved, mixed) < 1e-9 * unit_pa);
    CHECK(highest(mixed) <= bound_pa + 1e-9 * unit_pa);
    CHECK(bound_pa < highest(mixed) + 2.0 * unit_pa);  // tight enough to be of use
  }
}

TEST_CASE("Soft borders: at the ends of the glass there is all light or none") {
  const EdgeStressSolver solver = solver_for(overhang());
  const StripNodes few = few_nodes(strips().depth_m, bite_m);
  const StripRamps ramps(solver, glass_w, glass_h, few.depth_m);
  const SoftBorders borders(SharpBorders(ramps), blur_m);
  const std::vector<double> node_k = few.values(sun_adds(strips()));
  LitArea light;
  light.everything = false;
  light.right_m = glass_w;
  light.top_m = glass_h;
  std::vector<double> lit(4 * static_cast<std::size_t>(solver.points_per_side()), 0.0), all = lit;
  borders.add(node_k, light, lit);
  StripStress(ramps, LitArea{}, blur_m).add(node_k, all);
  CHECK(largest_difference(lit, all) < 1e-9 * highest(all));
}

TEST_CASE("Soft borders: a light cut off along both directions is none of theirs") {
  const EdgeStressSolver solver = solver_for(overhang());
  const StripRamps ramps(solver, glass_w, glass_h, few_nodes(strips().depth_m, bite_m).depth_m);
  const SoftBorders borders(SharpBorders(ramps), blur_m);
  std::vector<double> node_k(ramps.depth_m.size(), 5.0), pa(4 * static_cast<std::size_t>(solver.points_per_side()));
  LitArea light;
  light.everything = false;
  light.right_m = glass_w;
  light.top_m = 0.7;
  CHECK(borders.covers(light));
  light.left_m = 0.3;
  CHECK_FALSE(borders.covers(light));
  CHECK_THROWS_AS(borders.highest_possible_pa(node_k, light), std::invalid_argument);
  CHECK_THROWS_AS(borders.add(node_k, light, pa), std::invalid_argument);
}
