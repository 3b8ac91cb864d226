#include <budclock/weather/date_text.hpp>
#include <budclock/weather/header.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <charconv>
#include <fmt/format.h>

namespace budclock::weather {
namespace {

bool is_date(const Field& field) { return split_date(trimmed(field.text)).has_value(); }

bool is_number(const Field& field) { return read_cell(trimmed(field.text), '.').kind == CellKind::number; }

/// The first row, each field with its place: "1 \"19850101\", 2 \"11\"".
std::string shown(std::span<const Field> row) {
  constexpr std::size_t k_most = 12;
  std::string text;
  for (std::size_t i = 0; i < std::min(row.size(), k_most); ++i) {
    text += fmt::format("{}{} \"{}\"", i > 0 ? ", " : "", i + 1, trimmed(row[i].text));
  }
  return row.size() > k_most ? text + ", ..." : text;
}

/// An option that may fit the row: its date, and the first two numbers after it.
std::string option_to_try(std::span<const Field> row) {
  const auto date = static_cast<std::size_t>(std::find_if(row.begin(), row.end(), is_date) - row.begin());
  std::vector<std::size_t> numbers;
  for (std::size_t i = date + 1; i < row.size() && numbers.size() < 2; ++i) {
    if (is_number(row[i])) numbers.push_back(i + 1);
  }
  if (numbers.empty()) return fmt::format("--columns date={},tmax=?,tmin=?", date + 1);
  if (numbers.size() == 1) return fmt::format("--columns date={},temperature={}", date + 1, numbers[0]);
  return fmt::format("--columns date={},tmax={},tmin={}", date + 1, numbers[0], numbers[1]);
}

/// Sets `column` to the place that was chosen. False when it is no place of the row.
bool place(const std::string& chosen, std::size_t count, std::size_t& column) {
  if (chosen.empty()) return true;
  std::size_t number = 0;
  const char* const end = chosen.data() + chosen.size();
  const auto [stopped, error] = std::from_chars(chosen.data(), end, number);
  if (error != std::errc{} || stopped != end || number < 1 || number > count) return false;
  column = number - 1;
  return true;
}

}  // namespace

bool is_ghcn_by_year_row(std::span<const Field> row) {
  constexpr std::size_t k_station_length = 11;  // GHCN-Daily readme.txt, section IV
  constexpr std::size_t k_fewest = 6;
  if (row.size() < k_fewest || row[0].text.size() != k_station_length || row[1].text.size() != 8) return false;
  const auto capital = [](char c) { return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9'); };
  const auto element = row[2].text;
  return is_date(row[1]) && element.size() == 4 && std::all_of(element.begin(), element.end(), capital) &&
         is_number(row[3]);
}

std::optional<ColumnMap> map_columns_by_place(std::span<const Field> first_row, std::size_t line,
                                              std::optional<TemperatureUnit> stated_unit, const ColumnChoice& chosen,
                                              ProblemList& problems) {
  ColumnMap map;
  map.count = first_row.size();
  for (std::size_t i = 0; i < map.count; ++i) map.names.push_back(fmt::format("{}", i + 1));
  if (chosen.empty() && is_ghcn_by_year_row(first_row)) {
    map.station = 0;
    map.date = 1;
    map.element = 2;
    map.value = 3;
    return map;
  }
  const bool complete =
      !chosen.date.empty() && (!chosen.temperature.empty() || (!chosen.tmax.empty() && !chosen.tmin.empty()));
  const bool in_row = place(chosen.date, map.count, map.date) && place(chosen.station, map.count, map.station) &&
                      place(chosen.tmax, map.count, map.tmax) && place(chosen.tmin, map.count, map.tmin) &&
                      place(chosen.temperature, map.count, map.temperature);
  if (!complete || !in_row) {
    problems.add(
        Severity::error, line, 0,
        fmt::format("the first row is data, not a header line, and {}: {}",
                    complete ? "--columns does not give places in it" : "nothing names its columns", shown(first_row)),
        fmt::format("say which column is which, as in {}", option_to_try(first_row)));
    return std::nullopt;
  }
  if (map.temperature != ColumnMap::k_none) map.tmax = map.tmin = ColumnMap::k_none;
  map.unit = stated_unit;
  map.unit_evidence = UnitEvidence::option;
  return map;
}

}  // namespace budclock::weather
