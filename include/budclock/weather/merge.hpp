// Several records of one place as one.
#pragma once

#include <budclock/weather/daily_series.hpp>

namespace budclock::weather {

/// Fills the values that `preferred` lacks with those of `other`, value by value, and takes over days that it does
/// not span. A value that was set aside is replaced too.
void fill_from(DailySeries& preferred, const DailySeries& other);

}  // namespace budclock::weather
