#include "say.hpp"

namespace sunstrain {

std::string placeholder_of(std::string_view pattern, std::size_t argument) {
  std::size_t next = 0;
  for (std::size_t at = pattern.find('{'); at != std::string_view::npos; at = pattern.find('{', at + 1)) {
    const std::string_view inside = pattern.substr(at + 1, pattern.find('}', at) - at - 1);
    const std::size_t colon = std::min(inside.find(':'), inside.size());
    const std::size_t which = colon == 0 ? next++ : std::stoul(std::string(inside.substr(0, colon)));
    if (which == argument) return "{" + std::string(inside.substr(colon)) + "}";
  }
  return "{}";
}

}  // namespace sunstrain
