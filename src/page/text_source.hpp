// Internal: a text that a table's reader takes as if it were a file.
#pragma once

#include <string>

#include "sunstrain/io/csv_rows.hpp"

namespace sunstrain::page {

inline CsvReader::Source from_text(const std::string& text) {
  return [&text, at = std::size_t{0}](char* to, std::size_t size) mutable {
    const std::size_t taken = text.copy(to, size, at);
    at += taken;
    return taken;
  };
}

}  // namespace sunstrain::page
