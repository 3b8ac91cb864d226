#include <budclock/forecast/degree_day_record.hpp>
#include <budclock/report/csv.hpp>
#include <budclock/report/first_dates.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <optional>

namespace budclock::report {
namespace {

using Amounts = std::vector<std::optional<DegreeDays>>;

const char* suffix(TemperatureUnit unit) { return unit == TemperatureUnit::fahrenheit ? "ddf" : "ddc"; }

/// The part of a series that belongs to one year's sum: days [begin, end).
struct Year {
  Day start{};
  std::size_t begin = 0;
  std::size_t end = 0;
};

std::vector<Year> years_of(const weather::DailySeries& series, MonthDay start) {
  std::vector<Year> years;
  if (series.empty()) return years;
  const auto place = [&](Day day) {
    const auto days = std::clamp<std::ptrdiff_t>((day - series.first).count(), 0, std::ssize(series.tmin));
    return static_cast<std::size_t>(days);
  };
  int year = year_of(series.first);
  if (in_year(start, year) > series.first) --year;
  for (; in_year(start, year) <= series.last(); ++year) {
    const Day first = in_year(start, year);
    years.push_back({first, place(first), place(in_year(start, year + 1))});
  }
  return years;
}

void add_row(CsvText& csv, const Year& year, const Amounts& amounts, const weather::DailySeries& series,
             const FirstDatesPlan& plan) {
  DegreeDays sum;
  std::size_t days = 0;
  std::vector<Day> reached;
  auto wanted = plan.sums.begin();
  for (std::size_t i = year.begin; i < year.end; ++i) {
    if (!amounts[i]) continue;
    ++days;
    sum += *amounts[i];
    for (; wanted != plan.sums.end() && sum >= wanted->amount; ++wanted) reached.push_back(series.day(i));
  }
  const Day end = series.first + date::days{static_cast<int>(year.end)};
  const auto all_days = static_cast<std::size_t>((end - year.start).count());
  csv.plain(std::to_string(days)).plain(std::to_string(all_days - days));
  csv.plain(to_text(sum, plan.unit, plan.decimals));
  for (std::size_t i = 0; i < plan.sums.size(); ++i) {
    i < reached.size() ? csv.plain(iso(reached[i])) : csv.empty();
  }
  csv.end_row();
}

}  // namespace

std::string first_dates_header(const FirstDatesPlan& plan) {
  CsvText csv;
  csv.plain("station").plain("year").plain("method").plain("days").plain("missing_days");
  csv.plain(fmt::format("sum_{}", suffix(plan.unit)));
  for (const auto& sum : plan.sums) csv.plain(fmt::format("first_{}_{}", sum.printed, suffix(plan.unit)));
  csv.end_row();
  return csv.str();
}

std::string first_dates_rows(std::string_view station, const weather::DailySeries& series, const FirstDatesPlan& plan) {
  std::vector<Amounts> amounts;
  for (const auto& formula : plan.formulas) amounts.push_back(forecast::daily_degree_days(formula, series));
  CsvText csv;
  for (const Year& year : years_of(series, plan.start)) {
    for (std::size_t i = 0; i < plan.formulas.size(); ++i) {
      csv.text(station).plain(std::to_string(year_of(year.start))).plain(name(plan.formulas[i].method));
      add_row(csv, year, amounts[i], series, plan);
    }
  }
  return csv.str();
}

}  // namespace budclock::report
