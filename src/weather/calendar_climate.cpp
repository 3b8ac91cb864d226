#include <budclock/weather/calendar_climate.hpp>

#include <algorithm>
#include <cmath>

namespace budclock::weather {
namespace {

constexpr std::size_t k_window = 15;
constexpr std::size_t k_fewest_values = 100;
constexpr double k_biweight_reach = 7.5;  // median absolute deviations, past which a value has no weight

/// The lower middle value; reorders.
double median(std::vector<double>& values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>((values.size() - 1) / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

}  // namespace

std::size_t calendar_slot(Day day) {
  constexpr Day k_leap_new_year{date::year{2000} / 1 / 1};
  return static_cast<std::size_t>((in_year(month_day_of(day), 2000) - k_leap_new_year).count());
}

CalendarClimate::CalendarClimate(const DailySeries& series, const std::vector<DayValue>& values) {
  std::array<std::vector<double>, k_calendar_slots> by_slot;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values[i].origin == Origin::observed) {
      by_slot[calendar_slot(series.day(i))].push_back(static_cast<double>(values[i].value.ticks()));
    }
  }
  std::vector<double> window;
  for (std::size_t slot = 0; slot < k_calendar_slots; ++slot) {
    window.clear();
    for (std::size_t step = 0; step < k_window; ++step) {
      const auto& part = by_slot[(slot + k_calendar_slots + step - k_window / 2) % k_calendar_slots];
      window.insert(window.end(), part.begin(), part.end());
    }
    if (window.size() >= k_fewest_values) usual_[slot] = biweight(window);
  }
}

CalendarClimate::Usual CalendarClimate::biweight(std::vector<double>& values) {
  const double centre = median(values);
  std::vector<double> distances(values.size());
  std::transform(values.begin(), values.end(), distances.begin(), [=](double x) { return std::abs(x - centre); });
  const double reach = k_biweight_reach * median(distances);
  if (reach == 0) return {};
  double weights = 0;
  double weighted = 0;
  double numerator = 0;
  double denominator = 0;
  for (const double value : values) {
    const double distance = value - centre;
    const double u2 = (distance / reach) * (distance / reach);
    if (u2 >= 1) continue;
    const double rest = 1 - u2;
    weights += rest * rest;
    weighted += distance * rest * rest;
    numerator += distance * distance * rest * rest * rest * rest;
    denominator += rest * (1 - 5 * u2);
  }
  const double spread = std::sqrt(static_cast<double>(values.size()) * numerator) / std::abs(denominator);
  return {centre + weighted / weights, spread};
}

std::optional<double> CalendarClimate::deviation(Day day, Temperature value) const {
  const Usual& usual = usual_[calendar_slot(day)];
  if (usual.spread == 0) return std::nullopt;
  return (static_cast<double>(value.ticks()) - usual.centre) / usual.spread;
}

}  // namespace budclock::weather
