#include <budclock/weather/quality.hpp>
#include <budclock/weather/record_check.hpp>

#include <algorithm>

namespace budclock::weather {
namespace {

std::size_t count(const std::vector<DayValue>& values, bool (*wanted)(Origin)) {
  return static_cast<std::size_t>(
      std::count_if(values.begin(), values.end(), [&](const DayValue& value) { return wanted(value.origin); }));
}

bool lacks_value(Origin origin) { return !has_value(origin); }
bool is_set_aside(Origin origin) { return origin == Origin::set_aside; }

}  // namespace

StationCheck check_station(const StationRecord& station, std::string_view file_name) {
  StationCheck check;
  check.id = station.id;
  check.rows = station.rows;
  check.duplicates = station.duplicates;
  DailySeries days = station.days;
  if (days.empty()) return check;
  check.first = days.first;
  check.last = days.last();
  check.days = days.size();
  check.partial_days = station.partial_days;
  check.set_aside = count(days.tmin, is_set_aside) + count(days.tmax, is_set_aside) - 2 * station.partial_days;

  const auto doubts = check_quality(days, station.unit);
  set_aside(days, doubts);
  check.doubted = doubts.size();
  check.problems = quality_faults(doubts, file_name, station.unit);
  if (!station.id.empty()) {
    for (Diagnostic& problem : check.problems) problem.message = station.id + " " + problem.message;
  }

  check.missing_minima = count(days.tmin, lacks_value);
  check.missing_maxima = count(days.tmax, lacks_value);
  for (const Gap& gap : gaps(days)) {
    if (!check.longest_gap || gap.days() > check.longest_gap->days()) check.longest_gap = gap;
  }
  check.by_line = fill_by_line(days);
  return check;
}

}  // namespace budclock::weather
