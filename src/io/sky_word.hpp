// How much of the sky is under cloud, in a word.
#pragma once

#include <optional>
#include <string_view>

namespace sunstrain {

// "clear", "overcast", or the eighths of the sky that clouds cover, as weather services report them ("3/8"): 0 to 1.
// Nothing for any other text.
inline std::optional<double> cloud_named(std::string_view text) {
  if (text == "clear") return 0.0;
  if (text == "overcast") return 1.0;
  if (text.size() == 3 && text[0] >= '0' && text[0] <= '8' && text.ends_with("/8")) return (text[0] - '0') / 8.0;
  return std::nullopt;
}

}  // namespace sunstrain
