# Writes a C++ file that holds the built page, or none where it was not built, or not from these sources:
#   cmake -DHTML=build/page/sunstrain.html -DOUT=build/generated/page_embedded.cpp -P src/page/embed.cmake
# Defines sunstrain::cli::embedded_page() of src/cli/embedded_page.hpp. Written only when it would differ.
cmake_minimum_required(VERSION 3.20)
set(head "// Made by src/page/embed.cmake. Do not edit.\n#include \"embedded_page.hpp\"\n\n")
include(${CMAKE_CURRENT_LIST_DIR}/fingerprint.cmake)
page_fingerprint(${CMAKE_CURRENT_LIST_DIR}/../.. fingerprint)
set(opening "")
if(EXISTS "${HTML}")
  file(READ "${HTML}" opening LIMIT 2000)
endif()
string(FIND "${opening}" "content=\"${fingerprint}\"" from_these_sources)
if(NOT from_these_sources EQUAL -1)
  # The assembler reads the file: a literal of its size is more than a compiler need take.
  set(body "// ${fingerprint}
__asm__(\".section .rodata\\n\"
        \"sunstrain_page_begin:\\n.incbin \\\"${HTML}\\\"\\n\"
        \"sunstrain_page_end:\\n.byte 0\\n\"
        \".previous\\n\");
extern \"C\" const char sunstrain_page_begin[], sunstrain_page_end[];

std::string_view sunstrain::cli::embedded_page() {
  return {sunstrain_page_begin, static_cast<std::size_t>(sunstrain_page_end - sunstrain_page_begin)};
}
")
else()
  set(body "std::string_view sunstrain::cli::embedded_page() { return {}; }\n")
endif()
set(old "")
if(EXISTS "${OUT}")
  file(READ "${OUT}" old)
endif()
if(NOT old STREQUAL "${head}${body}")
  file(WRITE "${OUT}" "${head}${body}")
endif()
