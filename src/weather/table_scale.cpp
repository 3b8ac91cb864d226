#include <budclock/weather/table_scale.hpp>

#include <fmt/format.h>
#include <string>

namespace budclock::weather {
namespace {

/// Whole numbers of which more than a tenth are too large for degrees of either unit: a stray wrong value is not
/// enough.
bool are_tenths(const NumberEvidence& seen) { return seen.decimals == 0 && seen.too_large * 10 > seen.numbers; }

/// True when numbers that may not be tenths can be of no other unit than °F: at least one in a hundred, and no fewer
/// than three, is beyond what has ever been measured in °C, and as good as none beyond that in °F.
bool only_fahrenheit_fits(const NumberEvidence& seen) {
  return seen.fahrenheit >= 3 && seen.fahrenheit * 100 >= seen.numbers && seen.too_large * 100 < seen.numbers;
}

std::string temperature_names(const ColumnMap& columns) {
  std::string text;
  const auto places = columns.temperatures();
  for (const std::size_t place : places) {
    if (!text.empty()) text += " and ";
    text += fmt::format("\"{}\"", columns.names[place]);
  }
  return (places.size() > 1 ? "columns " : "column ") + text;
}

void settle(ColumnMap& columns, TemperatureUnit unit, bool tenths, UnitEvidence evidence) {
  columns.unit = unit;
  columns.tenths = tenths;
  columns.unit_evidence = evidence;
}

/// What is stated or fixed, if anything.
bool settle_as_stated(ColumnMap& columns, const TableLayout& layout, const ReadOptions& options) {
  if (layout.unit) {
    settle(columns, *layout.unit, layout.tenths, UnitEvidence::layout);
    return true;
  }
  if (columns.unit && options.units && options.tenths) {
    settle(columns, *options.units, true, UnitEvidence::option);
    return true;
  }
  if (columns.unit) return true;
  if (options.units) settle(columns, *options.units, options.tenths, UnitEvidence::option);
  return options.units.has_value();
}

}  // namespace

bool choose_scale(ColumnMap& columns, const TableLayout& layout, const NumberEvidence& seen, const ReadOptions& options,
                  ProblemList& problems) {
  if (settle_as_stated(columns, layout, options)) {
    if (columns.tenths || seen.too_large * 2 <= seen.numbers) return true;
    problems.add(Severity::error, columns.header_line, 0,
                 fmt::format("most numbers of {} are too large for degrees {}", temperature_names(columns),
                             symbol(*columns.unit)),
                 fmt::format("if they are tenths of a degree, add --units tenths-{}", symbol(*columns.unit)));
    return false;
  }
  if (layout.tenths_when_large && are_tenths(seen)) {
    settle(columns, TemperatureUnit::celsius, true, UnitEvidence::layout);
    return true;
  }
  const bool in_degrees = layout.whole_numbers_are_degrees || seen.decimals > 0;
  if (in_degrees && only_fahrenheit_fits(seen)) {
    settle(columns, TemperatureUnit::fahrenheit, false, UnitEvidence::values);
    return true;
  }
  const std::string open = fmt::format("nothing tells the unit of {}", temperature_names(columns));
  if (are_tenths(seen)) {
    problems.add(Severity::error, columns.header_line, 0,
                 open + "; many numbers are too large for degrees, so they are tenths of a degree",
                 "add --units tenths-C, or --units tenths-F");
  } else {
    problems.add(Severity::error, columns.header_line, 0, open,
                 "add --units F or --units C (in a sites file: units F or C)");
  }
  return false;
}

}  // namespace budclock::weather
