// Internal: a sentence with its figures, in the reader's language.
#pragma once

#include <fmt/format.h>

#include <string>

#include "sunstrain/language.hpp"

namespace sunstrain {

// As fmt::format, whose pattern is looked up in the language first. That a translation takes the same arguments in the
// same formats is a test's (tests/texts).
template <class... Args>
std::string tell(const Language& language, fmt::format_string<Args...> english, Args&&... args) {
  const fmt::string_view pattern = english;
  const auto row = language.of.find(std::string_view(pattern.data(), pattern.size()));
  return fmt::vformat(row == language.of.end() ? pattern : fmt::string_view(row->second),
                      fmt::make_format_args(args...));
}

}  // namespace sunstrain
