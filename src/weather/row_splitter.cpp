#include <budclock/weather/row_splitter.hpp>

#include <algorithm>
#include <bit>
#include <cstring>
#include <utility>

namespace budclock::weather {
namespace {

constexpr std::string_view k_byte_order_mark = "\xEF\xBB\xBF";

/// Eight bytes at once, the first one lowest.
std::uint64_t load_eight(const char* bytes) {
  std::uint64_t word = 0;
  std::memcpy(&word, bytes, sizeof word);
  if constexpr (std::endian::native == std::endian::big) word = __builtin_bswap64(word);
  return word;
}

constexpr std::uint64_t eight_times(char byte) { return 0x0101010101010101U * static_cast<unsigned char>(byte); }

/// The top bit of every byte of `word` that equals the byte repeated in `eight`, or is below 16 as line ends are.
std::uint64_t ends_of_fields(std::uint64_t word, std::uint64_t eight) {
  constexpr std::uint64_t k_low_bits = eight_times('\x7F');
  const std::uint64_t difference = word ^ eight;
  const std::uint64_t differs = ((difference & k_low_bits) + k_low_bits) | difference;
  const std::uint64_t is_high = ((word & k_low_bits) + eight_times('\x70')) | word;
  return ~((differs & is_high) | k_low_bits);
}

/// The line ends of whole lines of which the last ends with a LF.
std::size_t line_ends(std::string_view lines) {
  std::size_t count = 0;
  constexpr std::size_t k_chunk = 240;  // what one byte can count: the compiler makes vectors of that
  for (std::size_t begin = 0; begin < lines.size(); begin += k_chunk) {
    std::uint8_t feeds = 0;
    for (const char c : lines.substr(begin, k_chunk)) feeds = static_cast<std::uint8_t>(feeds + (c == '\n' ? 1 : 0));
    count += feeds;
  }
  for (std::size_t at = lines.find('\r'); at != std::string_view::npos; at = lines.find('\r', at + 1)) {
    if (lines[at + 1] != '\n') ++count;
  }
  return count;
}

}  // namespace

RowSplitter::RowSplitter(ByteSource& source) : text_{source}, fields_(16) {
  if (peek(3) == k_byte_order_mark) text_.move_to(k_byte_order_mark.size());
}

std::string_view RowSplitter::peek(std::size_t count) const {
  return {text_.bytes() + text_.position(), std::min(count, text_.end() - text_.position())};
}

void RowSplitter::mark() {
  text_.mark();
  mark_line_ = line_;
}

void RowSplitter::rewind() {
  text_.rewind();
  line_ = mark_line_;
  multi_line_rows_ = 0;
  forget_places();
}

std::optional<RowSplitter> RowSplitter::split_off() {
  constexpr std::size_t k_least = std::size_t{16} << 10;  // less is not worth another thread's while
  if (text_.end() - text_.position() < TextBuffer::k_least_room) refill();
  const std::size_t limit = std::min(find(quote_), find(nul_));
  const std::string_view rest{text_.bytes() + text_.position(), limit - text_.position()};
  const std::string_view lines = rest.substr(0, rest.rfind('\n') + 1);
  if (lines.size() < k_least) return std::nullopt;
  const std::size_t first_line = std::exchange(line_, line_ + line_ends(lines));
  RowSplitter part{text_.split_off(text_.position() + lines.size()), delimiter_, first_line};
  forget_places();
  return part;
}

bool RowSplitter::refill() {
  if (!text_.refill()) return false;
  forget_places();
  return true;
}

void RowSplitter::forget_places() {
  for (Finder* finder : {&line_feed_, &carriage_return_, &quote_, &nul_}) finder->known = false;
  common_end_ = 0;
}

/// The first place of the finder's byte at or after the current position; `text_.end()` when there is none.
std::size_t RowSplitter::find(Finder& finder) const {
  if (finder.known && finder.place >= text_.position()) return finder.place;
  const void* found = std::memchr(text_.bytes() + text_.position(), finder.byte, text_.end() - text_.position());
  finder.place =
      found == nullptr ? text_.end() : static_cast<std::size_t>(static_cast<const char*>(found) - text_.bytes());
  finder.known = true;
  return finder.place;
}

/// True when the physical line's end stands in the buffer (a CR could still be half of a CRLF).
bool RowSplitter::line_is_whole() const {
  return line_end_ < text_.end() && (text_[line_end_] == '\n' || line_end_ + 1 < text_.end());
}

/// Makes a whole physical line stand in the buffer. False when it is longer than a row may be.
bool RowSplitter::find_line_end() {
  for (;;) {
    line_end_ = std::min(find(line_feed_), find(carriage_return_));
    if (line_end_ - text_.position() > k_max_row) return false;
    if (line_is_whole() || !refill()) return true;
  }
}

std::size_t RowSplitter::after_line_end(std::size_t at) const {
  if (at >= text_.end()) return text_.end();
  const bool both = text_[at] == '\r' && at + 1 < text_.end() && text_[at + 1] == '\n';
  return at + (both ? 2 : 1);
}

/// Ends the row at the line end `end`.
void RowSplitter::end_row(std::size_t end, std::size_t line_breaks) {
  text_.move_to(after_line_end(end));
  line_ += line_breaks + 1;
  if (line_breaks > 0) ++multi_line_rows_;
}

/// Skips the line at the position when it is blank or a comment.
bool RowSplitter::skip_line_if_empty() {
  const auto byte = static_cast<unsigned char>(text_[text_.position()]);
  if (byte > ' ' && byte != '#') return false;  // nearly every line
  std::size_t at = text_.position();
  while (at < line_end_ && text_[at] == ' ') ++at;
  const bool comment = at < line_end_ && text_[at] == '#';
  while (at < line_end_ && (text_[at] == ' ' || text_[at] == '\t')) ++at;
  if (!comment && at < line_end_) return false;
  end_row(line_end_, 0);
  return true;
}

/// Splits a row as nearly all are: one whole line in the buffer, not blank, no comment, no quote and no NUL in it.
/// Looks at eight bytes at a time for delimiters and line ends. False, and nothing done, when the row may be another.
bool RowSplitter::split_common_row() {
  const std::size_t position = text_.position();
  const std::size_t limit = std::min(common_end_, position + k_max_row);
  if (position >= limit) return false;
  const auto first = static_cast<unsigned char>(text_[position]);
  if (first <= ' ' || first == '#') return false;
  const char* const bytes = text_.bytes();
  const std::uint64_t delimiters = eight_times(delimiter_);
  Field* const fields = fields_.data();
  const std::size_t most = fields_.size();
  std::size_t count = 0;
  std::size_t begin = position;
  for (std::size_t at = position; at < limit; at += 8) {
    for (std::uint64_t found = ends_of_fields(load_eight(bytes + at), delimiters); found != 0; found &= found - 1) {
      const std::size_t place = at + static_cast<std::size_t>(std::countr_zero(found)) / 8;
      const char end = bytes[place];
      if (end != delimiter_ && end != '\n' && end != '\r') continue;
      // Where more may follow that is not in the buffer, or there are many fields, the other way is taken.
      if (place + 1 >= limit || count == most) return false;
      fields[count++] = Field{{bytes + begin, place - begin}, begin - position};
      begin = place + 1;
      if (end == delimiter_) continue;
      field_count_ = count;
      row_begin_ = position;
      row_line_ = line_++;
      text_.move_to(end == '\r' && bytes[begin] == '\n' ? begin + 1 : begin);
      return true;
    }
  }
  return false;
}

/// Splits the next row, whatever it is.
bool RowSplitter::next_of_any_kind() {
  for (;;) {
    const bool fits = find_line_end();
    if (text_.position() == text_.end() || lookahead_spent()) return false;
    row_begin_ = text_.position();
    row_line_ = line_;
    if (!fits) {
      skip_long_line();
      return !lookahead_spent();
    }
    if (skip_line_if_empty()) continue;
    if (find(nul_) < line_end_) {
      fail(RowFault::holds_nul, nul_.place);
      return true;
    }
    if (find(quote_) >= line_end_) {
      split_plain();
      common_end_ = std::min(find(quote_), find(nul_));
      return true;
    }
    // A row with quotes may run over several lines: have as many bytes as a row may take (and the LF of its CRLF).
    if (text_.end() - text_.position() < k_max_row + 2 && refill()) continue;
    if (lookahead_spent()) return false;
    split_quoted();
    return true;
  }
}

/// Splits a line without quotes.
void RowSplitter::split_plain() {
  std::size_t begin = row_begin_;
  for (std::size_t at = begin; at < line_end_; ++at) {
    if (text_[at] != delimiter_) continue;
    add_field(begin, at);
    begin = at + 1;
  }
  add_field(begin, line_end_);
  end_row(line_end_, 0);
}

/// Splits a row with quotes, which may run over line ends. The buffer holds the row, or as much as a row may be.
void RowSplitter::split_quoted() {
  const std::size_t limit = std::min(text_.end(), text_.position() + k_max_row);
  std::size_t at = text_.position();
  std::size_t line_breaks = 0;
  unquoted_.clear();
  unquoted_.reserve(k_max_row);  // so that no field's text moves
  for (;;) {
    std::size_t quote = at;
    while (quote < limit && text_[quote] == ' ') ++quote;
    std::size_t field_end = quote;
    if (quote < limit && text_[quote] == '"') {
      field_end = quoted_field(quote, limit, line_breaks);
      if (fault_ != RowFault::none) return;
    } else {
      while (field_end < limit && !ends_field(field_end)) ++field_end;
      add_field({text_.bytes() + at, field_end - at}, at);
    }
    if (field_end == limit && limit < text_.end()) return fail(RowFault::too_long, at);
    if (field_end == limit || text_[field_end] != delimiter_) return end_row(field_end, line_breaks);
    at = field_end + 1;
  }
}

/// Adds the quoted field whose opening quote stands at `open`; returns where its delimiter or line end stands.
std::size_t RowSplitter::quoted_field(std::size_t open, std::size_t limit, std::size_t& line_breaks) {
  bool doubled = false;
  std::size_t at = open + 1;
  std::size_t breaks = 0;
  for (;; ++at) {
    if (at == limit || breaks > k_max_quoted_breaks) {
      fail(RowFault::open_quote, open);
      return at;
    }
    const char c = text_[at];
    if (c == '\n' || (c == '\r' && (at + 1 == text_.end() || text_[at + 1] != '\n'))) ++breaks;
    if (c != '"') continue;
    if (at + 1 == limit || text_[at + 1] != '"') break;
    doubled = true;
    ++at;
  }
  const std::string_view text{text_.bytes() + open + 1, at - open - 1};
  add_field(doubled ? without_doubled_quotes(text) : text, open);
  line_breaks += breaks;

  ++at;
  while (at < limit && text_[at] == ' ') ++at;
  if (at < limit && !ends_field(at)) {
    // After a line break this quote was not meant to close: the opening one stands alone on its line.
    if (breaks > 0)
      fail(RowFault::open_quote, open);
    else
      fail(RowFault::text_after_quote, at);
  }
  return at;
}

std::string_view RowSplitter::without_doubled_quotes(std::string_view text) {
  const std::size_t begin = unquoted_.size();
  for (std::size_t i = 0; i < text.size(); ++i) {
    unquoted_ += text[i];
    if (text[i] == '"') ++i;
  }
  return std::string_view{unquoted_}.substr(begin);
}

/// Gives the physical line at the position up as a row that cannot be split.
void RowSplitter::fail(RowFault fault, std::size_t at) {
  fault_ = fault;
  fault_offset_ = at - row_begin_;
  field_count_ = 0;
  end_row(line_end_, 0);
}

/// Skips a line longer than a row may be, however long it is.
void RowSplitter::skip_long_line() {
  fault_ = RowFault::too_long;
  fault_offset_ = 0;
  while (!line_is_whole()) {
    text_.move_to(line_end_);
    if (!refill()) break;
    line_end_ = std::min(find(line_feed_), find(carriage_return_));
  }
  end_row(line_end_, 0);
}

RowSplitter::Position RowSplitter::position(std::size_t offset) const {
  Position place{row_line_, 1};
  const std::size_t wanted = std::min(row_begin_ + offset, text_.end());
  for (std::size_t at = row_begin_; at < wanted; ++at) {
    ++place.column;
    if (!is_line_end(at) || (text_[at] == '\r' && at + 1 < text_.end() && text_[at + 1] == '\n')) continue;
    ++place.line;
    place.column = 1;
  }
  return place;
}

}  // namespace budclock::weather
