// How far runs of days stray from normal, and how good dates are that rest on normals.
// usage: measure_normals FILE...    daily records with the unit in their header
// Prints the standard deviation of the mean temperature of runs by month and length, and then the scores of forecasts
// from the normals of each record's other years, beside those of the years themselves.
#include <budclock/forecast/normals.hpp>

#include "shipped_sums.hpp"

#include <array>
#include <cmath>
#include <fmt/format.h>
#include <map>
#include <string>
#include <vector>

using namespace budclock;
using namespace budclock::forecast;

namespace {

constexpr std::array k_leads{7, 14, 30, 60};
constexpr std::array k_runs{1, 3, 7, 14, 30, 60, 90};
constexpr int k_smooth = 7;  // days to either side that a normal is taken over

int slot(Day day) {
  return static_cast<int>(
      (in_year(month_day_of(day), weather::k_normals_year) - Day{date::year{2000} / 1 / 1}).count());
}

/// The mean year of a record without one of its years.
weather::DailySeries normals_without(const weather::DailySeries& record, int left_out) {
  std::array<double, 366> low{}, high{}, count{};
  for (std::size_t i = 0; i < record.size(); ++i) {
    if (!record.complete(i) || year_of(record.day(i)) == left_out) continue;
    for (int near = -k_smooth; near <= k_smooth; ++near) {
      const auto at = static_cast<std::size_t>((slot(record.day(i)) + near + 366) % 366);
      low[at] += record.tmin[i].value.celsius();
      high[at] += record.tmax[i].value.celsius();
      ++count[at];
    }
  }
  weather::DailySeries normals;
  normals.first = Day{date::year{weather::k_normals_year} / 1 / 1};
  for (std::size_t at = 0; at < 366; ++at) {
    normals.tmin.push_back({Temperature::celsius(low[at] / count[at]), weather::Origin::observed});
    normals.tmax.push_back({Temperature::celsius(high[at] / count[at]), weather::Origin::observed});
  }
  return normals;
}

struct Squares {
  double sum = 0;
  double count = 0;
};
using Deviations = std::map<std::pair<unsigned, int>, Squares>;  // month and length of the run

void add_runs(const weather::DailySeries& record, const weather::DailySeries& normals, int year, Deviations& all) {
  for (unsigned month = 1; month <= 12; ++month) {
    for (const unsigned day : {1U, 11U, 21U}) {
      const Day first = date::year{year} / date::month{month} / date::day{day};
      double sum = 0;
      int there = 0;
      for (int days = 1; days <= k_runs.back(); ++days) {
        const Day each = first + date::days{days - 1};
        const auto i = record.index_of(each);
        if (i && record.complete(*i)) {
          const auto at = static_cast<std::size_t>(slot(each));
          sum += ((record.tmin[*i].value - normals.tmin[at].value).celsius() +
                  (record.tmax[*i].value - normals.tmax[at].value).celsius()) /
                 2;
          ++there;
        }
        if (std::find(k_runs.begin(), k_runs.end(), days) == k_runs.end() || 10 * there < 9 * days) continue;
        Squares& squares = all[{month, days}];
        squares.sum += sum / there * (sum / there);
        ++squares.count;
      }
    }
  }
}

std::vector<double> in_days(const Spread& spread, SeasonDays days) {
  std::vector<double> dates;
  for (const auto& date : spread.dates) {
    dates.push_back(static_cast<double>((date.value_or(days.last + date::days{1}) - days.first).count()));
  }
  return dates;
}

}  // namespace

int main(int argc, char** argv) {
  Deviations deviations;
  std::map<int, std::vector<ReplayedForecast>> by_normals, by_years;
  for (int file = 1; file < argc; ++file) {
    const weather::DailySeries record = tools::read(argv[file]);
    std::map<int, weather::DailySeries> normals;
    for (int year = year_of(record.first); year <= year_of(record.last()); ++year) {
      normals[year] = normals_without(record, year);
      add_runs(record, normals[year], year, deviations);
    }
    std::map<degree_day::Formula, DegreeDayRecord> records;
    for (const SumEvent& event : tools::events()) {
      const DegreeDayRecord& sums = records.try_emplace(event.formula, event.formula, record).first->second;
      for (const int lead : k_leads) {
        for (ReplayedForecast& forecast : replay(event, record, lead)) {
          by_years[lead].push_back(forecast);
          const Season season = run_season_on_normals(sums, forecast.days, forecast.issued, normals[forecast.year]);
          const Spread spread = first_reached(season, event.sum);
          const Summary summary = summarize(spread);
          forecast.members = in_days(spread, forecast.days);
          forecast.early = in_days({{summary.early}, {}}, forecast.days)[0];
          forecast.likely = in_days({{summary.likely}, {}}, forecast.days)[0];
          forecast.late = in_days({{summary.late}, {}}, forecast.days)[0];
          by_normals[lead].push_back(std::move(forecast));
        }
      }
    }
  }
  fmt::print("| month | {} |\n|---:|---:|---:|---:|---:|---:|---:|---:|\n", fmt::join(k_runs, " | "));
  for (unsigned month = 1; month <= 12; ++month) {
    fmt::print("| {} |", month);
    for (const int days : k_runs) {
      const Squares& squares = deviations[{month, days}];
      fmt::print(" {:.2f} |", std::sqrt(squares.sum / squares.count));
    }
    fmt::print("\n");
  }
  fmt::print(
      "\n| lead | by | n | bias | off | 80 % | held | wide | CRPS |\n|---:|---|---:|---:|---:|---:|---:|---:|---:|\n");
  for (const int lead : k_leads) {
    for (const auto& [name, all] : {std::pair{"normals", &by_normals}, std::pair{"years", &by_years}}) {
      const Scores s = score((*all)[lead]);
      fmt::print("| {} | {} | {} | {:+.1f} | {:.2f} | {:.1f} | {:.1f} | {:.1f} | {:.2f} |\n", lead, name, s.forecasts,
                 s.bias, s.error, 100 * s.covered, 100 * s.held, s.width, s.crps);
    }
  }
}
