// Packs a text as gzip does, for tests.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <zlib.h>

namespace budclock::weather::test {

/// One gzip member.
inline std::string packed(std::string_view text) {
  z_stream stream{};
  if (deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, 15 + 16, 9, Z_DEFAULT_STRATEGY) != Z_OK) {
    throw std::runtime_error{"deflateInit2"};
  }
  std::string out(deflateBound(&stream, text.size()) + 32, '\0');
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(text.data()));
  stream.avail_in = static_cast<uInt>(text.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  const int outcome = deflate(&stream, Z_FINISH);
  out.resize(stream.total_out);
  deflateEnd(&stream);
  if (outcome != Z_STREAM_END) throw std::runtime_error{"deflate"};
  return out;
}

}  // namespace budclock::weather::test
