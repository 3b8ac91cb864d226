// Keeps the rows of the one station that was asked for.
#pragma once

#include <budclock/weather/problem_list.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace budclock::weather {

/// Tells which rows are kept, and remembers the other stations for the message when there are none.
class StationFilter {
 public:
  /// `wanted` as in ReadOptions: empty keeps all.
  explicit StationFilter(std::string wanted) : wanted_{std::move(wanted)} {}

  bool keeps(std::string_view id) {
    if (wanted_.empty() || id == wanted_) return kept_any_ = true;
    remember(id);
    return false;
  }

  /// An error, and true, when one station was wanted and the rows were all of others.
  bool report_if_unknown(ProblemList& problems) const;

 private:
  static constexpr std::size_t k_most_named = 10;
  void remember(std::string_view id);

  std::string wanted_;
  bool kept_any_ = false;
  std::string last_other_;
  std::vector<std::string> others_;
};

}  // namespace budclock::weather
