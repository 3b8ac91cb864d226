// Any bytes as a forecast of the Weather Service: no crash, no hang, and what must hold of a record holds.

#include <budclock/weather/forecast_json_reader.hpp>

#include "fuzz.hpp"
#include "record_promises.hpp"

using namespace budclock::weather;

int fuzz_one(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes{reinterpret_cast<const char*>(data), size};
  check_whole_and_in_pieces(reader_of(read_forecast_json), bytes, {});
  return 0;
}
