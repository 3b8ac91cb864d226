#include <budclock/weather/calendar_climate.hpp>

#include <algorithm>
#include <cmath>

namespace budclock::weather {
namespace {

constexpr std::size_t k_window = 15;
constexpr std::size_t k_fewest_values = 100;
constexpr double k_biweight_reach = 7.5;  // median absolute deviations, past which a value has no weight

/// The place of the lower middle one of so many sorted values.
std::size_t middle_of(std::size_t count) { return (count - 1) / 2; }

/// The median distance of sorted values from `centre`, which is one of them: taken outward from it, nearest first.
std::int32_t median_distance(const std::vector<std::int32_t>& sorted, std::int32_t centre) {
  auto above = std::lower_bound(sorted.begin(), sorted.end(), centre);
  auto below = above;
  std::int32_t distance = 0;
  for (std::size_t taken = 0; taken <= middle_of(sorted.size()); ++taken) {
    const bool downward = above == sorted.end() || (below != sorted.begin() && centre - below[-1] < *above - centre);
    distance = downward ? centre - *--below : *above++ - centre;
  }
  return distance;
}

/// Sorted values of the days around a date, all years together. Goes on to the next date by what leaves and what
/// enters.
class Window {
 public:
  void add(const std::vector<std::int32_t>& sorted) {
    next_.resize(values_.size() + sorted.size());
    std::merge(values_.begin(), values_.end(), sorted.begin(), sorted.end(), next_.begin());
    values_.swap(next_);
  }
  void remove(const std::vector<std::int32_t>& sorted) {
    next_.resize(values_.size() - sorted.size());
    std::set_difference(values_.begin(), values_.end(), sorted.begin(), sorted.end(), next_.begin());
    values_.swap(next_);
  }
  const std::vector<std::int32_t>& values() const { return values_; }

 private:
  std::vector<std::int32_t> values_;
  std::vector<std::int32_t> next_;
};

}  // namespace

std::size_t calendar_slot(Day day) {
  constexpr Day k_leap_new_year{date::year{2000} / 1 / 1};
  return static_cast<std::size_t>((in_year(month_day_of(day), 2000) - k_leap_new_year).count());
}

std::vector<std::uint16_t> calendar_slots(Day first, std::size_t days) {
  constexpr std::size_t k_february_29 = 59;
  std::vector<std::uint16_t> slots(days);
  std::size_t slot = k_calendar_slots;
  for (std::size_t i = 0; i < days; ++i) {
    // Day after day the slot is the next one, but past a leap day that this year has not, and past the year's end.
    if (slot == k_february_29 || slot == k_calendar_slots)
      slot = calendar_slot(first + date::days{static_cast<int>(i)});
    slots[i] = static_cast<std::uint16_t>(slot++);
  }
  return slots;
}

CalendarClimate::CalendarClimate(const DailySeries& series, const std::vector<DayValue>& values) {
  std::array<std::vector<std::int32_t>, k_calendar_slots> by_slot;
  const auto slots = calendar_slots(series.first, values.size());
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values[i].origin == Origin::observed) by_slot[slots[i]].push_back(values[i].value.ticks());
  }
  for (auto& of_slot : by_slot) std::sort(of_slot.begin(), of_slot.end());
  const auto from = [&](std::size_t slot, std::size_t steps) -> const auto& {
    return by_slot[(slot + k_calendar_slots + steps - k_window / 2) % k_calendar_slots];
  };
  Window window;
  for (std::size_t step = 0; step < k_window; ++step) window.add(from(0, step));
  for (std::size_t slot = 0; slot < k_calendar_slots; ++slot) {
    if (window.values().size() >= k_fewest_values) usual_[slot] = biweight(window.values());
    window.remove(from(slot, 0));
    window.add(from(slot, k_window));
  }
}

CalendarClimate::Usual CalendarClimate::biweight(const std::vector<std::int32_t>& sorted) {
  const std::int32_t middle = sorted[middle_of(sorted.size())];
  const double centre = middle;
  const double reach = k_biweight_reach * median_distance(sorted, middle);
  if (reach == 0) return {};
  double weights = 0;
  double weighted = 0;
  double numerator = 0;
  double denominator = 0;
  for (const std::int32_t value : sorted) {
    const double distance = value - centre;
    const double u2 = (distance / reach) * (distance / reach);
    if (u2 >= 1) continue;
    const double rest = 1 - u2;
    weights += rest * rest;
    weighted += distance * rest * rest;
    numerator += distance * distance * rest * rest * rest * rest;
    denominator += rest * (1 - 5 * u2);
  }
  const double spread = std::sqrt(static_cast<double>(sorted.size()) * numerator) / std::abs(denominator);
  return {centre + weighted / weights, spread};
}

std::optional<double> CalendarClimate::deviation(std::size_t slot, Temperature value) const {
  const Usual& usual = usual_[slot];
  if (usual.spread == 0) return std::nullopt;
  return (static_cast<double>(value.ticks()) - usual.centre) / usual.spread;
}

}  // namespace budclock::weather
