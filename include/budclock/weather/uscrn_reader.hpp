// Text files of the US Climate Reference Network: daily (daily01) and hourly (hourly02).
//
// One line for each day or hour, fields separated by blanks, no header line; degrees Celsius with one decimal; -9999.0
// is no value. Source: NOAA National Centers for Environmental Information, USCRN Products, readme.txt of daily01
// (28 fields; WBANNO 1, LST_DATE 2, T_DAILY_MAX 6, T_DAILY_MIN 7) and of hourly02 (38 fields; WBANNO 1, LST_DATE 4,
// LST_TIME 5, T_MAX 11, T_MIN 12) (from memory). Dates are local standard time all year. The time of an hour is its
// end, so that 0000 is the last hour of the day before its date (same readme).
#pragma once

#include <budclock/weather/layout.hpp>

namespace budclock::weather {

bool is_uscrn_daily(std::string_view start);
bool is_uscrn_hourly(std::string_view start);

/// Reads T_DAILY_MAX and T_DAILY_MIN; the station is the WBAN number.
FileSummary read_uscrn_daily(ByteSource& source, ProblemList& problems, const ReadOptions& options,
                             const StationHandler& on_station);

/// Reads each hour's T_MAX and T_MIN and reduces them to days (see DayReducer).
FileSummary read_uscrn_hourly(ByteSource& source, ProblemList& problems, const ReadOptions& options,
                              const StationHandler& on_station);

}  // namespace budclock::weather
