#include "forecast_period.hpp"

#include <budclock/weather/value_text.hpp>

#include <cmath>
#include <fmt/format.h>

namespace budclock::weather {
namespace {

using document::JsonNode;
using Kind = JsonNode::Kind;

constexpr const char* k_get_again = "get the forecast again";

/// The number of two digits at `at`, up to `most`; -1 when there is none.
int two_digits(std::string_view text, std::size_t at, int most) {
  const auto number = whole_number(text.substr(at, 2));
  return number && *number >= 0 && *number <= most ? *number : -1;
}

/// "+05:30" as minutes.
std::optional<int> parse_offset(std::string_view text) {
  if (text == "Z") return 0;
  constexpr std::size_t k_length = 6;
  constexpr int k_most_hours = 14;
  if (text.size() != k_length || (text[0] != '+' && text[0] != '-') || text[3] != ':') return std::nullopt;
  const int hours = two_digits(text, 1, k_most_hours);
  const int minutes = two_digits(text, 4, 59);
  if (hours < 0 || minutes < 0) return std::nullopt;
  return (text[0] == '-' ? -1 : 1) * (hours * 60 + minutes);
}

/// The unit that a code such as "wmoUnit:degC" or a letter names.
std::optional<TemperatureUnit> unit_of(std::string_view code) {
  if (code == "F" || code.ends_with(":degF")) return TemperatureUnit::fahrenheit;
  if (code == "C" || code.ends_with(":degC")) return TemperatureUnit::celsius;
  return std::nullopt;
}

std::optional<LocalTime> read_time(const JsonNode& period, std::string_view key, ProblemList& problems) {
  const JsonNode* const node = period.find(key);
  const auto time = node != nullptr && node->kind == Kind::string ? parse_local_time(node->text) : std::nullopt;
  if (!time) {
    add_fault(node == nullptr ? period : *node,
              fmt::format("the period has no {} such as \"2026-04-16T06:00:00-04:00\"; it is set aside", key),
              k_get_again, problems);
    return std::nullopt;
  }
  if (time->offset_minutes == 0) {
    add_fault(*node, "the time is in UTC, so the local date is not known; the period is set aside",
              "get the forecast of the place, which has local times", problems);
    return std::nullopt;
  }
  return time;
}

}  // namespace

long minutes_between(const LocalTime& from, const LocalTime& to) {
  constexpr long k_minutes_a_day = 24 * 60;
  return static_cast<long>((to.day - from.day).count()) * k_minutes_a_day + (to.minute - to.offset_minutes) -
         (from.minute - from.offset_minutes);
}

std::optional<LocalTime> parse_local_time(std::string_view text) {
  constexpr std::size_t k_date = 10;
  constexpr std::size_t k_time = 19;  // with the date: "2019-10-14T20:00:00"
  if (text.size() <= k_time || text[k_date] != 'T' || text[13] != ':' || text[16] != ':') return std::nullopt;
  const auto day = parse_iso_day(text.substr(0, k_date));
  const int hour = two_digits(text, 11, 23);
  const int minute = two_digits(text, 14, 59);
  const auto offset = parse_offset(text.substr(k_time));
  if (!day || hour < 0 || minute < 0 || two_digits(text, 17, 59) < 0 || !offset) return std::nullopt;
  return LocalTime{*day, hour * 60 + minute, *offset};
}

void add_fault(const JsonNode& node, const std::string& message, std::string remedy, ProblemList& problems) {
  problems.add(Severity::fault, node.line, node.column, fmt::format("{} at {}", message, node.pointer),
               std::move(remedy));
}

void read_temperature(const JsonNode& node, ForecastPeriod& period, ProblemList& problems) {
  period.temperature.origin = Origin::set_aside;
  const JsonNode* const temperature = node.find("temperature");
  if (temperature == nullptr) {
    return add_fault(node, "the period has no temperature; it is set aside", k_get_again, problems);
  }
  const bool with_unit_code = temperature->kind == Kind::object;
  const JsonNode* const number = with_unit_code ? temperature->find("value") : temperature;
  if (number == nullptr || number->kind != Kind::number) {
    return add_fault(*temperature, "the temperature is not a number; it is set aside", k_get_again, problems);
  }
  const JsonNode* const code = with_unit_code ? temperature->find("unitCode") : node.find("temperatureUnit");
  const auto unit = code != nullptr && code->kind == Kind::string ? unit_of(code->text) : std::nullopt;
  if (!unit) {
    return add_fault(code == nullptr ? *temperature : *code,
                     "the temperature's unit is neither F nor C; it is set aside", k_get_again, problems);
  }
  period.unit = *unit;
  constexpr double k_most_degrees = 1000;
  if (std::abs(number->number) > k_most_degrees) {
    return add_fault(*number, fmt::format("{} is no temperature; it is set aside", number->text), k_get_again,
                     problems);
  }
  const Temperature value = Temperature::in(*unit, number->number);
  if (value < k_coldest || value > k_warmest) {
    return add_fault(*number,
                     fmt::format("{} is outside what has ever been measured; it is set aside", with_unit(value, *unit)),
                     k_get_again, problems);
  }
  period.temperature = {value, Origin::forecast};
}

std::optional<ForecastPeriod> read_times(const JsonNode& node, ProblemList& problems) {
  if (node.kind != Kind::object) {
    add_fault(node, "this is not a period; it is set aside", k_get_again, problems);
    return std::nullopt;
  }
  const auto start = read_time(node, "startTime", problems);
  const auto end = read_time(node, "endTime", problems);
  if (!start || !end) return std::nullopt;
  constexpr long k_longest = 24 * 60;
  const long length = minutes_between(*start, *end);
  if (length <= 0 || length > k_longest) {
    add_fault(node, "the period does not end within a day after its start; it is set aside", k_get_again, problems);
    return std::nullopt;
  }
  ForecastPeriod period;
  period.node = &node;
  period.start = *start;
  period.end = *end;
  return period;
}

std::optional<ForecastPeriod> read_period(const JsonNode& node, ProblemList& problems) {
  auto period = read_times(node, problems);
  if (!period) return std::nullopt;
  const JsonNode* const daytime = node.find("isDaytime");
  if (daytime == nullptr || daytime->kind != Kind::boolean) {
    add_fault(daytime == nullptr ? node : *daytime, "isDaytime is neither true nor false; the period is set aside",
              k_get_again, problems);
    return std::nullopt;
  }
  period->daytime = daytime->boolean;
  read_temperature(node, *period, problems);
  return period;
}

}  // namespace budclock::weather
