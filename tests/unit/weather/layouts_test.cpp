// Tables as publishers and loggers write them: what is recognised, and what is done with it.
#include <budclock/weather/reader.hpp>

#include "reading.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

using namespace budclock;
using namespace budclock::weather;
using namespace budclock::weather::test;

namespace {

constexpr auto k_c = TemperatureUnit::celsius;
constexpr auto k_f = TemperatureUnit::fahrenheit;

ReadOptions in(TemperatureUnit unit, bool tenths = false) {
  ReadOptions options;
  options.units = unit;
  options.tenths = tenths;
  return options;
}

ReadOptions with_columns(ReadOptions options, ColumnChoice columns) {
  options.columns = std::move(columns);
  return options;
}

/// Hours 0 to 23 of a day, the warmest at 15:00, as rows "date hour:00,temperature".
std::string hours(std::string_view date, int warmest, int first = 0, int last = 23) {
  std::string text;
  for (int hour = first; hour <= last; ++hour) {
    text += fmt::format("{} {:02}:00,{}\n", date, hour, warmest - std::abs(hour - 15));
  }
  return text;
}

/// Five days of a by-station table, tenths of °C, with a value that fails on the third.
const char* const k_by_station =
    "STATION,DATE,NAME,TMAX,TMAX_ATTRIBUTES,TMIN,TMIN_ATTRIBUTES\n"
    "USW00003870,2012-06-01,\"GREER, SC US\",\"  283\",\",,0\",\"  172\",\",,0\"\n"
    "USW00003870,2012-06-02,\"GREER, SC US\",\"  256\",\"H,,0\",\"  150\",\",,0\"\n"
    "USW00003870,2012-06-03,\"GREER, SC US\",\"  450\",\",S,0\",\"  156\",\",,0\"\n"
    "USW00003870,2012-06-04,\"GREER, SC US\",\"  300\",\",,0,2400\",\"  -99\",\",I,0\"\n"
    "USW00003870,2012-06-05,\"GREER, SC US\",,,\"  -99\",\",,0\"\n";

}  // namespace

TEST_CASE("GHCN-Daily by station: tenths C are told by their size, and a failed quality flag makes a value missing") {
  const Reading reading = read_text(k_by_station);
  CHECK(reading.said == Lines{});
  CHECK(reading.summary.layout == "NOAA GHCN-Daily by station, with attribute columns");
  CHECK(reading.summary.unit == k_c);
  CHECK(reading.summary.tenths);
  CHECK(reading.summary.unit_evidence == UnitEvidence::layout);
  CHECK(reading.summary.flagged == 2);
  CHECK(days_text(reading.stations.at(0).days, k_c) == Lines{"2012-06-01 28.3/17.2", "2012-06-02 25.6/15",
                                                             "2012-06-03 -/15.6", "2012-06-04 30/-",
                                                             "2012-06-05 -/-9.9"});
}

TEST_CASE("by station, whole numbers that could be degrees need --units") {
  const char* const text =
      "STATION,DATE,TMAX,TMAX_ATTRIBUTES,TMIN,TMIN_ATTRIBUTES\nA,2012-01-01,83,\",,0\",42,\",,0\"\n";
  CHECK(read_text(text).said == Lines{"w.csv:1: nothing tells the unit of columns \"TMAX\" and \"TMIN\": add --units F "
                                      "or --units C (in a sites file: units F or C)"});
  CHECK(days_text(read_text(text, in(k_f)).stations.at(0).days) == Lines{"2012-01-01 83/42"});
  CHECK(days_text(read_text(text, in(k_c, true)).stations.at(0).days, k_c) == Lines{"2012-01-01 8.3/4.2"});
}

TEST_CASE("GHCN-Daily by year: stations mixed, elements apart, failed values missing, other elements passed over") {
  const Reading reading = read_text(
      "USC00000001,20140616,TMAX,283,,,7,0700\nUSC00000002,20140616,TMAX,300,,I,7,\nUSC00000002,20140616,PRCP,0,,,7,\n"
      "USC00000001,20140616,TMIN,172,,,7,0700\nUSC00000002,20140616,TMIN,-9999,,,7,\nUSC00000003,20140616,SNOW,0,,,7,\n"
      "USC00000001,20140617,TMIN,150,,,7,0700\n");
  CHECK(reading.said == Lines{});
  CHECK(reading.summary.layout == "NOAA GHCN-Daily by year, one row an element");
  CHECK(reading.summary.unit_evidence == UnitEvidence::layout);
  CHECK(reading.summary.flagged == 1);
  CHECK(reading.summary.rows == 5);
  REQUIRE(reading.stations.size() == 2);
  CHECK(days_text(reading.stations[0].days, k_c) == Lines{"2014-06-16 28.3/17.2", "2014-06-17 -/15"});
  CHECK(days_text(reading.stations[1].days, k_c) == Lines{"2014-06-16 -/-"});
}

TEST_CASE("an element that comes twice for a day is a duplicate, and set aside when its values differ") {
  const Reading reading = read_text(
      "date,attr,value,a,b,c,d\n20140616,TMAX,283,,,W,2400\n20140616,TMIN,172,,,W,2400\n20140616,TMAX,290,,,W,2400\n");
  CHECK(reading.said ==
        Lines{"w.csv:4: 2014-06-16 was already given on line 2, with other values (maximum 28.3 C there "
              "and 29 C here); they are set aside: remove the wrong row"});
  CHECK(reading.stations.at(0).duplicates == 1);
  CHECK(days_text(reading.stations[0].days, k_c) == Lines{"2014-06-16 x/17.2"});
}

TEST_CASE("a long table without temperatures, or without flags and unit, is an error") {
  CHECK(read_text("USC00000001,20140616,PRCP,283,,,7,0700\n").said ==
        Lines{"w.csv: the file has no rows of the elements TMAX and TMIN: give one row a day"});
  CHECK(read_text("station,date,element,value\nA,2014-06-16,TMAX,28.3\nA,2014-06-16,TMIN,17.2\n").said ==
        Lines{"w.csv:1: nothing tells the unit of column \"value\": add --units F or --units C (in a sites file: units "
              "F or C)"});
}

TEST_CASE("numbers that only one unit allows tell it, unless they might be tenths") {
  const auto unit_of = [](std::string_view header, std::string_view decimals) {
    std::string text = fmt::format("{}\n", header);
    for (int day = 1; day <= 9; ++day)
      text += fmt::format("A,B,2014-07-0{},8{}{},60{}\n", day, day, decimals, decimals);
    return read_text(text).summary;
  };
  CHECK(unit_of("STATION,NAME,DATE,TMAX,TMIN", "").unit == k_f);
  CHECK(unit_of("STATION,NAME,DATE,TMAX,TMIN", "").unit_evidence == UnitEvidence::values);
  CHECK(unit_of("site,crew,date,tmax,tmin", ".5").unit == k_f);
  CHECK_FALSE(unit_of("site,crew,date,tmax,tmin", "").unit);
}

TEST_CASE("an old export in tenths needs --units, and the station may be named without its prefix") {
  const char* const text =
      "STATION,STATION_NAME,DATE,TMAX,TMIN\nGHCND:USW00024233,SEATTLE,20140701,344,167\n"
      "GHCND:USW00024233,SEATTLE,20140702,-9999,150\n";
  CHECK(
      read_text(text).said ==
      Lines{"w.csv:1: nothing tells the unit of columns \"TMAX\" and \"TMIN\"; many numbers are too large for degrees, "
            "so they are tenths of a degree: add --units tenths-C, or --units tenths-F"});
  ReadOptions options = in(k_c, true);
  for (const char* id : {"USW00024233", "GHCND:USW00024233"}) {
    options.station = id;
    const Reading reading = read_text(text, options);
    CHECK(reading.said == Lines{});
    CHECK(reading.summary.layout == "NOAA Climate Data Online export, old");
    CHECK(reading.stations.at(0).id == "USW00024233");
    CHECK(days_text(reading.stations[0].days, k_c) == Lines{"2014-07-01 34.4/16.7", "2014-07-02 -/15"});
  }
  CHECK(
      read_text(text, in(k_c)).said ==
      Lines{
          "w.csv:1: most numbers of columns \"TMAX\" and \"TMIN\" are too large for degrees C: if they are tenths of a "
          "degree, add --units tenths-C"});
}

TEST_CASE("daily normals stand in a leap year and are called normals") {
  const Reading reading = read_text(
      "\"STATION\",\"DATE\",\"month\",\"day\",\"hour\",\"DLY-TMAX-NORMAL\",\"DLY-TMIN-NORMAL\"\n"
      "\"USW00094728\",\"02-29\",\"02\",\"29\",\"99\",\"    46.1\",\"    33.0\"\n"
      "\"USW00094728\",\"13-01\",\"13\",\"01\",\"99\",\"    46.1\",\"    33.0\"\n");
  CHECK(reading.said == Lines{"w.csv:3:15: \"13-01\" does not exist; the row is set aside: correct the date"});
  CHECK(reading.summary.kind == RecordKind::normals);
  CHECK(reading.summary.unit_evidence == UnitEvidence::layout);
  CHECK(days_text(reading.stations.at(0).days) == Lines{"2000-02-29 46.1/33"});
}

TEST_CASE("normals with a row a month hold one extreme, named by the file or by --columns") {
  std::string text = "STNID,MONTH";
  for (int day = 1; day <= 31; ++day) text += fmt::format(",DAY{}", day);
  text += "\nUSC00190120,2";
  for (int day = 1; day <= 31; ++day) text += day < 30 ? fmt::format(",{}C", 300 + day) : ",-8888";
  text += "\n";
  CHECK(read_text(text).said == Lines{"w.csv: nothing tells whether the file holds daily maxima or daily minima: add "
                                      "--columns tmax=DAY1 or --columns tmin=DAY1"});
  const Reading chosen = read_text(text, with_columns({}, {.tmin = "DAY1"}));
  CHECK(days_text(chosen.stations.at(0).days).back() == "2000-02-29 -/32.9");
  MemorySource source{text};
  const Reading named = read_source(source, {}, "normals/dly-tmax-normal.csv");
  CHECK(named.summary.kind == RecordKind::normals);
  CHECK(days_text(named.stations.at(0).days).front() == "2000-02-01 30.1/-");
  CHECK(named.said == Lines{"normals/dly-tmax-normal.csv: the file holds daily maxima only, as its name or --columns "
                            "says"});
}

TEST_CASE("flag columns of field stations: missing and questionable fail, estimated does not") {
  const Reading reading = read_text(
      "date,airtmax,f.airtmax,airtmin,f.airtmin\n1994-11-01,12.5,Q,3, \n1994-11-02,11,E,2, \n1994-11-03,NA,M,1.5,\n",
      in(k_c));
  CHECK(reading.said == Lines{});
  CHECK(reading.summary.flagged == 1);
  CHECK(days_text(reading.stations.at(0).days, k_c) == Lines{"1994-11-01 -/3", "1994-11-02 11/2", "1994-11-03 -/1.5"});
}

TEST_CASE("lines above the header are told of and left out, and a day of the year is a date") {
  const Reading reading = read_text(
      "Latitude: 36.0133  Longitude: -84.2625\nAll years; Daymet\n\nyear,yday,tmax (deg c),tmin (deg c)\n"
      "2000.0,60.0,17.0,2.5\n2001,365,8,-1\n2001,366,8,-1\n");
  CHECK(reading.said ==
        Lines{"w.csv:1: the table begins on line 4; what stands above is left out",
              "w.csv:7:6: day \"366\" of \"2001\" does not exist; the row is set aside: correct the date"});
  CHECK(reading.summary.layout == "Daymet single pixel");
  const Lines days = days_text(reading.stations.at(0).days, k_c);
  CHECK(days.front() == "2000-02-29 17/2.5");
  CHECK(days.back() == "2001-12-31 8/-1");
}

TEST_CASE("a table without a header is read by places") {
  const char* const text = "19850416\t  283\t  172\t  -99\n19850417\t-9999\t  -99\t    0\n";
  const Reading reading = read_text(text, with_columns(in(k_c, true), {.date = "1", .tmax = "2", .tmin = "3"}));
  CHECK(reading.said == Lines{});
  CHECK(reading.summary.layout == "table, tab-separated, without a header");
  CHECK(days_text(reading.stations.at(0).days, k_c) == Lines{"1985-04-16 28.3/17.2", "1985-04-17 -/-9.9"});
  CHECK(read_text(text, with_columns(in(k_c, true), {.date = "1", .tmax = "2", .tmin = "9"})).said ==
        Lines{"w.csv:1: the first row is data, not a header line, and --columns does not give places in it: 1 "
              "\"19850416\", 2 \"283\", 3 \"172\", 4 \"-99\": say which column is which, as in --columns "
              "date=1,tmax=2,tmin=3"});
}

TEST_CASE("readings within the day become daily extremes, and partial days are set aside and told of") {
  const Reading reading = read_text("when,temperature\n" + hours("2015-05-01", 70) + hours("2015-05-02", 75, 0, 12) +
                                        "2015-05-03 00:00,\n2015-05-03 01:00,NA\n",
                                    in(k_f));
  CHECK(reading.said == Lines{"w.csv:26: 1 day(s) have three hours or more without a reading and are set aside: "
                              "2015-05-02"});
  CHECK(reading.summary.layout == "readings within the day, comma-separated");
  CHECK(reading.summary.within_day);
  CHECK(reading.summary.partial_days == 1);
  CHECK(reading.summary.rows == 39);
  CHECK(days_text(reading.stations.at(0).days) == Lines{"2015-05-01 70/55", "2015-05-02 x/x", "2015-05-03 -/-"});
}

TEST_CASE("times may stand in a column of their own, and stations may be mixed hour by hour") {
  std::string text = "origin,year,month,day,hour,temp\n";
  for (int hour = 0; hour < 24; ++hour) {
    for (const char* site : {"EWR", "JFK"}) text += fmt::format("{},2013,7,1,{},{}.5\n", site, hour, 60 + hour);
  }
  const Reading reading = read_text(text);
  CHECK(reading.said == Lines{});
  CHECK(reading.summary.unit_evidence == UnitEvidence::values);
  REQUIRE(reading.stations.size() == 2);
  CHECK(days_text(reading.stations[1].days) == Lines{"2013-07-01 83.5/60.5"});
  const Reading clock = read_text(
      "date,time,temp_f\n5/13/2015,12:00 AM,50\n5/13/2015,3:00 AM,49\n5/13/2015,noon,60\n"
      "5/13/2015,0600,51\n5/13/2015,9:00,52\n5/13/2015,12:00 PM,53\n5/13/2015,15,54\n"
      "5/13/2015,6 PM,53\n5/13/2015,9:00 p.m.,52\n");
  CHECK(clock.said == Lines{"w.csv:4:11: \"noon\" is not a time of day; the row is set aside: write it as 13:05"});
  CHECK(days_text(clock.stations.at(0).days) == Lines{"2015-05-13 54/49"});
}

TEST_CASE("extremes of parts of the day are reduced too") {
  std::string text = "date time;Hi Temp F;Low Temp F\n";
  for (int hour = 0; hour < 24; ++hour)
    text += fmt::format("2015-05-01 {:02}:00;{},5;{},5\n", hour, 60 + hour, 50 - hour);
  CHECK(days_text(read_text(text).stations.at(0).days) == Lines{"2015-05-01 83.5/27.5"});
}

TEST_CASE("times in UTC are told of, and times with an offset are taken as written") {
  std::string utc = "date,temp_f\n";
  std::string local = utc;
  for (int hour = 0; hour < 24; ++hour) {
    utc += fmt::format("2015-05-01T{:02}:00:00Z,60\n", hour);
    local += fmt::format("2015-05-01T{:02}:00:00-05:00,60\n", hour);
  }
  CHECK(
      read_text(utc).said ==
      Lines{"w.csv:2: the times are in UTC, so the days here run from midnight to midnight UTC, which in North America "
            "cuts the afternoon or the evening: export them in local time"});
  CHECK(read_text(local).said == Lines{});
  CHECK(days_text(read_text(local).stations.at(0).days) == Lines{"2015-05-01 60/60"});
}

TEST_CASE("one temperature a day shows no extremes") {
  CHECK(
      read_text("date,temp_f\n2015-05-01,60\n2015-05-02,61\n").said ==
      Lines{"w.csv:1: column \"temp_f\" holds one temperature a day, which shows neither maximum nor minimum: give the "
            "readings through the day with their times, or columns tmax and tmin"});
}

TEST_CASE("a file called normals is taken for normals") {
  const std::string text = "date,temp_f\n" + hours("2010-05-01", 70);
  MemorySource source{text};
  const Reading reading = read_source(source, {}, "some/seattle-hourly-normals.csv");
  CHECK(reading.summary.kind == RecordKind::normals);
  CHECK(reading.said ==
        Lines{"some/seattle-hourly-normals.csv: the file's name says that these are normals, a mean year "
              "and no observed one"});
}

TEST_CASE("stations mixed beyond what memory may hold are an error that says how to read them") {
  std::string text = "station,date,tmax_f,tmin_f\n";
  // Each station's first rows are two centuries apart, so that a few hundred of them fill the memory allowed.
  for (int round = 0; round < 2; ++round) {
    for (int i = 0; i < 200; ++i) text += fmt::format("S{},{}-01-01,61,40\n", i, round == 0 ? 1800 : 2199);
  }
  const Reading reading = read_text(text);
  REQUIRE(reading.said.size() == 1);
  CHECK(reading.said[0].find("mixed or too many to hold in memory: read one of them with --station") !=
        std::string::npos);
  CHECK(reading.stations.empty());
  CHECK(reading.summary.stations == 0);
  ReadOptions options;
  options.station = "S7";
  CHECK(read_text(text, options).stations.size() == 1);
}
