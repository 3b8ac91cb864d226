#include "season_curves.hpp"

#include "pest_evaluator.hpp"

#include <algorithm>
#include <utility>
#include <variant>

namespace budclock::forecast {
namespace {

Band band_of(std::vector<DegreeDays> sums) {
  std::sort(sums.begin(), sums.end());
  const TenthPlaces places = tenth_places(sums.size());
  return {sums[places.low], sums[places.middle], sums[places.high]};
}

/// The bands of the days from `from` on; each row of `sums` is one year.
std::vector<Band> bands(const std::vector<std::vector<DegreeDays>>& years, std::size_t from) {
  std::vector<Band> bands;
  for (std::size_t day = from; !years.empty() && day < years.front().size(); ++day) {
    std::vector<DegreeDays> sums;
    for (const auto& year : years) sums.push_back(year[day]);
    bands.push_back(band_of(std::move(sums)));
  }
  return bands;
}

/// The running sums of another year through the same days. A missing day takes the mean of its date.
std::vector<DegreeDays> sums_of_year(const DegreeDayRecord& record, SeasonDays days, int shift) {
  std::vector<DegreeDays> sums;
  DegreeDays sum;
  for (Day day = days.first; day <= days.last; day += date::days{1}) {
    const Day other = shifted(day, shift);
    auto amount = record.amount(other);
    if (!amount) amount = record.mean_of_other_years(other);
    sum += amount.value_or(DegreeDays{});
    sums.push_back(sum);
  }
  return sums;
}

SeasonCurve curve_of(const degree_day::Formula& formula, const rules::Count& count, SeasonCache& seasons) {
  const Season& season = seasons.season(formula, count.start.value);
  SeasonCurve curve{.formula = formula, .unit = count.unit, .first = season.days.first};
  const auto last = seasons.weather().last_observed();
  const auto observed = last && *last >= curve.first ? static_cast<std::size_t>((*last - curve.first).count()) + 1 : 0;
  for (std::size_t i = 0; i < std::min(observed, season.known_days); ++i) {
    curve.known.push_back(sum_on(season, curve.first + date::days{static_cast<int>(i)}));
  }
  curve.ahead = bands(season.members, curve.known.size());
  std::vector<std::vector<DegreeDays>> years;
  for (const int shift : season.shifts) years.push_back(sums_of_year(seasons.record(formula), season.days, shift));
  curve.years = years.size();
  curve.past = bands(years, 0);
  return curve;
}

}  // namespace

std::vector<SeasonCurve> season_curves(const Question& question, SeasonCache& seasons) {
  std::vector<SeasonCurve> curves;
  for (const rules::Pest* pest : question.pests) {
    for (const rules::Stage& stage : pest->stages) {
      for (const rules::Trigger& trigger : stage.begins) {
        const auto* cue = std::get_if<rules::DegreeDayCue>(&trigger.cue);
        if (cue == nullptr || trigger.use != rules::Use::date) continue;
        const rules::Count& count = *rules::find_count(*pest, cue->count);
        const degree_day::Formula formula = formula_for(count, question);
        const Day first = season_on(count.start.value, seasons.weather().today).first;
        auto curve = std::find_if(curves.begin(), curves.end(), [&](const SeasonCurve& other) {
          return other.formula == formula && other.first == first;
        });
        if (curve == curves.end()) curve = curves.insert(curve, curve_of(formula, count, seasons));
        curve->marks.push_back({pest, &stage, cue->sum});
      }
    }
  }
  return curves;
}

}  // namespace budclock::forecast
