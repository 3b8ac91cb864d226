#include <budclock/weather/text_buffer.hpp>

#include <algorithm>
#include <cstring>
#include <utility>

namespace budclock::weather {

TextBuffer::TextBuffer(ByteSource& source)
    : source_{&source}, bytes_{std::make_unique_for_overwrite<char[]>(k_block + k_padding)} {
  refill();
}

/// Drops what is not needed any more; doubles the memory when that is not enough.
void TextBuffer::make_room() {
  const std::size_t drop = std::min(mark_, position_);
  const std::size_t kept = end_ - drop;
  if (capacity_ - kept < k_least_room) {
    capacity_ *= 2;
    auto larger = std::make_unique_for_overwrite<char[]>(capacity_ + k_padding);
    std::memcpy(larger.get(), bytes_.get() + drop, kept);
    bytes_ = std::move(larger);
  } else {
    std::memmove(bytes_.get(), bytes_.get() + drop, kept);
  }
  position_ -= drop;
  end_ -= drop;
  if (mark_ != k_none) mark_ -= drop;
}

bool TextBuffer::refill() {
  if (source_ended_) return false;
  if (mark_ != k_none && end_ - mark_ >= k_max_lookahead) {
    lookahead_spent_ = true;
    return false;
  }
  make_room();
  const std::size_t before = end_;
  while (end_ < capacity_ && !source_ended_) {
    const std::size_t count = source_->read({bytes_.get() + end_, capacity_ - end_});
    source_ended_ = count == 0;
    end_ += count;
  }
  std::memset(bytes_.get() + end_, 0, k_padding);
  return end_ > before;
}

TextBuffer TextBuffer::split_off(std::size_t end) {
  const std::size_t kept = end_ - end;
  capacity_ = std::max(k_block, kept + k_least_room);
  auto rest = std::make_unique_for_overwrite<char[]>(capacity_ + k_padding);
  std::memcpy(rest.get(), bytes_.get() + end, kept + k_padding);
  TextBuffer part;
  part.bytes_ = std::exchange(bytes_, std::move(rest));
  part.position_ = std::exchange(position_, 0);
  part.end_ = end;
  part.source_ended_ = true;
  std::memset(part.bytes_.get() + end, 0, k_padding);
  end_ = kept;
  return part;
}

void TextBuffer::mark() {
  mark_ = position_;
  lookahead_spent_ = false;
}

void TextBuffer::rewind() {
  position_ = mark_;
  mark_ = k_none;
  lookahead_spent_ = false;
}

}  // namespace budclock::weather
