// From rules and weather to the answer for one site.
#pragma once

#include <budclock/forecast/site_forecast.hpp>

#include <optional>
#include <string>
#include <vector>

namespace budclock::forecast {

/// What is asked.
struct Question {
  std::string site;
  std::vector<const rules::Pest*> pests;
  /// Use this method in place of the one each figure was made with; the report says so.
  std::optional<degree_day::Method> method;
};

/// Evaluates every stage and window of the pests asked for on `weather.today`. Pure: the same weather, rules and day
/// give the same answer. The forecast keeps pointers into the pests, which must outlive it.
SiteForecast evaluate(const Question& question, const SiteWeather& weather);

}  // namespace budclock::forecast
