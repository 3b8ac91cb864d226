#include <budclock/weather/table_layout.hpp>

#include <algorithm>
#include <fmt/format.h>

namespace budclock::weather {
namespace {

constexpr std::size_t k_none = ColumnMap::k_none;

const char* delimiter_word(char delimiter) {
  if (delimiter == '\t') return "tab-separated";
  return delimiter == ';' ? "semicolon-separated" : "comma-separated";
}

/// Looks at the names of one table.
class LayoutFinder {
 public:
  explicit LayoutFinder(const ColumnMap& columns) : columns_{columns} {}

  TableLayout find(char delimiter, const std::string& titles) {
    if (columns_.element != k_none) return long_table(delimiter);
    if (has("DLY-TMAX-NORMAL") && has("DLY-TMIN-NORMAL")) return normals();
    if (has("wban") && has("t_daily_max")) {
      return {.name = "NOAA USCRN daily values, comma-separated", .unit = TemperatureUnit::celsius};
    }
    if (columns_.day_of_year != k_none && titles.find("Daymet") != std::string::npos) {
      return {.name = "Daymet single pixel", .unit = TemperatureUnit::celsius};
    }
    if (is_order({"STATION", "STATION_NAME"})) return {.name = "NOAA Climate Data Online export, old"};
    if (is_order({"STATION", "NAME"}) && has("DATE")) return online_export();
    if (has("TMAX_ATTRIBUTES") || has("TMIN_ATTRIBUTES")) return by_station();
    return plain(delimiter);
  }

 private:
  std::size_t place_of(std::string_view name) const {
    const auto at = std::find(columns_.names.begin(), columns_.names.end(), name);
    return at == columns_.names.end() ? k_none : static_cast<std::size_t>(at - columns_.names.begin());
  }
  bool has(std::string_view name) const { return place_of(name) != k_none; }
  bool is_order(std::initializer_list<std::string_view> names) const {
    return names.size() <= columns_.names.size() && std::equal(names.begin(), names.end(), columns_.names.begin());
  }

  /// NOAA GHCN-Daily, readme.txt: TMAX and TMIN in tenths of °C; flags are measurement, quality, source.
  void use_attributes(TableLayout& layout) const {
    layout.tmax_flags = place_of("TMAX_ATTRIBUTES");
    layout.tmin_flags = place_of("TMIN_ATTRIBUTES");
    if (layout.tmax_flags != k_none || layout.tmin_flags != k_none) layout.flags = FlagStyle::attributes;
  }

  TableLayout by_station() const {
    TableLayout layout{.name = "NOAA GHCN-Daily by station, with attribute columns", .tenths_when_large = true};
    use_attributes(layout);
    return layout;
  }

  TableLayout online_export() const {
    TableLayout layout{.name = "NOAA Climate Data Online export", .whole_numbers_are_degrees = true};
    use_attributes(layout);
    if (layout.flags != FlagStyle::none) layout.name += ", with attribute columns";
    return layout;
  }

  /// NOAA NCEI, U.S. Climate Normals 1991-2020, daily, by station: temperatures in °F.
  static TableLayout normals() {
    return {.name = "NOAA daily climate normals",
            .kind = RecordKind::normals,
            .unit = TemperatureUnit::fahrenheit,
            .dates_without_year = true};
  }

  /// NOAA GHCN-Daily by year, readme-by_year.txt: ID, YYYYMMDD, element, value in tenths of °C, measurement flag,
  /// quality flag, source flag, time of observation. The quality flag is told by its name, or by its place.
  TableLayout long_table(char delimiter) const {
    TableLayout layout{.name = fmt::format("long table, {}, one row an element", delimiter_word(delimiter))};
    for (std::size_t i = 0; i < columns_.names.size(); ++i) {
      const std::string name = plain_name(columns_.names[i]);
      if (name == "qflag" || name == "qualityflag") layout.tmax_flags = i;
    }
    const bool four_after = columns_.names.size() >= columns_.value + 4;
    if (layout.tmax_flags == k_none && four_after) layout.tmax_flags = columns_.value + 2;
    if (layout.tmax_flags == k_none) return layout;
    layout.name = "NOAA GHCN-Daily by year, one row an element";
    layout.flags = FlagStyle::quality;
    layout.unit = TemperatureUnit::celsius;
    layout.tenths = true;
    return layout;
  }

  TableLayout plain(char delimiter) const {
    TableLayout layout;
    const bool within_day = columns_.temperature != k_none;
    layout.name = fmt::format("{}, {}{}", within_day ? "readings within the day" : "table", delimiter_word(delimiter),
                              columns_.header_line == 0 ? ", without a header" : "");
    use_letters(layout);
    return layout;
  }

  /// Long-term ecological research sites: the column "f.airtmax" holds the flags of "airtmax".
  void use_letters(TableLayout& layout) const {
    const std::size_t maximum = columns_.temperature != k_none ? columns_.temperature : columns_.tmax;
    if (maximum != k_none) layout.tmax_flags = place_of("f." + columns_.names[maximum]);
    if (columns_.tmin != k_none) layout.tmin_flags = place_of("f." + columns_.names[columns_.tmin]);
    if (layout.tmax_flags == k_none && layout.tmin_flags == k_none) return;
    layout.flags = FlagStyle::letters;
    layout.name += ", with flag columns";
  }

  const ColumnMap& columns_;
};

}  // namespace

TableLayout recognise_layout(const ColumnMap& columns, char delimiter, const std::string& titles) {
  return LayoutFinder{columns}.find(delimiter, titles);
}

}  // namespace budclock::weather
