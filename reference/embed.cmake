# Writes a C++ file that holds the reference tables as text, so that the program needs no files at run time:
#   cmake -DOUT=build/generated/reference_embedded.cpp "-DFILES=a.toml;b.csv" -P reference/embed.cmake
# Defines sunstrain::embedded_reference_files() of sunstrain/io/reference_load.hpp.
# The text is cut at line ends into raw strings of a size that every compiler takes.
cmake_minimum_required(VERSION 3.20)
if(NOT OUT OR NOT FILES)
  message(FATAL_ERROR "embed.cmake needs -DOUT=file.cpp and -DFILES=list of tables")
endif()

set(chunk_limit 12000)
set(delimiter "sunstrain_table")

# text -> a sequence of adjacent raw strings, in `result`
function(as_raw_strings text result)
  set(literals "")
  string(FIND "${text}" ")${delimiter}\"" clash)
  if(NOT clash EQUAL -1)
    message(FATAL_ERROR "embed.cmake: a table holds the text )${delimiter}\"")
  endif()
  string(LENGTH "${text}" left)
  while(left GREATER ${chunk_limit})
    string(SUBSTRING "${text}" 0 ${chunk_limit} head)
    string(FIND "${head}" "\n" line_end REVERSE)
    if(line_end EQUAL -1)
      message(FATAL_ERROR "embed.cmake: a line is longer than ${chunk_limit}")
    endif()
    math(EXPR cut "${line_end} + 1")
    string(SUBSTRING "${text}" 0 ${cut} head)
    string(SUBSTRING "${text}" ${cut} -1 text)
    string(APPEND literals "R\"${delimiter}(${head})${delimiter}\"\n")
    string(LENGTH "${text}" left)
  endwhile()
  string(APPEND literals "R\"${delimiter}(${text})${delimiter}\"")
  set(${result} "${literals}" PARENT_SCOPE)
endfunction()

list(REMOVE_ITEM FILES "")
list(SORT FILES)
set(rows "")
foreach(path IN LISTS FILES)
  get_filename_component(name "${path}" NAME)
  file(READ "${path}" text)
  as_raw_strings("${text}" literals)
  string(APPEND rows "      {\"${name}\",\n${literals}},\n")
endforeach()

file(WRITE "${OUT}"
"// Made by reference/embed.cmake from the tables in reference/. Do not edit.
#include \"sunstrain/io/reference_load.hpp\"

namespace sunstrain {

const std::map<std::string, std::string>& embedded_reference_files() {
  static const std::map<std::string, std::string> files{
${rows}  };
  return files;
}

}  // namespace sunstrain
")
