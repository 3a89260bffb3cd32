// A part of the pane that takes up sun or gives off heat otherwise than the rest: behind a half-drawn blind, under a
// sign, left bare by the film.
#include <catch2/catch.hpp>

#include "../../src/engine/year_parts.hpp"
#include "sunstrain/assess.hpp"
#include "sunstrain/field.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/reference_load.hpp"
#include "support/jobs.hpp"

using namespace sunstrain;
using namespace sunstrain::test;

namespace {

std::vector<DesignDay> winter_day(const Case& pane) {
  return {design_day(pane.place, 1, DayKind::cold_clear, pane.tilt_rad, pane.facing_rad, pane.ground_reflectance, 144,
                     builtin_reference())};
}

YearPeaks peaks_of(const Case& pane, const GlazingState& state, Steps steps = Steps::that_can_govern) {
  ChainCache cache;
  return worst_of_days(pane, state, winter_day(pane), builtin_reference(), cache, false, steps);
}

double highest_pa(const Case& pane, Steps steps = Steps::that_can_govern) {
  double most = 0.0;
  for (const LitePeak& lite : peaks_of(pane, pane.after, steps).lites) most = std::max(most, lite.stress_pa);
  return most;
}

Case sign_case(const char* side, const char* reflectance, std::initializer_list<const char*> more = {}) {
  Job job = complete_double(
      {side, "sign.width=400 mm", "sign.height=300 mm", "sign.left=200 mm", "sign.bottom=500 mm", reflectance});
  for (const char* text : more) set_key(job, text, builtin_reference());
  return build_case(job, Run::bad_end, builtin_reference());
}

// Middles at noon: of the pane, and of glass like the part's.
struct Noon {
  std::vector<double> rest_k, part_k;
};
Noon noon_of(const Case& pane) {
  ChainCache cache;
  const std::vector<DesignDay> days = winter_day(pane);
  const internal::AbsorptionTable table(pane.after, pane.room.back_reflectance());
  const internal::DayStrips strips = internal::strips_of_days(pane, pane.after, table, days, cache.store())[0];
  Noon noon;
  for (std::size_t lite = 0; lite < 2; ++lite) {
    noon.rest_k.push_back(strips.lit->strip(72, lite).back());
    noon.part_k.push_back(strips.other_in_sun(72, lite).back());
  }
  return noon;
}

}  // namespace

TEST_CASE("Part of a pane: what the sun adds to it follows the light on it") {
  ShadowPlan plan;
  plan.overhang_depth_m = 0.5;
  plan.part = {"sign", 0.2, 0.6, 0.25, 0.75};  // 0.35 to 1.05 m up a pane of 1.4 m
  const auto light = [&](double tan_profile) { return light_of(plan, 1.0, 1.4, 0.01, {tan_profile, 0.0, true}); };
  const auto sums = [](const Light& of, double x, double y) {
    std::array<double, 3> sum{};
    for (const LightPart& part : of.parts) {
      const LitArea& a = part.lit;
      if (x > a.left_m && x < a.right_m && y > a.bottom_m && y < a.top_m)
        sum[static_cast<std::size_t>(part.adds)] += part.share;
    }
    return sum;
  };
  using Sums = std::array<double, 3>;
  CHECK(light(0.0).sun_under);  // all in the sun: the part's own strip in place of the rest's
  CHECK(sums(light(0.0), 0.4, 0.6) == Sums{0.0, 0.0, 1.0});
  CHECK(sums(light(0.0), 0.1, 0.6) == Sums{0.0, 0.0, 0.0});
  const Light half = light(1.4);  // shaded from 0.7 m up
  CHECK_FALSE(half.sun_under);
  CHECK(sums(half, 0.4, 0.6) == Sums{1.0, 1.0, 1.0});
  CHECK(sums(half, 0.4, 0.9) == Sums{0.0, 0.0, 1.0});
  CHECK(sums(half, 0.9, 0.6) == Sums{1.0, 0.0, 0.0});
  const Light low = light_of(plan, 1.0, 1.4, 0.01, {0.0, 0.0, false});  // no sun: the difference stays
  CHECK(low.sun_under);
  CHECK(sums(low, 0.4, 0.6) == Sums{0.0, 0.0, 1.0});
  CHECK_FALSE(plan.mirrored_in_x());
  plan.part = {"half-drawn blind", 0.0, 1.0, 0.5, 1.0};
  CHECK(plan.mirrored_in_x());
}

TEST_CASE("Part of a pane: one that is like the rest changes nothing") {
  for (const char* shadow : {"shading.pattern=none", "shading.pattern=half", "shading.overhang_depth=0.6 m"}) {
    CAPTURE(shadow);
    const Case plain = complete_double_case({shadow});
    Case alike = plain;
    alike.shadow.part = {"sign", 0.2, 0.6, 0.3, 0.6};
    alike.after.other = std::make_shared<const OtherPart>(OtherPart{plain.after, plain.room});
    CHECK(highest_pa(alike) == Approx(highest_pa(plain)).epsilon(1e-3));  // a solver made for more borders
  }
}

TEST_CASE("Part of a pane: one that is all of it is a pane made so") {
  const auto* shadow = GENERATE("shading.pattern=none", "shading.pattern=head-band", "shading.overhang_depth=0.6 m");
  CAPTURE(shadow);
  const Case open = complete_double_case({shadow}),
             blind = complete_double_case(
                 {shadow, "inside.shade=light-blind", "inside.gap=50 mm", "inside.closure=100 %", "inside.vented=yes"});
  Case all = open;
  all.shadow.part = {"half-drawn blind"};
  all.after.other = std::make_shared<const OtherPart>(OtherPart{blind.after, blind.room});
  CHECK(highest_pa(blind) > 1.05 * highest_pa(open));
  CHECK(highest_pa(all) == Approx(highest_pa(blind)).epsilon(0.005));
}

TEST_CASE("Half-drawn blind: behind it the glass is warmer, in front of the open room as without one") {
  const Case open = complete_double_case({}),
             drawn = complete_double_case({"inside.shade=light-blind", "inside.gap=50 mm", "inside.vented=yes",
                                           "inside.closure=50 %", "inside.drawn=from-top"}),
             closed = complete_double_case({"inside.shade=light-blind", "inside.gap=50 mm", "inside.vented=yes",
                                            "inside.closure=100 %", "inside.drawn=from-top"});
  const Noon middles = noon_of(drawn), without = noon_of(open), behind = noon_of(closed);
  CHECK(middles.rest_k[1] == Approx(without.rest_k[1]).epsilon(1e-9));
  CHECK(middles.part_k[1] == Approx(behind.rest_k[1]).epsilon(1e-9));
  CHECK(middles.part_k[1] > middles.rest_k[1] + 2.0);
  CHECK(drawn.shadow.part->bottom == Approx(0.5));
  CHECK_FALSE(closed.shadow.part.has_value());    // a whole one is no part
  CHECK(highest_pa(drawn) > highest_pa(closed));  // the cool open half pulls at the edge behind the blind
}

TEST_CASE("Half-drawn blind: from the left as from the right, seen in a mirror") {
  const auto drawn = [](const char* from) {
    return complete_double_case(
        {"inside.shade=dark-blind", "inside.gap=50 mm", "inside.vented=yes", "inside.closure=40 %", from});
  };
  CHECK(highest_pa(drawn("inside.drawn=from-left")) ==
        Approx(highest_pa(drawn("inside.drawn=from-right"))).epsilon(1e-6));
}

TEST_CASE("Sign: a dark one indoors heats its glass, a light one less, and one outdoors keeps the sun off") {
  const Noon dark = noon_of(sign_case("sign.side=inside", "sign.reflectance=5 %")),
             light = noon_of(sign_case("sign.side=inside", "sign.reflectance=70 %")),
             outside = noon_of(sign_case("sign.side=outside", "sign.reflectance=70 %")),
             black = noon_of(sign_case("sign.side=outside", "sign.reflectance=5 %"));
  CHECK(dark.part_k[1] > light.part_k[1] + 3.0);
  CHECK(light.part_k[1] > light.rest_k[1]);
  CHECK(outside.part_k[1] < outside.rest_k[1] - 5.0);
  CHECK(black.part_k[0] > outside.part_k[0] + 5.0);  // a black one heats the outer lite
  CHECK(dark.rest_k == outside.rest_k);
}

TEST_CASE("Sign: all the sun that does not come back is taken up, by the glass or by what is stuck to it") {
  const auto [side, lite] = GENERATE(std::pair{"sign.side=inside", 1}, std::pair{"sign.side=outside", 0});
  const Case pane = sign_case(side, "sign.reflectance=30 %");
  const OtherPart& part = *pane.after.other;
  const internal::AbsorptionTable table(part.state, part.room.back_reflectance());
  const Case under = internal::pane_of_part(pane, part);
  DayStep step = winter_day(pane)[0].steps[72];
  step.pane = {500.0, 0.0, 0.0, 1.0};
  const StepLoads loads = internal::step_loads(under, table, step, DayKind::cold_clear, 1.0);
  double sum = 0.0;
  for (const FaceSources& s : loads.absorbed) sum += s.outer_face_w_m2 + s.bulk_w_m2 + s.inner_face_w_m2;
  CHECK(sum == Approx(500.0 * (1.0 - table.normal().reflected)));
  CHECK(loads.shade_absorbed_w_m2 == 0.0);
  CHECK((lite == 0) == (table.normal().lites[1].total() < 1e-12));
}

TEST_CASE("Sign: the bounds rule out no step that governs, under an overhang too, and the energy closes") {
  const auto* overhang = GENERATE("shading.overhang_depth=0 m", "shading.overhang_depth=0.8 m");
  const Case pane =
      complete_double_case({overhang, "shading.overhang_height=0 m", "sign.side=inside", "sign.width=400 mm",
                            "sign.height=300 mm", "sign.left=0 mm", "sign.bottom=900 mm", "sign.reflectance=5 %"});
  CHECK(highest_pa(pane) == highest_pa(pane, Steps::all));
  CHECK(peaks_of(pane, pane.after).worst_energy_residual < 1e-6);
}

TEST_CASE("Film over part of the pane: bare glass there, film elsewhere, and no film no part") {
  const Case whole = complete_double_case({}), part = complete_double_case({"film.bare=top", "film.bare_share=40 %"});
  CHECK(noon_of(part).rest_k == noon_of(whole).rest_k);
  Case bare = whole;
  bare.after = whole.before;
  CHECK(noon_of(part).part_k == noon_of(bare).rest_k);
  CHECK(highest_pa(part) > highest_pa(whole));  // a cool band beside warm glass
  CHECK(part.before.other == nullptr);
  CHECK(peaks_of(part, part.before).lites[1].stress_pa ==
        Approx(peaks_of(whole, whole.before).lites[1].stress_pa).epsilon(2e-4));
}

TEST_CASE(
    "Film over part of the pane: as little bare as can be said is nearly a whole film, nearly all is nearly none") {
  const Case whole = complete_double_case({});
  const auto stress = [](const char* share) { return highest_pa(complete_double_case({"film.bare=left", share})); };
  Case bare = whole;
  bare.after = whole.before;
  CHECK(stress("film.bare_share=50 %") > stress("film.bare_share=2 %"));
  CHECK(stress("film.bare_share=98 %") < stress("film.bare_share=50 %"));
  // What is left of the film, a warm strip along one side, eases that side.
  CHECK(stress("film.bare_share=98 %") == Approx(highest_pa(bare)).epsilon(0.1));
}

TEST_CASE("Sash in front: less sun, less loss, and resistances in a row as a unit of more panes has them") {
  const Case pane = complete_double_case({"sash.side=left", "sash.share=50 %"});
  const OtherPart& part = *pane.after.other;
  CHECK(part.state.optics.size() == 4);
  CHECK(part.state.thermal.lites.size() == 2);
  const internal::AbsorptionTable table(part.state, part.room.back_reflectance()), alone(pane.after, 0.0);
  const Case behind = internal::pane_of_part(pane, part);
  const auto days = winter_day(pane);
  for (const DayStep& step : days[0].steps) {
    const StepLoads with = internal::step_loads(behind, table, step, DayKind::cold_clear, 1.0),
                    without = internal::step_loads(pane, alone, step, DayKind::cold_clear, 1.0);
    REQUIRE(with.absorbed.size() == 2);
    if (step.pane.beam_w_m2 > 0.0) CHECK(with.absorbed[1].inner_face_w_m2 < 0.9 * without.absorbed[1].inner_face_w_m2);
    CHECK(with.outdoor_convection_w_m2k < 2.5);  // the sash (2.9 W/m2K by EN 673, face to face 6) and still air
    CHECK(with.outdoor_convection_w_m2k > 1.5);
  }
  // At night without a sky, so that nothing but resistances counts: the same flow as through twice the panes.
  StepLoads night = internal::step_loads(pane, alone, days[0].steps[0], DayKind::cold_clear, 0.0);
  DayStep dark = winter_day(pane)[0].steps[0];
  dark.sky_k = dark.outdoor_air_k;
  night = internal::step_loads(behind, table, dark, DayKind::cold_clear, 0.0);
  const CenterBalance two = steady_center(part.state.thermal, night, pane.room.shade, pane.air);
  Glazing four = pane.after.thermal;
  four.lites.insert(four.lites.begin(), pane.before.thermal.lites.begin(), pane.before.thermal.lites.end());
  const ThermalCavity gap{0.05, pane.air}, own = pane.before.thermal.cavities[0];
  four.cavities = {own, gap, own};
  StepLoads open = internal::step_loads(pane, alone, dark, DayKind::cold_clear, 0.0);
  open.absorbed.resize(4);
  for (FaceSources& s : open.absorbed) s = {0.0, 0.0, 0.0};
  for (FaceSources& s : night.absorbed) s = {0.0, 0.0, 0.0};
  const CenterBalance all = steady_center(four, open, pane.room.shade, pane.air);
  CHECK(steady_center(part.state.thermal, night, pane.room.shade, pane.air).mean_k[1] ==
        Approx(all.mean_k[3]).margin(0.7));
  CHECK(two.mean_k[0] == Approx(all.mean_k[2]).margin(1.5));
}

TEST_CASE("Sash in front: a rim that the film leaves bare is one there too") {
  const Case pane = complete_double_case({"sash.side=left", "sash.share=50 %", "film.edge_gap=3 mm"});
  const OtherPart& part = *pane.after.other;
  const internal::AbsorptionTable table(part.state, part.room.back_reflectance()), alone(pane.after, 0.0);
  CHECK(table.rim_less_of_diffuse() > 0.0);
  CHECK(table.rim_less_of_diffuse() < alone.rim_less_of_diffuse());
}

TEST_CASE("Sash in front: the bounds rule out no step that governs, the energy closes, and it is named") {
  const Case pane = complete_double_case({"sash.side=left", "sash.share=50 %"});
  CHECK(highest_pa(pane) == highest_pa(pane, Steps::all));
  CHECK(peaks_of(pane, pane.after).worst_energy_residual < 1e-6);
  const Assessment a = assess(complete_double({"sash.side=left", "sash.share=50 %"}), builtin_reference());
  CHECK(a.shadow.casting == std::vector<std::string>{"sash in front"});
}

TEST_CASE("Part of a pane: the answer names it") {
  const Reference& reference = builtin_reference();
  const Assessment a = assess(complete_double({"sign.side=inside", "sign.width=400 mm", "sign.height=300 mm",
                                               "sign.left=0 mm", "sign.bottom=500 mm", "sign.reflectance=5 %"}),
                              reference);
  CHECK(a.shadow.casting == std::vector<std::string>{"sign"});
  CHECK(a.shadow.part_differs_k > 3.0);
  CHECK(a.stress_ratio > assess(complete_double({}), reference).stress_ratio);
  CHECK_FALSE(a.shadow.worst_pattern.empty());
}

TEST_CASE("Part of a pane: what cannot be is refused") {
  const auto refused = [](std::initializer_list<const char*> changes, const char* says) {
    CHECK_THROWS_WITH(complete_double(changes), Catch::Contains(says));
  };
  refused({"sign.side=inside"}, "sign.width: is missing beside sign.side");
  refused({"sign.side=inside", "sign.width=700 mm", "sign.height=300 mm", "sign.left=400 mm", "sign.bottom=0 mm"},
          "together are 100 mm more than pane.width");
  refused({"film.bare=top", "inside.shade=dark-blind", "inside.closure=50 %", "inside.drawn=from-top"},
          "one at a time");
  refused({"film.bare=top", "shading.pattern=diagonal"}, "cannot be given together with shading.pattern");
  refused({"inside.shade=dark-blind", "inside.drawn=from-top"}, "inside.closure beside it");
  refused({"film.bare_share=20 %"}, "it needs film.bare");
  refused({"sash.side=left", "panel.side=outdoors"}, "worked without sign and sash");
}
