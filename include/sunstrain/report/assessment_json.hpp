// The answer for other programs. The keys that schema "sunstrain-assessment-1" names stay as they are; others may
// join them.
#pragma once

#include <span>
#include <string>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/quantity.hpp"

namespace sunstrain {

// JSON text, ending in a line break: an object, or a list where several were asked for. Numbers are in the
// unit that their key names, those under "job", "bad_end" and "middle" in SI; `units` is for sentences and for
// `taken_as` only. Throws std::runtime_error for a figure that is not finite: JSON has no way to say it.
std::string assessments_json(std::span<const Assessment> assessments, bool several, const Reference& reference,
                             Units units);

}  // namespace sunstrain
