// Unpacks gzip (RFC 1952) on the way.
#pragma once

#include <budclock/weather/byte_source.hpp>

#include <cstdint>
#include <memory>
#include <string_view>

namespace budclock::weather {

/// What is wrong with gzip data. The bytes given before it are sound as far as they go, but not the whole.
enum class GzipFault : std::uint8_t {
  none,
  cut_off,  ///< the data end before their checksum
  damaged,  ///< they are not as packed: the bits or the checksum contradict
  foreign,  ///< something else than gzip data (or zero bytes, which pad archives) follows them
};

/// True when a file begins as gzip data do.
bool is_gzip(std::string_view start);

/// The bytes packed in another source, which must outlive this one. Several gzip members after one another are one
/// run of bytes, as gzip itself takes them. Memory is flat, however much a small file unpacks to.
class GzipSource final : public ByteSource {
 public:
  explicit GzipSource(ByteSource& packed);
  ~GzipSource() override;

  /// Gives 0 at the end and at a fault; tell them apart with `fault()`. Throws std::bad_alloc when zlib gets no memory.
  std::size_t read(std::span<char> buffer) override;

  GzipFault fault() const { return fault_; }
  /// Bytes given so far.
  std::uint64_t unpacked() const { return unpacked_; }

 private:
  struct Inflater;
  bool refill();
  bool begin_member();

  ByteSource& packed_;
  std::unique_ptr<Inflater> inflater_;
  GzipFault fault_ = GzipFault::none;
  bool in_member_ = false;
  bool ended_ = false;
  std::uint64_t unpacked_ = 0;
};

}  // namespace budclock::weather
