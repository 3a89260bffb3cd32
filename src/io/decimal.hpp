// A decimal number from text, the same on every standard library.
#pragma once

#include <charconv>

namespace sunstrain {

// std::from_chars(first, last, value), also where the library has it for whole numbers only (libc++ 14).
std::from_chars_result decimal_from_chars(const char* first, const char* last, double& value);

// What it does there: the same grammar but without "inf" and "nan", rounded by std::strtod in the "C" locale.
std::from_chars_result decimal_by_strtod(const char* first, const char* last, double& value);

}  // namespace sunstrain
