// Internal: what several answers for other programs have in common.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "sunstrain/job.hpp"
#include "sunstrain/rules.hpp"

namespace sunstrain::report {

// The figure itself. Throws std::runtime_error where it is not finite: JSON has no way to say it.
double finite(double value);

nlohmann::ordered_json json_of(const Value& value);
// Back again.
Value value_of(const nlohmann::ordered_json& json);
nlohmann::ordered_json json_of(const Rule& rule);
// {"file": ..., "version": ..., "count": ...}; null without a user's own rules.
nlohmann::ordered_json own_rules_json(const Reference& reference);

template <class Items, class ToJson>
nlohmann::ordered_json list_of(const Items& items, ToJson to_json) {
  auto list = nlohmann::ordered_json::array();
  for (const auto& item : items) list.push_back(to_json(item));
  return list;
}

// Printed, ending in a line break. A file's name need not be UTF-8, everything else is.
std::string json_text(const nlohmann::ordered_json& document);

}  // namespace sunstrain::report
