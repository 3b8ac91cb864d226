// No dose anywhere: rates are a matter of the product's label.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace budclock::rules {

/// The first amount in `text` that reads as a dose or concentration: a digit before %, oz, fl oz, ml, pt, qt, gal, lb
/// or ppm (or the unit spelt out), with or without space or hyphen between. Nothing when there is none.
std::optional<std::string> find_dose(std::string_view text);

}  // namespace budclock::rules
