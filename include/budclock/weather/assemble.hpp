// One site's series from all the records it has.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/weather/adjust.hpp>
#include <budclock/weather/daily_series.hpp>
#include <budclock/weather/fill.hpp>
#include <budclock/weather/join.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace budclock::weather {

/// What becomes of days without a value.
enum class GapPolicy : std::uint8_t {
  fill,    ///< short ones by a straight line; the rest is left to the other years
  keep,    ///< they stay
  refuse,  ///< they stay, and whoever asks for dates is refused
};

/// One record of a site, as read, and what fits it to the site.
struct SiteSource {
  std::string file;  ///< for messages
  DailySeries days;
  TemperatureUnit unit = TemperatureUnit::fahrenheit;  ///< in which it was written
  ReadTime read_time = ReadTime::as_dated;
  TemperatureDifference offset{};  ///< added to every value
  bool keep_doubtful = false;      ///< take its values as they are, without looking for doubtful ones
};

/// What a record gave.
struct SourceUse {
  std::string file;
  std::size_t doubted = 0;  ///< values that the quality checks set aside
  Joined joined;            ///< what the records before it lacked
};

struct SiteSeries {
  DailySeries days;
  std::vector<SourceUse> sources;
  FillCounts by_line;
  std::vector<std::string> notes;  ///< for the report: what was moved, joined and filled
  Diagnostics diagnostics;         ///< doubted values are faults; a mixture of reading times is a note
};

/// Makes one series of `sources`, the most trusted first. Nothing after `today` is looked at. Each record in turn:
/// doubtful values are set aside (`check_quality`, on the rows as they are dated, which is what its limits were made
/// for); maxima move a day back where they were read in the morning; the offset is added; then the records are joined
/// (`join`), and with GapPolicy::fill short gaps are bridged by a line.
SiteSeries assemble(std::vector<SiteSource> sources, GapPolicy gaps, Day today);

/// Takes the days after the last usable one of `series` from a forecast, as Origin::forecast; a further forecast goes
/// on where the first ends. Returns how many days were taken.
std::size_t append_forecast(DailySeries& series, const DailySeries& forecast);

}  // namespace budclock::weather
