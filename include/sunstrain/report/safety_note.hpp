// The note that goes with every answer.
#pragma once

#include <string>

#include "sunstrain/reference.hpp"

namespace sunstrain {

// Who decides, and the usual cautions of the work. One paragraph.
std::string safety_note(const Reference& reference);

}  // namespace sunstrain
