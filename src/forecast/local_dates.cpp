// What past seasons at the site say of a published sum, and the dates that follow from it.
#include "pest_evaluator.hpp"

#include <algorithm>

namespace budclock::forecast {

/// Only where its source prints a scatter does a learned sum give dates of its own. A figure put through another method
/// than its own is another figure: nothing is learned of it.
void PestEvaluator::set_local(const rules::Stage& stage, TriggerForecast& forecast) {
  const auto* cue = std::get_if<rules::DegreeDayCue>(&forecast.trigger->cue);
  if (cue == nullptr || forecast.degree_days->method_overridden) return;
  const auto& log = question_.sightings;
  const auto by_date = [](const journal::Sighting& a, const journal::Sighting& b) { return a.date < b.date; };
  const auto first = std::min_element(log.begin(), log.end(), by_date);
  std::vector<SeenBetween> finds;
  if (first != log.end()) {
    finds = finds_of(log, question_.site, pest_.id, stage.id, year_of(first->date), year_of(today()) - 1);
  }
  if (finds.empty() && !cue->scatter) return;
  const rules::Count& count = *rules::find_count(pest_, cue->count);
  const auto scatter = cue->scatter ? std::optional{cue->scatter->fahrenheit_days()} : std::nullopt;
  const degree_day::Formula& formula = forecast.degree_days->formula;
  const LocalSum local =
      local_sum(seasons_.record(formula), count.start.value, today(), cue->sum.fahrenheit_days(), scatter, finds);
  forecast.local = local;
  if (!local.learned) return;
  if (local.seasons > 0) {
    forecast.learned = date_by(formula, count.start.value, DegreeDays::fahrenheit_days(local.learned->sum), nullptr);
    forecast.learned_summary = summarize(forecast.learned);
  }
  const Season& season = seasons_.season(formula, count.start.value);
  if (too_old_) return;
  forecast.doubtful_summary = summarize(first_reached_about(season, local.learned->sum, local.learned->predictive));
}

}  // namespace budclock::forecast
