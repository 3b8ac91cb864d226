// Fits a station's record to a site: a constant offset, a difference in elevation, the hour of reading.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/core/temperature.hpp>
#include <budclock/weather/daily_series.hpp>

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

namespace budclock::weather {

/// The series with `offset` added to every value.
DailySeries with_offset(const DailySeries& series, TemperatureDifference offset);

/// How much warmer (below zero: colder) a site is than a station, for that many metres that it lies above it (below
/// zero: under it): the 6.5 °C per km of the standard atmosphere (ICAO Doc 7488). Real valleys and slopes differ, most
/// of all in the minima of clear nights, when the valley is the colder place.
TemperatureDifference lapse(double metres_above_station);

/// When the day's extremes are read. A maximum read in the morning is that of the afternoon before; dates of
/// degree-day sums move by two weeks and more by the hour of reading alone (DeGaetano & Knapp 1993, Agric. For.
/// Meteorol.).
enum class ReadTime : std::uint8_t {
  as_dated,  ///< at midnight, or by whatever else makes a maximum belong to its date
  morning,   ///< a maximum belongs to the day before its date
};

struct Shifted {
  DailySeries days;
  std::size_t set_aside = 0;  ///< days on which a minimum came to lie above the maximum: both are set aside
};

/// Moves every maximum to the day before. The series begins a day earlier, with a maximum only, and its last day
/// keeps a minimum only.
Shifted with_maxima_a_day_earlier(const DailySeries& series);

/// One of the files of a site, and how it was read.
struct FileReadTime {
  std::string_view file;
  ReadTime read_time = ReadTime::as_dated;
};

/// A note when records that are merged into one were read at different times: "b.csv: its maxima stay on their
/// dates, while those of a.csv are moved to the day before".
Diagnostics read_time_notes(const std::vector<FileReadTime>& files);

}  // namespace budclock::weather
