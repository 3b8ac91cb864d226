#include <budclock/forecast/day_length.hpp>

#include "../degree_day/csv_table.hpp"

#include <catch2/catch.hpp>

using namespace budclock;
using forecast::day_length_hours;
using forecast::day_length_reached;

namespace {

Day day(const char* text) { return parse_iso_day(text).value(); }

}  // namespace

TEST_CASE("the day length is that of the published formula, from twilight to midnight sun") {
  const auto rows = csv_table::read("../forecast/day_length_cbm.csv");
  REQUIRE(rows.size() == 784);
  for (const auto& row : rows) {
    const double hours = day_length_hours(row.number("latitude"), static_cast<int>(row.number("day_of_year")),
                                          row.number("p_or_zenith"));
    INFO(row.line);
    CHECK(hours == Approx(row.number("hours")).epsilon(0).margin(1e-6));
  }
}

TEST_CASE("the day length is within five minutes of an ephemeris") {
  for (const auto& row : csv_table::read("../forecast/day_length_ephemeris.csv")) {
    std::string date = row.text("date");
    for (char& c : date) c = c == '/' ? '-' : c;
    const auto slash = date.find('-', 5);
    const auto made = make_day(2019, static_cast<unsigned>(std::stoi(date.substr(5, slash - 5))),
                               static_cast<unsigned>(std::stoi(date.substr(slash + 1))));
    const int day_of_year = static_cast<int>((made.value() - day("2019-01-01")).count()) + 1;
    INFO(row.line);
    CHECK(day_length_hours(row.number("latitude"), day_of_year) ==
          Approx(row.number("ephemeris_hours")).epsilon(0).margin(5.0 / 60));
  }
}

TEST_CASE("a day length is reached rising in spring and falling in autumn, six months apart in the south") {
  const auto rising = day_length_reached(40, 2014, 14, true, 0.8333);
  const auto falling = day_length_reached(40, 2014, 14, false, 0.8333);
  REQUIRE(rising);
  REQUIRE(falling);
  CHECK(month_day_of(*rising).month() == date::May);
  CHECK(month_day_of(*falling).month() == date::August);
  CHECK(month_day_of(day_length_reached(-40, 2014, 14, true, 0.8333).value()).month() == date::November);
  CHECK(day_length_hours(40, 365) < 14);
}

TEST_CASE("a day length that never comes has no day") {
  CHECK_FALSE(day_length_reached(0, 2014, 14, true, 0.8333));
  CHECK_FALSE(day_length_reached(40, 2014, 16, true, 0.8333));
}
