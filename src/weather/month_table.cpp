#include <budclock/weather/column_names.hpp>
#include <budclock/weather/month_table.hpp>
#include <budclock/weather/station_filter.hpp>
#include <budclock/weather/table_survey.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <charconv>
#include <fmt/format.h>
#include <string>

namespace budclock::weather {
namespace {

constexpr std::size_t k_days = 31;
constexpr std::size_t k_first_day = 2;  ///< after the station and the month
constexpr std::size_t k_columns = k_first_day + k_days;

/// Whether the file holds maxima or minima; nothing, with an error, when nothing tells.
std::optional<bool> holds_maxima(std::string_view file_name, const ColumnChoice& chosen, ProblemList& problems) {
  const bool maxima = !chosen.tmax.empty() || (chosen.tmin.empty() && file_name.find("tmax") != std::string_view::npos);
  const bool minima = !chosen.tmin.empty() || (chosen.tmax.empty() && file_name.find("tmin") != std::string_view::npos);
  if (maxima != minima) {
    problems.add(
        Severity::note, 0, 0,
        fmt::format("the file holds daily {} only, as its name or --columns says", maxima ? "maxima" : "minima"));
    return maxima;
  }
  problems.add(Severity::error, 0, 0, "nothing tells whether the file holds daily maxima or daily minima",
               "add --columns tmax=DAY1 or --columns tmin=DAY1");
  return std::nullopt;
}

/// Reads the rows of one file.
class MonthReader {
 public:
  MonthReader(RowSplitter& rows, bool maxima, ProblemList& problems, const ReadOptions& options,
              const std::function<void(StationRecord&&)>& on_station)
      : rows_{rows}, maxima_{maxima}, problems_{problems}, filter_{options.station}, collector_{problems, on_station} {
    collector_.set_unit(TemperatureUnit::fahrenheit);
  }

  void read(FileSummary& summary) {
    while (!collector_.full() && rows_.next()) read_row();
    collector_.finish();
    summary.rows = kept_;
    summary.stations = collector_.stations();
    if (!filter_.report_if_unknown(problems_) && kept_ == 0) {
      problems_.add(Severity::error, 0, 0, "the file has a header line but no rows",
                    "give one row a month of each station");
    }
  }

 private:
  void read_row() {
    const std::span<const Field> fields = rows_.fields();
    if (rows_.fault() != RowFault::none || fields.size() < k_columns) {
      ++kept_;
      problems_.add(Severity::fault, rows_.line(), 0, "the row is not a month of 31 values; it is set aside",
                    "export the file again");
      return;
    }
    const std::string_view id = cell_text(fields, 0);
    if (!filter_.keeps(id)) return;
    ++kept_;
    StationBuilder* const builder = collector_.builder_of(id, rows_.line());
    if (builder == nullptr) return;
    for (std::size_t i = 0; i < k_days; ++i) read_day(*builder, fields, i);
  }

  void read_day(StationBuilder& builder, std::span<const Field> fields, std::size_t i) {
    const Field& field = fields[k_first_day + i];
    std::string_view text = trimmed(field.text);
    if (!text.empty() && std::string_view{"CSRPQ"}.find(text.back()) != std::string_view::npos) text.remove_suffix(1);
    int tenths = 0;
    const auto [stopped, error] = std::from_chars(text.data(), text.data() + text.size(), tenths);
    const bool number = error == std::errc{} && stopped == text.data() + text.size();
    if (text.empty() || (number && (tenths == -8888 || tenths == -9999 || tenths == -6666))) return;
    const DateReading date =
        DateReader::from_month_day(fmt::format("{}-{}", cell_text(fields, 1), i + 1), k_normals_year);
    if (date.fault != DateFault::none) {
      return fault(field,
                   fmt::format("month \"{}\" has no day {}; its value is set aside", cell_text(fields, 1), i + 1));
    }
    const bool possible = number && tenths > -2000 && tenths < 2000;
    const Temperature value = Temperature::hundredths_fahrenheit(possible ? tenths * 10 : 0);
    if (!possible || value < k_coldest || value > k_warmest) {
      fault(field, fmt::format("\"{}\" is not a temperature in tenths F; it is set aside", trimmed(field.text)));
      builder.add_extreme(date.day, maxima_, {{}, Origin::set_aside}, rows_.line(), TemperatureUnit::fahrenheit,
                          problems_);
      return;
    }
    builder.add_extreme(date.day, maxima_, {value, Origin::observed}, rows_.line(), TemperatureUnit::fahrenheit,
                        problems_);
  }

  void fault(const Field& field, std::string message) {
    const auto [line, column] = rows_.position(field.offset);
    problems_.add(Severity::fault, line, column, std::move(message), "export the file again");
  }

  RowSplitter& rows_;
  const bool maxima_;
  ProblemList& problems_;
  StationFilter filter_;
  StationCollector collector_;
  std::size_t kept_ = 0;
};

}  // namespace

bool is_month_table(std::span<const Field> header) {
  if (header.size() != k_columns || read_column_name(header[0].text).role != ColumnRole::station) return false;
  if (read_column_name(header[1].text).role != ColumnRole::month) return false;
  return plain_name(header[k_first_day].text) == "day1" && plain_name(header[k_columns - 1].text) == "day31";
}

FileSummary read_month_table(RowSplitter& rows, ProblemList& problems, const ReadOptions& options,
                             const std::function<void(StationRecord&&)>& on_station) {
  FileSummary summary{.layout = "NOAA daily climate normals 1981-2010, one row a month",
                      .kind = RecordKind::normals,
                      .unit = TemperatureUnit::fahrenheit,
                      .unit_evidence = UnitEvidence::layout,
                      .tenths = true};
  const std::string_view file_name = problems.file();
  const auto slash = file_name.rfind('/');
  const std::string_view name = slash == std::string_view::npos ? file_name : file_name.substr(slash + 1);
  const auto maxima = holds_maxima(name, options.columns, problems);
  if (!maxima) return summary;
  MonthReader{rows, *maxima, problems, options, on_station}.read(summary);
  return summary;
}

}  // namespace budclock::weather
