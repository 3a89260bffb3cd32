// What was asked: a job as a flat map of keys to values in SI, exactly as the person at the window
// knows it. A key that is absent is not known; resolve.hpp says how such a key, or one known in part, is taken.
// The keys themselves (unit, range, how taken when unknown) are data: reference/job_keys.toml.
#pragma once

#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "sunstrain/language.hpp"

namespace sunstrain {

// A number in SI (lengths m, temperatures K, angles rad, fractions 0 to 1, years, W/m2K) or a word
// out of a key's list of choices ("yes" and "no" for a question), or free text (names).
using Value = std::variant<double, std::string>;

// A key of which something is known: "5 to 7 mm", "none or low-e-soft".
struct PartlyKnown {
  std::vector<Value> values;  // plausible, two or more: as given, or places of the range in order
  Value likely;               // one of them: the first as given, or the middle of the range
  std::optional<std::pair<double, double>> range{};  // its ends, SI; nothing: alternatives
};

struct Job {
  std::string source;                           // file name or "options", for messages
  std::map<std::string, Value> values;          // "pane.width" -> 0.946, "lite.1.tint" -> "clear"
  std::map<std::string, PartlyKnown> partly{};  // keys that are not among the values
};

// Whether the job says anything of the key.
bool speaks_of(const Job& job, const std::string& key);

// The job with the key at that value, whatever was known of it, and with nothing known of it.
void settle(Job& job, const std::string& key, Value value);
void forget(Job& job, const std::string& key);

// The number under `key`, or nothing when the key is absent. Throws std::logic_error if it holds a word.
std::optional<double> number_of(const Job& job, std::string_view key);

// The word under `key`, or nothing when the key is absent. Throws std::logic_error if it holds a number.
std::optional<std::string> word_of(const Job& job, std::string_view key);

// "lite.2.tint" -> "lite.*.tint": the name under which reference/job_keys.toml describes a key.
std::string key_pattern(std::string_view key);

// A job, table or option that cannot be used. what() is one line that names source, key, value and
// what is allowed, in English; told() has it in a language. The command line prints it and ends with exit code 2.
class BadInput : public std::runtime_error {
 public:
  explicit BadInput(Saying what_is_wrong)
      : std::runtime_error(said(what_is_wrong, {})), saying_(std::move(what_is_wrong)) {}
  // A pattern and what fills its {}: texts, whole numbers, Sayings.
  template <class... Parts>
  explicit BadInput(std::string_view pattern, const Parts&... parts) : BadInput(saying(pattern, parts...)) {}

  const Saying& in_words() const { return saying_; }

 private:
  Saying saying_;
};

// A message within another one.
inline Saying part_of_saying(const BadInput& error) { return error.in_words(); }

inline std::string told(const Language& language, const BadInput& error) { return said(error.in_words(), language); }

}  // namespace sunstrain
