#include <budclock/weather/quality.hpp>
#include <budclock/weather/refusal.hpp>
#include <budclock/weather/quality_checks.hpp>

#include "reading.hpp"
#include "series.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <random>

using namespace budclock;
using namespace budclock::weather;

namespace {

constexpr auto k_fahrenheit = TemperatureUnit::fahrenheit;

Day day(const char* text) { return parse_iso_day(text).value(); }

/// Twenty-nine complete years and 364 days of a real station, in °C to the tenth.
const DailySeries& wooster() {
  static const DailySeries days = [] {
    std::ifstream file{BUDCLOCK_SOURCE_DIR "/examples/weather/wooster_oh_1985-2014.csv", std::ios::binary};
    StreamSource source{file};
    return test::read_source(source).stations.at(0).days;
  }();
  return days;
}

struct Spoiled {
  DailySeries days = wooster();

  DayValue& minimum(const char* on) { return days.tmin[days.index_of(day(on)).value()]; }
  DayValue& maximum(const char* on) { return days.tmax[days.index_of(day(on)).value()]; }
  Spoiled& minimum_f(const char* on, double degrees) {
    minimum(on).value = Temperature::fahrenheit(degrees);
    return *this;
  }
  Spoiled& maximum_f(const char* on, double degrees) {
    maximum(on).value = Temperature::fahrenheit(degrees);
    return *this;
  }
  Spoiled& copy(const char* from, const char* to, int count) {
    const std::size_t source = days.index_of(day(from)).value();
    const std::size_t target = days.index_of(day(to)).value();
    for (std::size_t i = 0; i < static_cast<std::size_t>(count); ++i) {
      days.tmin[target + i] = days.tmin[source + i];
      days.tmax[target + i] = days.tmax[source + i];
    }
    return *this;
  }
};

/// Biweight centre and spread as Lanzante 1996 writes them, from all values of the 15 days around a calendar slot.
struct PlainBiweight {
  double centre = 0;
  double spread = 0;

  PlainBiweight(const DailySeries& days, const std::vector<DayValue>& values, std::size_t slot) {
    std::vector<std::int32_t> near;
    for (std::size_t i = 0; i < values.size(); ++i) {
      const std::size_t ahead = (calendar_slot(days.day(i)) + k_calendar_slots + 7 - slot) % k_calendar_slots;
      if (ahead < 15 && values[i].origin == Origin::observed) near.push_back(values[i].value.ticks());
    }
    std::sort(near.begin(), near.end());
    const std::size_t half = (near.size() - 1) / 2;
    const std::int32_t median = near[half];
    std::vector<std::int32_t> distances;
    for (const std::int32_t value : near) distances.push_back(std::abs(value - median));
    std::nth_element(distances.begin(), distances.begin() + static_cast<std::ptrdiff_t>(half), distances.end());
    const double reach = 7.5 * distances[half];
    double weights = 0, weighted = 0, numerator = 0, denominator = 0;
    for (const std::int32_t value : near) {
      const double distance = value - static_cast<double>(median);
      const double u2 = (distance / reach) * (distance / reach);
      if (u2 >= 1) continue;
      const double rest = 1 - u2;
      weights += rest * rest;
      weighted += distance * rest * rest;
      numerator += distance * distance * rest * rest * rest * rest;
      denominator += rest * (1 - 5 * u2);
    }
    centre = median + weighted / weights;
    spread = std::sqrt(static_cast<double>(near.size()) * numerator) / std::abs(denominator);
  }
};

/// Dates of a record whose centre or spread differs in any bit from the plain one's.
std::size_t differing_dates(const DailySeries& days, const std::vector<DayValue>& values) {
  const CalendarClimate climate{days, values};
  std::size_t differing = 0;
  for (std::size_t slot = 0; slot < k_calendar_slots; ++slot) {
    const PlainBiweight plain{days, values, slot};
    for (const Temperature value : {Temperature::celsius(-30), Temperature::celsius(40)}) {
      const auto deviation = climate.deviation(slot, value);
      if (!deviation || *deviation != (value.ticks() - plain.centre) / plain.spread) ++differing;
    }
  }
  return differing;
}

/// What is said of a record, each line after the name of its check.
std::vector<std::string> said(const DailySeries& days) {
  const auto suspicions = check_quality(days, k_fahrenheit);
  std::vector<std::string> lines;
  for (const Diagnostic& fault : quality_faults(suspicions, "w.csv", k_fahrenheit)) lines.push_back(to_text(fault));
  return lines;
}

std::vector<std::string> checks(const DailySeries& days) {
  std::vector<std::string> names;
  for (const Suspicion& suspicion : check_quality(days, k_fahrenheit)) {
    const std::string each{name(suspicion.check)};
    if (names.empty() || names.back() != each) names.push_back(each);
  }
  return names;
}

using test::Lines;
const std::string k_remedy = ": correct it in the file, or leave the cell empty";
const std::string k_remedies = ": correct them in the file, or leave the cells empty";

}  // namespace

TEST_CASE("thirty good years raise no doubt") { CHECK(said(wooster()).empty()); }

TEST_CASE("zero written for no value is doubted in both units") {
  Spoiled spoiled;
  spoiled.minimum_f("2010-03-05", 0).maximum_f("2010-03-05", 0).minimum_f("2011-03-05", 32).maximum_f("2011-03-05", 32);
  CHECK(said(spoiled.days) ==
        Lines{"w.csv: 2010-03-05: 2 values: both extremes are 0 F: zero written for no value" + k_remedies,
              "w.csv: 2011-03-05: 2 values: both extremes are 0 C: zero written for no value" + k_remedies});
}

TEST_CASE("a month copied over another is doubted together with its original") {
  const Spoiled same_name = Spoiled{}.copy("2009-04-01", "2010-04-01", 30);
  CHECK(said(same_name.days) ==
        Lines{"w.csv: 2009-04-01 to 2009-04-30: 60 values: the month repeats 2010-04 value by value" + k_remedies,
              "w.csv: 2010-04-01 to 2010-04-30: 60 values: the month repeats 2009-04 value by value" + k_remedies});
  const Spoiled same_year = Spoiled{}.copy("2010-04-01", "2010-05-01", 31);
  CHECK(said(same_year.days).front() ==
        "w.csv: 2010-04-01 to 2010-04-30: 60 values: the month repeats 2010-05 value by value" + k_remedies);
}

TEST_CASE("a year copied over another is told as one") {
  const Spoiled spoiled = Spoiled{}.copy("2009-01-01", "2010-01-01", 365);
  CHECK(said(spoiled.days) ==
        Lines{"w.csv: 2009-01-01 to 2009-12-31: 730 values: the year repeats 2010 value by value" + k_remedies,
              "w.csv: 2010-01-01 to 2010-12-31: 730 values: the year repeats 2009 value by value" + k_remedies});
}

TEST_CASE("a month whose minima are its maxima is doubted") {
  Spoiled spoiled;
  const std::size_t first = spoiled.days.index_of(day("2010-05-01")).value();
  for (std::size_t i = first; i < first + 31; ++i) spoiled.days.tmin[i] = spoiled.days.tmax[i];
  CHECK(said(spoiled.days) == Lines{"w.csv: 2010-05-01 to 2010-05-31: 62 values: minimum and maximum are the same all "
                                    "through 2010-05" +
                                    k_remedies});
}

TEST_CASE("what no thermometer has shown in the open is doubted") {
  CHECK(said(Spoiled{}.maximum_f("2010-07-05", 136).days) ==
        Lines{"w.csv: 2010-07-05: maximum 136 F: warmer than any air temperature ever measured" + k_remedy});
  CHECK(checks(Spoiled{}.minimum_f("2010-07-05", -130).days) == Lines{"bounds"});
}

TEST_CASE("twenty equal values in a row are a stuck instrument and nineteen are not") {
  Spoiled spoiled;
  const std::size_t first = spoiled.days.index_of(day("2010-06-05")).value();
  for (std::size_t i = first; i < first + 19; ++i) spoiled.days.tmin[i].value = Temperature::fahrenheit(53);
  CHECK(said(spoiled.days).empty());
  spoiled.days.tmin[first + 19].origin = Origin::absent;
  spoiled.days.tmin[first + 20].value = Temperature::fahrenheit(53);
  CHECK(said(spoiled.days) == Lines{"w.csv: 2010-06-05 to 2010-06-23: 19 values: the same minimum 20 times in a row, "
                                    "2010-06-05 to 2010-06-25" +
                                        k_remedies,
                                    "w.csv: 2010-06-25: minimum 53 F: the same minimum 20 times in a row, 2010-06-05 "
                                    "to 2010-06-25" +
                                        k_remedy});
}

TEST_CASE("a number of the other unit is told as such") {
  CHECK(said(Spoiled{}.maximum_f("2010-07-05", 31).days) ==
        Lines{"w.csv: 2010-07-05: maximum 31 F: unheard of here at that time of year, and usual if it were C" +
              k_remedy});
}

TEST_CASE("a value far from all others of its month is doubted") {
  CHECK(said(Spoiled{}.maximum_f("2010-01-10", 96).days) ==
        Lines{"w.csv: 2010-01-10: maximum 96 F: 26.9 F from every other value of that month of the year" + k_remedy});
  CHECK(said(Spoiled{}.minimum_f("2010-07-20", 5).days) ==
        Lines{"w.csv: 2010-07-20: minimum 5 F: 36.0 F from every other value of that month of the year" + k_remedy});
}

TEST_CASE("a value six standard deviations off is doubted") {
  CHECK(said(Spoiled{}.minimum_f("2010-06-28", 38).maximum_f("2010-06-28", 40).days) ==
        Lines{"w.csv: 2010-06-28: maximum 40 F: 6.2 standard deviations below what is usual here at that time of year" +
              k_remedy});
}

TEST_CASE("extremes in each other's place are told as such") {
  Spoiled spoiled;
  std::swap(spoiled.minimum("2010-06-10").value, spoiled.maximum("2010-06-10").value);
  CHECK(said(spoiled.days) ==
        Lines{"w.csv: 2010-06-10: 2 values: minimum above maximum, and usual the other way round" + k_remedies});
}

TEST_CASE("of a minimum above its maximum the one that other days contradict is doubted") {
  // 10 June 2010 had 25.6 C, and the days beside it less than 86 F.
  CHECK(said(Spoiled{}.minimum_f("2010-06-10", 86).days) ==
        Lines{"w.csv: 2010-06-10: minimum 86 F: above the day's maximum of 78.08 F" + k_remedy});
}

TEST_CASE("a jump of 25 C there and back is doubted even in a short record") {
  DailySeries days;
  for (int i = 0; i < 10; ++i) {
    const std::size_t at = include_day(days, day("2014-04-10") + date::days{i});
    days.tmin[at] = {Temperature::fahrenheit(38 + i), Origin::observed};
    days.tmax[at] = {Temperature::fahrenheit(60 + i), Origin::observed};
  }
  CHECK(said(days).empty());
  days.tmax[6].value = Temperature::fahrenheit(112);
  CHECK(said(days) == Lines{"w.csv: 2014-04-16: maximum 112 F: 45.0 F above the days before and after" + k_remedy});
  days.tmax[6].value = Temperature::fahrenheit(111.9);
  CHECK(said(days).empty());
}

TEST_CASE("a maximum 40 C above the minima of three days is doubted") {
  DailySeries days;
  for (int i = 0; i < 10; ++i) {
    const std::size_t at = include_day(days, day("2014-04-10") + date::days{i});
    days.tmin[at] = {Temperature::fahrenheit(20 + i), Origin::observed};
    days.tmax[at] = {Temperature::fahrenheit(60 + i), Origin::observed};
  }
  days.tmax[6].value = Temperature::fahrenheit(99);
  days.tmax[5].value = Temperature::fahrenheit(80);  // no spike
  CHECK(said(days) ==
        Lines{"w.csv: 2014-04-16: maximum 99 F: 72.0 F above the minima of the three days around it" + k_remedy});
}

TEST_CASE("a maximum below every minimum of its month is doubted where its own minimum is missing") {
  // 100 values of July with minima from 60 F, too few years for a climate of some dates.
  DailySeries days;
  for (int year = 2010; year <= 2013; ++year) {
    for (unsigned d = 1; d <= 31; ++d) {
      const std::size_t at = include_day(days, *make_day(year, 7, d));
      days.tmin[at] = {Temperature::fahrenheit(60 + static_cast<int>(d) % 7), Origin::observed};
      days.tmax[at] = {Temperature::fahrenheit(75 + static_cast<int>(d * 5 + static_cast<unsigned>(year)) % 11),
                       Origin::observed};
    }
  }
  CHECK(said(days).empty());
  const std::size_t at = days.index_of(day("2013-07-16")).value();
  days.tmin[at] = {};
  days.tmax[at].value = Temperature::fahrenheit(59);
  CHECK(said(days) ==
        Lines{"w.csv: 2013-07-16: maximum 59 F: below every minimum of that month of the year" + k_remedy});
}

TEST_CASE("each check sees only what those before it let stand") {
  // The month copied to May would be full of outliers in its new place; told once, as a copy.
  CHECK(checks(Spoiled{}.copy("2010-01-01", "2010-07-01", 31).days) == Lines{"duplicate"});
}

TEST_CASE("only the doubted value is set aside") {
  Spoiled spoiled;
  spoiled.maximum_f("2010-07-05", 136);
  const auto suspicions = check_quality(spoiled.days, k_fahrenheit);
  REQUIRE(suspicions.size() == 1);
  CHECK(suspicions[0] == Suspicion{day("2010-07-05"), Extreme::maximum, Temperature::fahrenheit(136), Check::bounds,
                                   "warmer than any air temperature ever measured"});
  set_aside(spoiled.days, suspicions);
  CHECK(spoiled.maximum("2010-07-05").origin == Origin::set_aside);
  CHECK(spoiled.minimum("2010-07-05").origin == Origin::observed);
  CHECK(check_quality(spoiled.days, k_fahrenheit).empty());
}

TEST_CASE("an empty record raises no doubt") { CHECK(check_quality({}, k_fahrenheit).empty()); }

TEST_CASE("what is usual on each date is the plain biweight's to the last bit") {
  CHECK(differing_dates(wooster(), wooster().tmax) == 0);
  DailySeries rough = wooster();  // values that all differ, holes, and values out of the biweight's reach
  std::minstd_rand random{1};
  for (DayValue& value : rough.tmin) {
    value.value = Temperature::from_ticks(value.value.ticks() + static_cast<int>(random() % 2'000));
    if (random() % 10 == 0) value.origin = Origin::absent;
    if (random() % 50 == 0) value.value = Temperature::celsius(random() % 2 == 0 ? -80 : 55);
  }
  CHECK(differing_dates(rough, rough.tmin) == 0);
}

TEST_CASE("the biweight centre and spread ignore a few wild values") {
  // Ten years of 15 days around 8 January, values 0 to 9 °C evenly: mean 4.5, and 50 °C once.
  DailySeries days;
  for (int year = 2001; year <= 2010; ++year) {
    for (unsigned d = 1; d <= 15; ++d) {
      const std::size_t at = include_day(days, *make_day(year, 1, d));
      days.tmax[at] = {Temperature::celsius(static_cast<double>((d + static_cast<unsigned>(year)) % 10)),
                       Origin::observed};
    }
  }
  const Day middle = day("2005-01-08");
  const double clean = CalendarClimate{days, days.tmax}.deviation(middle, Temperature::celsius(9)).value();
  CHECK(clean == Approx(1.5).margin(0.1));
  days.tmax[days.index_of(middle).value()].value = Temperature::celsius(50);
  CHECK(CalendarClimate(days, days.tmax).deviation(middle, Temperature::celsius(9)).value() ==
        Approx(clean).margin(0.05));
  CHECK_FALSE(CalendarClimate(days, days.tmax).deviation(day("2005-07-08"), Temperature::celsius(9)).has_value());
}

TEST_CASE("a whole year below 50 F is too cold for trees; one day at it, or a month that is not there, is not") {
  CHECK(is_too_cold_for_trees(test::waves("2013-01-01", 365, -40.5)));
  CHECK_FALSE(is_too_cold_for_trees(test::waves("2013-01-01", 365, -40)));
  CHECK_FALSE(is_too_cold_for_trees(test::waves("2013-01-01", 353, -40.5)));
  CHECK_FALSE(is_too_cold_for_trees({}));
}
