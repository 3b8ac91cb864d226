// Plain text for people: wrapped paragraphs and aligned tables.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::report {

/// How text is shown. The same value for the same terminal: nothing here asks the environment.
struct TextStyle {
  std::size_t width = 80;  ///< columns, at least 40
  bool colour = false;     ///< bold headings and dim asides by ANSI codes
};

/// Breaks `text` at spaces so that no line is wider than the style allows (a longer word stands alone). Lines after
/// the first begin with `indent` spaces, and the first does too unless it follows a `lead`. Ends with a newline.
std::string paragraph(std::string_view text, std::size_t indent, const TextStyle& style, std::string_view lead = {});

/// Bold and dim text where the style has colour.
std::string bold(std::string_view text, const TextStyle& style);
std::string dim(std::string_view text, const TextStyle& style);

/// Columns as wide as their widest cell, two spaces between them, none trailing. The first row is the header.
/// `indent` spaces stand before each line. Widths count UTF-8 characters.
std::string table(const std::vector<std::vector<std::string>>& rows, std::size_t indent, const TextStyle& style);

/// "a", "a and b", "a, b and c" (or with another last word).
std::string list(const std::vector<std::string>& items, std::string_view last_word = "and");

}  // namespace budclock::report
