#include "verdict_bounds.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "rule_facts.hpp"
#include "sunstrain/rules.hpp"

namespace sunstrain::internal {
namespace {

bool nothing_open(const Assessment& a, const Reference& reference) {
  const std::vector<OpenKey> open = resolve(a.job, Run::bad_end, a.choice, reference).open;
  return std::all_of(open.begin(), open.end(), [](const OpenKey& key) { return key.candidates.size() == 1; });
}

Verdict least_of(const Assessment& a, const Case& middle, const Reference& reference) {
  const Facts facts = middle_facts(a.middle, middle, reference);
  const Verdict least = verdict_of(worst_severity(fired_rules(reference.rules, facts, said_of(a.job, reference))));
  if (a.figures == Verdict::refer) return Verdict::refer;
  // Another reading with a higher ratio may be one that the plane does not raise.
  return a.stress_ratio > a.raised_by() ? std::max(least, Verdict::caution) : least;
}

// What the figures of the bad end hang on that rules look at: what its sheets absorb, its size, and what lies behind
// the glass, which says how the film's sheet is read (build_glazing.cpp).
bool sets_glass(const std::string& key) {
  constexpr std::array<std::string_view, 10> these{"pane.tilt",    "glass.", "lite.",        "unit.",          "film.",
                                                   "second_film.", "panel.", "inside.shade", "inside.closure", "sign."};
  if (key == "unit.spacer" || key.ends_with(".emissivity")) return false;
  return std::any_of(these.begin(), these.end(), [&](std::string_view start) { return key.starts_with(start); });
}

// To the next reading of the glass, as a counter counts: the last key with a candidate left moves on to it, those after
// it begin anew. False after the last reading.
bool move_on(Choice& choice, const std::vector<OpenKey>& open) {
  for (auto key = open.rbegin(); key != open.rend(); ++key) {
    if (!sets_glass(key->key)) continue;
    if (++choice[key->key] < key->candidates.size()) return true;
    choice.erase(key->key);
  }
  return false;
}

// The job with every combination of what its glass may be read as, all else as chosen; none where they are too many.
std::vector<Job> readings_of_glass(const Assessment& a, const Reference& reference) {
  constexpr std::size_t most = 200;
  Choice choice = a.choice;
  std::erase_if(choice, [](const auto& taken) { return sets_glass(taken.first); });
  std::vector<Job> readings;
  Resolved reading;
  do {
    reading = resolve(a.job, Run::bad_end, choice, reference);
    readings.push_back(reading.job);
    if (readings.size() > most) return {};
  } while (move_on(choice, reading.open));
  return readings;
}

// Speaks, or may once the stresses are known.
bool may_speak(const Rule& rule, const Facts& facts, const Facts& said) {
  const Truth truth = holds(rule.when, facts, said);
  if (truth != Truth::cannot_tell) return truth == Truth::yes;
  const std::set<std::string> looks_at = facts_of(rule.when);
  return std::any_of(stress_figures.begin(), stress_figures.end(),
                     [&](const char* figure) { return looks_at.contains(figure); });
}

// The worst that guidance may come to.
Severity worst_guidance(const Assessment& a, const Case& middle, const Reference& reference) {
  const std::vector<Job> readings = readings_of_glass(a, reference);
  if (readings.empty()) return Severity::refer;
  const Facts said = said_of(a.job, reference);
  // A rule that speaks for another value of a key known in part asks.
  Severity worst = a.job.partly.empty() ? Severity::note : Severity::ask;
  for (const Job& reading : readings) {
    Facts facts;
    try {
      facts = case_facts(a.middle, build_case(reading, Run::bad_end, reference), middle, reference);
    } catch (const BadInput&) {
      continue;  // no glass is like that
    }
    for (const Rule& rule : reference.rules)
      if (rule.severity > worst && may_speak(rule, facts, said)) worst = rule.severity;
  }
  return worst;
}

}  // namespace

VerdictBounds verdict_bounds(const Assessment& a, bool ratio_stays_under, const Reference& reference) {
  if (nothing_open(a, reference)) return {a.verdict, a.verdict};
  const Case middle = build_case(a.middle, Run::middle, reference);
  const Verdict least = least_of(a, middle, reference);
  if (least == Verdict::refer) return {least, least};
  const Verdict by_ratio = ratio_stays_under ? Verdict::go : Verdict::caution;
  return {least, std::max({least, by_ratio, verdict_of(worst_guidance(a, middle, reference))})};
}

}  // namespace sunstrain::internal
