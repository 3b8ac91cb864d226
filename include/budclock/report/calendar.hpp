// The windows of sites as a calendar that phones and offices import.
#pragma once

#include <budclock/forecast/site_forecast.hpp>

#include <span>
#include <string>

namespace budclock::report {

/// An iCalendar object (RFC 5545): an all-day event for each window to look or to act that is not over and has a day to
/// begin. An action's says that it waits for what must be found first; one that is held back is none, nor is a ban.
///
/// The UID is a name-based UUID (RFC 4122, version 5) of site, season, pest, stages and window, so that a newer
/// calendar moves an event instead of adding another; SEQUENCE grows with the day of the forecast. DTSTAMP is that day,
/// DTEND is the day after the last one. The same forecasts give the same bytes.
std::string calendar(std::span<const forecast::SiteForecast> sites);

}  // namespace budclock::report
