// Rows of a table as spreadsheets save it (comma, semicolon or tab; RFC 4180 quotes), one at a time in constant memory.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace sunstrain {

struct CsvRecord {
  std::size_t line = 0;            // of the file, from 1, on which the row begins
  std::vector<std::string> cells;  // UTF-8, without the quotes around them, blanks as they stand
  std::string problem;             // not empty: why the row could not be taken apart; `cells` is its line as it stands
  std::size_t end = 0;             // bytes of the table up to the row's end

  bool blank() const;  // no problem, and nothing but blanks in its cells
};

class CsvReader {
 public:
  // Puts at most `size` bytes at `to` and says how many; 0 only at the end of the table.
  using Source = std::function<std::size_t(char* to, std::size_t size)>;

  static constexpr std::size_t largest_row = 65'536;  // bytes; beyond it a quote was never closed, or it is no table

  // Reads as much as it takes to tell how the table is written: a byte-order mark, the separator (the one of comma,
  // semicolon and tab that the first row has most of, outside quotes; comma where it has none), the line ends.
  // Throws BadInput for UTF-16 text, with `name` before it.
  CsvReader(Source source, const std::string& name);

  // The next row into `row`; false at the end. A row that is not UTF-8 is read as Latin-1 with the signs that Windows
  // puts between 0x80 and 0x9F. A row with a problem takes one line away, so that the rows after it are read.
  bool next(CsvRecord& row);

  char separator() const { return separator_; }
  bool has_mark() const { return has_mark_; }                // UTF-8 byte-order mark
  const std::string& line_end() const { return line_end_; }  // of the first row: "\n", "\r\n" or "\r"

 private:
  bool fetch();
  void find_dialect();
  void take(std::size_t bytes);
  void spoiled(CsvRecord& row, std::string problem);

  Source source_;
  std::string buffer_;    // what is read and not yet handed out
  std::size_t read_ = 0;  // bytes, handed out or not
  bool ended_ = false, has_mark_ = false;
  char separator_ = ',';
  std::string line_end_ = "\n";
  std::size_t line_ = 1;
};

// The row that names the columns: the first that is not blank. Throws BadInput, `name` before it, where there is none.
CsvRecord header_row(CsvReader& reader, const std::string& name);

// The cells of a line, which has no line end. Throws BadInput with `where` before it where its quotes do not pair.
std::vector<std::string> csv_cells(std::string_view line, char separator, const std::string& where);

// One row as text with its line end. What needs quotes has them; reading it gives the same cells.
std::string csv_line(const std::vector<std::string>& cells, char separator, const std::string& line_end);

// A cell as a spreadsheet takes it for text: one that starts like a formula (=, +, -, @, a tab or a line end) with a
// quote mark before it.
std::string inert_cell(std::string cell);

}  // namespace sunstrain
