// Measures what filling gaps costs, by deleting known days of real records.
// usage: measure_gaps length|dates FILE...
//   length  gaps of 1 to 15 days from March to September: error of the extremes on a straight line, and of the gap's
//           degree-days by that line, by the date's mean of all other years, and by the median of the other years
//   dates   dates of sums by 31 December with 30 % of all days gone, and with 10 and 20 days gone from 5 April
#include <budclock/forecast/season.hpp>
#include <budclock/weather/fill.hpp>
#include <budclock/weather/reader.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <fstream>
#include <random>
#include <string>
#include <string_view>
#include <vector>

using namespace budclock;
using weather::DailySeries;

namespace {

const degree_day::Formula k_formula{
    .method = degree_day::Method::single_sine, .lower = Temperature::fahrenheit(50), .upper = {}};
constexpr std::array k_sums{100, 179, 400, 1000, 1850};  // °F-days

std::vector<DailySeries> read_all(int count, char** paths) {
  std::vector<DailySeries> records;
  for (int i = 0; i < count; ++i) {
    std::ifstream file{paths[i], std::ios::binary};
    weather::StreamSource source{file};
    weather::ReadOptions options;
    options.units = TemperatureUnit::celsius;
    read_weather(source, paths[i], options,
                 [&](weather::StationRecord&& record) { records.push_back(std::move(record.days)); });
  }
  return records;
}

void remove(DailySeries& series, std::size_t index) { series.tmin[index] = series.tmax[index] = {}; }

double quantile(std::vector<double> values, double share) {
  if (values.empty()) return 0;
  std::sort(values.begin(), values.end());
  return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))];
}

struct Errors {
  std::vector<double> values;
  void add(double error) { values.push_back(error); }
  double rmse() const {
    double squares = 0;
    for (const double value : values) squares += value * value;
    return std::sqrt(squares / static_cast<double>(std::max<std::size_t>(values.size(), 1)));
  }
  double mean() const {
    double sum = 0;
    for (const double value : values) sum += value;
    return sum / static_cast<double>(std::max<std::size_t>(values.size(), 1));
  }
};

// --- by length of gap ---------------------------------------------------------------------------------------------

struct LengthErrors {
  Errors tmin, tmax, temperature, line, mean, median;
};

double sum_of(const DailySeries& series, std::size_t from, std::size_t length) {
  double sum = 0;
  for (std::size_t i = from; i < from + length; ++i) {
    sum += degree_day::of_day(k_formula, series.tmin[i].value, series.tmax[i].value, series.tmin[i].value)
               .fahrenheit_days();
  }
  return sum;
}

bool all_there(const DailySeries& series, std::size_t from, std::size_t length) {
  for (std::size_t i = from; i < from + length; ++i) {
    if (!series.complete(i)) return false;
  }
  return true;
}

/// The degree-days of the same dates in each other year that has them.
std::vector<double> other_years(const DailySeries& series, std::size_t from, std::size_t length) {
  std::vector<double> sums;
  const Day first = series.day(from);
  for (int year = year_of(series.first); year <= year_of(series.last()); ++year) {
    if (year == year_of(first)) continue;
    const auto there = series.index_of(in_year(month_day_of(first), year));
    if (there && *there + length < series.size() && all_there(series, *there, length)) {
      sums.push_back(sum_of(series, *there, length));
    }
  }
  return sums;
}

void measure_length(const DailySeries& series, std::size_t length, LengthErrors& errors) {
  for (std::size_t from = 1; from + length + 1 < series.size(); from += 11) {
    const auto month = static_cast<unsigned>(month_day_of(series.day(from)).month());
    if (month < 3 || month > 9 || !all_there(series, from - 1, length + 2)) continue;
    DailySeries part;
    for (std::size_t i = from - 1; i < from + length + 1; ++i) {
      const std::size_t at = include_day(part, series.day(i));
      part.tmin[at] = series.tmin[i];
      part.tmax[at] = series.tmax[i];
    }
    for (std::size_t i = 1; i <= length; ++i) remove(part, i);
    fill_by_line(part, length);
    double off = 0;  // of the gap's mean temperature
    for (std::size_t i = 1; i <= length; ++i) {
      off += (part.tmin[i].value - series.tmin[from - 1 + i].value).fahrenheit() / 2;
      off += (part.tmax[i].value - series.tmax[from - 1 + i].value).fahrenheit() / 2;
      errors.tmin.add((part.tmin[i].value - series.tmin[from - 1 + i].value).fahrenheit());
      errors.tmax.add((part.tmax[i].value - series.tmax[from - 1 + i].value).fahrenheit());
    }
    errors.temperature.add(off / static_cast<double>(length));
    const double truth = sum_of(series, from, length);
    const auto others = other_years(series, from, length);
    if (others.size() < 10) continue;
    errors.line.add(sum_of(part, 1, length) - truth);
    errors.mean.add(Errors{others}.mean() - truth);
    errors.median.add(quantile(others, 0.5) - truth);
  }
}

void length_table(const std::vector<DailySeries>& records) {
  fmt::print(
      "days  gaps   line: tmin  tmax  gap mean (F)  degree-days bias   mean of date  bias   median of years  bias "
      "(F-days)\n");
  for (std::size_t length = 1; length <= 15; ++length) {
    LengthErrors errors;
    for (const auto& series : records) measure_length(series, length, errors);
    fmt::print("{:>4} {:>6} {:>11.2f} {:>5.2f} {:>9.2f} {:>16.2f} {:>5.2f} {:>14.2f} {:>5.2f} {:>17.2f} {:>5.2f}\n",
               length, errors.line.values.size(), errors.tmin.rmse(), errors.tmax.rmse(), errors.temperature.rmse(),
               errors.line.rmse(), errors.line.mean(), errors.mean.rmse(), errors.mean.mean(), errors.median.rmse(),
               errors.median.mean());
  }
}

// --- dates of events ----------------------------------------------------------------------------------------------

enum class Pattern { random_30, april_10, april_20 };

DailySeries with_gaps(const DailySeries& series, Pattern pattern, int year, std::mt19937& random) {
  DailySeries gappy = series;
  if (pattern == Pattern::random_30) {
    std::bernoulli_distribution goes{0.3};
    for (std::size_t i = 0; i < gappy.size(); ++i) {
      if (goes(random)) remove(gappy, i);
    }
    return gappy;
  }
  const std::size_t first = gappy.index_of(*make_day(year, 4, 5)).value();
  for (std::size_t i = first; i < first + (pattern == Pattern::april_10 ? 10 : 20); ++i) remove(gappy, i);
  return gappy;
}

struct DateErrors {
  Errors shifts;
  std::array<std::vector<double>, k_sums.size()> sizes;  ///< of the shifts, by sum
  std::vector<double> widths;
  std::size_t held = 0;
};

forecast::Season season_of(const DailySeries& series, int year) {
  const Day today = *make_day(year, 12, 31);
  const forecast::SiteWeather site{series, today};
  const auto days = forecast::season_on(date::January / 1, today);
  return run_season(k_formula, site, days, member_shifts(site, days.last));
}

void compare_dates(const DailySeries& whole, const DailySeries& filled, int year, DateErrors& errors) {
  const auto truth = season_of(whole, year);
  const auto told = season_of(filled, year);
  for (std::size_t s = 0; s < k_sums.size(); ++s) {
    const int sum = k_sums[s];
    const auto right = summarize(first_reached(truth, DegreeDays::fahrenheit_days(sum))).likely;
    const auto summary = summarize(first_reached(told, DegreeDays::fahrenheit_days(sum)));
    if (!right || !summary.early || !summary.late) continue;
    errors.shifts.add(static_cast<double>((*summary.likely - *right).count()));
    errors.sizes[s].push_back(std::abs(errors.shifts.values.back()));
    errors.widths.push_back(static_cast<double>((*summary.late - *summary.early).count()));
    if (*summary.early <= *right && *right <= *summary.late) ++errors.held;
  }
}

/// Correlation of the maxima of days that both have; 0 when these are too few.
double likeness(const DailySeries& a, const DailySeries& b) {
  double n = 0, x = 0, y = 0, xx = 0, yy = 0, xy = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const auto j = b.index_of(a.day(i));
    if (!j || !a.complete(i) || !b.complete(*j)) continue;
    const double u = a.tmax[i].value.celsius();
    const double v = b.tmax[*j].value.celsius();
    n += 1, x += u, y += v, xx += u * u, yy += v * v, xy += u * v;
  }
  return n < 3000 ? 0 : (n * xy - x * y) / std::sqrt((n * xx - x * x) * (n * yy - y * y));
}

const DailySeries* best_neighbour(const std::vector<DailySeries>& records, const DailySeries& series) {
  const DailySeries* best = nullptr;
  double most = 0;
  for (const auto& other : records) {
    const double alike = &other == &series ? 0 : likeness(series, other);
    if (alike > most) best = &other;
    most = std::max(most, alike);
  }
  return best;
}

void neighbour_table(const std::vector<DailySeries>& records) {
  fmt::print("days   gaps   neighbour: tmin  tmax  gap mean (F)  degree-days  bias (F-days)\n");
  for (const std::size_t length : {1, 2, 3, 5, 7, 10, 15, 20, 30, 45, 60}) {
    LengthErrors errors;
    for (const auto& series : records) {
      const DailySeries* neighbour = best_neighbour(records, series);
      if (neighbour == nullptr) continue;
      std::vector<std::size_t> starts;
      DailySeries filled = series;
      for (std::size_t from = 31; from + length < series.size(); from += length + 71) {
        const auto month = static_cast<unsigned>(month_day_of(series.day(from)).month());
        if (month < 3 || month > 9 || !all_there(series, from, length)) continue;
        for (std::size_t i = from; i < from + length; ++i) remove(filled, i);
        starts.push_back(from);
      }
      fill_from_neighbour(filled, *neighbour);
      for (const std::size_t from : starts) {
        if (!all_there(filled, from, length)) continue;
        double off = 0;
        for (std::size_t i = from; i < from + length; ++i) {
          const double low = (filled.tmin[i].value - series.tmin[i].value).fahrenheit();
          const double high = (filled.tmax[i].value - series.tmax[i].value).fahrenheit();
          errors.tmin.add(low);
          errors.tmax.add(high);
          off += (low + high) / 2;
        }
        errors.temperature.add(off / static_cast<double>(length));
        errors.line.add(sum_of(filled, from, length) - sum_of(series, from, length));
      }
    }
    fmt::print("{:>4} {:>6} {:>17.2f} {:>5.2f} {:>13.2f} {:>12.2f} {:>5.2f}\n", length, errors.line.values.size(),
               errors.tmin.rmse(), errors.tmax.rmse(), errors.temperature.rmse(), errors.line.rmse(),
               errors.line.mean());
  }
}

void print(const char* what, const DateErrors& errors) {
  std::vector<double> sizes;
  std::string medians;
  for (const auto& of_sum : errors.sizes) {
    sizes.insert(sizes.end(), of_sum.begin(), of_sum.end());
    medians += fmt::format(" {}", quantile(of_sum, 0.5));
  }
  fmt::print(
      "  {:<28} {} dates; shift in days: median{} by sum, 80 % within {}, RMSE {:.2f}, mean {:+.2f}; interval: "
      "holds {:.1f} %, width median {}, mean {:.2f}\n",
      what, sizes.size(), medians, quantile(sizes, 0.8), errors.shifts.rmse(), errors.shifts.mean(),
      100.0 * static_cast<double>(errors.held) / static_cast<double>(std::max<std::size_t>(sizes.size(), 1)),
      quantile(errors.widths, 0.5), Errors{errors.widths}.mean());
}

/// Complete years that divide by three, from the twelfth of the record on.
std::vector<int> test_years(const DailySeries& series) {
  std::vector<int> years;
  for (int year = year_of(series.first) + 11; year <= year_of(series.last()); ++year) {
    const auto first = series.index_of(*make_day(year, 1, 1));
    if (!first || *first + 364 >= series.size()) continue;
    std::size_t missing = 0;
    for (std::size_t i = *first; i < *first + 365; ++i) missing += series.complete(i) ? 0U : 1U;
    if (missing == 0 && year % 3 == 0) years.push_back(year);
  }
  return years;
}

void date_table(const std::vector<DailySeries>& records) {
  for (const auto& [pattern, title] :
       {std::pair{Pattern::random_30, "30 % of all days, every year"},
        std::pair{Pattern::april_10, "10 days from 5 April"}, std::pair{Pattern::april_20, "20 days from 5 April"}}) {
    DateErrors unfilled;
    DateErrors lined;
    DateErrors neighboured;
    std::mt19937 random{1};
    std::size_t stations = 0;
    for (const auto& series : records) {
      const DailySeries* neighbour = best_neighbour(records, series);
      const auto years = test_years(series);
      if (!years.empty()) ++stations;
      for (const int year : years) {
        const Day today = *make_day(year, 12, 31);
        const DailySeries whole = until(series, today);
        DailySeries gappy = with_gaps(whole, pattern, year, random);
        compare_dates(whole, gappy, year, unfilled);
        DailySeries line = gappy;
        fill_by_line(line);
        compare_dates(whole, line, year, lined);
        if (neighbour == nullptr) continue;
        fill_from_neighbour(gappy, until(*neighbour, today));
        fill_by_line(gappy);
        compare_dates(whole, gappy, year, neighboured);
      }
    }
    fmt::print("{} ({} stations)\n", title, stations);
    print("other years only", unfilled);
    print("line, then other years", lined);
    print("neighbour, line, other years", neighboured);
  }
}

}  // namespace

int main(int argc, char** argv) {
  const std::string_view what = argc > 2 ? argv[1] : "";
  if (what != "length" && what != "dates") {
    fmt::print(stderr, "usage: measure_gaps length|dates FILE...\n");
    return 2;
  }
  const auto records = read_all(argc - 2, argv + 2);
  if (what == "dates") return date_table(records), 0;
  length_table(records);
  neighbour_table(records);
}
