#include "sunstrain/breakage.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>
#include <stdexcept>

#include "sunstrain/job_keys.hpp"

namespace sunstrain {
namespace {

// The condition with the first of `open` at each of its values, and so on down the list.
void add_truths(const Condition& condition, Facts& facts, const Observations& seen,
                const std::vector<std::string>& open, std::size_t next, std::set<Truth>& truths) {
  if (next == open.size()) {
    truths.insert(holds(condition, facts));
    return;
  }
  for (const Value& value : seen.partly.at(open[next]).values) {
    facts[open[next]] = value;
    add_truths(condition, facts, seen, open, next + 1, truths);
  }
  facts.erase(open[next]);
}

std::vector<Clue> clues_of(const Observations& seen, const std::vector<Clue>& table) {
  std::vector<Clue> clues;
  for (const Clue& clue : table)
    if (holds_of(clue.when, seen) == Truth::yes) clues.push_back(clue);
  return clues;
}

std::vector<std::size_t> bands_between(double from_pa, double to_pa, const std::vector<StressBand>& bands) {
  std::vector<std::size_t> between(band_of(to_pa, bands) - band_of(from_pa, bands) + 1);
  std::iota(between.begin(), between.end(), band_of(from_pa, bands));
  return between;
}

SignRead read_sign(const StressSign& sign, double length_m, const std::vector<StressBand>& bands) {
  SignRead read{sign, std::nullopt, length_m > sign.tells_to_m, sign.bands};
  if (sign.figure == StressSign::Figure::none) return read;
  read.range = stress_from_length(sign, length_m);
  // The bands are as wide as the figure is uncertain (reference/break.toml), so the likely stress alone has one.
  read.bands = sign.figure == StressSign::Figure::about ? std::vector{band_of(read.range->likely_pa, bands)}
                                                        : bands_between(0.0, read.range->most_pa, bands);
  return read;
}

// Of a length that is known in part every place of it, the likely one first.
std::vector<double> lengths_of(const StressSign& sign, const Observations& seen) {
  if (sign.figure == StressSign::Figure::none) return {0.0};
  if (const auto known = seen.partly.find(sign.length); known != seen.partly.end()) {
    std::vector<double> lengths{std::get<double>(known->second.likely)};
    for (const Value& value : known->second.values) lengths.push_back(std::get<double>(value));
    return lengths;
  }
  const std::optional<double> length = number_of(seen, sign.length);
  return length ? std::vector{*length} : std::vector<double>{};
}

// The sign over all the lengths that there may be: the widest range about the likely stress, every band.
std::optional<SignRead> read_sign(const StressSign& sign, const Observations& seen,
                                  const std::vector<StressBand>& bands) {
  std::optional<SignRead> all;
  for (const double length : lengths_of(sign, seen)) {
    const SignRead one = read_sign(sign, length, bands);
    if (!all) {
      all = one;
      continue;
    }
    if (one.range) {
      all->range->least_pa = std::min(all->range->least_pa, one.range->least_pa);
      all->range->most_pa = std::max(all->range->most_pa, one.range->most_pa);
    }
    all->far = all->far && one.far;
    std::vector<std::size_t> both;
    std::set_union(all->bands.begin(), all->bands.end(), one.bands.begin(), one.bands.end(), std::back_inserter(both));
    all->bands = std::move(both);
  }
  return all;
}

BreakStress stress_of(const Observations& seen, const BreakTables& tables) {
  BreakStress stress;
  for (const StressSign& sign : tables.signs) {
    if (holds_of(sign.when, seen) != Truth::yes) continue;
    const std::optional<SignRead> read = read_sign(sign, seen, tables.bands);
    if (!read) continue;
    std::vector<std::size_t> left;
    std::set_intersection(stress.bands.begin(), stress.bands.end(), read->bands.begin(), read->bands.end(),
                          std::back_inserter(left));
    stress.bands = stress.signs.empty() ? read->bands : left;
    stress.signs.push_back(*read);
  }
  return stress;
}

// Values to try for a key: its words, or its ends and the limits that a clue sets.
std::vector<Value> tried_values(const JobKey& key, const BreakTables& tables) {
  if (key.kind == JobKey::Kind::choice) return {key.choices.begin(), key.choices.end()};
  if (key.kind == JobKey::Kind::text || key.kind == JobKey::Kind::date) return {};
  std::set<double> values{key.minimum, key.maximum};
  const auto add = [&](const Condition& condition, const auto& self) -> void {
    if (condition.fact == key.name && condition.limit >= key.minimum && condition.limit <= key.maximum)
      values.insert(condition.limit);
    for (const Condition& part : condition.parts) self(part, self);
  };
  for (const Clue& clue : tables.clues) add(clue.when, add);
  return {values.rbegin(), values.rend()};
}

bool applies_to(const JobKey& key, const Facts& facts) { return key_applies(key, key.name, facts) != Truth::no; }

// Whether a strong or decisive clue or the figure of a stress hangs on it.
bool weighs_much(const std::string& key, const BreakTables& tables) {
  const bool clue = std::any_of(tables.clues.begin(), tables.clues.end(), [&](const Clue& one) {
    return one.weight >= Clue::Weight::strong && facts_of(one.when).contains(key);
  });
  return clue || std::any_of(tables.signs.begin(), tables.signs.end(),
                             [&](const StressSign& one) { return one.length == key; });
}

std::vector<Settling> settling_of(const Observations& seen, BreakResult now, const std::string& name,
                                  const BreakTables& tables) {
  std::vector<Settling> all;
  for (const Value& value : tried_values(*find_job_key(tables.form.job_keys, name), tables)) {
    Observations with = seen;
    settle(with, name, value);
    const BreakResult result = result_of(clues_of(with, tables.clues), tables);
    const bool told = std::any_of(all.begin(), all.end(), [&](const Settling& one) { return one.result == result; });
    if (result != now && !told) all.push_back({name, value, result});
  }
  return all;
}

}  // namespace

Truth holds_of(const Condition& condition, const Observations& seen) {
  std::vector<std::string> open;
  for (const std::string& fact : facts_of(condition))
    if (seen.partly.contains(fact)) open.push_back(fact);
  Facts facts = seen.values;
  std::set<Truth> truths;
  add_truths(condition, facts, seen, open, 0, truths);
  return truths.size() == 1 ? *truths.begin() : Truth::cannot_tell;
}

ClueCounts counts_of(const std::vector<Clue>& clues) {
  ClueCounts counts;
  for (const Clue& clue : clues) {
    const bool strong = clue.weight >= Clue::Weight::strong;
    if (clue.speaks == Clue::Speaks::for_heat) ++(strong ? counts.strong_for : counts.weak_for);
    if (clue.speaks != Clue::Speaks::against_heat) continue;
    ++counts.against;
    counts.strong_against += strong ? 1 : 0;
    counts.decisive_against += clue.weight == Clue::Weight::decisive ? 1 : 0;
  }
  return counts;
}

BreakResult result_of(const std::vector<Clue>& clues, const BreakTables& tables) {
  const ClueCounts counts = counts_of(clues);
  if (counts.strong_for >= tables.strong_for && counts.against == 0) return BreakResult::consistent;
  const bool against = counts.decisive_against > 0 || counts.strong_against >= tables.strong_against;
  return against && counts.strong_for == 0 ? BreakResult::not_consistent : BreakResult::cannot_tell;
}

StressRange stress_from_length(const StressSign& sign, double length_m) {
  if (!(length_m > 0.0)) throw std::invalid_argument("a length to the first fork must be over 0");
  const bool at_most = sign.figure == StressSign::Figure::at_most;
  const double root = std::sqrt(at_most ? std::min(length_m, sign.tells_to_m) : length_m);
  return {at_most ? 0.0 : (1.0 - sign.uncertain_share) * sign.least_pa_sqrt_m / root, sign.constant_pa_sqrt_m / root,
          (1.0 + sign.uncertain_share) * sign.most_pa_sqrt_m / root};
}

std::size_t band_of(double stress_pa, const std::vector<StressBand>& bands) {
  const auto above =
      std::find_if(bands.begin() + 1, bands.end(), [&](const StressBand& band) { return stress_pa < band.from_pa; });
  return static_cast<std::size_t>(above - bands.begin()) - 1;
}

BreakReading read_break(const Observations& seen, const BreakTables& tables) {
  BreakReading reading;
  reading.clues = clues_of(seen, tables.clues);
  reading.result = result_of(reading.clues, tables);
  reading.stress = stress_of(seen, tables);
  std::set<std::string> asked, spoken;
  for (const Clue& clue : tables.clues) asked.merge(facts_of(clue.when));
  for (const Clue& clue : reading.clues) spoken.merge(facts_of(clue.when));
  Facts facts = seen.values;
  for (const auto& [key, known] : seen.partly) facts[key] = known.likely;
  for (const JobKey& key : tables.form.job_keys) {
    if (!key.about_glass) continue;
    const bool silent = asked.contains(key.name) && !spoken.contains(key.name);
    if (silent && speaks_of(seen, key.name)) reading.silent.push_back(key.name);
    if (seen.values.contains(key.name) || !applies_to(key, facts)) continue;
    reading.not_known.push_back(key.name);
    if (weighs_much(key.name, tables)) reading.look_first.push_back(key.name);
    for (Settling& one : settling_of(seen, reading.result, key.name, tables))
      reading.would_settle.push_back(std::move(one));
  }
  return reading;
}

Meeting meeting_of(double one_pa, double other_pa, const std::vector<std::size_t>& of_break,
                   const std::vector<StressBand>& bands) {
  const auto [least, most] = std::minmax(one_pa, other_pa);
  if (band_of(most, bands) < of_break.front()) return Meeting::engine_lower;
  return band_of(least, bands) > of_break.back() ? Meeting::engine_higher : Meeting::meets;
}

}  // namespace sunstrain
