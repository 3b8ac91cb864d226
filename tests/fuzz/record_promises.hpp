// What must hold of a record, whatever bytes it was read from: shared by the fuzz targets of the weather readers.
#pragma once

#include <budclock/weather/layout.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <cstdlib>
#include <functional>
#include <string_view>
#include <utility>

namespace budclock::weather {

inline void demand(bool held) {
  if (!held) std::abort();
}

/// Hands out bytes in pieces of one size.
class Pieces final : public ByteSource {
 public:
  Pieces(std::string_view bytes, std::size_t piece) : rest_{bytes}, piece_{piece} {}
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

inline void check_day(DayValue tmin, DayValue tmax) {
  for (const DayValue value : {tmin, tmax}) {
    demand(value.origin <= Origin::forecast);
    demand(!has_value(value.origin) || (value.value >= k_coldest && value.value <= k_warmest));
  }
  demand(!has_value(tmin.origin) || !has_value(tmax.origin) || tmin.value <= tmax.value);
}

struct Outcome {
  std::size_t stations = 0;
  std::size_t days = 0;
  Diagnostics diagnostics;
};

/// Reads a source; the diagnostics are in the summary.
using RecordReader = std::function<FileSummary(ByteSource&, const ReadOptions&, const StationHandler&)>;

/// A layout's reader as read_weather calls it.
inline RecordReader reader_of(decltype(Layout::read) read) {
  return [read](ByteSource& source, const ReadOptions& options, const StationHandler& on_station) {
    ProblemList problems{"w.txt"};
    FileSummary summary = read(source, problems, options, on_station);
    summary.diagnostics = problems.take();
    return summary;
  };
}

/// Reads `bytes` in pieces and aborts when a promise is broken.
inline Outcome read_and_check(const RecordReader& read, std::string_view bytes, std::size_t piece,
                              const ReadOptions& options) {
  constexpr std::size_t k_most_days = 182'986;  // 1700-01-01 to 2200-12-31
  Outcome outcome;
  Pieces source{bytes, piece};
  FileSummary summary = read(source, options, [&](StationRecord&& record) {
    ++outcome.stations;
    outcome.days += record.days.size();
    demand(record.days.size() <= k_most_days);
    demand(record.days.tmin.size() == record.days.tmax.size());
    demand(record.rows > record.duplicates || record.rows == 0);
    for (std::size_t i = 0; i < record.days.size(); ++i) check_day(record.days.tmin[i], record.days.tmax[i]);
  });
  outcome.diagnostics = std::move(summary.diagnostics);
  demand(outcome.stations == summary.stations);
  const bool failed = any_at_least(outcome.diagnostics, Severity::error);
  demand(failed || summary.rows > 0);
  for (const Diagnostic& entry : outcome.diagnostics) {
    demand(!entry.message.empty());
    demand(entry.severity == Severity::note || !entry.remedy.empty());
  }
  return outcome;
}

/// Reads `bytes` whole and in pieces, which must come to the same.
inline void check_whole_and_in_pieces(const RecordReader& read, std::string_view bytes, const ReadOptions& options) {
  const Outcome whole = read_and_check(read, bytes, bytes.size() + 1, options);
  const Outcome in_pieces = read_and_check(read, bytes, 1 + bytes.size() % 7, options);
  demand(whole.days == in_pieces.days && whole.diagnostics == in_pieces.diagnostics);
}

}  // namespace budclock::weather
