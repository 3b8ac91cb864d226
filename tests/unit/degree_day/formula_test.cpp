#include <budclock/degree_day/formula.hpp>

#include <catch2/catch.hpp>
#include <initializer_list>
#include <string>

using namespace budclock;
using namespace budclock::degree_day;

namespace {

constexpr Temperature k_50f = Temperature::hundredths_fahrenheit(5000);
constexpr Temperature k_88f = Temperature::hundredths_fahrenheit(8800);

constexpr std::initializer_list<Method> k_all_methods{Method::average,         Method::average_clipped,
                                                      Method::single_sine,     Method::double_sine,
                                                      Method::single_triangle, Method::double_triangle};

constexpr std::initializer_list<Cutoff> k_all_cutoffs{Cutoff::none, Cutoff::horizontal, Cutoff::vertical,
                                                      Cutoff::intermediate};

}  // namespace

TEST_CASE("every method and cutoff has its name and is read back from it") {
  for (const Method method : k_all_methods) CHECK(parse_method(name(method)) == method);
  for (const Cutoff cutoff : k_all_cutoffs) CHECK(parse_cutoff(name(cutoff)) == cutoff);
  std::string methods;
  for (const Method method : k_all_methods) methods.append(name(method)) += ' ';
  CHECK(methods == "average average-clipped single-sine double-sine single-triangle double-triangle ");
  std::string cutoffs;
  for (const Cutoff cutoff : k_all_cutoffs) cutoffs.append(name(cutoff)) += ' ';
  CHECK(cutoffs == "none horizontal vertical intermediate ");
}

TEST_CASE("a name that is not exactly one of the list is not guessed at") {
  for (const char* text : {"", "sine", "Average", "single_sine", "average ", "single-sine-"}) {
    INFO("[" << text << "]");
    CHECK_FALSE(parse_method(text));
  }
  for (const char* text : {"", "None", "horizontal ", "upper"}) {
    INFO("[" << text << "]");
    CHECK_FALSE(parse_cutoff(text));
  }
}

TEST_CASE("only the double methods need the next day's minimum") {
  for (const Method method : k_all_methods) {
    CHECK(needs_next_tmin(method) == (method == Method::double_sine || method == Method::double_triangle));
  }
}

TEST_CASE("of the 24 pairs of method and cutoff, the three that nobody defines are refused") {
  int refused = 0;
  for (const Method method : k_all_methods) {
    for (const Cutoff cutoff : k_all_cutoffs) {
      const Formula formula{method, cutoff, k_50f, cutoff == Cutoff::none ? std::nullopt : std::optional{k_88f}};
      if (problem(formula)) ++refused;
    }
  }
  CHECK(refused == 3);
  CHECK(problem({Method::average, Cutoff::vertical, k_50f, k_88f}) ==
        "the average method has no vertical cutoff: use a sine or triangle method, or the horizontal cutoff or none");
  CHECK(problem({Method::average_clipped, Cutoff::vertical, k_50f, k_88f}) ==
        "the average-clipped method has no vertical cutoff: use a sine or triangle method, or the horizontal cutoff "
        "or none");
  CHECK(problem({Method::average, Cutoff::intermediate, k_50f, k_88f}) ==
        "the average method has no intermediate cutoff: use average-clipped, a sine or a triangle method, or the "
        "horizontal cutoff or none");
}

TEST_CASE("a cutoff without an upper threshold, and the reverse, are refused") {
  CHECK(problem({Method::single_sine, Cutoff::vertical, k_50f, std::nullopt}) ==
        "the vertical cutoff needs an upper threshold: give one, or use cutoff none");
  CHECK(problem({Method::single_sine, Cutoff::none, k_50f, k_88f}) ==
        "an upper threshold is given but the cutoff is none: choose a cutoff (horizontal is the usual one), or leave "
        "the upper threshold out");
}

TEST_CASE("an upper threshold at or below the lower one is refused, with both values in both scales") {
  CHECK(problem({Method::average, Cutoff::horizontal, k_50f, k_50f}) ==
        "the upper threshold, 50.00 F (10.00 C), is not above the lower one, 50.00 F (10.00 C): give an upper "
        "threshold above the lower one");
  CHECK(problem({Method::single_sine, Cutoff::horizontal, k_50f, Temperature::fahrenheit(41)}) ==
        "the upper threshold, 41.00 F (5.00 C), is not above the lower one, 50.00 F (10.00 C): give an upper "
        "threshold above the lower one");
  CHECK_FALSE(problem({Method::average, Cutoff::horizontal, k_50f, Temperature::hundredths_fahrenheit(5001)}));
}

TEST_CASE("averaging lands on the grid exactly, half tenths and all") {
  const Formula formula{Method::average, Cutoff::none, k_50f, std::nullopt};
  const auto day = of_day(formula, Temperature::fahrenheit(44.3), Temperature::fahrenheit(71.2), {});
  CHECK(day == DegreeDays::from_units(std::int64_t{775} * 5 * DegreeDays::k_units_per_tick));  // 7.75 F-days
}

TEST_CASE("clipped averaging with the intermediate cutoff reflects each extreme about the upper threshold") {
  const auto clipped = [](double tmin, double tmax) {
    return degree_days(Method::average_clipped, Cutoff::intermediate, tmin, tmax, 0, 50, 86);
  };
  CHECK(clipped(60, 90) == 21);   // (60 + 82)/2 - 50
  CHECK(clipped(90, 100) == 27);  // (82 + 72)/2 - 50
  CHECK(clipped(86, 86) == 36);   // at the threshold: not above it
  CHECK(clipped(130, 140) == 0);  // reflected below the lower threshold, then raised to it
}

TEST_CASE("a day that stands still at the upper threshold counts in full under every cutoff") {
  for (const Method method : {Method::single_sine, Method::single_triangle}) {
    for (const Cutoff cutoff : {Cutoff::horizontal, Cutoff::vertical, Cutoff::intermediate}) {
      CHECK(degree_days(method, cutoff, 88, 88, 88, 50, 88) == 38);
    }
    CHECK(degree_days(method, Cutoff::vertical, 88.01, 88.01, 88.01, 50, 88) == Approx(0).margin(1e-12));
  }
}
