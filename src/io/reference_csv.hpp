// A reference table in CSV: one header line, then rows of the same columns. Quotes hold commas ("a, b");
// a doubled quote inside them stands for one.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace sunstrain {

class CsvRow {
 public:
  CsvRow(const std::vector<std::string>& columns, std::vector<std::string> fields, std::string where);

  const std::string& where() const { return where_; }
  const std::vector<std::string>& columns() const { return columns_; }
  const std::vector<std::string>& fields() const { return fields_; }
  const std::string& text(std::string_view column) const;  // not empty
  double number(std::string_view column, double least, double most) const;

 private:
  std::vector<std::string> columns_, fields_;
  std::string where_;
};

// The columns that the header names.
std::vector<std::string> csv_columns(const std::string& file, std::string_view text);

// Throws BadInput when the header is not exactly `columns`, in this order, or a row has another count of fields.
std::vector<CsvRow> parse_reference_csv(const std::string& file, std::string_view text,
                                        const std::vector<std::string>& columns);

}  // namespace sunstrain
