// A day in the field, hour by hour: which stated limits an hour meets. Nothing here says that an hour is fit for
// anything: the label and the law decide.
#pragma once

#include <budclock/forecast/distance.hpp>
#include <budclock/rules/day_limits.hpp>
#include <budclock/rules/site_safety.hpp>
#include <budclock/weather/hourly_forecast.hpp>

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace budclock::forecast {

/// Minutes of the local day, whole; below 0 or above 1440 where the sun does not rise or set.
struct SunTimes {
  int rise = 0;
  int set = 0;
};

/// Sunrise and sunset at a place, for clocks that differ from UTC by `offset_minutes`. The day's length is that of
/// day_length_hours; its middle is moved by longitude and the equation of time (Spencer 1971, "Fourier series
/// representation of the position of the sun", Search 2:172; coefficients from memory).
SunTimes sun_times(const Coordinates& place, Day day, int offset_minutes);

enum class HourStanding : std::uint8_t {
  ruled_out,  ///< a limit that rules out is met
  not_known,  ///< none is met, but one cannot be judged: the forecast does not say
  none_met,   ///< no limit that rules out is met
};

/// Indices into DayScreen::limits.
using LimitList = std::vector<std::size_t>;

struct JudgedHour {
  weather::ForecastHour hour;
  bool daylight = false;  ///< the whole hour lies between sunrise and sunset
  HourStanding standing = HourStanding::not_known;
  LimitList ruled_out_by;
  LimitList flagged_by;
  LimitList not_known;  ///< those that flag too
};

/// Hours on end, in daylight, of HourStanding::none_met.
struct HourRun {
  std::size_t first = 0;
  std::size_t count = 0;
};

/// What the site says of its ground; nothing: it does not.
struct Ground {
  std::optional<bool> soil_unfit{};  ///< frozen, saturated or dry
  std::optional<bool> drought{};
  std::vector<std::string> stated{};  ///< in words: "soil dry (noted 2026-04-08)"
};

struct DayScreen {
  std::string site;
  Coordinates place;
  Day today{};
  rules::DayAction action = rules::DayAction::contact;
  std::vector<rules::DayLimit> limits;  ///< those that concern the action
  std::vector<JudgedHour> hours;        ///< from `today` on, by time
  std::vector<HourRun> runs;            ///< the longest first, of equal ones the earliest
  Ground ground{};
  std::string
      elsewhere{};  ///< the forecast is that of another place, in words; empty: of the site's, or it does not say
};

/// Holds every hour from `today` on against the limits of the action. Hours of earlier days count only for what fell
/// before. No hours: the forecast ended before today.
///
/// A limit of the site's ground is judged where `ground` says how it is.
DayScreen screen_days(std::string site, const Coordinates& place, rules::DayAction action,
                      const std::vector<rules::DayLimit>& limits, const std::vector<weather::ForecastHour>& hours,
                      Day today, Ground ground = {});

/// Whether `ground` says what a limit speaks of; true of limits that a forecast tells of.
bool is_stated(const Ground& ground, rules::Measure measure);

/// What an action is ruled out by when every hour that is left of the forecast is: the reason names each limit that is
/// met. Nothing when some hour is not, or none is left.
std::optional<rules::SiteRestriction> ruled_out(const DayScreen& screen);

/// "the forecast is that of another place, 12 km away"; empty when the outline holds the place, or is none.
std::string elsewhere_text(const std::vector<Coordinates>& outline, const Coordinates& place);

}  // namespace budclock::forecast
