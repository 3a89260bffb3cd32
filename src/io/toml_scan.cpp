#include "toml_scan.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "say.hpp"
#include "sunstrain/job.hpp"

namespace sunstrain {

namespace {

constexpr int deepest = 8;  // parts of a dotted key, brackets within brackets

// Steps over the string that starts at `i`; returns where it ends.
std::size_t skip_string(std::string_view text, std::size_t i) {
  const char mark = text[i];
  const std::string three(3, mark);
  const bool several_lines = text.substr(i, 3) == three;
  const std::size_t end_length = several_lines ? 3 : 1;
  for (i += end_length; i < text.size(); ++i) {
    if (text[i] == '\\' && mark == '"') {
      ++i;
    } else if (several_lines ? text.substr(i, 3) == three : text[i] == mark) {
      i += end_length;
      // Up to two marks more belong to the text: """He said "yes""""
      for (int more = 0; several_lines && more < 2 && i < text.size() && text[i] == mark; ++more) ++i;
      return i;
    } else if (!several_lines && text[i] == '\n') {
      return i;  // an unfinished string: the parser says so
    }
  }
  return text.size();
}

bool one_of(char c, std::string_view set) { return set.find(c) != std::string_view::npos; }

// Follows the text as the parser would: where a key stands, where a value, and where a string may start. A quote
// mark inside a bare value is none to the parser, which would go on into what only looks like quoted text.
class Scan {
 public:
  Scan(std::string_view text, const std::string& file) : text_(text), file_(file) {
    if (text.substr(0, 3) == "\xEF\xBB\xBF") i_ = 3;  // byte order mark
  }

  void run() {
    while (i_ < text_.size()) step();
  }

 private:
  [[noreturn]] void refuse(const char* problem) const {
    const auto line = 1 + std::count(text_.begin(), text_.begin() + static_cast<std::ptrdiff_t>(i_), '\n');
    throw BadInput(say("{}, line {}: {}", file_, line, Saying(problem)));
  }

  bool in_value() const { return after_equals_ || (!open_.empty() && open_.back() == 'a'); }

  void step() {
    const char c = text_[i_];
    require_ascii(c);
    if (c == '"' || c == '\'') {
      string();
    } else if (c == '#') {
      i_ = std::min(text_.find('\n', i_), text_.size());
    } else if (in_value() && one_of(previous_, "=,[") && !one_of(c, " \t\r\n[]{},")) {
      bare_value();
    } else {
      sign(c);
      ++i_;
    }
  }

  void require_ascii(char c) const {
    if (static_cast<unsigned char>(c) < 0x80) return;
    refuse("a curly quote or a letter beyond a to z stands outside quotes; put text between plain \" marks");
  }

  void string() {
    if (!one_of(previous_, "\n=,[{") && !(previous_ == '.' && !in_value())) misplaced();
    if (!in_value() && text_.substr(i_, 3) == std::string(3, text_[i_])) misplaced();  // no key runs over lines
    const std::size_t end = skip_string(text_, i_);
    if (text_[i_] == '"') require_escapes(end);
    i_ = end;
    previous_ = '"';
  }

  // A backslash, or one at the end of a line and the blanks behind it, before a letter that no escape begins with.
  void require_escapes(std::size_t end) {
    for (; i_ < end; ++i_) {
      if (text_[i_] != '\\') continue;
      const std::size_t next = text_.find_first_not_of(" \t\r\n", i_ + 1);
      if (next < end && static_cast<unsigned char>(text_[next]) >= 0x80)
        refuse("a backslash stands before a letter beyond a to z");
      ++i_;
    }
  }

  [[noreturn]] void misplaced() const {
    refuse("a quote mark stands where no text can start; put the whole value between quotes, such as '37 1/4\"'");
  }

  // A number, true or false: up to the sign that ends a value.
  void bare_value() {
    for (; i_ < text_.size() && !one_of(text_[i_], " \t\r\n,]}#"); ++i_) {
      require_ascii(text_[i_]);
      if (one_of(text_[i_], "\"'")) misplaced();
      if (one_of(text_[i_], "[{=")) refuse("a value that is no plain number needs quotes");
    }
    previous_ = '0';
  }

  void sign(char c) {
    if (one_of(c, " \t\r")) return;
    if (c == '\n' && !open_.empty() && open_.back() != 'h') return;  // within an array or inline table
    if (c == '.' && ++dots_ > deepest) refuse(too_deep);
    if (one_of(c, "\n=,[{")) dots_ = 0;
    if (c == '[') open_ += in_value() ? 'a' : 'h';  // an array, or the head of a table
    if (c == '{') open_ += 't';
    if (open_.size() > static_cast<std::size_t>(deepest)) refuse(too_deep);
    if (one_of(c, "]}") && !open_.empty()) open_.pop_back();
    if (c == '\n') open_.clear();
    after_equals_ = c == '=' || (after_equals_ && !one_of(c, "\n,[{"));
    previous_ = c;
  }

  static constexpr const char* too_deep = "more levels within one another than are used here";

  std::string_view text_;
  const std::string& file_;
  std::size_t i_ = 0;
  std::string open_;           // brackets: 'h' head of a table, 'a' array, 't' inline table
  bool after_equals_ = false;  // a value stands here, outside any array
  char previous_ = '\n';       // last sign that is not blank; '"' after a string, '0' after a bare value
  int dots_ = 0;
};

}  // namespace

// The parser calls itself once for every level of a key or bracket, and so would run out of stack on a hostile
// file; and toml++ 3.3 has undefined behavior on some letters beyond ASCII outside quotes, where TOML 1.0 has none.
void require_parsable(std::string_view text, const std::string& file) { Scan(text, file).run(); }

}  // namespace sunstrain
