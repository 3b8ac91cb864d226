// All sites on one page: what is to be looked at, what may be done if it is confirmed, what ends, what is to be left
// alone; now and in the next 14 days.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/core/sink.hpp>
#include <budclock/forecast/site_forecast.hpp>
#include <budclock/report/csv.hpp>
#include <budclock/report/document.hpp>
#include <budclock/report/state.hpp>

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace budclock::report {

/// The digest looks this far ahead, and as far back for what has just become too late.
inline constexpr date::days k_digest_days{14};

/// A phone's width: longer lines break there where they should not.
inline constexpr TextStyle k_digest_style{.width = 60, .colour = false};

/// In the order in which a page shows them.
enum class DigestGroup : std::uint8_t {
  last_days,  ///< to look or to act, and over within a week; of what is to come: opens and ends within the 14 days
  act,        ///< to act if the scout confirms it
  leave,      ///< not to be done: too late, barred, or with nothing to gain
  look,
};

enum class Due : std::uint8_t { now, soon };

/// One window of one pest. It stands in one group only.
struct DigestLine {
  DigestGroup group = DigestGroup::look;
  Due due = Due::now;
  const rules::Pest* pest = nullptr;
  const rules::Window* window = nullptr;
  std::vector<rules::Action> actions{};  ///< its kinds of action; of an action, those that the site leaves
  std::optional<Day> from{};
  std::optional<Day> until{};  ///< of a confirmed action: the last day on which what was found still counts, too
  /// What it asks for has been found and still counts: the action is offered.
  bool confirmed = false;
  /// What to look for; what must be found first; why it is to be left alone.
  std::string text{};
  forecast::Evidence evidence = forecast::Evidence::none;  ///< of its dates
  /// Facts of the site, or the hours of its forecast, that leave no kind of this action.
  std::string not_here{};
  bool is_new = false;  ///< it did not stand in this group on the day that is compared with
};

/// What calls for a visit of its own.
enum class VisitKind : std::uint8_t {
  follow_up,         ///< due now, or within the next 14 days
  missed_follow_up,  ///< not made in its time; told until the season ends or somebody looks
  missed_look,       ///< a window to look closed within the last 14 days without a record
};

struct DigestVisit {
  VisitKind kind = VisitKind::follow_up;
  Due due = Due::now;
  const rules::Pest* pest = nullptr;
  std::string name{};         ///< "horticultural oil on Apr 10", or the name of the window
  std::optional<Day> done{};  ///< the day of the action
  std::optional<Day> from{};
  std::optional<Day> until{};
  std::string text{};  ///< all that the site's report says of it
  bool is_new = false;
};

struct SiteDigest {
  std::string site{};
  Place place{};  ///< in the sites file, where it is known
  std::vector<DigestLine> lines{};
  Diagnostics problems{};  ///< of its data; notes are none
  bool failed = false;     ///< nothing can be said of it, or nothing new
  /// The day that is compared with told all of its problems: values set aside then, and still.
  bool told_before = false;
  std::vector<DigestVisit> visits{};  ///< by kind, then by what ends first
  std::vector<Change> changes{};      ///< since the day that is compared with
  bool changed = true;                ///< a line, a date of the next 14 days or a problem is another than then
};

struct Digest {
  Day today{};
  std::vector<SiteDigest> sites{};  ///< in the order of the sites file
  Diagnostics problems{};           ///< of what all sites share: sites file, log, pest files
  std::optional<Day> since{};       ///< the day of the state that `changes` compares with
  std::vector<Change> changes{};    ///< of all sites, by site
  bool changed = true;              ///< a site, or a problem that all sites share, is another than then
  bool told_before = false;         ///< as of a site, of the problems that all sites share
  std::uint32_t part = 1;           ///< of the sites, which `parts` share out
  std::uint32_t parts = 1;

  /// Something has failed, or values were set aside that the day compared with did not tell of.
  bool has_new_problems() const;
  /// Something stands in a group, or there are new problems.
  bool has_news() const;
};

/// The lines of a site. A window is
///  - left alone, when it is a ban that stands; when it is an action that a ban, the site or a contrary find bars, or
///    that every hour of the site's forecast rules out, that ended
///    within the last 14 days, or for which the sources leave no time. A ban without dates is shown with a pest that
///    has another line;
///  - else under its last days, to act or to look. An action never stands there while it is barred. One without dates
///    is shown only when what it asks for has been found.
/// Weather that ends too long before today is a problem, and the site has failed; what the calendar says of
/// it stands, but for actions.
SiteDigest site_digest(const forecast::SiteForecast& site, Diagnostics problems);

/// The texts of all but notes.
std::set<std::string> problem_texts(const Diagnostics& problems);

/// What a later day needs to tell what has changed.
SiteState site_state(const forecast::SiteForecast& site, const SiteDigest& digest);
/// The same of a site without a forecast.
SiteState site_state(const SiteDigest& digest);

/// Tells in a site's digest what is another than in the older state, which may know nothing of it. `now` is the state
/// of the site today.
void compare(SiteDigest& site, const WrittenState& older, const SiteState& now, Day today);
/// The same of all sites together, once each has been compared.
void compare(Digest& digest, const WrittenState& older);

/// It is an action, and neither barred nor too late.
bool may_be_done(const DigestLine& line);

std::string_view name(DigestGroup group);  ///< "last days"
std::string_view name(Due due);            ///< "now", "next 14 days"
std::string_view name(VisitKind kind);     ///< "follow-up", "missed follow-up", "missed look"

/// "Mill Lane (sites.csv:12): failed: weather/none.csv: cannot be opened (and 2 more)": the worst problem of a site.
std::string site_problem_text(const SiteDigest& site);
/// All problems of a site, as the end of its report; empty when there is none.
Document site_problems(const SiteDigest& site);
/// The report of a site that has failed before anything could be forecast.
Document failed_site_document(const SiteDigest& site, Day today);

/// For a phone at dawn: first stops and bans first, then problems, changes, and the groups.
Document digest_document(const Digest& digest, const rules::PestTable& table);

/// A header and one row for each line, after one for each problem (group "problem"). Columns are only ever added at the
/// end.
std::string digest_csv(const Digest& digest, const CsvDialect& dialect = {});
void digest_csv(const Digest& digest, const CsvDialect& dialect, const Sink& out);

/// One JSON object, "schema": "budclock/digest/1" (data/schema/digest.schema.json). Members are only ever added.
std::string digest_json(const Digest& digest, const rules::PestTable& table);
void digest_json(const Digest& digest, const rules::PestTable& table, const Sink& out);

/// Reads what `digest_json` wrote; the lines point into `table`. Faults are among the diagnostics, and then nothing
/// comes back.
std::optional<Digest> read_digest(std::string_view text, std::string_view file_name, const rules::PestTable& table,
                                  Diagnostics& diagnostics);

/// Parts of one day as one digest: the sites in the order of their file, a problem that several parts tell once. A part
/// that is not there is a problem; one that is there twice counts once.
Digest joined(std::vector<Digest> parts);

}  // namespace budclock::report
