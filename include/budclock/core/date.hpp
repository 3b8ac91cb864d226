// Calendar days. Weather days are local days: no time zone enters anywhere past the weather readers.
#pragma once

#include <date/date.h>
#include <optional>
#include <string>
#include <string_view>

namespace budclock {

/// A calendar day.
using Day = date::sys_days;

/// A day of any year, such as the start date of a degree-day sum.
using MonthDay = date::month_day;

/// Years that a record may name. Earlier than any thermometer record, later than anyone will forecast; the bound
/// keeps a mistyped year from claiming memory.
inline constexpr int k_first_year = 1700;
inline constexpr int k_last_year = 2200;

/// The day, or nothing when it does not exist (30 February) or its year is outside k_first_year..k_last_year.
std::optional<Day> make_day(int year, unsigned month, unsigned day);

/// Reads exactly "YYYY-MM-DD". Anything else, and a day that does not exist, gives nothing.
std::optional<Day> parse_iso_day(std::string_view text);

/// Reads exactly "MM-DD". 02-29 is accepted.
std::optional<MonthDay> parse_month_day(std::string_view text);

/// "2014-04-16".
std::string iso(Day day);

/// "04-16".
std::string iso(MonthDay month_day);

/// "Apr 16".
std::string short_text(Day day);
std::string short_text(MonthDay month_day);

int year_of(Day day);
MonthDay month_day_of(Day day);

/// The day of that year with this month and day; 29 February falls on 1 March in common years.
Day in_year(MonthDay month_day, int year);

}  // namespace budclock
