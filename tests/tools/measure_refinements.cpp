// Can past years be made to forecast better than they do raw? Tries the season's own anomaly carried on, a warming
// trend, and weights of the years by nearness in time or in weather.
// usage: measure_refinements all|past FILE...    daily records with the unit in their header
// `all` continues a season with all other years, as the hindcast does; `past` with earlier ones only, as on the day.
// The constants of each refinement are fitted on the odd years of every second record and judged on the even years of
// the other records, and the other way round; years are drawn anew together, whatever the station.
#include "shipped_sums.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <map>
#include <numeric>
#include <set>
#include <string>
#include <tuple>
#include <vector>

using namespace budclock;
using namespace budclock::forecast;

namespace {

constexpr std::array k_leads{7, 14, 30, 60};

/// What is done to the ensemble; as it stands, nothing.
struct Refinement {
  std::string kind = "raw";
  double kept = 0;              ///< share of the anomaly of the days before that the first day still has
  double decay_days = 1;        ///< after so many days it has fallen to 1/e
  std::size_t window = 0;       ///< which of k_windows the anomaly is taken over
  double trend = 0;             ///< warming, C a year, that a member year lacks or has too much
  double own_trend = 0;         ///< share of the record's own trend, the season's year left out
  double recency_years = 0;     ///< a year so far away weighs 1/e; 0: all the same
  double likeness_celsius = 0;  ///< a year whose anomaly differs by so much weighs exp(-1/2); 0: all the same

  std::string text() const {
    if (kind == "persistence")
      return fmt::format("{:.2f} kept, decay {:.0f} days, of {} days", kept, decay_days, k_windows[window]);
    if (kind == "trend") return fmt::format("{:.2f} C a decade", 10 * trend);
    if (kind == "own trend") return fmt::format("{:.0f} % of the record's", 100 * own_trend);
    if (kind == "recency") return fmt::format("{:.0f} years", recency_years);
    if (kind == "likeness") return fmt::format("{:.2f} C over {} days", likeness_celsius, k_windows[window]);
    return "";
  }
  static constexpr std::array<int, 2> k_windows{14, 30};
};

std::vector<Refinement> refinements() {
  std::vector<Refinement> all{{}};
  for (std::size_t window = 0; window < Refinement::k_windows.size(); ++window) {
    for (const double kept : {0.1, 0.2, 0.3, 0.45}) {
      for (const double decay : {5.0, 10.0, 20.0, 40.0}) {
        all.push_back({.kind = "persistence", .kept = kept, .decay_days = decay, .window = window});
      }
    }
    for (const double likeness : {0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0, 5.0}) {
      all.push_back({.kind = "likeness", .window = window, .likeness_celsius = likeness});
    }
  }
  for (const double trend : {0.005, 0.01, 0.02, 0.03, 0.04, 0.06}) all.push_back({.kind = "trend", .trend = trend});
  for (const double share : {0.25, 0.5, 0.75, 1.0}) all.push_back({.kind = "own trend", .own_trend = share});
  for (const double years : {3.0, 5.0, 7.0, 10.0, 15.0, 30.0, 60.0})
    all.push_back({.kind = "recency", .recency_years = years});
  return all;
}

/// How much warmer than usual the days before a day were, and how the record warms.
class Anomalies {
 public:
  explicit Anomalies(const weather::DailySeries& record) : record_{record}, of_day_(record.size(), k_none) {
    std::map<int, std::pair<double, double>> usual;  // sum and count by place in a leap year
    for (std::size_t i = 0; i < record.size(); ++i) {
      if (!record.complete(i)) continue;
      auto& [sum, count] = usual[slot(record.day(i))];
      sum += mean(i);
      ++count;
    }
    for (std::size_t i = 0; i < record.size(); ++i) {
      if (!record.complete(i)) continue;
      double sum = 0;
      double count = 0;
      for (int near = -k_smooth; near <= k_smooth; ++near) {
        const auto& [near_sum, near_count] = usual[(slot(record.day(i)) + near + 366) % 366];
        sum += near_sum - (near == 0 ? mean(i) : 0);
        count += near_count - (near == 0 ? 1 : 0);
      }
      if (count > 0) of_day_[i] = mean(i) - sum / count;
      auto& [year_sum, year_count] = years_[year_of(record.day(i))];
      year_sum += of_day_[i];
      ++year_count;
    }
  }

  /// Mean over so many days up to `day`, C; nothing when more than a third of them are missing.
  std::optional<double> before(Day day, int days) const {
    double sum = 0;
    int count = 0;
    for (int back = 0; back < days; ++back) {
      const auto index = record_.index_of(day - date::days{back});
      if (!index || of_day_[*index] == k_none) continue;
      sum += of_day_[*index];
      ++count;
    }
    if (3 * count < 2 * days) return std::nullopt;
    return sum / count;
  }

  /// C a year: least squares through the years' means, without one of them.
  double trend_without(int left_out) const {
    double n = 0, x = 0, y = 0, xx = 0, xy = 0;
    for (const auto& [year, sums] : years_) {
      if (year == left_out || sums.second < 330) continue;
      const double at = year;
      const double value = sums.first / sums.second;
      n += 1, x += at, y += value, xx += at * at, xy += at * value;
    }
    return n < 10 ? 0 : (n * xy - x * y) / (n * xx - x * x);
  }

 private:
  static constexpr double k_none = 1e9;
  static constexpr int k_smooth = 7;
  static int slot(Day day) {
    return static_cast<int>((in_year(month_day_of(day), 2000) - Day{date::year{2000} / 1 / 1}).count());
  }
  double mean(std::size_t i) const { return (record_.tmin[i].value.celsius() + record_.tmax[i].value.celsius()) / 2; }

  const weather::DailySeries& record_;
  std::vector<double> of_day_;
  std::map<int, std::pair<double, double>> years_;
};

/// How many more degree-days each day would have had, had it been so much warmer: steps of half a degree, a straight
/// line between them.
class Warmed {
 public:
  Warmed(const degree_day::Formula& formula, const weather::DailySeries& record) : days_{record.size()} {
    for (int step = -k_steps; step <= k_steps; ++step) {
      weather::DailySeries warmer = record;
      for (auto* values : {&warmer.tmin, &warmer.tmax}) {
        for (auto& each : *values) each.value = each.value + TemperatureDifference::celsius(step * k_step);
      }
      for (const auto& amount : daily_degree_days(formula, warmer)) {
        more_.push_back(amount ? amount->fahrenheit_days() : 0);
      }
    }
    const std::vector<double> base(more_.begin() + static_cast<std::ptrdiff_t>(k_steps * days_),
                                   more_.begin() + static_cast<std::ptrdiff_t>((k_steps + 1) * days_));
    for (std::size_t i = 0; i < more_.size(); ++i) more_[i] -= base[i % days_];
  }

  double more(std::ptrdiff_t place, double warmer_celsius) const {
    if (place < 0 || place >= static_cast<std::ptrdiff_t>(days_) || warmer_celsius == 0) return 0;
    const double at = std::clamp(warmer_celsius / k_step + k_steps, 0.0, 2.0 * k_steps - 1e-9);
    const auto row = static_cast<std::size_t>(at);
    const auto i = static_cast<std::size_t>(place);
    const double share = at - static_cast<double>(row);
    return (1 - share) * more_[row * days_ + i] + share * more_[(row + 1) * days_ + i];
  }

 private:
  static constexpr int k_steps = 16;
  static constexpr double k_step = 0.5;
  std::size_t days_;
  std::vector<double> more_;  ///< by step, then by day
};

/// Of one forecast, or summed over forecasts.
struct Score {
  double fair_crps = 0;  ///< as of ever so many members: few that weigh much are not held against it
  double crps = 0;       ///< of the members as they are
  double error = 0;      ///< of the likely date
  double covered = 0;    ///< truth in the middle 8 tenths, by the randomised transform
  double count = 0;

  Score& operator+=(const Score& other) {
    fair_crps += other.fair_crps, crps += other.crps;
    error += other.error, covered += other.covered, count += other.count;
    return *this;
  }
};

/// Of weighted members: with equal weights `fair_crps`, the median as printed and `pit_range`. Else the weights count
/// as 1/(sum of their squares) members.
Score score_of(const std::vector<double>& members, const std::vector<double>& weights, double truth) {
  std::vector<std::size_t> order(members.size());
  std::iota(order.begin(), order.end(), 0U);
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return members[a] < members[b]; });
  const double all = std::accumulate(weights.begin(), weights.end(), 0.0);
  Score score{.count = 1};
  double pairs = 0, squares = 0, before = 0, before_days = 0, earlier = 0, tied = 0;
  bool is_past_median = false;
  for (const std::size_t m : order) {
    const double w = weights[m] / all;
    score.crps += w * std::abs(members[m] - truth);
    pairs += w * (before * members[m] - before_days);
    squares += w * w;
    before += w;
    before_days += w * members[m];
    if (members[m] < truth) earlier += w;
    if (members[m] == truth) tied += w;
    if (!is_past_median && before >= 0.5 - 1e-12) {
      score.error = std::abs(members[m] - truth);
      is_past_median = true;
    }
  }
  score.fair_crps = squares < 1 ? score.crps - pairs / (1 - squares) : score.crps;
  score.crps -= pairs;
  const double places = 1 / squares + 1;
  score.covered =
      share_inside({earlier * (places - 1) / places, ((earlier + tied) * (places - 1) + 1) / places}, 0.1, 0.9);
  return score;
}

/// By refinement, quarter (records even or odd, years even or odd) and lead, then by year.
using Sums = std::map<std::tuple<std::size_t, int, int>, std::map<int, Score>>;

struct Case {
  const SumEvent& event;
  const ReplayedForecast& forecast;
  const Season& season;
  const std::vector<std::optional<double>>& before;                       ///< anomaly by window
  const std::vector<std::vector<std::optional<double>>>& before_members;  ///< by window and member
  double own_trend;
};

class Judge {
 public:
  Judge(const weather::DailySeries& record, OtherYears others)
      : record_{record}, complete_{record}, anomalies_{record}, others_{others} {}

  void add(const degree_day::Formula& formula, const std::vector<SumEvent>& events, int record_parity, Sums& sums) {
    const DegreeDayRecord degree_days{formula, record_};
    const Warmed warmed{formula, record_};
    for (const SumEvent& event : events) {
      for (const int lead : k_leads) {
        for (const ReplayedForecast& forecast : replay(event, record_, lead)) {
          add(event, forecast, degree_days, warmed, lead, record_parity, sums);
        }
      }
    }
  }

 private:
  void add(const SumEvent& event, const ReplayedForecast& forecast, const DegreeDayRecord& degree_days,
           const Warmed& warmed, int lead, int record_parity, Sums& sums) {
    const auto shifts = member_shifts(complete_, forecast.issued, forecast.days.last, others_);
    if (shifts.size() < k_members_for_odds) return;
    const Season season = run_season(degree_days, forecast.days, forecast.issued, shifts);
    std::vector<std::optional<double>> before;
    std::vector<std::vector<std::optional<double>>> before_members;
    for (const int window : Refinement::k_windows) {
      before.push_back(anomalies_.before(forecast.issued, window));
      before_members.emplace_back();
      for (const int shift : shifts) {
        before_members.back().push_back(anomalies_.before(shifted(forecast.issued, shift), window));
      }
    }
    const Case each{event, forecast, season, before, before_members, anomalies_.trend_without(forecast.year)};
    const int quarter = 2 * record_parity + forecast.year % 2;
    for (std::size_t r = 0; r < all_.size(); ++r) {
      const Score score = score_of(members(each, all_[r], warmed), weights(each, all_[r]), forecast.truth);
      const bool is_raw = std::abs(score.fair_crps - fair_crps(forecast.members, forecast.truth)) < 1e-9;
      if (r == 0 && others_ == OtherYears::all && !is_raw) {
        fmt::print(stderr, "the raw ensemble is not that of the hindcast\n");
        std::exit(1);
      }
      sums[{r, quarter, lead}][forecast.year] += score;
    }
  }

  /// Dates in days since the season's first day.
  std::vector<double> members(const Case& each, const Refinement& how, const Warmed& warmed) const {
    const Season& season = each.season;
    const auto issued = (each.forecast.issued - season.days.first).count();
    const double anomaly = each.before[how.window].value_or(0);
    const double trend = how.trend + how.own_trend * each.own_trend;
    std::vector<double> dates;
    for (std::size_t m = 0; m < season.members.size(); ++m) {
      const auto& sums = season.members[m];
      // After a leap day this is a day off: for what a day would have been warmer that is near enough.
      const auto place = (shifted(each.forecast.issued, season.shifts[m]) - record_.first).count() - issued;
      double more = 0;
      double kept = how.kept * anomaly;
      const double fading = std::exp(-1 / how.decay_days);
      // Where days were missing, some members may have got there already.
      const auto known = std::max<std::ptrdiff_t>(issued + 1, 0);
      const bool reached = known > 0 && sums[static_cast<std::size_t>(known) - 1] >= each.event.sum;
      auto i = reached ? 0 : known;
      for (; i < static_cast<std::ptrdiff_t>(sums.size()); ++i) {
        if (i >= known) more += warmed.more(place + i, kept - trend * season.shifts[m]);
        if (i >= known) kept *= fading;
        if (sums[static_cast<std::size_t>(i)] + DegreeDays::fahrenheit_days(more) >= each.event.sum) break;
      }
      dates.push_back(static_cast<double>(i));
    }
    return dates;
  }

  static std::vector<double> weights(const Case& each, const Refinement& how) {
    std::vector<double> weights(each.season.shifts.size(), 1.0);
    for (std::size_t m = 0; m < weights.size(); ++m) {
      if (how.recency_years > 0) weights[m] *= std::exp(-std::abs(each.season.shifts[m]) / how.recency_years);
      const auto& own = each.before[how.window];
      const auto& other = each.before_members[how.window][m];
      if (how.likeness_celsius > 0 && own && other) {
        const double apart = (*own - *other) / how.likeness_celsius;
        weights[m] *= std::exp(-apart * apart / 2);
      }
    }
    // No year is like it: then all are as good.
    if (std::accumulate(weights.begin(), weights.end(), 0.0) < 1e-12) weights.assign(weights.size(), 1.0);
    return weights;
  }

  const weather::DailySeries& record_;
  CompleteDays complete_;
  Anomalies anomalies_;
  OtherYears others_;
  const std::vector<Refinement> all_ = refinements();
};

/// Over all leads.
Score total(const Sums& sums, std::size_t refinement, int quarter) {
  Score total;
  for (const int lead : k_leads) {
    const auto found = sums.find({refinement, quarter, lead});
    if (found == sums.end()) continue;
    for (const auto& [year, score] : found->second) total += score;
  }
  return total;
}

/// What was fitted on one quarter, to be judged on the opposite one.
struct Fitted {
  std::size_t refinement = 0;
  int judged = 0;
};

/// By the CRPS as it is: the fair one favours ever fewer members, for it does not count what a median of few costs.
Fitted fitted_on(const Sums& sums, const std::vector<Refinement>& all, const std::string& kind, int quarter) {
  std::size_t best = 0;
  for (std::size_t r = 1; r < all.size(); ++r) {
    if (all[r].kind != kind) continue;
    if (best == 0 || total(sums, r, quarter).crps < total(sums, best, quarter).crps) best = r;
  }
  return {best, 3 - quarter};
}

/// How much less than raw, in percent, and what 9 of 10 redrawn sets of years give; quarters are strata.
std::string gain(const Sums& sums, const std::vector<Fitted>& fits, const std::vector<int>& leads,
                 double Score::*what) {
  std::vector<ScoredCase> cases;
  for (const Fitted& fit : fits) {
    for (const int lead : leads) {
      const auto& raw = sums.at({0, fit.judged, lead});
      for (const auto& [year, score] : sums.at({fit.refinement, fit.judged, lead})) {
        cases.push_back({year, fit.judged, score.*what, raw.at(year).*what});
      }
    }
  }
  const SkillRange skill = bootstrap_skill(cases);
  return fmt::format("{:+.1f} ({:+.1f}..{:+.1f})", 100 * skill.skill, 100 * skill.low, 100 * skill.high);
}

void print_row(const Sums& sums, const std::vector<Fitted>& fits, const std::string& kind, const std::string& constants,
               const std::string& judged) {
  const std::vector<int> all_leads{k_leads.begin(), k_leads.end()};
  Score raw, refined;
  for (const Fitted& fit : fits) raw += total(sums, 0, fit.judged), refined += total(sums, fit.refinement, fit.judged);
  fmt::print("| {} | {} | {} | {} | {} | {} | {:.1f} ({:.1f}) |", kind, constants, judged,
             gain(sums, fits, all_leads, &Score::fair_crps), gain(sums, fits, all_leads, &Score::crps),
             gain(sums, fits, all_leads, &Score::error), 100 * refined.covered / refined.count,
             100 * raw.covered / raw.count);
  for (const int lead : k_leads) fmt::print(" {} |", gain(sums, fits, {lead}, &Score::fair_crps));
  fmt::print("\n");
}

}  // namespace

int main(int argc, char** argv) {
  const std::string mode = argc > 2 ? argv[1] : "";
  if (mode != "all" && mode != "past") {
    fmt::print(stderr, "usage: measure_refinements all|past FILE...\n");
    return 2;
  }
  std::map<degree_day::Formula, std::vector<SumEvent>> by_formula;
  for (const SumEvent& event : tools::events()) by_formula[event.formula].push_back(event);
  Sums sums;
  for (int i = 2; i < argc; ++i) {
    const weather::DailySeries record = tools::read(argv[i]);
    Judge judge{record, mode == "all" ? OtherYears::all : OtherYears::past};
    for (const auto& [formula, of_formula] : by_formula) judge.add(formula, of_formula, i % 2, sums);
  }
  fmt::print(
      "| refinement | constants | judged on | fair CRPS less | CRPS less | off less | 80 % (raw) | 7 | 14 | 30 | 60 |\n"
      "|---|---|---|---:|---:|---:|---:|---:|---:|---:|---:|\n");
  const std::vector<Refinement> all = refinements();
  std::set<std::string> kinds;
  for (const Refinement& each : all) kinds.insert(each.kind);
  kinds.erase("raw");
  for (const std::string& kind : kinds) {
    // Quarter 1: records 1, 3, 5, ... and odd years; 2: records 2, 4, 6, ... and even years.
    const std::vector<Fitted> fits{fitted_on(sums, all, kind, 1), fitted_on(sums, all, kind, 2)};
    print_row(sums, {fits[0]}, kind, all[fits[0].refinement].text(), "second half, even years");
    print_row(sums, {fits[1]}, kind, all[fits[1].refinement].text(), "first half, odd years");
    print_row(sums, fits, kind, "", "both");
  }
}
