// A TOML file that a user wrote: a job, or rules of one's own.
#pragma once

#include <string>
#include <string_view>

#include "data_node.hpp"

namespace sunstrain {

// The tree of the text. Throws BadInput in one line with source and line, and the line as it stands, where it is no
// TOML; larger than 1 MB; no text; empty (`if_empty` says what to do then).
DataNode parse_users_toml(std::string_view text, const std::string& source, const Saying& if_empty);

}  // namespace sunstrain
