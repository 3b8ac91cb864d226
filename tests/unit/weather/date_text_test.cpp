#include <budclock/weather/date_text.hpp>

#include <catch2/catch.hpp>
#include <string>

using namespace budclock;
using namespace budclock::weather;

namespace {

/// The day as ISO text, or the fault.
std::string read(std::string_view text, DateOrder order = DateOrder::month_day_year) {
  DateReader dates{order};
  const DateReading reading = dates.read(text);
  switch (reading.fault) {
    case DateFault::none:
      return iso(reading.day);
    case DateFault::malformed:
      return "malformed";
    case DateFault::impossible:
      return "impossible";
    case DateFault::wrong_order:
      return "wrong order";
    case DateFault::wrong_year:
      return "wrong year";
  }
  return {};
}

}  // namespace

TEST_CASE("a date with its year first needs no order") {
  for (const DateOrder order : {DateOrder::year_month_day, DateOrder::month_day_year, DateOrder::day_month_year}) {
    CHECK(read("2014-04-16", order) == "2014-04-16");
    CHECK(read("2014/04/16", order) == "2014-04-16");
    CHECK(read("2014.4.6", order) == "2014-04-06");
    CHECK(read("20140416", order) == "2014-04-16");
  }
}

TEST_CASE("a date with its year last is read in the file's order") {
  CHECK(read("4/6/2014", DateOrder::month_day_year) == "2014-04-06");
  CHECK(read("4/6/2014", DateOrder::day_month_year) == "2014-06-04");
  CHECK(read("16.4.2014", DateOrder::day_month_year) == "2014-04-16");
  CHECK(read("04-16-2014", DateOrder::month_day_year) == "2014-04-16");
  CHECK(read("14/4/16", DateOrder::year_month_day) == "2014-04-16");
  CHECK(read("16/4/2014", DateOrder::month_day_year) == "wrong order");
}

TEST_CASE("years of two digits are 1969 to 2068") {
  CHECK(read("1/2/68") == "2068-01-02");
  CHECK(read("1/2/69") == "1969-01-02");
  CHECK(read("1/2/00") == "2000-01-02");
}

TEST_CASE("the name of a month settles the order") {
  for (const DateOrder order : {DateOrder::month_day_year, DateOrder::day_month_year}) {
    CHECK(read("6-Apr-2014", order) == "2014-04-06");
    CHECK(read("6-APR-14", order) == "2014-04-06");
    CHECK(read("Apr 6, 2014", order) == "2014-04-06");
    CHECK(read("6 April 2014", order) == "2014-04-06");
    CHECK(read("2014-Apr-06", order) == "2014-04-06");
  }
  CHECK(read("6-Apx-2014") == "malformed");
}

TEST_CASE("a time of day beside the date is passed over") {
  for (const char* text : {"4/16/14 0:00", "4/16/2014 12:00:00 AM", "2014-04-16T00:00:00", "2014-04-16 00:00:00.000",
                           "20140416 07:00", "2014-04-16T07:30:00Z"}) {
    CHECK(read(text) == "2014-04-16");
  }
  CHECK(split_date("4/16/2014 12:00:00 AM")->midnight());
  CHECK_FALSE(split_date("4/16/2014 12:00:00 PM")->midnight());
  CHECK_FALSE(split_date("2014-04-16 07:00")->midnight());
  CHECK(read("2014-04-16 7") == "malformed");
  CHECK(read("2014-04-16 7:00 XM") == "malformed");
}

TEST_CASE("a day that does not exist is told from a text that is no date") {
  CHECK(read("2014-02-30") == "impossible");
  CHECK(read("2014-13-01") == "impossible");
  CHECK(read("2014-00-10") == "impossible");
  CHECK(read("2/30/2014") == "impossible");
  CHECK(read("2015-02-29") == "impossible");
  CHECK(read("2016-02-29") == "2016-02-29");
  CHECK(read("9999-01-01") == "wrong year");
  CHECK(read("1699-12-31") == "wrong year");
  for (const char* text : {"", "date", "2014", "2014-04", "2014-04-", "2014-04/16", "201404166", "2014--4-16",
                           "2014-04-16x", "4/16", "-4/16/2014", "12345-01-01", "1/2/3/4", "2014-Apr-May"}) {
    CHECK(read(text) == "malformed");
  }
}

TEST_CASE("a reader that has seen a month still checks the days of it") {
  DateReader dates{DateOrder::year_month_day};
  CHECK(iso(dates.read("2014-02-01").day) == "2014-02-01");
  CHECK(iso(dates.read("2014-02-28").day) == "2014-02-28");
  CHECK(dates.read("2014-02-29").fault == DateFault::impossible);
  CHECK(dates.read("2014-02-00").fault == DateFault::impossible);
  CHECK(dates.read("2014-02-1x").fault == DateFault::malformed);
  CHECK(dates.read("2014-02- 1").fault == DateFault::malformed);
  CHECK(iso(dates.read("2016-02-29").day) == "2016-02-29");
}

TEST_CASE("every day from 1700 to 2200 is read as the day it is") {
  DateReader dates{DateOrder::year_month_day};
  std::size_t wrong = 0;
  for (Day day = *make_day(1700, 1, 1); day <= *make_day(2200, 12, 31); day += date::days{1}) {
    const DateReading reading = dates.read(iso(day));
    wrong += reading.fault != DateFault::none || reading.day != day ? 1 : 0;
  }
  CHECK(wrong == 0);
}

TEST_CASE("a number above 12 shows the order of the dates") {
  DateOrderEvidence seen;
  seen.add("4/4/2014", 2);
  CHECK(seen.settled());
  seen.add("4/5/2014", 3);
  CHECK_FALSE(seen.settled());
  seen.add("2014-04-16", 4);
  seen.add("16-Apr-2014", 5);
  seen.add("13/13/2014", 6);
  CHECK_FALSE(seen.settled());
  seen.add("4/16/2014", 7);
  CHECK(seen.settled());
  CHECK(seen.month_first == 1);
  CHECK(seen.month_first_line == 7);
  CHECK(seen.either_line == 3);
  CHECK(seen.day_first == 0);
}

TEST_CASE("a date may stand in three columns") {
  CHECK(iso(DateReader::from_columns("2014", "4", "16").day) == "2014-04-16");
  CHECK(iso(DateReader::from_columns("2014", "Apr", "06").day) == "2014-04-06");
  CHECK(DateReader::from_columns("2014", "2", "30").fault == DateFault::impossible);
  CHECK(DateReader::from_columns("9999", "2", "3").fault == DateFault::wrong_year);
  CHECK(DateReader::from_columns("2014", "", "16").fault == DateFault::malformed);
}
