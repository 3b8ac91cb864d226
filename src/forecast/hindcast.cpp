#include <budclock/forecast/hindcast.hpp>

#include "replayer.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace budclock::forecast {
namespace {

/// Events that several figures share are replayed once.
auto key(const SumEvent& event) {
  return std::tuple{event.formula, unsigned{event.start.month()}, unsigned{event.start.day()}, event.sum};
}
using EventKey = decltype(key(SumEvent{}));

const rules::DegreeDayCue* sum_cue(const rules::Trigger& trigger) {
  if (const auto* cue = std::get_if<rules::DegreeDayCue>(&trigger.cue)) return cue;
  const auto* plant = std::get_if<rules::PlantCue>(&trigger.cue);
  return plant != nullptr && plant->degree_days ? &*plant->degree_days : nullptr;
}

void add_figures(const rules::Pest& pest, const rules::Stage& stage, const std::vector<rules::Trigger>& triggers,
                 std::vector<Figure>& figures) {
  for (const rules::Trigger& trigger : triggers) {
    const rules::DegreeDayCue* cue = sum_cue(trigger);
    if (cue == nullptr || trigger.use == rules::Use::shown) continue;
    const rules::Count& count = *rules::find_count(pest, cue->count);
    figures.push_back({&pest, &stage, &trigger, {rules::formula(count), count.start.value, cue->sum}, cue->scatter});
  }
}

}  // namespace

std::vector<Figure> figures_of(const std::vector<const rules::Pest*>& pests) {
  std::vector<Figure> figures;
  for (const rules::Pest* pest : pests) {
    for (const rules::Stage& stage : pest->stages) {
      add_figures(*pest, stage, stage.begins, figures);
      add_figures(*pest, stage, stage.ends, figures);
    }
  }
  return figures;
}

std::vector<ReplayedForecast> replay(const SumEvent& event, const weather::DailySeries& record, int lead,
                                     int known_days) {
  Replayer replayer{record};
  return replayer.forecasts(replayer.past(event), lead, known_days);
}

Hindcast hindcast(const HindcastQuestion& question, const weather::DailySeries& record) {
  Hindcast result{.site = question.site, .known_days = question.known_days};
  if (record.empty()) return result;
  result.first = record.first;
  result.last = record.last();
  Replayer replayer{record};
  std::map<EventKey, EventHindcast> scored;
  std::vector<std::vector<ReplayedForecast>> all(question.leads.size());

  for (const Figure& figure : figures_of(question.pests)) {
    const auto [entry, is_new] = scored.try_emplace(key(figure.event));
    EventHindcast& event = entry->second;
    if (is_new) {
      const PastSeasons past = replayer.past(figure.event);
      event = {.seasons = past.seasons.size(), .reached = past.reached(), .mean_date = past.mean_date()};
      for (std::size_t i = 0; i < question.leads.size(); ++i) {
        const auto forecasts = replayer.forecasts(past, question.leads[i], question.known_days);
        if (!forecasts.empty()) event.leads.push_back({question.leads[i], score(forecasts)});
        all[i].insert(all[i].end(), forecasts.begin(), forecasts.end());
      }
    }
    result.seasons = std::max(result.seasons, event.seasons);
    result.figures.push_back({figure, event});
  }
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!all[i].empty()) result.pooled.push_back({question.leads[i], score(all[i])});
  }
  return result;
}

}  // namespace budclock::forecast
