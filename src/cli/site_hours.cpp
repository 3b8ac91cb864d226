#include "site_hours.hpp"

#include <budclock/files/open_file.hpp>

#include <fcntl.h>
#include <fmt/format.h>
#include <set>
#include <span>
#include <string_view>
#include <system_error>
#include <utility>

namespace budclock::cli {
namespace {

/// Passes bytes on and keeps the first that is no blank, to tell JSON from anything else.
class FirstSeen final : public weather::ByteSource {
 public:
  explicit FirstSeen(weather::ByteSource& source) : source_{source} {}

  std::size_t read(std::span<char> buffer) override {
    const std::size_t count = source_.read(buffer);
    for (std::size_t i = 0; i < count && first_ == 0; ++i) {
      if (std::string_view{" \t\r\n\xEF\xBB\xBF"}.find(buffer[i]) == std::string_view::npos) first_ = buffer[i];
    }
    return count;
  }

  /// False also of a file without anything.
  bool is_no_json() const { return first_ != 0 && first_ != '{' && first_ != '['; }

 private:
  weather::ByteSource& source_;
  char first_ = 0;
};

std::vector<weather::ForecastHour> hours_in(weather::ByteSource& bytes, const std::string& path,
                                            weather::ProblemList& problems,
                                            std::vector<weather::OutlinePoint>& outline) {
  FirstSeen source{bytes};
  auto hours = weather::read_hourly_forecast(source, problems, &outline);
  if (!source.is_no_json()) return hours;
  problems = weather::ProblemList{path};  // where it fails as JSON helps nobody
  problems.add(Severity::error, 0, 0, "is not the hourly forecast of the Weather Service, which is JSON",
               "get the hourly forecast of the place; a CSV of days belongs to `when --forecast`");
  return {};
}

}  // namespace

SiteHours read_hours(const std::string& path, Environment& environment, Diagnostics& diagnostics) {
  weather::ProblemList problems{path};
  SiteHours found;
  std::vector<weather::OutlinePoint> outline;
  try {
    if (path == "-") {
      weather::StreamSource source{environment.in};
      found.hours = hours_in(source, path, problems, outline);
    } else if (const files::OpenFile file{path, O_RDONLY}; file.is_open()) {
      weather::DescriptorSource source{file.get()};
      found.hours = hours_in(source, path, problems, outline);
    } else {
      problems.add(Severity::error, 0, 0, fmt::format("cannot be opened ({})", files::reason(file.error())),
                   "check the name and the permissions");
    }
  } catch (const std::system_error& failure) {
    problems.add(Severity::error, 0, 0, fmt::format("cannot be read ({})", failure.code().message()),
                 "check the file and the disk");
  }
  for (const weather::OutlinePoint& corner : outline) found.outline.push_back({corner.latitude, corner.longitude});
  for (Diagnostic& entry : problems.take()) diagnostics.push_back(std::move(entry));
  return found;
}

SiteHours first_hours(const WeatherRequest& request, Environment& environment, Diagnostics& faults,
                      Diagnostics& why_none) {
  for (const WeatherFile& each : request.forecasts) {
    Diagnostics of_file;
    SiteHours found = read_hours(each.path, environment, of_file);
    Diagnostics& to = found.hours.empty() ? why_none : faults;
    to.insert(to.end(), of_file.begin(), of_file.end());
    if (!found.hours.empty()) return found;
  }
  return {};
}

ScreenedSite screened(const sites::Site& site, const rules::PestTable& table) {
  return {site.name, {site.latitude, site.longitude}, rules::with_own(table.day_limits, site.limits)};
}

forecast::Ground ground_of(const sites::Site& site, Day today) {
  forecast::Ground ground;
  if (const auto soil = sites::counts_on(today, site.safety.soil)) {
    ground.soil_unfit = soil->value != sites::Soil::fit;
    ground.stated.push_back("soil " + sites::to_text(*soil));
  }
  if (const auto drought = sites::counts_on(today, site.safety.drought)) {
    ground.drought = drought->value;
    ground.stated.push_back(sites::to_text(*drought));
  }
  return ground;
}

void add_hours(const ScreenedSite& site, const SiteHours& hours, Day today, forecast::Question& question) {
  if (hours.hours.empty()) return;
  std::set<std::pair<std::string, std::string>> windows;  // by pest and host
  for (const rules::Pest* pest : question.pests) {
    for (const rules::Window& window : pest->windows) windows.emplace(pest->id, window.host);
  }
  for (const auto& [name, action] : rules::k_day_action_names) {
    // What the site says of its ground stands among the facts of the site already.
    forecast::DayScreen screen = forecast::screen_days(site.name, site.place, action, site.limits, hours.hours, today);
    screen.elsewhere = forecast::elsewhere_text(hours.outline, site.place);
    const auto restriction = forecast::ruled_out(screen);
    if (!restriction) continue;
    for (const auto& window : windows) question.restrictions[window].push_back(*restriction);
  }
}

}  // namespace budclock::cli
