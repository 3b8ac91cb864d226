#include <budclock/core/date.hpp>

#include <array>
#include <fmt/format.h>

namespace budclock {
namespace {

constexpr std::array<const char*, 12> k_month_names{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                    "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

/// Reads all of `text` as digits; nothing when it holds anything else.
std::optional<unsigned> digits(std::string_view text) {
  unsigned value = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + static_cast<unsigned>(c - '0');
  }
  return value;
}

}  // namespace

std::optional<Day> make_day(int year, unsigned month, unsigned day) {
  if (year < k_first_year || year > k_last_year) return std::nullopt;
  const date::year_month_day ymd{date::year{year}, date::month{month}, date::day{day}};
  if (!ymd.ok()) return std::nullopt;
  return Day{ymd};
}

std::optional<Day> parse_iso_day(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto year = digits(text.substr(0, 4));
  const auto month = digits(text.substr(5, 2));
  const auto day = digits(text.substr(8, 2));
  if (!year || !month || !day) return std::nullopt;
  return make_day(static_cast<int>(*year), *month, *day);
}

std::optional<MonthDay> parse_month_day(std::string_view text) {
  if (text.size() != 5 || text[2] != '-') return std::nullopt;
  const auto month = digits(text.substr(0, 2));
  const auto day = digits(text.substr(3, 2));
  if (!month || !day) return std::nullopt;
  const MonthDay month_day{date::month{*month}, date::day{*day}};
  if (!month_day.ok()) return std::nullopt;
  return month_day;
}

std::string iso(Day day) {
  const date::year_month_day ymd{day};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(ymd.year()), static_cast<unsigned>(ymd.month()),
                     static_cast<unsigned>(ymd.day()));
}

std::string iso(MonthDay month_day) {
  return fmt::format("{:02}-{:02}", static_cast<unsigned>(month_day.month()), static_cast<unsigned>(month_day.day()));
}

std::string short_text(Day day) { return short_text(month_day_of(day)); }

std::string short_text(MonthDay month_day) {
  return fmt::format("{} {}", k_month_names.at(static_cast<unsigned>(month_day.month()) - 1),
                     static_cast<unsigned>(month_day.day()));
}

int year_of(Day day) { return static_cast<int>(date::year_month_day{day}.year()); }

MonthDay month_day_of(Day day) {
  const date::year_month_day ymd{day};
  return ymd.month() / ymd.day();
}

Day in_year(MonthDay month_day, int year) {
  const date::year_month_day ymd = date::year{year} / month_day.month() / month_day.day();
  // An impossible day here is 29 February: sys_days counts it on into March.
  return Day{ymd};
}

}  // namespace budclock
