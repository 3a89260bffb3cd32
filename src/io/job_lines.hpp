// Lines of a job file.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sunstrain/reference.hpp"

namespace sunstrain {

// The table that a key stands in: "lite.*.tint" -> "lite.1"; "weather" stands in none.
std::string table_of(std::string_view key);

// The tables in the order of the key table, those of further lites after the first; "" is that of a bare key.
std::vector<std::string> tables_in_order(const Reference& reference);

// The key within its table: "lite.2.tint" -> "tint".
std::string name_in_table(std::string_view key);

// Text as comment lines of a width that a terminal shows whole.
std::string comment(std::string_view text);

// The example of a key as a file has it: a plain number bare, all else between quotes.
std::string example_value(const JobKey& row);

// Any text between quotes.
std::string toml_text(std::string_view text);

}  // namespace sunstrain
