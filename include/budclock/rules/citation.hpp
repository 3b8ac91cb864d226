// Where a statement comes from, and how well it is known.
#pragma once

#include <cstdint>
#include <string>

namespace budclock::rules {

/// How well a statement is known.
enum class Grade : std::uint8_t {
  seen,             ///< read in the source itself
  quoted,           ///< read in another publication that quotes the source
  common_practice,  ///< a rule of thumb of the trade without a source; never a degree-day figure
};

/// Where a statement comes from.
struct Citation {
  std::string source;  ///< key in sources.json; empty only for common practice
  std::string where;   ///< table, page or section; empty when the source has none
  std::string region;  ///< where it was observed or is recommended; empty when the source does not say
  Grade grade = Grade::seen;
  std::string note;
};

}  // namespace budclock::rules
