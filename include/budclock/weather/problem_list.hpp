// Gathers what is wrong with one file.
#pragma once

#include <budclock/core/diagnostic.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace budclock::weather {

/// What a fault points to when most rows have it.
enum class FaultKind : std::uint8_t {
  other,
  other_unit,        ///< a temperature that is impossible in the file's unit, and possible in the other one
  swapped_extremes,  ///< a day whose minimum is above its maximum
  other_date_order,  ///< a date that exists only with day and month the other way round
  repeat,            ///< a row that says again what another row said: nothing is lost with it
};

/// The diagnostics of one file, in the order of their places. Past k_most_listed they are only counted, so that a file
/// that is wrong on every line costs no more memory than any other.
class ProblemList {
 public:
  static constexpr std::size_t k_most_listed = 10'000;

  explicit ProblemList(std::string_view file) : file_{file} {}

  const std::string& file() const { return file_; }

  /// Line and column count from 1; 0 is the whole.
  void add(Severity severity, std::size_t line, std::size_t column, std::string message, std::string remedy = {},
           FaultKind kind = FaultKind::other);

  bool has_error() const { return any_at_least(listed_, Severity::error); }
  /// The faults added so far, repeats left out, those that are not listed counted too: all, and those of one kind.
  std::size_t faults() const { return faults_; }
  std::size_t faults(FaultKind kind) const { return of_kind_[static_cast<std::size_t>(kind)]; }
  /// The lines with such faults, as long as the faults of a line are added one after another.
  std::size_t faulty_lines() const { return faulty_lines_; }

  /// Puts one error in the place of all faults; the first ones stay as notes, with the count of the others.
  void replace_faults(std::string message, std::string remedy);

  /// Everything, by line and column; what concerns the whole file comes first, and a count of what is not listed last.
  Diagnostics take();

 private:
  void sort();

  std::string file_;
  Diagnostics listed_;
  std::size_t unlisted_ = 0;
  std::size_t unlisted_faults_ = 0;  ///< of those that an error replaced
  std::size_t faults_ = 0;
  std::size_t faulty_lines_ = 0;
  std::size_t last_faulty_line_ = 0;
  std::array<std::size_t, 5> of_kind_{};
  Severity worst_unlisted_ = Severity::note;
};

}  // namespace budclock::weather
