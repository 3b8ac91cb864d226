#include <budclock/degree_day/formula.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <numbers>
#include <utility>

namespace budclock::degree_day {
namespace {

/// Twice a day's degree-days by averaging: twice, so that whole grid ticks stay whole.
/// `Number` is double, or std::int64_t for the exact grid; `upper` is not read when the cutoff is none.
template <class Number>
Number doubled_average(Method method, Cutoff cutoff, Number tmin, Number tmax, Number lower, Number upper) {
  if (method == Method::average) {
    Number sum = tmin + tmax;
    if (cutoff == Cutoff::horizontal) sum = std::min(sum, 2 * upper);
    return std::max(sum - 2 * lower, Number{0});
  }
  // Above the upper threshold an extreme stands still (horizontal) or comes back down by as much as it went over
  // (intermediate). The printed intermediate rule (Heliyon 2020, 6(10):e05114, Table 3) reflects the maximum and is
  // silent on a minimum that is above too; reflecting both keeps intermediate at or below horizontal.
  const auto clip = [&](Number extreme) {
    if (cutoff != Cutoff::none && extreme > upper) {
      extreme = cutoff == Cutoff::intermediate ? 2 * upper - extreme : upper;
    }
    return std::max(extreme, lower);
  };
  return clip(tmin) + clip(tmax) - 2 * lower;
}

// A curve knows two things about a day that runs between `low` and `high` and passes the level `k` on the way: its mean
// excess over `k` and the fraction of the day above `k`. Every cutoff is a sum of these.

/// T(t) = mean - amplitude * cos(2 pi t).
/// Baskerville & Emin's (mean - k)(pi/2 - asin x) + amplitude cos(asin x), with x = (k - mean)/amplitude, written with
/// acos x = pi/2 - asin x and amplitude^2 - (k - mean)^2 = (high - k)(k - low).
struct Sine {
  static double excess(double low, double high, double k) {
    const double above_mean = k - (low + high) / 2;
    return (std::sqrt((high - k) * (k - low)) - above_mean * angle(low, high, k)) / std::numbers::pi;
  }
  static double fraction(double low, double high, double k) { return angle(low, high, k) / std::numbers::pi; }

 private:
  /// The angle, 0 to pi, between the maximum and the crossing of `k`.
  static double angle(double low, double high, double k) {
    return std::acos(std::clamp((2 * k - low - high) / (high - low), -1.0, 1.0));
  }
};

/// Straight lines between the extremes.
struct Triangle {
  static double excess(double low, double high, double k) { return (high - k) * (high - k) / (2 * (high - low)); }
  static double fraction(double low, double high, double k) { return (high - k) / (high - low); }
};

/// How far the curve is above `k`, on average over the day, counting nothing while it is below.
template <class Curve>
double excess_above(double low, double high, double k) {
  if (high <= k) return 0;
  if (low >= k) return (low + high) / 2 - k;
  return Curve::excess(low, high, k);
}

/// The part of the day, 0 to 1, that the curve spends above `k`; at least `high` is above it.
template <class Curve>
double fraction_above(double low, double high, double k) {
  return low >= k ? 1 : Curve::fraction(low, high, k);
}

/// Degree-days of a day that runs between `low` and `high` all day.
template <class Curve>
double whole_day(Cutoff cutoff, double low, double high, double lower, double upper) {
  const double uncut = excess_above<Curve>(low, high, lower);
  if (cutoff == Cutoff::none || high <= upper) return uncut;
  const double over = excess_above<Curve>(low, high, upper);
  if (cutoff == Cutoff::horizontal) return uncut - over;
  if (cutoff == Cutoff::intermediate) return uncut - 2 * over;
  return uncut - over - (upper - lower) * fraction_above<Curve>(low, high, upper);
}

/// Half a day from today's minimum, half a day to tomorrow's. Tomorrow's may be above today's maximum.
template <class Curve>
double two_halves(Cutoff cutoff, double tmin, double tmax, double next_tmin, double lower, double upper) {
  const auto [low, high] = std::minmax(next_tmin, tmax);
  return (whole_day<Curve>(cutoff, tmin, tmax, lower, upper) + whole_day<Curve>(cutoff, low, high, lower, upper)) / 2;
}

bool averages(Method method) { return method == Method::average || method == Method::average_clipped; }

constexpr std::array<std::pair<Method, std::string_view>, 6> k_methods{{
    {Method::average, "average"},
    {Method::average_clipped, "average-clipped"},
    {Method::single_sine, "single-sine"},
    {Method::double_sine, "double-sine"},
    {Method::single_triangle, "single-triangle"},
    {Method::double_triangle, "double-triangle"},
}};

constexpr std::array<std::pair<Cutoff, std::string_view>, 4> k_cutoffs{{
    {Cutoff::none, "none"},
    {Cutoff::horizontal, "horizontal"},
    {Cutoff::vertical, "vertical"},
    {Cutoff::intermediate, "intermediate"},
}};

template <class Table, class Value>
std::string_view name_in(const Table& table, Value value) {
  const auto entry = std::find_if(table.begin(), table.end(), [&](const auto& e) { return e.first == value; });
  return entry == table.end() ? std::string_view{} : entry->second;
}

template <class Value, std::size_t N>
std::optional<Value> value_in(const std::array<std::pair<Value, std::string_view>, N>& table, std::string_view text) {
  const auto entry = std::find_if(table.begin(), table.end(), [&](const auto& e) { return e.second == text; });
  if (entry == table.end()) return std::nullopt;
  return entry->first;
}

std::string in_both_scales(Temperature threshold) {
  return fmt::format("{} F ({} C)", to_text(threshold, TemperatureUnit::fahrenheit, 2),
                     to_text(threshold, TemperatureUnit::celsius, 2));
}

}  // namespace

std::optional<std::string> problem(const Formula& formula) {
  const auto [method, cutoff, lower, upper] = formula;
  if (averages(method) && cutoff == Cutoff::vertical) {
    return fmt::format(
        "the {} method has no vertical cutoff: use a sine or triangle method, or the horizontal cutoff or none",
        name(method));
  }
  if (method == Method::average && cutoff == Cutoff::intermediate) {
    return "the average method has no intermediate cutoff: use average-clipped, a sine or a triangle method, or the "
           "horizontal cutoff or none";
  }
  if (cutoff != Cutoff::none && !upper) {
    return fmt::format("the {} cutoff needs an upper threshold: give one, or use cutoff none", name(cutoff));
  }
  if (cutoff == Cutoff::none && upper) {
    return "an upper threshold is given but the cutoff is none: choose a cutoff (horizontal is the usual one), or "
           "leave the upper threshold out";
  }
  if (upper && *upper <= lower) {
    return fmt::format(
        "the upper threshold, {}, is not above the lower one, {}: give an upper threshold above the "
        "lower one",
        in_both_scales(*upper), in_both_scales(lower));
  }
  return std::nullopt;
}

double degree_days(Method method, Cutoff cutoff, double tmin, double tmax, double next_tmin, double lower,
                   double upper) {
  switch (method) {
    case Method::single_sine:
      return whole_day<Sine>(cutoff, tmin, tmax, lower, upper);
    case Method::double_sine:
      return two_halves<Sine>(cutoff, tmin, tmax, next_tmin, lower, upper);
    case Method::single_triangle:
      return whole_day<Triangle>(cutoff, tmin, tmax, lower, upper);
    case Method::double_triangle:
      return two_halves<Triangle>(cutoff, tmin, tmax, next_tmin, lower, upper);
    case Method::average:
    case Method::average_clipped:
      break;
  }
  return doubled_average(method, cutoff, tmin, tmax, lower, upper) / 2;
}

DegreeDays of_day(const Formula& formula, Temperature tmin, Temperature tmax, Temperature next_tmin) {
  if (tmax <= formula.lower && next_tmin <= formula.lower) return {};  // half of a northern record
  const std::int32_t lower = formula.lower.ticks();
  const std::int32_t upper = formula.upper ? formula.upper->ticks() : 0;
  if (averages(formula.method)) {
    constexpr std::int64_t units_per_half_tick = DegreeDays::k_units_per_tick / 2;
    return DegreeDays::from_units(units_per_half_tick * doubled_average<std::int64_t>(formula.method, formula.cutoff,
                                                                                      tmin.ticks(), tmax.ticks(), lower,
                                                                                      upper));
  }
  return DegreeDays::from_ticks(
      degree_days(formula.method, formula.cutoff, tmin.ticks(), tmax.ticks(), next_tmin.ticks(), lower, upper));
}

bool needs_next_tmin(Method method) { return method == Method::double_sine || method == Method::double_triangle; }

std::string_view name(Method method) { return name_in(k_methods, method); }
std::string_view name(Cutoff cutoff) { return name_in(k_cutoffs, cutoff); }
std::optional<Method> parse_method(std::string_view text) { return value_in(k_methods, text); }
std::optional<Cutoff> parse_cutoff(std::string_view text) { return value_in(k_cutoffs, text); }

}  // namespace budclock::degree_day
