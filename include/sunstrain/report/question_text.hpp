// The questions at a window in words: one at a time for a terminal, all of them for paper.
#pragma once

#include <string>

#include "sunstrain/io/interview.hpp"

namespace sunstrain {

// "Outer lite. " before a question that is put of each lite of a unit, else nothing.
std::string lite_asked(const Asking& asking, const Job& job, const Language& language);

// A question with its answers and how to find out, as many columns wide.
std::string question_text(const Asking& asking, const Job& job, const Reference& reference, int width);

// What a rule says, behind the mark of the verdict that it brings; of one that refers also that one may stop here.
std::string rule_text(const Rule& rule, const Language& language, int width);

// Every question on sheets of 80 columns and 60 lines to fill in by pencil, a form feed between two; no question is
// cut.
std::string question_sheet(const Questions& questions);

}  // namespace sunstrain
