// Temperatures as files write them.
#pragma once

#include <budclock/core/temperature.hpp>
#include <budclock/weather/daily_series.hpp>
#include <budclock/weather/problem_list.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace budclock::weather {

/// What a cell holds.
enum class CellKind : std::uint8_t {
  number,
  missing,    ///< empty, or one of the usual marks for "no value"
  malformed,  ///< anything else
};

struct Cell {
  CellKind kind = CellKind::missing;
  std::int32_t hundredths = 0;  ///< degrees times 100, rounded half away from zero; ±k_most_hundredths at most
};

/// Larger numbers are cut to this; none is a temperature.
inline constexpr std::int32_t k_most_hundredths = 100'000'000;

/// Reads a plain decimal number: an optional sign, digits, and `decimal_mark` with digits after it. No exponent, no
/// unit, no "nan" or "inf". Spaces around it must have been taken away.
Cell read_cell(std::string_view text, char decimal_mark);

/// As `read_cell`, quick for what nearly every cell holds: one to three digits, and one or two after the mark.
inline Cell read_common_cell(std::string_view text, char decimal_mark) {
  const char* at = text.data();
  const char* const end = at + text.size();
  const bool negative = at != end && *at == '-';
  if (negative) ++at;
  std::int32_t value = 0;
  const auto take_digit = [end, &value](const char*& from) {
    if (from == end || static_cast<unsigned char>(*from - '0') > 9) return false;
    value = value * 10 + (*from++ - '0');
    return true;
  };
  if (!take_digit(at)) return read_cell(text, decimal_mark);
  if (take_digit(at)) take_digit(at);
  if (at == end) return {CellKind::number, (negative ? -value : value) * 100};
  if (*at++ != decimal_mark || !take_digit(at)) return read_cell(text, decimal_mark);
  if (!take_digit(at)) value *= 10;
  if (at != end) return read_cell(text, decimal_mark);
  return {CellKind::number, negative ? -value : value};
}

/// True for a number that stands for "no value": -9999, 9999, -999, 999, -99 and the like, also ending in .9 or .99.
/// No such number is a temperature that a thermometer in North America could show: 99 and 99.9, which could be, are
/// not among them.
bool is_missing_mark(std::int32_t hundredths);

/// The coldest and the warmest air temperatures ever measured, -89.4 and 57.7 °C: the bounds of the first check in
/// Durre, Menne, Gleason, Houston & Vose 2010, J. Appl. Meteorol. Climatol. 49:1615-1633.
inline constexpr Temperature k_coldest = Temperature::hundredths_celsius(-8940);
inline constexpr Temperature k_warmest = Temperature::hundredths_celsius(5770);

constexpr Temperature temperature_of(std::int32_t hundredths, TemperatureUnit unit) {
  return unit == TemperatureUnit::celsius ? Temperature::hundredths_celsius(hundredths)
                                          : Temperature::hundredths_fahrenheit(hundredths);
}

/// The whole number that all of `text` is: a minus or none, and one to six digits.
std::optional<int> whole_number(std::string_view text);

/// An observed value, or one set aside with a fault at line and column when no air has ever been so cold or so warm.
DayValue checked_value(Temperature value, TemperatureUnit unit, std::size_t line, std::size_t column,
                       ProblemList& problems);

/// "61.5 F", with as many decimals as needed (two at most).
std::string with_unit(Temperature value, TemperatureUnit unit);

/// `text` without spaces and tabs around it.
constexpr std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

}  // namespace budclock::weather
