#include <budclock/weather/hourly_forecast.hpp>

#include "forecast_document.hpp"
#include "forecast_period.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>

namespace budclock::weather {
namespace {

using document::JsonNode;
using Kind = JsonNode::Kind;

constexpr const char* k_get_again = "get the forecast again";
constexpr long k_hour = 60;
constexpr double k_kilometres_a_mile = 1.609344;

/// The member, or null when the forecast leaves it out or says null.
const JsonNode* said(const JsonNode& node, std::string_view key) {
  const JsonNode* const found = node.find(key);
  return found == nullptr || found->kind == Kind::null ? nullptr : found;
}

std::optional<Temperature> read_hour_temperature(const JsonNode& node, ProblemList& problems) {
  const JsonNode* const given = said(node, "temperature");
  if (given == nullptr) return std::nullopt;
  if (given->kind == Kind::object && said(*given, "value") == nullptr) return std::nullopt;
  ForecastPeriod period;
  read_temperature(node, period, problems);
  return has_value(period.temperature.origin) ? std::optional{period.temperature.value} : std::nullopt;
}

/// {"unitCode": "wmoUnit:percent", "value": 20}, or 20.
std::optional<double> read_percent(const JsonNode& node, std::string_view key, ProblemList& problems) {
  const JsonNode* const given = said(node, key);
  if (given == nullptr) return std::nullopt;
  const JsonNode* number = given;
  if (given->kind == Kind::object) {
    const JsonNode* const code = given->find("unitCode");
    if (code != nullptr && (code->kind != Kind::string || !code->text.ends_with("percent"))) {
      add_fault(*code, fmt::format("{} is not in percent; it counts as not known", key), k_get_again, problems);
      return std::nullopt;
    }
    number = said(*given, "value");
    if (number == nullptr) return std::nullopt;
  }
  if (number->kind != Kind::number || number->number < 0 || number->number > 100) {
    add_fault(*number, fmt::format("{} is no number from 0 to 100; it counts as not known", key), k_get_again,
              problems);
    return std::nullopt;
  }
  return number->number;
}

/// Takes a plain number off the front of `text`.
std::optional<double> take_number(std::string_view& text) {
  const std::size_t length = std::min(text.find_first_not_of("0123456789."), text.size());
  double number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + length, number);
  if (error != std::errc{} || end != text.data() + length) return std::nullopt;
  text.remove_prefix(length);
  return number;
}

/// "5 mph", "5 to 10 mph", "10 km/h".
std::optional<WindSpeed> wind_in(std::string_view text) {
  constexpr std::string_view k_to = " to ";
  const auto low = take_number(text);
  if (!low) return std::nullopt;
  auto high = low;
  if (text.starts_with(k_to)) {
    text.remove_prefix(k_to.size());
    high = take_number(text);
    if (!high) return std::nullopt;
  }
  if (text == " mph") return WindSpeed{*low, *high};
  if (text == " km/h") return WindSpeed{*low / k_kilometres_a_mile, *high / k_kilometres_a_mile};
  return std::nullopt;
}

/// {"unitCode": "wmoUnit:km_h-1", "value": 18}, or with "minValue" and "maxValue".
std::optional<WindSpeed> wind_of(const JsonNode& object) {
  const JsonNode* const code = said(object, "unitCode");
  if (code == nullptr || code->kind != Kind::string || !code->text.ends_with("km_h-1")) return std::nullopt;
  const JsonNode* low = said(object, "value");
  const JsonNode* high = low;
  if (low == nullptr) {
    low = said(object, "minValue");
    high = said(object, "maxValue");
  }
  if (low == nullptr || high == nullptr || low->kind != Kind::number || high->kind != Kind::number) {
    return std::nullopt;
  }
  return WindSpeed{low->number / k_kilometres_a_mile, high->number / k_kilometres_a_mile};
}

/// A quantity without any value says nothing, and is no fault.
bool says_nothing(const JsonNode& object) {
  return said(object, "value") == nullptr && said(object, "minValue") == nullptr && said(object, "maxValue") == nullptr;
}

std::optional<WindSpeed> read_wind(const JsonNode& node, ProblemList& problems) {
  const JsonNode* const given = said(node, "windSpeed");
  if (given == nullptr) return std::nullopt;
  if (given->kind == Kind::string && given->text.empty()) return std::nullopt;
  if (given->kind == Kind::object && says_nothing(*given)) return std::nullopt;
  std::optional<WindSpeed> wind;
  if (given->kind == Kind::string) wind = wind_in(given->text);
  if (given->kind == Kind::object) wind = wind_of(*given);
  if (!wind || wind->low_mph < 0 || wind->low_mph > wind->high_mph || wind->high_mph > k_most_wind_mph) {
    add_fault(*given, "the wind speed is not written as \"5 mph\" or \"5 to 10 mph\"; it counts as not known",
              k_get_again, problems);
    return std::nullopt;
  }
  return wind;
}

std::string read_words(const JsonNode& node, std::string_view key, ProblemList& problems) {
  const JsonNode* const given = said(node, key);
  if (given == nullptr) return {};
  if (given->kind == Kind::string) return given->text;
  add_fault(*given, fmt::format("{} is no text; it counts as not known", key), k_get_again, problems);
  return {};
}

ForecastHour read_hour(const JsonNode& node, const LocalTime& start, ProblemList& problems) {
  ForecastHour hour;
  hour.day = start.day;
  hour.minute = start.minute;
  hour.offset_minutes = start.offset_minutes;
  hour.temperature = read_hour_temperature(node, problems);
  hour.humidity_percent = read_percent(node, "relativeHumidity", problems);
  hour.wind = read_wind(node, problems);
  hour.rain_chance_percent = read_percent(node, "probabilityOfPrecipitation", problems);
  hour.wind_direction = read_words(node, "windDirection", problems);
  hour.words = read_words(node, "shortForecast", problems);
  return hour;
}

/// The first polygon's outer ring; none when the corners cannot be read, for the hours do not need them.
std::vector<OutlinePoint> outline_of(const JsonNode& geometry, int depth) {
  constexpr int k_deepest = 8;
  if (const JsonNode* const all = geometry.find("geometries"); all != nullptr && depth < k_deepest) {
    for (const JsonNode& each : all->items) {
      auto found = outline_of(each, depth + 1);
      if (!found.empty()) return found;
    }
  }
  const JsonNode* const type = geometry.find("type");
  const JsonNode* const rings = geometry.find("coordinates");
  if (type == nullptr || type->text != "Polygon" || rings == nullptr || rings->items.empty()) return {};
  std::vector<OutlinePoint> outline;
  for (const JsonNode& corner : rings->items.front().items) {
    if (corner.items.size() < 2 || corner.items[0].kind != Kind::number || corner.items[1].kind != Kind::number) {
      return {};
    }
    outline.push_back({corner.items[1].number, corner.items[0].number});
  }
  return outline;
}

}  // namespace

long utc_minute(const ForecastHour& hour) {
  constexpr long k_minutes_a_day = 24 * 60;
  return static_cast<long>(hour.day.time_since_epoch().count()) * k_minutes_a_day + hour.minute - hour.offset_minutes;
}

std::vector<ForecastHour> read_hourly_forecast(ByteSource& source, ProblemList& problems,
                                               std::vector<OutlinePoint>* outline) {
  const auto root = parse_forecast(source, problems);
  if (root && outline != nullptr) {
    const JsonNode* const geometry = root->find("geometry");
    if (geometry != nullptr) *outline = outline_of(*geometry, 0);
  }
  const JsonNode* const list = root ? periods_of(*root, problems) : nullptr;
  if (list == nullptr) return {};
  struct Found {
    ForecastHour hour;
    const JsonNode* node = nullptr;
  };
  std::vector<Found> found;
  std::vector<const JsonNode*> longer;
  for (const JsonNode& node : list->items) {
    const auto times = read_times(node, problems);
    if (!times) continue;
    if (minutes_between(times->start, times->end) != k_hour) {
      longer.push_back(&node);
      continue;
    }
    found.push_back({read_hour(node, times->start, problems), &node});
  }
  if (found.empty()) {
    const bool days = !longer.empty();
    problems.add(Severity::error, list->line, list->column,
                 days ? "this forecast has days and nights, not hours" : "no hour of the forecast can be used",
                 days ? "get the hourly forecast of the place" : k_get_again);
    return {};
  }
  for (const JsonNode* node : longer) {
    add_fault(*node, "this period is not one hour long; it is set aside", k_get_again, problems);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Found& a, const Found& b) { return utc_minute(a.hour) < utc_minute(b.hour); });
  std::vector<ForecastHour> hours;
  for (Found& each : found) {
    if (!hours.empty() && utc_minute(each.hour) - utc_minute(hours.back()) < k_hour) {
      add_fault(*each.node, "this hour has begun in another period; it is set aside", k_get_again, problems);
      continue;
    }
    hours.push_back(std::move(each.hour));
  }
  return hours;
}

}  // namespace budclock::weather
