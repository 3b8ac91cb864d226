// The hours of a site's own forecast, and what they make of an action there.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/forecast/day_screen.hpp>
#include <budclock/forecast/evaluate.hpp>
#include <budclock/sites/site.hpp>
#include <budclock/weather/hourly_forecast.hpp>

#include "environment.hpp"
#include "weather_input.hpp"

#include <string>
#include <vector>

namespace budclock::cli {

struct SiteHours {
  std::vector<weather::ForecastHour> hours{};
  std::vector<forecast::Coordinates> outline{};  ///< of the forecast's area; none where it does not say
};

/// The hours of one file; none, after an error, when it cannot be read as an hourly forecast.
SiteHours read_hours(const std::string& path, Environment& environment, Diagnostics& diagnostics);

/// Of the forecasts asked for, the first that has hours, with its faults; none, with all that was found wrong in
/// `why_none`, when none has. A forecast of days and nights is no fault: it serves other questions.
SiteHours first_hours(const WeatherRequest& request, Environment& environment, Diagnostics& faults,
                      Diagnostics& why_none);

/// What a screen of hours needs to know of a site.
struct ScreenedSite {
  std::string name;
  forecast::Coordinates place;
  std::vector<rules::DayLimit> limits;
};
ScreenedSite screened(const sites::Site& site, const rules::PestTable& table);

/// What the site says of its soil and of drought, as far as it counts on `today`.
forecast::Ground ground_of(const sites::Site& site, Day today);

/// Adds to each of the question's windows the kinds of action that every coming hour rules out.
void add_hours(const ScreenedSite& site, const SiteHours& hours, Day today, forecast::Question& question);

}  // namespace budclock::cli
