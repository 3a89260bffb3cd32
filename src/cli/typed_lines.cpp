#include "typed_lines.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <array>

#include "../io/job_words.hpp"
#include "../io/say.hpp"
#include "sunstrain/io/job_read.hpp"
#include "terminal.hpp"

namespace sunstrain::cli {

std::string shell_word(const std::string& word) {
  const char* plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-./";
  if (!word.empty() && word.find_first_not_of(plain) == std::string::npos) return word;
  std::string out = "'";
  for (const char c : word) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

TypedLines::TypedLines(std::string command, std::string left)
    : command_(std::move(command)), left_(std::move(left)), echoes_(isatty(STDIN_FILENO) == 0) {}

std::string TypedLines::next(const std::string& prompt) {
  write_out(prompt);
  constexpr std::size_t longest = 10'000;
  std::array<char, 4096> piece;
  std::size_t end = ahead_.find('\n');
  while (end == std::string::npos) {
    const std::size_t got = in_.read(piece.data(), piece.size());
    if (got == 0 && in_.stopped()) throw Stopped{};
    if (got == 0 && !ahead_.empty()) ahead_ += '\n';  // the last line of a pipe may have no end
    if (got == 0 && ahead_.empty()) {
      write_out("\n");
      throw BadInput(say("{}: the input ended before the last question; {}", command_, Saying(left_)));
    }
    ahead_.append(piece.data(), got);
    end = ahead_.find('\n');
    if (end == std::string::npos && ahead_.size() > longest)
      throw BadInput(say("{}: a line of more than {} bytes; {}", command_, longest, Saying(left_)));
  }
  std::string line = ahead_.substr(0, end);
  ahead_.erase(0, end + 1);
  require_text(line, "the answer");
  if (echoes_) write_out(shown(line, longest) + "\n");
  return line;
}

}  // namespace sunstrain::cli
