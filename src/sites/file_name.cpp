#include <budclock/sites/file_name.hpp>

#include <algorithm>
#include <array>
#include <cstdint>
#include <fmt/format.h>

namespace budclock::sites {
namespace {

constexpr std::size_t k_longest = 60;

/// Names that Windows gives to devices, with any ending.
constexpr std::array<std::string_view, 4> k_devices{"con", "prn", "aux", "nul"};

bool is_device(std::string_view name) {
  if (std::find(k_devices.begin(), k_devices.end(), name) != k_devices.end()) return true;
  const bool numbered = name.starts_with("com") || name.starts_with("lpt");
  return numbered && name.size() == 4 && name[3] >= '0' && name[3] <= '9';
}

/// Fowler-Noll-Vo hash 1a, 64 bits (G. Fowler, L. C. Noll, K.-P. Vo, D. Eastlake, RFC 9923).
std::uint64_t hash(std::string_view text) {
  std::uint64_t value = 0xCBF29CE484222325U;
  for (const char c : text) value = (value ^ static_cast<unsigned char>(c)) * 0x100000001B3U;
  return value;
}

}  // namespace

std::string safe_file_name(std::string_view name) {
  std::string safe;
  bool exact = !name.empty();
  for (const char c : name) {
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-') {
      safe += c;
    } else if (c >= 'A' && c <= 'Z') {
      safe += static_cast<char>(c - 'A' + 'a');
    } else if (c == ' ') {
      safe += '_';
    } else {
      exact = false;
    }
  }
  if (safe.size() > k_longest) {
    safe.resize(k_longest);
    exact = false;
  }
  if (safe.starts_with('-')) {  // would read as an option
    safe.front() = '_';
    exact = false;
  }
  if (exact && !is_device(safe)) return safe;
  return fmt::format("{}.{:016x}", safe.empty() || is_device(safe) ? "site_" + safe : safe, hash(name));
}

}  // namespace budclock::sites
