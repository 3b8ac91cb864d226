// Checks that look at whole months and runs of days.
#include <budclock/weather/quality_checks.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <utility>

namespace budclock::weather {
namespace {

constexpr std::size_t k_streak = 20;              // Durre et al. 2010
constexpr std::size_t k_fewest_days = 10;         // in a month of equal extremes; common practice
constexpr std::size_t k_fewest_shared_days = 20;  // in a month that repeats another; common practice

/// One calendar month of the record: days [begin, end).
struct Month {
  int year = 0;
  unsigned month = 0;
  std::size_t begin = 0;
  std::size_t end = 0;
};

std::vector<Month> months_of(const DailySeries& days) {
  std::vector<Month> months;
  for (std::size_t i = 0; i < days.size(); i = months.back().end) {
    const date::year_month_day ymd{days.day(i)};
    const Day last{ymd.year() / ymd.month() / date::last};
    const auto end = std::min(days.size(), i + static_cast<std::size_t>((last - days.day(i)).count()) + 1);
    months.push_back({static_cast<int>(ymd.year()), static_cast<unsigned>(ymd.month()), i, end});
  }
  return months;
}

using DayPair = std::pair<std::optional<Temperature>, std::optional<Temperature>>;

std::vector<DayPair> values_of(const QualityDesk& desk, const Month& month) {
  std::vector<DayPair> values;
  values.reserve(month.end - month.begin);
  for (std::size_t i = month.begin; i < month.end; ++i) {
    const auto at = static_cast<std::ptrdiff_t>(i);
    values.emplace_back(desk.standing(Extreme::minimum, at), desk.standing(Extreme::maximum, at));
  }
  return values;
}

std::size_t complete_days(const std::vector<DayPair>& values) {
  return static_cast<std::size_t>(
      std::count_if(values.begin(), values.end(), [](const DayPair& day) { return day.first && day.second; }));
}

/// Months of different lengths are compared as far as the shorter goes.
bool repeats(const std::vector<DayPair>& a, const std::vector<DayPair>& b) {
  return std::equal(a.begin(), a.begin() + std::min(std::ssize(a), std::ssize(b)), b.begin());
}

void doubt_month(QualityDesk& desk, const Month& month, Check check, const std::string& reason) {
  for (std::size_t i = month.begin; i < month.end; ++i) {
    for (const Extreme extreme : {Extreme::minimum, Extreme::maximum}) {
      if (desk.standing(extreme, static_cast<std::ptrdiff_t>(i))) desk.doubt(extreme, i, check, reason);
    }
  }
}

}  // namespace

void check_naught(QualityDesk& desk) {
  const auto is_naught = [](Temperature value) {
    return value == Temperature::hundredths_celsius(0) || value == Temperature::hundredths_fahrenheit(0) ||
           value == Temperature::hundredths_celsius(-1780) || value == Temperature::hundredths_celsius(-1778);
  };
  for (std::size_t i = 0; i < desk.days().size(); ++i) {
    const auto tmin = desk.standing(Extreme::minimum, static_cast<std::ptrdiff_t>(i));
    const auto tmax = desk.standing(Extreme::maximum, static_cast<std::ptrdiff_t>(i));
    if (!tmin || tmin != tmax || !is_naught(*tmin)) continue;
    const std::string reason = fmt::format("both extremes are {}: zero written for no value",
                                           *tmin == Temperature::hundredths_celsius(0) ? "0 C" : "0 F");
    desk.doubt(Extreme::minimum, i, Check::naught, reason);
    desk.doubt(Extreme::maximum, i, Check::naught, reason);
  }
}

/// Both of two equal months are doubted: nothing tells which is the copy.
void check_duplicates(QualityDesk& desk) {
  struct Known {
    Month month;
    std::vector<DayPair> values;
  };
  std::vector<Known> known;
  for (const Month& month : months_of(desk.days())) {
    auto values = values_of(desk, month);
    if (complete_days(values) >= k_fewest_shared_days) known.push_back({month, std::move(values)});
  }
  std::vector<const Month*> twins(known.size(), nullptr);
  std::map<std::pair<int, int>, int> shared;  // year and the year of its twin: months they share
  for (std::size_t a = 0; a < known.size(); ++a) {
    for (std::size_t b = 0; b < known.size(); ++b) {
      const bool comparable =
          known[a].month.month == known[b].month.month || known[a].month.year == known[b].month.year;
      if (a == b || !comparable || !repeats(known[a].values, known[b].values)) continue;
      twins[a] = &known[b].month;
      ++shared[{known[a].month.year, known[b].month.year}];
      break;
    }
  }
  for (std::size_t a = 0; a < known.size(); ++a) {
    if (twins[a] == nullptr) continue;
    const bool whole_year = shared[{known[a].month.year, twins[a]->year}] == 12;
    const std::string reason =
        whole_year ? fmt::format("the year repeats {} value by value", twins[a]->year)
                   : fmt::format("the month repeats {}-{:02} value by value", twins[a]->year, twins[a]->month);
    doubt_month(desk, known[a].month, Check::duplicate, reason);
  }
}

void check_equal_extremes(QualityDesk& desk) {
  for (const Month& month : months_of(desk.days())) {
    const auto values = values_of(desk, month);
    const bool all_equal = std::all_of(values.begin(), values.end(), [](const DayPair& day) {
      return !day.first || !day.second || day.first == day.second;
    });
    if (!all_equal || complete_days(values) < k_fewest_days) continue;
    doubt_month(desk, month, Check::equal_extremes,
                fmt::format("minimum and maximum are the same all through {}-{:02}", month.year, month.month));
  }
}

/// Days without a value do not break a streak.
void check_streaks(QualityDesk& desk) {
  for (const Extreme extreme : {Extreme::minimum, Extreme::maximum}) {
    std::vector<std::size_t> streak;
    const auto close = [&] {
      if (streak.size() >= k_streak) {
        const Day first = desk.days().day(streak.front());
        const Day last = desk.days().day(streak.back());
        const std::string reason =
            fmt::format("the same {} {} times in a row, {} to {}", extreme == Extreme::minimum ? "minimum" : "maximum",
                        streak.size(), iso(first), iso(last));
        for (const std::size_t i : streak) desk.doubt(extreme, i, Check::streak, reason);
      }
      streak.clear();
    };
    for (std::size_t i = 0; i < desk.days().size(); ++i) {
      const auto value = desk.standing(extreme, static_cast<std::ptrdiff_t>(i));
      if (!value) continue;
      if (!streak.empty() && desk.values(extreme)[streak.back()].value != *value) close();
      streak.push_back(i);
    }
    close();
  }
}

}  // namespace budclock::weather
