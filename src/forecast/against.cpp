#include <budclock/forecast/against.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace budclock::forecast {
namespace {

/// A season that teaches.
struct Taught {
  SeasonDays days{};
  SeenBetween seen{};
  SeenSum sum{};
};

double in_days(Day day, SeasonDays days) { return static_cast<double>((day - days.first).count()); }

/// The middle of the days on which it may have been.
double middle(const Taught& season) {
  return (in_days(season.seen.last_not_found, season.days) + 1 + in_days(season.seen.first_found, season.days)) / 2;
}

std::vector<Taught> without(const std::vector<Taught>& all, std::size_t left_out) {
  std::vector<Taught> others = all;
  others.erase(others.begin() + static_cast<std::ptrdiff_t>(left_out));
  return others;
}

LearnedThreshold learned_from(const ThresholdPrior& prior, const std::vector<Taught>& seasons) {
  std::vector<SeenSum> sums;
  for (const Taught& season : seasons) sums.push_back(season.sum);
  return learn(prior, sums);
}

double mean_middle(const std::vector<Taught>& seasons) {
  double sum = 0;
  for (const Taught& season : seasons) sum += middle(season);
  return sum / static_cast<double>(seasons.size());
}

/// The dates of an uncertain sum after the day of issue; "not this season" is the day after the last one.
std::vector<double> dates_to_come(const Season& season, double sum, double deviation, Day issued) {
  std::vector<double> dates;
  for (const auto& date : first_reached_about(season, sum, deviation).dates) {
    const Day day = date.value_or(season.days.last + date::days{1});
    if (day > issued) dates.push_back(in_days(day, season.days));
  }
  // A sum that is reached already while the event is not is due at once.
  if (dates.empty()) dates.push_back(in_days(issued, season.days) + 1);
  std::sort(dates.begin(), dates.end());
  return dates;
}

double at_share(const std::vector<double>& sorted, double share) {
  const double rank = std::ceil(share * static_cast<double>(sorted.size()));
  return sorted[static_cast<std::size_t>(std::max(rank, 1.0)) - 1];
}

/// The share of the middle 8 tenths among the places that the days between the visits take.
double covered(const std::vector<double>& dates, const Taught& season, Day issued) {
  const double after = in_days(std::max(season.seen.last_not_found, issued), season.days);
  const double until = in_days(season.seen.first_found, season.days);
  return share_inside({pit_range(dates, after + 1).low, pit_range(dates, until).high}, 0.1, 0.9);
}

void add(AgainstScores::OfSum& scores, const std::vector<double>& dates, const Taught& season, Day issued) {
  const double error = at_share(dates, 0.5) - middle(season);
  scores.bias += error;
  scores.error += std::abs(error);
  scores.covered += covered(dates, season, issued);
  scores.width += at_share(dates, 0.9) - at_share(dates, 0.1);
}

void divide(AgainstScores& scores) {
  const auto count = static_cast<double>(std::max<std::size_t>(scores.forecasts, 1));
  scores.calendar_error /= count;
  scores.covered_weather /= count;
  for (AgainstScores::OfSum* sums : {&scores.published, &scores.learned}) {
    for (double* sum : {&sums->bias, &sums->error, &sums->covered, &sums->width}) *sum /= count;
  }
}

ThresholdPrior prior_of(const Figure& figure) {
  const double sum = figure.event.sum.fahrenheit_days();
  const auto& scatter = figure.scatter;
  return threshold_prior(sum, scatter ? scatter->fahrenheit_days() : scatter_in_place(sum));
}

class Judge {
 public:
  Judge(const Figure& figure, const weather::DailySeries& record)
      : figure_{figure}, record_{record}, complete_{record}, degree_days_{figure.event.formula, record} {}

  /// Nothing when it does not teach.
  std::optional<Taught> taught(const SeenBetween& seen) const {
    const SeasonDays days = season_on(figure_.event.start, seen.first_found);
    const auto sum = seen_sum(run_season(degree_days_, days, record_.last(), {}), seen);
    if (!sum) return std::nullopt;
    return Taught{days, seen, *sum};
  }

  AgainstScores scores(const ThresholdPrior& prior, const std::vector<Taught>& seasons, int lead) const {
    AgainstScores scores{.lead = lead};
    for (std::size_t i = 0; i < seasons.size(); ++i) add_season(prior, seasons[i], without(seasons, i), scores);
    divide(scores);
    return scores;
  }

 private:
  void add_season(const ThresholdPrior& prior, const Taught& season, const std::vector<Taught>& others,
                  AgainstScores& scores) const {
    const double usual = mean_middle(others);
    const Day issued = season.days.first + date::days{static_cast<int>(std::lround(usual)) - scores.lead};
    if (season.seen.first_found <= issued) return;
    const auto shifts = member_shifts(complete_, issued, season.days.last, OtherYears::all);
    const Season forecast = run_season(degree_days_, season.days, issued, shifts);
    const LearnedThreshold published = learn(prior, {});
    const LearnedThreshold learned = learned_from(prior, others);
    ++scores.forecasts;
    scores.calendar_error += std::abs(usual - middle(season));
    scores.covered_weather += covered(dates_to_come(forecast, prior.published, 0, issued), season, issued);
    add(scores.published, dates_to_come(forecast, published.sum, published.predictive, issued), season, issued);
    add(scores.learned, dates_to_come(forecast, learned.sum, learned.predictive, issued), season, issued);
  }

  const Figure& figure_;
  const weather::DailySeries& record_;
  CompleteDays complete_;
  DegreeDayRecord degree_days_;
};

}  // namespace

FigureAgainst against(const Figure& figure, const std::vector<SeenBetween>& seen, const weather::DailySeries& record,
                      const std::vector<int>& leads) {
  FigureAgainst result{.figure = figure, .prior = prior_of(figure)};
  if (record.empty()) return result;
  const Judge judge{figure, record};
  std::vector<Taught> seasons;
  for (const SeenBetween& each : seen) {
    if (auto season = judge.taught(each)) {
      seasons.push_back(*season);
    } else {
      ++result.set_aside;
    }
  }
  result.learned = learned_from(result.prior, seasons);
  if (seasons.size() < k_seasons_against) return result;
  for (const int lead : leads) result.leads.push_back(judge.scores(result.prior, seasons, lead));
  return result;
}

}  // namespace budclock::forecast
