// Internal: what the text and the JSON about a cracked pane both say.
#pragma once

#include <string>

#include "sunstrain/report/break_answer.hpp"

namespace sunstrain::report {

// "consistent with thermal", "not consistent", "cannot tell": of JSON, and as a reader is told.
std::string result_word(BreakResult result);
std::string result_words(const Language& language, BreakResult result);

// What the result means, and how the clues came to it.
std::string result_sentence(const BreakAnswer& answer, const BreakTables& tables);

std::string speaks_word(Clue::Speaks speaks);
std::string weight_word(Clue::Weight weight);

// Why the engine's stress of that day was not worked; empty where it was.
std::string not_worked_text(const BreakAnswer& answer, const BreakTables& tables);

// How the engine's stress stands beside the break's; empty where one of the two is missing.
std::string meeting_text(const BreakAnswer& answer, const BreakTables& tables);
std::optional<Meeting> meeting_of(const BreakAnswer& answer, const BreakTables& tables);

// Who decides.
std::string break_note(const Language& language);

}  // namespace sunstrain::report
