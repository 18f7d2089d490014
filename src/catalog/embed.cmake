# Writes a C++ source that holds every data/**/*.json as text.
#
#   cmake -DDATA_DIR=<data> -DOUTPUT=<file.cpp> -P embed.cmake
#
# The text is written as raw string literals, cut into pieces of at most 8000 bytes, because some
# compilers refuse more than 16 kB in one piece; adjacent pieces are joined by the compiler.
# The length is written out too: counting it at compile time runs into constexpr limits.

cmake_minimum_required(VERSION 3.22)

file(GLOB_RECURSE files RELATIVE "${DATA_DIR}" "${DATA_DIR}/*.json")
list(SORT files COMPARE STRING)

# CMake gives ';', '[', ']' and '\' meanings of their own in lists. A file is therefore read whole
# into one variable, never treated as a list, and only ever quoted.
set(entries "")
set(sums "")
set(count 0)
foreach(path IN LISTS files)
  file(READ "${DATA_DIR}/${path}" text)
  file(MD5 "${DATA_DIR}/${path}" sum)
  string(APPEND sums "${path} ${sum}\n")
  string(FIND "${text}" ")json\"" clash)
  if(NOT clash EQUAL -1)
    message(FATAL_ERROR "data/${path} contains )json\" and cannot be embedded as a raw string")
  endif()
  # string(LENGTH) counts bytes, string(SUBSTRING) cuts bytes; a piece that ends inside a UTF-8
  # sequence is completed by the next piece, since adjacent literals are joined byte by byte.
  string(LENGTH "${text}" length)
  set(pieces "")
  set(start 0)
  while(start LESS length)
    string(SUBSTRING "${text}" ${start} 8000 piece)
    string(APPEND pieces "    R\"json(${piece})json\"\n")
    math(EXPR start "${start} + 8000")
  endwhile()
  if(pieces STREQUAL "")
    set(pieces "    \"\"\n")
  endif()
  string(APPEND entries "  {\"${path}\",\n   {\n${pieces}    , ${length}}},\n")
  math(EXPR count "${count} + 1")
endforeach()

string(MD5 sum "${sums}")
string(SUBSTRING "${sum}" 0 12 sum)

set(code "// Generated from data/ by src/catalog/embed.cmake.\n")
string(APPEND code "#include \"catalog/embedded.hpp\"\n\n#include <array>\n\n")
string(APPEND code "namespace underprop::catalog {\nnamespace {\n")
string(APPEND code "constexpr std::array<EmbeddedFile, ${count}> all{{\n${entries}}};\n")
string(APPEND code "}  // namespace\n\n")
string(APPEND code "std::span<const EmbeddedFile> embedded_files() { return all; }\n\n")
string(APPEND code "std::string_view data_sum() { return \"${sum}\"; }\n\n")
string(APPEND code "}  // namespace underprop::catalog\n")

file(WRITE "${OUTPUT}" "${code}")
