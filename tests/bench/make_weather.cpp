// Makes daily weather of any length, the same on every run, for benchmarks.
// usage: make_weather STATIONS FIRST-YEAR YEARS            to standard output, grouped by station
//        make_weather STATIONS FIRST-YEAR YEARS FOLDER     a file for each station, FOLDER/STN0000.csv
//
// Invented: a yearly wave about a station's own mean, with noise that carries over from day to day; °F with one
// decimal.
#include <budclock/core/date.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fmt/format.h>
#include <fstream>
#include <iterator>
#include <numbers>
#include <random>
#include <string>

using budclock::Day;

namespace {

constexpr const char* k_header = "station,date,tmax_f,tmin_f\n";

std::string rows_of(int station, int first_year, int years) {
  std::mt19937_64 random{static_cast<std::mt19937_64::result_type>(station)};
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> uniform;
  const double mean = 42 + 26 * uniform(random);
  const double swing = 14 + 14 * uniform(random);
  double weather = 0;
  std::string text;
  const Day end{date::year{first_year + years} / 1 / 1};
  for (Day day{date::year{first_year} / 1 / 1}; day < end; day += date::days{1}) {
    const auto day_of_year = static_cast<double>((day - Day{date::year{budclock::year_of(day)} / 1 / 1}).count() + 1);
    weather = 0.7 * weather + 4.5 * normal(random);
    const double middle = mean + swing * std::sin(2 * std::numbers::pi * (day_of_year - 105) / 365.25) + weather;
    const double half_range = 0.5 + std::abs(10 + 3.5 * normal(random));
    fmt::format_to(std::back_inserter(text), "STN{:04},{},{:.1f},{:.1f}\n", station, budclock::iso(day),
                   std::clamp(middle + half_range, -70.0, 130.0), std::clamp(middle - half_range, -75.0, 129.0));
  }
  return text;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 4) return 2;
  const int stations = std::atoi(argv[1]);
  const int first_year = std::atoi(argv[2]);
  const int years = std::atoi(argv[3]);
  if (argc < 5) std::fputs(k_header, stdout);
  for (int station = 0; station < stations; ++station) {
    const std::string rows = rows_of(station, first_year, years);
    if (argc < 5) {
      std::fwrite(rows.data(), 1, rows.size(), stdout);
    } else {
      std::ofstream{fmt::format("{}/STN{:04}.csv", argv[4], station)} << k_header << rows;
    }
  }
}
