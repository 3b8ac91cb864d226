#include <budclock/weather/peeked_source.hpp>

#include <algorithm>
#include <cstring>

namespace budclock::weather {

PeekedSource::PeekedSource(ByteSource& source) : source_{source} {
  while (count_ < start_.size()) {
    const std::size_t count = source_.read({start_.data() + count_, start_.size() - count_});
    if (count == 0) break;
    count_ += count;
  }
}

std::size_t PeekedSource::read(std::span<char> buffer) {
  if (given_ == count_) return source_.read(buffer);
  const std::size_t count = std::min(buffer.size(), count_ - given_);
  std::memcpy(buffer.data(), start_.data() + given_, count);
  given_ += count;
  return count;
}

}  // namespace budclock::weather
