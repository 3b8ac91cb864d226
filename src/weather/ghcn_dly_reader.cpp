#include <budclock/weather/ghcn_dly_reader.hpp>
#include <budclock/weather/line_reader.hpp>
#include <budclock/weather/station_filter.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <fmt/format.h>

namespace budclock::weather {
namespace {

// Places in a line, counted from 0.
constexpr std::size_t k_id_length = 11;
constexpr std::size_t k_year = 11;
constexpr std::size_t k_month = 15;
constexpr std::size_t k_element = 17;
constexpr std::size_t k_values = 21;
constexpr std::size_t k_value_length = 5;
constexpr std::size_t k_quality_flag = 6;  // from the value's first column
constexpr std::size_t k_day_length = 8;
constexpr std::size_t k_days = 31;
constexpr std::size_t k_line_length = k_values + k_days * k_day_length;

constexpr std::string_view k_no_value = "-9999";
constexpr auto k_unit = TemperatureUnit::celsius;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_capital(char c) { return c >= 'A' && c <= 'Z'; }

bool is_blank(std::string_view text) { return text.find_first_not_of(' ') == std::string_view::npos; }

std::string_view without_blank_end(std::string_view text) { return text.substr(0, text.find_last_not_of(' ') + 1); }

/// True when a line begins with an id, a year, a month and an element.
bool has_heading(std::string_view line) {
  if (line.size() < k_values) return false;
  const auto all = [line](std::size_t begin, std::size_t end, auto is) {
    return std::all_of(line.begin() + std::ptrdiff_t(begin), line.begin() + std::ptrdiff_t(end), is);
  };
  const auto is_mark = [](char c) { return is_digit(c) || is_capital(c); };
  return all(0, k_year, [&](char c) { return is_mark(c) || c == '_' || c == '-'; }) &&
         all(k_year, k_element, is_digit) && all(k_element, k_values, is_mark) && is_capital(line[k_element]);
}

class DlyReader {
 public:
  DlyReader(ByteSource& source, ProblemList& problems, const ReadOptions& options, const StationHandler& on_station)
      : lines_{source}, problems_{problems}, filter_{options.station}, collector_{problems, on_station} {
    collector_.set_unit(k_unit);
  }

  FileSummary read() {
    while (lines_.next()) read_line();
    collector_.finish();
    if (!filter_.report_if_unknown(problems_) && collector_.stations() == 0) {
      problems_.add(Severity::error, 0, 0, "no line gives a value of TMAX or TMIN", "choose another station");
    }
    FileSummary summary;
    summary.layout = "GHCN-Daily, fixed width";
    summary.unit = k_unit;
    summary.unit_evidence = UnitEvidence::layout;
    summary.stations = collector_.stations();
    summary.rows = rows_;
    summary.flagged = flagged_;
    return summary;
  }

 private:
  void fault(std::size_t column, std::string message, std::string remedy) {
    problems_.add(Severity::fault, lines_.line(), column, std::move(message), std::move(remedy));
  }
  void set_line_aside(std::size_t column, std::string_view message) {
    ++rows_;
    fault(column, fmt::format("{}; the line is set aside", message), "get the file again");
  }

  void read_line() {
    const std::string_view line = without_blank_end(lines_.text());
    if (lines_.too_long()) return set_line_aside(1, "this is longer than a month can be");
    if (line.empty()) return;
    if (!has_heading(line)) return set_line_aside(1, "this does not begin with a station, a month and an element");
    const std::string_view id = line.substr(0, k_id_length);
    if (!filter_.keeps(id)) return;
    const auto first = make_day(*whole_number(line.substr(k_year, 4)),
                                static_cast<unsigned>(*whole_number(line.substr(k_month, 2))), 1);
    if (!first) {
      return set_line_aside(k_year + 1, fmt::format("\"{}\" is not a month", line.substr(k_year, k_element - k_year)));
    }
    const std::size_t days = days_of_month(*first);
    const std::size_t shortest = k_values + (days - 1) * k_day_length + k_value_length;
    if (line.size() < shortest || line.size() > k_line_length) {
      const std::size_t length = lines_.text().size();
      return set_line_aside(std::min(length, k_line_length) + 1,
                            fmt::format("this has {} characters instead of {}", length, k_line_length));
    }
    const std::string_view element = line.substr(k_element, k_values - k_element);
    if (element != "TMAX" && element != "TMIN") return;
    for (std::size_t i = 0; i < k_days; ++i) read_day(line, i, *first, days);
  }

  static std::size_t days_of_month(Day first) {
    const date::year_month_day day{first};
    return static_cast<unsigned>((day.year() / day.month() / date::last).day());
  }

  /// Adds the extreme of one day; nothing where nothing stands.
  void read_day(std::string_view line, std::size_t index, Day first, std::size_t days) {
    const std::size_t place = k_values + index * k_day_length;
    if (place >= line.size()) return;
    const std::string_view cell = line.substr(place, k_day_length);
    const std::string_view text = trimmed(cell.substr(0, k_value_length));
    if (text == k_no_value || is_blank(cell)) return;
    if (index >= days) {
      return fault(place + 1,
                   fmt::format("\"{}\" stands for day {}, after the month's end; it is left out", text, index + 1),
                   "get the file again");
    }
    ++rows_;
    DayValue value;
    if (cell.size() > k_quality_flag && cell[k_quality_flag] != ' ') {
      ++flagged_;
    } else {
      value = read_value(text, place + 1);
    }
    StationBuilder* const builder = collector_.builder_of(line.substr(0, k_id_length), lines_.line());
    if (builder == nullptr) return;
    const bool maximum = line.substr(k_element, k_values - k_element) == "TMAX";
    builder->add_extreme(first + date::days{static_cast<int>(index)}, maximum, value, lines_.line(), k_unit, problems_);
  }

  DayValue read_value(std::string_view text, std::size_t column) {
    constexpr int k_hundredths_a_tenth = 10;
    const auto tenths = whole_number(text);
    if (!tenths) {
      fault(column, fmt::format("\"{}\" is not a whole number of tenths of a degree; it is set aside", text),
            "get the file again");
      return {{}, Origin::set_aside};
    }
    return checked_value(temperature_of(*tenths * k_hundredths_a_tenth, k_unit), k_unit, lines_.line(), column,
                         problems_);
  }

  LineReader lines_;
  ProblemList& problems_;
  StationFilter filter_;
  StationCollector collector_;
  std::size_t rows_ = 0;
  std::size_t flagged_ = 0;
};

}  // namespace

bool is_ghcn_dly(std::string_view start) {
  if (!has_heading(start)) return false;
  const std::string_view value = trimmed(start.substr(k_values, k_value_length));
  return whole_number(value).has_value();
}

FileSummary read_ghcn_dly(ByteSource& source, ProblemList& problems, const ReadOptions& options,
                          const StationHandler& on_station) {
  return DlyReader{source, problems, options, on_station}.read();
}

}  // namespace budclock::weather
