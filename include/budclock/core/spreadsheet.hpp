// What a spreadsheet may make of a cell of text.
#pragma once

#include <string>
#include <string_view>

namespace budclock {

/// The cell, with an apostrophe in front where a spreadsheet could run it as a formula: where it starts with = + - @, a
/// tab or a carriage return (CWE-1236).
/// A cell that starts with apostrophes and then one of these gets one more, so that `unguarded_cell` gives every cell
/// back.
std::string guarded_cell(std::string_view cell);

/// The cell before `guarded_cell`. One that a person wrote without a guard comes back as it is.
std::string unguarded_cell(std::string_view cell);

}  // namespace budclock
