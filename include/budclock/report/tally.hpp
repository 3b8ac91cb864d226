// A record's degree-days, day by day.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/temperature.hpp>
#include <budclock/degree_day/formula.hpp>
#include <budclock/weather/daily_series.hpp>

#include <string>

namespace budclock::report {

/// CSV with the columns date,tmin_f,tmax_f,day_ddf,sum_ddf (or _c, _ddc). The sum begins anew on each `start` date;
/// days before the first one in the record are summed from the record's first day. A day that lacks an extreme keeps
/// its row, with empty cells, and adds nothing to the sum.
/// `decimals` (0 to 9) are those of the degree-days; temperatures show two.
std::string tally_csv(const weather::DailySeries& series, const degree_day::Formula& formula, MonthDay start,
                      TemperatureUnit unit, int decimals);

}  // namespace budclock::report
