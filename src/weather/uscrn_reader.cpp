#include <budclock/weather/line_reader.hpp>
#include <budclock/weather/station_filter.hpp>
#include <budclock/weather/uscrn_reader.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <span>

namespace budclock::weather {
namespace {

constexpr auto k_unit = TemperatureUnit::celsius;
constexpr std::int32_t k_no_value = -999'900;  // hundredths
constexpr const char* k_get_again = "get the file again";

/// Where the fields of a layout stand, counted from 0.
struct FieldPlaces {
  std::size_t count;
  std::size_t date;
  std::size_t time;  ///< of hourly lines; else as `date`
  std::size_t tmax;
  std::size_t tmin;
  bool hourly() const { return time != date; }
};
constexpr std::size_t k_station = 0;
constexpr FieldPlaces k_daily{.count = 28, .date = 1, .time = 1, .tmax = 5, .tmin = 6};
constexpr FieldPlaces k_hourly{.count = 38, .date = 3, .time = 4, .tmax = 10, .tmin = 11};
constexpr std::size_t k_most_fields = 38;

/// The fields of a line.
struct Fields {
  std::array<std::string_view, k_most_fields> text;
  std::size_t count = 0;  ///< may be larger than there is room for
};

Fields split(std::string_view line) {
  Fields fields;
  for (std::size_t at = line.find_first_not_of(' '); at < line.size();) {
    const std::size_t end = std::min(line.find(' ', at), line.size());
    if (fields.count < k_most_fields) fields.text[fields.count] = line.substr(at, end - at);
    ++fields.count;
    at = line.find_first_not_of(' ', end);
  }
  return fields;
}

bool is_number_of(std::string_view text, std::size_t digits) {
  return text.size() == digits && text.find_first_not_of("0123456789") == std::string_view::npos;
}

bool fits(const Fields& fields, const FieldPlaces& places) {
  constexpr std::size_t k_station_digits = 5;
  constexpr std::size_t k_date_digits = 8;
  constexpr std::size_t k_time_digits = 4;
  return fields.count == places.count && is_number_of(fields.text[k_station], k_station_digits) &&
         is_number_of(fields.text[places.date], k_date_digits) &&
         (!places.hourly() || is_number_of(fields.text[places.time], k_time_digits));
}

bool starts_with_line_of(std::string_view start, const FieldPlaces& places) {
  return fits(split(start.substr(0, start.find_first_of("\r\n"))), places);
}

class UscrnReader {
 public:
  UscrnReader(ByteSource& source, const FieldPlaces& places, ProblemList& problems, const ReadOptions& options,
              const StationHandler& on_station)
      : lines_{source},
        places_{places},
        problems_{problems},
        filter_{options.station},
        collector_{problems, on_station} {
    collector_.set_unit(k_unit);
  }

  FileSummary read() {
    while (lines_.next()) read_line();
    collector_.finish();
    if (!filter_.report_if_unknown(problems_) && collector_.stations() == 0) {
      problems_.add(Severity::error, 0, 0, "no line can be used", k_get_again);
    }
    FileSummary summary;
    summary.layout = places_.hourly() ? "Climate Reference Network, hourly" : "Climate Reference Network, daily";
    summary.unit = k_unit;
    summary.unit_evidence = UnitEvidence::layout;
    summary.stations = collector_.stations();
    summary.rows = rows_;
    summary.within_day = places_.hourly();
    summary.partial_days = collector_.partial_days();
    return summary;
  }

 private:
  void fault(std::string_view field, std::string message, std::string remedy) {
    const auto column = static_cast<std::size_t>(field.data() - lines_.text().data()) + 1;
    problems_.add(Severity::fault, lines_.line(), column, std::move(message), std::move(remedy));
  }

  void read_line() {
    const Fields fields = split(lines_.text());
    if (fields.count == 0 && !lines_.too_long()) return;
    if (!fits(fields, places_)) {
      ++rows_;
      return fault(
          lines_.text(),
          fmt::format("the line is not {} fields that begin with a station and a date; it is set aside", places_.count),
          k_get_again);
    }
    const std::string_view station = fields.text[k_station];
    if (!filter_.keeps(station)) return;
    ++rows_;
    const std::string_view date = fields.text[places_.date];
    const auto day = make_day(*whole_number(date.substr(0, 4)), number(date.substr(4, 2)), number(date.substr(6, 2)));
    if (!day) {
      return fault(date, fmt::format("\"{}\" does not exist; the line is set aside", date), "correct the date");
    }
    DayValue tmax = read_value(fields.text[places_.tmax]);
    DayValue tmin = read_value(fields.text[places_.tmin]);
    if (places_.hourly()) return add_hour(fields, *day, tmin, tmax);
    StationBuilder* const builder = collector_.builder_of(station, lines_.line());
    if (builder != nullptr) builder->add(*day, tmin, tmax, lines_.line(), k_unit, problems_);
  }

  static unsigned number(std::string_view digits) { return static_cast<unsigned>(*whole_number(digits)); }

  /// Adds the hour that ends at the line's time.
  void add_hour(const Fields& fields, Day day, DayValue tmin, DayValue tmax) {
    constexpr int k_hours = 24;
    constexpr int k_minutes = 60;
    const std::string_view time = fields.text[places_.time];
    int hour = *whole_number(time.substr(0, 2));
    if (hour >= k_hours || time.substr(2) != "00") {
      return fault(time, fmt::format("\"{}\" is not a full hour; the line is set aside", time), "correct the time");
    }
    if (hour == 0) {
      day -= date::days{1};
      hour = k_hours;
    }
    if (year_of(day) < k_first_year) {
      return fault(time, fmt::format("the hour is before {}; the line is set aside", k_first_year), "correct the date");
    }
    if (has_value(tmin.origin) && has_value(tmax.origin) && tmin.value > tmax.value) {
      fault(fields.text[places_.tmax],
            fmt::format("the hour's minimum {} is above its maximum {}; both are set aside",
                        with_unit(tmin.value, k_unit), with_unit(tmax.value, k_unit)),
            "correct the line");
      tmin = tmax = {{}, Origin::set_aside};
    }
    StationBuilder* const builder = collector_.builder_of(fields.text[k_station], lines_.line());
    const int middle = hour * k_minutes - k_minutes / 2;
    if (builder != nullptr) builder->add_reading(day, middle, tmin, tmax, lines_.line());
  }

  DayValue read_value(std::string_view text) {
    const Cell cell = read_cell(text, '.');
    if (cell.kind != CellKind::number) {
      fault(text, fmt::format("\"{}\" is not a temperature; it is set aside", text), k_get_again);
      return {{}, Origin::set_aside};
    }
    if (cell.hundredths == k_no_value) return {};
    const auto column = static_cast<std::size_t>(text.data() - lines_.text().data()) + 1;
    return checked_value(temperature_of(cell.hundredths, k_unit), k_unit, lines_.line(), column, problems_);
  }

  LineReader lines_;
  const FieldPlaces& places_;
  ProblemList& problems_;
  StationFilter filter_;
  StationCollector collector_;
  std::size_t rows_ = 0;
};

}  // namespace

bool is_uscrn_daily(std::string_view start) { return starts_with_line_of(start, k_daily); }
bool is_uscrn_hourly(std::string_view start) { return starts_with_line_of(start, k_hourly); }

FileSummary read_uscrn_daily(ByteSource& source, ProblemList& problems, const ReadOptions& options,
                             const StationHandler& on_station) {
  return UscrnReader{source, k_daily, problems, options, on_station}.read();
}

FileSummary read_uscrn_hourly(ByteSource& source, ProblemList& problems, const ReadOptions& options,
                              const StationHandler& on_station) {
  return UscrnReader{source, k_hourly, problems, options, on_station}.read();
}

}  // namespace budclock::weather
