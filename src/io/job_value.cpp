#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "job_words.hpp"
#include "say.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/io/quantity.hpp"
#include "sunstrain/job_keys.hpp"

namespace sunstrain {

namespace {

using Kind = JobKey::Kind;

constexpr std::size_t longest_text = 500;

std::string free_text(std::string_view text) {
  if (text.size() > longest_text) throw BadInput(say("is longer than {} bytes", longest_text));
  // A name goes to terminals and papers: no line breaks, no escape sequences.
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x20 || byte == 0x7F) throw BadInput("holds a line break or control character: write plain text");
  }
  return std::string(text);
}

std::string choice(const JobKey& key, std::string_view text) {
  for (const std::string& word : key.choices) {
    if (lower_case(word) == lower_case(text)) return word;
  }
  throw BadInput(say("allowed: {}{}", joined(key.choices), nearest_hint(text, key.choices)));
}

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

// An angle may be a word only where the key has words: "N" is a way to look out, not a latitude.
void require_angle_word(const JobKey& key, std::string_view text) {
  if (!is_letter(text.front())) return;
  if (key.choices.empty())
    throw BadInput(say("{}: write {}", Saying("is no angle"), Saying(allowed_forms(Kind::angle))));
  for (const std::string& word : key.choices) {
    if (lower_case(word) == lower_case(text)) return;
  }
  throw BadInput(say("is no angle: write degrees such as 180, or one of {}", joined(key.choices)));
}

// "-6 h" for a key that is printed in hours is the number -6.
std::string_view without_unit(const JobKey& key, std::string_view text) {
  const bool ends = key.kind == Kind::number && !key.unit.empty() && text.size() > key.unit.size() &&
                    text.substr(text.size() - key.unit.size()) == key.unit;
  return ends ? trimmed(text.substr(0, text.size() - key.unit.size())) : text;
}

double number_in_range(const JobKey& key, std::string_view text) {
  if (key.kind == Kind::angle) require_angle_word(key, text);
  const double value = parse_quantity(key.kind, without_unit(key, text));
  if (value < key.minimum || value > key.maximum) {
    throw BadInput(say("allowed: {} to {} ({})", format_in_unit(key.kind, key.minimum, key.unit),
                       format_in_unit(key.kind, key.maximum, key.unit), Saying(key.sentence)));
  }
  if (key.whole && value != std::floor(value)) throw BadInput("allowed: whole numbers only");
  return value;
}

// How many lites the key table knows a glazing to have at most.
int most_lites(const std::vector<JobKey>& keys) {
  const JobKey* panes = find_job_key(keys, "glass.panes");
  return panes == nullptr || panes->choices.empty() ? 3 : static_cast<int>(panes->choices.size());
}

}  // namespace

void require_instance(std::string_view key, std::string_view where, const std::vector<JobKey>& keys) {
  const int number = instance_number(key), lites = most_lites(keys);
  const bool lite = key.substr(0, 5) == "lite.", cavity = key.substr(0, 7) == "cavity.";
  const int most = lite ? lites : lites - 1;
  if ((!lite && !cavity) || number <= most) return;
  throw BadInput(
      lite ? say("{}: {}: there is no such lite; they are numbered 1 to {} from outdoors", where, shown(key), most)
           : say("{}: {}: there is no such cavity; they are numbered 1 to {} from outdoors", where, shown(key), most));
}

std::optional<Value> parse_value(const JobKey& key, std::string_view text) {
  text = trimmed(text);
  if (lower_case(text) == "unknown") return std::nullopt;
  if (key.kind == Kind::text) {
    if (text.empty()) return std::nullopt;
    return free_text(text);
  }
  if (text.empty()) throw BadInput("is empty: leave the key out or write \"unknown\" where it is not known");
  if (key.kind == Kind::choice) return choice(key, text);
  if (key.kind == Kind::date) return parse_date(text);
  return number_in_range(key, text);
}

void set_value(Job& job, std::string_view key, std::string_view text, std::string_view where,
               const Reference& reference) {
  const JobKey* row = find_job_key(reference.job_keys, key);
  if (row == nullptr)
    throw BadInput(say("{}: {}: {}", where, shown(key), no_such_key(key, reference.job_keys, reference.template_of)));
  require_instance(key, where, reference.job_keys);
  try {
    std::optional<PartlyKnown> partly = parse_partly(*row, text);
    const std::optional<Value> value = partly ? std::nullopt : parse_value(*row, text);
    forget(job, std::string(key));
    if (partly) job.partly.emplace(key, std::move(*partly));
    if (value) job.values.emplace(key, *value);
  } catch (const BadInput& error) {
    throw BadInput(say("{}: {} = {}: {}", where, key, quoted(text), error));
  }
}

void set_key(Job& job, std::string_view assignment, const Reference& reference) {
  require_text(assignment, "--set");
  const std::size_t equals = assignment.find('=');
  if (equals == std::string_view::npos || trimmed(assignment.substr(0, equals)).empty()) {
    throw BadInput(say("--set {}: write key=value, such as film.solar_absorptance=0.5", quoted(assignment)));
  }
  std::string_view text = trimmed(assignment.substr(equals + 1));
  if (text.size() >= 2 && text.front() == '"' && text.back() == '"') text = text.substr(1, text.size() - 2);
  set_value(job, trimmed(assignment.substr(0, equals)), text, "--set", reference);
  if (job.source.empty()) job.source = "options";
}

}  // namespace sunstrain
