// What the rules see of an assessment, and what they would see of others.
#include "rule_facts.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "unknowns.hpp"

namespace sunstrain::internal {
namespace {

void say(Facts& facts, const char* name, bool yes) { facts[name] = std::string(yes ? "yes" : "no"); }

// Which coatings there are, and what is to go on them: the film, and a second one that is new as well.
void say_coatings(const Job& complete, std::size_t lites, const Reference& reference, Facts& facts) {
  bool low_e = false, gas = false, under_film = false, soft_under_film = false, soft_in_the_open = false;
  const auto film_surface = word_of(complete, "film.surface");
  const bool two_go_on = word_of(complete, "second_film.already_on") == "no";
  const auto second_surface = two_go_on ? word_of(complete, "second_film.surface") : std::nullopt;
  for (std::size_t j = 0; j < lites; ++j) {
    const std::string key = "lite." + std::to_string(j + 1) + ".coating";
    const std::string coating = word_of(complete, key).value_or("none");
    if (coating != "none") {
      const auto surface = word_of(complete, key + "_surface");
      const bool soft = row_named(reference.coatings, coating).soft;
      low_e = low_e || coating.starts_with("low-e");
      const bool covered = surface == film_surface || surface == second_surface;
      under_film = under_film || covered;
      soft_under_film = soft_under_film || (soft && covered);
      soft_in_the_open = soft_in_the_open || (soft && (surface == "1" || surface == std::to_string(2 * lites)));
    }
    const auto filling = word_of(complete, "cavity." + std::to_string(j + 1) + ".gas");
    gas = gas || (filling && *filling != "air");
  }
  say(facts, "figure.film_behind_low_e_with_gas", low_e && gas);
  say(facts, "figure.film_on_coating", under_film);
  say(facts, "figure.film_on_film", word_of(complete, "second_film.surface") == film_surface);
  say(facts, "figure.film_on_soft_coating", soft_under_film);
  say(facts, "figure.soft_coating_in_the_open", soft_in_the_open);
}

void say_bad_end(const Case& bad, const Reference& reference, Facts& facts) {
  double most = 0.0;
  const Absorption normal = absorb_beam(bad.after.optics, 0.0);
  const auto absorbed = [&](std::size_t sheet) { return lite_absorptance(normal, bad.after.thermal.joined(sheet)); };
  for (std::size_t j = 0; j < bad.strengths.size(); ++j) {
    if (row_named(reference.treatments, bad.strengths[j].treatment).annealed) most = std::max(most, absorbed(j));
  }
  facts["figure.most_absorbed_annealed"] = most;
  facts["figure.filmed_absorbed"] = absorbed(bad.filmed_lite);
  const double long_m = std::max(bad.width_m, bad.height_m), short_m = std::min(bad.width_m, bad.height_m);
  bool thick = false;
  for (const EdgeDescription& edge : bad.strengths)
    thick = thick || edge.thickness_m > constant(reference, "range_thickness_m");
  say(facts, "figure.outside_checked_range",
      thick || long_m > constant(reference, "range_long_side_m") ||
          short_m > constant(reference, "range_short_side_m") ||
          std::abs(bad.tilt_rad - 0.5 * std::numbers::pi) > 1e-6);
}

void say_stresses(const Assessment& a, Facts& facts) {
  const LiteResult& lite = a.lites[a.governing_lite];
  facts[stress_added] = lite.after.peak_stress_pa - lite.before.peak_stress_pa;
  say(facts, over_line_without_film, a.past_line_without_film);
}

}  // namespace

Facts middle_facts(const Job& complete, const Case& middle, const Reference& reference) {
  Facts facts = complete.values;
  say_coatings(complete, lites_of(middle.sheets), reference, facts);
  const auto pattern = word_of(complete, "shading.pattern");
  say(facts, "figure.lasting_l_or_half_shadow", pattern == "L" || pattern == "half");
  const RoomShade& shade = (middle.after.other ? middle.after.other->room : middle.room).shade;
  say(facts, "figure.blind_tight", shade.closure > 0.0 && !shade.vented);
  return facts;
}

Facts case_facts(const Job& complete, const Case& bad, const Case& middle, const Reference& reference) {
  Facts facts = middle_facts(complete, middle, reference);
  say_bad_end(bad, reference, facts);
  return facts;
}

Facts rule_facts(const Assessment& a, const Case& bad, const Case& middle, const Reference& reference) {
  Facts facts = case_facts(a.middle, bad, middle, reference);
  say_stresses(a, facts);
  return facts;
}

Facts said_of(const Job& job, const Reference& reference) {
  return with_parts_settled(job, Run::middle, {}, reference).values;
}

std::vector<OpenRule> open_rules(const Assessment& a, const Reference& reference) {
  std::vector<OpenRule> open;
  const auto spoken = [&](const Rule& rule) {
    const auto is = [&](const Rule& other) { return other.id == rule.id; };
    return std::any_of(a.rules.begin(), a.rules.end(), is) ||
           std::any_of(open.begin(), open.end(), [&](const OpenRule& other) { return is(other.rule); });
  };
  for (const auto& [key, known] : a.job.partly) {
    for (const Value& value : known.values) {
      const Job job = with_value(a.job, key, value);
      if (value == known.likely || !can_be(job, reference)) continue;
      const Job middle = middle_job(job, reference);
      const Job bad_end = resolve(job, Run::bad_end, a.choice, reference).job;
      Facts facts = case_facts(middle, build_case(bad_end, Run::bad_end, reference),
                               build_case(middle, Run::middle, reference), reference);
      say_stresses(a, facts);
      for (const FiredRule& fired : fired_rules(reference.rules, facts, said_of(job, reference))) {
        if (fired.rule->severity == Severity::note || spoken(*fired.rule)) continue;
        open.push_back({*fired.rule, key, value});
        open.back().rule.severity = std::min(fired.rule->severity, Severity::ask);
      }
    }
  }
  return open;
}

}  // namespace sunstrain::internal
