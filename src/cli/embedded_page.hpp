// The offline page that the program was built with.
#pragma once

#include <string_view>

namespace sunstrain::cli {

// Its html; empty where the page was not built before the program. Written by src/page/embed.cmake.
std::string_view embedded_page();

}  // namespace sunstrain::cli
