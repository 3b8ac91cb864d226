#include <budclock/core/date.hpp>

#include <catch2/catch.hpp>

using namespace budclock;

TEST_CASE("an ISO day reads back as written") {
  for (const char* text : {"2014-04-16", "2012-02-29", "1700-01-01", "2200-12-31"}) {
    const auto day = parse_iso_day(text);
    REQUIRE(day);
    CHECK(iso(*day) == text);
  }
}

TEST_CASE("a day that does not exist is no day") {
  for (const char* text : {"2014-02-30", "2013-02-29", "2014-00-10", "2014-13-01", "2014-04-31", "9999-01-01",
                           "0000-01-01", "2014-4-16", "2014-04-16 ", "20140416", "2014-04-1x", "+014-04-16", ""}) {
    INFO(text);
    CHECK_FALSE(parse_iso_day(text));
  }
}

TEST_CASE("29 February falls on 1 March in a common year") {
  const auto leap_day = parse_month_day("02-29");
  REQUIRE(leap_day);
  CHECK(iso(in_year(*leap_day, 2012)) == "2012-02-29");
  CHECK(iso(in_year(*leap_day, 2013)) == "2013-03-01");
}

TEST_CASE("a month and day read and write in one form") {
  CHECK(iso(parse_month_day("03-01").value()) == "03-01");
  CHECK_FALSE(parse_month_day("3-1"));
  CHECK_FALSE(parse_month_day("02-30"));
  CHECK(short_text(parse_iso_day("2014-04-06").value()) == "Apr 6");
}
