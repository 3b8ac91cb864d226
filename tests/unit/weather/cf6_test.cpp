// The Weather Service's texts: the monthly one is read, the others are refused by name.
#include <budclock/weather/cf6_reader.hpp>

#include "reading.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <fstream>
#include <iterator>

using namespace budclock;
using namespace budclock::weather;
using namespace budclock::weather::test;

namespace {

constexpr std::string_view k_rule =
    "================================================================================\n";

struct Product {
  std::string station = "DES MOINES IA";
  std::string month = "FEBRUARY";
  std::string year = "2020";
};

/// A product with the given lines between its rules. The first of them is on line 10.
std::string product(const std::string& days, const Product& heading = {}) {
  const auto label = [](const char* name, const std::string& value) {
    return value.empty() ? std::string{"\n"} : fmt::format("            {}:   {}  \n", name, value);
  };
  return "CXUS53 KDMX 230920\nPRELIMINARY LOCAL CLIMATOLOGICAL DATA (WS FORM: F-6)\n\n" +
         label("STATION", heading.station) + label("MONTH", heading.month) + label("YEAR", heading.year) +
         std::string{k_rule} + "DY MAX MIN AVG DEP HDD CDD  WTR\n" + std::string{k_rule} + days + std::string{k_rule} +
         "SM  760  364       862   0  0.21\n" + std::string{k_rule};
}

std::string real_file(const char* name) {
  std::ifstream file{std::string{BUDCLOCK_TEST_DATA "/weather/"} + name, std::ios::binary};
  return {std::istreambuf_iterator<char>{file}, {}};
}

}  // namespace

TEST_CASE("a real monthly climate text is read up to the day it was made") {
  const Reading reading = read_text(real_file("des_moines_ia_2020-02_cf6.txt"));
  CHECK(reading.said == Lines{});
  CHECK(reading.summary.layout == "Weather Service monthly climate text (CF6)");
  CHECK(reading.summary.unit == TemperatureUnit::fahrenheit);
  CHECK(reading.summary.unit_evidence == UnitEvidence::layout);
  CHECK(reading.summary.rows == 22);
  REQUIRE(reading.stations.size() == 1);
  CHECK(reading.stations[0].id == "DES MOINES IA");
  const Lines days = days_text(reading.stations[0].days);
  REQUIRE(days.size() == 22);
  CHECK(days[0] == "2020-02-01 42/32");
  CHECK(days[12] == "2020-02-13 4/-10");
  CHECK(days[21] == "2020-02-22 53/27");
}

TEST_CASE("a monthly climate text that names no month is an error, with its days counted and its place named") {
  const Reading reading = read_text(real_file("des_moines_ia_no_month_cf6.txt"));
  CHECK(reading.stations.empty());
  CHECK(reading.summary.rows == 22);
  CHECK(reading.said == Lines{"w.csv: no day of this monthly climate text can be used: get the product again",
                              "w.csv:16: this product names no month; its days are set aside: get the product again"});
}

TEST_CASE("M is no value, and what is neither a number nor M is a fault at its column") {
  const Reading reading =
      read_text(product(" 1  42   M  37  13\n 2   M  33   M   M\n 3  4X  29  33   9\n"
                        " 4 141  20  25   1\n 5 101 -10  25   1\n"));
  CHECK(reading.said == Lines{"w.csv:12:3: \"4X\" is not a temperature; it is set aside: write whole degrees, or M",
                              "w.csv:13:3: 141 F is outside what has ever been measured (-128.92 F to 135.86 F); it "
                              "is set aside: correct it, or take it out"});
  CHECK(days_text(reading.stations.at(0).days) ==
        Lines{"2020-02-01 42/-", "2020-02-02 -/33", "2020-02-03 x/29", "2020-02-04 x/20", "2020-02-05 101/-10"});
}

TEST_CASE("a line whose numbers stand in other columns, or break off, is set aside") {
  const Reading reading = read_text(product(" 1  42  32  37  13\n2 100  33  44  20\n 3  36  2\n30  33  20  27   1\n"));
  const std::string not_a_day =
      "this is not a day with maximum, minimum and average in their columns; the line is set aside: get the product "
      "again";
  CHECK(reading.said == Lines{"w.csv:11:1: " + not_a_day, "w.csv:12:1: " + not_a_day,
                              "w.csv:13:1: the month has no day 30; the line is set aside: get the product again"});
  CHECK(days_text(reading.stations.at(0).days) == Lines{"2020-02-01 42/32"});
}

TEST_CASE("a monthly climate text that breaks off inside its table says so") {
  const std::string whole = product(" 1  42  32  37  13\n 2  55  33  44  20\n");
  const Reading reading = read_text(std::string_view{whole}.substr(0, whole.find(" 2  55") + 9));
  REQUIRE(reading.said.size() == 2);
  CHECK(reading.said[0] ==
        "w.csv:9: the table that begins here is not closed, so days may be lost: get the product again");
  CHECK(days_text(reading.stations.at(0).days) == Lines{"2020-02-01 42/32"});

  const std::string until_first_day = whole.substr(0, whole.find(" 2  55"));
  const Reading two = read_text(until_first_day + product(" 2  50  40  45  13\n", {.month = "MARCH"}));
  REQUIRE(two.said.size() == 2);  // and the next product's first line is no day
  CHECK(two.said[0] == reading.said[0]);
  CHECK(days_text(two.stations.at(0).days).back() == "2020-03-02 50/40");
}

TEST_CASE("products of several months and stations in one file are joined by station") {
  const Reading reading =
      read_text(product(" 1  42  32  37  13\n") + product(" 1  50  40  45  13\n", {.month = "MARCH"}) +
                product("29  60  50  55  13\n", {.station = "AMES IA"}));
  CHECK(reading.said == Lines{});
  REQUIRE(reading.stations.size() == 2);
  CHECK(reading.stations[0].id == "AMES IA");
  CHECK(days_text(reading.stations[0].days) == Lines{"2020-02-29 60/50"});
  CHECK(days_text(reading.stations[1].days).front() == "2020-02-01 42/32");
  CHECK(days_text(reading.stations[1].days).back() == "2020-03-01 50/40");
}

TEST_CASE("products of one month may repeat its days; only what differs is set aside") {
  const Reading reading = read_text(product(" 1  42  32  37  13\n 2  55   M  44  20\n") +
                                    product(" 1  42  32  37  13\n 2  56  33  44  20\n 3  36  29  33   9\n"));
  CHECK(reading.said == Lines{"w.csv:25: the maximum of 2020-02-02 is 55 F on line 11 and 56 F here; it is set aside: "
                              "keep only the newest product of the month"});
  CHECK(days_text(reading.stations.at(0).days) == Lines{"2020-02-01 42/32", "2020-02-02 x/33", "2020-02-03 36/29"});
}

TEST_CASE("one product without a month does not cost the others") {
  const Reading reading =
      read_text(product(" 1  42  32  37  13\n", {.month = "SMARCH"}) + product(" 1  50  40  45  13\n"));
  CHECK(reading.said ==
        Lines{"w.csv:9: \"SMARCH 2020\" is not a month; the product's days are set aside: get the product again"});
  CHECK(reading.summary.rows == 2);
  CHECK(days_text(reading.stations.at(0).days) == Lines{"2020-02-01 50/40"});
}

TEST_CASE("other texts of the Weather Service are refused, with what to get instead") {
  const auto only_error = [](std::string_view text) {
    const Reading reading = read_text(text);
    CHECK(reading.stations.empty());
    REQUIRE(reading.summary.diagnostics.size() == 1);
    CHECK(reading.summary.diagnostics[0].severity == Severity::error);
    return reading.said[0];
  };
  CHECK(only_error("922 \nCDUS41 KILN 230547\nCLICVG\n\n\nCLIMATE REPORT\nNATIONAL WEATHER SERVICE\n") ==
        "w.csv: this is the Weather Service's climate report of one day, not a record: get the monthly text (CF6) or a "
        "daily CSV of the station");
  CHECK(only_error(
            "\x01\r\r\n520 \r\r\nFEUS23 KWNO 101200\r\r\nMEXNC1\r\r\n\x1EKY63   GFSX MOS GUIDANCE   7/10/2020\n") ==
        "w.csv: this is the Weather Service's MOS guidance, which is not read: get the forecast as JSON from the "
        "Weather Service's interface");
  CHECK(only_error("514 \nFEUS16 KWNO 221400\nNBEUSA\nCLFU1   NBM V3.2 NBE GUIDANCE    7/22/2020\n") ==
        "w.csv: this is the Weather Service's blend guidance (NBM), which is not read: get the forecast as JSON from "
        "the Weather Service's interface");
  CHECK(only_error("514 \nFXUS61 KBOX 221400\nAFDBOX\n\nArea Forecast Discussion\n") ==
        "w.csv: this is a text of the Weather Service, but not one with daily temperatures: get the monthly text "
        "(CF6) or a daily CSV of the station");
}
