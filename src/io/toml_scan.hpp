// A look at TOML before the parser gets it.
#pragma once

#include <string>
#include <string_view>

namespace sunstrain {

// Throws BadInput with file and line for what the parser must not be handed: levels without end (it would run
// out of stack) and letters beyond ASCII outside quotes and comments. A byte order mark may open the text.
void require_parsable(std::string_view text, const std::string& file);

}  // namespace sunstrain
