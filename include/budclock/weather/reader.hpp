// Reads weather records: bytes in, stations with daily series and diagnostics out.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/weather/byte_source.hpp>
#include <budclock/weather/daily_series.hpp>

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace budclock::weather {

/// The order of the parts of a date that is not ISO ("4/16/2014", "16.4.2014").
enum class DateOrder : std::uint8_t { year_month_day, month_day_year, day_month_year };

/// What the user states about a file. Everything left empty is told by the file itself or is an error that names
/// the option; nothing is guessed.
struct ReadOptions {
  std::optional<TemperatureUnit> units;  ///< --units: the unit where header and layout state none
  std::optional<DateOrder> date_order;   ///< --date-order: for dates that the file leaves ambiguous
  std::string station;                   ///< --station: the only station to keep (empty: all)
};

/// How the unit of a file's temperatures was known.
enum class UnitEvidence : std::uint8_t { header, layout, option };

/// One station of a file.
struct StationRecord {
  std::string id;  ///< as in the file; empty when the file names none
  DailySeries days;
  std::size_t rows = 0;        ///< rows read for this station
  std::size_t duplicates = 0;  ///< rows whose day had been read before
};

/// What is told of a whole file after reading it.
struct FileSummary {
  std::string layout;  ///< the layout recognised, in words
  std::optional<TemperatureUnit> unit;
  UnitEvidence unit_evidence = UnitEvidence::header;
  std::size_t stations = 0;
  Diagnostics diagnostics;
};

/// Reads a whole record. Each station is handed to `on_station` when its last row has been read; memory holds one
/// station at a time for a file grouped by station.
///
/// `file_name` stands in the diagnostics. A malformed row or value is a fault (with its line and column) and is set
/// aside; a file that cannot be understood at all gives an error and no station. Never throws on bad input.
FileSummary read_weather(ByteSource& source, std::string_view file_name, const ReadOptions& options,
                         const std::function<void(StationRecord&&)>& on_station);

}  // namespace budclock::weather
