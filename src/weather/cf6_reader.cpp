#include <budclock/weather/cf6_reader.hpp>
#include <budclock/weather/line_reader.hpp>
#include <budclock/weather/station_filter.hpp>
#include <budclock/weather/value_text.hpp>

#include <array>
#include <fmt/format.h>
#include <map>
#include <utility>

namespace budclock::weather {
namespace {

constexpr std::string_view k_form = "(WS FORM: F-6)";
constexpr std::string_view k_column_names = "DY MAX MIN";
constexpr std::string_view k_rule = "====";

// Places in a day's line, counted from 0.
constexpr std::size_t k_maximum = 2;
constexpr std::size_t k_minimum = 6;
constexpr std::size_t k_average = 10;
constexpr std::size_t k_after_average = 14;

constexpr auto k_unit = TemperatureUnit::fahrenheit;
constexpr const char* k_get_again = "get the product again";

struct Cell {
  DayValue tmin, tmax;
  std::size_t line = 0;  ///< 0: not read
};
using Month = std::array<Cell, 31>;

struct Heading {
  std::string station, month, year;
};

class Cf6Reader {
 public:
  Cf6Reader(ByteSource& source, ProblemList& problems, const ReadOptions& options)
      : lines_{source}, problems_{problems}, filter_{options.station} {}

  FileSummary read(const StationHandler& on_station) {
    while (lines_.next()) read_line();
    report_open_table();
    StationCollector collector{problems_, on_station};
    collector.set_unit(k_unit);
    hand_on(collector);
    if (!filter_.report_if_unknown(problems_) && collector.stations() == 0) {
      problems_.add(Severity::error, 0, 0, "no day of this monthly climate text can be used", k_get_again);
    }
    FileSummary summary;
    summary.layout = "Weather Service monthly climate text (CF6)";
    summary.unit = k_unit;
    summary.unit_evidence = UnitEvidence::layout;
    summary.stations = collector.stations();
    summary.rows = rows_;
    return summary;
  }

 private:
  enum class Where { heading, column_names, table, rest };

  void fault(std::size_t column, std::string message, std::string remedy) {
    problems_.add(Severity::fault, lines_.line(), column, std::move(message), std::move(remedy));
  }

  void read_line() {
    const std::string_view line = lines_.text();
    const std::string_view text = trimmed(line);
    if (text.find(k_form) != std::string_view::npos) {
      report_open_table();
      heading_ = {};
      where_ = Where::heading;
    } else if (text.starts_with(k_column_names)) {
      report_open_table();
      where_ = Where::column_names;
    } else if (text.starts_with(k_rule)) {
      if (where_ == Where::column_names) return begin_table();
      if (where_ == Where::table) where_ = Where::rest;
    } else if (where_ == Where::table) {
      if (!text.empty() || lines_.too_long()) read_day(line);
    } else if (where_ == Where::heading) {
      read_label(text);
    }
  }

  void read_label(std::string_view text) {
    const std::pair<std::string_view, std::string*> labels[] = {
        {"STATION:", &heading_.station}, {"MONTH:", &heading_.month}, {"YEAR:", &heading_.year}};
    for (const auto& [label, value] : labels) {
      if (text.starts_with(label)) *value = trimmed(text.substr(label.size()));
    }
  }

  void begin_table() {
    where_ = Where::table;
    table_line_ = lines_.line();
    month_ = nullptr;
    const Heading& h = heading_;
    if (h.station.empty() || h.month.empty() || h.year.empty()) {
      const char* what = h.station.empty() ? "station" : h.month.empty() ? "month" : "year";
      return fault(0, fmt::format("this product names no {}; its days are set aside", what), k_get_again);
    }
    const DateReading first = DateReader{DateOrder::month_day_year}.read(fmt::format("{} 1, {}", h.month, h.year));
    if (first.fault != DateFault::none || !whole_number(h.year)) {
      return fault(0, fmt::format("\"{} {}\" is not a month; the product's days are set aside", h.month, h.year),
                   k_get_again);
    }
    first_ = first.day;
    month_ = &months_[{h.station, first_}];
  }

  void report_open_table() {
    if (where_ != Where::table) return;
    problems_.add(Severity::fault, table_line_, 0, "the table that begins here is not closed, so days may be lost",
                  k_get_again);
    where_ = Where::rest;
  }

  void read_day(std::string_view line) {
    if (month_ != nullptr && !filter_.keeps(heading_.station)) return;
    ++rows_;
    if (month_ == nullptr) return;
    const bool in_columns =
        line.size() >= k_after_average && line[k_maximum] == ' ' && line[k_minimum] == ' ' && line[k_average] == ' ';
    const auto number = in_columns ? whole_number(trimmed(line.substr(0, k_maximum))) : std::nullopt;
    if (!number) {
      return fault(1, "this is not a day with maximum, minimum and average in their columns; the line is set aside",
                   k_get_again);
    }
    const date::year_month_day month{first_};
    const auto day = *number < 1 ? std::nullopt
                                 : make_day(int{month.year()}, unsigned{month.month()}, static_cast<unsigned>(*number));
    if (!day) return fault(1, fmt::format("the month has no day {}; the line is set aside", *number), k_get_again);
    const DayValue tmax = read_value(line, k_maximum);
    const DayValue tmin = read_value(line, k_minimum);
    Cell& cell = (*month_)[static_cast<std::size_t>(*number - 1)];
    merge(cell.tmax, tmax, "maximum", *day, cell.line);
    merge(cell.tmin, tmin, "minimum", *day, cell.line);
    if (cell.line == 0) cell.line = lines_.line();
  }

  DayValue read_value(std::string_view line, std::size_t place) {
    constexpr std::size_t k_length = 4;
    const std::string_view text = trimmed(line.substr(place, k_length));
    if (text == "M" || text == "MM") return {};
    const auto degrees = whole_number(text);
    if (!degrees) {
      fault(place + 1, fmt::format("\"{}\" is not a temperature; it is set aside", text), "write whole degrees, or M");
      return {{}, Origin::set_aside};
    }
    constexpr int k_hundredths = 100;
    return checked_value(temperature_of(*degrees * k_hundredths, k_unit), k_unit, lines_.line(), place + 1, problems_);
  }

  /// Takes a value that another product of the month may have given on line `before`.
  void merge(DayValue& kept, DayValue again, const char* name, Day day, std::size_t before) {
    if (again.origin == Origin::absent || kept.origin == Origin::set_aside) return;
    if (kept.origin == Origin::absent) {
      kept = again;
      return;
    }
    if (again.origin == kept.origin && again.value == kept.value) return;
    if (has_value(again.origin)) {
      fault(0,
            fmt::format("the {} of {} is {} on line {} and {} here; it is set aside", name, iso(day),
                        with_unit(kept.value, k_unit), before, with_unit(again.value, k_unit)),
            "keep only the newest product of the month");
    }
    kept.origin = Origin::set_aside;
  }

  void hand_on(StationCollector& collector) {
    for (const auto& [key, month] : months_) {
      for (std::size_t i = 0; i < month.size(); ++i) {
        const Cell& cell = month[i];
        if (cell.line == 0) continue;
        StationBuilder* const builder = collector.builder_of(key.first, cell.line);
        if (builder == nullptr) continue;
        builder->add(key.second + date::days{static_cast<int>(i)}, cell.tmin, cell.tmax, cell.line, k_unit, problems_);
      }
    }
    collector.finish();
  }

  LineReader lines_;
  ProblemList& problems_;
  StationFilter filter_;
  Where where_ = Where::rest;
  Heading heading_;
  Day first_{};
  std::size_t table_line_ = 0;
  Month* month_ = nullptr;  ///< that of the table; null when it is not known
  std::map<std::pair<std::string, Day>, Month> months_;
  std::size_t rows_ = 0;
};

}  // namespace

bool is_cf6(std::string_view start) { return start.find(k_form) != std::string_view::npos; }

FileSummary read_cf6(ByteSource& source, ProblemList& problems, const ReadOptions& options,
                     const StationHandler& on_station) {
  return Cf6Reader{source, problems, options}.read(on_station);
}

}  // namespace budclock::weather
