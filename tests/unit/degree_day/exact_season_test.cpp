#include <budclock/degree_day/formula.hpp>

#include <algorithm>
#include <catch2/catch.hpp>
#include <vector>

using namespace budclock;
using namespace budclock::degree_day;

namespace {

struct Extremes {
  double tmin, tmax;
};

// Invented spring days. Their means less 50 add up to exactly 200 on the last of them.
const std::vector<Extremes> k_spring{
    {47.9, 75.8}, {47.7, 73.3}, {45.6, 71.7}, {43.8, 62.8}, {46.6, 70.5}, {46.2, 62.5},
    {46.1, 69.9}, {50.7, 73.2}, {45.2, 67.5}, {50.4, 74.1}, {51.2, 70.0}, {53.3, 77.9},
    {53.8, 81.4}, {52.3, 71.8}, {54.6, 75.8}, {53.0, 77.7}, {55.8, 79.5}, {53.5, 66.9},
};

}  // namespace

TEST_CASE("a season that adds up to exactly 200 counts on that day, where a sum of doubles falls a hair short") {
  const Formula formula{Method::average, Cutoff::none, Temperature::fahrenheit(50), std::nullopt};
  const DegreeDays threshold = DegreeDays::fahrenheit_days(200);
  DegreeDays sum;
  double in_doubles = 0;
  for (const Extremes& day : k_spring) {
    CHECK(sum < threshold);
    sum += of_day(formula, Temperature::fahrenheit(day.tmin), Temperature::fahrenheit(day.tmax), {});
    in_doubles += std::max(0.0, (day.tmin + day.tmax) / 2 - 50);
  }
  CHECK(sum == threshold);
  CHECK(in_doubles < 200);  // 199.99999999999994: a day late
}
