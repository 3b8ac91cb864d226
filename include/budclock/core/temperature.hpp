// Temperatures, temperature differences and degree-day sums: three types that do not mix.
//
// A temperature is a point on a scale: 50 °F is 10 °C. A difference is a distance between two points: 18 F° is
// 10 C°. A degree-day sum is a difference held for a time: 180 °F-days are 100 °C-days. Points convert with the
// offset of 32, differences and sums only scale, and adding two points has no meaning and does not compile.
//
// All three are whole numbers on one grid on which every hundredth of a degree of either scale lies exactly, so
// that sums are exact, free of order and the same on every machine:
//   Temperature, TemperatureDifference  ticks of 1/900 °C; 0.01 °F = 5 ticks, 0.01 °C = 9 ticks, 32 °F = tick 0
//   DegreeDays                          units of half a tick-day times 2^-20 (5.3e-10 °C-days)
#pragma once

#include <compare>
#include <cstdint>
#include <string>

namespace budclock {

/// The two scales in which temperatures are read and reported.
enum class TemperatureUnit : std::uint8_t { celsius, fahrenheit };

/// "C" or "F".
const char* symbol(TemperatureUnit unit);

/// A distance between two temperatures. Converts by scale alone.
class TemperatureDifference {
 public:
  constexpr TemperatureDifference() = default;

  /// From grid ticks of 1/900 °C.
  static constexpr TemperatureDifference from_ticks(std::int64_t ticks) { return TemperatureDifference{ticks}; }
  /// From degrees (any finite value), to the nearest hundredth of a degree.
  static TemperatureDifference celsius(double degrees);
  static TemperatureDifference fahrenheit(double degrees);

  constexpr std::int64_t ticks() const { return ticks_; }
  double celsius() const;
  double fahrenheit() const;
  double in(TemperatureUnit unit) const;

  friend constexpr auto operator<=>(TemperatureDifference, TemperatureDifference) = default;

 private:
  explicit constexpr TemperatureDifference(std::int64_t ticks) : ticks_{ticks} {}
  std::int64_t ticks_ = 0;
};

constexpr TemperatureDifference operator+(TemperatureDifference a, TemperatureDifference b) {
  return TemperatureDifference::from_ticks(a.ticks() + b.ticks());
}
constexpr TemperatureDifference operator-(TemperatureDifference a) {
  return TemperatureDifference::from_ticks(-a.ticks());
}

/// A point on the temperature scale.
class Temperature {
 public:
  constexpr Temperature() = default;

  /// From grid ticks of 1/900 °C, counted from 0 °C.
  static constexpr Temperature from_ticks(std::int32_t ticks) { return Temperature{ticks}; }
  /// From whole hundredths of a degree, exactly.
  static constexpr Temperature hundredths_celsius(std::int32_t hundredths) { return Temperature{hundredths * 9}; }
  static constexpr Temperature hundredths_fahrenheit(std::int32_t hundredths) {
    return Temperature{(hundredths - 3200) * 5};
  }
  /// From degrees, to the nearest hundredth of a degree of that scale (so 71.96000000000001 is 71.96).
  /// The value must be finite and within ±10,000 degrees.
  static Temperature celsius(double degrees);
  static Temperature fahrenheit(double degrees);
  static Temperature in(TemperatureUnit unit, double degrees);

  constexpr std::int32_t ticks() const { return ticks_; }
  double celsius() const;
  double fahrenheit() const;
  double in(TemperatureUnit unit) const;

  friend constexpr auto operator<=>(Temperature, Temperature) = default;

 private:
  explicit constexpr Temperature(std::int32_t ticks) : ticks_{ticks} {}
  std::int32_t ticks_ = 0;
};

constexpr TemperatureDifference operator-(Temperature a, Temperature b) {
  return TemperatureDifference::from_ticks(std::int64_t{a.ticks()} - b.ticks());
}
constexpr Temperature operator+(Temperature point, TemperatureDifference shift) {
  return Temperature::from_ticks(static_cast<std::int32_t>(point.ticks() + shift.ticks()));
}

/// A degree-day amount or sum; negative only under the signed intermediate cutoff. Converts by scale alone.
class DegreeDays {
 public:
  /// Units of the sum per grid tick held for one day.
  static constexpr std::int64_t k_units_per_tick = std::int64_t{2} << 20;

  constexpr DegreeDays() = default;

  static constexpr DegreeDays from_units(std::int64_t units) { return DegreeDays{units}; }
  /// From tick-days, rounded to the nearest unit.
  static DegreeDays from_ticks(double tick_days);
  /// From degree-days of a scale (any finite value within ±1e8), rounded to the nearest unit.
  static DegreeDays celsius_days(double degree_days);
  static DegreeDays fahrenheit_days(double degree_days);
  static DegreeDays in(TemperatureUnit unit, double degree_days);

  constexpr std::int64_t units() const { return units_; }
  double celsius_days() const;
  double fahrenheit_days() const;
  double in(TemperatureUnit unit) const;

  constexpr DegreeDays& operator+=(DegreeDays other) {
    units_ += other.units_;
    return *this;
  }
  friend constexpr DegreeDays operator+(DegreeDays a, DegreeDays b) { return DegreeDays{a.units_ + b.units_}; }
  friend constexpr DegreeDays operator-(DegreeDays a, DegreeDays b) { return DegreeDays{a.units_ - b.units_}; }
  friend constexpr auto operator<=>(DegreeDays, DegreeDays) = default;

 private:
  explicit constexpr DegreeDays(std::int64_t units) : units_{units} {}
  std::int64_t units_ = 0;
};

/// Decimal text of a value in one scale, rounded half up (away from zero) exactly once from the grid.
/// `decimals` is 0 to 9. "-0.0" is never printed.
std::string to_text(Temperature value, TemperatureUnit unit, int decimals);
std::string to_text(TemperatureDifference value, TemperatureUnit unit, int decimals);
std::string to_text(DegreeDays value, TemperatureUnit unit, int decimals);

}  // namespace budclock
