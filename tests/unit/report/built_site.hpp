// A site's answer built by hand, window by window.
#pragma once

#include <budclock/forecast/site_forecast.hpp>

#include <deque>
#include <string>

namespace budclock::report {

inline Day day(const char* text) { return parse_iso_day(text).value(); }

inline const Day k_today = day("2012-04-10");

/// One pest at one site, window by window.
struct Built {
  rules::Pest pest;
  std::deque<rules::Window> windows;  // forecasts point to them
  forecast::SiteForecast site;

  Built() {
    pest.id = "test-psyllid";
    pest.name = "test psyllid";
    pest.hosts = {{"testwood", "", {}}};
    pest.observations = {{"nymphs", "live nymphs", 7, {}}, {"cupping", "cupped leaves", 7, {}}};
    site.site = "Mill Lane";
    site.today = k_today;
    site.pests.push_back({&pest, {}, {}});
  }
  Built(const Built&) = delete;  // the forecast points into it
  Built& operator=(const Built&) = delete;

  forecast::WindowForecast& add(rules::WindowKind kind, forecast::WindowState state, const char* from,
                                const char* until) {
    rules::Window window;
    window.kind = kind;
    window.id = window.name = "window-" + std::to_string(windows.size());
    window.actions = {kind == rules::WindowKind::look ? rules::Action::look : rules::Action::oil};
    window.find = "open buds";
    window.reason = "The reason.";
    if (kind == rules::WindowKind::act) window.gate = {{"nymphs"}, {"cupping"}};
    windows.push_back(window);
    forecast::WindowForecast window_forecast;
    window_forecast.window = &windows.back();
    window_forecast.state = state;
    if (*from != '\0') window_forecast.from = day(from);
    if (*until != '\0') window_forecast.until = day(until);
    site.pests[0].windows.push_back(window_forecast);
    return site.pests[0].windows.back();
  }
};

}  // namespace budclock::report
