// What the measuring tools of forecasts read: a record, and the sums of the shipped pests.
#pragma once

#include <budclock/forecast/hindcast.hpp>
#include <budclock/rules/load.hpp>
#include <budclock/weather/reader.hpp>

#include <fstream>
#include <set>
#include <tuple>
#include <vector>

namespace budclock::tools {

/// A daily record with the unit in its header.
inline weather::DailySeries read(const char* path) {
  std::ifstream file{path, std::ios::binary};
  weather::StreamSource source{file};
  weather::DailySeries days;
  read_weather(source, path, {}, [&](weather::StationRecord&& record) { days = std::move(record.days); });
  return days;
}

/// The sums of all shipped pests, each once.
inline std::vector<forecast::SumEvent> events() {
  Diagnostics diagnostics;
  const rules::PestTable table = rules::load(rules::shipped_files(), diagnostics);
  std::vector<const rules::Pest*> pests;
  for (const rules::Pest& pest : table.pests) pests.push_back(&pest);
  std::set<std::tuple<degree_day::Formula, unsigned, unsigned, DegreeDays>> seen;
  std::vector<forecast::SumEvent> events;
  for (const forecast::Figure& figure : forecast::figures_of(pests)) {
    const forecast::SumEvent& event = figure.event;
    const auto key = std::tuple{event.formula, unsigned{event.start.month()}, unsigned{event.start.day()}, event.sum};
    if (seen.insert(key).second) events.push_back(event);
  }
  return events;
}

}  // namespace budclock::tools
