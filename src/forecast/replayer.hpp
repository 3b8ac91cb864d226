// Replays the seasons of one record: what came, and the forecasts that would have been given.
#pragma once

#include <budclock/forecast/hindcast.hpp>

#include <map>
#include <optional>
#include <vector>

namespace budclock::forecast {

/// A season that is over.
struct PastSeason {
  int year = 0;
  SeasonDays days{};
  std::optional<Day> date{};  ///< of the event; nothing: not reached
};

struct PastSeasons {
  SumEvent event{};
  std::vector<PastSeason> seasons{};

  std::size_t reached() const;
  std::optional<MonthDay> mean_date() const;
};

class Replayer {
 public:
  explicit Replayer(const weather::DailySeries& record) : record_{record}, complete_{record} {}

  /// Every season of which nine days in ten are there, and nineteen in twenty of those before the event.
  PastSeasons past(const SumEvent& event);

  /// One for each season in which the event was still to come on the day of issue; none when fewer than nine other
  /// seasons have a date.
  std::vector<ReplayedForecast> forecasts(const PastSeasons& past, int lead, int known_days);

 private:
  const DegreeDayRecord& degree_days(const degree_day::Formula& formula);
  std::optional<ReplayedForecast> forecast(const PastSeasons& past, const PastSeason& season, int lead, int known_days);
  Spread spread(const SumEvent& event, SeasonDays days, Day seen_until);
  double increment_date(const SumEvent& event, SeasonDays days, Day seen_until);

  const weather::DailySeries& record_;
  CompleteDays complete_;
  std::map<degree_day::Formula, DegreeDayRecord> degree_days_;
};

}  // namespace budclock::forecast
