#include "sunstrain/language.hpp"

namespace sunstrain {

const std::string& told(const Language& language, const std::string& english) {
  const auto row = language.of.find(english);
  return row == language.of.end() ? english : row->second;
}

const std::string& word_told(const Language& language, const std::string& key_pattern, const std::string& word) {
  const auto row = language.of.find(key_pattern + "=" + word);
  return row == language.of.end() ? told(language, word) : row->second;
}

std::string said(const Saying& saying, const Language& language) {
  if (saying.as_it_stands) return saying.pattern;
  const std::string& pattern = told(language, saying.pattern);
  if (saying.parts.empty()) return pattern;
  std::string text;
  std::size_t next = 0;
  for (std::size_t at = 0; at < pattern.size(); ++at) {
    if (pattern[at] != '{') {
      text += pattern[at];
      continue;
    }
    const std::size_t end = pattern.find('}', at);
    const std::string inside = pattern.substr(at + 1, end - at - 1);
    const std::string which = inside.substr(0, inside.find(':'));  // a format has been applied to the part
    text += said(saying.parts.at(which.empty() ? next++ : static_cast<std::size_t>(std::stoul(which))), language);
    at = end;
  }
  return text;
}

}  // namespace sunstrain
