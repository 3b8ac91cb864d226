// What a spreadsheet may make of a cell of text.
#pragma once

#include <string>
#include <string_view>

namespace budclock {

/// The cell, with an apostrophe in front where a spreadsheet could run it as a formula: where it starts with = + - @, a
/// tab or a carriage return (CWE-1236).
std::string guarded_cell(std::string_view cell);

}  // namespace budclock
