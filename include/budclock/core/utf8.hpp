// UTF-8, the one encoding of our inputs and outputs.
#pragma once

#include <cstddef>
#include <string_view>

namespace budclock {

/// Length of the valid UTF-8 sequence at the start of `text`, which is not empty; 0 when there is none
/// (Unicode 15, table 3-7).
std::size_t utf8_length(std::string_view text);

/// Offset of the first byte that is not part of a valid UTF-8 sequence; npos when all of `text` is valid.
std::size_t find_invalid_utf8(std::string_view text);

/// True for a valid character that acts on what shows it instead of being seen: C0 and C1 controls, DEL, the line and
/// paragraph separators, and what embeds, overrides or isolates a direction of writing (Unicode 15, 23.1 and 23.2;
/// CVE-2021-42574). Marks of direction that scripts need (U+061C, U+200E, U+200F) are not among them.
bool is_control_character(std::string_view character);

}  // namespace budclock
