// How far sums from daily extremes lie from the integral of the readings they were taken from.
#include <budclock/degree_day/formula.hpp>

#include "csv_table.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <fstream>

using namespace budclock::degree_day;

namespace {

constexpr double k_base = 10;  // °C, that is 50 °F
constexpr std::size_t k_readings = 144;

struct Sums {
  double readings = 0;  ///< mean of max(0, reading - base) over the 144 of each day
  double hours = 0;     ///< the same over the 24 full hours only
  double sine = 0, triangle = 0, average = 0;
};

double above(double temperature) { return std::max(0.0, temperature - k_base); }

void add_day(const std::vector<double>& temperatures, Sums& sums) {
  const auto [low, high] = std::minmax_element(temperatures.begin(), temperatures.end());
  for (std::size_t i = 0; i < temperatures.size(); ++i) {
    sums.readings += above(temperatures[i]) / k_readings;
    if (i % 6 == 0) sums.hours += above(temperatures[i]) / 24;
  }
  const auto of = [&](Method method) { return degree_days(method, Cutoff::none, *low, *high, *low, k_base, 0); };
  sums.sine += of(Method::single_sine);
  sums.triangle += of(Method::single_triangle);
  sums.average += of(Method::average);
}

double percent(double sum, const Sums& sums) { return 100 * (sum / sums.readings - 1); }

}  // namespace

// Published: Rodriguez Caicedo et al. 2012, Bragantia, found sine and triangle against hourly sums to agree with R2 of
// 0.57 to 0.83; USDA-ARS AAT-W-23 (1983) found averaging too low near the lower threshold; Acta Biotheor. 2014,
// 62:69-90, Table 1, found averaging accurate or slightly low, and the sine low, with the threshold inside the day's
// range; Unigarro et al. 2017, Agron. Colomb. 35(3), found averaging high in the warm tropics.
TEST_CASE("sums from daily extremes differ from ten-minute integration as published and no more") {
  std::ifstream file{BUDCLOCK_TEST_DATA "/weather/whately_ma_2015_10min.csv"};
  std::string line;
  REQUIRE(std::getline(file, line));
  Sums year;
  Sums spring;  // to 31 May, when much of the season's dating is done
  while (std::getline(file, line)) {
    const auto row = csv_table::split(line);
    std::vector<double> temperatures;
    for (std::size_t i = 1; i < row.size(); ++i) temperatures.push_back(std::stod(row[i]) / 10);
    REQUIRE(temperatures.size() == k_readings);
    add_day(temperatures, year);
    if (row[0] < "2015-06") add_day(temperatures, spring);
  }
  for (const auto& [name, sums] : {std::pair{"year", year}, std::pair{"to 31 May", spring}}) {
    fmt::print(
        "Whately MA 2015, base 10 C, {}: {:.1f} C-days from 144 readings a day; hours {:+.1f} %, "
        "sine {:+.1f} %, triangle {:+.1f} %, average {:+.1f} %\n",
        name, sums.readings, percent(sums.hours, sums), percent(sums.sine, sums), percent(sums.triangle, sums),
        percent(sums.average, sums));
  }
  CHECK(std::abs(percent(year.hours, year)) < 0.5);
  CHECK(std::abs(percent(year.sine, year)) < 5);
  CHECK(std::abs(percent(year.triangle, year)) < 5);
  CHECK(std::abs(percent(year.average, year)) < 2);
  CHECK(std::abs(percent(spring.sine, spring)) < 5);
  CHECK(std::abs(percent(spring.triangle, spring)) < 2);
  CHECK(percent(spring.average, spring) < 0);  // too low near the lower threshold
  CHECK(percent(spring.average, spring) > -10);
}
