#include <budclock/forecast/season.hpp>
#include <budclock/report/csv.hpp>
#include <budclock/report/tally.hpp>

namespace budclock::report {
namespace {

std::string cell(const weather::DayValue& value, TemperatureUnit unit) {
  return weather::has_value(value.origin) ? to_text(value.value, unit, 2) : std::string{};
}

}  // namespace

std::string tally_csv(const weather::DailySeries& series, const degree_day::Formula& formula, MonthDay start,
                      TemperatureUnit unit, int decimals) {
  CsvText csv;
  const std::string suffix = unit == TemperatureUnit::fahrenheit ? "f" : "c";
  csv.plain("date").plain("tmin_" + suffix).plain("tmax_" + suffix).plain("day_dd" + suffix).plain("sum_dd" + suffix);
  csv.end_row();

  const auto amounts = forecast::daily_degree_days(formula, series);
  DegreeDays sum;
  for (std::size_t i = 0; i < series.size(); ++i) {
    const Day day = series.day(i);
    if (day == in_year(start, year_of(day))) sum = {};
    sum += amounts[i].value_or(DegreeDays{});
    csv.plain(iso(day)).plain(cell(series.tmin[i], unit)).plain(cell(series.tmax[i], unit));
    csv.plain(amounts[i] ? to_text(*amounts[i], unit, decimals) : "").plain(to_text(sum, unit, decimals));
    csv.end_row();
  }
  return csv.str();
}

}  // namespace budclock::report
