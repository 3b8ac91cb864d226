// The scores of a hindcast, written for a person, a spreadsheet and a program.
#pragma once

#include <budclock/forecast/hindcast.hpp>
#include <budclock/report/layout.hpp>

#include <string>

namespace budclock::report {

/// All figures together by lead, then each figure, then what the columns mean.
std::string hindcast_text(const forecast::Hindcast& hindcast, const TextStyle& style);

/// A header and one row for each figure and lead; rows of all figures together come first, with an empty pest. Days
/// are days, skills and shares are fractions of 1. Columns are only ever added at the end.
std::string hindcast_csv(const forecast::Hindcast& hindcast);

/// One JSON object, "schema": "budclock/hindcast/1". Members are only ever added.
std::string hindcast_json(const forecast::Hindcast& hindcast);

}  // namespace budclock::report
