// The light on a pane as a sum of parts, and the insect screen that takes some of it away.
#include <algorithm>
#include <catch2/catch.hpp>

#include "../../src/engine/year_parts.hpp"
#include "sunstrain/assess.hpp"
#include "sunstrain/field.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

// How much of the beam reaches a point of the glass, borders sharp.
double light_at(const Light& light, double x_m, double y_m) {
  double sum = light.sun_under ? 1.0 : 0.0;
  for (const LightPart& part : light.parts) {
    const LitArea& lit = part.lit;
    const bool there = x_m > lit.left_m && x_m < lit.right_m && y_m > lit.bottom_m && y_m < lit.top_m;
    if (there && part.adds == LightPart::Adds::sun) sum += part.share;
  }
  return sum;
}

double highest_pa(const Case& pane, Steps steps = Steps::that_can_govern) {
  const Reference& reference = builtin_reference();
  ChainCache cache;
  const std::vector<DesignDay> days{design_day(pane.place, 1, DayKind::cold_clear, pane.tilt_rad, pane.facing_rad,
                                               pane.ground_reflectance, 144, reference)};
  double most = 0.0;
  for (const LitePeak& lite : worst_of_days(pane, pane.after, days, reference, cache, false, steps).lites)
    most = std::max(most, lite.stress_pa);
  return most;
}

}  // namespace

TEST_CASE("Light: a screen takes its share of the beam where there is one") {
  ShadowPlan plan;
  plan.overhang_depth_m = 0.5;
  plan.screen = ShadowPlan::Screen::bottom_half;
  plan.screen_pass = 0.6;
  const auto light = [&](double tan_profile) { return light_of(plan, 1.0, 1.4, 0.012, {tan_profile, 0.0, true}); };
  const Light high = light(0.0);  // no shadow of the overhang
  CHECK(light_at(high, 0.5, 1.2) == 1.0);
  CHECK(light_at(high, 0.5, 0.3) == Approx(0.6));
  const Light some = light(1.0);  // it shades the uppermost half meter
  CHECK(light_at(some, 0.5, 1.2) == 0.0);
  CHECK(light_at(some, 0.5, 0.8) == 1.0);
  CHECK(light_at(some, 0.5, 0.3) == Approx(0.6));
  const Light low = light(2.4);  // and more than half of the pane
  CHECK(light_at(low, 0.5, 0.5) == 0.0);
  CHECK(light_at(low, 0.5, 0.1) == Approx(0.6));
  CHECK(light(3.0).parts.empty());
  CHECK_FALSE(light(3.0).sun_under);
  plan.screen = ShadowPlan::Screen::right_half;
  CHECK(light_at(light(0.0), 0.2, 0.5) == 1.0);
  CHECK(light_at(light(0.0), 0.9, 0.5) == Approx(0.6));
}

TEST_CASE("Light: a dappled shadow lets its share through, under an overhang and behind a screen too") {
  ShadowPlan plan;
  plan.pattern = ShadowPlan::Pattern::half;  // of a tree: the left half
  plan.pass = 0.3;
  plan.overhang_depth_m = 0.5;
  plan.screen = ShadowPlan::Screen::bottom_half;
  plan.screen_pass = 0.5;
  const Light light = light_of(plan, 1.0, 1.4, 0.012, {1.0, 0.0, true});
  CHECK(light_at(light, 0.8, 1.2) == Approx(0.0).margin(1e-12));  // the overhang's
  CHECK(light_at(light, 0.2, 1.2) == Approx(0.0).margin(1e-12));
  CHECK(light_at(light, 0.8, 0.8) == Approx(1.0));
  CHECK(light_at(light, 0.2, 0.8) == Approx(0.3));
  CHECK(light_at(light, 0.8, 0.2) == Approx(0.5));
  CHECK(light_at(light, 0.2, 0.2) == Approx(0.15));
}

TEST_CASE("Dappled shadow: between a full shadow and none, whichever way it lies") {
  const auto* pattern = GENERATE("half", "L", "diagonal");
  CAPTURE(pattern);
  Case dappled = complete_double_case({("shading.pattern=" + std::string(pattern)).c_str()}), full = dappled,
       bare = complete_double_case({"shading.pattern=none"});
  dappled.shadow.pass = 0.4;
  CHECK(highest_pa(dappled) < highest_pa(full));
  CHECK(highest_pa(dappled) > highest_pa(bare));
  dappled.shadow.pass = 1.0;
  CHECK(highest_pa(dappled) == Approx(highest_pa(bare)).epsilon(0.005));
}

TEST_CASE("Insect screen: one that passes nothing is a half shadow, one that passes all is none") {
  Case half = complete_double_case({"shading.pattern=half"}), screen = complete_double_case({"shading.pattern=none"}),
       bare = screen;
  screen.shadow.screen = ShadowPlan::Screen::left_half;
  screen.shadow.screen_pass = 0.0;
  CHECK(highest_pa(screen) == Approx(highest_pa(half)).epsilon(1e-6));
  screen.shadow.screen_pass = 1.0;
  CHECK(highest_pa(screen) ==
        Approx(highest_pa(bare)).epsilon(1e-4));  // a solver made for a border beside one for none
  screen.shadow.screen_pass = 0.6;
  CHECK(highest_pa(screen) > highest_pa(bare));
  CHECK(highest_pa(screen) < highest_pa(half));
}

TEST_CASE("Insect screen under an overhang: the bounds rule out no step that governs") {
  const auto* screen = GENERATE("shading.screen=bottom-half", "shading.screen=left-half");
  const Case pane = complete_double_case(
      {"shading.overhang_depth=0.5 m", "shading.overhang_height=0.1 m", screen, "shading.screen_pass=50 %"});
  CHECK(highest_pa(pane) == highest_pa(pane, Steps::all));
}

TEST_CASE("Insect screen: the answer names it") {
  const Assessment a = assess(complete_double({"shading.screen=bottom-half"}), builtin_reference());
  CHECK(a.shadow.casting == std::vector<std::string>{"insect screen"});
  CHECK(a.stress_ratio > assess(complete_double({}), builtin_reference()).stress_ratio);
}

TEST_CASE("A tree that sheds its leaves: each month as a job with that pass the year round") {
  const Reference& reference = builtin_reference();
  const Case tree = complete_double_case({"shading.pattern=half", "shading.pass=10 %", "shading.leafless_pass=60 %"});
  const Case leafy = complete_double_case({"shading.pattern=half", "shading.pass=10 %"});
  const Case bare = complete_double_case({"shading.pattern=half", "shading.pass=60 %"});
  const auto in_month = [&](const Case& pane, int month) {
    ChainCache cache;
    const std::vector<DesignDay> days{design_day(pane.place, month, DayKind::cold_clear, pane.tilt_rad, pane.facing_rad,
                                                 pane.ground_reflectance, 144, reference)};
    return worst_of_days(pane, pane.after, days, reference, cache, false).lites[0].stress_pa;
  };
  for (int month : {11, 1, 3}) CHECK(in_month(tree, month) == Approx(in_month(bare, month)).epsilon(1e-12));
  for (int month : {4, 7, 10}) CHECK(in_month(tree, month) == Approx(in_month(leafy, month)).epsilon(1e-12));
  CHECK(in_month(bare, 1) < in_month(leafy, 1));
  ShadowPlan south = tree.shadow;
  south.southern = true;
  CHECK(south.in_month(7).pass == 0.6);
  CHECK(south.in_month(1).pass == 0.1);
}

TEST_CASE("A tree that sheds its leaves: both seasons are in one run of days, solid in leaf or not") {
  const Reference& reference = builtin_reference();
  const auto* in_leaf = GENERATE("shading.pass=0 %", "shading.pass=20 %");
  const Case tree = complete_double_case({"shading.pattern=L", in_leaf, "shading.leafless_pass=50 %"});
  ChainCache cache, all;
  std::vector<DesignDay> days;
  for (int month : {1, 4, 6, 11})
    days.push_back(design_day(tree.place, month, DayKind::cold_clear, tree.tilt_rad, tree.facing_rad,
                              tree.ground_reflectance, 144, reference));
  const YearPeaks together = worst_of_days(tree, tree.after, days, reference, cache, false);
  const YearPeaks every = worst_of_days(tree, tree.after, days, reference, all, false, Steps::all);
  double most_pa = 0.0;
  for (const DesignDay& day : days) {
    ChainCache alone;
    most_pa = std::max(most_pa, worst_of_days(tree, tree.after, {&day, 1}, reference, alone, false).lites[0].stress_pa);
  }
  CHECK(together.lites[0].stress_pa == Approx(most_pa).epsilon(1e-4));  // a solver made for the sharpest of the days
  CHECK(together.lites[0].stress_pa == every.lites[0].stress_pa);
}

TEST_CASE("A tree that sheds its leaves: steps of a weather year each have their month's light") {
  const Reference& reference = builtin_reference();
  const Case tree = complete_double_case({"shading.pattern=half", "shading.pass=10 %", "shading.leafless_pass=60 %"});
  std::vector<DayStep> steps;
  for (int month : {1, 7, 12}) {
    const DesignDay day = design_day(tree.place, month, DayKind::cold_clear, tree.tilt_rad, tree.facing_rad,
                                     tree.ground_reflectance, 24, reference);
    steps.insert(steps.end(), day.steps.begin(), day.steps.end());
  }
  const internal::DayLight light = internal::light_through(tree, steps);
  REQUIRE(light.size() == steps.size());
  for (std::size_t i = 0; i < steps.size(); ++i) {
    CAPTURE(i, steps[i].month);
    CHECK(light_at(light[i], 0.1, 0.5) == Approx(steps[i].month == 7 ? 0.1 : 0.6));
    CHECK(light_at(light[i], 0.9, 0.5) == Approx(1.0));
  }
}

TEST_CASE("Glazing bars: their own width is dark, and their shadow beside them, joined where shadows meet") {
  ShadowPlan plan;
  plan.upright_bars = 1;
  plan.bars_across = 2;
  plan.bar_width_m = 0.04;
  plan.bar_depth_m = 0.05;
  const auto light = [&](double profile, double gamma) {
    return light_of(plan, 1.0, 1.5, 0.012, {profile, gamma, true});
  };
  const auto at = [&](const Light& of, double x, double y) { return light_at(of, x + 0.012, y + 0.012); };
  const Light some = light(2.0, 1.0);  // the sun high on the right: shadows 0.1 m down and 0.05 m to the left
  CHECK(some.sun_under);
  CHECK(at(some, 0.5, 0.25) == 0.0);
  CHECK(at(some, 0.44, 0.25) == 0.0);
  CHECK(at(some, 0.42, 0.25) == 1.0);
  CHECK(at(some, 0.53, 0.25) == 1.0);
  CHECK(at(some, 0.2, 0.5) == 0.0);
  CHECK(at(some, 0.2, 0.39) == 0.0);
  CHECK(at(some, 0.2, 0.37) == 1.0);
  CHECK(at(some, 0.2, 0.53) == 1.0);
  CHECK(light(12.0, 0.0).parts.size() == 2);  // the shadows of both cross bars have met
  CHECK(at(light(12.0, 0.0), 0.2, 0.6) == 0.0);
  CHECK(at(light(12.0, 0.0), 0.2, 1.1) == 1.0);
  CHECK(light_of(plan, 1.0, 1.5, 0.012, {0.0, 0.0, false}).parts.empty());
  CHECK(casting(plan, 1.0, 1.5, {1.0, 0.0, true}) == std::vector<std::string>{"glazing bars"});
}

TEST_CASE("Glazing bars: the bounds rule out no step that governs") {
  const auto* upright = GENERATE("shading.upright_bars=0", "shading.upright_bars=1");
  const Case pane =
      complete_double_case({upright, "shading.bars_across=2", "shading.bar_width=30 mm", "shading.bar_depth=30 mm"});
  CHECK(highest_pa(pane) == highest_pa(pane, Steps::all));
}

TEST_CASE("Glazing bars: their crossings taken away once or twice is all but the same") {
  const Case pane = complete_double_case(
      {"shading.upright_bars=1", "shading.bars_across=1", "shading.bar_width=30 mm", "shading.bar_depth=30 mm"});
  const Reference& reference = builtin_reference();
  ChainCache cache;
  const std::vector<DesignDay> days{design_day(pane.place, 1, DayKind::cold_clear, pane.tilt_rad, pane.facing_rad,
                                               pane.ground_reflectance, 144, reference)};
  const internal::AbsorptionTable table(pane.after, 0.0);
  const auto strips = internal::strips_of_days(pane, pane.after, table, days, cache.store());
  const auto maps = internal::maps_of_lites(pane, pane.after, strips, 144, cache.store());
  std::vector<internal::DayLight> twice = internal::light_of_days(pane, days), once = twice;
  for (Light& light : once[0]) {
    std::vector<LightPart> crossings;
    for (std::size_t a = 0; a < light.parts.size(); ++a)
      for (std::size_t b = a + 1; b < light.parts.size(); ++b) {
        LitArea both = light.parts[a].lit;
        both.left_m = std::max(both.left_m, light.parts[b].lit.left_m);
        both.right_m = std::min(both.right_m, light.parts[b].lit.right_m);
        both.bottom_m = std::max(both.bottom_m, light.parts[b].lit.bottom_m);
        both.top_m = std::min(both.top_m, light.parts[b].lit.top_m);
        if (both.left_m < both.right_m && both.bottom_m < both.top_m) crossings.push_back({both, 1.0});
      }
    light.parts.insert(light.parts.end(), crossings.begin(), crossings.end());
  }
  const auto at_noon = [&](const std::vector<internal::DayLight>& light, std::size_t step) {
    const auto lites = internal::days_of_lite(pane, light, strips, 1, maps[1], cache.store());
    const std::vector<double> pa = lites[0].stress(step);
    return *std::max_element(pa.begin(), pa.end());
  };
  for (std::size_t step : {56u, 64u, 72u, 80u}) {
    CAPTURE(step);
    CHECK(at_noon(twice, step) == Approx(at_noon(once, step)).epsilon(0.01));
  }
}

TEST_CASE("Light: bars that would cover all of the pane are refused") {
  for (const char* bars : {"shading.upright_bars=6", "shading.bars_across=6"}) {
    CAPTURE(bars);
    const auto with = [&](const char* width) {
      return complete_double_case({bars, "pane.width=0.9 m", "pane.height=0.9 m", width, "shading.bar_depth=10 mm"});
    };
    CHECK_THROWS_AS(with("shading.bar_width=150 mm"), BadInput);
    CHECK_NOTHROW(with("shading.bar_width=140 mm"));
  }
}
