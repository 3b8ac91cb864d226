// Limits that an hour of a day in the field is held against (data/day_limits.json).
#pragma once

#include <budclock/rules/action.hpp>
#include <budclock/rules/citation.hpp>

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace budclock::rules {

/// What is to be done that day.
enum class DayAction : std::uint8_t { contact, oil, systemic };

/// What of an hour, or of the hours about it, a limit speaks of.
enum class Measure : std::uint8_t {
  temperature,  ///< °F
  humidity,     ///< percent, relative
  wind,         ///< mph, the upper end of what is forecast
  calm,         ///< mph, the lower end of what is forecast, within `hours` of sunrise or sunset
  rain_ahead,   ///< percent, the highest chance from this hour on for `hours`
  rain_before,  ///< percent, the highest chance in the `hours` before this one
  soil,         ///< the soil is frozen, saturated or dry, where the site says so
  drought,      ///< where the site says so
};
enum class Comparison : std::uint8_t { below, at_most, at_least, above };
enum class Effect : std::uint8_t { rules_out, flags };

struct DayLimit {
  std::string id;
  std::vector<DayAction> actions;
  Measure measure = Measure::drought;
  Comparison comparison = Comparison::above;
  double value = 0;  ///< in the unit of the measure
  int hours = 0;     ///< of measures that look about; else 0
  Effect effect = Effect::rules_out;
  std::string text;  ///< what is so when the limit is met: "rain likely within 6 h"
  Citation citation;
  bool own = false;  ///< the firm's own value or effect stands in it, in place of what the citation gives
};

/// No forecast tells of it: the site does, or nobody.
inline bool is_of_site(Measure measure) { return measure == Measure::soil || measure == Measure::drought; }

/// A firm's own limit in place of the shipped one of that id: what is given replaces what was.
struct OwnLimit {
  std::string id;
  std::optional<double> value{};
  std::optional<Effect> effect{};
};

/// The range a limit's value can have, in the unit of its measure; nothing for a measure without a value.
std::optional<std::pair<double, double>> values_of(Measure measure);

/// `limits` with the firm's own in their places, each told to be one and with its own words.
std::vector<DayLimit> with_own(std::vector<DayLimit> limits, const std::vector<OwnLimit>& own);

/// The screen that a kind of action is held against; nothing where there is none.
std::optional<DayAction> day_action_of(Action action);

inline constexpr std::array<std::pair<std::string_view, DayAction>, 3> k_day_action_names{
    {{"contact", DayAction::contact}, {"oil", DayAction::oil}, {"systemic", DayAction::systemic}}};

}  // namespace budclock::rules
