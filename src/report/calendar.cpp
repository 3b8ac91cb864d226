#include <budclock/core/diagnostic.hpp>
#include <budclock/report/calendar.hpp>
#include <budclock/report/words.hpp>
#include <budclock/rules/names.hpp>

#include "calendar_events.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace budclock::report {
namespace {

using forecast::WindowForecast;
using forecast::WindowState;

/// The same for the same window of the same season, whatever its dates and the day of the forecast.
std::string identity(const forecast::SiteForecast& site, const rules::Pest& pest, const WindowForecast& window) {
  return fmt::format("{}\n{}\n{}\n{}\n{}", site.site, year_of(*window.from), pest.id,
                     fmt::join(window.window->stages, " "), window.window->id);
}

bool is_shown(const forecast::SiteForecast& site, const WindowForecast& window) {
  return window.window->kind != rules::WindowKind::abstain && window.from && !is_over(window) &&
         !is_held_back(site, window);
}

std::string summary(const forecast::SiteForecast& site, const rules::Pest& pest, const WindowForecast& window) {
  const bool act = window.window->kind == rules::WindowKind::act;
  const char* what = !act ? "Look" : window.offered ? "Confirmed, act" : "Act only if confirmed";
  return printable(fmt::format("{}: {}: {}: {}", what, site.site, pest.name, window.window->name));
}

std::string description(const forecast::SiteForecast& site, const rules::Pest& pest, const WindowForecast& window) {
  std::string text = window_text(pest, window, site.today);
  for (const rules::SiteRestriction& warning : window.warnings) text += "\nMind: " + warning_text(window, warning);
  if (const std::string basis = window_basis_text(window); !basis.empty()) text += "\n" + basis;
  if (window.window->kind == rules::WindowKind::act) {
    for (const rules::Remark& remark : pest.do_not) text += "\n! " + remark.text;
  }
  if (!window.until) text += "\nNo end is known: only its first day is marked.";
  return text + fmt::format(
                    "\nAs of {}. The label is the law; your local extension service and your licence decide what is "
                    "done.",
                    iso(site.today));
}

CalendarEvent visit_event(const forecast::SiteForecast& site, const rules::Pest& pest,
                          const forecast::FollowUp& visit) {
  const bool missed = visit.state == forecast::VisitState::missed;
  return {fmt::format("follow-up\n{}\n{}\n{}\n{}", site.site, pest.id, iso(visit.done), rules::name(visit.action)),
          site.today,
          *visit.from,
          std::max(visit.until.value_or(*visit.from), *visit.from),
          printable(fmt::format("{}: {}: {}, after {}", missed ? "Missed follow-up" : "Follow-up", site.site, pest.name,
                                action_text(visit, site.today))),
          visit_text(pest, visit, site.today) + fmt::format("\nAs of {}.", iso(site.today)),
          printable(site.site)};
}

}  // namespace

std::string calendar(std::span<const forecast::SiteForecast> sites) {
  std::vector<CalendarEvent> events;
  for (const forecast::SiteForecast& site : sites) {
    for (const forecast::PestForecast& pest : site.pests) {
      for (const WindowForecast& window : pest.windows) {
        if (!is_shown(site, window)) continue;
        events.push_back({identity(site, *pest.pest, window), site.today, *window.from,
                          std::max(last_day(window).value_or(*window.from), *window.from),
                          summary(site, *pest.pest, window), description(site, *pest.pest, window),
                          printable(site.site)});
      }
      for (const forecast::FollowUp& visit : pest.follow_ups) {
        if (is_wanted(visit)) events.push_back(visit_event(site, *pest.pest, visit));
      }
    }
  }
  return icalendar(events);
}

}  // namespace budclock::report
