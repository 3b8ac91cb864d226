// Reads weather records: bytes in, stations with daily series and diagnostics out.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/weather/byte_source.hpp>
#include <budclock/weather/daily_series.hpp>
#include <budclock/weather/date_text.hpp>
#include <budclock/weather/header.hpp>
#include <budclock/weather/station_builder.hpp>

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace budclock {
class ThreadPool;
}

namespace budclock::weather {

/// What a file's values are.
enum class RecordKind : std::uint8_t {
  observed,
  forecast,
  normals,  ///< a mean year; its days stand in the nominal year k_normals_year
};

/// The year in which the days of climate normals stand: a leap year, so that 29 February has a place.
inline constexpr int k_normals_year = 2000;

/// What the user states about a file. Everything left empty is told by the file itself or is an error that names
/// the option; nothing is guessed.
struct ReadOptions {
  std::optional<TemperatureUnit> units;  ///< --units: the unit where header and layout state none
  bool tenths = false;                   ///< --units tenths-C: the file counts tenths of that unit's degree
  std::optional<DateOrder> date_order;   ///< --date-order: for dates that the file leaves ambiguous
  std::string station;                   ///< --station: the only station to keep (empty: all)
  ColumnChoice columns;                  ///< --columns
};

/// What is told of a whole file after reading it.
struct FileSummary {
  std::string layout;  ///< the layout recognised, in words
  RecordKind kind = RecordKind::observed;
  std::optional<TemperatureUnit> unit{};
  UnitEvidence unit_evidence = UnitEvidence::header;
  bool tenths = false;                    ///< the file counts tenths of a degree
  std::optional<DateOrder> date_order{};  ///< when the dates needed one
  std::size_t stations = 0;
  std::size_t rows = 0;          ///< rows of the stations kept, those set aside included
  std::size_t flagged = 0;       ///< values that the publisher's quality flags fail; they count as missing
  bool within_day = false;       ///< readings within the day, reduced to daily extremes (see DayReducer)
  std::size_t partial_days = 0;  ///< days whose readings do not show their extremes; they are set aside
  Diagnostics diagnostics{};
};

/// Reads a whole record. Each station is handed to `on_station` once, with all its rows. Memory does not grow with a
/// file that is grouped by station (see StationCollector); a file that is not is held whole.
///
/// `file_name` stands in the diagnostics. A malformed row or value is a fault (with its line and column) and is set
/// aside; a file that cannot be understood at all gives an error and no station; so much set aside that most likely the
/// file is read wrongly is one error (`refuse_mostly_faulty`), after the stations. An error can also come after stations
/// (packed data that break off): then they are not whole and must not be used. Never throws on bad input; a read that
/// fails throws std::system_error.
///
/// With a `pool`, its threads read the rows of a table of one row a day, and the calling one puts them together, with
/// the same result.
FileSummary read_weather(ByteSource& source, std::string_view file_name, const ReadOptions& options,
                         const std::function<void(StationRecord&&)>& on_station, ThreadPool* pool = nullptr);

/// A run of days of which at least one extreme cannot be used.
struct Gap {
  Day first{};
  Day last{};
  /// Its length in days.
  int days() const { return static_cast<int>((last - first).count()) + 1; }
};

/// The gaps between the first and the last day of a series, in order.
std::vector<Gap> gaps(const DailySeries& series);

/// One note for each gap: "3 days missing, 2014-03-02 to 2014-03-04".
Diagnostics gap_notes(const DailySeries& series, std::string_view file_name);

}  // namespace budclock::weather
