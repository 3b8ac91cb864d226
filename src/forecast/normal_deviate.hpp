// Slices of the normal distribution.
#pragma once

#include <cmath>
#include <cstddef>

namespace budclock::forecast {

/// The standard normal deviate that is exceeded with probability `tail`, 0 < tail <= 0.5, within 4.5e-4 (Abramowitz &
/// Stegun 1964, Handbook of Mathematical Functions, 26.2.23).
inline double upper_deviate(double tail) {
  const double t = std::sqrt(-2 * std::log(tail));
  return t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
}

/// The middle of the `rank`-th of `count` equal slices of the normal distribution, from 0.
inline double deviate(std::size_t rank, std::size_t count) {
  const double below = (static_cast<double>(rank) + 0.5) / static_cast<double>(count);
  return below <= 0.5 ? -upper_deviate(below) : upper_deviate(1 - below);
}

}  // namespace budclock::forecast
