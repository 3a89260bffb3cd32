# The tables, as they stand in reference/, as a C++ source: `embedded`.
file(GLOB reference_files CONFIGURE_DEPENDS ${CMAKE_CURRENT_LIST_DIR}/*.toml ${CMAKE_CURRENT_LIST_DIR}/*.csv)
set(embedded ${CMAKE_CURRENT_BINARY_DIR}/generated/reference_embedded.cpp)
add_custom_command(OUTPUT ${embedded}
  COMMAND ${CMAKE_COMMAND} -DOUT=${embedded} "-DFILES=${reference_files}" -P ${CMAKE_CURRENT_LIST_DIR}/embed.cmake
  DEPENDS ${reference_files} ${CMAKE_CURRENT_LIST_DIR}/embed.cmake VERBATIM)
# The longest text that a compiler must take is shorter than a table; these take it.
set_source_files_properties(${embedded} PROPERTIES COMPILE_OPTIONS -Wno-overlength-strings)
