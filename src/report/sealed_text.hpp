// Internal: what the gas of a sealed unit does, in a sentence or two, beside the verdict.
#pragma once

#include <string>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/quantity.hpp"

namespace sunstrain::report {

// Empty of a single pane.
std::string sealed_text(const Assessment& assessment, const Reference& reference, Units units);

}  // namespace sunstrain::report
