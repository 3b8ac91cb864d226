// One period of a Weather Service forecast.
#pragma once

#include <budclock/document/json_tree.hpp>
#include <budclock/weather/daily_series.hpp>
#include <budclock/weather/problem_list.hpp>

#include <compare>
#include <optional>
#include <string>

namespace budclock::weather {

/// A local time with its distance from UTC.
struct LocalTime {
  Day day{};
  int minute = 0;          ///< of the local day
  int offset_minutes = 0;  ///< local time minus UTC
  friend auto operator<=>(const LocalTime&, const LocalTime&) = default;
};

/// Minutes from one time to another.
long minutes_between(const LocalTime& from, const LocalTime& to);

/// Reads "2019-10-14T20:00:00-04:00". UTC, given as Z or +00:00, is read too: its offset is 0.
std::optional<LocalTime> parse_local_time(std::string_view text);

struct ForecastPeriod {
  const document::JsonNode* node = nullptr;
  LocalTime start, end;
  bool daytime = false;
  TemperatureUnit unit = TemperatureUnit::fahrenheit;
  DayValue temperature;  ///< Origin::set_aside when it cannot be used
};

/// Adds a fault at a node's place, with its JSON pointer.
void add_fault(const document::JsonNode& node, const std::string& message, std::string remedy, ProblemList& problems);

/// Reads a period's times alone; nothing, with a fault, when they cannot be used.
std::optional<ForecastPeriod> read_times(const document::JsonNode& node, ProblemList& problems);

/// Reads the number and its unit: {"unitCode": "wmoUnit:degC", "value": 20}, or 68 beside "temperatureUnit": "F".
void read_temperature(const document::JsonNode& node, ForecastPeriod& period, ProblemList& problems);

/// Reads a period; nothing, with a fault, when its times cannot be used.
std::optional<ForecastPeriod> read_period(const document::JsonNode& node, ProblemList& problems);

}  // namespace budclock::weather
