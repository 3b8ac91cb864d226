#include <budclock/forecast/spread.hpp>

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::forecast;

namespace {

Day april(unsigned day) { return make_day(2014, 4, day).value(); }

/// A spread over 1 April to `last` April, followed by `never` members that do not get there.
Spread days_of_april(unsigned last, std::size_t never = 0) {
  Spread spread;
  for (unsigned day = 1; day <= last; ++day) spread.dates.emplace_back(april(day));
  for (std::size_t i = 0; i < never; ++i) spread.dates.emplace_back();
  return spread;
}

}  // namespace

TEST_CASE("early, likely and late are the outward order statistics of the members") {
  // 29 members: floor(0.1 * 30) = 3rd, ceil(0.5 * 29) = 15th, ceil(0.9 * 30) = 27th.
  const Summary summary = summarize(days_of_april(29));
  CHECK(summary.early == april(3));
  CHECK(summary.likely == april(15));
  CHECK(summary.late == april(27));
  CHECK(summary.share == 1);
  CHECK(summary.spread_out);
}

TEST_CASE("few members give their whole range") {
  const Summary summary = summarize(days_of_april(4));
  CHECK(summary.early == april(1));
  CHECK(summary.likely == april(2));
  CHECK(summary.late == april(4));
}

TEST_CASE("members that never get there stay in the denominator") {
  const Summary summary = summarize(days_of_april(15, 14));
  CHECK(summary.early == april(3));
  CHECK(summary.likely == april(15));
  CHECK_FALSE(summary.late);
  CHECK(summary.share == Approx(15.0 / 29).margin(1e-12));
  CHECK_FALSE(summarize(days_of_april(14, 15)).likely);
}

TEST_CASE("the share reached by a day counts that day") {
  const Spread spread = days_of_april(10, 10);
  CHECK(share_reached(spread) == 0.5);
  CHECK(share_reached_by(spread, april(5)) == 0.25);
  CHECK(share_reached_by(spread, april(30)) == 0.5);
}

TEST_CASE("earliest and latest combine member by member, never counting as later than any date") {
  const Spread a{{april(1), april(9), std::nullopt}, {}};
  const Spread b{{april(4), april(2), april(7)}, {}};
  CHECK(earliest({a, b}).dates == std::vector<std::optional<Day>>{april(1), april(2), april(7)});
  CHECK(latest({a, b}).dates == std::vector<std::optional<Day>>{april(4), april(9), std::nullopt});
}

TEST_CASE("what is not known has no dates and says why") {
  const Spread spread = unknown("no weather");
  CHECK_FALSE(spread.known());
  CHECK(spread.unknown == "no weather");
  CHECK_FALSE(summarize(spread).likely);
  CHECK(share_reached(spread) == 0);
}

TEST_CASE("a certain day is the same in every member and is not spread out") {
  const Spread spread = certain(april(3), 5);
  CHECK(spread.dates.size() == 5);
  CHECK_FALSE(summarize(spread).spread_out);
  CHECK(certain(april(3), 0).dates.size() == 1);
}
