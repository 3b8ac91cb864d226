#include <budclock/weather/byte_source.hpp>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <system_error>
#include <unistd.h>

namespace budclock::weather {

std::size_t StreamSource::read(std::span<char> buffer) {
  stream_.read(buffer.data(), static_cast<std::streamsize>(buffer.size()));
  if (stream_.bad()) throw std::system_error{errno, std::generic_category(), "cannot read"};
  return static_cast<std::size_t>(stream_.gcount());
}

std::size_t DescriptorSource::read(std::span<char> buffer) {
  for (;;) {
    const ssize_t count = ::read(descriptor_, buffer.data(), buffer.size());
    if (count >= 0) return static_cast<std::size_t>(count);
    if (errno != EINTR) throw std::system_error{errno, std::generic_category(), "cannot read"};
  }
}

std::size_t MemorySource::read(std::span<char> buffer) {
  const std::size_t count = std::min(buffer.size(), rest_.size());
  if (count > 0) std::memcpy(buffer.data(), rest_.data(), count);
  rest_.remove_prefix(count);
  return count;
}

}  // namespace budclock::weather
