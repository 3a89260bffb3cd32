#include "users_toml.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "job_words.hpp"
#include "sunstrain/io/job_read.hpp"

namespace sunstrain {
namespace {

constexpr std::size_t largest_file = 1'000'000;  // bytes

// The parser's "job.toml, line 3: what" on one line, with the line as it stands behind it: it may not name the key.
std::string with_line(std::string message, std::size_t source_length, std::string_view text) {
  for (char& c : message) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = '?';
  }
  const std::string_view mark = ", line ";
  const std::size_t number = source_length + mark.size();
  if (message.compare(source_length, mark.size(), mark) != 0 || message.find_first_of("0123456789", number) != number) {
    return message;
  }
  for (int line = std::stoi(message.substr(number, 9)); line > 1; --line) {
    text.remove_prefix(std::min(text.find('\n'), text.size() - 1) + 1);
  }
  return message + ", in: " + shown(trimmed(text.substr(0, text.find('\n'))));
}

}  // namespace

DataNode parse_users_toml(std::string_view text, const std::string& source, std::string_view if_empty) {
  if (text.size() > largest_file)
    throw BadInput(fmt::format("{}: is larger than {} MB, the most that it may be", source, largest_file / 1'000'000));
  if (trimmed(text).empty()) throw BadInput(fmt::format("{}: is empty; {}", source, if_empty));
  require_text(text, source);
  try {
    return parse_toml_tree(source, text);
  } catch (const BadInput& error) {
    throw BadInput(with_line(error.what(), source.size(), text));
  }
}

}  // namespace sunstrain
