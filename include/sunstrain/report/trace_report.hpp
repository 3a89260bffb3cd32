// The working behind an answer, as text and as JSON.
#pragma once

#include <string>

#include "sunstrain/trace.hpp"

namespace sunstrain {

std::string trace_text(const Trace& trace, const Reference& reference, int width);

// Keys: job, verdict, lite, when {month, day, local_hour}, stages [{name, figures [{what, value, unit, how}]}],
// by_hand [{method, middle_less_edge_k, shadow_factor, curtain_factor, area_factor, edge_factor, stress_mpa,
// allowable_mpa, used}], limits [{published, stress_mpa or difference_k, used, certainty, source}], why_they_differ,
// safety_note.
std::string trace_json(const Trace& trace, const Reference& reference);

}  // namespace sunstrain
