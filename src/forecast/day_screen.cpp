#include <budclock/forecast/day_length.hpp>
#include <budclock/forecast/day_screen.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fmt/format.h>
#include <numbers>
#include <optional>
#include <utility>

namespace budclock::forecast {
namespace {

using rules::Comparison;
using rules::DayLimit;
using rules::Measure;
using weather::ForecastHour;

constexpr int k_hour = 60;

bool meets(double value, const DayLimit& limit) {
  switch (limit.comparison) {
    case Comparison::below:
      return value < limit.value;
    case Comparison::at_most:
      return value <= limit.value;
    case Comparison::at_least:
      return value >= limit.value;
    case Comparison::above:
      return value > limit.value;
  }
  return false;
}

/// Nothing: the forecast does not say.
using Verdict = std::optional<bool>;

Verdict judged(const std::optional<double>& value, const DayLimit& limit) {
  return value ? Verdict{meets(*value, limit)} : std::nullopt;
}

class Judge {
 public:
  Judge(const Coordinates& place, const std::vector<ForecastHour>& hours, const Ground& ground)
      : place_{place}, hours_{hours}, ground_{ground} {}

  const Ground& ground() const { return ground_; }

  Verdict operator()(std::size_t at, const DayLimit& limit) const {
    const ForecastHour& hour = hours_[at];
    switch (limit.measure) {
      case Measure::temperature:
        return judged(hour.temperature ? std::optional{hour.temperature->fahrenheit()} : std::nullopt, limit);
      case Measure::humidity:
        return judged(hour.humidity_percent, limit);
      case Measure::wind:
        return judged(hour.wind ? std::optional{hour.wind->high_mph} : std::nullopt, limit);
      case Measure::calm:
        if (!near_sunrise_or_sunset(hour, limit.hours * k_hour)) return false;
        return judged(hour.wind ? std::optional{hour.wind->low_mph} : std::nullopt, limit);
      case Measure::rain_ahead:
        return rain(at, 0, limit.hours, limit);
      case Measure::rain_before:
        return rain(at, -limit.hours, 0, limit);
      case Measure::soil:
        return ground_.soil_unfit;
      case Measure::drought:
        return ground_.drought;
    }
    return std::nullopt;
  }

  bool daylight(const ForecastHour& hour) const {
    const SunTimes sun = sun_times(place_, hour.day, hour.offset_minutes);
    return hour.minute >= sun.rise && hour.minute + k_hour <= sun.set;
  }

 private:
  bool near_sunrise_or_sunset(const ForecastHour& hour, int minutes) const {
    const SunTimes sun = sun_times(place_, hour.day, hour.offset_minutes);
    const auto near = [&](int event) {
      return hour.minute < event + minutes && hour.minute + k_hour > event - minutes;
    };
    return near(sun.rise) || near(sun.set);
  }

  /// The chance in any hour that begins `from` to `to` hours after this one, `to` left out.
  Verdict rain(std::size_t at, int from, int to, const DayLimit& limit) const {
    const long begin = weather::utc_minute(hours_[at]) + long{from} * k_hour;
    const long end = weather::utc_minute(hours_[at]) + long{to} * k_hour;
    int known = 0;
    for (const ForecastHour& hour : hours_) {
      const long time = weather::utc_minute(hour);
      if (time < begin || time >= end || !hour.rain_chance_percent) continue;
      if (meets(*hour.rain_chance_percent, limit)) return true;
      ++known;
    }
    return known >= to - from ? Verdict{false} : std::nullopt;
  }

  Coordinates place_;
  const std::vector<ForecastHour>& hours_;
  const Ground& ground_;
};

JudgedHour judged_hour(std::size_t at, const std::vector<ForecastHour>& hours, const std::vector<DayLimit>& limits,
                       const Judge& judge) {
  JudgedHour result;
  result.hour = hours[at];
  result.daylight = judge.daylight(hours[at]);
  bool unsure = false;
  for (std::size_t i = 0; i < limits.size(); ++i) {
    if (!is_stated(judge.ground(), limits[i].measure)) continue;
    const bool rules_out = limits[i].effect == rules::Effect::rules_out;
    const Verdict met = judge(at, limits[i]);
    if (!met) {
      result.not_known.push_back(i);
      unsure = unsure || rules_out;
    } else if (*met) {
      (rules_out ? result.ruled_out_by : result.flagged_by).push_back(i);
    }
  }
  result.standing = !result.ruled_out_by.empty() ? HourStanding::ruled_out
                    : unsure                     ? HourStanding::not_known
                                                 : HourStanding::none_met;
  return result;
}

std::vector<HourRun> runs_of(const std::vector<JudgedHour>& hours) {
  std::vector<HourRun> runs;
  for (std::size_t i = 0; i < hours.size(); ++i) {
    if (!hours[i].daylight || hours[i].standing != HourStanding::none_met) continue;
    const bool goes_on = !runs.empty() && runs.back().first + runs.back().count == i &&
                         weather::utc_minute(hours[i].hour) - weather::utc_minute(hours[i - 1].hour) == k_hour;
    if (!goes_on) runs.push_back({i, 0});
    ++runs.back().count;
  }
  std::stable_sort(runs.begin(), runs.end(), [](const HourRun& a, const HourRun& b) { return a.count > b.count; });
  return runs;
}

}  // namespace

SunTimes sun_times(const Coordinates& place, Day day, int offset_minutes) {
  constexpr double k_minutes_a_degree = 4;
  constexpr double k_noon = 12 * 60;
  const Day first{date::year{year_of(day)} / 1 / 1};
  const int day_of_year = static_cast<int>((day - first).count()) + 1;
  const double angle = 2 * std::numbers::pi * (day_of_year - 1) / 365;
  const double equation_of_time = 229.18 * (0.000075 + 0.001868 * std::cos(angle) - 0.032077 * std::sin(angle) -
                                            0.014615 * std::cos(2 * angle) - 0.040849 * std::sin(2 * angle));
  const double noon = k_noon - k_minutes_a_degree * place.longitude + offset_minutes - equation_of_time;
  const double half = day_length_hours(place.latitude, day_of_year) * k_hour / 2;
  return {static_cast<int>(std::lround(noon - half)), static_cast<int>(std::lround(noon + half))};
}

DayScreen screen_days(std::string site, const Coordinates& place, rules::DayAction action,
                      const std::vector<DayLimit>& limits, const std::vector<ForecastHour>& hours, Day today,
                      Ground ground) {
  DayScreen screen{std::move(site), place, today, action, {}, {}, {}, std::move(ground), {}};
  for (const DayLimit& limit : limits) {
    if (std::find(limit.actions.begin(), limit.actions.end(), action) != limit.actions.end()) {
      screen.limits.push_back(limit);
    }
  }
  const Judge judge{place, hours, screen.ground};
  for (std::size_t i = 0; i < hours.size(); ++i) {
    if (hours[i].day >= today) screen.hours.push_back(judged_hour(i, hours, screen.limits, judge));
  }
  screen.runs = runs_of(screen.hours);
  return screen;
}

bool is_stated(const Ground& ground, Measure measure) {
  if (measure == Measure::soil) return ground.soil_unfit.has_value();
  if (measure == Measure::drought) return ground.drought.has_value();
  return true;
}

std::optional<rules::SiteRestriction> ruled_out(const DayScreen& screen) {
  std::vector<std::size_t> met(screen.limits.size());
  for (const JudgedHour& hour : screen.hours) {
    if (hour.standing != HourStanding::ruled_out) return std::nullopt;
    for (const std::size_t limit : hour.ruled_out_by) ++met[limit];
  }
  if (screen.hours.empty()) return std::nullopt;
  rules::SiteRestriction restriction;
  restriction.id = "hours-ahead";
  restriction.bars = true;
  restriction.until = screen.hours.back().hour.day;
  for (int kind = 0; kind <= static_cast<int>(rules::Action::quarantine); ++kind) {
    const auto action = static_cast<rules::Action>(kind);
    if (rules::day_action_of(action) == screen.action) restriction.actions.push_back(action);
  }
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < met.size(); ++i) {
    if (met[i] == 0) continue;
    if (texts.empty()) restriction.citation = screen.limits[i].citation;
    texts.push_back(screen.limits[i].text + (screen.limits[i].own ? " (the firm's own limit)" : ""));
  }
  restriction.fact = "ruled out for every hour of the forecast, to " + iso(*restriction.until);
  restriction.text = fmt::format("{}", fmt::join(texts, "; "));
  if (!screen.elsewhere.empty()) restriction.text += "; but " + screen.elsewhere;
  return restriction;
}

std::string elsewhere_text(const std::vector<Coordinates>& outline, const Coordinates& place) {
  if (outline.empty()) return {};
  // Even-odd rule: a ray to the east crosses the outline an odd number of times from within.
  bool inside = false;
  double nearest = kilometres_between(outline.front(), place);
  for (std::size_t i = 0, before = outline.size() - 1; i < outline.size(); before = i++) {
    const Coordinates& a = outline[i];
    const Coordinates& b = outline[before];
    nearest = std::min(nearest, kilometres_between(a, place));
    if ((a.latitude > place.latitude) == (b.latitude > place.latitude)) continue;
    const double share = (place.latitude - a.latitude) / (b.latitude - a.latitude);
    if (place.longitude < a.longitude + share * (b.longitude - a.longitude)) inside = !inside;
  }
  if (inside) return {};
  return fmt::format("the forecast is that of another place: its nearest corner lies {:.0f} km from the site", nearest);
}

}  // namespace budclock::forecast
