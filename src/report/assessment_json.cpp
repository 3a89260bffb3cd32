#include "sunstrain/report/assessment_json.hpp"

#include <array>
#include <stdexcept>

#include "json_parts.hpp"
#include "samples_block.hpp"
#include "sunstrain/job_keys.hpp"
#include "sunstrain/report/reasons.hpp"
#include "sunstrain/report/safety_note.hpp"
#include "sunstrain/report/to_do.hpp"
#include "words.hpp"

namespace sunstrain {
namespace {

using report::finite;
using report::json_of;
using report::list_of;
using report::side_word;
using report::verdict_word;
using Json = nlohmann::ordered_json;

constexpr const char* schema = "sunstrain-assessment-1";
constexpr double pa_per_mpa = 1e6, kelvin_at_0_c = 273.15;

const char* word(DayKind day) { return day == DayKind::cold_clear ? "cold-clear" : "hot-clear"; }

double mpa(double pa) { return finite(pa / pa_per_mpa); }
double celsius(double kelvin) { return finite(kelvin - kelvin_at_0_c); }

Json json_of(const Moment& when) {
  return {{"month", when.month}, {"day_kind", word(when.day)}, {"local_hour", finite(when.local_hour)}};
}

Json json_of(const Job& job) {
  Json keys = Json::object();
  for (const auto& [key, value] : job.values) keys[key] = json_of(value);
  for (const auto& [key, known] : job.partly) {
    if (known.range)
      keys[key] = {{"from", finite(known.range->first)}, {"to", finite(known.range->second)}};
    else
      keys[key] = {{"one_of", list_of(known.values, [](const Value& value) { return json_of(value); })}};
  }
  return keys;
}

Json json_of(const Odds& odds) {
  return {{"low", finite(odds.low)}, {"best", finite(odds.best)}, {"high", finite(odds.high)}};
}

Json json_of(const LiteFigures& f) {
  return {{"absorbed_fraction", finite(f.absorbed_fraction)},
          {"absorbed_w_m2", finite(f.absorbed_w_m2)},
          {"peak_edge_stress_mpa", mpa(f.peak_stress_pa)},
          {"peak_edge_stress_middle_mpa", mpa(f.peak_stress_middle_pa)},
          {"allowable_edge_stress_mpa", mpa(f.allowable_pa)},
          {"refer_edge_stress_mpa", mpa(f.refer_pa)},
          {"stress_ratio", finite(f.stress_ratio)},
          {"breakage_probability", json_of(f.odds)},
          {"center_temperature_c", celsius(f.center_k)},
          {"edge_temperature_c", celsius(f.edge_k)},
          {"center_temperature_middle_c", celsius(f.center_middle_k)},
          {"edge_temperature_middle_c", celsius(f.edge_middle_k)},
          {"when", json_of(f.when)},
          {"where", {{"side", side_word(f.side)}, {"position_m", finite(f.position_m)}}}};
}

Json json_of(const GlazingFigures& g) {
  return {{"solar_transmittance", finite(g.solar_transmittance)},
          {"solar_reflectance", finite(g.solar_reflectance)},
          {"u_value_en673_w_m2k", finite(g.u_value_w_m2k)},
          {"shgc", finite(g.shgc)}};
}

std::string as_typed(const std::string& key, const Value& value, const Reference& reference, Units units) {
  const JobKey* row = find_job_key(reference.job_keys, key);
  if (row == nullptr) throw std::logic_error("an unknown that is no job key: " + key);
  return format_value(*row, value, units);
}

Json json_of(const UnknownTaken& unknown, const Reference& reference, Units units) {
  Json readings = Json::array();
  for (const Reading& reading : unknown.readings) {
    readings.push_back({{"value", as_typed(unknown.key, reading.value, reference, units)},
                        {"verdict", verdict_word(reading.verdict)},
                        {"stress_ratio", finite(reading.stress_ratio)}});
  }
  return {{"key", unknown.key},
          {"taken_as", as_typed(unknown.key, unknown.taken_bad, reference, units)},
          {"decided", unknown.decided},
          {"taken_as_middle", as_typed(unknown.key, unknown.taken_middle, reference, units)},
          {"stress_ratio_at_middle", finite(unknown.ratio_at_middle)},
          {"why", unknown.why},
          {"readings", std::move(readings)}};
}

Json json_of(const Driver& driver, const Reference& reference, Units units) {
  const auto typed = [&](const Value& value) { return as_typed(driver.key, value, reference, units); };
  constexpr std::array acts{"can_do", "find_out", "given"};
  return {{"key", driver.key},
          {"act", acts.at(static_cast<std::size_t>(driver.act))},
          {"taken_as", typed(driver.taken)},
          {"tried", typed(driver.tried)},
          {"stress_ratio", finite(driver.stress_ratio)},
          {"slope_per_si_unit", driver.slope ? Json(finite(*driver.slope)) : Json()},
          {"how", driver.how}};
}

Json governing(const Assessment& a) {
  const Sheet& sheet = a.sheets.at(a.governing_lite);
  Json json = sheet.panel ? Json{{"panel", true}} : Json{{"lite", sheet.lite + 1}};
  if (sheet.plies > 1) json["ply"] = sheet.ply + 1;
  json.update(json_of(a.lites.at(a.governing_lite).after.when));
  return json;
}

Json json_of(const YearLite& lite) {
  Json hours = Json::array();
  for (std::size_t i = 0; i < year_ratios.size(); ++i)
    hours.push_back({{"stress_ratio_from", year_ratios[i]}, {"hours", finite(lite.hours[i])}});
  return {{"peak_edge_stress_pa", finite(lite.stress_pa)},
          {"stress_ratio", finite(lite.stress_ratio)},
          {"month", lite.month},
          {"day", lite.day},
          {"local_hour", finite(lite.local_hour)},
          {"worst_days",
           list_of(lite.worst_days,
                   [](const YearDay& d) {
                     return Json{{"month", d.month}, {"day", d.day}, {"stress_ratio", finite(d.stress_ratio)}};
                   })},
          {"hours", std::move(hours)},
          {"fatigue_hours_at_line", finite(lite.hours_at_line)},
          {"odds_1_year", json_of(lite.odds_1)},
          {"odds_10_years", json_of(lite.odds_10)},
          {"odds_25_years", json_of(lite.odds_25)}};
}

Json json_of(const SealedFigures& figures) {
  return {{"gas_k", figures.gas_k},
          {"isochoric_pa", figures.state.isochoric_pa},
          {"gauge_pa", figures.state.gauge_pa},
          {"stiffness", finite(figures.state.stiffness)},
          {"edge_seal_n_m", finite(figures.state.edge_seal_n_m)},
          {"lites", list_of(figures.state.lites, [](const SealedLite& lite) {
             return Json{{"net_pa", finite(lite.net_pa)},
                         {"deflection_m", finite(lite.deflection_m)},
                         {"bending_pa", finite(lite.bending_pa)}};
           })}};
}

Json json_of(const std::optional<SealedAnswer>& sealed) {
  if (!sealed) return nullptr;
  return {{"before_film", json_of(sealed->before)}, {"after_film", json_of(sealed->after)}};
}

// A lite's figures, or those of one ply of a laminated lite, which says which.
template <class Figures>
Json sheet_json(const Sheet& sheet, const Figures& before, const Figures& after) {
  Json json = Json::object();
  if (sheet.panel) json["panel"] = true;
  if (sheet.plies > 1) {
    json["lite"] = sheet.lite + 1;
    json["ply"] = sheet.ply + 1;
  }
  json["before_film"] = json_of(before);
  json["after_film"] = json_of(after);
  return json;
}

Json lites_json(const Assessment& a) {
  Json lites = Json::array();
  for (std::size_t i = 0; i < a.lites.size(); ++i)
    lites.push_back(sheet_json(a.sheets[i], a.lites[i].before, a.lites[i].after));
  return lites;
}

Json json_of(const std::optional<WeatherAnswer>& weather, const std::vector<Sheet>& sheets) {
  if (!weather) return nullptr;
  Json lites = Json::array();
  for (std::size_t i = 0; i < weather->after.lites.size(); ++i)
    lites.push_back(sheet_json(sheets[i], weather->before.lites[i], weather->after.lites[i]));
  return {{"source", weather->source},
          {"remarks", weather->remarks},
          {"hours", finite(weather->hours)},
          {"lites", std::move(lites)}};
}

Json json_of(const std::optional<PlaneCheck>& plane) {
  if (!plane) return nullptr;
  return {{"quick_route_mpa", mpa(plane->quick_pa)},
          {"in_full_in_that_hour_mpa", mpa(plane->in_hour_pa)},
          {"in_full_highest_mpa", mpa(plane->highest_pa)},
          {"in_full_highest_local_hour", finite(plane->highest_hour)},
          {"raised_by", finite(plane->raised_by)}};
}

Json json_of(const Assessment& a, const Reference& reference, Units units) {
  return {
      {"schema", schema},
      {"source", a.job.source},
      {"verdict", verdict_word(a.verdict)},
      {"figures", {{"verdict", verdict_word(a.figures)}}},
      {"guidance", {{"verdict", verdict_word(a.guidance)}}},
      {"stress_ratio", finite(a.stress_ratio)},
      {"stress_ratio_middle", finite(a.stress_ratio_middle)},
      {"past_line_without_film", a.past_line_without_film},
      {"film_adds_little", a.film_adds_little},
      {"to_do", to_do(a, reference, true)},
      {"governing", governing(a)},
      {"reasons", list_of(reasons_of(a, reference, units),
                          [](const Reason& r) {
                            return Json{{"text", r.text}, {"kind", r.kind}, {"source", r.source}};
                          })},
      {"helps", helps_of(a, reference, units)},
      {"drivers", list_of(a.drivers, [&](const Driver& d) { return json_of(d, reference, units); })},
      {"rules", list_of(a.rules, [](const Rule& rule) { return json_of(rule); })},
      {"open_rules", list_of(a.open_rules,
                             [&](const OpenRule& open) {
                               return Json{{"key", open.key},
                                           {"value", as_typed(open.key, open.value, reference, units)},
                                           {"rule", json_of(open.rule)}};
                             })},
      {"unknowns", list_of(a.unknowns, [&](const UnknownTaken& u) { return json_of(u, reference, units); })},
      {"safety_note", safety_note(reference)},
      {"lites", lites_json(a)},
      {"shadow",
       {{"casting", a.shadow.casting},
        {"part_differs_k", a.shadow.part_differs_k},
        {"reflected_by_wall_w_m2", a.shadow.wall_w_m2},
        {"reflected_by_water_w_m2", a.shadow.water_w_m2},
        {"worst_lasting",
         {{"pattern", a.shadow.worst_pattern},
          {"share", a.shadow.worst_share > 0.0 ? Json(a.shadow.worst_share) : Json()},
          {"stress_ratio", finite(a.shadow.worst_ratio)}}}}},
      {"plane", {{"bad_end", json_of(a.plane)}, {"middle", json_of(a.plane_middle)}}},
      {"sealed_unit", json_of(a.sealed)},
      {"weather", json_of(a.weather, a.sheets)},
      {"samples", report::json_of(a.samples, reference)},
      {"glazing", {{"before_film", json_of(a.before)}, {"after_film", json_of(a.after)}}},
      {"engine_version", SUNSTRAIN_VERSION},
      {"reference_version", reference.version},
      {"own_rules", report::own_rules_json(reference)},
      {"job", json_of(a.job)},
      {"bad_end", json_of(a.bad_end)},
      {"middle", json_of(a.middle)},
  };
}

}  // namespace

std::string assessments_json(std::span<const Assessment> assessments, bool several, const Reference& reference,
                             Units units) {
  const auto one = [&](const Assessment& a) { return json_of(a, reference, units); };
  const Json document = several ? list_of(assessments, one) : one(assessments.front());
  return report::json_text(document);
}

}  // namespace sunstrain
