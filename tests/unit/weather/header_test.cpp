#include <budclock/weather/header.hpp>

#include "reading.hpp"

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::weather;
using budclock::weather::test::Lines;

namespace {

/// "tmax F", "tmin", "date", ... as read from a name.
std::string role(std::string_view name) {
  static const char* const k_roles[] = {"other", "date",        "year", "month", "day",         "station", "tmax",
                                        "tmin",  "temperature", "time", "hour",  "day of year", "element", "value"};
  const ColumnName column = read_column_name(name);
  std::string text = k_roles[static_cast<std::size_t>(column.role)];
  if (column.unit) text += std::string{" "} + symbol(*column.unit);
  return text;
}

struct Mapped {
  std::optional<ColumnMap> columns;
  Lines said;
};

Mapped map(std::string_view header, std::optional<TemperatureUnit> unit = std::nullopt,
           const ColumnChoice& chosen = {}) {
  MemorySource source{header};
  RowSplitter rows{source};
  REQUIRE(rows.next());
  ProblemList problems{"w.csv"};
  Mapped mapped;
  mapped.columns = map_columns(rows.fields(), 1, unit, chosen, problems);
  for (const Diagnostic& entry : problems.take()) mapped.said.push_back(to_text(entry));
  return mapped;
}

constexpr auto k_f = TemperatureUnit::fahrenheit;
constexpr auto k_c = TemperatureUnit::celsius;

}  // namespace

TEST_CASE("names of the maximum and minimum are known in the trade's and NOAA's spellings") {
  for (const char* name : {"tmax", "TMAX", " Tmax ", "T max", "max_temp", "MaxTemp", "Max Temp", "temp_max", "high",
                           "High", "maximum temperature", "Maximum Temp.", "airtmax", "AirTMax", "temp high", "MAX",
                           "Daily High", "tx", "\"TMAX\""}) {
    CHECK(role(name) == "tmax");
  }
  for (const char* name : {"tmin", "TMIN", "min_temp", "MinTemp", "temp_min", "low", "minimum temperature", "airtmin",
                           "Daily Low", "tn", "lo", "Min"}) {
    CHECK(role(name) == "tmin");
  }
}

TEST_CASE("the unit is read from the name") {
  for (const char* name : {"tmax_f", "TMAX (F)", "Max Temp (°F)", "Max.Temp.F", "tmaxf", "tmax_degf", "Tmax [deg F]",
                           "maximum temperature, degrees Fahrenheit", "high °F",
                           "high \xB0"
                           "F"}) {
    CHECK(role(name) == "tmax F");
  }
  for (const char* name :
       {"tmin_c", "TMIN (C)", "Min Temp (°C)", "tminc", "tmin_degc", "tmin (deg c)", "low Celsius"}) {
    CHECK(role(name) == "tmin C");
  }
}

TEST_CASE("names that only resemble an extreme are passed over") {
  for (const char* name : {"tavg", "max wind", "tmax_flag", "f.airtmax", "average_max_temp", "record_max_temp",
                           "TMAX (tenths of degrees C)", "maxrh", "", "c", "TOBS"}) {
    CHECK(role(name) == "other");
  }
}

TEST_CASE("dates and stations are known by their usual names") {
  CHECK(role("DATE") == "date");
  CHECK(role("Obs_Date") == "date");
  CHECK(role("Year") == "year");
  CHECK(role(" month") == "month");
  CHECK(role("STATION") == "station");
  CHECK(role("station_id") == "station");
  CHECK(role("NAME") == "station");
}

TEST_CASE("columns are found in any order, an id before a name") {
  const auto columns = map("name,TMIN (F),rain,TMAX (F),id,date").columns;
  REQUIRE(columns);
  CHECK(columns->tmin == 1);
  CHECK(columns->tmax == 3);
  CHECK(columns->station == 4);
  CHECK(columns->date == 5);
  CHECK(columns->count == 6);
  CHECK(columns->unit == k_f);
  CHECK(columns->unit_evidence == UnitEvidence::header);
}

TEST_CASE("a date column goes before split columns, which serve without one") {
  CHECK(map("year,month,day,date,tmax_c,tmin_c").columns->date == 3);
  const auto split = map("Year, month, day, tmax_c, tmin_c").columns;
  REQUIRE(split);
  CHECK(split->date == ColumnMap::k_none);
  CHECK(split->day == 2);
  CHECK(map("day,tmax_c,tmin_c").columns->date == 0);
}

TEST_CASE("the unit comes from --units when the header has none") {
  const auto columns = map("date,tmax,tmin", k_c).columns;
  REQUIRE(columns);
  CHECK(columns->unit == k_c);
  CHECK(columns->unit_evidence == UnitEvidence::option);
  CHECK(map("date,tmax_f,tmin_f", k_f).columns->unit_evidence == UnitEvidence::header);
  CHECK(map("date,tmax_f,tmin").columns->unit == k_f);
}

TEST_CASE("of columns in both units the first, or those that --units names, are read") {
  const char* const header = "date,tmax_c,tmin_c,tmax_f,tmin_f";
  CHECK(map(header).columns->unit == k_c);
  const auto columns = map(header, k_f).columns;
  REQUIRE(columns);
  CHECK(columns->unit == k_f);
  CHECK(columns->tmax == 3);
  CHECK(columns->tmin == 4);
}

TEST_CASE("a header that leaves something open is an error that says what to do") {
  CHECK(map("date,tmax_f,tmin_f", k_c).said ==
        Lines{"w.csv:1:6: column \"tmax_f\" is in degrees F, but --units says C: drop --units or correct the header"});
  CHECK(map("date,tmax_f,tmin_c").said ==
        Lines{"w.csv:1: columns \"tmax_f\" and \"tmin_c\" are in different units: give both in one unit"});
  CHECK(map("date,tmax_f,max temp (F),tmin_f").said ==
        Lines{"w.csv:1:13: columns \"tmax_f\" and \"max temp (F)\" both "
              "look like the daily maximum: choose with --columns tmax=NAME"});
  CHECK(map("date,rain").said ==
        Lines{"w.csv:1: no column for the daily maximum and minimum (columns: date, rain): name them tmax and tmin, or "
              "choose with --columns tmax=NAME,tmin=NAME"});
  CHECK(map("date,tmin_f").said ==
        Lines{"w.csv:1: no column for the daily maximum (columns: date, tmin_f): name it tmax, or choose it with "
              "--columns tmax=NAME"});
  CHECK(map("date,tmax_f").said ==
        Lines{"w.csv:1: no column for the daily minimum (columns: date, tmax_f): name it tmin, or choose it with "
              "--columns tmin=NAME"});
  CHECK(map("when it was,tmax_f,tmin_f").said ==
        Lines{"w.csv:1: no column for the date (columns: when it was, tmax_f, tmin_f): name it date, or name three "
              "columns year, month and day, or choose it with --columns date=NAME"});
}

TEST_CASE("a wide header is shown in part") {
  CHECK(
      map("a,b,c,d,e,f,g,h,i,j,k,l,m,date").said ==
      Lines{"w.csv:1: no column for the daily maximum and minimum (columns: a, b, c, d, e, f, g, h, i, j, k, l, ...): "
            "name them tmax and tmin, or choose with --columns tmax=NAME,tmin=NAME"});
}

TEST_CASE("readings within the day, times and elements are known by their usual names") {
  CHECK(role("Temp, °F (logger 20123, channel 2)") == "temperature F");
  CHECK(role("temperature") == "temperature");
  CHECK(role("tempf") == "temperature F");
  CHECK(role("Date Time, GMT-05:00") == "date");
  CHECK(role("when") == "date");
  CHECK(role("Time") == "time");
  CHECK(role("hour") == "hour");
  CHECK(role("yday") == "day of year");
  CHECK(role("element") == "element");
  CHECK(role("value") == "value");
}

TEST_CASE("further trade spellings of the extremes are known") {
  CHECK(role("Hi Temp") == "tmax");
  CHECK(role("Low Temp") == "tmin");
  CHECK(role("Lo Temp (F)") == "tmin F");
  CHECK(role("Temp Hi") == "tmax");
  CHECK(role("AirTC_Max") == "tmax");
  CHECK(role("t_daily_min") == "tmin");
  CHECK(role("DLY-TMIN-NORMAL") == "tmin");
  CHECK(role("actual_max_temp") == "tmax");
}

TEST_CASE("columns can be chosen by name or by place, against what the header says") {
  const char* const header = "when it was,warmest (F),coldest (F),tmax_f,tmin_f";
  const auto columns = map(header, {}, {.date = "when it was", .tmax = "Warmest (F)", .tmin = "3"}).columns;
  REQUIRE(columns);
  CHECK(columns->date == 0);
  CHECK(columns->tmax == 1);
  CHECK(columns->tmin == 2);
  CHECK(columns->unit == k_f);
  CHECK(columns->unit_evidence == UnitEvidence::header);
  CHECK(map("date,tmax,tmin", k_f, {.tmax = "high"}).said ==
        Lines{"w.csv:1: --columns names \"high\", and there is no such column: the columns are date, tmax, tmin"});
  CHECK(map("date,inside temp,temp,temp 2", k_f, {.temperature = "temp 2"}).columns->temperature == 3);
}

TEST_CASE("two columns of readings are an error that names the option") {
  CHECK(map("date,temp,temperature", k_f).said ==
        Lines{"w.csv:1:11: columns \"temp\" and \"temperature\" both look like the temperature: choose with --columns "
              "temperature=NAME"});
}
