// Internal: the part of a case that is glass.
#pragma once

#include "sunstrain/case.hpp"

namespace sunstrain::internal {

// Of a job whose open keys are filled in. Throws BadInput where it is missing.
double need_number(const Job& job, const std::string& key);
std::string need_word(const Job& job, const std::string& key);

// Where a panel stands before the pane: "outdoors", "indoors" or "none".
std::string panel_of(const Job& job);

// By the case's room sets its sheets, the glazing without and with its films, the filmed sheet and each sheet's edge.
void build_glazing(const Job& complete, Run run, const Reference& reference, Case& pane);

}  // namespace sunstrain::internal
