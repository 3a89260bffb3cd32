// What one does with an answer.
#pragma once

#include <string>

#include "sunstrain/assess.hpp"

namespace sunstrain {

// The one thing to do, in a sentence or two; of a single thing to settle also how to find it out, where `how`.
std::string to_do(const Assessment& assessment, const Reference& reference, bool how);

}  // namespace sunstrain
