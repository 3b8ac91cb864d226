// Any bytes as monthly climate texts of the Weather Service: no crash, no hang, and what must hold of a record holds.

#include <budclock/weather/cf6_reader.hpp>

#include "fuzz.hpp"
#include "record_promises.hpp"

using namespace budclock::weather;

int fuzz_one(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes{reinterpret_cast<const char*>(data), size};
  check_whole_and_in_pieces(reader_of(read_cf6), bytes, {});
  return 0;
}
