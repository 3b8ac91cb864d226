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

/// `text` without spaces and tabs around it.
constexpr std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

/// Reads what most cells hold: one to three digits, the mark, and one digit. Nothing when the text is another.
inline std::optional<std::int32_t> read_common_number(std::string_view text, char decimal_mark) {
  const bool negative = text.starts_with('-');
  if (negative) text.remove_prefix(1);
  if (text.size() < 3 || text.size() > 5 || text[text.size() - 2] != decimal_mark) return std::nullopt;
  const auto digit = [text](std::size_t from_end) { return static_cast<unsigned>(text[text.size() - from_end]) - '0'; };
  const bool tens = text.size() > 3;
  const bool hundreds = text.size() > 4;
  if (digit(1) > 9 || digit(3) > 9 || (tens && digit(4) > 9) || (hundreds && digit(5) > 9)) return std::nullopt;
  const auto value = static_cast<std::int32_t>(digit(1) * 10 + digit(3) * 100 + (tens ? digit(4) * 1'000 : 0) +
                                               (hundreds ? digit(5) * 10'000 : 0));
  return negative ? -value : value;
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

}  // namespace budclock::weather
