// Internal: what a weather file's year brings, in the printed answer.
#pragma once

#include "sunstrain/report/text_answer.hpp"

namespace sunstrain::report {

// Empty without a weather file.
std::string weather_block(const Assessment& assessment, const Language& language, const TextStyle& style);

}  // namespace sunstrain::report
