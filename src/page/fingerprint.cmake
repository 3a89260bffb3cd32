# page_fingerprint(ROOT RESULT): one number for all that the page is made from, so that a program never carries a page
# that answers otherwise than itself.
function(page_fingerprint root result)
  file(GLOB files RELATIVE ${root} ${root}/src/engine/* ${root}/src/io/* ${root}/src/report/* ${root}/src/page/*
    ${root}/include/sunstrain/*.hpp ${root}/include/sunstrain/*/*.hpp ${root}/reference/*.toml ${root}/reference/*.csv)
  list(SORT files)
  set(all "")
  foreach(file IN LISTS files)
    file(SHA256 ${root}/${file} one)
    string(APPEND all "${file} ${one}\n")
  endforeach()
  string(SHA256 all "${all}")
  set(${result} ${all} PARENT_SCOPE)
endfunction()
