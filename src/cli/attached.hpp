// A file that goes with an answer: a photo, a paper.
#pragma once

#include <string>

#include "sunstrain/language.hpp"

namespace sunstrain::cli {

struct Attached {
  std::string name, bytes;  // the name without directories
};

// All of a file, which need not be text. Throws BadInput, `where` before it, for what is no ordinary file, larger than
// 100 MB, not to be read, or named in no UTF-8.
Attached read_attached(const std::string& path, const Saying& where);

}  // namespace sunstrain::cli
