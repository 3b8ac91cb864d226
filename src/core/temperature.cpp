#include <budclock/core/temperature.hpp>

#include <cmath>

namespace budclock {
namespace {

constexpr double k_ticks_per_celsius = 900.0;
constexpr double k_ticks_per_fahrenheit = 500.0;

double ticks_per_degree(TemperatureUnit unit) {
  return unit == TemperatureUnit::celsius ? k_ticks_per_celsius : k_ticks_per_fahrenheit;
}

std::int64_t hundredths(double degrees) { return std::llround(degrees * 100.0); }

/// numerator / denominator as decimal text, rounded half away from zero. The denominator is positive.
std::string decimal_text(__int128 numerator, __int128 denominator, int decimals) {
  const bool negative = numerator < 0;
  __int128 magnitude = negative ? -numerator : numerator;
  for (int i = 0; i < decimals; ++i) magnitude *= 10;
  __int128 rounded = (2 * magnitude + denominator) / (2 * denominator);
  const bool zero = rounded == 0;

  std::string digits;
  do {
    digits.insert(digits.begin(), static_cast<char>('0' + static_cast<int>(rounded % 10)));
    rounded /= 10;
  } while (rounded > 0);
  const auto wanted = static_cast<std::size_t>(decimals) + 1;
  if (digits.size() < wanted) digits.insert(0, wanted - digits.size(), '0');
  if (decimals > 0) digits.insert(digits.size() - static_cast<std::size_t>(decimals), ".");
  return negative && !zero ? "-" + digits : digits;
}

}  // namespace

const char* symbol(TemperatureUnit unit) { return unit == TemperatureUnit::celsius ? "C" : "F"; }

TemperatureDifference TemperatureDifference::celsius(double degrees) { return from_ticks(hundredths(degrees) * 9); }
TemperatureDifference TemperatureDifference::fahrenheit(double degrees) { return from_ticks(hundredths(degrees) * 5); }
double TemperatureDifference::celsius() const { return in(TemperatureUnit::celsius); }
double TemperatureDifference::fahrenheit() const { return in(TemperatureUnit::fahrenheit); }
double TemperatureDifference::in(TemperatureUnit unit) const {
  return static_cast<double>(ticks_) / ticks_per_degree(unit);
}

Temperature Temperature::celsius(double degrees) {
  return hundredths_celsius(static_cast<std::int32_t>(hundredths(degrees)));
}
Temperature Temperature::fahrenheit(double degrees) {
  return hundredths_fahrenheit(static_cast<std::int32_t>(hundredths(degrees)));
}
Temperature Temperature::in(TemperatureUnit unit, double degrees) {
  return unit == TemperatureUnit::celsius ? celsius(degrees) : fahrenheit(degrees);
}
double Temperature::celsius() const { return ticks_ / k_ticks_per_celsius; }
double Temperature::fahrenheit() const { return (ticks_ + 16000) / k_ticks_per_fahrenheit; }
double Temperature::in(TemperatureUnit unit) const {
  return unit == TemperatureUnit::celsius ? celsius() : fahrenheit();
}

DegreeDays DegreeDays::from_ticks(double tick_days) {
  return from_units(std::llround(tick_days * static_cast<double>(k_units_per_tick)));
}
DegreeDays DegreeDays::celsius_days(double degree_days) { return in(TemperatureUnit::celsius, degree_days); }
DegreeDays DegreeDays::fahrenheit_days(double degree_days) { return in(TemperatureUnit::fahrenheit, degree_days); }
DegreeDays DegreeDays::in(TemperatureUnit unit, double degree_days) {
  return from_ticks(degree_days * ticks_per_degree(unit));
}
double DegreeDays::celsius_days() const { return in(TemperatureUnit::celsius); }
double DegreeDays::fahrenheit_days() const { return in(TemperatureUnit::fahrenheit); }
double DegreeDays::in(TemperatureUnit unit) const {
  return static_cast<double>(units_) / (static_cast<double>(k_units_per_tick) * ticks_per_degree(unit));
}

std::string to_text(Temperature value, TemperatureUnit unit, int decimals) {
  const bool fahrenheit = unit == TemperatureUnit::fahrenheit;
  return decimal_text(value.ticks() + (fahrenheit ? 16000 : 0), fahrenheit ? 500 : 900, decimals);
}

std::string to_text(TemperatureDifference value, TemperatureUnit unit, int decimals) {
  return decimal_text(value.ticks(), unit == TemperatureUnit::fahrenheit ? 500 : 900, decimals);
}

std::string to_text(DegreeDays value, TemperatureUnit unit, int decimals) {
  const __int128 per_degree = unit == TemperatureUnit::fahrenheit ? 500 : 900;
  return decimal_text(value.units(), per_degree * DegreeDays::k_units_per_tick, decimals);
}

}  // namespace budclock
