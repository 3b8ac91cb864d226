#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <fmt/format.h>

namespace budclock::weather {
namespace {

constexpr std::size_t k_longest_mark = 7;

/// Marks that people and programs use for "no value", in lower case. "." is SAS's, "#N/A" the spreadsheets'.
constexpr std::array<std::string_view, 15> k_missing_words{"na",  "n/a",  "#n/a", "m",   "-",  "--",      "---", ".",
                                                           "nan", "null", "none", "nil", "nd", "missing", "*"};

bool is_missing_word(std::string_view text) {
  if (text.size() > k_longest_mark) return false;
  std::array<char, k_longest_mark> lower{};
  std::transform(text.begin(), text.end(), lower.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  const std::string_view word{lower.data(), text.size()};
  return std::find(k_missing_words.begin(), k_missing_words.end(), word) != k_missing_words.end();
}

}  // namespace

Cell read_cell(std::string_view text, char decimal_mark) {
  const char* at = text.data();
  const char* const end = at + text.size();
  if (at == end) return {CellKind::missing, 0};
  const bool negative = *at == '-';
  if (negative || *at == '+') ++at;
  const char* const digits = at;
  std::int32_t value = 0;
  const auto digit = [&] { return static_cast<unsigned char>(*at - '0'); };
  for (; at != end && digit() <= 9; ++at) value = std::min(value * 10 + digit(), k_most_hundredths / 100);
  std::ptrdiff_t count = at - digits;
  value *= 100;
  if (at != end && *at == decimal_mark) {
    const char* const fraction = ++at;
    std::int32_t weight = 10;
    for (; at != end && digit() <= 9; ++at, weight /= 10) {
      if (weight > 0)
        value += digit() * weight;
      else if (at - fraction == 2)
        value += digit() >= 5 ? 1 : 0;
    }
    count += at - fraction;
  }
  if (count == 0 || at != end) return {is_missing_word(text) ? CellKind::missing : CellKind::malformed, 0};
  return {CellKind::number, negative ? -value : value};
}

bool is_missing_mark(std::int32_t hundredths) {
  const std::int32_t whole = std::abs(hundredths) / 100;
  const std::int32_t fraction = std::abs(hundredths) % 100;
  if (fraction != 0 && fraction != 90 && fraction != 99) return false;
  if (whole == 99) return hundredths < 0;
  return whole == 999 || whole == 9999 || whole == 99999;
}

std::optional<int> whole_number(std::string_view text) {
  constexpr std::size_t k_most_digits = 6;
  const bool negative = text.starts_with('-');
  if (negative) text.remove_prefix(1);
  if (text.empty() || text.size() > k_most_digits) return std::nullopt;
  int number = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    number = number * 10 + (c - '0');
  }
  return negative ? -number : number;
}

DayValue checked_value(Temperature value, TemperatureUnit unit, std::size_t line, std::size_t column,
                       ProblemList& problems) {
  if (value >= k_coldest && value <= k_warmest) return {value, Origin::observed};
  problems.add(Severity::fault, line, column,
               fmt::format("{} is outside what has ever been measured ({} to {}); it is set aside",
                           with_unit(value, unit), with_unit(k_coldest, unit), with_unit(k_warmest, unit)),
               "correct it, or take it out");
  return {{}, Origin::set_aside};
}

std::string with_unit(Temperature value, TemperatureUnit unit) {
  std::string text = to_text(value, unit, 2);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text + " " + symbol(unit);
}

}  // namespace budclock::weather
