// What is said of the hour that governs, figure by figure.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "sun_internal.hpp"
#include "trace_hour.hpp"

namespace sunstrain::internal {
namespace {

constexpr double deg_per_rad = 180.0 / std::numbers::pi, zero_celsius_k = 273.15, pa_per_mpa = 1e6, mm_per_m = 1e3;

double celsius(double kelvin) { return kelvin - zero_celsius_k; }

Saying lite_text(const GoverningHour& hour, std::size_t index) {
  const Sheet& sheet = hour.pane.sheets[index];
  if (sheet.panel) return "panel";
  if (sheet.plies == 1) return saying("lite {}", sheet.lite + 1);
  return sheet.ply == 0 ? saying("lite {}, outer ply,", sheet.lite + 1) : saying("lite {}, inner ply,", sheet.lite + 1);
}

// A constant of the tables, with its own source.
Figure of_table(const Reference& reference, const char* name, const char* what, double per_unit, const char* unit) {
  const Constant& row = reference.constants.find(name)->second;
  return {what, row.value * per_unit, unit, row.source.text};
}

}  // namespace

std::vector<Figure> sun_figures(const GoverningHour& hour, const Reference& reference) {
  const DayStep& sky = hour.sky();
  const Place& place = hour.pane.place;
  const int month = hour.day->month, day = sun_internal::design_day_of_month;
  std::vector<Figure> figures{
      {"latitude", place.latitude_rad * deg_per_rad, "deg", saying("the place; {}", place.source.text)},
      {"standard time, middle of the step", sky.local_hour, "h", "the 21st of the month, ten-minute steps"},
      {"height of the sun, refraction in", sky.sun.apparent_elevation_rad * deg_per_rad, "deg",
       "Grena 2012, algorithm 3; refraction by the day's pressure and air"},
      {"azimuth of the sun, from north", sky.sun.azimuth_rad * deg_per_rad, "deg", "the same"},
      {"sun outside the air, normal", extraterrestrial_w_m2(day_of_year(sun_internal::design_year, month, day)), "W/m2",
       "E0 = 1367 [1 + 0.033 cos(360 (n-3)/365)]; ASHRAE Handbook of Fundamentals, climatic design information"},
      {"optical depth of the beam", monthly_interpolated(place.tau_beam, month, day), "1", place.source.text},
      {"beam, normal", sky.beam_normal_w_m2, "W/m2",
       saying("Eb = E0 exp(-tau_b m^ab), m of Kasten & Young 1989; ASHRAE clear sky, {}", place.tau_edition)},
      {"diffuse, horizontal", sky.diffuse_horizontal_w_m2, "W/m2", "Ed = E0 exp(-tau_d m^ad); the same"},
      {"angle of incidence", std::acos(sky.pane.cos_incidence) * deg_per_rad, "deg", "cos i of sun and pane's normal"},
      {"beam on the pane", sky.pane.beam_w_m2, "W/m2", "Eb cos i"},
      {"sky on the pane", sky.pane.sky_w_m2, "W/m2", "Ed Y, Y = max(0.45, 0.55 + 0.437 cos i + 0.313 cos2 i); ASHRAE"},
      {"ground on the pane", sky.pane.ground_w_m2, "W/m2", "(Eb sin h + Ed) rho (1 - cos tilt)/2; ASHRAE"}};
  if (const Reflectors& r = hour.pane.reflectors; r.wall_reflectance) {
    const double seen = strip_view_factor(hour.pane.height_m, r.wall_distance_m, -r.wall_foot_m, r.wall_top_m);
    figures.push_back({"wall opposite, of what the pane sees", seen, "1",
                       "F = (crossed - uncrossed strings)/(2 height), Hottel; sky and ground behind it are taken off"});
    figures.push_back({"wall opposite on the pane", sky.pane.wall_w_m2, "W/m2",
                       "F rho (beam + sky + ground on its face); nothing shades it"});
  }
  if (hour.pane.reflectors.water_width_m > 0.0)
    figures.push_back({"water on the pane", sky.pane.water_w_m2, "W/m2",
                       "Eb cos i R, i to the sun's image below the horizon, R by Fresnel for the water's index"});
  const std::vector<Figure> rest{
      {"sun on the pane", sky.pane.total_w_m2(), "W/m2", "their sum"},
      {"outdoor air", celsius(sky.outdoor_air_k), "C",
       "design day of the place: its coldest or hottest air, daily course by ASHRAE's shares of the range"},
      {"sky", celsius(sky.sky_k), "C",
       "clear-sky emissivity of Li, Jiang & Coimbra 2017 (after Martin & Berdahl) with the day's dew point"},
      of_table(reference, "dew_point_below_minimum_k", "dew point below the day's coldest air", 1.0, "K")};
  figures.insert(figures.end(), rest.begin(), rest.end());
  return figures;
}

std::vector<Figure> optics_figures(const GoverningHour& hour) {
  const auto& optics = hour.pane.after.optics;
  const double back = hour.pane.room.back_reflectance();
  const double incidence = std::acos(std::max(0.0, hour.sky().pane.cos_incidence));
  const Absorption normal = absorb_beam(optics, 0.0, back), beam = absorb_beam(optics, std::min(incidence, 1.57), back),
                   diffuse = absorb_diffuse(optics, back);
  std::vector<Figure> figures;
  const char* how =
      "every face and body an element with T, Rf, Rb, the stack solved by fluxes, both polarizations; film as an "
      "interface taken off its reference glass (theory.md, Optics)";
  for (std::size_t j = 0; j < normal.lites.size(); ++j) {
    const FaceSources& heat = hour.loads.absorbed[j];
    figures.push_back(
        {saying("{} absorbs of the sun, head on", lite_text(hour, j)), normal.lites[j].total(), "1", how});
    figures.push_back(
        {saying("{} absorbs of the beam, at its angle", lite_text(hour, j)), beam.lites[j].total(), "1", "the same"});
    figures.push_back({saying("{} absorbs of diffuse light", lite_text(hour, j)), diffuse.lites[j].total(), "1",
                       "the same over the hemisphere (Gauss-Legendre)"});
    figures.push_back({saying("{} takes up in the sun", lite_text(hour, j)),
                       heat.outer_face_w_m2 + heat.bulk_w_m2 + heat.inner_face_w_m2, "W/m2",
                       "beam and diffuse on the pane times these shares"});
  }
  const std::size_t filmed = hour.pane.filmed_lite;
  const auto under = [&](const Interface& before, const Interface& after) {
    if (before.bare || before.in_glass || before.tau == after.tau) return;
    figures.push_back({"what lies under the film lets through", before.tau, "1", "the coating or film alone, to air"});
    figures.push_back({"it and the film together", after.tau, "1",
                       "its layer in glass, the film's interface over it (theory.md, Optics)"});
  };
  under(hour.pane.before.optics[filmed].outer_face, optics[filmed].outer_face);
  under(hour.pane.before.optics[filmed].inner_face, optics[filmed].inner_face);
  figures.push_back({"through the glazing, head on", normal.transmitted, "1", "what is left"});
  figures.push_back({"sent back, head on", normal.reflected, "1", "what is left"});
  return figures;
}

std::vector<Figure> heat_figures(const GoverningHour& hour, const Reference& reference) {
  const LineDay& line = *hour.strips.lit;
  const std::size_t n = line.lites, step = hour.step;
  std::vector<Figure> figures{
      of_table(reference, "wind_m_s", "wind near the glass", 1.0, "m/s"),
      {"outdoor film, air", hour.loads.outdoor_convection_w_m2k, "W/m2K", "h = a + b v; constants.toml, EN 673's form"},
      {"outdoor exchange, air and sky", line.outdoor[step].conductance_w_m2k, "W/m2K",
       "film plus long-wave to sky and surroundings, settled with the temperatures (ISO 15099)"},
      {"at outdoor temperature", celsius(line.outdoor[step].temperature_k), "C", "weighted by the same"},
      {"room exchange", line.room[step].conductance_w_m2k, "W/m2K",
       "natural convection Nu = 0.56 Ra^(1/4) and long-wave; ISO 15099 8.3; behind a blind its gap"},
      {"at room temperature", celsius(line.room[step].temperature_k), "C", "weighted by the same"}};
  for (std::size_t k = 0; k + 1 < n; ++k) {
    const double across = line.cavity_w_m2k[step * (n - 1) + k];
    const std::size_t lite = hour.pane.sheets[k].lite + 1;
    if (hour.pane.after.thermal.cavities[k].solid())
      figures.push_back({saying("interlayer of lite {}, ply to ply", lite), across, "W/m2K",
                         "k/t of polyvinyl butyral; its heat, half to each ply, is held with theirs"});
    else if (hour.pane.after.thermal.cavities[k].apart)
      figures.push_back({"gap before the panel, face to face", across, "W/m2K",
                         "the same as a cavity, less what air that streams through it carries off (ISO 15099)"});
    else
      figures.push_back({saying("cavity {}, face to face", lite), across, "W/m2K",
                         "Nu of a vertical cavity, ISO 15099 5.3.3.5, and long-wave between the faces"});
  }
  for (std::size_t j = 0; j < n; ++j)
    figures.push_back({saying("{}, middle, in the sun", lite_text(hour, j)), celsius(line.mean_k[step * n + j]), "C",
                       "heat balance with storage, BDF2 in ten-minute steps over a day that repeats"});
  const char* nodes[]{"frame, outer face", "frame, outer node", "frame, inner node", "frame, inner face"};
  for (std::size_t k = 0; k < 4; ++k)
    figures.push_back({nodes[k], celsius(line.frame_k[step][k]), "C", hour.pane.edge.frame.source.text});
  figures.push_back(
      {"energy not accounted for, share", hour.residual_share, "1",
       "sun taken up less what leaves and is stored, over sun and gross exchange; under 1e-6 in every step"});
  return figures;
}

namespace {

// What lies on the pane beside shadows that a rectangle of light tells of: a part that is otherwise, bars, a screen.
void add_uneven_figures(const GoverningHour& hour, std::vector<Figure>& figures) {
  if (const auto& part = hour.pane.shadow.part) {
    const double w_mm = hour.pane.width_m * mm_per_m, h_mm = hour.pane.height_m * mm_per_m;
    const char* how = "of the glass one sees, from its left or bottom edge seen from outdoors: the job";
    figures.push_back({saying("{}, from the left", Saying(part->name)), part->left * w_mm, "mm", how});
    figures.push_back({saying("{}, to the right", Saying(part->name)), part->right * w_mm, "mm", how});
    figures.push_back({saying("{}, from below", Saying(part->name)), part->bottom * h_mm, "mm", how});
    figures.push_back({saying("{}, to the top", Saying(part->name)), part->top * h_mm, "mm", how});
    figures.push_back({saying("{}, middle of glass alike, in the sun", Saying(part->name)),
                       celsius(hour.strips.other_in_sun(hour.step, hour.lite).back()), "C",
                       "a strip of its own, with its own sun taken up and exchange"});
    if (hour.pane.shadow.any())
      figures.push_back({saying("{}, the same in the shade", Saying(part->name)),
                         celsius(hour.strips.other_in_shade(hour.step, hour.lite).back()), "C", "a strip of its own"});
  }
  if (const ShadowPlan& plan = hour.pane.shadow; plan.upright_bars + plan.bars_across > 0) {
    const ShadowSlope& slope = hour.sky().slope;
    const double b_mm = plan.bar_width_m * mm_per_m, d_mm = plan.bar_depth_m * mm_per_m;
    const char* how = "width and depth |tan gamma| (upright) or depth tan Omega (across)";
    if (plan.upright_bars > 0)
      figures.push_back({"an upright bar darkens of the width", b_mm + d_mm * std::abs(slope.tan_gamma), "mm", how});
    if (plan.bars_across > 0)
      figures.push_back(
          {"a bar across darkens of the height", b_mm + d_mm * std::max(0.0, slope.tan_profile), "mm", how});
  }
  if (hour.pane.shadow.screen != ShadowPlan::Screen::none)
    figures.push_back({"insect screen lets through of the beam", hour.pane.shadow.screen_pass, "1", "over its half"});
}

}  // namespace

std::vector<Figure> field_figures(const GoverningHour& hour) {
  const auto depth_m = std::span(hour.strips.lit->depth_m);
  const auto sun_k = hour.strips.lit->strip(hour.step, hour.lite), shade_k = hour.strips.in_shade(hour.step, hour.lite);
  const double bite_m = hour.pane.edge.bite_m;
  const auto at = [&](std::span<const double> strip_k, double depth) {
    const auto above =
        static_cast<std::size_t>(std::lower_bound(depth_m.begin(), depth_m.end(), depth) - depth_m.begin());
    const std::size_t to = std::min(std::max<std::size_t>(above, 1), depth_m.size() - 1);
    const double share = (depth - depth_m[to - 1]) / (depth_m[to] - depth_m[to - 1]);
    return strip_k[to - 1] + share * (strip_k[to] - strip_k[to - 1]);
  };
  std::vector<Figure> figures{
      {"glass behind the sightline", bite_m * mm_per_m, "mm", "the job"},
      {"at the cut edge", celsius(sun_k.front()), "C", "strip from cut edge to middle, worked with the frame's nodes"},
      {"at the sightline", celsius(at(sun_k, bite_m)), "C", "the same"},
      {"20 mm in front of it", celsius(at(sun_k, bite_m + 0.02)), "C", "the same"},
      {"in the middle, in the sun", celsius(sun_k.back()), "C", "the same"}};
  const Glazing& glazing = hour.pane.after.thermal;
  if (glazing.rim_m > 0.0 && hour.lite == glazing.rim_lite) {
    figures.push_back({"bare rim beside the frame", glazing.rim_m * mm_per_m, "mm", "the film stops short: the job"});
    figures.push_back({"which takes up less by", hour.loads.rim_less_w_m2, "W/m2", "the lite with film less without"});
  }
  add_uneven_figures(hour, figures);
  if (hour.lit.everything) return figures;
  figures.push_back({"in the middle, in the shade", celsius(shade_k.back()), "C", "a strip that no beam reaches"});
  figures.push_back({"border softened over", hour.blur_m * mm_per_m, "mm", "sqrt(k t/h), the glass's own conduction"});
  if (hour.lit.diagonal || hour.lit.nothing) return figures;
  const char* how = "where the beam reaches, from the cut edges at left and bottom, seen from outdoors";
  figures.push_back({"sun from the left", hour.lit.left_m * mm_per_m, "mm", how});
  figures.push_back({"sun to the right", hour.lit.right_m * mm_per_m, "mm", "the same"});
  figures.push_back({"sun from below", hour.lit.bottom_m * mm_per_m, "mm", "the same"});
  figures.push_back({"sun to the top", hour.lit.top_m * mm_per_m, "mm", "the same"});
  return figures;
}

std::vector<Figure> stress_figures(const GoverningHour& hour, const Reference& reference) {
  const PaneElasticity& e = hour.pane.elasticity;
  const double free_pa = e.young_pa * e.expansion_per_k * (hour.middle_k() - hour.edge_k());
  const double in_plane_pa = hour.peak.stress_pa - hour.bending_pa;
  return {
      of_table(reference, "glass_young_pa", "Young's modulus", 1e-9, "GPa"),
      of_table(reference, "glass_expansion_per_k", "expansion", 1e6, "1e-6/K"),
      {"middle less edge", hour.middle_k() - hour.edge_k(), "K", "from the strip; a colder bottom edge counted in"},
      {"E alpha (middle less edge)", free_pa / pa_per_mpa, "MPa", "an edge held straight by a warm middle"},
      {"highest tension along the edge, in its plane", in_plane_pa / pa_per_mpa, "MPa",
       "sigma = E alpha (H - T), H the projection of T onto the harmonic functions of the pane (theory.md, Stress)"},
      {"of E alpha (middle less edge)", free_pa > 0.0 ? in_plane_pa / free_pa : 0.0, "1",
       "under 1 for a cool rim alone; a shadow that leaves part of the pane cold raises it"},
      {"through the thickness, face to face", 2.0 * hour.bending_pa / (e.young_pa * e.expansion_per_k), "K",
       "the middle in the sun: conduction of what crosses the lite and of what it takes up"},
      {"bending that the frame keeps down adds", hour.bending_pa / pa_per_mpa, "MPa",
       "E alpha dT/2 on the colder face, edges kept straight but free to turn; Timoshenko & Woinowsky-Krieger, "
       "recalled"},
      {"highest tension along the edge", hour.peak.stress_pa / pa_per_mpa, "MPa", "the two together"},
      {"how far along its side", hour.peak.position_m * mm_per_m, "mm",
       "from the left or from the bottom, seen from outdoors"}};
}

std::vector<Figure> strength_figures(const GoverningHour& hour, const Assessment& a, const Reference& reference) {
  const EdgeDescription& edge = hour.pane.strengths[hour.lite];
  const LiteFigures& lite = a.lites[hour.lite].after;
  const Treatment& treatment = row_named(reference.treatments, edge.treatment);
  const EdgeFinish& finish = row_named(reference.edge_finishes, edge.finish_bad);
  const GlassKind& kind = row_named(reference.glass_kinds, edge.glass_kind);
  return {
      of_table(reference, "edge_characteristic_pa", "characteristic strength of float", 1.0 / pa_per_mpa, "MPa"),
      of_table(reference, "cut_edge_factor", "factor of a cut edge", 1.0, "1"),
      {"factor for a load of six hours", duration_factor(constant(reference, "duration_go_s"), reference), "1",
       "k_mod = 0.663 t^(-1/16), t in hours; EN 16612, recalled, not read"},
      of_table(reference, "material_factor_go", "divided by, for the go line", 1.0, "1"),
      {saying("factor of the treatment, {}", edge.treatment), treatment.allowable_factor, "1", treatment.source.text},
      {saying("factor of the glass, {}", edge.glass_kind), kind.allowable_factor, "1", kind.source.text},
      {saying("factor of the edge, {}", edge.finish_bad), finish.allowable_factor, "1", finish.source.text},
      {"go line", lite.allowable_pa / pa_per_mpa, "MPa",
       "characteristic strength times the factors, divided as said; thick glass has one more factor"},
      {"stress over the go line, bad end", lite.stress_ratio, "1", "what the verdict's figures rest on: go up to 1"},
      {"refer line", lite.refer_pa / pa_per_mpa, "MPa", "the same with 1.6 and the likely edge"},
      {"stress of the middle run", lite.peak_stress_middle_pa / pa_per_mpa, "MPa",
       "everything unknown at its most likely value"},
      {"stress over the refer line, middle", lite.peak_stress_middle_pa / lite.refer_pa, "1",
       "refer above 1, unless it was above without film"},
      {"odds of a break on such a day, likeliest", lite.odds.best, "1",
       "Weibull with static fatigue along the whole edge; beside the verdict"}};
}

}  // namespace sunstrain::internal
