#include <budclock/weather/line_reader.hpp>

#include <algorithm>

namespace budclock::weather {

LineReader::LineReader(ByteSource& source) : buffer_{source} {
  constexpr std::string_view k_byte_order_mark = "\xEF\xBB\xBF";
  if (std::string_view{buffer_.bytes(), buffer_.end()}.starts_with(k_byte_order_mark)) {
    buffer_.move_to(k_byte_order_mark.size());
  }
}

/// Makes the line's end stand in the buffer, with what may belong to it. `length` is that of the line so far, before
/// and after. False when the line goes on.
bool LineReader::find_end(std::size_t& length) {
  const std::string_view rest{buffer_.bytes() + buffer_.position(), buffer_.end() - buffer_.position()};
  const std::size_t feed = std::min(rest.find('\n', length), rest.size());
  length = std::min(rest.substr(0, feed).find('\r', length), feed);
  constexpr std::size_t k_longest_end = 3;
  return rest.size() - length >= k_longest_end || (length < rest.size() && rest[length] == '\n');
}

std::size_t LineReader::after_end(std::size_t at) const {
  const std::string_view rest{buffer_.bytes() + at, buffer_.end() - at};
  for (const std::string_view end : {"\r\r\n", "\r\n"}) {
    if (rest.starts_with(end)) return at + end.size();
  }
  return at + std::min<std::size_t>(rest.size(), 1);
}

bool LineReader::next() {
  too_long_ = false;
  std::size_t length = 0;
  while (!find_end(length)) {
    if (length > k_longest_line) {
      too_long_ = true;
      buffer_.move_to(buffer_.position() + length);
      length = 0;
    }
    if (!buffer_.refill()) break;
  }
  const std::size_t begin = buffer_.position();
  if (begin == buffer_.end() && !too_long_) return false;
  too_long_ = too_long_ || length > k_longest_line;
  text_ = too_long_ ? std::string_view{} : std::string_view{buffer_.bytes() + begin, length};
  buffer_.move_to(after_end(begin + length));
  ++line_;
  return true;
}

}  // namespace budclock::weather
