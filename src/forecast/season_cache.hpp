// The sums of one site's season, each run once however many rules share it.
#pragma once

#include <budclock/forecast/season.hpp>

#include <map>
#include <utility>
#include <vector>

namespace budclock::forecast {

class SeasonCache {
 public:
  explicit SeasonCache(const SiteWeather& weather) : weather_{weather} {}

  const Season& season(const degree_day::Formula& formula, MonthDay start) {
    const SeasonDays days = season_on(start, weather_.today);
    const auto key = std::pair{formula, days.first};
    const auto found = seasons_.find(key);
    if (found != seasons_.end()) return found->second;
    if (weather_.days.empty()) {
      return seasons_.emplace(key, run_season(formula, weather_, days, {})).first->second;
    }
    return seasons_.emplace(key, run_season(record(formula), days, weather_.days.last(), shifts(days.last)))
        .first->second;
  }

  /// The site must have weather.
  const DegreeDayRecord& record(const degree_day::Formula& formula) {
    return records_.try_emplace(formula, formula, weather_.days).first->second;
  }

  const std::vector<int>& shifts(Day season_last) {
    const auto found = shifts_.find(season_last);
    if (found != shifts_.end()) return found->second;
    return shifts_.emplace(season_last, member_shifts(weather_, season_last)).first->second;
  }

  const SiteWeather& weather() const { return weather_; }

 private:
  const SiteWeather& weather_;
  std::map<degree_day::Formula, DegreeDayRecord> records_;
  std::map<std::pair<degree_day::Formula, Day>, Season> seasons_;
  std::map<Day, std::vector<int>> shifts_;
};

}  // namespace budclock::forecast
