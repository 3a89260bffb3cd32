// What a parser may do with any bytes: refuse them in one line.
#pragma once

#include <cstdlib>
#include <string_view>

#include "sunstrain/job.hpp"

template <class Action>
void allow_bad_input(Action action) {
  try {
    action();
  } catch (const sunstrain::BadInput& error) {
    if (std::string_view(error.what()).find('\n') != std::string_view::npos) std::abort();
  }
}
