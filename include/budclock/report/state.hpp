// What was planned on one day, kept so that a later day can tell what has changed.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/diagnostic.hpp>
#include <budclock/forecast/site_forecast.hpp>
#include <budclock/rules/pest.hpp>

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::report {

/// The dates of one window (or of one stage, whose likely date is its `from`).
struct PlannedDays {
  std::optional<Day> from{};
  std::optional<Day> until{};
  friend bool operator==(const PlannedDays&, const PlannedDays&) = default;
};

/// Of a site: the dates of each window and stage that has any, by "pest/window" and "pest/stage".
struct SiteState {
  std::map<std::string, PlannedDays> windows{};
  std::map<std::string, PlannedDays> stages{};
  std::map<std::string, std::string> groups{};  ///< where the digest had a window: "look, now"
  std::set<std::string> problems{};             ///< their texts
  friend bool operator==(const SiteState&, const SiteState&) = default;
};

struct State {
  Day today{};
  std::map<std::string, SiteState> sites;  ///< by name
  std::set<std::string> problems{};        ///< the texts of those that all sites share
  friend bool operator==(const State&, const State&) = default;
};

/// The dates alone: the digest knows the rest.
SiteState planned_days(const forecast::SiteForecast& site);

/// JSON, one object a line, so that a state of thousands of sites is read line by line: first "schema":
/// "budclock/state/2" and the day, then a site on each line.
std::string state_lines(const State& state);

/// Reads what `state_lines` wrote. Faults are errors among the diagnostics, and then nothing comes back.
std::optional<State> read_state(std::string_view text, std::string_view file_name, Diagnostics& diagnostics);

/// One date that has moved.
struct Change {
  std::string site;
  std::string pest;  ///< id
  std::string id;    ///< of the window or stage
  enum class What { opens, ends, stage } what = What::opens;
  Day before{};
  Day now{};

  int days() const { return static_cast<int>((now - before).count()); }
};

std::string_view name(Change::What what);  ///< "window opens"

/// What has moved since the older state, for each pest at each site the date that moved farthest (of equals, the first
/// of a window opening, ending, a stage); by site and pest. Only dates that one of the two states has between today and
/// 14 days after it, for what is months away moves a little every day.
std::vector<Change> changes(const State& older, const State& now);

/// "eastern spruce gall adelgid at Mill Lane: 4 days earlier than yesterday (treat bare stem mothers: from Apr 12)".
std::string change_text(const Change& change, const rules::PestTable& table, Day older, Day today);

}  // namespace budclock::report
