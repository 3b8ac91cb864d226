#include <budclock/forecast/degree_day_record.hpp>
#include <budclock/weather/calendar_climate.hpp>

#include <algorithm>

namespace budclock::forecast {

Day shifted(Day day, int years) { return in_year(month_day_of(day), year_of(day) + years); }

std::vector<std::optional<DegreeDays>> daily_degree_days(const degree_day::Formula& formula,
                                                         const weather::DailySeries& series) {
  std::vector<std::optional<DegreeDays>> amounts(series.size());
  for (std::size_t i = 0; i < series.size(); ++i) {
    if (!series.complete(i)) continue;
    const bool has_next = i + 1 < series.size() && weather::has_value(series.tmin[i + 1].origin);
    const Temperature next_tmin = has_next ? series.tmin[i + 1].value : series.tmin[i].value;
    amounts[i] = degree_day::of_day(formula, series.tmin[i].value, series.tmax[i].value, next_tmin);
  }
  return amounts;
}

DegreeDayRecord::DegreeDayRecord(const degree_day::Formula& formula, const weather::DailySeries& series)
    : formula_{formula}, series_{&series}, amounts_{daily_degree_days(formula, series)} {
  const auto slots = weather::calendar_slots(series.first, series.size());
  for (std::size_t i = 0; i < amounts_.size(); ++i) {
    if (!amounts_[i]) continue;
    sums_[slots[i]] += *amounts_[i];
    ++counts_[slots[i]];
  }
}

std::optional<DegreeDays> DegreeDayRecord::amount(Day day) const {
  return series_->empty() ? std::nullopt : amount_at((day - series_->first).count());
}

std::optional<DegreeDays> DegreeDayRecord::amount_as_last(Day day) const {
  const auto index = series_->index_of(day);
  if (!index || !series_->complete(*index)) return std::nullopt;
  const Temperature tmin = series_->tmin[*index].value;
  return degree_day::of_day(formula_, tmin, series_->tmax[*index].value, tmin);
}

std::optional<DegreeDays> DegreeDayRecord::mean_of_other_years(Day day) const {
  const std::size_t slot = weather::calendar_slot(day);
  const auto own = amount(day);
  const std::int64_t count = counts_[slot] - (own ? 1 : 0);
  if (count == 0) return std::nullopt;
  return DegreeDays::from_units((sums_[slot] - own.value_or(DegreeDays{})).units() / count);
}

CompleteDays::CompleteDays(const weather::DailySeries& series) : series_{&series}, before_(series.size() + 1) {
  for (std::size_t i = 0; i < series.size(); ++i) before_[i + 1] = before_[i] + (series.complete(i) ? 1U : 0U);
}

std::size_t CompleteDays::between(Day first, Day last) const {
  if (series_->empty()) return 0;
  first = std::max(first, series_->first);
  last = std::min(last, series_->last());
  if (first > last) return 0;
  return before_[*series_->index_of(last) + 1] - before_[*series_->index_of(first)];
}

std::optional<Day> CompleteDays::last_until(Day day) const {
  if (series_->empty() || day < series_->first) return std::nullopt;
  for (std::size_t end = *series_->index_of(std::min(day, series_->last())) + 1; end-- > 0;) {
    if (series_->complete(end)) return series_->day(end);
  }
  return std::nullopt;
}

}  // namespace budclock::forecast
