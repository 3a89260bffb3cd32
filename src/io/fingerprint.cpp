#include "fingerprint.hpp"

#include <fmt/format.h>

#include <cstdint>

namespace sunstrain {

std::string fingerprint_of(const std::vector<std::string_view>& texts) {
  std::uint64_t state = 0xcbf29ce484222325;
  const auto add = [&](unsigned char byte) { state = (state ^ byte) * std::uint64_t{0x100000001b3}; };
  for (const std::string_view text : texts) {
    for (const char c : text) add(static_cast<unsigned char>(c));
    add(0);  // keeps "ab" + "c" apart from "a" + "bc"
  }
  return fmt::format("{:016x}", state);
}

}  // namespace sunstrain
