// Internal: what --full adds to the one-screen answer.
#pragma once

#include <string>

#include "sunstrain/report/text_answer.hpp"

namespace sunstrain::report {

std::string full_answer(const Assessment& assessment, const Reference& reference, const TextStyle& style);

}  // namespace sunstrain::report
