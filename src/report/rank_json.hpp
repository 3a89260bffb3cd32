// Internal: the films on one pane as JSON, for the document and for a line of many.
#pragma once

#include <nlohmann/json.hpp>

#include "sunstrain/report/rank_report.hpp"

namespace sunstrain::report {

// {films, left_out, errors} of rank_json.
nlohmann::ordered_json json_of(const RankedPane& pane, const RankChoice& choice, const Language& language);

}  // namespace sunstrain::report
