// A second road to the closed forms: the assumed curve, the cutoff's rate on it, and numerical integration.
#include <budclock/degree_day/formula.hpp>

#include <algorithm>
#include <array>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/tools/roots.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <numbers>
#include <random>
#include <vector>

using namespace budclock::degree_day;

namespace {

struct Day {
  double tmin, tmax, next_tmin, lower, upper;
};

using Curve = std::function<double(double)>;

/// Temperature at time t of half a day, 0 to 1, running from `from` to `to`.
Curve half_day(bool sine, double from, double to) {
  if (!sine) return [=](double t) { return from + (to - from) * t; };
  return [=](double t) { return (from + to) / 2 - (to - from) / 2 * std::cos(std::numbers::pi * t); };
}

double rate(double temperature, Cutoff cutoff, const Day& day) {
  if (temperature <= day.lower) return 0;
  if (cutoff == Cutoff::none || temperature <= day.upper) return temperature - day.lower;
  if (cutoff == Cutoff::horizontal) return day.upper - day.lower;
  if (cutoff == Cutoff::vertical) return 0;
  return 2 * day.upper - day.lower - temperature;
}

/// Where the half-day passes `level`, if it does: by bisection, as every half-day only rises or only falls.
void add_crossing(std::vector<double>& times, const Curve& curve, double level) {
  const auto above = [&](double t) { return curve(t) - level; };
  if (above(0) * above(1) >= 0) return;
  const auto bracket = boost::math::tools::bisect(above, 0.0, 1.0, boost::math::tools::eps_tolerance<double>(52));
  times.push_back((bracket.first + bracket.second) / 2);
}

double integral(const Curve& curve, Cutoff cutoff, const Day& day) {
  std::vector<double> times{0, 1};
  add_crossing(times, curve, day.lower);
  if (cutoff != Cutoff::none) add_crossing(times, curve, day.upper);
  std::sort(times.begin(), times.end());
  double total = 0;
  for (std::size_t i = 1; i < times.size(); ++i) {
    total += boost::math::quadrature::gauss_kronrod<double, 31>::integrate(
        [&](double t) { return rate(curve(t), cutoff, day); }, times[i - 1], times[i], 0);
  }
  return total;
}

/// Whole tenths around two thresholds; the draw is spelt out because the library's distributions differ by platform.
Day random_day(std::mt19937& random) {
  const auto draw = [&](int low, int high) {
    return (low + static_cast<int>(random() % static_cast<unsigned>(high - low))) / 10.0;
  };
  Day day{draw(300, 1000), draw(300, 1100), draw(300, 1000), draw(350, 600), draw(700, 950)};
  if (day.tmin > day.tmax) std::swap(day.tmin, day.tmax);
  return day;
}

}  // namespace

TEST_CASE("closed forms agree with numerical integration of the curve to 1e-10 degree-days") {
  struct Shape {
    Method method;
    bool sine, next;
  };
  constexpr std::array k_shapes{Shape{Method::single_sine, true, false}, Shape{Method::double_sine, true, true},
                                Shape{Method::single_triangle, false, false},
                                Shape{Method::double_triangle, false, true}};
  std::mt19937 random{1969};
  double worst = 0;
  for (int i = 0; i < 400; ++i) {
    const Day day = random_day(random);
    for (const Shape& shape : k_shapes) {
      const Curve rise = half_day(shape.sine, day.tmin, day.tmax);
      const Curve fall = half_day(shape.sine, day.tmax, shape.next ? day.next_tmin : day.tmin);
      for (const Cutoff cutoff : {Cutoff::none, Cutoff::horizontal, Cutoff::vertical, Cutoff::intermediate}) {
        const double integrated = (integral(rise, cutoff, day) + integral(fall, cutoff, day)) / 2;
        const double closed =
            degree_days(shape.method, cutoff, day.tmin, day.tmax, day.next_tmin, day.lower, day.upper);
        worst = std::max(worst, std::abs(integrated - closed));
        INFO(name(shape.method) << " " << name(cutoff) << ": " << day.tmin << " to " << day.tmax << ", next "
                                << day.next_tmin << ", thresholds " << day.lower << " and " << day.upper);
        REQUIRE(std::abs(integrated - closed) <= 1e-10);
      }
    }
  }
  CHECK(worst > 0);  // two roads, not one
}
