// Checks of single values against limits, the record's own past, and the days around them.
#include <budclock/weather/quality_checks.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <array>
#include <bitset>
#include <cmath>
#include <cstdint>
#include <fmt/format.h>
#include <utility>

namespace budclock::weather {
namespace {

constexpr std::array k_extremes{Extreme::minimum, Extreme::maximum};
constexpr std::size_t k_fewest_of_month = 100;
constexpr TemperatureDifference k_gap = TemperatureDifference::from_ticks(10 * 900);
constexpr TemperatureDifference k_spike = TemperatureDifference::from_ticks(25 * 900);
constexpr TemperatureDifference k_lagged_range = TemperatureDifference::from_ticks(40 * 900);
constexpr TemperatureDifference k_consistency_tolerance = TemperatureDifference::from_ticks(900);
constexpr double k_outlier = 6;
constexpr double k_wrong_unit = 4;
constexpr double k_usual_in_other_unit = 1.5;
constexpr double k_usual_when_swapped = 2;

std::ptrdiff_t count(const QualityDesk& desk) { return static_cast<std::ptrdiff_t>(desk.days().size()); }

/// Of each calendar slot, 0 for January to 11 for December.
constexpr std::array<std::uint8_t, k_calendar_slots> k_months = [] {
  constexpr std::array<std::size_t, 12> k_days{31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  std::array<std::uint8_t, k_calendar_slots> months{};
  std::size_t slot = 0;
  for (std::size_t month = 0; month < k_days.size(); ++month) {
    for (std::size_t day = 0; day < k_days[month]; ++day) months[slot++] = static_cast<std::uint8_t>(month);
  }
  return months;
}();

std::size_t month_of(const QualityDesk& desk, std::size_t index) { return k_months[desk.slot(index)]; }

/// What the value would be had its number been meant in the other unit; nothing past the world's extremes.
std::optional<Temperature> in_other_unit(Temperature value, TemperatureUnit unit) {
  const bool celsius = unit == TemperatureUnit::celsius;
  const Temperature other =
      celsius ? Temperature::fahrenheit(value.celsius()) : Temperature::celsius(value.fahrenheit());
  return other < k_coldest || other > k_warmest ? std::nullopt : std::optional{other};
}

/// The days whose value is so far from what is usual that the checks against climate look at it; nearly none.
std::vector<std::size_t> far_days(const QualityDesk& desk, Extreme extreme, const CalendarClimate& climate) {
  std::vector<std::size_t> far;
  for (std::size_t i = 0; i < desk.days().size(); ++i) {
    const auto value = desk.standing(extreme, static_cast<std::ptrdiff_t>(i));
    if (!value) continue;
    const auto deviation = climate.deviation(desk.slot(i), *value);
    if (deviation && std::abs(*deviation) >= std::min(k_wrong_unit, k_outlier)) far.push_back(i);
  }
  return far;
}

void check_units(QualityDesk& desk, Extreme extreme, const CalendarClimate& climate,
                 const std::vector<std::size_t>& far) {
  const char* other_symbol =
      symbol(desk.unit() == TemperatureUnit::celsius ? TemperatureUnit::fahrenheit : TemperatureUnit::celsius);
  for (const std::size_t i : far) {
    const auto value = desk.standing(extreme, static_cast<std::ptrdiff_t>(i));
    if (!value || std::abs(*climate.deviation(desk.slot(i), *value)) < k_wrong_unit) continue;
    const auto other = in_other_unit(*value, desk.unit());
    if (!other || std::abs(*climate.deviation(desk.slot(i), *other)) > k_usual_in_other_unit) continue;
    desk.doubt(extreme, i, Check::wrong_unit,
               fmt::format("unheard of here at that time of year, and usual if it were {}", other_symbol));
  }
}

/// False when no two neighbouring values are k_gap apart: such a hole would hold a whole step of half its width.
bool may_have_gap(const std::vector<std::pair<Temperature, std::size_t>>& values) {
  constexpr std::int64_t k_step = k_gap.ticks() / 2;
  constexpr std::int64_t k_steps = 64;
  const auto [lowest, highest] = std::minmax_element(values.begin(), values.end());
  if ((highest->first - lowest->first).ticks() >= k_steps * k_step) return true;
  std::bitset<k_steps> held;
  for (const auto& [value, index] : values)
    held.set(static_cast<std::size_t>((value - lowest->first).ticks() / k_step));
  return held.count() <= static_cast<std::size_t>((highest->first - lowest->first).ticks() / k_step);
}

/// From the median of a calendar month outward, values past the first hole of 10 °C stand apart from all others.
void check_gaps(QualityDesk& desk, Extreme extreme) {
  std::array<std::vector<std::pair<Temperature, std::size_t>>, 12> by_month;
  for (std::size_t i = 0; i < desk.days().size(); ++i) {
    const auto value = desk.standing(extreme, static_cast<std::ptrdiff_t>(i));
    if (value) by_month[month_of(desk, i)].emplace_back(*value, i);
  }
  for (auto& values : by_month) {
    if (values.size() < k_fewest_of_month || !may_have_gap(values)) continue;
    std::sort(values.begin(), values.end());
    const auto middle = values.begin() + std::ssize(values) / 2;
    const auto apart = [](const auto& below, const auto& above) { return above.first - below.first >= k_gap; };
    const auto doubt = [&](const auto& entry, Temperature nearest) {
      const auto distance = entry.first > nearest ? entry.first - nearest : nearest - entry.first;
      desk.doubt(extreme, entry.second, Check::gap,
                 fmt::format("{} from every other value of that month of the year", with_unit(distance, desk.unit())));
    };
    const auto hole_above = std::adjacent_find(middle, values.end(), apart);
    if (hole_above != values.end()) {
      std::for_each(hole_above + 1, values.end(), [&](const auto& entry) { doubt(entry, hole_above->first); });
    }
    const auto hole_below =
        std::adjacent_find(std::reverse_iterator{middle + 1}, values.rend(),
                           [&](const auto& above, const auto& below) { return apart(below, above); });
    if (hole_below != values.rend()) {
      std::for_each(hole_below + 1, values.rend(), [&](const auto& entry) { doubt(entry, hole_below->first); });
    }
  }
}

void check_outliers(QualityDesk& desk, Extreme extreme, const CalendarClimate& climate,
                    const std::vector<std::size_t>& far) {
  for (const std::size_t i : far) {
    const auto value = desk.standing(extreme, static_cast<std::ptrdiff_t>(i));
    if (!value) continue;
    const auto deviation = climate.deviation(desk.slot(i), *value);
    if (std::abs(*deviation) < k_outlier) continue;
    desk.doubt(extreme, i, Check::outlier,
               fmt::format("{:.1f} standard deviations {} what is usual here at that time of year",
                           std::abs(*deviation), *deviation > 0 ? "above" : "below"));
  }
}

/// How many of the three days around `index` contradict that value: a minimum above a maximum, on neighbouring
/// days by more than 1 °C.
int contradictions(const QualityDesk& desk, Extreme extreme, std::ptrdiff_t index) {
  const auto value = desk.standing(extreme, index);
  if (!value) return 0;
  int found = 0;
  for (std::ptrdiff_t other = index - 1; other <= index + 1; ++other) {
    const auto opposite = desk.standing(extreme == Extreme::minimum ? Extreme::maximum : Extreme::minimum, other);
    if (!opposite) continue;
    const auto excess = extreme == Extreme::minimum ? *value - *opposite : *opposite - *value;
    if (excess > (other == index ? TemperatureDifference{} : k_consistency_tolerance)) ++found;
  }
  return found;
}

void doubt_swapped(QualityDesk& desk) {
  std::optional<CalendarClimate> minima;
  std::optional<CalendarClimate> maxima;
  for (std::size_t i = 0; i < desk.days().size(); ++i) {
    const auto tmin = desk.standing(Extreme::minimum, static_cast<std::ptrdiff_t>(i));
    const auto tmax = desk.standing(Extreme::maximum, static_cast<std::ptrdiff_t>(i));
    if (!tmin || !tmax || *tmin <= *tmax) continue;
    if (!minima) {
      minima.emplace(desk.days(), desk.days().tmin);
      maxima.emplace(desk.days(), desk.days().tmax);
    }
    const auto low = minima->deviation(desk.slot(i), *tmax);
    const auto high = maxima->deviation(desk.slot(i), *tmin);
    if (!low || !high || std::abs(*low) > k_usual_when_swapped || std::abs(*high) > k_usual_when_swapped) continue;
    desk.doubt(Extreme::minimum, i, Check::swapped, "minimum above maximum, and usual the other way round");
    desk.doubt(Extreme::maximum, i, Check::swapped, "minimum above maximum, and usual the other way round");
  }
}

/// Of a day whose minimum is above its maximum, doubts the value that more of the days beside it speak against too;
/// both when as many speak against the one as the other. Durre et al. doubt contradictions between neighbouring days as
/// such; there they are left alone, because one day in 400 of good cooperative records has one (a change of the hour of
/// reading, or a maximum entered on the day before), and degree-days do not mix days.
void doubt_inconsistent(QualityDesk& desk) {
  for (std::size_t i = 0; i < desk.days().size(); ++i) {
    const auto at = static_cast<std::ptrdiff_t>(i);
    const auto tmin = desk.standing(Extreme::minimum, at);
    const auto tmax = desk.standing(Extreme::maximum, at);
    if (!tmin || !tmax || *tmin <= *tmax) continue;
    const int against_minimum = contradictions(desk, Extreme::minimum, at);
    const int against_maximum = contradictions(desk, Extreme::maximum, at);
    if (against_minimum >= against_maximum) {
      desk.doubt(Extreme::minimum, i, Check::inconsistent,
                 fmt::format("above the day's maximum of {}", with_unit(*tmax, desk.unit())));
    }
    if (against_maximum >= against_minimum) {
      desk.doubt(Extreme::maximum, i, Check::inconsistent,
                 fmt::format("below the day's minimum of {}", with_unit(*tmin, desk.unit())));
    }
  }
}

}  // namespace

void check_bounds(QualityDesk& desk) {
  for (const Extreme extreme : k_extremes) {
    for (std::ptrdiff_t i = 0; i < count(desk); ++i) {
      const auto value = desk.standing(extreme, i);
      if (!value || (*value >= k_coldest && *value <= k_warmest)) continue;
      desk.doubt(extreme, static_cast<std::size_t>(i), Check::bounds,
                 fmt::format("{} than any air temperature ever measured", *value < k_coldest ? "colder" : "warmer"));
    }
  }
}

void check_against_climate(QualityDesk& desk) {
  for (const Extreme extreme : k_extremes) {
    const CalendarClimate climate{desk.days(), desk.values(extreme)};
    const std::vector<std::size_t> far = far_days(desk, extreme, climate);
    check_units(desk, extreme, climate, far);
    desk.settle();
    check_gaps(desk, extreme);
    desk.settle();
    check_outliers(desk, extreme, climate, far);
  }
}

void check_consistency(QualityDesk& desk) {
  doubt_swapped(desk);
  desk.settle();
  doubt_inconsistent(desk);
}

void check_spikes(QualityDesk& desk) {
  for (const Extreme extreme : k_extremes) {
    for (std::ptrdiff_t i = 1; i + 1 < count(desk); ++i) {
      const auto before = desk.standing(extreme, i - 1);
      const auto value = desk.standing(extreme, i);
      if (!before || !value) continue;
      if (*value - *before < k_spike && *before - *value < k_spike) continue;  // nearly every day
      const auto after = desk.standing(extreme, i + 1);
      if (!after) continue;
      const auto above = std::min(*value - *before, *value - *after);
      const auto below = std::min(*before - *value, *after - *value);
      if (above < k_spike && below < k_spike) continue;
      desk.doubt(extreme, static_cast<std::size_t>(i), Check::spike,
                 fmt::format("{} {} the days before and after", with_unit(std::max(above, below), desk.unit()),
                             above >= k_spike ? "above" : "below"));
    }
  }
}

/// At least two of the three opposite extremes must be there, so that more than one value speaks against it.
void check_lagged_range(QualityDesk& desk) {
  for (const Extreme extreme : k_extremes) {
    const bool is_minimum = extreme == Extreme::minimum;
    for (std::ptrdiff_t i = 0; i < count(desk); ++i) {
      const auto value = desk.standing(extreme, i);
      if (!value) continue;
      int opposites = 0;
      auto range = TemperatureDifference::from_ticks(INT64_MAX);
      for (const std::ptrdiff_t other : {i, i - 1, i + 1}) {
        const auto opposite = desk.standing(is_minimum ? Extreme::maximum : Extreme::minimum, other);
        if (!opposite) continue;
        ++opposites;
        range = std::min(range, is_minimum ? *opposite - *value : *value - *opposite);
        if (range < k_lagged_range) break;  // nearly always on the day itself
      }
      if (opposites < 2 || range < k_lagged_range) continue;
      desk.doubt(extreme, static_cast<std::size_t>(i), Check::lagged_range,
                 fmt::format("{} {} of the three days around it", with_unit(range, desk.unit()),
                             is_minimum ? "below the maxima" : "above the minima"));
    }
  }
}

void check_beyond_opposites(QualityDesk& desk) {
  struct Opposites {
    std::size_t values = 0;
    Temperature lowest_minimum = Temperature::from_ticks(INT32_MAX);
    Temperature highest_maximum = Temperature::from_ticks(INT32_MIN);
  };
  std::array<Opposites, 12> by_month;
  for (std::size_t i = 0; i < desk.days().size(); ++i) {
    const auto at = static_cast<std::ptrdiff_t>(i);
    Opposites& month = by_month[month_of(desk, i)];
    const auto tmin = desk.standing(Extreme::minimum, at);
    const auto tmax = desk.standing(Extreme::maximum, at);
    if (tmin && tmax) ++month.values;
    if (tmin) month.lowest_minimum = std::min(month.lowest_minimum, *tmin);
    if (tmax) month.highest_maximum = std::max(month.highest_maximum, *tmax);
  }
  for (std::size_t i = 0; i < desk.days().size(); ++i) {
    const auto at = static_cast<std::ptrdiff_t>(i);
    const Opposites& month = by_month[month_of(desk, i)];
    if (month.values < k_fewest_of_month) continue;
    const auto tmin = desk.standing(Extreme::minimum, at);
    const auto tmax = desk.standing(Extreme::maximum, at);
    if (tmin && *tmin > month.highest_maximum) {
      desk.doubt(Extreme::minimum, i, Check::beyond_opposites, "above every maximum of that month of the year");
    }
    if (tmax && *tmax < month.lowest_minimum) {
      desk.doubt(Extreme::maximum, i, Check::beyond_opposites, "below every minimum of that month of the year");
    }
  }
}

}  // namespace budclock::weather
