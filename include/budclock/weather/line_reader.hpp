// Lines of text, one at a time, in flat memory: for layouts whose columns are places in a line.
#pragma once

#include <budclock/weather/text_buffer.hpp>

#include <cstddef>
#include <string_view>

namespace budclock::weather {

/// Lines of a byte source. Line ends are LF, CRLF, CR or CR CR LF (as Weather Service texts have it), mixed as they
/// come; a UTF-8 byte order mark is skipped. Blank lines are lines.
class LineReader {
 public:
  static constexpr std::size_t k_longest_line = std::size_t{64} << 10;

  explicit LineReader(ByteSource& source);

  /// Goes to the next line; false at the end. The last line's text is void then.
  bool next();

  /// The line without its end; empty when it is too long.
  std::string_view text() const { return text_; }
  bool too_long() const { return too_long_; }
  /// Counted from 1.
  std::size_t line() const { return line_; }

 private:
  bool find_end(std::size_t& length);
  std::size_t after_end(std::size_t at) const;

  TextBuffer buffer_;
  std::string_view text_;
  bool too_long_ = false;
  std::size_t line_ = 0;
};

}  // namespace budclock::weather
