#include <budclock/weather/row_splitter.hpp>

#include <algorithm>
#include <cstring>

namespace budclock::weather {
namespace {

constexpr std::string_view k_byte_order_mark = "\xEF\xBB\xBF";

}  // namespace

RowSplitter::RowSplitter(ByteSource& source) : source_{source}, buffer_(k_block), fields_(16) {
  refill();
  if (peek(3) == k_byte_order_mark) position_ = k_byte_order_mark.size();
}

std::string_view RowSplitter::peek(std::size_t count) {
  return std::string_view{buffer_.data() + position_, std::min(count, end_ - position_)};
}

void RowSplitter::mark() {
  mark_ = position_;
  mark_line_ = line_;
}

void RowSplitter::rewind() {
  position_ = mark_;
  line_ = mark_line_;
  mark_ = k_none;
  lookahead_spent_ = false;
  multi_line_rows_ = 0;
  forget_finds();
}

/// Moves what is still needed to the front and fills the rest of the buffer. Reading until the buffer is full makes
/// the rows independent of how the source cuts its bytes. False when the source has nothing more.
bool RowSplitter::refill() {
  if (source_ended_) return false;
  if (mark_ != k_none && end_ - mark_ >= k_max_lookahead) {
    lookahead_spent_ = true;
    return false;
  }
  const std::size_t keep = std::min(mark_, position_);
  std::memmove(buffer_.data(), buffer_.data() + keep, end_ - keep);
  position_ -= keep;
  end_ -= keep;
  if (mark_ != k_none) mark_ = 0;
  if (buffer_.size() - end_ < k_max_row) buffer_.resize(buffer_.size() * 2);
  const std::size_t before = end_;
  while (end_ < buffer_.size()) {
    const std::size_t count = source_.read({buffer_.data() + end_, buffer_.size() - end_});
    if (count == 0) {
      source_ended_ = true;
      break;
    }
    end_ += count;
  }
  forget_finds();
  return end_ > before;
}

void RowSplitter::forget_finds() {
  for (Finder* finder : {&line_feed_, &carriage_return_, &quote_, &nul_}) finder->known = false;
}

/// The first place of the finder's byte at or after the current position; `end_` when there is none.
std::size_t RowSplitter::find(Finder& finder) const {
  if (finder.known && finder.place >= position_) return finder.place;
  const void* found = std::memchr(buffer_.data() + position_, finder.byte, end_ - position_);
  finder.place = found == nullptr ? end_ : static_cast<std::size_t>(static_cast<const char*>(found) - buffer_.data());
  finder.known = true;
  return finder.place;
}

/// True when the physical line's end stands in the buffer (a CR could still be half of a CRLF).
bool RowSplitter::line_is_whole() const {
  return line_end_ < end_ && (buffer_[line_end_] == '\n' || line_end_ + 1 < end_);
}

/// Makes a whole physical line stand in the buffer. False when it is longer than a row may be.
bool RowSplitter::find_line_end() {
  for (;;) {
    line_end_ = std::min(find(line_feed_), find(carriage_return_));
    if (line_end_ - position_ > k_max_row) return false;
    if (line_is_whole() || !refill()) return true;
  }
}

std::size_t RowSplitter::after_line_end(std::size_t at) const {
  if (at >= end_) return end_;
  const bool both = buffer_[at] == '\r' && at + 1 < end_ && buffer_[at + 1] == '\n';
  return at + (both ? 2 : 1);
}

/// Ends the row at the line end `end`.
void RowSplitter::end_row(std::size_t end, std::size_t line_breaks) {
  position_ = after_line_end(end);
  line_ += line_breaks + 1;
  if (line_breaks > 0) ++multi_line_rows_;
}

/// Skips the line at the position when it is blank or a comment.
bool RowSplitter::skip_line_if_empty() {
  const auto byte = static_cast<unsigned char>(buffer_[position_]);
  if (byte > ' ' && byte != '#') return false;  // nearly every line
  std::size_t at = position_;
  while (at < line_end_ && buffer_[at] == ' ') ++at;
  const bool comment = at < line_end_ && buffer_[at] == '#';
  while (at < line_end_ && (buffer_[at] == ' ' || buffer_[at] == '\t')) ++at;
  if (!comment && at < line_end_) return false;
  end_row(line_end_, 0);
  return true;
}

bool RowSplitter::next() {
  field_count_ = 0;
  fault_ = RowFault::none;
  for (;;) {
    const bool fits = find_line_end();
    if (position_ == end_ || lookahead_spent_) return false;
    row_begin_ = position_;
    row_line_ = line_;
    if (!fits) {
      skip_long_line();
      return !lookahead_spent_;
    }
    if (skip_line_if_empty()) continue;
    if (find(nul_) < line_end_) {
      fail(RowFault::holds_nul, nul_.place);
      return true;
    }
    if (find(quote_) >= line_end_) {
      split_plain();
      return true;
    }
    // A row with quotes may run over several lines: have as many bytes as a row may take (and the LF of its CRLF).
    if (end_ - position_ < k_max_row + 2 && refill()) continue;
    if (lookahead_spent_) return false;
    split_quoted();
    return true;
  }
}

void RowSplitter::add_field(std::string_view text, std::size_t begin) {
  if (field_count_ == fields_.size()) fields_.resize(fields_.size() * 2);
  fields_[field_count_++] = Field{text, begin - row_begin_};
}

/// Splits a line without quotes.
void RowSplitter::split_plain() {
  const char* const bytes = buffer_.data();
  std::size_t begin = position_;
  for (std::size_t at = position_; at < line_end_; ++at) {
    if (bytes[at] != delimiter_) continue;
    add_field({bytes + begin, at - begin}, begin);
    begin = at + 1;
  }
  add_field({bytes + begin, line_end_ - begin}, begin);
  end_row(line_end_, 0);
}

/// Splits a row with quotes, which may run over line ends. The buffer holds the row, or as much as a row may be.
void RowSplitter::split_quoted() {
  const std::size_t limit = std::min(end_, position_ + k_max_row);
  std::size_t at = position_;
  std::size_t line_breaks = 0;
  unquoted_.clear();
  unquoted_.reserve(k_max_row);  // so that no field's text moves
  for (;;) {
    std::size_t quote = at;
    while (quote < limit && buffer_[quote] == ' ') ++quote;
    std::size_t field_end = quote;
    if (quote < limit && buffer_[quote] == '"') {
      field_end = quoted_field(quote, limit, line_breaks);
      if (fault_ != RowFault::none) return;
    } else {
      while (field_end < limit && !ends_field(field_end)) ++field_end;
      add_field({buffer_.data() + at, field_end - at}, at);
    }
    if (field_end == limit && limit < end_) return fail(RowFault::too_long, at);
    if (field_end == limit || buffer_[field_end] != delimiter_) return end_row(field_end, line_breaks);
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
    const char c = buffer_[at];
    if (c == '\n' || (c == '\r' && (at + 1 == end_ || buffer_[at + 1] != '\n'))) ++breaks;
    if (c != '"') continue;
    if (at + 1 == limit || buffer_[at + 1] != '"') break;
    doubled = true;
    ++at;
  }
  const std::string_view text{buffer_.data() + open + 1, at - open - 1};
  add_field(doubled ? without_doubled_quotes(text) : text, open);
  line_breaks += breaks;

  ++at;
  while (at < limit && buffer_[at] == ' ') ++at;
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
    position_ = line_end_;
    if (!refill()) break;
    line_end_ = std::min(find(line_feed_), find(carriage_return_));
  }
  end_row(line_end_, 0);
}

RowSplitter::Position RowSplitter::position(std::size_t offset) const {
  Position place{row_line_, 1};
  const std::size_t wanted = std::min(row_begin_ + offset, end_);
  for (std::size_t at = row_begin_; at < wanted; ++at) {
    ++place.column;
    if (!is_line_end(at) || (buffer_[at] == '\r' && at + 1 < end_ && buffer_[at + 1] == '\n')) continue;
    ++place.line;
    place.column = 1;
  }
  return place;
}

}  // namespace budclock::weather
