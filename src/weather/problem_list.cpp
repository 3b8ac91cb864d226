#include <budclock/weather/problem_list.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <tuple>
#include <utility>

namespace budclock::weather {

void ProblemList::add(Severity severity, std::size_t line, std::size_t column, std::string message, std::string remedy,
                      FaultKind kind) {
  if (severity == Severity::fault && kind != FaultKind::repeat) {
    ++faults_;
    ++of_kind_[static_cast<std::size_t>(kind)];
    if (line != last_faulty_line_) ++faulty_lines_;
    last_faulty_line_ = line;
  }
  if (listed_.size() >= k_most_listed && severity != Severity::error) {
    ++unlisted_;
    worst_unlisted_ = std::max(worst_unlisted_, severity);
    return;
  }
  listed_.push_back({severity, {file_, line, column}, std::move(message), std::move(remedy)});
}

void ProblemList::sort() {
  std::stable_sort(listed_.begin(), listed_.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::tie(a.place.line, a.place.column) < std::tie(b.place.line, b.place.column);
  });
}

void ProblemList::replace_faults(std::string message, std::string remedy) {
  constexpr std::size_t k_examples = 3;
  sort();
  std::size_t kept = 0;
  std::erase_if(listed_, [&](Diagnostic& each) {
    if (each.severity != Severity::fault) return false;
    each.severity = Severity::note;
    return ++kept > k_examples;
  });
  unlisted_ = 0;
  listed_.push_back({Severity::error, {file_, 0, 0}, std::move(message), std::move(remedy)});
  unlisted_faults_ = faults_ - std::min(faults_, k_examples);
}

Diagnostics ProblemList::take() {
  sort();
  if (unlisted_ > 0) {
    listed_.push_back({worst_unlisted_,
                       {file_, 0, 0},
                       fmt::format("{} further problems are not listed", unlisted_),
                       "correct these first and read the file again"});
    unlisted_ = 0;
  }
  if (unlisted_faults_ > 0) {
    listed_.push_back({Severity::note, {file_, 0, 0}, fmt::format("and {} more", unlisted_faults_), ""});
    unlisted_faults_ = 0;
  }
  return std::exchange(listed_, {});
}

}  // namespace budclock::weather
