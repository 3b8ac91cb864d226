// Byte offsets of a text as lines and columns.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <vector>

namespace budclock::document {

/// Knows the line and column of each byte. Lines end at LF, CR LF or a lone CR.
class TextLines {
 public:
  struct Position {
    std::size_t line = 1;
    std::size_t column = 1;
  };

  explicit TextLines(std::string_view text) {
    for (std::size_t i = 0; i < text.size(); ++i) {
      const bool line_ends = text[i] == '\n' || (text[i] == '\r' && text.substr(i + 1, 1) != "\n");
      if (line_ends) starts_.push_back(i + 1);
    }
  }

  Position at(std::size_t offset) const {
    const auto next = std::upper_bound(starts_.begin(), starts_.end(), offset);
    return {static_cast<std::size_t>(next - starts_.begin()), offset - *(next - 1) + 1};
  }

 private:
  std::vector<std::size_t> starts_{0};
};

}  // namespace budclock::document
