// Lines as a person types them, or a pipe sends them.
#pragma once

#include <string>

#include "row_files.hpp"

namespace sunstrain::cli {

// A word as a shell takes it: between quotes where it must be.
std::string shell_word(const std::string& word);

class TypedLines {
 public:
  struct Stopped {};  // thrown at Ctrl-C

  // `command` opens the message when the input ends, `left` closes it: what is left of the work.
  explicit TypedLines(std::string command, std::string left = "nothing was written");

  // The next line without its end. Of a pipe it is shown behind the prompt, as a terminal shows what is typed. Throws
  // BadInput when the input has ended or is no text, Stopped at Ctrl-C.
  std::string next(const std::string& prompt);

 private:
  std::string command_, left_, ahead_;
  RowsIn in_{"-"};
  bool echoes_;
};

}  // namespace sunstrain::cli
