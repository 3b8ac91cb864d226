// What must hold for every formula on every day, tried on random ones.
#include "days.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <rapidcheck/catch.h>
#include <vector>

using namespace days;

namespace {

/// Values are in hundredths of a degree-day: this allows 1e-11 of a degree-day and 1e-12 of the value.
double slack(double value) { return 1e-9 + 1e-12 * std::abs(value); }
bool close(double a, double b) { return std::abs(a - b) <= slack(b); }
bool at_least(double a, double b) { return a >= b - slack(b); }

Case with(Case c, Method method) {
  c.method = method;
  return c;
}

Case with(Case c, Cutoff cutoff) {
  c.cutoff = cutoff;
  return c;
}

}  // namespace

TEST_CASE("laws of scale") {
  rc::prop("adding the same to every temperature and threshold changes nothing", [] {
    const Case c = *any_case();
    const int shift = *rc::gen::inRange(-5000, 5000);
    const Case moved{c.method,        c.cutoff,       c.tmin + shift, c.tmax + shift, c.next_tmin + shift,
                     c.lower + shift, c.upper + shift};
    RC_ASSERT(close(value(moved), value(c)));
  });
  rc::prop("multiplying every temperature and threshold multiplies the degree-days", [] {
    const Case c = *any_case();
    const int k = *rc::gen::element(2, 3, 7);
    const Case scaled{c.method, c.cutoff, k * c.tmin, k * c.tmax, k * c.next_tmin, k * c.lower, k * c.upper};
    RC_ASSERT(close(value(scaled), k * value(c)));
  });
  rc::prop("Fahrenheit and Celsius runs of the same temperatures agree exactly on the grid", [] {
    const Case c = *any_case();  // taken as twentieths of a degree Celsius, which are whole hundredths Fahrenheit
    const auto celsius = [](int twentieths) { return Temperature::hundredths_celsius(5 * twentieths); };
    const auto fahrenheit = [](int twentieths) { return Temperature::hundredths_fahrenheit(3200 + 9 * twentieths); };
    const auto run = [&](const auto& scale) {
      Formula f{c.method, c.cutoff, scale(c.lower), std::nullopt};
      if (c.cutoff != Cutoff::none) f.upper = scale(c.upper);
      return of_day(f, scale(c.tmin), scale(c.tmax), scale(c.next_tmin));
    };
    RC_ASSERT(run(celsius) == run(fahrenheit));
  });
  rc::prop("the grid and plain numbers agree to half a unit of the grid", [] {
    const Case c = *any_case();
    const double half_unit = DegreeDays::from_units(1).fahrenheit_days() / 2;
    const double difference = on_the_grid(c).fahrenheit_days() - value(c) / 100;
    RC_ASSERT(std::abs(difference) <= half_unit + slack(value(c)) / 100);
  });
}

TEST_CASE("laws of order") {
  rc::prop("a warmer maximum or minimum never takes away, without a cutoff or with the horizontal one", [] {
    const Case c = *rc::gen::suchThat(
        any_case(), [](const Case& any) { return any.cutoff == Cutoff::none || any.cutoff == Cutoff::horizontal; });
    const int warmer = *rc::gen::inRange(0, 3000);
    Case day = c;
    day.tmax += warmer;
    RC_ASSERT(at_least(value(day), value(c)));
    day = c;
    day.tmin = std::min(c.tmin + warmer, c.tmax);
    RC_ASSERT(at_least(value(day), value(c)));
    day = c;
    day.next_tmin += warmer;
    RC_ASSERT(at_least(value(day), value(c)));
  });
  rc::prop("raising the lower threshold never adds", [] {
    const Case c = *any_case();
    Case raised = c;
    raised.lower = *rc::gen::inRange(c.lower, c.upper);
    RC_ASSERT(at_least(value(c), value(raised)));
  });
  rc::prop("no cutoff counts at least as much as horizontal, and horizontal as intermediate", [] {
    const Case c = *rc::gen::suchThat(any_case(), [](const Case& any) { return any.method != Method::average; });
    RC_ASSERT(at_least(value(with(c, Cutoff::none)), value(with(c, Cutoff::horizontal))));
    RC_ASSERT(at_least(value(with(c, Cutoff::horizontal)), value(with(c, Cutoff::intermediate))));
  });
  rc::prop("a horizontal or vertical cutoff keeps a day between zero and upper minus lower", [] {
    const Case c = *rc::gen::suchThat(
        any_case(), [](const Case& any) { return any.cutoff == Cutoff::horizontal || any.cutoff == Cutoff::vertical; });
    RC_ASSERT(at_least(value(c), 0));
    RC_ASSERT(at_least(c.upper - c.lower, value(c)));
  });
  rc::prop("without a cutoff, average <= triangle <= sine <= clipped average", [] {
    const Case c = with(*any_case(), Cutoff::none);
    const double average = value(with(c, Method::average));
    const double triangle = value(with(c, Method::single_triangle));
    const double sine = value(with(c, Method::single_sine));
    const double clipped = value(with(c, Method::average_clipped));
    RC_ASSERT(at_least(triangle, average));
    RC_ASSERT(at_least(sine, triangle));
    RC_ASSERT(at_least(clipped, sine));
  });
}

TEST_CASE("laws of addition") {
  rc::prop("a double method equals the single one when both minima agree", [] {
    Case c = with(*any_case(), *rc::gen::elementOf(k_cutoffs));
    c.next_tmin = c.tmin;
    RC_ASSERT(value(with(c, Method::double_sine)) == value(with(c, Method::single_sine)));
    RC_ASSERT(value(with(c, Method::double_triangle)) == value(with(c, Method::single_triangle)));
  });
  rc::prop("a double method is the mean of the two single days it is made of", [] {
    const Case c = with(*any_case(), *rc::gen::elementOf(k_cutoffs));
    Case second = c;
    second.tmin = std::min(c.next_tmin, c.tmax);
    second.tmax = std::max(c.next_tmin, c.tmax);
    for (const auto& [one, two] : {std::pair{Method::single_sine, Method::double_sine},
                                   std::pair{Method::single_triangle, Method::double_triangle}}) {
      RC_ASSERT(close(value(with(c, two)), (value(with(c, one)) + value(with(second, one))) / 2));
    }
  });
  rc::prop("a season sums to the same in any order and however it is split", [] {
    const auto season = *rc::gen::container<std::vector<Case>>(any_case());
    std::vector<DegreeDays> parts(season.size());
    std::transform(season.begin(), season.end(), parts.begin(), on_the_grid);
    const auto sum = [](auto begin, auto end) {
      DegreeDays total;
      for (; begin != end; ++begin) total += *begin;
      return total;
    };
    const DegreeDays whole = sum(parts.begin(), parts.end());
    const auto split = *rc::gen::inRange<std::ptrdiff_t>(0, static_cast<std::ptrdiff_t>(parts.size()) + 1);
    RC_ASSERT(sum(parts.begin(), parts.begin() + split) + sum(parts.begin() + split, parts.end()) == whole);
    RC_ASSERT(sum(parts.rbegin(), parts.rend()) == whole);
    std::sort(parts.begin(), parts.end());
    RC_ASSERT(sum(parts.begin(), parts.end()) == whole);
  });
}
