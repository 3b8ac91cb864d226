// Limits that an hour of a day in the field is held against (data/day_limits.json).
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/rules/load.hpp>

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
  temperature,      ///< °F
  humidity,         ///< percent, relative
  wind,             ///< mph, the upper end of what is forecast
  calm,             ///< mph, the lower end of what is forecast, within `hours` of sunrise or sunset
  rain_ahead,       ///< percent, the highest chance from this hour on for `hours`
  rain_before,      ///< percent, the highest chance in the `hours` before this one
  not_in_forecast,  ///< drought, the state of the soil: to be looked at
};
enum class Comparison : std::uint8_t { below, at_most, at_least, above };
enum class Effect : std::uint8_t { rules_out, flags, not_known };

struct DayLimit {
  std::string id;
  std::vector<DayAction> actions;
  Measure measure = Measure::not_in_forecast;
  Comparison comparison = Comparison::above;
  double value = 0;  ///< in the unit of the measure
  int hours = 0;     ///< of measures that look about; else 0
  Effect effect = Effect::not_known;
  std::string text;  ///< what is so when the limit is met: "rain likely within 6 h"
  Citation citation;
};

inline constexpr std::array<std::pair<std::string_view, DayAction>, 3> k_day_action_names{
    {{"contact", DayAction::contact}, {"oil", DayAction::oil}, {"systemic", DayAction::systemic}}};

/// The limits among `files`, in file order; other kinds of files are passed over. Sources must stand in `known`.
/// Faults are added to `diagnostics` with place, pointer and remedy; a limit with a fault is left out.
std::vector<DayLimit> load_day_limits(const std::vector<RuleFile>& files, const PestTable& known,
                                      Diagnostics& diagnostics);

}  // namespace budclock::rules
