// A table of which each row gets an answer: where it comes from, and what commands on such tables have in common.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "options.hpp"
#include "row_files.hpp"
#include "sunstrain/io/schedule_read.hpp"
#include "sunstrain/reference.hpp"

namespace sunstrain::cli {

// A table being read, past the row that names its columns.
struct TableIn {
  RowsIn file;
  CsvReader reader;
  CsvRecord header;

  // "-": standard input. Throws BadInput where it cannot be opened or is empty.
  explicit TableIn(const std::string& path);
  // The next row; nothing at the end, and at Ctrl-C: the rows in hand are then the last, and one that it cut in two is
  // none.
  std::optional<CsvRecord> next();

  // A row as this table writes it: its separator and line ends; and the first one, with its mark.
  std::string line(const std::vector<std::string>& cells) const;
  std::string first_line(const std::vector<std::string>& cells) const;
  // To a thousandth. Between semicolons and tabs a comma may be the decimal mark; it is written between semicolons,
  // where it always is.
  std::string number_cell(double number) const;
};

// Throws BadInput, `source` before it, for a column that the answer is to have.
void refuse_answer_columns(const ScheduleLayout& layout, const std::vector<std::string>& answers,
                           const std::string& source);

// The job file of --defaults: what all panes of a table share; nothing given, no key.
Job defaults_of(const po::variables_map& given, const Reference& reference);

}  // namespace sunstrain::cli
