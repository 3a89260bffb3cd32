#include "toml_scan.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sunstrain/job.hpp"

namespace sunstrain {

namespace {

constexpr int deepest = 8;  // parts of a dotted key, brackets within brackets

// Steps over the string that starts at `i`; returns where it ends.
std::size_t skip_string(std::string_view text, std::size_t i) {
  const char mark = text[i];
  const std::string three(3, mark);
  const bool several_lines = text.substr(i, 3) == three;
  const std::size_t end_length = several_lines ? 3 : 1;
  for (i += end_length; i < text.size(); ++i) {
    if (text[i] == '\\' && mark == '"') {
      ++i;
    } else if (several_lines ? text.substr(i, 3) == three : text[i] == mark) {
      i += end_length;
      // Up to two marks more belong to the text: """He said "yes""""
      for (int more = 0; several_lines && more < 2 && i < text.size() && text[i] == mark; ++more) ++i;
      return i;
    } else if (!several_lines && text[i] == '\n') {
      return i;  // an unfinished string: the parser says so
    }
  }
  return text.size();
}

}  // namespace

// What the parser must not be handed. It calls itself once for every level of a key or bracket, and so would
// run out of stack on a hostile file (a job needs three levels); and toml++ 3.3 has undefined behavior on some
// letters beyond ASCII in a bare key, where TOML 1.0 allows none.
void require_parsable(std::string_view text, const std::string& file) {
  int dots = 0, depth = 0;
  const auto refuse_at = [&](std::size_t i, const char* problem) {
    const auto line = 1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(i), '\n');
    throw BadInput(fmt::format("{}, line {}: {}", file, line, problem));
  };
  const std::string_view byte_order_mark = "\xEF\xBB\xBF";
  for (std::size_t i = text.substr(0, 3) == byte_order_mark ? 3 : 0; i < text.size();) {
    const char c = text[i];
    if (c == '"' || c == '\'') {
      i = skip_string(text, i);
      continue;
    }
    if (c == '#') {
      i = std::min(text.find('\n', i), text.size());
      continue;
    }
    if (static_cast<unsigned char>(c) >= 0x80) {
      refuse_at(i, "a curly quote or a letter beyond a to z stands outside quotes; put text between plain \" marks");
    }
    if (c == '.' && ++dots > deepest) refuse_at(i, "more levels within one another than are used here");
    if ((c == '[' || c == '{') && ++depth > deepest) refuse_at(i, "more levels within one another than are used here");
    if (c == ']' || c == '}') depth = std::max(0, depth - 1);
    if (c == '\n' || c == '=' || c == ',' || c == '[' || c == '{') dots = 0;
    ++i;
  }
}

}  // namespace sunstrain
