#include <budclock/rules/dose.hpp>

#include <algorithm>
#include <array>

namespace budclock::rules {
namespace {

constexpr std::array<std::string_view, 24> k_units{
    "oz",  "ozs",   "ounce",  "ounces", "ml",   "milliliter", "milliliters", "pt", "pts", "pint",  "pints",  "qt",
    "qts", "quart", "quarts", "gal",    "gals", "gallon",     "gallons",     "lb", "lbs", "pound", "pounds", "ppm"};

/// Blanks and hyphens that may stand between a number and its unit: ASCII, no-break, thin and narrow ones.
constexpr std::array<std::string_view, 8> k_between{
    " ", "-", "\t", "\n", "\xC2\xA0", "\xE2\x80\x89", "\xE2\x80\xAF", "\xE2\x80\x91"};

constexpr std::array<std::string_view, 3> k_fractions{"\xC2\xBC", "\xC2\xBD", "\xC2\xBE"};  // quarter, half, three

std::size_t skip_between(std::string_view text, std::size_t at) {
  for (bool moved = true; moved;) {
    moved = false;
    for (const std::string_view blank : k_between) {
      if (!text.substr(at).starts_with(blank)) continue;
      at += blank.size();
      moved = true;
    }
  }
  return at;
}

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

std::string lower_word(std::string_view text, std::size_t at) {
  std::string word;
  for (; at < text.size() && is_letter(text[at]); ++at) {
    word += static_cast<char>(text[at] | 0x20);  // lower case of an ASCII letter
  }
  return word;
}

/// End of the unit that stands at `at`; 0 when none does.
std::size_t unit_end(std::string_view text, std::size_t at) {
  if (text.substr(at).starts_with('%')) return at + 1;
  std::string word = lower_word(text, at);
  if (word == "fl" || word == "fluid") {
    at += word.size();
    if (text.substr(at).starts_with('.')) ++at;
    at = skip_between(text, at);
    word = lower_word(text, at);
  }
  const bool unit = std::find(k_units.begin(), k_units.end(), word) != k_units.end();
  return unit ? at + word.size() : 0;
}

/// Length of the digit or fraction at `at`; 0 when there is none.
std::size_t digit_length(std::string_view text, std::size_t at) {
  if (text[at] >= '0' && text[at] <= '9') return 1;
  for (const std::string_view fraction : k_fractions) {
    if (text.substr(at).starts_with(fraction)) return fraction.size();
  }
  return 0;
}

}  // namespace

std::optional<std::string> find_dose(std::string_view text) {
  for (std::size_t at = 0; at < text.size(); ++at) {
    const std::size_t digit = digit_length(text, at);
    if (digit == 0) continue;
    const std::size_t end = unit_end(text, skip_between(text, at + digit));
    if (end != 0) return std::string{text.substr(at, end - at)};
  }
  return std::nullopt;
}

}  // namespace budclock::rules
