// Worked examples as printed. Each row names the page it was read on.
#include <budclock/degree_day/formula.hpp>

#include <catch2/catch.hpp>
#include <vector>

using namespace budclock;
using namespace budclock::degree_day;

namespace {

struct Example {
  double tmin, tmax, lower, upper;
  Method method;
  Cutoff cutoff;
  double degree_days;
  const char* source;
};

constexpr double k_no_upper = 0;

constexpr const char* k_iowa =
    "Iowa State University, Agronomy 541 lesson 2b, agron-www.agron.iastate.edu/courses/Agron541";
constexpr const char* k_cornell = "Cornell University, Plant Pathology, Christmas tree pests: growing degree-days";
constexpr const char* k_nugent = "J. Nugent, Michigan State University: how growing degree-days are calculated";
constexpr const char* k_column = "County extension column 2018, Waushara Argus: calculating growing degree days";
constexpr const char* k_citrus = "University of California, citrus pest management guidelines, degree-day figure";
constexpr const char* k_wang = "Wang 1960, Ecology 41:785-790, abstract";
constexpr const char* k_midwest = "Midwestern Regional Climate Center, growing degree-day information page";
constexpr const char* k_school = "School phenology sheet, learner.org/jnorth, degree-day chart instructions";

// Four sources print a day's mean only. Plain averaging sees nothing else, so those rows have the mean plus and minus
// ten degrees (the means of 64, 55, 75 and 39).
const std::vector<Example> k_examples{
    {50, 70, 50, k_no_upper, Method::average, Cutoff::none, 10, k_iowa},
    {44, 76, 50, k_no_upper, Method::average, Cutoff::none, 10, k_cornell},
    {40, 65, 50, k_no_upper, Method::average, Cutoff::none, 2.5, k_nugent},
    {35, 60, 50, k_no_upper, Method::average, Cutoff::none, 0, k_nugent},
    {65, 90, 50, 86, Method::average_clipped, Cutoff::horizontal, 25.5, k_column},
    {46, 72, 50, 86, Method::average_clipped, Cutoff::horizontal, 11, k_column},
    {42, 63, 50, 86, Method::average_clipped, Cutoff::horizontal, 6.5, k_column},
    {54, 74, 53, k_no_upper, Method::average, Cutoff::none, 11, k_citrus},
    {45, 65, 40, k_no_upper, Method::average, Cutoff::none, 15, k_wang},
    {65, 85, 65, k_no_upper, Method::average, Cutoff::none, 10, k_midwest},
    {29, 49, 40, k_no_upper, Method::average, Cutoff::none, 0, k_school},
};

DegreeDays on_the_grid(const Example& example) {
  Formula formula{example.method, example.cutoff, Temperature::fahrenheit(example.lower), std::nullopt};
  if (example.cutoff != Cutoff::none) formula.upper = Temperature::fahrenheit(example.upper);
  return of_day(formula, Temperature::fahrenheit(example.tmin), Temperature::fahrenheit(example.tmax), {});
}

}  // namespace

TEST_CASE("published worked examples come out as printed, to the last bit") {
  for (const Example& example : k_examples) {
    INFO(example.source << ": " << example.tmin << " to " << example.tmax << ", base " << example.lower);
    CHECK(degree_days(example.method, example.cutoff, example.tmin, example.tmax, example.tmin, example.lower,
                      example.upper) == example.degree_days);
    CHECK(on_the_grid(example) == DegreeDays::fahrenheit_days(example.degree_days));
  }
}

TEST_CASE("the published three-day tally of the 86/50 rule comes to 43") {
  DegreeDays sum;
  int days = 0;
  for (const Example& example : k_examples) {
    if (example.source != k_column) continue;
    sum += on_the_grid(example);
    ++days;
  }
  CHECK(days == 3);
  CHECK(sum == DegreeDays::fahrenheit_days(43));
}
