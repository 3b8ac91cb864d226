// What is known of a site that decides what may be done there: water, bees, people, plants that oil harms. Plain
// values; what is not stated is never taken as safe.
#pragma once

#include <budclock/core/date.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace budclock::sites {

/// A plant or predator as typed, and the day that stands beside it.
struct DatedName {
  std::string name;
  std::optional<Day> day{};
  friend bool operator==(const DatedName&, const DatedName&) = default;
};

/// Whether something is near, and how far away.
struct Nearness {
  bool near = false;
  std::string distance{};        ///< as typed, "15 ft"; empty: not stated
  std::optional<double> feet{};  ///< the same in feet
  friend bool operator==(const Nearness&, const Nearness&) = default;
};

enum class Soil : std::uint8_t { fit, frozen, saturated, dry };

/// Something that a day's weather changes, with the day on which it was looked at.
template <class T>
struct Noted {
  T value{};
  Day day{};
  friend bool operator==(const Noted&, const Noted&) = default;
};

/// How long the state of the soil and a drought count after the day on which they were noted (common practice).
inline constexpr date::days k_ground_days{7};

/// In each, nothing: not stated; no entries: stated that there are none.
struct SiteSafety {
  std::string state{};  ///< two-letter postal code; empty: not stated
  std::optional<Nearness> water{};
  std::optional<Nearness> hives{};
  std::optional<std::vector<DatedName>> in_bloom{};      ///< with the day on which it was noted
  std::optional<std::vector<DatedName>> due_to_bloom{};  ///< with the day on which it is due
  std::optional<std::vector<DatedName>> oil_sensitive{};
  std::optional<std::vector<DatedName>> predators{};  ///< with the day of their release
  std::optional<bool> children_or_pets{};
  std::optional<Noted<Soil>> soil{};
  std::optional<Noted<bool>> drought{};
  friend bool operator==(const SiteSafety&, const SiteSafety&) = default;
};

/// What counts on `today`: nothing where it was not stated, noted later, or more than k_ground_days before.
template <class T>
std::optional<Noted<T>> counts_on(Day today, const std::optional<Noted<T>>& noted) {
  return noted && noted->day <= today && today - noted->day <= k_ground_days ? noted : std::nullopt;
}

/// "dry (noted 2012-04-08)".
std::string to_text(const Noted<Soil>& soil);
std::string to_text(const Noted<bool>& drought);

/// What is not stated, or no longer counts, in words: "state", "distance to water", ...
std::vector<std::string> not_stated(const SiteSafety& safety, Day today);

}  // namespace budclock::sites
