// Holds forecasts against observed bud break: one degree-day sum a species is fitted on odd years, and even years are
// forecast 30, 14 and 7 days before the odd years' mean date, where bud break was still to come.
// usage: against_nature WEATHER.csv DATES.csv [others]
//   DATES.csv  year,species,last_visit_before,first_visit_after
//   others     all species together for other bases and starts, and which of them fits the odd years best
#include <budclock/forecast/hindcast.hpp>
#include <budclock/forecast/learning.hpp>
#include <budclock/weather/reader.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <fstream>
#include <functional>
#include <map>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

using namespace budclock;
using namespace budclock::forecast;

namespace {

struct Seen {
  int year = 0;
  SeenBetween between;
};

/// Sums over forecasts, printed as means.
struct Means {
  double n = 0, bias = 0, off = 0, off_calendar = 0, inside_weather = 0, inside_both = 0, width_weather = 0,
         width_both = 0, crps = 0, crps_calendar = 0;

  Means& operator+=(const Means& other) {
    n += other.n;
    bias += other.bias;
    off += other.off;
    off_calendar += other.off_calendar;
    inside_weather += other.inside_weather;
    inside_both += other.inside_both;
    width_weather += other.width_weather;
    width_both += other.width_both;
    crps += other.crps;
    crps_calendar += other.crps_calendar;
    return *this;
  }
};

std::map<std::string, std::vector<Seen>> read_dates(const char* path) {
  std::ifstream in{path};
  std::string line;
  std::getline(in, line);
  std::map<std::string, std::vector<Seen>> species;
  while (std::getline(in, line)) {
    std::istringstream cells{line};
    std::string year, name, last, first;
    std::getline(cells, year, ',');
    std::getline(cells, name, ',');
    std::getline(cells, last, ',');
    std::getline(cells, first, ',');
    species[name].push_back({std::stoi(year), {parse_iso_day(last).value(), parse_iso_day(first).value()}});
  }
  return species;
}

double in_days(Day day, SeasonDays days) { return static_cast<double>((day - days.first).count()); }

std::vector<double> numbers(const Spread& spread, SeasonDays days) {
  std::vector<double> all;
  for (const auto& date : spread.dates) all.push_back(in_days(date.value_or(days.last + date::days{1}), days));
  return all;
}

/// Truth is somewhere after the last visit in vain, up to and with the first find: the places of all those days.
PitRange pit_between(const std::vector<double>& members, double after, double until) {
  return {pit_range(members, after + 1).low, pit_range(members, until).high};
}

/// Whoever has looked in vain until the day of issue knows that the event is still to come: what lies before goes.
std::vector<double> still_to_come(std::vector<double> dates, double issued) {
  std::erase_if(dates, [issued](double date) { return date <= issued; });
  return dates;
}

double mean_of(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value;
  return sum / static_cast<double>(values.size());
}

/// What `summarize` gives, of numbers.
double quantile(std::vector<double> values, double share) {
  std::sort(values.begin(), values.end());
  const double rank = std::ceil(share * static_cast<double>(values.size()));
  return values[static_cast<std::size_t>(std::max(rank, 1.0)) - 1];
}

struct Nature {
  const weather::DailySeries& weather;
  CompleteDays complete;
  DegreeDayRecord record;
  MonthDay start;

  SeasonDays days(int year) const { return season_on(start, in_year(start, year)); }
  Season whole(int year) const { return run_season(record, days(year), weather.last(), {}); }
  Season as_of(int year, Day issued) const {
    return run_season(record, days(year), issued, member_shifts(complete, issued, days(year).last, OtherYears::all));
  }
};

/// The mean and the standard deviation of the sums of the odd years; widths between visits are taken off the variance.
struct Fit {
  double sum = 0, deviation = 0, mean_date = 0;
  std::vector<double> dates;
};

Fit fit(const Nature& nature, const std::vector<Seen>& seen) {
  Fit fit;
  std::vector<SeenSum> sums;
  for (const Seen& each : seen) {
    if (each.year % 2 == 0) continue;
    const Season season = nature.whole(each.year);
    const double before = sum_on(season, each.between.last_not_found).fahrenheit_days();
    const double after = sum_on(season, each.between.first_found).fahrenheit_days();
    sums.push_back({(before + after) / 2, after - before});
    const SeasonDays days = nature.days(each.year);
    fit.dates.push_back((in_days(each.between.last_not_found, days) + 1 + in_days(each.between.first_found, days)) / 2);
  }
  const auto n = static_cast<double>(sums.size());
  for (const SeenSum& each : sums) fit.sum += each.middle / n;
  double variance = 0;
  for (const SeenSum& each : sums) {
    variance += (each.middle - fit.sum) * (each.middle - fit.sum) / (n - 1) - each.width * each.width / 12 / n;
  }
  for (const double date : fit.dates) fit.mean_date += date / n;
  // The fitted mean is itself uncertain by deviation/sqrt(n).
  fit.deviation = std::sqrt(std::max(variance, 0.0) * (1 + 1 / n));
  return fit;
}

void add(const Nature& nature, const Fit& fitted, const Seen& seen, int lead, Means& means) {
  const SeasonDays days = nature.days(seen.year);
  const Day issued = days.first + date::days{static_cast<int>(std::lround(fitted.mean_date)) - lead};
  if (seen.between.first_found <= issued) return;
  const Season season = nature.as_of(seen.year, issued);
  const double from = in_days(issued, days);
  const auto members = [&](double deviation) {
    return still_to_come(numbers(first_reached_about(season, fitted.sum, deviation), days), from);
  };
  auto weather_only = members(0);
  const auto both = members(fitted.deviation);
  const auto calendar = still_to_come(fitted.dates, from);
  if (both.empty() || calendar.empty()) return;
  if (weather_only.empty()) weather_only.push_back(from + 1);  // the sum is reached: the event is due
  const double after = in_days(seen.between.last_not_found, days);
  const double until = in_days(seen.between.first_found, days);
  const double middle = (after + 1 + until) / 2;
  const auto inside = [&](const std::vector<double>& dates) {
    return share_inside(pit_between(dates, std::max(after, from), until), 0.1, 0.9);
  };
  ++means.n;
  means.bias += quantile(both, 0.5) - middle;
  means.off += std::abs(quantile(both, 0.5) - middle);
  means.off_calendar += std::abs(mean_of(calendar) - middle);
  means.inside_weather += inside(weather_only);
  means.inside_both += inside(both);
  means.width_weather += quantile(weather_only, 0.9) - quantile(weather_only, 0.1);
  means.width_both += quantile(both, 0.9) - quantile(both, 0.1);
  means.crps += fair_crps(both, middle);
  means.crps_calendar += fair_crps(calendar, middle);
}

/// How far the fitted sums are off in the odd years themselves, all weather known: by this, base and start are chosen.
double off_in_odd_years(const Nature& nature, const std::map<std::string, std::vector<Seen>>& dates) {
  double off = 0;
  double n = 0;
  for (const auto& [species, seen] : dates) {
    const Fit fitted = fit(nature, seen);
    for (const Seen& each : seen) {
      if (each.year % 2 == 0) continue;
      const SeasonDays days = nature.days(each.year);
      const Spread spread = first_reached_about(nature.whole(each.year), fitted.sum, 0);
      if (!spread.known() || !spread.dates.front()) continue;
      const double middle =
          (in_days(each.between.last_not_found, days) + 1 + in_days(each.between.first_found, days)) / 2;
      off += std::abs(in_days(*spread.dates.front(), days) - middle);
      ++n;
    }
  }
  return off / n;
}

void print(const std::string& name, const Fit* fitted, int lead, const Means& m) {
  if (m.n == 0) return;
  const std::string sum = fitted ? fmt::format("{:.0f} ± {:.0f}", fitted->sum, fitted->deviation) : "";
  fmt::print(
      "| {} | {} | {} | {:.0f} | {:+.1f} | {:.1f} | {:.1f} | {:.0f} | {:.0f} | {:.0f} | {:.0f} | {:.1f} | {:.1f} |\n",
      name, sum, lead, m.n, m.bias / m.n, m.off / m.n, m.off_calendar / m.n, 100 * m.inside_weather / m.n,
      100 * m.inside_both / m.n, m.width_weather / m.n, m.width_both / m.n, m.crps / m.n, m.crps_calendar / m.n);
}

Nature nature_of(const weather::DailySeries& weather, double base, unsigned month) {
  const degree_day::Formula formula{
      .method = degree_day::Method::single_sine, .lower = Temperature::celsius(base), .upper = {}};
  return {weather, CompleteDays{weather}, DegreeDayRecord{formula, weather}, date::month{month} / date::day{1}};
}

// As most of the figures in data/pests are counted: 50 °F from 1 March.
constexpr double k_usual_base = 10;
constexpr unsigned k_usual_month = 3;
// Others, to see what hangs on that.
constexpr std::array k_bases{0.0, 2.0, 4.0, 6.0, 8.0, 10.0};  // °C
constexpr std::array k_months{1U, 2U, 3U, 4U};

/// The base and the start that fit the odd years of all species best.
std::pair<double, unsigned> chosen(const weather::DailySeries& weather,
                                   const std::map<std::string, std::vector<Seen>>& dates) {
  std::pair<double, unsigned> best;
  double least = 1e9;
  for (const double base : k_bases) {
    for (const unsigned month : k_months) {
      const double off = off_in_odd_years(nature_of(weather, base, month), dates);
      if (off >= least) continue;
      least = off;
      best = {base, month};
    }
  }
  fmt::print("Base {:.0f} °C from {}: {:.2f} days off in the odd years, all weather known\n\n", best.first,
             short_text(date::month{best.second} / date::day{1}), least);
  return best;
}

/// Forecasts the even years of all species, and gives the sums of all by lead.
std::map<int, Means, std::greater<>> forecast_even_years(const Nature& nature,
                                                         const std::map<std::string, std::vector<Seen>>& dates,
                                                         bool each_species) {
  std::map<int, Means, std::greater<>> pooled;
  for (const auto& [species, seen] : dates) {
    const Fit fitted = fit(nature, seen);
    for (const int lead : {30, 14, 7}) {
      Means means;
      for (const Seen& each : seen) {
        if (each.year % 2 == 0) add(nature, fitted, each, lead, means);
      }
      if (each_species) print(species, &fitted, lead, means);
      pooled[lead] += means;
    }
  }
  return pooled;
}

void print_others(const weather::DailySeries& weather, const std::map<std::string, std::vector<Seen>>& dates) {
  chosen(weather, dates);
  for (const double base : k_bases) {
    for (const unsigned month : k_months) {
      const std::string name = fmt::format("{:.0f} °C, {}", base, short_text(date::month{month} / date::day{1}));
      const auto pooled = forecast_even_years(nature_of(weather, base, month), dates, false);
      for (const auto& [lead, means] : pooled) print(name, nullptr, lead, means);
    }
  }
}

}  // namespace

int main(int argc, char** argv) {
  const bool others = argc == 4 && std::string{argv[3]} == "others";
  if (argc != 3 && !others) {
    fmt::print(stderr, "usage: against_nature WEATHER.csv DATES.csv [others]\n");
    return 2;
  }
  std::ifstream file{argv[1], std::ios::binary};
  weather::StreamSource source{file};
  weather::DailySeries weather;
  read_weather(source, argv[1], {}, [&](weather::StationRecord&& record) { weather = std::move(record.days); });
  const auto dates = read_dates(argv[2]);
  fmt::print(
      "| species | sum, °F-days | lead | n | bias | off | calendar off | 80 %, weather | 80 %, both | wide, weather | "
      "wide, both | CRPS | calendar CRPS |\n|---|---:|---:|---:|---:|---:|---:|---:|---:|---:|---:|---:|---:|\n");
  if (others) {
    print_others(weather, dates);
    return 0;
  }
  const auto pooled = forecast_even_years(nature_of(weather, k_usual_base, k_usual_month), dates, true);
  for (const auto& [lead, means] : pooled) print("all", nullptr, lead, means);
}
