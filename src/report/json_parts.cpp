#include "json_parts.hpp"

#include <cmath>
#include <stdexcept>

#include "sunstrain/io/data_tables.hpp"

namespace sunstrain::report {

using Json = nlohmann::ordered_json;

double finite(double value) {
  if (!std::isfinite(value)) throw std::runtime_error("a figure of the assessment is not finite");
  return value;
}

namespace {

const char* word(Severity severity) {
  return severity == Severity::note ? "note" : severity == Severity::ask ? "ask" : "refer";
}

}  // namespace

Json json_of(const Value& value) {
  if (const double* number = std::get_if<double>(&value)) return finite(*number);
  return std::get<std::string>(value);
}

Value value_of(const Json& json) {
  if (json.is_number()) return json.get<double>();
  return json.get<std::string>();
}

Json json_of(const Rule& rule) {
  return {{"id", rule.id},
          {"severity", word(rule.severity)},
          {"text", rule.text},
          {"source", rule.source.text},
          {"certainty", certainty_word(rule.source.certainty)},
          {"mechanism", rule.mechanism.empty() ? Json() : Json(rule.mechanism)},
          {"users_own", rule.users_own}};
}

Json own_rules_json(const Reference& reference) {
  const auto& own = reference.own_rules;
  return own ? Json{{"file", own->file}, {"version", own->version}, {"count", own->count}} : Json();
}

std::string json_text(const Json& document) {
  return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace sunstrain::report
