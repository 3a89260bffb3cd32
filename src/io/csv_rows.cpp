#include "sunstrain/io/csv_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "job_words.hpp"
#include "say.hpp"
#include "sunstrain/io/job_read.hpp"
#include "sunstrain/job.hpp"

namespace sunstrain {

namespace {

bool ends_line(char c) { return c == '\n' || c == '\r'; }

// Takes a row apart, one byte after the other.
class RowScan {
 public:
  explicit RowScan(char separator) : separator_(separator) {}

  // False at the line end that closes the row.
  bool feed(char c) {
    if (state_ == State::quoted) {
      if (c == '"')
        state_ = State::closed;
      else
        cells_.back() += c;
      return true;
    }
    if (ends_line(c)) return false;
    if (c == separator_) {
      cells_.emplace_back();
      state_ = State::start;
    } else if (c == '"' && state_ == State::start) {
      state_ = State::quoted;
    } else if (c == '"' && state_ == State::closed) {  // a doubled quote stands for one
      cells_.back() += c;
      state_ = State::quoted;
    } else {
      behind_quote_ = behind_quote_ || state_ == State::closed;
      cells_.back() += c;
      state_ = State::plain;
    }
    return true;
  }

  bool in_quotes() const { return state_ == State::quoted; }
  bool text_behind_quote() const { return behind_quote_; }
  std::vector<std::string> cells() && { return std::move(cells_); }

 private:
  enum class State { start, plain, quoted, closed };
  char separator_;
  State state_ = State::start;
  bool behind_quote_ = false;
  std::vector<std::string> cells_{""};
};

void append_character(std::string& text, unsigned code) {
  if (code < 0x80) {
    text += static_cast<char>(code);
  } else if (code < 0x800) {
    text += static_cast<char>(0xC0 | (code >> 6));
    text += static_cast<char>(0x80 | (code & 0x3F));
  } else {
    text += static_cast<char>(0xE0 | (code >> 12));
    text += static_cast<char>(0x80 | ((code >> 6) & 0x3F));
    text += static_cast<char>(0x80 | (code & 0x3F));
  }
}

// Windows-1252, which is Latin-1 (ISO 8859-1) but for 0x80 to 0x9F; the five codes it leaves open stay Latin-1's.
// Source: the Unicode Consortium's mapping table of code page 1252 (recalled).
std::string from_latin_1(std::string_view bytes) {
  constexpr std::array<unsigned, 32> windows{0x20AC, 0x81,   0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
                                             0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0x8D,   0x017D, 0x8F,
                                             0x90,   0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                             0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x9D,   0x017E, 0x0178};
  std::string text;
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    append_character(text, byte >= 0x80 && byte < 0xA0 ? windows[byte - 0x80U] : byte);
  }
  return text;
}

void to_utf8(std::vector<std::string>& cells) {
  if (std::all_of(cells.begin(), cells.end(), is_utf8)) return;
  for (std::string& cell : cells) cell = from_latin_1(cell);
}

}  // namespace

bool CsvRecord::blank() const {
  return problem.empty() &&
         std::all_of(cells.begin(), cells.end(), [](const std::string& cell) { return trimmed(cell).empty(); });
}

CsvReader::CsvReader(Source source, const std::string& name) : source_(std::move(source)) {
  while (buffer_.size() < 3 && fetch()) {
  }
  if (buffer_.compare(0, 2, "\xFF\xFE") == 0 || buffer_.compare(0, 2, "\xFE\xFF") == 0)
    throw BadInput(say("{}: is UTF-16 text; save the table as CSV in UTF-8", name));
  has_mark_ = buffer_.compare(0, 3, "\xEF\xBB\xBF") == 0;
  if (has_mark_) buffer_.erase(0, 3);
  find_dialect();
}

bool CsvReader::fetch() {
  if (ended_) return false;
  constexpr std::size_t piece = 16'384;
  const std::size_t before = buffer_.size();
  buffer_.resize(before + piece);
  const std::size_t got = source_(buffer_.data() + before, piece);
  buffer_.resize(before + got);
  read_ += got;
  ended_ = got == 0;
  return !ended_;
}

// By the first row that is not blank.
void CsvReader::find_dialect() {
  constexpr std::array<char, 3> separators{'\t', ';', ','};
  std::array<std::size_t, 3> counts{};
  bool quoted = false, text = false;
  for (std::size_t i = 0; i < largest_row && (i < buffer_.size() || fetch()); ++i) {
    const char c = buffer_[i];
    if (c == '"') quoted = !quoted;
    if (!quoted && ends_line(c)) {
      if (c == '\r' && i + 1 == buffer_.size()) fetch();
      line_end_ = c == '\n' ? "\n" : buffer_.compare(i, 2, "\r\n") == 0 ? "\r\n" : "\r";
      if (text) break;
    }
    text = text || (c != ' ' && !ends_line(c));
    const auto found = std::find(separators.begin(), separators.end(), c);
    if (!quoted && found != separators.end()) ++counts[static_cast<std::size_t>(found - separators.begin())];
  }
  const auto most = std::max_element(counts.begin(), counts.end());
  if (*most > 0) separator_ = separators[static_cast<std::size_t>(most - counts.begin())];
}

// Hands out the first bytes of the buffer, whole lines.
void CsvReader::take(std::size_t bytes) {
  for (std::size_t i = 0; i < bytes; ++i) {
    const bool pair = buffer_[i] == '\r' && i + 1 < bytes && buffer_[i + 1] == '\n';
    if (ends_line(buffer_[i]) && !pair) ++line_;
  }
  buffer_.erase(0, bytes);
}

// One line, and what is wrong with it. However long the line is, no more of it is held than was read.
void CsvReader::spoiled(CsvRecord& row, std::string problem) {
  std::size_t end = buffer_.find_first_of("\r\n");
  row.problem = std::move(problem);
  row.cells = {buffer_.substr(0, std::min(end, largest_row))};
  std::replace(row.cells.front().begin(), row.cells.front().end(), '\0', '?');
  to_utf8(row.cells);
  while (end == std::string::npos) {
    buffer_.clear();
    if (!fetch()) return;
    end = buffer_.find_first_of("\r\n");
  }
  if (buffer_[end] == '\r' && end + 1 == buffer_.size()) fetch();
  take(end + (buffer_.compare(end, 2, "\r\n") == 0 ? 2 : 1));
}

bool CsvReader::next(CsvRecord& row) {
  if (buffer_.empty() && !fetch()) return false;
  row = CsvRecord{line_, {}, {}};
  RowScan scan(separator_);
  std::size_t i = 0;
  while ((i < buffer_.size() || fetch()) && i < largest_row && scan.feed(buffer_[i])) ++i;
  const std::string_view bytes(buffer_.data(), i);
  if (scan.in_quotes()) {
    spoiled(row, "a quote is opened and never closed");
  } else if (i >= largest_row) {
    static_assert(largest_row == 65'536);
    spoiled(row, "is longer than 65536 bytes");
  } else if (bytes.find('\0') != std::string_view::npos) {
    spoiled(row, "holds a zero byte: no text");
  } else if (scan.text_behind_quote()) {
    spoiled(row,
            "text stands behind a closing quote, or a quote is never closed; inside quotes a quote is written twice");
  } else {
    if (i + 1 == buffer_.size() && buffer_[i] == '\r') fetch();
    row.cells = std::move(scan).cells();
    to_utf8(row.cells);
    take(std::min(i + (buffer_.compare(i, 2, "\r\n") == 0 ? 2 : 1), buffer_.size()));
  }
  row.end = read_ - buffer_.size();
  return true;
}

CsvRecord header_row(CsvReader& reader, const std::string& name) {
  CsvRecord header;
  do {
    if (!reader.next(header)) throw BadInput(say("{}: is empty; its first row names the columns", name));
  } while (header.blank());
  return header;
}

std::vector<std::string> csv_cells(std::string_view line, char separator, const std::string& where) {
  RowScan scan(separator);
  for (const char c : line) scan.feed(c);
  if (scan.in_quotes()) throw BadInput(say("{}: a quote is not closed", where));
  if (scan.text_behind_quote()) throw BadInput(say("{}: text stands behind a closing quote", where));
  return std::move(scan).cells();
}

std::string csv_line(const std::vector<std::string>& cells, char separator, const std::string& line_end) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) line += separator;
    const std::string& cell = cells[i];
    if (cell.find_first_of("\"\r\n") == std::string::npos && cell.find(separator) == std::string::npos) {
      line += cell;
      continue;
    }
    line += '"';
    for (const char c : cell) line += c == '"' ? std::string("\"\"") : std::string(1, c);
    line += '"';
  }
  return line + line_end;
}

std::string inert_cell(std::string cell) {
  constexpr std::string_view starts = "=+-@\t\r\n";
  return !cell.empty() && starts.find(cell.front()) != std::string_view::npos ? "'" + cell : cell;
}

}  // namespace sunstrain
