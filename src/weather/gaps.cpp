#include <budclock/weather/reader.hpp>

#include <fmt/format.h>

namespace budclock::weather {

std::vector<Gap> gaps(const DailySeries& series) {
  std::vector<Gap> found;
  for (std::size_t i = 0; i < series.size(); ++i) {
    if (series.complete(i)) continue;
    const Day day = series.day(i);
    if (!found.empty() && found.back().last + date::days{1} == day) {
      found.back().last = day;
    } else {
      found.push_back({day, day});
    }
  }
  return found;
}

Diagnostics gap_notes(const DailySeries& series, std::string_view file_name) {
  Diagnostics notes;
  for (const Gap& gap : gaps(series)) {
    std::string message = gap.days() == 1
                              ? fmt::format("1 day missing, {}", iso(gap.first))
                              : fmt::format("{} days missing, {} to {}", gap.days(), iso(gap.first), iso(gap.last));
    notes.push_back({Severity::note, {std::string{file_name}, 0, 0}, std::move(message), {}});
  }
  return notes;
}

}  // namespace budclock::weather
