#include <budclock/weather/calendar_climate.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace budclock::weather {
namespace {

constexpr std::size_t k_window = 15;
constexpr std::size_t k_fewest_values = 100;
constexpr double k_biweight_reach = 7.5;  // median absolute deviations, past which a value has no weight

/// The place of the lower middle one of so many sorted values.
std::size_t middle_of(std::size_t count) { return (count - 1) / 2; }

/// The median distance of sorted values from `centre`, which is one of them: the least reach to both sides within which
/// half of the values lie. They stand side by side; the further right they begin, the less reach they need to the left.
std::int32_t median_distance(const std::vector<std::int32_t>& sorted, std::int32_t centre) {
  const std::size_t span = middle_of(sorted.size());
  std::size_t begin = 0;
  for (std::size_t end = sorted.size() - 1 - span; begin < end;) {
    const std::size_t half = begin + (end - begin) / 2;
    if (centre - sorted[half] > sorted[half + span] - centre)
      begin = half + 1;
    else
      end = half;
  }
  const auto reach = [&](std::size_t first) { return std::max(centre - sorted[first], sorted[first + span] - centre); };
  return begin == 0 ? reach(0) : std::min(reach(begin), reach(begin - 1));
}

/// Sorted values of the days around a date, all years together. Goes on to the next date by what leaves and what
/// enters.
class Window {
 public:
  /// Both sorted; what leaves must be there.
  void exchange(const std::vector<std::int32_t>& leaving, const std::vector<std::int32_t>& entering) {
    next_.resize(values_.size() - leaving.size() + entering.size());
    auto from = values_.cbegin();
    auto to = next_.begin();
    const auto copy_up_to = [&](std::int32_t value) {
      while (from != values_.cend() && *from < value) *to++ = *from++;
    };
    auto out = leaving.begin();
    auto in = entering.begin();
    while (out != leaving.end() || in != entering.end()) {
      if (in == entering.end() || (out != leaving.end() && *out <= *in)) {
        copy_up_to(*out++);
        ++from;
      } else {
        copy_up_to(*in);
        *to++ = *in++;
      }
    }
    std::copy(from, values_.cend(), to);
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
  for (std::size_t step = 0; step < k_window; ++step) window.exchange({}, from(0, step));
  for (std::size_t slot = 0; slot < k_calendar_slots; ++slot) {
    if (window.values().size() >= k_fewest_values) usual_[slot] = biweight(window.values());
    window.exchange(from(slot, 0), from(slot, k_window));
  }
}

CalendarClimate::Usual CalendarClimate::biweight(const std::vector<std::int32_t>& sorted) {
  const std::int32_t middle = sorted[middle_of(sorted.size())];
  const double centre = middle;
  const double reach = k_biweight_reach * median_distance(sorted, middle);
  if (reach == 0) return {};
  const auto is_near = [&](std::int32_t value) {  // the others have no weight
    const double distance = value - centre;
    return (distance / reach) * (distance / reach) < 1;
  };
  const auto near = std::find_if(sorted.begin(), sorted.end(), is_near);
  const auto end = std::find_if(sorted.rbegin(), sorted.rend(), is_near).base();
  // The terms of some values at once, and then their sums one by one: that the compiler can make vectors of.
  constexpr std::ptrdiff_t k_chunk = 64;
  std::array<std::array<double, k_chunk>, 4> terms;
  std::array<double, 4> sums{};
  for (auto at = near; at < end; at += std::min(k_chunk, end - at)) {
    const auto count = static_cast<std::size_t>(std::min(k_chunk, end - at));
    const std::int32_t* const values = &*at;
    for (std::size_t i = 0; i < count; ++i) {
      const double distance = values[i] - centre;
      const double u2 = (distance / reach) * (distance / reach);
      const double rest = 1 - u2;
      terms[0][i] = rest * rest;
      terms[1][i] = distance * rest * rest;
      terms[2][i] = distance * distance * rest * rest * rest * rest;
      terms[3][i] = rest * (1 - 5 * u2);
    }
    for (std::size_t i = 0; i < count; ++i) {
      for (std::size_t k = 0; k < sums.size(); ++k) sums[k] += terms[k][i];
    }
  }
  const auto [weights, weighted, numerator, denominator] = sums;
  const double spread = std::sqrt(static_cast<double>(sorted.size()) * numerator) / std::abs(denominator);
  return {centre + weighted / weights, spread};
}

std::optional<double> CalendarClimate::deviation(std::size_t slot, Temperature value) const {
  const Usual& usual = usual_[slot];
  if (usual.spread == 0) return std::nullopt;
  return (static_cast<double>(value.ticks()) - usual.centre) / usual.spread;
}

}  // namespace budclock::weather
