// Any bytes as an hourly forecast: no crash, no hang, and every value that is known lies within its bounds.

#include <budclock/weather/hourly_forecast.hpp>
#include <budclock/weather/value_text.hpp>

#include "fuzz.hpp"

#include <cstdlib>
#include <string_view>

using namespace budclock::weather;

namespace {

void promise(bool kept) {
  if (!kept) std::abort();
}

bool is_percent(const std::optional<double>& value) { return !value || (*value >= 0 && *value <= 100); }

}  // namespace

int fuzz_one(const std::uint8_t* data, std::size_t size) {
  MemorySource source{{reinterpret_cast<const char*>(data), size}};
  ProblemList problems{"fuzz"};
  const auto hours = read_hourly_forecast(source, problems);
  for (std::size_t i = 0; i < hours.size(); ++i) {
    const ForecastHour& hour = hours[i];
    promise(hour.minute >= 0 && hour.minute < 24 * 60 && hour.offset_minutes != 0);
    promise(!hour.temperature || (*hour.temperature >= k_coldest && *hour.temperature <= k_warmest));
    promise(is_percent(hour.humidity_percent) && is_percent(hour.rain_chance_percent));
    promise(!hour.wind || (hour.wind->low_mph >= 0 && hour.wind->low_mph <= hour.wind->high_mph &&
                           hour.wind->high_mph <= k_most_wind_mph));
    promise(i == 0 || utc_minute(hour) - utc_minute(hours[i - 1]) >= 60);
  }
  promise(!hours.empty() || budclock::any_at_least(problems.take(), budclock::Severity::error));
  return 0;
}
