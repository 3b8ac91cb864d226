// What no day of a digest may break, over the shipped table and real weather.
#include <budclock/report/digest.hpp>

#include "records.hpp"

#include <set>

using namespace budclock;
using report::DigestGroup;
using report::DigestLine;
using rules::WindowKind;

namespace {

/// The forecast of a line's window.
const forecast::WindowForecast& forecast_of(const forecast::SiteForecast& site, const DigestLine& line) {
  for (const auto& pest : site.pests) {
    for (const auto& window : pest.windows) {
      if (window.window == line.window) return window;
    }
  }
  throw std::logic_error{"a line without a window"};
}

bool bars(const forecast::WindowForecast& ban, const forecast::WindowForecast& action, Day day) {
  if (ban.window->kind != WindowKind::abstain || !ban.from || *ban.from > day) return false;
  if (ban.until && *ban.until < day) return false;
  if (!ban.window->host.empty() && ban.window->host != action.window->host) return false;
  for (const rules::Action kind : action.window->actions) {
    const auto& barred = ban.window->actions;
    if (std::find(barred.begin(), barred.end(), kind) != barred.end()) return true;
  }
  return false;
}

/// An action under act or last days is free of every ban on the first day on which it might be done.
void check_free_of_bans(const forecast::SiteForecast& site, const DigestLine& line) {
  const auto& action = forecast_of(site, line);
  const Day first = std::max(site.today, action.from.value_or(site.today));
  for (const auto& pest : site.pests) {
    if (pest.pest != line.pest) continue;
    for (const auto& ban : pest.windows) CHECK_FALSE(bars(ban, action, first));
  }
  if (line.due == report::Due::now) CHECK(action.barred_by == nullptr);
}

void check_line(const forecast::SiteForecast& site, const DigestLine& line) {
  INFO(site.site << " " << iso(site.today) << " " << line.pest->id << " " << line.window->id << " " << line.text);
  const WindowKind kind = line.window->kind;
  CHECK_FALSE(line.text.empty());
  if (line.group == DigestGroup::act) CHECK(kind == WindowKind::act);
  if (line.group == DigestGroup::look) CHECK(kind == WindowKind::look);
  if (line.group == DigestGroup::leave) CHECK(kind != WindowKind::look);
  if (line.group == DigestGroup::last_days) CHECK(kind != WindowKind::abstain);
  if (kind == WindowKind::act && line.group != DigestGroup::leave) check_free_of_bans(site, line);
}

}  // namespace

TEST_CASE("every fifth day of a year, a window stands in one group, and no action stands while it is barred") {
  std::set<DigestGroup> seen;
  for (Day today = records::day("2012-01-01"); today <= records::day("2012-12-31"); today += date::days{5}) {
    const forecast::SiteForecast site = records::forecast_on(records::ohio().back(), today);
    std::set<const rules::Window*> windows;
    for (const DigestLine& line : report::site_digest(site, {}).lines) {
      check_line(site, line);
      CHECK(windows.insert(line.window).second);
      seen.insert(line.group);
    }
  }
  CHECK(seen.size() == 4);
}

TEST_CASE("what a digest leaves out is neither open nor about to open") {
  for (Day today = records::day("2012-01-03"); today <= records::day("2012-12-31"); today += date::days{13}) {
    const forecast::SiteForecast site = records::forecast_on(records::ohio().back(), today);
    std::set<const rules::Window*> shown;
    for (const DigestLine& line : report::site_digest(site, {}).lines) shown.insert(line.window);
    for (const auto& pest : site.pests) {
      for (const auto& window : pest.windows) {
        if (shown.contains(window.window) || !window.from) continue;
        INFO(iso(today) << " " << pest.pest->id << " " << window.window->id);
        const bool over = window.until && *window.until < today;
        CHECK((over || *window.from > today + report::k_digest_days || !window.until ||
               window.state == forecast::WindowState::none_left));
      }
    }
  }
}
