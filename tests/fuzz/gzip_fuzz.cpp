// Any bytes as gzip data, and as what is packed in them: no crash, no endless output, nothing taken for whole that is
// not, and what was packed comes out again.

#include <budclock/weather/gzip_source.hpp>

#include "fuzz.hpp"
#include "record_promises.hpp"

#include <string>
#include <zlib.h>

using namespace budclock::weather;

namespace {

/// Far more than the largest input can unpack to (1032 to 1).
constexpr std::uint64_t k_most_unpacked = std::uint64_t{1} << 32;

struct Unpacked {
  std::string text;
  GzipFault fault = GzipFault::none;
};

Unpacked unpack(std::string_view packed, std::size_t piece_in, std::size_t piece_out) {
  Pieces pieces{packed, piece_in};
  GzipSource source{pieces};
  Unpacked result;
  std::string buffer(piece_out, '\0');
  for (std::size_t count = source.read(buffer); count > 0; count = source.read(buffer)) {
    demand(count <= buffer.size());
    result.text.append(buffer, 0, count);
    demand(result.text.size() == source.unpacked() && source.unpacked() < k_most_unpacked);
  }
  demand(source.read(buffer) == 0);
  result.fault = source.fault();
  return result;
}

std::string pack(std::string_view text) {
  z_stream stream{};
  demand(deflateInit2(&stream, Z_BEST_SPEED, Z_DEFLATED, 15 + 16, 8, Z_DEFAULT_STRATEGY) == Z_OK);
  std::string out(deflateBound(&stream, text.size()) + 32, '\0');
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(text.data()));
  stream.avail_in = static_cast<uInt>(text.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  demand(deflate(&stream, Z_FINISH) == Z_STREAM_END);
  out.resize(stream.total_out);
  deflateEnd(&stream);
  return out;
}

}  // namespace

int fuzz_one(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes{reinterpret_cast<const char*>(data), size};
  const Unpacked whole = unpack(bytes, size + 1, 4096);
  const Unpacked in_pieces = unpack(bytes, 1 + size % 7, 1 + size % 5);
  demand(whole.fault == in_pieces.fault);
  demand(whole.text == in_pieces.text);

  const std::string packed = pack(bytes);
  const Unpacked again = unpack(packed, packed.size(), 4096);
  demand(again.fault == GzipFault::none && again.text == bytes);
  const std::size_t cut = size == 0 ? 0 : data[0] % packed.size();
  demand(cut == 0 || unpack(std::string_view{packed}.substr(0, cut), packed.size(), 4096).fault == GzipFault::cut_off);
  return 0;
}
