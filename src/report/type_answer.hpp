// Internal: what is said of one type of pane among many.
#pragma once

#include <string>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/quantity.hpp"
#include "words.hpp"

namespace sunstrain::report {

struct TypeAnswer {
  Verdict verdict = Verdict::go;
  double ratio = 0.0;  // stress over what the edge bears, governing lite, bad end
  Odds odds{};         // that any lite of the pane breaks on the day of its peak, bad end
  std::string reason;
  RuleIds rules;
};

TypeAnswer type_answer(const Assessment& assessment, const Reference& reference, Units units);

std::string panes_text(double quantity, const Language& language);  // "1 pane", "12 panes"

}  // namespace sunstrain::report
