// "Did you mean ...?"
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace budclock {

/// The candidate that `text` most likely misspells: the fewest letters changed, left out, added or swapped with
/// their neighbour, upper and lower case taken as equal; the first of several equals. Nothing when more than a third
/// of the letters (at least one) would have to change.
std::optional<std::string_view> nearest_name(std::string_view text, const std::vector<std::string_view>& candidates);

/// As `nearest_name`, of two names alone: how many letters would have to change; texts of more than 100 bytes are no
/// names, and far from all.
std::size_t letters_changed(std::string_view text, std::string_view name);

}  // namespace budclock
