# Writes a C++ file that holds rule files as string literals, so that the program runs from anywhere.
# cmake -DROOT=folder -DFILES=a.json|b.json -DNAME=shipped_files -DOUTPUT=shipped.cpp -P embed.cmake
string(REPEAT "[0-9a-f]" 64 line_of_32_bytes)
string(REPLACE "|" ";" files "${FILES}")
set(entries "")
foreach(name IN LISTS files)
  file(READ "${ROOT}/${name}" hex HEX)
  string(LENGTH "${hex}" digits)
  math(EXPR bytes "${digits} / 2")
  string(REGEX REPLACE "(${line_of_32_bytes})" "\\1\n" lines "${hex}")
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "\\\\x\\1" lines "${lines}")
  string(REPLACE "\n" "\"\n     \"" lines "${lines}")
  string(APPEND entries "    {\"${name}\",\n     {\"${lines}\",\n      ${bytes}}},\n")
endforeach()
file(WRITE "${OUTPUT}" "// Generated from data/ by src/rules/embed.cmake.
#include <budclock/rules/load.hpp>

namespace budclock::rules {

std::vector<RuleFile> ${NAME}() {
  return {
${entries}  };
}

}  // namespace budclock::rules
")
