// The printed answer: one screen for a terminal, or everything with `full`.
#pragma once

#include <string>

#include "sunstrain/assess.hpp"
#include "sunstrain/io/quantity.hpp"

namespace sunstrain {

struct TextStyle {
  int width = 80;  // columns, 60 and up
  bool color = false;
  bool full = false;
  Units units = Units::metric;
};

std::string text_answer(const Assessment& assessment, const Reference& reference, const TextStyle& style);

}  // namespace sunstrain
