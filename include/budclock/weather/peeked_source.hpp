// A byte source whose first bytes can be looked at before they are read.
#pragma once

#include <budclock/weather/byte_source.hpp>

#include <array>
#include <cstddef>
#include <string_view>

namespace budclock::weather {

/// Gives the bytes of another source, which must outlive it, and knows the first of them beforehand.
class PeekedSource final : public ByteSource {
 public:
  /// Enough for the heading of every layout that is told by its heading.
  static constexpr std::size_t k_looked_at = 4096;

  explicit PeekedSource(ByteSource& source);

  /// The first k_looked_at bytes, or all of a shorter input; also after they have been read.
  std::string_view start() const { return {start_.data(), count_}; }

  std::size_t read(std::span<char> buffer) override;

 private:
  ByteSource& source_;
  std::array<char, k_looked_at> start_;
  std::size_t count_ = 0;
  std::size_t given_ = 0;  ///< of the first bytes
};

}  // namespace budclock::weather
