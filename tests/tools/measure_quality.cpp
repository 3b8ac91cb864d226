// Counts what check_quality doubts in real records: by check, and as a share of all values.
// usage: measure_quality [--print] [--by-year] FILE...   (--by-year: each year of a record as a record of its own)
#include <budclock/weather/quality.hpp>
#include <budclock/weather/reader.hpp>

#include <fmt/format.h>
#include <fstream>
#include <map>
#include <string_view>

using namespace budclock;

namespace {

struct Totals {
  std::size_t values = 0;
  std::size_t doubted = 0;
  std::map<weather::Check, std::size_t> by_check;
};

void measure(const weather::DailySeries& days, const char* path, bool print, Totals& totals) {
  for (std::size_t i = 0; i < days.size(); ++i) {
    totals.values += (weather::has_value(days.tmin[i].origin) ? 1U : 0U) + (has_value(days.tmax[i].origin) ? 1U : 0U);
  }
  const auto suspicions = weather::check_quality(days, TemperatureUnit::celsius);
  totals.doubted += suspicions.size();
  for (const auto& suspicion : suspicions) ++totals.by_check[suspicion.check];
  if (!print) return;
  for (const Diagnostic& fault : weather::quality_faults(suspicions, path, TemperatureUnit::celsius)) {
    fmt::print("{}\n", to_text(fault));
  }
}

void measure_years(const weather::DailySeries& days, const char* path, bool print, Totals& totals) {
  weather::DailySeries year;
  for (std::size_t i = 0; i < days.size(); ++i) {
    if (!year.empty() && year_of(days.day(i)) != year_of(year.first)) {
      measure(year, path, print, totals);
      year = {};
    }
    const std::size_t at = include_day(year, days.day(i));
    year.tmin[at] = days.tmin[i];
    year.tmax[at] = days.tmax[i];
  }
  measure(year, path, print, totals);
}

}  // namespace

int main(int argc, char** argv) {
  bool print = false;
  bool by_year = false;
  Totals totals;
  for (int i = 1; i < argc; ++i) {
    const std::string_view argument = argv[i];
    if (argument == "--print" || argument == "--by-year") {
      (argument == "--print" ? print : by_year) = true;
      continue;
    }
    std::ifstream file{argv[i], std::ios::binary};
    weather::StreamSource source{file};
    weather::ReadOptions options;
    options.units = TemperatureUnit::celsius;
    read_weather(source, argv[i], options, [&](weather::StationRecord&& record) {
      by_year ? measure_years(record.days, argv[i], print, totals) : measure(record.days, argv[i], print, totals);
    });
  }
  fmt::print(
      "{} values, {} doubted, {:.3f} %\n", totals.values, totals.doubted,
      100.0 * static_cast<double>(totals.doubted) / static_cast<double>(std::max<std::size_t>(totals.values, 1)));
  for (const auto& [check, number] : totals.by_check) fmt::print("  {:<17}{:>6}\n", name(check), number);
}
