// From rules and weather to the answer for one site.
#pragma once

#include <budclock/forecast/distance.hpp>
#include <budclock/forecast/site_forecast.hpp>
#include <budclock/journal/action.hpp>
#include <budclock/journal/sighting.hpp>

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace budclock::forecast {

/// What is asked.
struct Question {
  std::string site;
  std::vector<const rules::Pest*> pests;
  /// Use this method in place of the one each figure was made with; the report says so.
  std::optional<degree_day::Method> method;
  /// What scouts saw. Only rows of `site`, up to the day of the forecast, count.
  std::vector<journal::Sighting> sightings{};
  /// What was done. The same holds for its rows; those of this calendar year and the one before bring visits.
  std::vector<journal::ActionTaken> actions{};
  /// Where the site is: needed for day lengths, and with `regions` to tell figures from far away.
  std::optional<Coordinates> place{};
  const std::vector<rules::Region>* regions = nullptr;
  /// By pest: the names of its hosts that grow at the site. Windows for other hosts are left out; a pest that is not
  /// here may have any of its hosts.
  std::map<std::string, std::vector<std::string>> hosts{};
  /// What the facts of the site, or the hours of its forecast, make of actions: by pest and host of a window.
  std::map<std::pair<std::string, std::string>, std::vector<rules::SiteRestriction>> restrictions{};
  std::vector<std::string> site_notes{};  ///< what is not known of the site, for the report
  bool with_curves = false;               ///< for a chart: the sums from day to day
};

/// Evaluates every stage and window of the pests asked for on `weather.today`. Pure: the same weather, rules, sightings
/// and day give the same answer.
///
/// A stage that was seen this season (the calendar year) has no forecast any more: its date is the one on which it was
/// first found, in windows too, and what counts from it counts from there. An observation gives its date to the cues
/// that name it; it dates a stage only where nothing else does, or where it is the stage itself
/// (rules::Stage::shown_by) and came before the day that the figures give. The forecast keeps pointers into the pests,
/// which must outlive it.
SiteForecast evaluate(const Question& question, const SiteWeather& weather);

class SeasonCache;

/// `evaluate` for several questions of one weather, which must outlive it: each sum is made once for all of them.
class Evaluator {
 public:
  explicit Evaluator(const SiteWeather& weather);
  ~Evaluator();
  SiteForecast answer(const Question& question);

 private:
  std::unique_ptr<SeasonCache> seasons_;
};

}  // namespace budclock::forecast
