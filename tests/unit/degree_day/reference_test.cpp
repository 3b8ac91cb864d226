// Against 60-digit quadrature; see tests/data/degree_day/ORIGIN.md.
#include <budclock/degree_day/formula.hpp>

#include "csv_table.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <fmt/format.h>
#include <initializer_list>

using namespace budclock;
using namespace budclock::degree_day;

namespace {

Method method_of(const std::string& column) {
  if (column == "average_mean") return Method::average;
  if (column == "average_clip") return Method::average_clipped;
  std::string dashed = column;
  dashed[dashed.find('_')] = '-';
  return parse_method(dashed).value();
}

/// The row's formula with its numbers read as degrees of `unit`.
Formula formula_of(const csv_table::Row& row, TemperatureUnit unit) {
  Formula formula{method_of(row.text("method")), parse_cutoff(row.text("cutoff")).value(),
                  Temperature::in(unit, row.number("lower")), std::nullopt};
  if (!row.text("upper").empty()) formula.upper = Temperature::in(unit, row.number("upper"));
  return formula;
}

/// Keeps the row that comes closest to, or goes furthest past, what it may be off by.
struct Worst {
  double share = 0;
  std::string row;

  void see(const std::string& line, double value, double expected, double allowed) {
    const double this_share = std::abs(value - expected) / allowed;
    if (std::isnan(share) || this_share <= share) return;  // a NaN is worse than any number
    share = this_share;
    row = fmt::format("{} but got {:.15g}", line, value);
  }
};

/// What the reference rows allow in double arithmetic.
double tolerance(double value) { return 1e-11 + 1e-12 * std::abs(value); }

/// Half a unit of the grid, in degree-days of `unit`.
double half_unit(TemperatureUnit unit) { return DegreeDays::from_units(1).in(unit) / 2; }

}  // namespace

TEST_CASE("every reference row is met in double arithmetic") {
  const auto rows = csv_table::read("degree_day_vectors.csv");
  REQUIRE(rows.size() == 704);
  Worst worst;
  for (const auto& row : rows) {
    const double value =
        degree_days(method_of(row.text("method")), parse_cutoff(row.text("cutoff")).value(), row.number("tmin"),
                    row.number("tmax"), row.number("next_tmin"), row.number("lower"), row.number("upper"));
    const double expected = row.number("degree_days");
    worst.see(row.line, value, expected, tolerance(expected));
  }
  INFO("worst row: " << worst.row);
  CHECK(worst.share <= 1);
}

TEST_CASE("every reference row is met on the grid, read as Fahrenheit and as Celsius") {
  Worst worst;
  for (const auto& row : csv_table::read("degree_day_vectors.csv")) {
    for (const TemperatureUnit unit : {TemperatureUnit::fahrenheit, TemperatureUnit::celsius}) {
      const auto point = [&](const char* column) { return Temperature::in(unit, row.number(column)); };
      const DegreeDays day = of_day(formula_of(row, unit), point("tmin"), point("tmax"), point("next_tmin"));
      const double expected = row.number("degree_days");
      worst.see(row.line, day.in(unit), expected, half_unit(unit) + tolerance(expected));
    }
  }
  INFO("worst row: " << worst.row);
  CHECK(worst.share <= 1);
}

TEST_CASE("a fortnight's days and running sums are met by five methods") {
  const auto days = csv_table::read("season_tally.csv");
  REQUIRE(days.size() == 14);
  for (const std::string column : {"single_sine", "single_triangle", "double_sine", "average_mean", "average_clip"}) {
    const TemperatureUnit unit = TemperatureUnit::fahrenheit;
    const Formula formula{method_of(column), Cutoff::horizontal, Temperature::fahrenheit(50),
                          Temperature::fahrenheit(88)};
    DegreeDays sum;
    int counted = 0;
    int first_at_100 = 0;
    for (const auto& row : days) {
      const auto point = [&](const char* name) { return Temperature::fahrenheit(row.number(name)); };
      const DegreeDays day = of_day(formula, point("tmin"), point("tmax"), point("next_tmin"));
      sum += day;
      ++counted;
      INFO(column << ": " << row.line);
      CHECK(std::abs(day.in(unit)-row.number("dd_" + column)) <= half_unit(unit) + 1e-11);
      CHECK(std::abs(sum.in(unit)-row.number("cum_" + column)) <= counted * half_unit(unit) + 1e-11);
      if (first_at_100 == 0 && sum >= DegreeDays::fahrenheit_days(100)) first_at_100 = counted;
    }
    INFO(column);
    CHECK(first_at_100 == 9);
  }
}
