#include <budclock/weather/gzip_source.hpp>

#include <algorithm>
#include <array>
#include <limits>
#include <new>
#include <zlib.h>

namespace budclock::weather {
namespace {

constexpr std::size_t k_packed_block = std::size_t{64} << 10;
constexpr int k_largest_window = 15;
constexpr int k_gzip_only = 16;  // added to the window: zlib checks the gzip header and checksum itself
constexpr Bytef k_first_byte = 0x1F;

}  // namespace

/// zlib's state, and packed bytes that wait for it.
struct GzipSource::Inflater {
  z_stream stream{};
  std::array<Bytef, k_packed_block> packed{};

  Inflater() {
    if (inflateInit2(&stream, k_largest_window + k_gzip_only) != Z_OK) throw std::bad_alloc{};
  }
  Inflater(const Inflater&) = delete;
  Inflater& operator=(const Inflater&) = delete;
  ~Inflater() { inflateEnd(&stream); }
};

bool is_gzip(std::string_view start) { return start.starts_with("\x1F\x8B"); }

GzipSource::GzipSource(ByteSource& packed) : packed_{packed}, inflater_{std::make_unique<Inflater>()} {}
GzipSource::~GzipSource() = default;

/// Makes packed bytes stand ready; false when there are no more.
bool GzipSource::refill() {
  z_stream& stream = inflater_->stream;
  if (stream.avail_in > 0) return true;
  auto& packed = inflater_->packed;
  stream.next_in = packed.data();
  stream.avail_in = static_cast<uInt>(packed_.read({reinterpret_cast<char*>(packed.data()), packed.size()}));
  return stream.avail_in > 0;
}

/// Goes to the next member; false at the end.
bool GzipSource::begin_member() {
  z_stream& stream = inflater_->stream;
  while (refill()) {
    if (*stream.next_in == k_first_byte) {
      inflateReset(&stream);
      in_member_ = true;
      return true;
    }
    if (*stream.next_in != 0) {
      fault_ = GzipFault::foreign;
      break;
    }
    ++stream.next_in;
    --stream.avail_in;
  }
  ended_ = true;
  return false;
}

std::size_t GzipSource::read(std::span<char> buffer) {
  z_stream& stream = inflater_->stream;
  const std::size_t room = std::min<std::size_t>(buffer.size(), std::numeric_limits<uInt>::max());
  while (room > 0 && !ended_) {
    if (!in_member_ && !begin_member()) break;
    const bool has_input = refill();  // without it, zlib may still hold bytes that it has unpacked
    stream.next_out = reinterpret_cast<Bytef*>(buffer.data());
    stream.avail_out = static_cast<uInt>(room);
    const int outcome = inflate(&stream, Z_NO_FLUSH);
    if (outcome == Z_MEM_ERROR) throw std::bad_alloc{};
    if (outcome == Z_STREAM_END) {
      in_member_ = false;
    } else if (outcome != Z_OK) {
      fault_ = outcome == Z_BUF_ERROR && !has_input ? GzipFault::cut_off : GzipFault::damaged;
      ended_ = true;
    }
    const std::size_t count = room - stream.avail_out;
    unpacked_ += count;
    if (count > 0) return count;
  }
  return 0;
}

}  // namespace budclock::weather
