#include <budclock/weather/problem_list.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <tuple>
#include <utility>

namespace budclock::weather {

void ProblemList::add(Severity severity, std::size_t line, std::size_t column, std::string message,
                      std::string remedy) {
  if (listed_.size() >= k_most_listed && severity != Severity::error) {
    ++unlisted_;
    worst_unlisted_ = std::max(worst_unlisted_, severity);
    return;
  }
  listed_.push_back({severity, {file_, line, column}, std::move(message), std::move(remedy)});
}

Diagnostics ProblemList::take() {
  std::stable_sort(listed_.begin(), listed_.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::tie(a.place.line, a.place.column) < std::tie(b.place.line, b.place.column);
  });
  if (unlisted_ > 0) {
    listed_.push_back({worst_unlisted_,
                       {file_, 0, 0},
                       fmt::format("{} further problems are not listed", unlisted_),
                       "correct these first and read the file again"});
    unlisted_ = 0;
  }
  return std::exchange(listed_, {});
}

}  // namespace budclock::weather
