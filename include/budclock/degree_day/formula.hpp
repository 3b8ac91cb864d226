// How one day's minimum and maximum become degree-days: the published family of methods and cutoffs.
//
// Names, thresholds and edge conventions follow the usual ones of the trade (Zalom et al. 1983, UC Leaflet 21373;
// McMaster & Wilhelm 1997, Agric. For. Meteorol. 87:291-300). All functions are pure.
#pragma once

#include <budclock/core/temperature.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace budclock::degree_day {

/// The daily temperature curve that is assumed between the extremes.
enum class Method : std::uint8_t {
  average,          ///< mean of the extremes minus the lower threshold, floored at zero (McMaster & Wilhelm method 1)
  average_clipped,  ///< extremes clipped to the thresholds first, then averaged (method 2; the "86/50" rule)
  single_sine,      ///< Baskerville & Emin 1969, Ecology 50:514-517
  double_sine,      ///< Allen 1976, Environ. Entomol. 5:388-396; needs the next day's minimum
  single_triangle,  ///< Lindsey & Newman 1956, Ecology 37:812-823
  double_triangle,  ///< Sevacherian, Stern & Mueller 1977, J. Econ. Entomol. 70:399-402
};

/// What happens above the upper threshold.
enum class Cutoff : std::uint8_t {
  none,          ///< nothing: there is no upper threshold
  horizontal,    ///< development goes on at the rate of the upper threshold
  vertical,      ///< development stops
  intermediate,  ///< the rate falls one for one; a curve's total may be negative ("signed" reading)
};

/// One complete way to count: thresholds, curve and cutoff. `upper` is present exactly when `cutoff` is not none.
struct Formula {
  Method method = Method::average;
  Cutoff cutoff = Cutoff::none;
  Temperature lower;
  std::optional<Temperature> upper;
  friend auto operator<=>(const Formula&, const Formula&) = default;
};

/// Why a formula is undefined or meaningless, or nothing when it is sound. Refused: average with vertical or
/// intermediate and average_clipped with vertical (nobody defines them), a cutoff without an upper threshold or the
/// reverse, and an upper threshold at or below the lower one.
std::optional<std::string> problem(const Formula& formula);

/// Degree-days of one day on plain numbers of any one scale; `next_tmin` matters to the double methods only, and
/// `upper` only where the cutoff is not none. Method and cutoff must be a pair that `problem` accepts; a day that
/// stands still exactly at the upper threshold is not above it (vertical counts it in full). A day with tmin above tmax
/// is the caller's mistake; a next_tmin above tmax occurs in real records and is taken as the higher end of that
/// half-day. Accuracy: within 1e-11 + 1e-12 |value| of 60-digit quadrature on 704 reference rows.
double degree_days(Method method, Cutoff cutoff, double tmin, double tmax, double next_tmin, double lower,
                   double upper);

/// Degree-days of one day on the exact grid: the averaging methods in whole numbers, the curves in double and
/// rounded once. `formula` must be sound.
DegreeDays of_day(const Formula& formula, Temperature tmin, Temperature tmax, Temperature next_tmin);

/// True when the formula needs the next day's minimum.
bool needs_next_tmin(Method method);

/// "average", "average-clipped", "single-sine", ...
std::string_view name(Method method);
std::string_view name(Cutoff cutoff);
std::optional<Method> parse_method(std::string_view text);
std::optional<Cutoff> parse_cutoff(std::string_view text);

}  // namespace budclock::degree_day
