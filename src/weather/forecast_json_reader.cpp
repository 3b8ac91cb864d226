#include <budclock/document/json_tree.hpp>
#include <budclock/weather/forecast_json_reader.hpp>
#include <budclock/weather/value_text.hpp>

#include "forecast_document.hpp"
#include "forecast_period.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <map>

namespace budclock::weather {
namespace {

using document::JsonNode;
using Kind = JsonNode::Kind;

constexpr int k_noon = 12 * 60;
constexpr long k_hour = 60;

/// Puts the periods of one forecast together.
class ForecastReader {
 public:
  ForecastReader(ProblemList& problems, const StationHandler& on_station)
      : problems_{problems}, collector_{problems, [&on_station](StationRecord&& record) {
                                          as_forecast(record.days.tmin);
                                          as_forecast(record.days.tmax);
                                          on_station(std::move(record));
                                        }} {}

  FileSummary read(const JsonNode& list) {
    std::vector<ForecastPeriod> periods;
    for (const JsonNode& node : list.items) {
      if (const auto period = read_period(node, problems_)) periods.push_back(*period);
    }
    const bool hourly = std::all_of(periods.begin(), periods.end(), [](const ForecastPeriod& period) {
      return minutes_between(period.start, period.end) <= k_hour;
    });
    FileSummary summary;
    for (const ForecastPeriod& period : periods) {
      if (has_value(period.temperature.origin)) summary.unit = period.unit;
    }
    collector_.set_unit(summary.unit.value_or(TemperatureUnit::fahrenheit));
    hourly ? add_hours(periods) : add_days_and_nights(periods);
    collector_.finish();
    if (collector_.stations() == 0) {
      problems_.add(Severity::error, list.line, list.column, "no period of the forecast can be used",
                    "get the forecast again");
    }
    summary.layout = hourly ? "Weather Service forecast, hourly" : "Weather Service forecast, days and nights";
    summary.kind = RecordKind::forecast;
    summary.unit_evidence = UnitEvidence::layout;
    summary.stations = collector_.stations();
    summary.rows = list.items.size();
    summary.within_day = hourly;
    summary.partial_days = collector_.partial_days();
    return summary;
  }

 private:
  struct Given {
    DayValue value;
    const JsonNode* node = nullptr;
  };

  static void as_forecast(std::vector<DayValue>& values) {
    for (DayValue& value : values) {
      if (has_value(value.origin)) value.origin = Origin::forecast;
    }
  }

  /// Keeps what a period says, unless another has said something else.
  void give(Given& given, const ForecastPeriod& period) {
    const DayValue again = period.temperature;
    if (given.node == nullptr) {
      given = {again, period.node};
      return;
    }
    if (!has_value(again.origin) || !has_value(given.value.origin) || again.value == given.value.value) return;
    add_fault(
        *period.node,
        fmt::format("another temperature than that of the same time at {}; both are set aside", given.node->pointer),
        "get the forecast again", problems_);
    given.value.origin = Origin::set_aside;
  }

  void add_hours(const std::vector<ForecastPeriod>& periods) {
    std::map<LocalTime, Given> hours;
    for (const ForecastPeriod& period : periods) give(hours[period.start], period);
    for (const auto& [time, given] : hours) {
      builder(given).add_reading(time.day, time.minute, given.value, given.value, given.node->line);
    }
  }

  void add_days_and_nights(const std::vector<ForecastPeriod>& periods) {
    struct Date {
      Given tmin, tmax;
    };
    std::map<Day, Date> dates;
    for (const ForecastPeriod& period : periods) {
      if (period.daytime && period.start.minute > k_latest_for_maximum) {
        problems_.add(Severity::note, period.node->line, period.node->column,
                      fmt::format("this day period begins late on {} and gives no maximum", iso(period.start.day)));
        continue;
      }
      const bool ends_next_morning = !period.daytime && period.start.minute >= k_noon;
      const Day day = period.start.day + date::days{ends_next_morning ? 1 : 0};
      if (year_of(day) > k_last_year) continue;
      Date& date = dates[day];
      give(period.daytime ? date.tmax : date.tmin, period);
    }
    for (const auto& [day, date] : dates) {
      const Given& first = date.tmin.node != nullptr ? date.tmin : date.tmax;
      builder(first).add(day, date.tmin.value, date.tmax.value, first.node->line, TemperatureUnit::fahrenheit,
                         problems_);
    }
  }

  StationBuilder& builder(const Given& given) { return *collector_.builder_of("", given.node->line); }

  ProblemList& problems_;
  StationCollector collector_;
};

}  // namespace

bool is_json(std::string_view start) {
  const std::size_t first = start.find_first_not_of(" \t\r\n");
  return first != std::string_view::npos && (start[first] == '{' || start[first] == '[');
}

FileSummary read_forecast_json(ByteSource& source, ProblemList& problems, const ReadOptions&,
                               const StationHandler& on_station) {
  const auto root = parse_forecast(source, problems);
  if (!root) return {};
  const JsonNode* const periods = periods_of(*root, problems);
  return periods == nullptr ? FileSummary{} : ForecastReader{problems, on_station}.read(*periods);
}

}  // namespace budclock::weather
