#include "replayer.hpp"

#include <budclock/forecast/filled_days.hpp>

#include <algorithm>
#include <cmath>

namespace budclock::forecast {
namespace {

constexpr double k_season_completeness = 0.9;
constexpr double k_completeness_before = 0.95;

double in_days(Day day, SeasonDays days) { return static_cast<double>((day - days.first).count()); }

/// "Not this season" is the day after the last one.
double in_days(const std::optional<Day>& day, SeasonDays days) {
  return in_days(day.value_or(days.last + date::days{1}), days);
}

std::vector<double> in_days(const Spread& spread, SeasonDays days) {
  std::vector<double> numbers;
  for (const auto& date : spread.dates) numbers.push_back(in_days(date, days));
  return numbers;
}

bool complete_enough(const CompleteDays& complete, Day first, Day last, double share) {
  const auto wanted = static_cast<double>((last - first).count() + 1);
  return static_cast<double>(complete.between(first, last)) >= share * wanted;
}

/// The dates of the other seasons, moved into the year of this one.
std::vector<std::optional<Day>> other_dates(const PastSeasons& past, const PastSeason& season) {
  std::vector<std::optional<Day>> dates;
  for (const PastSeason& other : past.seasons) {
    if (other.year == season.year) continue;
    dates.push_back(other.date);
    if (other.date) dates.back() = shifted(*other.date, season.year - other.year);
  }
  return dates;
}

std::optional<double> mean_of_reached(const std::vector<std::optional<Day>>& dates, SeasonDays days) {
  double sum = 0;
  std::size_t count = 0;
  for (const auto& date : dates) {
    if (!date) continue;
    sum += in_days(*date, days);
    ++count;
  }
  if (count < k_members_for_odds) return std::nullopt;
  return sum / static_cast<double>(count);
}

/// A straight line over a gap uses the day after it, which nobody had on the day of issue.
Day without_lines_ahead(const weather::DailySeries& record, Day day) {
  for (auto index = record.index_of(day); index && fill_of(record, *index) == weather::Origin::line;
       index = record.index_of(day)) {
    day -= date::days{1};
  }
  return day;
}

/// Each season's date by the mean increment, with the errors that it has in the others.
void dress_increments(std::vector<ReplayedForecast>& forecasts) {
  for (ReplayedForecast& each : forecasts) {
    for (const ReplayedForecast& other : forecasts) {
      if (other.year == each.year) continue;
      const double date = each.increment + other.truth - other.increment;
      if (date > in_days(each.issued, each.days)) each.increment_dates.push_back(date);
    }
    if (each.increment_dates.empty()) each.increment_dates.push_back(each.increment);
  }
}

}  // namespace

std::size_t PastSeasons::reached() const {
  return static_cast<std::size_t>(
      std::count_if(seasons.begin(), seasons.end(), [](const PastSeason& season) { return season.date.has_value(); }));
}

std::optional<MonthDay> PastSeasons::mean_date() const {
  std::vector<std::optional<Day>> dates;
  for (const PastSeason& season : seasons) {
    dates.push_back(season.date);
    if (season.date) dates.back() = shifted(*season.date, seasons.front().year - season.year);
  }
  const auto mean = seasons.empty() ? std::nullopt : mean_of_reached(dates, seasons.front().days);
  if (!mean) return std::nullopt;
  return month_day_of(seasons.front().days.first + date::days{static_cast<int>(std::lround(*mean))});
}

const DegreeDayRecord& Replayer::degree_days(const degree_day::Formula& formula) {
  return degree_days_.try_emplace(formula, formula, record_).first->second;
}

PastSeasons Replayer::past(const SumEvent& event) {
  PastSeasons past{.event = event};
  for (int year = year_of(record_.first); year <= year_of(record_.last()); ++year) {
    const SeasonDays days = season_on(event.start, in_year(event.start, year));
    if (days.first < record_.first || days.last > record_.last()) continue;
    if (!complete_enough(complete_, days.first, days.last, k_season_completeness)) continue;
    const Season season = run_season(degree_days(event.formula), days, record_.last(), {});
    const Spread truth = first_reached(season, event.sum);
    if (!truth.known()) continue;
    const auto& date = truth.dates.front();
    if (!complete_enough(complete_, days.first, date.value_or(days.last), k_completeness_before)) continue;
    past.seasons.push_back({year, days, date});
  }
  return past;
}

Spread Replayer::spread(const SumEvent& event, SeasonDays days, Day seen_until) {
  const auto shifts = member_shifts(complete_, seen_until, days.last, OtherYears::all);
  return first_reached(run_season(degree_days(event.formula), days, seen_until, shifts), event.sum);
}

double Replayer::increment_date(const SumEvent& event, SeasonDays days, Day seen_until) {
  const DegreeDayRecord& record = degree_days(event.formula);
  DegreeDays sum;
  for (Day day = days.first; day <= days.last; day += date::days{1}) {
    auto amount = day > seen_until ? std::nullopt : day == seen_until ? record.amount_as_last(day) : record.amount(day);
    if (!amount) amount = record.mean_of_other_years(day);
    sum += amount.value_or(DegreeDays{});
    if (sum >= event.sum) return in_days(day, days);
  }
  return in_days(std::optional<Day>{}, days);
}

std::optional<ReplayedForecast> Replayer::forecast(const PastSeasons& past, const PastSeason& season, int lead,
                                                   int known_days) {
  const SeasonDays days = season.days;
  const auto others = other_dates(past, season);
  const auto mean = mean_of_reached(others, days);
  if (!mean) return std::nullopt;
  const Day issued = days.first + date::days{static_cast<int>(std::lround(*mean)) - lead};
  if (season.date && *season.date <= issued) return std::nullopt;
  const Day seen_until = without_lines_ahead(record_, issued);
  const Spread given = spread(past.event, days, seen_until);
  if (given.dates.size() < k_members_for_odds) return std::nullopt;

  const Summary summary = summarize(given);
  ReplayedForecast forecast{.year = season.year, .days = days, .issued = issued};
  forecast.truth = in_days(season.date, days);
  forecast.never = !season.date;
  forecast.members = in_days(given, days);
  forecast.early = in_days(summary.early, days);
  forecast.likely = in_days(summary.likely, days);
  forecast.late = in_days(summary.late, days);
  forecast.calendar_mean = *mean;
  for (const auto& date : others) {
    if (!date || *date > issued) forecast.calendar.push_back(in_days(date, days));
  }
  if (forecast.calendar.empty()) forecast.calendar.push_back(*mean);
  forecast.increment = increment_date(past.event, days, seen_until);
  if (known_days > 0) {
    const Spread known = spread(past.event, days, issued + date::days{known_days});
    forecast.members_known = in_days(known, days);
    forecast.likely_known = in_days(summarize(known).likely, days);
  }
  return forecast;
}

std::vector<ReplayedForecast> Replayer::forecasts(const PastSeasons& past, int lead, int known_days) {
  std::vector<ReplayedForecast> forecasts;
  for (const PastSeason& season : past.seasons) {
    auto made = forecast(past, season, lead, known_days);
    if (made) forecasts.push_back(std::move(*made));
  }
  dress_increments(forecasts);
  return forecasts;
}

}  // namespace budclock::forecast
