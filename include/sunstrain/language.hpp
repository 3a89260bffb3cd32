// What a reader is told, in a language. The sentences stand in the code and in the tables in English;
// reference/texts.csv holds every one of them again, with a column a language.
#pragma once

#include <concepts>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace sunstrain {

struct Language {
  std::string code = "en";                             // a column of reference/texts.csv
  std::map<std::string, std::string, std::less<>> of;  // English -> this language; of English itself empty
};

// The text in the language; as it stands where the table has no row of it (a name, a user's own rule, English).
const std::string& told(const Language& language, const std::string& english);

// The same of a word out of a key's list of choices: what the table has for this key ("lite.*.coating=none"), else for
// the word wherever it stands.
const std::string& word_told(const Language& language, const std::string& key_pattern, const std::string& word);

// A sentence that waits for its language: {} stands for the next part, {0} or {1} for the first or second one.
struct Saying {
  Saying(const char* text) : pattern(text) {}             // NOLINT: a plain sentence is one
  Saying(std::string text) : pattern(std::move(text)) {}  // NOLINT
  Saying(std::string_view text, std::vector<Saying> with, bool stands = false)
      : pattern(text), parts(std::move(with)), as_it_stands(stands) {}

  std::string pattern;
  std::vector<Saying> parts{};
  bool as_it_stands = false;  // a name, a figure, what was typed: the same in every language
};
// Throws std::out_of_range where the pattern asks for a part that is not there.
std::string said(const Saying& saying, const Language& language);

inline Saying part_of_saying(std::string_view text) { return {text, {}, true}; }
inline Saying part_of_saying(const std::string& text) { return part_of_saying(std::string_view(text)); }
inline Saying part_of_saying(const char* text) { return part_of_saying(std::string_view(text)); }
inline Saying part_of_saying(const Saying& saying) { return saying; }
template <std::integral Whole>
Saying part_of_saying(Whole number) {
  return {std::string_view(std::to_string(number)), {}, true};
}

template <class... Parts>
Saying saying(std::string_view pattern, const Parts&... parts) {
  return {pattern, std::vector<Saying>{part_of_saying(parts)...}};
}

}  // namespace sunstrain
