// Any bytes as a weather record: no crash, no hang, and what must hold of a record holds.

#include "fuzz.hpp"
#include "record_promises.hpp"

using namespace budclock;
using namespace budclock::weather;

int fuzz_one(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes{reinterpret_cast<const char*>(data), size};
  const RecordReader read = [](ByteSource& source, const ReadOptions& options, const StationHandler& on_station) {
    return read_weather(source, "w.csv", options, on_station);
  };
  ReadOptions options;
  check_whole_and_in_pieces(read, bytes, options);

  options.units = TemperatureUnit::fahrenheit;
  options.date_order = size % 2 == 0 ? DateOrder::month_day_year : DateOrder::day_month_year;
  read_and_check(read, bytes, size + 1, options);

  options.tenths = size % 3 == 0;
  options.columns = {.date = "1", .station = size % 5 == 0 ? "4" : ""};
  if (size % 2 == 0)
    options.columns.temperature = "2";
  else
    options.columns.tmax = "2", options.columns.tmin = "3";
  read_and_check(read, bytes, size + 1, options);
  return 0;
}
