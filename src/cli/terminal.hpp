// What standard output and standard error are, and the way to the first.
#pragma once

#include <string>

namespace sunstrain::cli {

constexpr int least_width = 60, most_width = 200, usual_width = 80;

// To standard output at once: a full disk shows only when the buffers are flushed. Throws std::runtime_error when it
// cannot.
void write_out(const std::string& text);

bool output_is_terminal();
bool error_is_terminal();

// Columns of the terminal, brought into least_width to most_width; usual_width for a pipe or file.
int terminal_width();

// A terminal that is not dumb, and NO_COLOR unset or empty.
bool terminal_takes_color();

}  // namespace sunstrain::cli
