#include <budclock/forecast/verification.hpp>

#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <limits>
#include <random>
#include <sstream>
#include <string>

using namespace budclock::forecast;

namespace {

struct Vector {
  std::string kind;
  std::vector<double> numbers;  ///< members, or mean and standard deviation
  double observed = 0;
  double crps = 0;
  std::string fair;
};

std::vector<Vector> vectors() {
  std::ifstream in{std::string{BUDCLOCK_TEST_DATA} + "/verification/crps_vectors.csv"};
  REQUIRE(in);
  std::vector<Vector> rows;
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    std::istringstream cells{line};
    std::string numbers, observed, score;
    Vector row;
    std::getline(cells, row.kind, ',');
    std::getline(cells, numbers, ',');
    std::getline(cells, observed, ',');
    std::getline(cells, score, ',');
    std::getline(cells, row.fair, ',');
    std::istringstream words{numbers};
    for (double number = 0; words >> number;) row.numbers.push_back(number);
    row.observed = std::stod(observed);
    row.crps = std::stod(score);
    rows.push_back(row);
  }
  return rows;
}

/// The value below which a share `p` of the standard normal distribution lies, by bisection of erfc.
double normal_quantile(double p) {
  double low = -10, high = 10;
  for (int i = 0; i < 80; ++i) {
    const double middle = (low + high) / 2;
    (0.5 * std::erfc(-middle / std::sqrt(2.0)) < p ? low : high) = middle;
  }
  return low;
}

}  // namespace

TEST_CASE("the score of an ensemble agrees with values computed at 50 digits") {
  std::size_t checked = 0;
  for (const Vector& row : vectors()) {
    if (row.kind != "ensemble") continue;
    INFO(row.observed);
    CHECK(crps(row.numbers, row.observed) == Approx(row.crps).margin(1e-12).epsilon(1e-13));
    if (!row.fair.empty()) {
      CHECK(fair_crps(row.numbers, row.observed) == Approx(std::stod(row.fair)).margin(1e-12).epsilon(1e-13));
    }
    ++checked;
  }
  CHECK(checked == 6);
}

TEST_CASE("the score of ten thousand normal members is that of the normal distribution") {
  std::size_t checked = 0;
  for (const Vector& row : vectors()) {
    if (row.kind != "normal") continue;
    std::vector<double> members;
    for (int i = 0; i < 10'000; ++i) {
      members.push_back(row.numbers[0] + row.numbers[1] * normal_quantile((i + 0.5) / 10'000));
    }
    CHECK(crps(members, row.observed) == Approx(row.crps).margin(1e-4 * row.numbers[1]));
    ++checked;
  }
  CHECK(checked == 5);
}

TEST_CASE("the fair score of one date is its error") {
  CHECK(fair_crps({118}, 121) == 3);
  CHECK(crps({118}, 121) == 3);
}

TEST_CASE("the fair score does not favour large ensembles and the other does") {
  std::mt19937_64 engine{7};
  std::normal_distribution<double> normal{0, 5};
  double fair_small = 0, fair_large = 0, raw_small = 0, raw_large = 0;
  constexpr int k_trials = 20'000;
  for (int trial = 0; trial < k_trials; ++trial) {
    std::vector<double> members;
    const double observed = normal(engine);
    for (int m = 0; m < 40; ++m) members.push_back(normal(engine));
    const std::vector<double> few{members.begin(), members.begin() + 4};
    fair_small += fair_crps(few, observed) / k_trials;
    fair_large += fair_crps(members, observed) / k_trials;
    raw_small += crps(few, observed) / k_trials;
    raw_large += crps(members, observed) / k_trials;
  }
  // The expected score of the right normal distribution is sd/sqrt(pi) = 2.82; of 4 members, a quarter more.
  CHECK(fair_small == Approx(5 / std::sqrt(std::acos(-1.0))).margin(0.06));
  CHECK(fair_large == Approx(fair_small).margin(0.06));
  CHECK(raw_small - raw_large > 0.5);
}

TEST_CASE("truth among the members takes the place between its neighbours, and all the tied places") {
  const std::vector<double> members{1, 2, 2, 3};
  CHECK(pit_range(members, 0.5).low == 0);
  CHECK(pit_range(members, 0.5).high == Approx(0.2));
  CHECK(pit_range(members, 2).low == Approx(0.2));
  CHECK(pit_range(members, 2).high == Approx(0.8));
  CHECK(pit_range(members, 9).low == Approx(0.8));
  CHECK(pit_range(members, 9).high == Approx(1));
  CHECK(randomised_pit(pit_range(members, 2), 0.5) == Approx(0.5));
}

TEST_CASE("truth that is like another member is covered 80 times in 100, whole-day ties or not") {
  std::mt19937_64 engine{11};
  std::normal_distribution<double> normal{0, 2};  // a few days: most dates are tied
  std::uniform_real_distribution<double> uniform{0, 1};
  double covered = 0, drawn = 0, ties_inside = 0;
  RankHistogram histogram;
  constexpr int k_trials = 20'000;
  for (int trial = 0; trial < k_trials; ++trial) {
    std::vector<double> members;
    for (int m = 0; m < 29; ++m) members.push_back(std::round(normal(engine)));
    const PitRange range = pit_range(members, std::round(normal(engine)));
    covered += share_inside(range, 0.1, 0.9) / k_trials;
    const double pit = randomised_pit(range, uniform(engine));
    if (pit >= 0.1 && pit <= 0.9) drawn += 1.0 / k_trials;
    if (range.high > 0.1 && range.low < 0.9) ties_inside += 1.0 / k_trials;
    histogram.add(range);
  }
  CHECK(covered == Approx(0.8).margin(0.01));
  CHECK(drawn == Approx(covered).margin(0.01));
  CHECK(ties_inside > 0.85);
  for (const double count : histogram.counts()) CHECK(count / k_trials == Approx(0.1).margin(0.01));
}

TEST_CASE("a forecast that is too narrow piles truth up in the outer tenths") {
  RankHistogram histogram;
  for (int truth = -20; truth <= 20; ++truth) histogram.add(pit_range({-2, -1, 0, 1, 2}, truth));
  CHECK(histogram.counts().front() > 5);
  CHECK(histogram.counts().back() > 5);
  CHECK(histogram.counts()[4] < 2);
}

TEST_CASE("skill is one minus the share of the rival's score that is left") {
  CHECK(skill(1, 4) == 0.75);
  CHECK(skill(4, 4) == 0);
  CHECK(skill(0, 0) == 0);
  CHECK(skill(1, 0) == -std::numeric_limits<double>::infinity());
}

TEST_CASE("the range of a skill comes from whole years, so that a second station in the same weather adds nothing") {
  std::vector<ScoredCase> one;
  std::vector<ScoredCase> doubled;
  std::mt19937_64 engine{3};
  std::normal_distribution<double> normal{0, 1};
  for (int year = 1985; year < 2015; ++year) {
    const ScoredCase each{.year = year, .stratum = 0, .score = 2 + normal(engine), .reference = 4 + normal(engine)};
    one.push_back(each);
    doubled.push_back(each);
    doubled.push_back(each);
  }
  const SkillRange range = bootstrap_skill(one);
  const SkillRange twice = bootstrap_skill(doubled);
  CHECK(range.low < range.skill);
  CHECK(range.skill < range.high);
  CHECK(twice.low == Approx(range.low));
  CHECK(twice.high == Approx(range.high));
}

TEST_CASE("the range of a skill has the width that theory gives") {
  // Each year's score is 1 +- 0.5 against a reference of 2: the skill's standard error is 0.25/sqrt(n).
  std::vector<ScoredCase> cases;
  for (int year = 0; year < 400; ++year) {
    cases.push_back({.year = year, .stratum = 0, .score = year % 2 == 0 ? 0.5 : 1.5, .reference = 2});
  }
  const SkillRange range = bootstrap_skill(cases);
  CHECK(range.skill == Approx(0.5));
  CHECK(range.high - range.low == Approx(2 * 1.645 * 0.25 / 20).epsilon(0.1));
}

TEST_CASE("each stratum keeps its share in every draw") {
  // Within a stratum all years are alike, so no draw can change anything; drawn together they would.
  std::vector<ScoredCase> cases;
  for (int year = 0; year < 10; ++year) {
    cases.push_back({.year = year, .stratum = 0, .score = 0, .reference = 1});
    cases.push_back({.year = year + 10, .stratum = 1, .score = 1, .reference = 1});
  }
  const SkillRange range = bootstrap_skill(cases);
  CHECK(range.low == Approx(0.5));
  CHECK(range.high == Approx(0.5));
  for (ScoredCase& each : cases) each.stratum = 0;
  CHECK(bootstrap_skill(cases).low < 0.45);
}
