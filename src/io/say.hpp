// Internal: a message with its figures, which waits for its language.
#pragma once

#include <fmt/format.h>

#include <string>
#include <type_traits>
#include <vector>

#include "sunstrain/job.hpp"

template <>
struct fmt::formatter<sunstrain::Saying> : fmt::formatter<std::string_view> {
  template <class Context>
  auto format(const sunstrain::Saying& saying, Context& context) const {
    return fmt::formatter<std::string_view>::format(sunstrain::said(saying, {}), context);
  }
};
template <>
struct fmt::formatter<sunstrain::BadInput> : fmt::formatter<sunstrain::Saying> {
  template <class Context>
  auto format(const sunstrain::BadInput& error, Context& context) const {
    return fmt::formatter<sunstrain::Saying>::format(error.in_words(), context);
  }
};

namespace sunstrain {

// A text that is told by way of a variable.
constexpr const char* worded(const char* english) { return english; }

// What is between the pattern's braces of this argument: "{:.4g}".
std::string placeholder_of(std::string_view pattern, std::size_t argument);

template <class Arg>
Saying part_said(std::string_view pattern, std::size_t argument, const Arg& arg) {
  if constexpr (std::is_same_v<Arg, Saying> || std::is_same_v<Arg, BadInput>)
    return part_of_saying(arg);
  else
    return part_of_saying(fmt::format(fmt::runtime(placeholder_of(pattern, argument)), arg));
}

// As fmt::format, of texts, figures, Sayings and messages; each in its format, whatever the language.
template <class... Args>
Saying say(fmt::format_string<const Args&...> english, const Args&... args) {
  const fmt::string_view text = english;
  const std::string_view pattern(text.data(), text.size());
  std::size_t argument = 0;
  std::vector<Saying> parts;
  (parts.push_back(part_said(pattern, argument++, args)), ...);
  return {pattern, std::move(parts)};
}

}  // namespace sunstrain
