#include "reference_csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "decimal.hpp"
#include "say.hpp"
#include "sunstrain/io/csv_rows.hpp"
#include "sunstrain/job.hpp"

namespace sunstrain {

namespace {

void require_header(const std::vector<std::string>& found, const std::vector<std::string>& columns,
                    const std::string& file) {
  for (const std::string& column : found) {
    if (std::find(columns.begin(), columns.end(), column) == columns.end()) {
      throw BadInput(say("{}: column {} is not known here", file, column));
    }
  }
  for (const std::string& column : columns) {
    if (std::find(found.begin(), found.end(), column) == found.end()) {
      throw BadInput(say("{}: column {} is missing", file, column));
    }
  }
  if (found.size() != columns.size()) throw BadInput(say("{}: a column stands twice in the header", file));
}

}  // namespace

CsvRow::CsvRow(const std::vector<std::string>& columns, std::vector<std::string> fields, std::string where)
    : columns_(columns), fields_(std::move(fields)), where_(std::move(where)) {}

const std::string& CsvRow::text(std::string_view column) const {
  const auto found = std::find(columns_.begin(), columns_.end(), column);
  if (found == columns_.end()) throw BadInput(say("{}: no column {}", where_, column));
  const std::string& field = fields_[static_cast<std::size_t>(found - columns_.begin())];
  if (field.empty()) throw BadInput(say("{}: {} is empty", where_, column));
  return field;
}

double CsvRow::number(std::string_view column, double least, double most) const {
  const std::string& field = text(column);
  double value = 0.0;
  const auto [end, error] = decimal_from_chars(field.data(), field.data() + field.size(), value);
  if (error != std::errc() || end != field.data() + field.size() || !std::isfinite(value)) {
    throw BadInput(say("{}: {} = \"{}\": a number is needed", where_, column, field));
  }
  if (value < least || value > most) {
    throw BadInput(say("{}: {} = {}: allowed: {} to {}", where_, column, field, least, most));
  }
  return value;
}

std::vector<std::string> csv_columns(const std::string& file, std::string_view text) {
  return csv_cells(text.substr(0, text.find_first_of("\r\n")), ',', file);
}

std::vector<CsvRow> parse_reference_csv(const std::string& file, std::string_view text,
                                        const std::vector<std::string>& columns) {
  std::vector<CsvRow> rows;
  std::vector<std::string> header;
  int line_number = 0;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    ++line_number;
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    if (line.empty()) continue;
    const std::string where = fmt::format("{}, line {}", file, line_number);
    std::vector<std::string> fields = csv_cells(line, ',', where);
    if (header.empty()) {
      require_header(fields, columns, file);
      header = std::move(fields);
      continue;
    }
    if (fields.size() != header.size()) {
      throw BadInput(say("{}: {} fields, but the header has {}", where, fields.size(), header.size()));
    }
    const std::string label = fmt::format("{} ({})", where, fields.front());
    rows.emplace_back(header, std::move(fields), label);
  }
  if (rows.empty()) throw BadInput(say("{}: no rows", file));
  return rows;
}

}  // namespace sunstrain
