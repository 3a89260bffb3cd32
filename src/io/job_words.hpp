// Words of messages about a job: what was typed, shown on one line, and what was probably meant.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sunstrain/reference.hpp"

namespace sunstrain {

inline constexpr std::size_t longest_shown = 60, longest_path = 1000;

// What was typed on one printable line: control characters as "?", cut off after `longest` bytes.
std::string shown(std::string_view text, std::size_t longest = longest_shown);

// The same between quotes.
std::string quoted(std::string_view text);

std::string lower_case(std::string_view text);
std::string_view trimmed(std::string_view text);

// A number alone, without a unit: "37 1/4", "-7", "0,45".
bool bare_number(std::string_view text);

// Changes of one letter, a swap of neighbors counted once, that turn `a` into `b`. Long texts are cut to 64.
std::size_t edit_distance(std::string_view a, std::string_view b);

// The word of `words` closest to `typed`; empty when none is close.
std::string nearest_word(std::string_view typed, const std::vector<std::string>& words);

// "; the nearest is pane.width"; nothing when none is close.
Saying nearest_hint(std::string_view typed, const std::vector<std::string>& words);

// "no such key; the nearest is pane.width" or "is a table; ...", for the text behind an unknown key's name.
// template_of: the command whose --template lists them.
Saying no_such_key(std::string_view key, const std::vector<JobKey>& keys, const std::string& template_of = "check");

// Throws BadInput with `where` before it where the key names a lite or cavity that no unit has.
void require_instance(std::string_view key, std::string_view where, const std::vector<JobKey>& keys);

// "town.epw: is empty": throws BadInput about a file.
[[noreturn]] void refuse_file(const std::string& path, const Saying& what);

std::string joined(const std::vector<std::string>& words, std::string_view between = ", ");

}  // namespace sunstrain
