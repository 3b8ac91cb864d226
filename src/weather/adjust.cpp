#include <budclock/weather/adjust.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <string>

namespace budclock::weather {
namespace {

constexpr double k_lapse_per_metre = 6.5 / 1000;  // °C; ICAO Doc 7488, standard atmosphere below 11 km

}  // namespace

DailySeries with_offset(const DailySeries& series, TemperatureDifference offset) {
  DailySeries moved = series;
  for (auto* values : {&moved.tmin, &moved.tmax}) {
    for (DayValue& value : *values) {
      if (has_value(value.origin)) value.value = value.value + offset;
    }
  }
  return moved;
}

TemperatureDifference lapse(double metres_above_station) {
  return TemperatureDifference::celsius(-k_lapse_per_metre * metres_above_station);
}

Shifted with_maxima_a_day_earlier(const DailySeries& series) {
  Shifted shifted;
  if (series.empty()) return shifted;
  DailySeries& days = shifted.days;
  days.first = series.first - date::days{1};
  days.tmin.emplace_back();
  days.tmin.insert(days.tmin.end(), series.tmin.begin(), series.tmin.end());
  days.tmax = series.tmax;
  days.tmax.emplace_back();
  for (std::size_t i = 0; i < days.size(); ++i) {
    if (!days.complete(i) || days.tmin[i].value <= days.tmax[i].value) continue;
    days.tmin[i].origin = days.tmax[i].origin = Origin::set_aside;
    ++shifted.set_aside;
  }
  return shifted;
}

Diagnostics read_time_notes(const std::vector<FileReadTime>& files) {
  const auto first_of = [&](ReadTime time) {
    return std::find_if(files.begin(), files.end(), [=](const FileReadTime& file) { return file.read_time == time; });
  };
  const auto shifted = first_of(ReadTime::morning);
  const auto unshifted = first_of(ReadTime::as_dated);
  if (shifted == files.end() || unshifted == files.end()) return {};
  return {{Severity::note,
           {std::string{unshifted->file}, 0, 0},
           fmt::format("its maxima stay on their dates, while those of {} are moved to the day before", shifted->file),
           "state the time of reading of each record that is read in the morning"}};
}

}  // namespace budclock::weather
