// Reads a text with the weather reader and keeps everything it says, for tests.
#pragma once

#include <budclock/weather/reader.hpp>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::weather::test {

struct Reading {
  FileSummary summary;
  std::vector<StationRecord> stations;
  std::vector<std::string> said;  ///< the diagnostics as people see them
};

inline Reading read_source(ByteSource& source, const ReadOptions& options = {}, std::string_view name = "w.csv") {
  Reading reading;
  reading.summary = read_weather(source, name, options,
                                 [&](StationRecord&& record) { reading.stations.push_back(std::move(record)); });
  for (const Diagnostic& entry : reading.summary.diagnostics) reading.said.push_back(to_text(entry));
  return reading;
}

inline Reading read_text(std::string_view text, const ReadOptions& options = {}) {
  MemorySource source{text};
  return read_source(source, options);
}

inline ReadOptions in_fahrenheit() {
  ReadOptions options;
  options.units = TemperatureUnit::fahrenheit;
  return options;
}

/// Hands out its bytes in pieces of a given size.
class PieceSource final : public ByteSource {
 public:
  PieceSource(std::string_view bytes, std::size_t piece) : rest_{bytes}, piece_{piece} {}
  std::size_t read(std::span<char> buffer) override {
    const std::size_t count = std::min({buffer.size(), rest_.size(), piece_});
    std::copy_n(rest_.data(), count, buffer.data());
    rest_.remove_prefix(count);
    return count;
  }

 private:
  std::string_view rest_;
  std::size_t piece_;
};

/// "2014-04-16 70/41.5": a day with its maximum and minimum in °F; "-" is absent, "x" set aside.
inline std::vector<std::string> days_text(const DailySeries& days, TemperatureUnit unit = TemperatureUnit::fahrenheit) {
  const auto shown = [unit](DayValue value) -> std::string {
    if (value.origin == Origin::absent) return "-";
    if (value.origin == Origin::set_aside) return "x";
    std::string text = to_text(value.value, unit, 2);
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
  };
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < days.size(); ++i) {
    lines.push_back(iso(days.day(i)) + " " + shown(days.tmax[i]) + "/" + shown(days.tmin[i]));
  }
  return lines;
}

using Lines = std::vector<std::string>;

}  // namespace budclock::weather::test
