// What one station's record holds and lacks, for people who must decide whether to trust it.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/weather/fill.hpp>
#include <budclock/weather/reader.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace budclock::weather {

struct StationCheck {
  std::string id;  ///< as in the file; empty when the file names none
  std::optional<Day> first;
  std::optional<Day> last;
  std::size_t days = 0;  ///< from the first to the last
  std::size_t rows = 0;
  std::size_t duplicates = 0;      ///< rows whose day had been read before
  std::size_t missing_minima = 0;  ///< absent or set aside, the doubted ones included
  std::size_t missing_maxima = 0;
  std::size_t set_aside = 0;     ///< values that were there and could not be read
  std::size_t partial_days = 0;  ///< days whose readings are too few to show their extremes; not among `set_aside`
  std::size_t doubted = 0;       ///< values that could be read and are set aside by the quality checks
  FillCounts by_line;            ///< what a straight line would fill of what is missing
  std::optional<Gap> longest_gap;
  Diagnostics problems;  ///< one fault for each doubt
};

/// Looks through one station. The record is not changed.
StationCheck check_station(const StationRecord& station, std::string_view file_name);

}  // namespace budclock::weather
