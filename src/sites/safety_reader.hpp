// The safety facts and the firm's limits of a sites file, whether they come from JSON or from cells.
#pragma once

#include <budclock/document/object_reader.hpp>
#include <budclock/rules/pest.hpp>
#include <budclock/sites/safety.hpp>

#include <optional>
#include <string>
#include <vector>

namespace budclock::sites {

/// What the readers of facts need to know.
struct SafetyContext {
  const rules::PestTable& table;
  const std::vector<std::string>& plants;  ///< of the site
  std::optional<Day> last;                 ///< nothing can have been noted after it; nothing: any day goes
};

/// The members of an object "safety". Every fault has its place.
SiteSafety read_safety(document::ObjectReader& facts, const SafetyContext& context);

/// The list "limits": texts such as "wind 8", "calm rules out", "rain-ahead 40 flags".
std::vector<rules::OwnLimit> read_limits(document::ObjectReader& owner, const rules::PestTable& table);

}  // namespace budclock::sites
