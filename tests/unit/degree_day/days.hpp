// Random days for the property tests.
#pragma once

#include <budclock/degree_day/formula.hpp>

#include <algorithm>
#include <array>
#include <optional>
#include <ostream>
#include <rapidcheck.h>

namespace days {

using namespace budclock;
using namespace budclock::degree_day;

/// One way to count and one day, in whole hundredths of a degree, where shifts and small multiples are exact in double
/// arithmetic: what a law then sees is the rounding of the formula, not of its inputs.
struct Case {
  Method method;
  Cutoff cutoff;
  int tmin, tmax, next_tmin, lower, upper;
};

inline double value(const Case& c) {
  return degree_days(c.method, c.cutoff, c.tmin, c.tmax, c.next_tmin, c.lower, c.upper);
}

inline Formula formula(const Case& c) {
  Formula result{c.method, c.cutoff, Temperature::hundredths_fahrenheit(c.lower), std::nullopt};
  if (c.cutoff != Cutoff::none) result.upper = Temperature::hundredths_fahrenheit(c.upper);
  return result;
}

inline DegreeDays on_the_grid(const Case& c) {
  return of_day(formula(c), Temperature::hundredths_fahrenheit(c.tmin), Temperature::hundredths_fahrenheit(c.tmax),
                Temperature::hundredths_fahrenheit(c.next_tmin));
}

inline constexpr std::array k_curves{Method::single_sine, Method::double_sine, Method::single_triangle,
                                     Method::double_triangle};
inline constexpr std::array k_methods{Method::average,     Method::average_clipped, Method::single_sine,
                                      Method::double_sine, Method::single_triangle, Method::double_triangle};
inline constexpr std::array k_cutoffs{Cutoff::none, Cutoff::horizontal, Cutoff::vertical, Cutoff::intermediate};

/// A day around two thresholds: extremes on either side of, between and exactly at them, days that stand still, and
/// next minima above the maximum.
inline rc::Gen<Case> any_case() {
  return rc::gen::exec([] {
    const int lower = *rc::gen::inRange(-2000, 7000);
    const int upper = lower + *rc::gen::inRange(1, 6000);
    const auto near = [&] {
      return *rc::gen::weightedOneOf<int>(
          {{8, rc::gen::inRange(lower - 5000, upper + 5000)}, {1, rc::gen::just(lower)}, {1, rc::gen::just(upper)}});
    };
    const int first = near();
    const int second = near();
    Case c{*rc::gen::elementOf(k_methods),
           Cutoff::none,
           std::min(first, second),
           std::max(first, second),
           near(),
           lower,
           upper};
    c.cutoff = *rc::gen::suchThat(rc::gen::elementOf(k_cutoffs), [&](Cutoff cutoff) {
      c.cutoff = cutoff;
      return !problem(formula(c));
    });
    return c;
  });
}

/// Prints the case that breaks a law; rapidcheck finds it by this name.
inline void showValue(const Case& c, std::ostream& out) {
  out << name(c.method) << ' ' << name(c.cutoff) << ", hundredths: tmin " << c.tmin << ", tmax " << c.tmax
      << ", next_tmin " << c.next_tmin << ", lower " << c.lower << ", upper " << c.upper;
}

}  // namespace days
