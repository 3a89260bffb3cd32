#include "decimal.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string>

namespace sunstrain {
namespace {

const char* past_digits(const char* at, const char* last) {
  return std::find_if(at, last, [](char c) { return c < '0' || c > '9'; });
}

// "e", perhaps a sign, digits; `at` itself where that does not stand there.
const char* past_exponent(const char* at, const char* last) {
  if (at == last || (*at != 'e' && *at != 'E')) return at;
  const char* digits = at + 1;
  if (digits != last && (*digits == '+' || *digits == '-')) ++digits;
  const char* end = past_digits(digits, last);
  return end == digits ? at : end;
}

// The longest number that opens the text; `first` where none does.
const char* past_number(const char* first, const char* last) {
  const char* whole = first != last && *first == '-' ? first + 1 : first;
  const char* end = past_digits(whole, last);
  auto digits = end - whole;
  if (end != last && *end == '.') {
    const char* part = past_digits(end + 1, last);
    digits += part - (end + 1);
    end = part;
  }
  return digits == 0 ? first : past_exponent(end, last);
}

}  // namespace

std::from_chars_result decimal_by_strtod(const char* first, const char* last, double& value) {
  const char* end = past_number(first, last);
  if (end == first) return {first, std::errc::invalid_argument};
  const std::string number(first, end);  // ends in the zero that strtod looks for
  const double read = std::strtod(number.c_str(), nullptr);
  const bool zero_written =
      number.substr(0, number.find_first_of("eE")).find_first_of("123456789") == std::string::npos;
  if (std::isinf(read) || (read == 0.0 && !zero_written)) return {end, std::errc::result_out_of_range};
  value = read;
  return {end, std::errc{}};
}

std::from_chars_result decimal_from_chars(const char* first, const char* last, double& value) {
#if defined(__cpp_lib_to_chars)
  return std::from_chars(first, last, value);
#else
  return decimal_by_strtod(first, last, value);
#endif
}

}  // namespace sunstrain
