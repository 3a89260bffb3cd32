#include "break_words.hpp"

#include <algorithm>

#include "../io/say.hpp"
#include "sunstrain/io/break_report.hpp"
#include "words.hpp"

namespace sunstrain::report {

std::string result_word(BreakResult result) {
  return result == BreakResult::consistent       ? worded("consistent with thermal")
         : result == BreakResult::not_consistent ? worded("not consistent")
                                                 : worded("cannot tell");
}

std::string result_words(const Language& language, BreakResult result) { return told(language, result_word(result)); }

std::string result_sentence(const BreakAnswer& answer, const BreakTables& tables) {
  const Language& language = tables.form.language;
  const ClueCounts counts = counts_of(answer.reading.clues);
  const BreakResult result = answer.reading.result;
  const std::string counted =
      counts.decisive_against > 0
          ? tell(language, "Strong clues for heat: {}; clues against it: {}, of them decisive: {}.", counts.strong_for,
                 counts.against, counts.decisive_against)
          : tell(language, "Strong clues for heat: {}; clues against it: {}.", counts.strong_for, counts.against);
  if (result == BreakResult::consistent)
    return tell(language,
                "What was seen is what a heat crack looks like. Heat may have opened it; that it did is not shown.") +
           " " + counted;
  if (result == BreakResult::not_consistent)
    return tell(language,
                "What was seen is not what a heat crack looks like. That does not show that heat had no part.") +
           " " + counted;
  if (counts.against > 0 && counts.strong_for + counts.weak_for > 0)
    return tell(language, "The clues disagree.") + " " + counted;
  return tell(language, "What was seen is too little to tell.") + " " + counted + " " +
         tell(language, "It takes {} strong ones for it and none against, or a decisive one against.",
              tables.strong_for);
}

std::string speaks_word(Clue::Speaks speaks) {
  switch (speaks) {
    case Clue::Speaks::for_heat:
      return "for";
    case Clue::Speaks::against_heat:
      return "against";
    case Clue::Speaks::of_weak_edge:
      return "weak edge";
    case Clue::Speaks::of_nothing:
      break;
  }
  return "nothing";
}

std::string weight_word(Clue::Weight weight) {
  return weight == Clue::Weight::decisive ? worded("decisive")
         : weight == Clue::Weight::strong ? worded("strong")
                                          : worded("weak");
}

std::string not_worked_text(const BreakAnswer& answer, const BreakTables& tables) {
  const Language& language = tables.form.language;
  if (answer.day) return "";
  if (!answer.assessment) return tell(language, "Not worked: the report names no job.");
  std::string missing;
  for (const char* key : {"day.date", "day.lowest", "day.highest", "day.sky"}) {
    if (answer.seen.values.contains(key)) continue;
    missing += (missing.empty() ? "" : ", ") + key_words(language, key);
  }
  return tell(language, "Not worked: it takes {}.", missing);
}

std::optional<Meeting> meeting_of(const BreakAnswer& answer, const BreakTables& tables) {
  const BreakStress& stress = answer.reading.stress;
  if (!answer.day || stress.bands.empty()) return std::nullopt;
  return sunstrain::meeting_of(answer.day->on.middle_stress_pa, answer.day->on.stress_pa, stress.bands, tables.bands);
}

std::string meeting_text(const BreakAnswer& answer, const BreakTables& tables) {
  const Language& language = tables.form.language;
  const std::optional<Meeting> meeting = meeting_of(answer, tables);
  if (!meeting) return "";
  if (*meeting == Meeting::meets)
    return tell(language, "Engine and crack meet in a band. That two figures meet is no proof of anything.");
  if (*meeting == Meeting::engine_lower)
    return tell(language,
                "The crack tells of more than the engine finds: something may have loaded the edge that the job does "
                "not have, or the day was another.");
  return tell(language,
              "The crack tells of less than the engine finds: an edge weaker than most, or a pane or day other than "
              "entered.");
}

std::string break_note(const Language& language) {
  return tell(language,
              "Neither this answer nor any one clue says who or what is at fault. The makers of glass and film and a "
              "qualified examiner decide, on the pieces.");
}

}  // namespace sunstrain::report
