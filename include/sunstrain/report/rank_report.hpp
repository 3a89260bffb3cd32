// The films of a list on one pane, in their order, as text and as JSON.
#pragma once

#include <string>
#include <vector>

#include "sunstrain/rank.hpp"
#include "sunstrain/report/text_answer.hpp"

namespace sunstrain {

// What is said of one film beside its figures.
struct FilmWords {
  std::size_t line = 0;  // of the list
  std::string name;      // as the list calls it, or its line
  std::string reason;    // the first of reasons_of
  std::string error;     // why it could not be tried; empty of one without figures: the work was stopped before it
  std::string no_answer(const Language& language) const;
  bool no_film = false;  // it could be on no pane: the list's own error
};

// The films of a list on one pane, both vectors in the list's order and as long as the list.
struct RankedPane {
  std::string source;  // of the job
  std::string title;   // "stair window", "line 3, classroom"
  std::vector<FilmWords> words;
  std::vector<std::optional<FilmOnPane>> films;
};

// One pane's films in lines: the table, what was left out and why, what could not be tried, guidance, and the unknowns
// that decided. style.full has no meaning here. Films that could be on no pane are named with `own_errors` only.
std::string ranked_pane_text(const RankedPane& pane, const RankChoice& choice, const Reference& reference,
                             const TextStyle& style, bool own_errors);

// What the columns are, and the safety note.
std::string rank_legend(const Reference& reference, const TextStyle& style);

// Keys: schema "sunstrain-rank-1", source, title, films [{place (from 1), line, name, verdict, figures, guidance,
// stress_ratio, stress_ratio_middle, sun_heat_kept_out, sun_heat_cut, shgc, shgc_without_film, daylight (null: not
// given), reason, rules, open_rules, decided_by [{key, most_likely}]}], left_out [{line, name, verdict, why}], errors
// [{line, name, error}], safety_note, engine_version, reference_version. Shares from 0 to 1, values in SI.
std::string rank_json(const RankedPane& pane, const RankChoice& choice, const Reference& reference);

}  // namespace sunstrain
