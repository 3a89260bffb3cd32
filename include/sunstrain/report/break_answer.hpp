// What is said of a pane that cracked, as text and as JSON.
#pragma once

#include <optional>
#include <string>

#include "sunstrain/breakage.hpp"
#include "sunstrain/report/text_answer.hpp"

namespace sunstrain {

struct BreakAnswer {
  Observations seen;
  BreakReading reading;
  // Nothing: the report names no job.
  std::optional<Assessment> assessment;
  std::vector<std::size_t> sheets;  // of it, that may be the one that cracked
  std::optional<BreakDay> day;      // nothing: no job, or a part of the day is not known
};

// style.full and style.color have no meaning here. `reference` speaks the language of the tables.
std::string break_text(const BreakAnswer& answer, const BreakTables& tables, const Reference& reference,
                       const TextStyle& style);

// Keys: schema "sunstrain-break-1", source, job {source, name} (null: none named), result ("consistent with thermal",
// "not consistent", "cannot tell"), result_text, counted {strong_for, against, strong_against, decisive_against},
// seen {key: value in SI, or a list of them}, clues [{name, speaks, weight (null: none), text, source, certainty, note
// (null: none)}], silent [keys], stress {bands (empty: not known), disagree, meaning, signs [{name, bands, likely_mpa,
// least_mpa, most_mpa (null: bands alone), beyond_what_tells, text, source, certainty}]}, engine (null: not worked)
// {lite, month, day, lowest_c, highest_c, cloud, edge_stress_mpa, edge_stress_without_film_mpa, stress_ratio,
// edge_stress_middle_mpa, band, band_middle, local_hour, beside_the_break ("same band", "lower", "higher"; null: no
// band of the break)}, engine_not_worked (null: it was), not_known [{key, find_out}], would_settle [{key, value,
// result}], look_first [keys], keep, handling [texts], note, safety_note, engine_version, reference_version.
std::string break_json(const BreakAnswer& answer, const BreakTables& tables, const Reference& reference);

}  // namespace sunstrain
