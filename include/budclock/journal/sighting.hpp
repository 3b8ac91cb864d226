// What scouts saw: the rows of a scouting log, and the questions asked of them.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/diagnostic.hpp>
#include <budclock/rules/pest.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::journal {

/// How many of how many samples (twigs, leaves, cards) showed it.
struct Share {
  int found = 0;
  std::optional<int> of;
  friend bool operator==(const Share&, const Share&) = default;
};

/// One row of the log.
struct Sighting {
  Day date{};
  std::string site;                  ///< name, as in the sites file
  std::string pest;                  ///< id
  std::string stage;                 ///< id; empty: the row is about the pest
  std::vector<std::string> saw;      ///< ids of observations
  std::vector<std::string> not_saw;  ///< looked for and not there
  bool not_found = false;            ///< the stage, or the pest when no stage is named, was looked for and not there
  std::optional<Share> count;
  std::string plant, by, note;  ///< free text
  Place place;
  std::vector<std::string> hosts{};  ///< names of the pest's hosts that the plant is or may be; empty: not known
  friend bool operator==(const Sighting&, const Sighting&) = default;
};

/// When a stage was found in one season.
struct StageFound {
  Day first;                          ///< the first day it was found
  std::optional<Day> last_not_found;  ///< the last day before that on which it was looked for in vain
  bool contradicted = false;          ///< another row says that it was not on that plant on the first day
};

/// A season is named by the calendar year. Nothing when the stage was not found at the site in that season up to
/// `today`.
std::optional<StageFound> stage_found(const std::vector<Sighting>& log, std::string_view site, std::string_view pest,
                                      std::string_view stage, int season, Day today);

/// The first day on which the observation was seen at the site in that season up to `today`.
std::optional<Day> first_seen(const std::vector<Sighting>& log, std::string_view site, std::string_view pest,
                              const std::string& observation, int season, Day today);

/// How one of a gate's demands stands.
enum class DemandState : std::uint8_t {
  met,
  not_recorded,  ///< nobody said anything of it this season
  contradicted,  ///< the newest statement is the opposite
  aged,          ///< the newest statement is too old to count
  acted_on,      ///< it was seen, and something was done about it that day or later: nobody has looked again
};

/// One of a gate's demands: an observation that must have been seen, or looked for and not seen.
struct Demand {
  const rules::Observation* observation = nullptr;
  bool wants_seen = true;
  DemandState state = DemandState::not_recorded;
  std::optional<Day> stated{};        ///< the day of the newest statement
  std::optional<Day> counts_until{};  ///< the last day on which it counts
};

struct GateState {
  std::vector<Demand> demands;  ///< those that must be seen first, in the gate's order

  /// True when every demand is met; so also for an empty gate.
  bool met() const;
  /// The last day on which it stays met if nothing new is recorded; nothing when it is not met or has no demand.
  std::optional<Day> met_until() const;
};

/// What else bears on a gate.
struct GateContext {
  std::string host{};          ///< a find on a plant known to be another host says nothing of it; empty: any host
  std::optional<Day> acted{};  ///< the last day on which one of the gate's kinds of action was taken
};

/// How a gate stands at a site on `today`, by the rows up to that day. For each observation the newest statement
/// wins (of one day, the row further down). It counts on its day and for the observation's `valid_days` after it, and
/// never past its calendar year. A row that says the whole pest was not found withdraws what was seen before.
GateState gate_state(const rules::Pest& pest, const rules::Gate& gate, const std::vector<Sighting>& log,
                     std::string_view site, Day today, const GateContext& context = {});

}  // namespace budclock::journal
