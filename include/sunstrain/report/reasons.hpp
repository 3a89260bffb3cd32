// Why the answer is what it is, in plain sentences, worst first.
#pragma once

#include <string>
#include <vector>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/quantity.hpp"

namespace sunstrain {

// kind: "figures" (what the engine computed), "guidance" (a trade rule), "assumed" (an unknown that mattered).
// source: of the rule, or the stage of the engine that the sentence comes from.
struct Reason {
  std::string text, kind, source;
};

std::vector<Reason> reasons_of(const Assessment& assessment, const Reference& reference, Units units);

// The same for the owner of the pane: what the glass and the shadow do, what guidance asks and what was not known and
// decided, without a figure of stress or odds.
std::vector<std::string> plain_reasons_of(const Assessment& assessment, const Reference& reference, Units units);

// What could be done on the installed pane, each with what the engine makes of it. Empty for a go.
std::vector<std::string> helps_of(const Assessment& assessment, const Reference& reference, Units units);

}  // namespace sunstrain
