// Gathers what is wrong with one file.
#pragma once

#include <budclock/core/diagnostic.hpp>

#include <cstddef>
#include <string>
#include <string_view>

namespace budclock::weather {

/// The diagnostics of one file, in the order of their places. Past k_most_listed they are only counted, so that a file
/// that is wrong on every line costs no more memory than any other.
class ProblemList {
 public:
  static constexpr std::size_t k_most_listed = 10'000;

  explicit ProblemList(std::string_view file) : file_{file} {}

  const std::string& file() const { return file_; }

  /// Line and column count from 1; 0 is the whole.
  void add(Severity severity, std::size_t line, std::size_t column, std::string message, std::string remedy = {});

  /// Everything, by line and column; what concerns the whole file comes first, and a count of what is not listed last.
  Diagnostics take();

 private:
  std::string file_;
  Diagnostics listed_;
  std::size_t unlisted_ = 0;
  Severity worst_unlisted_ = Severity::note;
};

}  // namespace budclock::weather
