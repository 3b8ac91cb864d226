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

/// The dates alone: the digest knows the rest.
SiteState planned_days(const forecast::SiteForecast& site);

/// A state is JSON, one object a line: first "schema": "budclock/state/2", the day and the texts of the problems that
/// all sites share, then a site on each line.
std::string state_head(Day today, const std::set<std::string>& problems);
std::string state_line(const std::string& name, const SiteState& site);

/// The state of an earlier day as it was written. A site is read when it is asked for, so that thousands of them take
/// no more memory than their text.
class WrittenState {
 public:
  /// Faults, on whatever line, are errors among the diagnostics, and then nothing comes back.
  static std::optional<WrittenState> read(std::string text, std::string_view file_name, Diagnostics& diagnostics);

  Day today() const { return today_; }
  const std::set<std::string>& problems() const { return problems_; }
  std::set<std::string> names() const;
  /// Nothing when there was no such site.
  std::optional<SiteState> site(const std::string& name) const;

 private:
  struct Line {
    std::size_t begin = 0;
    std::size_t length = 0;
  };
  std::string text_;
  Day today_{};
  std::set<std::string> problems_;
  std::map<std::string, Line> sites_;  ///< by name; of one name, the last
};

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

/// What has moved at a site since the older state, for each pest the date that moved farthest (of equals, the first of
/// a window opening, ending, a stage); by pest. Only dates that one of the two states has between today and 14 days
/// after it, for what is months away moves a little every day.
std::vector<Change> changes(const std::string& site, const SiteState& older, const SiteState& now, Day today);

/// "eastern spruce gall adelgid at Mill Lane: 4 days earlier than yesterday (treat bare stem mothers: from Apr 12)".
std::string change_text(const Change& change, const rules::PestTable& table, Day older, Day today);

}  // namespace budclock::report
