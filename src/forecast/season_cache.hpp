// The sums of one site's season, each run once however many rules share it.
#pragma once

#include <budclock/forecast/normals.hpp>
#include <budclock/forecast/season.hpp>

#include <algorithm>
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
    if (on_normals(days.last)) {
      return seasons_.emplace(key, run_season_on_normals(record(formula), days, weather_.days.last(), weather_.normals))
          .first->second;
    }
    return seasons_.emplace(key, run_season(record(formula), days, weather_.days.last(), shifts(days.last)))
        .first->second;
  }

  /// Whether normals stand for the years: there are some, and fewer past years than odds need.
  bool on_normals(Day season_last) {
    return !weather_.normals.empty() && shifts(season_last).size() < k_members_for_odds;
  }

  /// How many ways a season has to go on; 1 where there is none.
  std::size_t members(Day season_last) {
    return on_normals(season_last) ? k_normals_members : std::max<std::size_t>(shifts(season_last).size(), 1);
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
