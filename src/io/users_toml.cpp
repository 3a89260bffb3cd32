#include "users_toml.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "job_words.hpp"
#include "say.hpp"
#include "sunstrain/io/job_read.hpp"

namespace sunstrain {
namespace {

constexpr std::size_t largest_file = 1'000'000;  // bytes

// The parser's "job.toml, line 3: what", with the line as it stands behind it: it may not name the key.
Saying with_line(const BadInput& error, std::size_t source_length, std::string_view text) {
  const std::string message = error.what();
  const std::string_view mark = ", line ";
  const std::size_t number = source_length + mark.size();
  if (message.compare(source_length, mark.size(), mark) != 0 || message.find_first_of("0123456789", number) != number) {
    return error.in_words();
  }
  for (int line = std::stoi(message.substr(number, 9)); line > 1; --line) {
    text.remove_prefix(std::min(text.find('\n'), text.size() - 1) + 1);
  }
  return say("{}, in: {}", error, shown(trimmed(text.substr(0, text.find('\n')))));
}

}  // namespace

DataNode parse_users_toml(std::string_view text, const std::string& source, const Saying& if_empty) {
  if (text.size() > largest_file)
    throw BadInput(say("{}: is larger than {} MB, the most that it may be", source, largest_file / 1'000'000));
  if (trimmed(text).empty()) throw BadInput(say("{}: is empty; {}", source, if_empty));
  require_text(text, source);
  try {
    return parse_toml_tree(source, text);
  } catch (const BadInput& error) {
    throw BadInput(with_line(error, source.size(), text));
  }
}

}  // namespace sunstrain
