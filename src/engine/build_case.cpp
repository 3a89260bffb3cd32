// From words and numbers to the quantities of the physics, one part of the opening after the other.
#include <cmath>
#include <numbers>

#include "build_glazing.hpp"
#include "other_part.hpp"
#include "sunstrain/frame_u.hpp"
#include "sunstrain/job_keys.hpp"
#include "sunstrain/unit_build_up.hpp"

namespace sunstrain {
namespace internal {

double need_number(const Job& job, const std::string& key) {
  const auto value = number_of(job, key);
  if (!value) throw BadInput("{}: {} is missing", job.source, key);
  return *value;
}

std::string need_word(const Job& job, const std::string& key) {
  const auto value = word_of(job, key);
  if (!value) throw BadInput("{}: {} is missing", job.source, key);
  return *value;
}

}  // namespace internal

namespace {

using namespace internal;

EdgeSection edge_section(const Job& job, std::size_t lites, const Reference& reference) {
  EdgeSection edge{row_named(reference.frames, need_word(job, "frame.kind")),
                   lites > 1,
                   need_number(job, "frame.bite"),
                   {},
                   constant(reference, "pocket_conductivity"),
                   constant(reference, "edge_clearance_m"),
                   constant(reference, "butyl_thickness_m"),
                   constant(reference, "butyl_conductivity"),
                   constant(reference, "spacer_from_m"),
                   constant(reference, "spacer_to_m"),
                   constant(reference, "room_corner_factor"),
                   constant(reference, "room_corner_length_m")};
  edge.panels_outdoors = panel_of(job) == "outdoors" ? 1 : 0;
  edge.panels_indoors = panel_of(job) == "indoors" ? 1 : 0;
  if (edge.panels_outdoors > 0 && !edge.frame.outer_lip)
    throw BadInput("{}: panel.side: no panel stands outdoors of frame.kind = {}", job.source, edge.frame.name);
  if (edge.sealed) edge.spacer = row_named(reference.spacers, need_word(job, "unit.spacer"));
  if (const auto u_w_m2k = number_of(job, "frame.u_value"))
    (edge.sealed ? edge.frame.sealed : edge.frame.single) = with_frame_u(edge.frame, edge.sealed, *u_w_m2k);
  return edge;
}

RoomSide room_side(const Job& job, const Reference& reference) {
  RoomSide room{};
  const auto given = number_of(job, "inside.temperature");
  room.winter_k = given.value_or(constant(reference, "room_winter_k"));
  room.summer_k = given.value_or(constant(reference, "room_summer_k"));
  if (const std::string shade = need_word(job, "inside.shade"); shade != "none") {
    const IndoorShade& kind = row_named(reference.indoor_shades, shade);
    room.shade = {need_number(job, "inside.closure"), need_number(job, "inside.gap"), kind.emissivity,
                  need_word(job, "inside.vented") == "yes"};
    room.shade_reflectance = kind.solar_reflectance;
    room.shade_absorptance = 1.0 - kind.solar_reflectance - kind.solar_transmittance;
  }
  const std::string heat = need_word(job, "inside.heat");
  if (heat == "supply-vent") {
    room.forced_convection_w_m2k = constant(reference, "supply_vent_hc_w_m2k");
    room.forced_air_k = constant(reference, "supply_vent_air_k");
  } else if (heat != "none") {
    const double rise_k = constant(reference, heat == "radiator" ? "radiator_room_rise_k" : "heat_trap_room_rise_k");
    room.winter_k += rise_k;
    room.summer_k += heat == "radiator" ? 0.0 : rise_k;  // no radiator runs on a hot day
  }
  return room;
}

Place own_place(const Job& job, const Reference& reference) {
  const double latitude = need_number(job, "site.latitude"), longitude = need_number(job, "site.longitude");
  Place place = under_nearest_sky(latitude, longitude, reference.places);
  place.altitude_m = need_number(job, "site.altitude");
  place.utc_offset_h = number_of(job, "site.utc_offset").value_or(std::round(longitude * 12.0 / std::numbers::pi));
  place.coldest_k = need_number(job, "site.coldest");
  place.hottest_k = need_number(job, "site.hottest");
  if (place.hottest_k <= place.coldest_k) throw BadInput("{}: site.hottest must lie above site.coldest", job.source);
  place.hottest_month_range_k = need_number(job, "site.daily_range");
  place.daily_range_k.fill(place.hottest_month_range_k);
  return place;
}

double frame_beam_share(const std::string& word, Run run, const Reference& reference) {
  const std::string state = word == "partly" ? "unknown" : word;  // partly: what the middle run takes for not known
  return constant(reference, "frame_sun_" + state + (run == Run::bad_end ? "_bad" : "_middle"));
}

Reflectors reflectors_of(const Job& job, const Reference& reference) {
  Reflectors of;
  of.wall_distance_m = number_of(job, "shading.wall_distance").value_or(0.0);
  if (of.wall_distance_m > 0.0) of.wall_top_m = need_number(job, "shading.wall_height");
  of.wall_reflectance = number_of(job, "shading.wall_reflectance");
  if (of.wall_reflectance) of.wall_foot_m = need_number(job, "shading.wall_foot");
  of.water_refractive_index = constant(reference, "water_refractive_index");
  if (const auto distance_m = number_of(job, "site.water_distance")) {
    of.water_distance_m = *distance_m;
    of.water_width_m = need_number(job, "site.water_width");
    of.water_drop_m = need_number(job, "site.water_drop");
  }
  return of;
}

// They leave some glass.
void put_bars(const Job& job, ShadowPlan& plan) {
  plan.upright_bars = std::stoi(word_of(job, "shading.upright_bars").value_or("0"));
  plan.bars_across = std::stoi(word_of(job, "shading.bars_across").value_or("0"));
  if (plan.upright_bars + plan.bars_across == 0) return;
  plan.bar_width_m = need_number(job, "shading.bar_width");
  plan.bar_depth_m = need_number(job, "shading.bar_depth");
  const auto fit = [&](const char* key, int bars, const char* side) {
    constexpr double least_glass_m = 0.001;
    if (bars * plan.bar_width_m + least_glass_m <= need_number(job, side)) return;
    throw BadInput("{}: {}: {} bars of {} mm cover all of {}", job.source, key, bars,
                   std::lround(plan.bar_width_m * 1e3), side);
  };
  fit("shading.upright_bars", plan.upright_bars, "pane.width");
  fit("shading.bars_across", plan.bars_across, "pane.height");
}

}  // namespace

ShadowPlan shadow_plan(const Job& job) {
  using Pattern = ShadowPlan::Pattern;
  static constexpr std::pair<const char*, Pattern> patterns[]{{"none", Pattern::none},
                                                              {"head-band", Pattern::head_band},
                                                              {"side-band", Pattern::side_band},
                                                              {"L", Pattern::l_shape},
                                                              {"half", Pattern::half},
                                                              {"diagonal", Pattern::diagonal},
                                                              {"narrow-frame", Pattern::narrow_frame},
                                                              {"sun-patch", Pattern::sun_patch}};
  ShadowPlan plan;
  const std::string named = need_word(job, "shading.pattern");
  for (const auto& [name, pattern] : patterns) {
    if (named == name) plan.pattern = pattern;
  }
  plan.share = number_of(job, "shading.share").value_or(0.0);
  plan.pass = number_of(job, "shading.pass").value_or(0.0);
  plan.leafless_pass = number_of(job, "shading.leafless_pass");
  plan.overhang_depth_m = number_of(job, "shading.overhang_depth").value_or(0.0);
  if (plan.overhang_depth_m > 0.0) plan.overhang_height_m = need_number(job, "shading.overhang_height");
  plan.reveal_depth_m = number_of(job, "shading.reveal_depth").value_or(0.0);
  const auto fin = [&](const std::string& key, double& depth_m, double& distance_m) {
    depth_m = number_of(job, key + "_depth").value_or(0.0);
    if (depth_m > 0.0) distance_m = need_number(job, key + "_distance");
  };
  fin("shading.left_fin", plan.left_fin_depth_m, plan.left_fin_distance_m);
  fin("shading.right_fin", plan.right_fin_depth_m, plan.right_fin_distance_m);
  plan.wall_distance_m = number_of(job, "shading.wall_distance").value_or(0.0);
  if (plan.wall_distance_m > 0.0) plan.wall_height_m = need_number(job, "shading.wall_height");
  static constexpr std::pair<const char*, ShadowPlan::Screen> screens[]{
      {"bottom-half", ShadowPlan::Screen::bottom_half},
      {"left-half", ShadowPlan::Screen::left_half},
      {"right-half", ShadowPlan::Screen::right_half}};
  const std::string screen = word_of(job, "shading.screen").value_or("none");
  for (const auto& [name, half] : screens) {
    if (screen != name) continue;
    plan.screen = half;
    plan.screen_pass = need_number(job, "shading.screen_pass");
  }
  put_bars(job, plan);
  if (plan.pattern == Pattern::diagonal && (plan.moves() || screen != "none")) {
    throw BadInput("{}: shading.pattern = \"diagonal\" cannot be given together with a shadow that moves or a screen",
                   job.source);
  }
  return plan;
}

double outdoor_convection_w_m2k(double wind_m_s, const Reference& reference) {
  return constant(reference, "outside_convection_a") + constant(reference, "outside_convection_b") * wind_m_s;
}

Case build_case(const Job& job, Run run, const Reference& reference) {
  require_build_up(job);
  Case pane{};
  pane.width_m = need_number(job, "pane.width");
  pane.height_m = need_number(job, "pane.height");
  pane.tilt_rad = need_number(job, "pane.tilt");
  pane.facing_rad = need_number(job, "pane.facing");
  pane.room = room_side(job, reference);
  build_glazing(job, run, reference, pane);
  pane.edge = edge_section(job, lites_of(pane.sheets), reference);
  pane.shadow = shadow_plan(job);
  pane.reflectors = reflectors_of(job, reference);
  const auto place = word_of(job, "site.place");
  pane.place = place ? row_named(reference.places, *place) : own_place(job, reference);
  pane.shadow.southern = pane.place.latitude_rad < 0.0;
  pane.sealed_altitude_m = number_of(job, "unit.sealed_altitude").value_or(pane.place.altitude_m);
  const std::string ground = need_word(job, "site.ground");
  pane.winter_ground_reflectance = row_named(reference.grounds, ground).solar_reflectance;
  pane.ground_reflectance =
      ground == "snow" ? row_named(reference.grounds, "grass").solar_reflectance : pane.winter_ground_reflectance;
  pane.frame_solar_absorptance = row_named(reference.frame_colors, need_word(job, "frame.color")).solar_absorptance;
  pane.frame_beam_share = frame_beam_share(need_word(job, "frame.sun"), run, reference);
  pane.outdoor_convection_w_m2k = outdoor_convection_w_m2k(constant(reference, "wind_m_s"), reference);
  pane.sky_view = constant(reference, "sky_view_vertical");
  pane.bottom_edge_colder_k =
      pane.edge.sealed && run == Run::bad_end ? constant(reference, "bottom_edge_colder_k") : 0.0;
  pane.elasticity = {constant(reference, "glass_young_pa"), constant(reference, "glass_expansion_per_k")};
  pane.air = row_named(reference.gases, "air");
  internal::put_other_part(job, reference, pane);
  return pane;
}

}  // namespace sunstrain
