// A short mark by which two states of a text are told apart.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace sunstrain {

// 16 hexadecimal digits; FNV-1a, 64 bits (Fowler, Noll, Vo; the constants are those of the IETF draft of the method).
std::string fingerprint_of(const std::vector<std::string_view>& texts);

}  // namespace sunstrain
