// What the reader makes of tables: good ones, dirty ones, and files that are none.
#include <budclock/weather/reader.hpp>

#include "reading.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <fstream>
#include <sstream>

using namespace budclock;
using namespace budclock::weather;
using namespace budclock::weather::test;

namespace {

ReadOptions station(std::string id) {
  ReadOptions options;
  options.station = std::move(id);
  return options;
}

ReadOptions order(DateOrder date_order) {
  ReadOptions options;
  options.date_order = date_order;
  return options;
}

std::string file_text(const std::string& path) {
  std::ifstream file{path, std::ios::binary};
  REQUIRE(file);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// The days of a file with a single station that must be read without a word.
Lines clean_days(std::string_view text, const ReadOptions& options = {}) {
  const Reading reading = read_text(text, options);
  CHECK(reading.said == Lines{});
  REQUIRE(reading.stations.size() == 1);
  return days_text(reading.stations[0].days);
}

const Lines k_two_days{"2014-04-16 61.5/40", "2014-04-17 63/41.25"};

}  // namespace

TEST_CASE("a plain table is read") {
  const Reading reading = read_text("date,tmax_f,tmin_f\n2014-04-16,61.5,40\n2014-04-17,63,41.25\n");
  CHECK(reading.said == Lines{});
  REQUIRE(reading.stations.size() == 1);
  CHECK(reading.stations[0].id.empty());
  CHECK(reading.stations[0].rows == 2);
  CHECK(days_text(reading.stations[0].days) == k_two_days);
  CHECK(reading.summary.layout == "table, comma-separated");
  CHECK(reading.summary.unit == TemperatureUnit::fahrenheit);
  CHECK(reading.summary.unit_evidence == UnitEvidence::header);
  CHECK(reading.summary.rows == 2);
  CHECK_FALSE(reading.summary.date_order);
}

TEST_CASE("delimiter, column order, quotes and further columns make no difference") {
  CHECK(clean_days("tmin_f;rain;date;tmax_f\n40;0;2014-04-16;61.5\n41.25;T;2014-04-17;63\n") == k_two_days);
  CHECK(clean_days("Date\tMax Temp (°F)\tMin Temp (°F)\n2014-04-16\t 61.5\t40 \n2014-04-17\t63\t41.25\n") ==
        k_two_days);
  CHECK(clean_days("\"NAME, ST\",\"DATE\",\"TMAX (F)\",\"TMIN (F)\"\n\"A, B\",\"2014-04-16\",\"61.5\",\"40\"\n"
                   "\"A, B\",\"2014-04-17\",\"63\",\"41.25\"\n") == k_two_days);
  CHECK(clean_days("# from the logger\n\ndate,tmax_f,tmin_f\n\n2014-04-16,61.5,40\n# noon\n2014-04-17,63,41.25\n\n") ==
        k_two_days);
}

TEST_CASE("a file reads the same with LF, CRLF or CR, with a byte order mark, and in any pieces") {
  const std::string plain = file_text(BUDCLOCK_TEST_DATA "/weather/every_dirt.csv");
  const Reading expected = read_text(plain);
  REQUIRE(expected.stations.size() == 1);
  const auto with_line_ends = [&](const std::string& line_end) {
    std::string text;
    for (const char c : plain) text += c == '\n' ? line_end : std::string{c};
    return text;
  };
  for (const std::string& text : {with_line_ends("\r\n"), with_line_ends("\r"), "\xEF\xBB\xBF" + plain}) {
    const Reading reading = read_text(text);
    CHECK(reading.said == expected.said);
    REQUIRE(reading.stations.size() == 1);
    CHECK(days_text(reading.stations[0].days) == days_text(expected.stations[0].days));
  }
  for (const std::size_t piece : {1, 2, 13}) {
    PieceSource source{plain, piece};
    const Reading reading = read_source(source);
    CHECK(reading.said == expected.said);
    REQUIRE(reading.stations.size() == 1);
    CHECK(days_text(reading.stations[0].days) == days_text(expected.stations[0].days));
  }
}

TEST_CASE("a record with every kind of dirt is answered with every bad line named, and nothing good is lost") {
  const Reading reading = read_text(file_text(BUDCLOCK_TEST_DATA "/weather/every_dirt.csv"));
  CHECK(
      reading.said ==
      Lines{
          "w.csv:8:12: \"45,3\" is not a temperature; it is set aside: write it with a decimal point",
          "w.csv:9:12: \"trace\" is not a temperature; it is set aside: write a plain number, or leave the cell empty",
          "w.csv:10:17: \"1e1\" is not a temperature; it is set aside: write a plain number, or leave the cell empty",
          "w.csv:11:12: 151 F is outside what has ever been measured (-128.92 F to 135.86 F); it is set aside: "
          "correct it, or leave the cell empty",
          "w.csv:12: on 2014-04-08 the minimum 60 F is above the maximum 40 F; both are set aside: correct the row",
          "w.csv:13:1: \"2014-02-30\" does not exist; the row is set aside: correct the date",
          "w.csv:14:1: the year of \"9999-01-01\" is outside 1700 to 2200; the row is set aside: correct the date",
          "w.csv:15:1: \"yesterday\" is not a date; the row is set aside: write it as 2014-04-16",
          "w.csv:16:1: the row has no date; it is set aside: fill in its date",
          "w.csv:18: 2014-04-01 was already given on line 5, and nothing differs: remove one of the two rows",
          "w.csv:19: 2014-04-02 was already given on line 6, with other values (maximum 62 F there and 99 F here); "
          "they are set aside: remove the wrong row",
          "w.csv:20:1: the row has 2 of 4 fields; it is set aside: complete it",
          "w.csv:21:20: the row has 5 fields, 1 more than the header; it is set aside: put fields that hold the "
          "delimiter in quotes, and write 45.3, not 45,3",
          "w.csv:22:18: a quote is not closed; the line is set aside: close it",
          "w.csv:23:21: text follows a closing quote; the line is set aside: double the quotes inside a quoted field",
          "w.csv:25:1: the row has 2 of 4 fields; it is set aside: complete it",
      });
  REQUIRE(reading.stations.size() == 1);
  const StationRecord& record = reading.stations[0];
  CHECK(days_text(record.days) == Lines{
                                      "2014-04-01 61/41",
                                      "2014-04-02 x/42",
                                      "2014-04-03 -/-",
                                      "2014-04-04 x/44",
                                      "2014-04-05 x/45",
                                      "2014-04-06 66/x",
                                      "2014-04-07 x/47",
                                      "2014-04-08 x/x",
                                      "2014-04-09 -/-",
                                      "2014-04-10 70/50",
                                  });
  CHECK(record.duplicates == 2);
  Lines notes;
  for (const Diagnostic& note : gap_notes(record.days, "w.csv")) {
    CHECK(note.severity == Severity::note);
    notes.push_back(to_text(note));
  }
  CHECK(notes == Lines{"w.csv: 8 days missing, 2014-04-02 to 2014-04-09"});
}

TEST_CASE("marks for no value are absent values, without a word") {
  CHECK(clean_days("date,tmax_f,tmin_f\n2014-04-16,,M\n2014-04-17,-9999,NA\n2014-04-18,61,-99\n") ==
        Lines{"2014-04-16 -/-", "2014-04-17 -/-", "2014-04-18 61/-"});
}

TEST_CASE("values at the bounds of what has been measured are kept, those beyond are not") {
  CHECK(clean_days("date,tmax_c,tmin_c\n2014-04-16,57.7,-89.4\n") == Lines{"2014-04-16 135.86/-128.92"});
  const Reading reading = read_text("date,tmax_c,tmin_c\n2014-04-16,57.71,-89.41\n");
  CHECK(reading.said ==
        Lines{
            "w.csv:2:12: 57.71 C is outside what has ever been measured (-89.4 C to 57.7 C); it is set "
            "aside: correct it, or leave the cell empty",
            "w.csv:2:18: -89.41 C is outside what has ever been measured (-89.4 C to 57.7 C); it is set "
            "aside: correct it, or leave the cell empty",
        });
}

TEST_CASE("the order of the dates is told by a row in which a number is above 12") {
  CHECK(clean_days("date,tmax_f,tmin_f\n4/12/2014,60,40\n4/13/2014,61,41\n") ==
        Lines{"2014-04-12 60/40", "2014-04-13 61/41"});
  const Reading reading = read_text("date,tmax_f,tmin_f\n12/4/2014,60,40\n13/4/2014,61,41\n");
  CHECK(days_text(reading.stations.at(0).days) == Lines{"2014-04-12 60/40", "2014-04-13 61/41"});
  CHECK(reading.summary.date_order == DateOrder::day_month_year);
}

TEST_CASE("the evidence for the order may stand far down the file") {
  std::string text = "date,tmax_f,tmin_f\n";
  for (int year = 1800; year < 2000; ++year) {
    for (int month = 1; month <= 12; ++month) text += fmt::format("{}/1/{},60,40\n", month, year);
  }
  text += "1/31/2000,61,41\n";
  const Reading reading = read_text(text);
  CHECK(reading.said == Lines{});
  CHECK(reading.summary.date_order == DateOrder::month_day_year);
  CHECK(reading.stations.at(0).rows == 2401);
}

TEST_CASE("dates that leave the order open are an error that names the option, which then decides") {
  const char* const text = "date,tmax_f,tmin_f\n4/4/2014,60,40\n4/5/2014,61,41\n";
  const Reading reading = read_text(text);
  CHECK(reading.said ==
        Lines{"w.csv:3: the dates can be read as month/day/year and as day/month/year, and no row shows "
              "which: add --date-order mdy or --date-order dmy (in a sites file: date_order mdy or dmy)"});
  CHECK(reading.summary.diagnostics.at(0).severity == Severity::error);
  CHECK(reading.stations.empty());
  CHECK(clean_days(text, order(DateOrder::month_day_year)).back() == "2014-04-05 61/41");
  CHECK(clean_days(text, order(DateOrder::day_month_year)).back() == "2014-05-04 61/41");
}

TEST_CASE("a row against the file's order is a fault; a file in two orders is an error") {
  std::string text = "date,tmax_f,tmin_f\n";
  for (int day = 13; day <= 31; ++day) text += fmt::format("1/{}/2014,60,40\n", day);
  const Reading reading = read_text(text + "14/1/2014,60,40\n");
  CHECK(reading.said ==
        Lines{"w.csv:21:1: \"14/1/2014\" does not fit the file's order of month/day/year; the row is set "
              "aside: correct the date"});
  CHECK(
      read_text("date,tmax_f,tmin_f\n1/13/2014,60,40\n14/1/2014,60,40\n").said ==
      Lines{"w.csv: dates stand in two orders: month/day/year on line 2, day/month/year on line 3: write all dates as "
            "2014-04-16, or add --date-order (in a sites file: date_order)"});
}

TEST_CASE("dates in three columns are read, and shown when they are wrong") {
  const Reading reading =
      read_text("Year, month, day, Tmax_f, Tmin_f\n2014,4,16,61.5,40\n2014,2,30,60,40\n2014,4,17,63,41.25\n");
  CHECK(reading.said == Lines{"w.csv:3:8: \"2014-2-30\" does not exist; the row is set aside: correct the date"});
  CHECK(days_text(reading.stations.at(0).days) == k_two_days);
}

TEST_CASE("a decimal comma is read where all numbers have it and the delimiter is another") {
  CHECK(clean_days("date;tmax_f;tmin_f\n2014-04-16;61,5;40\n2014-04-17;63;41,25\n") == k_two_days);
  CHECK(read_text("date;tmax_f;tmin_f\n2014-04-16;61,5;40\n2014-04-17;63.5;41\n").said ==
        Lines{"w.csv:2:12: \"61,5\" is not a temperature; it is set aside: write it with a decimal point"});
}

TEST_CASE("a decimal comma in a comma-separated table is a fault, though it stands in quotes") {
  const Reading reading = read_text("date,tmax_f,tmin_f\n2014-04-16,\"61,5\",\"40,5\"\n2014-04-17,63,41\n");
  CHECK(reading.said == Lines{
                            "w.csv:2:12: \"61,5\" is not a temperature; it is set aside: write it with a decimal point",
                            "w.csv:2:19: \"40,5\" is not a temperature; it is set aside: write it with a decimal point",
                        });
}

TEST_CASE("rows without any value are blank") {
  CHECK(clean_days("date,tmax_f,tmin_f\n2014-04-16,61.5,40\n,,\n2014-04-17,63,41.25,,\n,\n") == k_two_days);
}

TEST_CASE("several stations are kept apart, whether their rows stand together or not") {
  const Reading reading = read_text(
      "station,date,tmax_f,tmin_f\nB,2014-04-16,61,40\nA,2014-04-16,71,50\nB,2014-04-17,62,41\nA,2014-04-17,72,51\n");
  CHECK(reading.said == Lines{});
  CHECK(reading.summary.stations == 2);
  REQUIRE(reading.stations.size() == 2);
  CHECK(reading.stations[0].id == "B");
  CHECK(days_text(reading.stations[0].days) == Lines{"2014-04-16 61/40", "2014-04-17 62/41"});
  CHECK(reading.stations[1].id == "A");
  CHECK(days_text(reading.stations[1].days) == Lines{"2014-04-16 71/50", "2014-04-17 72/51"});
}

TEST_CASE("a station can be asked for: one is kept, and a name that is not in the file is an error") {
  const char* const text = "station,date,tmax_f,tmin_f\nB,2014-04-16,61,40\nA,2014-04-16,71,50\nB,2014-04-17,oops,41\n";
  CHECK(clean_days(text, station("A")) == Lines{"2014-04-16 71/50"});
  CHECK(read_text(text, station("C")).said == Lines{"w.csv: no row is of station \"C\": the file has B, A"});
  CHECK(read_text("date,tmax_f,tmin_f\n2014-04-16,61,40\n", station("C")).said ==
        Lines{"w.csv: the file names no stations, so none is \"C\": leave out --station"});
}

TEST_CASE("a row that names no station is a fault unless it holds nothing but a date") {
  const Reading reading =
      read_text("date,tmax_f,tmin_f,station\n2014-04-16,61.5,40,A\n2014-04-17,63,41.25,\n2014-04-18,,,\n");
  CHECK(reading.said == Lines{"w.csv:3:21: the row names no station; it is set aside: fill in its station"});
  CHECK(days_text(reading.stations.at(0).days) == Lines{"2014-04-16 61.5/40"});
}

TEST_CASE("an id that differs on every row is no station") {
  std::string text = "id,date,tmax_f,tmin_f\n";
  for (int i = 1; i <= 5; ++i) text += fmt::format("USH{},2014-04-{:02},60,40\n", 190120 + i, i);
  const Reading reading = read_text(text);
  CHECK(reading.said ==
        Lines{"w.csv: \"id\" differs on every row, so it names no station; all rows are taken for one station's"});
  CHECK(reading.summary.diagnostics.at(0).severity == Severity::note);
  REQUIRE(reading.stations.size() == 1);
  CHECK(reading.stations[0].days.size() == 5);
}

TEST_CASE("five stations with one row each of the same day are five stations") {
  std::string text = "id,date,tmax_f,tmin_f\n";
  for (int i = 1; i <= 5; ++i) text += fmt::format("S{},2014-04-01,60,40\n", i);
  CHECK(read_text(text).stations.size() == 5);
}

TEST_CASE("a file that cannot be understood at all is an error with a remedy") {
  using namespace std::string_view_literals;
  const auto only_error = [](std::string_view text) {
    const Reading reading = read_text(text);
    CHECK(reading.stations.empty());
    REQUIRE(reading.summary.diagnostics.size() == 1);
    CHECK(reading.summary.diagnostics[0].severity == Severity::error);
    return reading.said[0];
  };
  CHECK(only_error("") ==
        "w.csv: the file is empty: give a file with a header line such as date,tmax_f,tmin_f and one row a day");
  CHECK(only_error("\xEF\xBB\xBF") ==
        "w.csv: the file is empty: give a file with a header line such as date,tmax_f,tmin_f and one row a day");
  CHECK(only_error("# only a comment\n\n") ==
        "w.csv: the file has no header line and no rows: give a file with a header line such as date,tmax_f,tmin_f and "
        "one row a day");
  CHECK(only_error("date,tmax_f,tmin_f\n") == "w.csv: the file has a header line but no rows: give one row a day");
  CHECK(only_error("date,rain\n2014-04-16,1\n") ==
        "w.csv:1: no column for the daily maximum and minimum (columns: date, rain): name them tmax and tmin, or "
        "choose with --columns tmax=NAME,tmin=NAME");
  CHECK(only_error("date,tmax,tmin\n2014-04-16,61,40\n") ==
        "w.csv:1: nothing tells the unit of columns \"tmax\" and \"tmin\": add --units F or --units C (in a sites "
        "file: units F or C)");
  CHECK(
      only_error("x,2014-04-16,61,40,0\nx,2014-04-17,61,40,0\n") ==
      "w.csv:1: the first row is data, not a header line, and nothing names its columns: 1 \"x\", 2 \"2014-04-16\", 3 "
      "\"61\", 4 \"40\", 5 \"0\": say which column is which, as in --columns date=2,tmax=3,tmin=4");
  CHECK(only_error("date,\"tmax_f,tmin_f\n2014-04-17,61,40\n") ==
        "w.csv:1:6: the header line cannot be read: correct its quotes, or export it again");
  CHECK(only_error("\x7F"
                   "ELF\2\1\1\0\0\0"sv) ==
        "w.csv: this is a binary file, not text: give a CSV file with one row a day");
  CHECK(only_error("PK\x03\x04\x14\0"sv) ==
        "w.csv: this is a spreadsheet workbook or a zip archive, not text: save the sheet as CSV");
  CHECK(only_error("\x1F\x8B\x08") ==
        "w.csv: the gzip data are cut off after 0 unpacked bytes, so the record is not whole: get the file again");
  CHECK(only_error("\xFF\xFE"
                   "d\0a\0"sv) == "w.csv: the text is in UTF-16: save it as UTF-8");
}

TEST_CASE("a NUL byte or an endless line inside a file costs its line only") {
  std::string text = "date,tmax_f,tmin_f\n2014-04-16,61.5,40\n";
  text += "#" + std::string(600, ' ') + "\n";
  text += std::string{"2014-04-17,6"} + '\0' + ",40\n" + std::string(100'000, '7') + "\n2014-04-17,63,41.25\n";
  const Reading reading = read_text(text);
  CHECK(reading.said ==
        Lines{
            "w.csv:4:13: the line holds a NUL byte, so it is not text; it is set aside: export the file "
            "again",
            "w.csv:5:1: the line is longer than 65536 bytes; it is set aside: split it into one row a day",
        });
  CHECK(days_text(reading.stations.at(0).days) == k_two_days);
}

TEST_CASE("rows that run over several lines are told of") {
  const Reading reading =
      read_text("date,tmax_f,tmin_f,note\n2014-04-16,61.5,40,\"hail\nat noon\"\n2014-04-17,63,41.25,\n");
  CHECK(reading.said == Lines{"w.csv: 1 row(s) run over several lines inside quotes"});
  CHECK(days_text(reading.stations.at(0).days) == k_two_days);
}

TEST_CASE("a file that is wrong on every other line is listed up to a limit and counted past it") {
  std::string text = "date,tmax_f,tmin_f\n";
  for (int i = 0; i < 10'020; ++i) {
    text += "2014-02-30,60,40\n" + iso(Day{date::year{1980} / 1 / 1} + date::days{i}) + ",60,40\n";
  }
  const Reading reading = read_text(text);
  REQUIRE(reading.said.size() == 10'001);
  CHECK(reading.said.back() ==
        "w.csv: 20 further problems are not listed: correct these first and read the file again");
  CHECK(reading.summary.diagnostics.back().severity == Severity::fault);
}

TEST_CASE("gaps are runs of days that lack an extreme") {
  const Reading reading =
      read_text("date,tmax_f,tmin_f\n2014-04-16,61,40\n2014-04-18,61,40\n2014-04-19,61,\n2014-04-22,61,40\n");
  const auto found = gaps(reading.stations.at(0).days);
  REQUIRE(found.size() == 2);
  CHECK(found[0].days() == 1);
  CHECK(found[1].days() == 3);
  CHECK(to_text(gap_notes(reading.stations[0].days, "w.csv")[0]) == "w.csv: 1 day missing, 2014-04-17");
  CHECK(to_text(gap_notes(reading.stations[0].days, "w.csv")[1]) == "w.csv: 3 days missing, 2014-04-19 to 2014-04-21");
}

TEST_CASE("thirty years at Wooster, Ohio, are read whole, with the one value missing that is known to be") {
  std::ifstream file{BUDCLOCK_SOURCE_DIR "/examples/weather/wooster_oh_1985-2014.csv", std::ios::binary};
  StreamSource source{file};
  const Reading reading = read_source(source);
  CHECK(reading.said == Lines{});
  REQUIRE(reading.stations.size() == 1);
  const DailySeries& days = reading.stations[0].days;
  CHECK(iso(days.first) == "1985-01-01");
  CHECK(iso(days.last()) == "2014-12-31");
  CHECK(days.size() == 10'957);
  const auto found = gaps(days);
  REQUIRE(found.size() == 1);
  CHECK(iso(found[0].first) == "1989-03-15");
  CHECK(found[0].days() == 1);
  const auto colder = [](DayValue a, DayValue b) { return a.value < b.value; };
  CHECK(std::max_element(days.tmax.begin(), days.tmax.end(), colder)->value == Temperature::hundredths_celsius(3830));
  CHECK(std::min_element(days.tmin.begin(), days.tmin.end(), colder)->value == Temperature::hundredths_celsius(-3110));
}

namespace {

/// Sixty days from 1 April 2014 on, each row as `row(date, month, day)` makes it.
template <typename Row>
std::string sixty_rows(std::string header, Row row) {
  for (int i = 0; i < 60; ++i) {
    const unsigned month = i < 30 ? 4 : 5;
    const int day_of_month = i % 30 + 1;
    header += row(month, day_of_month) + "\n";
  }
  return header;
}

}  // namespace

TEST_CASE("a file of which most is set aside is refused in one error that names the likeliest cause") {
  const auto plain = [](unsigned month, int of_month) {
    return fmt::format("2014-{:02}-{:02},{},40", month, of_month, 50 + of_month);
  };
  ReadOptions celsius;
  celsius.units = TemperatureUnit::celsius;
  const Reading unit = read_text(sixty_rows("date,tmax,tmin\n", plain), celsius);
  REQUIRE(unit.said.size() == 5);
  CHECK(unit.said[0] ==
        "w.csv: 46 temperatures in 60 rows are beyond what has ever been measured in C, and none of these beyond that "
        "in F: most likely the file is in F, and it is read as C: read it with --units F (in a sites file: units F)");
  CHECK(unit.said[1].starts_with("w.csv:9:12: 58 C is outside"));
  CHECK(unit.said[4] == "w.csv: and 43 more");
  CHECK(unit.summary.diagnostics[0].severity == Severity::error);
  CHECK(unit.summary.diagnostics[1].severity == Severity::note);
  CHECK(unit.summary.diagnostics[4].severity == Severity::note);
  CHECK(read_text(sixty_rows("date,tmax_c,tmin_c\n", plain)).said[0].ends_with("correct the unit in the header to F"));

  const Reading swapped = read_text(sixty_rows("date,tmin_f,tmax_f\n", plain));
  REQUIRE(swapped.said.size() == 5);
  CHECK(swapped.said[0] ==
        "w.csv: on 60 of 60 days the minimum is above the maximum: most likely maximum and minimum are swapped: "
        "correct the header, or say which column is which with --columns tmax=NAME,tmin=NAME "
        "(in a sites file: the columns tmax_column and tmin_column, or columns in JSON)");

  const auto month_first = [](unsigned month, int of_month) {
    return fmt::format("{}/{}/2014,60,40", month, of_month);
  };
  const Reading dates = read_text(sixty_rows("date,tmax_f,tmin_f\n", month_first), order(DateOrder::day_month_year));
  REQUIRE(dates.said.size() == 5);
  CHECK(dates.said[0] ==
        "w.csv: 36 of 60 dates do not exist in the order of day/month/year: most likely they are month/day/year: try "
        "--date-order mdy (in a sites file: date_order mdy)");

  const auto no_number = [](unsigned month, int of_month) {
    return fmt::format("2014-{:02}-{:02},6o,40", month, of_month);
  };
  CHECK(read_text(sixty_rows("date,tmax_f,tmin_f\n", no_number))
            .said[0]
            .starts_with("w.csv: 60 of 60 rows are faulty, too many for the rest to be a record: correct the file"));
}

TEST_CASE("a file is not refused for strays, for rows that say the same again, or when it is short") {
  const auto strays = [](unsigned month, int of_month) {
    return fmt::format("2014-{:02}-{:02},{},4", month, of_month, of_month % 11 == 0 ? 61 : 15);
  };
  CHECK(read_text(sixty_rows("date,tmax_c,tmin_c\n", strays)).said.size() == 4);
  const auto thrice = [](unsigned month, int of_month) {
    const std::string row = fmt::format("2014-{:02}-{:02},60,40", month, of_month);
    return row + "\n" + row + "\n" + row;
  };
  const Reading repeated = read_text(sixty_rows("date,tmax_f,tmin_f\n", thrice));
  CHECK(repeated.said.size() == 120);
  CHECK_FALSE(any_at_least(repeated.summary.diagnostics, Severity::error));
  CHECK(read_text("date,tmax_f,tmin_f\n2014-04-16,40,60\n2014-04-17,41,61\n").said.size() == 2);
}
