#include <budclock/forecast/filled_days.hpp>
#include <budclock/forecast/normals.hpp>
#include <budclock/forecast/season.hpp>

#include <algorithm>
#include <cmath>

namespace budclock::forecast {
namespace {

constexpr double k_member_completeness = 0.9;

using DailyAmounts = std::vector<std::optional<DegreeDays>>;

std::size_t length(SeasonDays days) { return static_cast<std::size_t>((days.last - days.first).count()) + 1; }

/// Sets the place in the series (perhaps outside) of each date of a season so many years on. Leap days shift what
/// follows, so counting begins anew on 1 March.
void find_places(const weather::DailySeries& series, SeasonDays days, int shift, std::vector<std::ptrdiff_t>& places) {
  const auto count_from = [&](Day day) {
    std::ptrdiff_t place = (shifted(day, shift) - series.first).count();
    for (auto i = static_cast<std::size_t>((day - days.first).count()); i < places.size(); ++i) places[i] = place++;
  };
  count_from(days.first);
  for (int year = year_of(days.first); year <= year_of(days.last); ++year) {
    const Day march_1 = date::year{year} / date::March / 1;
    if (march_1 > days.first && march_1 <= days.last) count_from(march_1);
  }
}

/// Days of the season from its first through the last one of the series with both extremes.
std::size_t days_known(const weather::DailySeries& series, SeasonDays days, Day seen_until) {
  if (series.empty()) return 0;
  for (Day day = std::min(seen_until, series.last()); day >= days.first; day -= date::days{1}) {
    const auto index = series.index_of(day);
    if (!index || !series.complete(*index)) continue;
    return std::min(length(days), static_cast<std::size_t>((day - days.first).count()) + 1);
  }
  return 0;
}

/// The days of the season so far that rest on no observation, with the mean of what the members see.
std::vector<FilledDay> filled_days(const Season& season, const weather::DailySeries& series) {
  std::vector<FilledDay> filled;
  for (std::size_t i = 0; i < season.known_days; ++i) {
    const Day day = season.days.first + date::days{static_cast<int>(i)};
    const auto index = series.index_of(day);
    const auto fill = index ? fill_of(series, *index) : std::nullopt;
    if (index && series.complete(*index) && !fill) continue;
    DegreeDays sum;
    for (const auto& member : season.members) sum += i == 0 ? member[0] : member[i] - member[i - 1];
    const auto members = static_cast<std::int64_t>(season.members.size());
    filled.push_back({day, fill, DegreeDays::from_units(sum.units() / members)});
  }
  return filled;
}

DayBasis basis_of(const Season& season, const weather::DailySeries& weather, Day day) {
  if (day >= season.days.first + date::days{static_cast<int>(season.known_days)}) {
    return season.on_normals ? DayBasis::normals : DayBasis::other_years;
  }
  for (const FilledDay& filled : season.filled) {
    if (filled.day != day) continue;
    if (!filled.fill) return season.on_normals ? DayBasis::normals : DayBasis::past_years;
    return *filled.fill == weather::Origin::neighbour ? DayBasis::neighbour : DayBasis::line;
  }
  const auto index = weather.index_of(day);
  if (!index || !weather.complete(*index)) return DayBasis::not_known;
  const auto is_forecast = [](const weather::DayValue& value) { return value.origin == weather::Origin::forecast; };
  return is_forecast(weather.tmin[*index]) || is_forecast(weather.tmax[*index]) ? DayBasis::forecast
                                                                                : DayBasis::observed;
}

}  // namespace

SeasonDays season_on(MonthDay start, Day today) {
  const int year = year_of(today);
  if (start.month() <= date::June) return {in_year(start, year), Day{date::year{year} / 12 / 31}};
  const int first_year = today < in_year(start, year) ? year - 1 : year;
  return {in_year(start, first_year), in_year(start, first_year + 1) - date::days{1}};
}

std::optional<Day> SiteWeather::last_observed() const {
  for (std::size_t i = days.size(); i-- > 0;) {
    const auto measured = [](weather::Origin origin) {
      return origin == weather::Origin::observed || origin == weather::Origin::neighbour;
    };
    if (measured(days.tmin[i].origin) && measured(days.tmax[i].origin) && days.day(i) <= today) return days.day(i);
  }
  return std::nullopt;
}

std::optional<Day> SiteWeather::last_known() const {
  for (std::size_t i = days.size(); i-- > 0;) {
    if (days.complete(i)) return days.day(i);
  }
  return std::nullopt;
}

std::vector<int> member_shifts(const CompleteDays& complete, Day seen_until, Day season_last, OtherYears which) {
  const auto known = complete.last_until(seen_until);
  if (!known) return {};
  // A season that is over needs other years only for its missing days: the whole year before its end must be there.
  const bool over = *known >= season_last;
  const Day from = over ? season_last - date::days{364} : *known + date::days{1};
  const weather::DailySeries& series = complete.series();
  const int first = year_of(series.first) - year_of(season_last);
  const int last = which == OtherYears::past ? -1 : year_of(series.last()) - year_of(season_last) + 1;

  std::vector<int> shifts;
  for (int shift = first; shift <= last; ++shift) {
    if (shift == 0) continue;
    const SeasonDays rest{shifted(from, shift), shifted(season_last, shift)};
    const auto there = static_cast<double>(complete.between(rest.first, rest.last));
    if (there >= k_member_completeness * static_cast<double>(length(rest))) shifts.push_back(shift);
  }
  return shifts;
}

std::vector<int> member_shifts(const SiteWeather& weather, Day season_last) {
  if (weather.days.empty()) return {};
  return member_shifts(CompleteDays{weather.days}, weather.days.last(), season_last, OtherYears::past);
}

Season run_season(const degree_day::Formula& formula, const SiteWeather& weather, SeasonDays days,
                  const std::vector<int>& shifts) {
  const Day seen_until = weather.days.empty() ? days.first - date::days{1} : weather.days.last();
  return run_season(DegreeDayRecord{formula, weather.days}, days, seen_until, shifts);
}

Season run_season(const DegreeDayRecord& record, SeasonDays days, Day seen_until, const std::vector<int>& shifts) {
  Season season{.days = days, .shifts = shifts};
  const auto& series = record.series();
  season.known_days = days_known(series, days, seen_until);

  DailyAmounts known(season.known_days);
  for (std::size_t i = 0; i < known.size(); ++i) {
    const Day day = days.first + date::days{static_cast<int>(i)};
    known[i] = day == seen_until ? record.amount_as_last(day) : record.amount(day);
    if (!known[i]) ++season.missing_days;
  }

  season.has_future = !season.shifts.empty() || season.known_days == length(days);
  const std::size_t run = season.has_future ? length(days) : season.known_days;
  const std::vector<int> ways = season.shifts.empty() ? std::vector<int>{0} : season.shifts;
  const FilledDays filled{record.formula(), series, season.shifts, days.first, seen_until};
  std::vector<std::ptrdiff_t> places(length(days));
  season.members.reserve(ways.size());
  for (std::size_t m = 0; m < ways.size(); ++m) {
    find_places(series, days, ways[m], places);
    std::vector<DegreeDays> sums;
    sums.reserve(run);
    DegreeDays sum;
    for (std::size_t i = 0; i < run; ++i) {
      const Day day = days.first + date::days{static_cast<int>(i)};
      auto amount = i < season.known_days ? known[i] : std::nullopt;
      if (amount && filled.any()) amount = filled.amount(*series.index_of(day), m).value_or(*amount);
      if (!amount && ways[m] != 0) amount = record.amount_at(places[i]);
      if (!amount) amount = record.mean_of_other_years(day);
      if (!amount && !season.first_unfilled) season.first_unfilled = day;
      sum += amount.value_or(DegreeDays{});
      sums.push_back(sum);
    }
    season.members.push_back(std::move(sums));
  }
  season.filled = filled_days(season, series);
  return season;
}

Season run_season_on_normals(const DegreeDayRecord& record, SeasonDays days, Day seen_until,
                             const weather::DailySeries& normals) {
  Season season{.days = days};
  const auto& series = record.series();
  season.known_days = days_known(series, days, seen_until);
  season.on_normals = season.has_future = true;
  const Day first_ahead = days.first + date::days{static_cast<int>(season.known_days)};
  const auto usual = degree_days_on_normals(record.formula(), normals, days.first, first_ahead - date::days{1});
  const auto ahead = degree_days_on_normals(record.formula(), normals, first_ahead, days.last);
  for (std::size_t m = 0; m < k_normals_members; ++m) {
    std::vector<DegreeDays> sums(length(days));
    DegreeDays sum;
    for (std::size_t i = 0; i < sums.size(); ++i) {
      const Day day = days.first + date::days{static_cast<int>(i)};
      if (i >= season.known_days) {
        sum += ahead[m][i - season.known_days];
      } else {
        const auto known = day == seen_until ? record.amount_as_last(day) : record.amount(day);
        if (!known && m == 0) ++season.missing_days;
        sum += known.value_or(usual[m][i]);
      }
      sums[i] = sum;
    }
    season.members.push_back(std::move(sums));
  }
  season.filled = filled_days(season, series);
  return season;
}

namespace {

/// First day from index `from` on whose sum reaches `target`.
std::optional<Day> scan(const Season& season, const std::vector<DegreeDays>& sums, std::size_t from,
                        DegreeDays target) {
  for (std::size_t i = from; i < sums.size(); ++i) {
    if (sums[i] >= target) return season.days.first + date::days{static_cast<int>(i)};
  }
  return std::nullopt;
}

/// A season without a future cannot say "never": what its weather has not reached is not known. Nor is a date after
/// days that nothing fills: it may have come earlier.
Spread checked(const Season& season, Spread spread) {
  const bool open = std::any_of(spread.dates.begin(), spread.dates.end(), [](const auto& date) { return !date; });
  if (!season.has_future && open) return unknown("no other year in the record to continue from");
  const bool rests_on_nothing = std::any_of(spread.dates.begin(), spread.dates.end(), [&](const auto& date) {
    return season.first_unfilled && (!date || *date > *season.first_unfilled);
  });
  if (rests_on_nothing) return unknown("days are missing before it, and no other year can stand in for them");
  return spread;
}

}  // namespace

Spread first_reached(const Season& season, DegreeDays sum) {
  Spread spread;
  for (const auto& sums : season.members) spread.dates.push_back(scan(season, sums, 0, sum));
  return checked(season, std::move(spread));
}

Spread first_reached_after(const Season& season, const Spread& event, DegreeDays sum) {
  if (!event.known()) return unknown(event.unknown);
  if (event.dates.size() != 1 && event.dates.size() != season.members.size()) {
    return unknown("its season is not that of the other sums");
  }
  Spread spread;
  for (std::size_t m = 0; m < season.members.size(); ++m) {
    const auto& sums = season.members[m];
    const auto& start = event.dates.size() == 1 ? event.dates.front() : event.dates[m];
    const auto index = start ? (*start - season.days.first).count() : -1;
    const bool inside = start && index < static_cast<std::ptrdiff_t>(sums.size());
    if (!inside) {
      spread.dates.emplace_back();
      continue;
    }
    const auto from = static_cast<std::size_t>(std::max<std::ptrdiff_t>(index, 0));
    const DegreeDays base = index < 0 ? DegreeDays{} : sums[from];
    spread.dates.push_back(scan(season, sums, from, base + sum));
  }
  return checked(season, std::move(spread));
}

DegreeDays sum_on(const Season& season, Day day) {
  if (day < season.days.first || season.members.empty() || season.members.front().empty()) return {};
  const auto index = static_cast<std::size_t>((day - season.days.first).count());
  std::vector<DegreeDays> sums;
  sums.reserve(season.members.size());
  for (const auto& member : season.members) sums.push_back(member[std::min(index, member.size() - 1)]);
  const auto middle = sums.begin() + static_cast<std::ptrdiff_t>((sums.size() - 1) / 2);
  std::nth_element(sums.begin(), middle, sums.end());
  return *middle;
}

FilledPart filled_by(const Season& season, Day day) {
  FilledPart part;
  for (const FilledDay& filled : season.filled) {
    if (filled.day > day) break;
    auto& days = !filled.fill                                 ? part.past_year_days
                 : *filled.fill == weather::Origin::neighbour ? part.neighbour_days
                                                              : part.line_days;
    ++days;
    part.amount += filled.amount;
  }
  const double whole = sum_on(season, day).celsius_days();
  if (whole > 0) part.share = std::min(part.amount.celsius_days() / whole, 1.0);
  return part;
}

std::vector<DaySum> sums_around(const Season& season, const weather::DailySeries& weather, Day day) {
  std::vector<DaySum> sums;
  for (Day each = day - date::days{5}; each <= day + date::days{4}; each += date::days{1}) {
    if (each < season.days.first || each > season.days.last) continue;
    const DayBasis basis = basis_of(season, weather, each);
    if (basis == DayBasis::other_years && !season.has_future) break;
    sums.push_back({each, sum_on(season, each), basis});
  }
  return sums;
}

}  // namespace budclock::forecast
