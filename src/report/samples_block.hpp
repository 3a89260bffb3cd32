// Internal: what the samples of a job's unknowns came to, for people and for other programs.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "sunstrain/report/text_answer.hpp"

namespace sunstrain::report {

// Nothing where there were none.
std::string samples_block(const Assessment& a, const Reference& reference, const TextStyle& style);
nlohmann::ordered_json json_of(const std::optional<Samples>& samples, const Reference& reference);

}  // namespace sunstrain::report
