#include <budclock/core/nearest.hpp>

#include <algorithm>
#include <cstddef>
#include <string>

namespace budclock {
namespace {

/// Longer texts are not misspelt names, and the distance takes time in the product of both lengths.
constexpr std::size_t k_longest_name = 100;

std::string lower_case(std::string_view text) {
  std::string lower{text};
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return lower;
}

/// Optimal string alignment distance: changes, insertions, deletions and swaps of neighbours.
std::size_t distance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> before_last;
  std::vector<std::size_t> last(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::vector<std::size_t> row(b.size() + 1, i);
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
    before_last = std::move(last);
    last = std::move(row);
  }
  return last.back();
}

}  // namespace

std::size_t letters_changed(std::string_view text, std::string_view name) {
  const std::size_t longer = std::max(text.size(), name.size());
  return longer > k_longest_name ? longer : distance(lower_case(text), lower_case(name));
}

std::optional<std::string_view> nearest_name(std::string_view text, const std::vector<std::string_view>& candidates) {
  if (text.empty() || text.size() > k_longest_name) return std::nullopt;
  const std::string wanted = lower_case(text);
  std::optional<std::string_view> nearest;
  std::size_t allowed = std::max<std::size_t>(1, text.size() / 3);
  for (const std::string_view candidate : candidates) {
    if (candidate.empty() || candidate.size() > k_longest_name) continue;
    const std::size_t found = distance(wanted, lower_case(candidate));
    if (found > allowed || (nearest && found == allowed)) continue;
    nearest = candidate;
    allowed = found;
  }
  return nearest;
}

}  // namespace budclock
