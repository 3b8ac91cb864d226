// Any bytes as a weather record: no crash, no hang, and what must hold of a record holds.

#include <budclock/weather/reader.hpp>
#include <budclock/weather/value_text.hpp>

#include "fuzz.hpp"

#include <algorithm>
#include <cstdlib>
#include <string_view>
#include <vector>

using namespace budclock;
using namespace budclock::weather;

namespace {

void demand(bool held) {
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

void check_day(DayValue tmin, DayValue tmax) {
  for (const DayValue value : {tmin, tmax}) {
    demand(value.origin <= Origin::observed);
    demand(!has_value(value.origin) || (value.value >= k_coldest && value.value <= k_warmest));
  }
  demand(!has_value(tmin.origin) || !has_value(tmax.origin) || tmin.value <= tmax.value);
}

struct Outcome {
  std::size_t stations = 0;
  std::size_t days = 0;
  Diagnostics diagnostics;
};

Outcome read(std::string_view bytes, std::size_t piece, const ReadOptions& options) {
  constexpr std::size_t k_most_days = 182'986;  // 1700-01-01 to 2200-12-31
  Outcome outcome;
  Pieces source{bytes, piece};
  FileSummary summary = read_weather(source, "w.csv", options, [&](StationRecord&& record) {
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

}  // namespace

int fuzz_one(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes{reinterpret_cast<const char*>(data), size};
  ReadOptions options;
  const Outcome whole = read(bytes, size + 1, options);
  const Outcome in_pieces = read(bytes, 1 + size % 7, options);
  demand(whole.days == in_pieces.days && whole.diagnostics == in_pieces.diagnostics);

  options.units = TemperatureUnit::fahrenheit;
  options.date_order = size % 2 == 0 ? DateOrder::month_day_year : DateOrder::day_month_year;
  read(bytes, size + 1, options);
  return 0;
}
