// The temperature over a pane and its edge stress: the maps against the same field written out by hand, shadows that
// stand still against shadows that move, patterns, and mirror images.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "../../src/engine/soft_steps.hpp"
#include "sunstrain/assess.hpp"
#include "sunstrain/field.hpp"
#include "support/pane_strips.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

// A strip's temperature at a depth, by straight lines between the cells' middles, flat beyond the outermost two.
double along(const std::vector<double>& depth_m, const std::vector<double>& strip_k, double depth) {
  if (depth <= depth_m.front()) return strip_k.front();
  for (std::size_t i = 1; i < depth_m.size(); ++i) {
    if (depth > depth_m[i]) continue;
    const double share = (depth - depth_m[i - 1]) / (depth_m[i] - depth_m[i - 1]);
    return (1 - share) * strip_k[i - 1] + share * strip_k[i];
  }
  return strip_k.back();
}

double ramp_share(double position, double end, double from, double to) {
  return std::clamp((std::min(position, end - position) - from) / (to - from), 0.0, 1.0);
}

// The field that the map stands for: each rise of the strip spread as the product of its rise along x and along y.
double spread(const Strips& s, const std::vector<double>& strip_k, double x, double y) {
  double t = strip_k[0];
  for (std::size_t k = 0; k + 1 < strip_k.size(); ++k) {
    t += (strip_k[k + 1] - strip_k[k]) * ramp_share(x, glass_w, s.depth_m[k], s.depth_m[k + 1]) *
         ramp_share(y, glass_h, s.depth_m[k], s.depth_m[k + 1]);
  }
  return t;
}

// Light that fades over the blur on either side of the border, written out again.
double light(double distance_inside) {
  return distance_inside >= 0 ? 1 - 0.5 * std::exp(-distance_inside / blur_m)
                              : 0.5 * std::exp(distance_inside / blur_m);
}

double lit_by_hand(Pattern pattern, double x, double y) {
  const double left = bite_m + 0.25 * width_m, top = bite_m + 0.75 * height_m;
  switch (pattern) {
    case Pattern::head_band:
      return light(top - y);
    case Pattern::side_band:
      return light(x - left);
    case Pattern::l_shape:
      return light(x - left) * light(top - y);
    case Pattern::half:
      return light(x - 0.5 * glass_w);
    case Pattern::diagonal:
      return light((1 - x / glass_w - y / glass_h) / std::hypot(1 / glass_w, 1 / glass_h));
    default:
      return 1.0;
  }
}

}  // namespace

TEST_CASE("Stress map: the same as the whole field solved at once") {
  const Strips s = strips();
  const Pattern pattern = GENERATE(Pattern::none, Pattern::head_band, Pattern::side_band, Pattern::l_shape,
                                   Pattern::half, Pattern::diagonal);
  CAPTURE(static_cast<int>(pattern));
  const ShadowPlan plan = plan_of(pattern);
  const EdgeStressSolver solver = solver_for(plan);
  const std::vector<double> mapped = mapped_stress(solver, s, area_of(plan));
  const auto whole = flat(solver.solve_general([&](double x, double y) {
    const double shaded = spread(s, s.shaded_k, x, y), lit = spread(s, s.lit_k, x, y);
    return shaded + (lit - shaded) * lit_by_hand(pattern, x, y);
  }));
  CAPTURE(highest(mapped), highest(whole));
  REQUIRE(highest(whole) > 5e6);
  CHECK(largest_difference(mapped, whole) < 0.01 * highest(whole));
}

TEST_CASE("Stress map: how the corner is rounded does not touch the peak") {
  // The strip by the distance to the nearest edge instead of as products: mitered corners.
  const Strips s = strips();
  const EdgeStressSolver solver = solver_for({});
  const std::vector<double> mapped = mapped_stress(solver, s, LitArea{});
  const EdgeStress mitered = solver.solve_general([&](double x, double y) {
    return along(s.depth_m, s.lit_k, std::min({x, y, glass_w - x, glass_h - y}));
  });
  CHECK(solver.find_peak(mapped).stress_pa == Approx(mitered.peak_pa).epsilon(0.01));
}

TEST_CASE("Stress map: a uniform pane carries nothing, and no point passes the bound") {
  Strips s = strips();
  const ShadowPlan plan = plan_of(Pattern::l_shape);
  const EdgeStressSolver solver = solver_for(plan);
  for (const LitArea& area : {LitArea{}, area_of(plan)}) {
    const StripStress map({solver, glass_w, glass_h, s.depth_m}, area, blur_m);
    for (const std::vector<double>* strip : {&s.lit_k, &s.shaded_k}) {
      std::vector<double> stress(4 * static_cast<std::size_t>(solver.points_per_side()));
      map.add(*strip, stress);
      CHECK(highest(stress) <= map.highest_possible_pa(*strip) * (1 + 1e-12) + 1.0);
    }
  }
  s.lit_k = s.shaded_k = std::vector<double>(s.depth_m.size(), 300.0);
  const std::vector<double> none = mapped_stress(solver, s, area_of(plan));
  CHECK(largest_difference(none, std::vector<double>(none.size(), 0.0)) < 1.0);
}

TEST_CASE("Lit area: patterns that stand still") {
  const auto check = [](Pattern pattern, double share, double left, double right, double bottom, double top) {
    CAPTURE(static_cast<int>(pattern), share);
    const LitArea area = area_of(plan_of(pattern, share));
    CHECK_FALSE((area.everything || area.nothing || area.diagonal));
    CHECK(area.left_m == Approx(left).margin(1e-12));
    CHECK(area.right_m == Approx(right));
    CHECK(area.bottom_m == Approx(bottom).margin(1e-12));
    CHECK(area.top_m == Approx(top));
  };
  // Borders on the sightline run on to the cut edge; the others lie a bite further in than on the visible pane.
  check(Pattern::head_band, 0.25, 0, glass_w, 0, 0.012 + 1.125);
  check(Pattern::side_band, 0.25, 0.012 + 0.3, glass_w, 0, glass_h);
  check(Pattern::l_shape, 0.25, 0.012 + 0.3, glass_w, 0, 0.012 + 1.125);
  check(Pattern::half, 0.1, 0.012 + 0.6, glass_w, 0, glass_h);
  check(Pattern::narrow_frame, 0.1, 0.012 + 0.12, 0.012 + 1.08, 0.012 + 0.12, 0.012 + 1.38);
  check(Pattern::sun_patch, 0.5, 0.012 + 0.3, 0.012 + 0.9, 0, 0.012 + 0.75);
  CHECK(area_of({}).everything);
  CHECK(area_of(plan_of(Pattern::head_band, 1.0)).nothing);
  CHECK(area_of(plan_of(Pattern::head_band, 0.0)).everything);
  CHECK(area_of(plan_of(Pattern::diagonal)).diagonal);
  CHECK_FALSE(area_of(plan_of(Pattern::diagonal)).everything);
}

TEST_CASE("Lit area: fins and a wall opposite") {
  ShadowPlan fins;
  fins.left_fin_depth_m = 0.5;
  fins.left_fin_distance_m = 0.1;
  // Sun on the left (tan gamma < 0): the left fin's shadow reaches 0.5 x 0.8 to the right, less its distance.
  CHECK(area_of(fins, {0.3, -0.8, true}).left_m == Approx(bite_m + 0.3));
  CHECK(area_of(fins, {0.3, -0.8, true}).right_m == glass_w);
  CHECK(area_of(fins, {0.3, -0.2, true}).everything);  // it ends on the wall between fin and glass
  CHECK(area_of(fins, {0.3, 0.8, true}).everything);   // sun from the other side
  CHECK(area_of(fins, {0.3, -4.0, true}).nothing);
  // Mirrored: the right fin with the sun on the right.
  ShadowPlan mirrored;
  mirrored.right_fin_depth_m = 0.5;
  mirrored.right_fin_distance_m = 0.1;
  CHECK(glass_w - area_of(mirrored, {0.3, 0.8, true}).right_m == Approx(area_of(fins, {0.3, -0.8, true}).left_m));
  ShadowPlan wall;
  wall.wall_distance_m = 4.0;
  wall.wall_height_m = 2.5;
  // Light over the wall's top falls to 2.5 - 4 x 0.5 = 0.5 above the bottom of the glass.
  const LitArea over = area_of(wall, {0.5, 0.2, true});
  CHECK(over.bottom_m == Approx(bite_m + 0.5));
  CHECK(over.top_m == glass_h);
  CHECK(area_of(wall, {0.7, 0, true}).everything);
  CHECK(area_of(wall, {0.2, 0, true}).nothing);
  CHECK(area_of(wall, {0, 0, false}).everything);
}

TEST_CASE("Lit area: overhang and reveal") {
  ShadowPlan overhang;
  overhang.overhang_depth_m = 0.6;
  overhang.overhang_height_m = 0.3;
  CHECK(area_of(overhang, {0.5, 0, true}).everything);  // 0.6 x 0.5 = 0.3: the shadow just reaches the glass
  CHECK(area_of(overhang, {1.0, 0, true}).top_m == Approx(bite_m + height_m - 0.3));
  CHECK(area_of(overhang, {3.1, 0, true}).nothing);
  ShadowPlan reveal;
  reveal.reveal_depth_m = 0.1;
  const LitArea from_right = area_of(reveal, {1.0, 2.0, true});  // sun on the right: the right jamb's shadow goes left
  CHECK(from_right.left_m == 0.0);
  CHECK(from_right.right_m == Approx(bite_m + width_m - 0.2));
  CHECK(from_right.top_m == Approx(bite_m + height_m - 0.1));
  const LitArea from_left = area_of(reveal, {1.0, -2.0, true});
  CHECK(from_left.right_m == glass_w);
  CHECK(from_left.left_m == Approx(bite_m + 0.2));
  CHECK(area_of(reveal, {0, 0, false}).everything);
}

TEST_CASE("Lit share: half at its border, whole far inside, nothing far outside, no border at an end") {
  CHECK(soft_step(0.5, 0.5, 0.02) == Approx(0.5));
  CHECK(soft_step(0.52, 0.5, 0.02) == Approx(1 - 0.5 / std::numbers::e));
  CHECK(soft_step(0.48, 0.5, 0.02) == Approx(0.5 / std::numbers::e));
  // Two quadrature points, two edge points, both ends and two just inside.
  const std::vector<double> at{0.1, 0.6, 0.29, 0.91, 0.0, 1.2, 0.3, 0.9};
  const internal::SampledSteps steps(at, 2, 0.01);
  const std::vector<double> light = steps.light(0.3, 0.9, 1.2), whole = steps.light(0.0, 1.2, 1.2);
  for (std::size_t i = 0; i < at.size(); ++i) {
    CAPTURE(at[i]);
    CHECK(light[i] == Approx(soft_step(at[i], 0.3, 0.01) - soft_step(at[i], 0.9, 0.01)).margin(1e-12));
    CHECK(whole[i] == 1.0);
  }
  CHECK(light[1] == Approx(1.0).margin(1e-9));
  CHECK(light[0] == Approx(0.0).margin(1e-8));
  CHECK(light[6] == Approx(0.5));
  // A step of heating q in a conducting sheet with exchange h leaves exactly this: k t T'' = h T - q(x), solved by
  // hand; the curvature on either side of the border differs by 1/l^2.
  const double l = 0.02, d = 1e-4;
  const auto bend = [&](double x) {
    return (soft_step(x - d, 0, l) - 2 * soft_step(x, 0, l) + soft_step(x + d, 0, l)) / (d * d);
  };
  CHECK(l * l * bend(0.01) == Approx(soft_step(0.01, 0, l) - 1.0).epsilon(1e-4));
  CHECK(l * l * bend(-0.01) == Approx(soft_step(-0.01, 0, l)).epsilon(1e-4));
  CHECK(smearing_length_m(1.0, 0.006, 24.0) == Approx(std::sqrt(0.00025)));
}

TEST_CASE("Colder bottom edge: tension there, nothing of weight elsewhere") {
  const EdgeStressSolver solver = solver_for({});
  const auto stress = colder_bottom_stress_pa_per_k(solver, bite_m, 0.02);
  const auto n = static_cast<std::size_t>(solver.points_per_side());
  const EdgePeak peak = solver.find_peak(stress);
  CHECK(peak.side == Side::bottom);
  CHECK(peak.stress_pa / 1e6 < 0.63);  // E alpha, per K
  CHECK(peak.stress_pa / 1e6 > 0.5);
  CHECK(std::abs(stress[2 * n + n / 2]) < 0.05e6);  // the top's middle
}

// ---- mirror images ------------------------------------------------------------------------------------------

TEST_CASE("Mirrored shadow, mirrored stress") {
  const Strips s = strips();
  const ShadowPlan plan = plan_of(Pattern::l_shape);
  const EdgeStressSolver solver(
      glass_w, glass_h,
      [] {
        FieldFeatures f = field_features(glass_w, glass_h, bite_m, plan_of(Pattern::l_shape), blur_m);
        const auto once = f.along_x;
        for (const Feature& x : once) f.along_x.push_back({glass_w - x.position_m, x.width_m});
        return f;
      }(),
      elasticity);
  const LitArea area = area_of(plan);
  LitArea mirrored = area;
  mirrored.left_m = glass_w - area.right_m;
  mirrored.right_m = glass_w - area.left_m;
  const std::vector<double> a = mapped_stress(solver, s, area);
  const std::vector<double> b = mapped_stress(solver, s, mirrored);
  const auto n = static_cast<std::size_t>(solver.points_per_side());
  double worst = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    worst = std::max(worst, std::abs(a[i] - b[n - 1 - i]));                  // bottom
    worst = std::max(worst, std::abs(a[2 * n + i] - b[2 * n + n - 1 - i]));  // top
    worst = std::max(worst, std::abs(a[n + i] - b[3 * n + i]));              // right, left
    worst = std::max(worst, std::abs(a[3 * n + i] - b[n + i]));
  }
  CHECK(worst < 1e-3 * highest(a));
}

namespace {

// A pane of the chain with a deep reveal, and a day whose sun passes it from the left to the right or the other way.
Case revealed_pane() {
  Case pane{};
  pane.width_m = width_m;
  pane.height_m = height_m;
  pane.tilt_rad = 0.5 * std::numbers::pi;
  pane.facing_rad = std::numbers::pi;
  const Line line = heat_lines::line("aluminum-break", "metal", bite_m, 1, 0.006, height_m);
  pane.before.thermal = line.glazing;
  pane.before.optics = {{bare_interface(), bare_interface(), bulk_transmittance(0.4)}};
  pane.edge = line.edge;
  pane.room.winter_k = pane.room.summer_k = 294.15;
  pane.shadow.reveal_depth_m = 0.25;
  pane.frame_solar_absorptance = 0.3;
  pane.outdoor_convection_w_m2k = 10.0;
  pane.sky_view = 0.354;
  pane.elasticity = elasticity;
  pane.air = line.air;
  return pane;
}

DesignDay passing_day(const Case& pane, double sense) {
  DesignDay day{1, DayKind::cold_clear, 600.0, {}};
  for (int i = 0; i < 144; ++i) {
    const double hour = (i + 0.5) / 6.0, angle = (hour - 12.0) / 12.0 * std::numbers::pi;
    DayStep step{hour, 265.0 + 6.0 * std::sin(angle - 0.5), 245.0, {}, 0, 0, {}};
    const bool up = std::abs(hour - 12.0) < 4.5;
    step.sun = {up ? 0.5 : -0.3, up ? 0.5 : -0.3, pane.facing_rad + sense * angle};
    step.slope = shadow_slope(step.sun, pane.facing_rad);
    const double cosine = up ? std::cos(0.5) * std::cos(angle) : 0.0;
    step.pane = {850.0 * cosine, up ? 120.0 : 0.0, up ? 60.0 : 0.0, cosine};
    day.steps.push_back(step);
  }
  return day;
}

}  // namespace

TEST_CASE("Mirrored facing, mirrored answer of the whole chain") {
  const bool fins = GENERATE(false, true);
  CAPTURE(fins);
  Case pane = revealed_pane(), other = pane;
  if (fins) {
    pane.shadow = other.shadow = {};
    pane.shadow.left_fin_depth_m = other.shadow.right_fin_depth_m = 0.3;
  }
  const std::vector<DesignDay> east_first{passing_day(pane, 1.0)}, west_first{passing_day(pane, -1.0)};
  ChainCache cache;
  const LitePeak a = worst_of_days(pane, pane.before, east_first, builtin_reference(), cache, false).lites[0];
  const LitePeak b = worst_of_days(other, other.before, west_first, builtin_reference(), cache, false).lites[0];
  CAPTURE(a.stress_pa, b.stress_pa, static_cast<int>(a.side), static_cast<int>(b.side), a.position_m, b.position_m);
  REQUIRE(a.stress_pa > 3e6);
  CHECK(a.stress_pa == Approx(b.stress_pa).epsilon(0.003));
  CHECK(a.when.local_hour == b.when.local_hour);
  if (a.side == Side::bottom || a.side == Side::top) {
    CHECK(a.side == b.side);
    CHECK(a.position_m == Approx(glass_w - b.position_m).margin(0.02));
  } else {
    CHECK(a.side == (b.side == Side::left ? Side::right : Side::left));
    CHECK(a.position_m == Approx(b.position_m).margin(0.02));
  }
}
