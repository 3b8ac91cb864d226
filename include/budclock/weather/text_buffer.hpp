// The part of a byte source that is being read: a block that slides along, or grows while one looks ahead.
#pragma once

#include <budclock/weather/byte_source.hpp>

#include <cstddef>
#include <limits>
#include <memory>
#include <string_view>

namespace budclock::weather {

/// Bytes from `position()` up to `end()` stand in memory; `refill` brings more, in blocks of k_block.
class TextBuffer {
 public:
  static constexpr std::size_t k_block = std::size_t{128} << 10;
  /// What `refill` makes room for at least, beside what is kept.
  static constexpr std::size_t k_least_room = k_block / 2;
  /// Bytes after end() that may be read, and are zero.
  static constexpr std::size_t k_padding = 8;
  static constexpr std::size_t k_max_lookahead = std::size_t{8} << 20;

  explicit TextBuffer(ByteSource& source);

  const char* bytes() const { return bytes_.get(); }
  char operator[](std::size_t at) const { return bytes_[at]; }
  std::size_t position() const { return position_; }
  std::size_t end() const { return end_; }
  /// Goes on to `position`; what stands before it may be dropped.
  void move_to(std::size_t position) { position_ = position; }
  /// True when nothing will come after end().
  bool source_ended() const { return source_ended_; }

  /// Brings more bytes, which moves all places. Fills the block, so that what is in memory does not depend on how the
  /// source cuts its bytes. False, and nothing moved, when there are no more or the look ahead is spent.
  bool refill();

  /// Gives away what stands from the position up to `end`, after which nothing comes there, and goes on behind it. Only
  /// while no place is remembered.
  TextBuffer split_off(std::size_t end);

  /// Remembers this place, so that one can look ahead and go back to it with `rewind`. A look ahead is spent when
  /// about k_max_lookahead bytes are kept.
  void mark();
  void rewind();
  bool lookahead_spent() const { return lookahead_spent_; }

 private:
  TextBuffer() = default;
  static constexpr std::size_t k_none = std::numeric_limits<std::size_t>::max();
  void make_room();

  ByteSource* source_ = nullptr;
  std::size_t capacity_ = k_block;
  std::unique_ptr<char[]> bytes_;
  std::size_t position_ = 0;
  std::size_t end_ = 0;
  bool source_ended_ = false;
  std::size_t mark_ = k_none;
  bool lookahead_spent_ = false;
};

}  // namespace budclock::weather
