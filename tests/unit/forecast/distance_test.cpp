#include <budclock/forecast/distance.hpp>

#include <catch2/catch.hpp>

using budclock::forecast::kilometres_between;

TEST_CASE("a degree of latitude is a 360th of the great circle anywhere, one of longitude shrinks with the cosine") {
  CHECK(kilometres_between({10, 20}, {11, 20}) == Approx(111.195).epsilon(1e-5));
  CHECK(kilometres_between({60, 20}, {60, 21}) == Approx(111.195 / 2).epsilon(1e-4));
}

TEST_CASE("opposite points are half the great circle apart, and a place is not apart from itself") {
  CHECK(kilometres_between({40, -80}, {-40, 100}) == Approx(20015.09).epsilon(1e-6));
  CHECK(kilometres_between({40, -80}, {40, -80}) == 0);
}
