#include "sunstrain/job_keys.hpp"

#include <algorithm>
#include <utility>

namespace sunstrain {

namespace {

// "lite.2.tint" -> "lite.", "2"; empty when the second part is no number.
std::pair<std::string_view, std::string_view> numbered(std::string_view key) {
  const std::size_t dot = key.find('.');
  if (dot == std::string_view::npos) return {};
  const std::size_t end = std::min(key.find('.', dot + 1), key.size());
  const std::string_view number = key.substr(dot + 1, end - dot - 1);
  const bool digits = !number.empty() && number.find_first_not_of("0123456789") == std::string_view::npos;
  if (!digits) return {};
  return {key.substr(0, dot + 1), number};
}

// The room there is: lites up to the panes, one cavity less. Cannot tell while the panes are not known.
Truth within_unit(std::string_view key, const Facts& facts) {
  const auto [table, number] = numbered(key);
  if (table != "lite." && table != "cavity.") return Truth::yes;
  const auto panes = facts.find("glass.panes");
  if (panes == facts.end()) return number == "1" && table == "lite." ? Truth::yes : Truth::cannot_tell;
  const std::string* word = std::get_if<std::string>(&panes->second);
  const int count =
      word != nullptr ? instance_number("glass." + *word) : static_cast<int>(std::get<double>(panes->second));
  return instance_number(key) <= (table == "lite." ? count : count - 1) ? Truth::yes : Truth::no;
}

}  // namespace

const JobKey* find_job_key(const std::vector<JobKey>& keys, std::string_view key) {
  const auto named = [&](std::string_view name) -> const JobKey* {
    const auto found = std::find_if(keys.begin(), keys.end(), [&](const JobKey& row) { return row.name == name; });
    return found == keys.end() ? nullptr : &*found;
  };
  if (key.find('*') != std::string_view::npos) return nullptr;  // a pattern is not a key
  const JobKey* exact = named(key);
  return exact != nullptr ? exact : named(key_pattern(key));
}

Condition for_key(Condition condition, std::string_view key) {
  const auto [table, number] = numbered(key);
  if (table.empty()) return condition;
  const std::string starred = std::string(table) + "*";
  if (condition.fact.compare(0, starred.size(), starred) == 0) {
    condition.fact = std::string(table) + std::string(number) + condition.fact.substr(starred.size());
  }
  for (Condition& part : condition.parts) part = for_key(std::move(part), key);
  return condition;
}

Truth key_applies(const JobKey& row, std::string_view key, const Facts& facts) {
  const Truth room = within_unit(key, facts);
  if (room == Truth::no) return Truth::no;
  const Truth meaning = holds(for_key(row.applies, key), facts);
  return meaning == Truth::yes ? room : meaning;
}

std::vector<std::string> concrete_keys(const std::string& name) {
  const std::size_t star = name.find('*');
  if (star == std::string::npos) return {name};
  std::vector<std::string> keys;
  for (const char* number : {"1", "2", "3"}) keys.push_back(std::string(name).replace(star, 1, number));
  return keys;
}

int instance_number(std::string_view key) {
  const std::string_view number = numbered(key).second;
  if (number.empty()) return 0;
  if (number.size() > 6) return 1000000;  // no unit has so many lites
  return std::stoi(std::string(number));
}

}  // namespace sunstrain
