#include <budclock/forecast/evaluate.hpp>
#include <budclock/weather/reader.hpp>

#include "pest_evaluator.hpp"
#include "season_curves.hpp"

#include <fmt/format.h>
#include <utility>

namespace budclock::forecast {
namespace {

WeatherState weather_state(const SiteWeather& weather, SeasonCache& seasons) {
  WeatherState state;
  if (!weather.days.empty()) state.first = weather.days.first;
  state.last_observed = weather.last_observed();
  state.years = seasons.shifts(season_on(date::January / 1, weather.today).last).size();
  state.normals = !weather.days.empty() && seasons.on_normals(season_on(date::January / 1, weather.today).last);
  for (std::size_t i = 0; i < weather.days.size(); ++i) {
    if (weather.days.tmax[i].origin == weather::Origin::forecast) ++state.forecast_days;
  }
  state.too_old = !state.last_observed || weather.today - *state.last_observed > k_longest_gap;
  return state;
}

/// What was assumed or left out, in words.
std::vector<std::string> notes(const Question& question, const SiteWeather& weather, SeasonCache& seasons) {
  std::vector<std::string> notes = weather.notes;
  if (question.method) {
    notes.push_back(
        fmt::format("Sums are made by the {} method as asked. A figure made by another method then falls "
                    "on another day: trust it less.",
                    degree_day::name(*question.method)));
  }
  const Season& year = seasons.season(degree_day::Formula{}, date::January / 1);
  if (year.missing_days > 0) {
    std::vector<std::string> gaps;
    for (const weather::Gap& gap : weather::gaps(weather.days)) {
      if (gap.last < year.days.first || gap.first > *weather.last_known()) continue;
      gaps.push_back(gap.first == gap.last ? iso(gap.first) : iso(gap.first) + " to " + iso(gap.last));
    }
    if (weather.days.first > year.days.first) gaps.insert(gaps.begin(), "all before " + iso(weather.days.first));
    notes.push_back(fmt::format("{} of the {} days since {} lack a temperature ({}); {}.", year.missing_days,
                                year.known_days, short_text(year.days.first), fmt::join(gaps, ", "),
                                seasons.on_normals(year.days.last) ? "the normals stand in"
                                : year.shifts.empty()              ? "sums are at least what is shown"
                                                      : "each past year's own warmth on those dates stands in"));
  }
  const auto last = weather.last_observed();
  if (last && *last + date::days{1} < weather.today && weather.today - *last <= k_longest_gap) {
    notes.push_back(fmt::format("The weather ends {} days before today; those days are forecast like the future.",
                                (weather.today - *last).count()));
  }
  return notes;
}

}  // namespace

Standing standing_on(const Spread& spread, Day today) {
  if (!spread.known()) return Standing::not_known;
  if (share_reached(spread) == 0) return Standing::never;
  const double reached = share_reached_by(spread, today);
  return reached == 1 ? Standing::passed : reached > 0 ? Standing::under_way : Standing::ahead;
}

Spread only_if_reached(Spread spread, const SiteWeather& weather) {
  const auto last = weather.last_known();
  if (!spread.known() || (last && share_reached_by(spread, *last) == 1)) return spread;
  return unknown("the weather ends too long before today");
}

Evaluator::Evaluator(const SiteWeather& weather) : seasons_{std::make_unique<SeasonCache>(weather)} {}
Evaluator::~Evaluator() = default;

SiteForecast Evaluator::answer(const Question& question) {
  const SiteWeather& weather = seasons_->weather();
  SiteForecast forecast{.site = question.site, .today = weather.today, .weather = weather_state(weather, *seasons_)};
  forecast.notes = notes(question, weather, *seasons_);
  forecast.notes.insert(forecast.notes.end(), question.site_notes.begin(), question.site_notes.end());
  for (const rules::Pest* pest : question.pests) {
    forecast.pests.push_back(PestEvaluator{*pest, question, *seasons_, forecast.weather.too_old}.evaluate());
  }
  if (question.with_curves && !forecast.weather.too_old) forecast.curves = season_curves(question, *seasons_);
  return forecast;
}

SiteForecast evaluate(const Question& question, const SiteWeather& weather) {
  return Evaluator{weather}.answer(question);
}

}  // namespace budclock::forecast
