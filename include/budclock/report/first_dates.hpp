// The first dates on which a station's degree-days reached given sums, year by year.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/temperature.hpp>
#include <budclock/degree_day/formula.hpp>
#include <budclock/weather/daily_series.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace budclock::report {

/// What is summed, since when, and up to which sums.
struct FirstDatesPlan {
  struct Sum {
    std::string printed;  ///< as typed, for the column's name
    DegreeDays amount;
  };
  std::vector<degree_day::Formula> formulas;
  std::vector<Sum> sums;  ///< from the least to the greatest
  MonthDay start = date::January / 1;
  TemperatureUnit unit = TemperatureUnit::fahrenheit;
  int decimals = 3;  ///< of the year's whole sum, 0 to 9
};

/// "station,year,method,days,missing_days,sum_ddf,first_200_ddf" and so on, with its line end.
std::string first_dates_header(const FirstDatesPlan& plan);

/// CSV, a row for each year (named by its `start` date) and formula, formulas of a year together. `days` have both
/// extremes and are summed; `missing_days` are the others from the start to the year's end or the record's, whichever
/// comes first, those before a record that begins later included. A sum that was not reached leaves its cell empty.
std::string first_dates_rows(std::string_view station, const weather::DailySeries& series, const FirstDatesPlan& plan);

}  // namespace budclock::report
