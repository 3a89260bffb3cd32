#include "sunstrain/job.hpp"

namespace sunstrain {

namespace {

// Jobs hold keys as std::string; the lookups come in as string_view.
const Value* value_of(const Job& job, std::string_view key) {
  const auto found = job.values.find(std::string(key));
  return found == job.values.end() ? nullptr : &found->second;
}

// A counting number as a person numbers lites: "1", "12"; not "0", "01" or "1a".
bool is_count(std::string_view segment) {
  return !segment.empty() && segment.front() != '0' &&
         segment.find_first_not_of("0123456789") == std::string_view::npos;
}

}  // namespace

bool speaks_of(const Job& job, const std::string& key) { return job.values.contains(key) || job.partly.contains(key); }

void settle(Job& job, const std::string& key, Value value) {
  job.partly.erase(key);
  job.values.insert_or_assign(key, std::move(value));
}

void forget(Job& job, const std::string& key) {
  job.partly.erase(key);
  job.values.erase(key);
}

std::optional<double> number_of(const Job& job, std::string_view key) {
  const Value* value = value_of(job, key);
  if (value == nullptr) return std::nullopt;
  if (const double* number = std::get_if<double>(value)) return *number;
  throw std::logic_error("job key " + std::string(key) + " holds a word where a number was asked for");
}

std::optional<std::string> word_of(const Job& job, std::string_view key) {
  const Value* value = value_of(job, key);
  if (value == nullptr) return std::nullopt;
  if (const std::string* word = std::get_if<std::string>(value)) return *word;
  throw std::logic_error("job key " + std::string(key) + " holds a number where a word was asked for");
}

std::string key_pattern(std::string_view key) {
  std::string pattern;
  for (std::size_t begin = 0;;) {
    const std::size_t end = key.find('.', begin);
    const std::string_view segment = key.substr(begin, end == std::string_view::npos ? end : end - begin);
    pattern += is_count(segment) ? "*" : segment;
    if (end == std::string_view::npos) return pattern;
    pattern += '.';
    begin = end + 1;
  }
}

}  // namespace sunstrain
