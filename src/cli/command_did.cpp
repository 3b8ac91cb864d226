#include <budclock/journal/action_log.hpp>
#include <budclock/report/records_report.hpp>
#include <budclock/report/words.hpp>
#include <budclock/rules/dose.hpp>
#include <budclock/sites/restrictions.hpp>

#include "commands.hpp"
#include "file_patterns.hpp"
#include "messages.hpp"
#include "one_pest.hpp"
#include "pest_files.hpp"
#include "practice_files.hpp"
#include "site_doubts.hpp"
#include "site_weather.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <ostream>

namespace budclock::cli {
namespace {

class ActionRecorder {
 public:
  ActionRecorder(const DidOptions& options, const rules::PestTable& table, const rules::Pest& pest,
                 Environment& environment)
      : options_{options},
        table_{table},
        pest_{pest},
        environment_{environment},
        today_{options.today.value_or(environment.today)} {}

  ExitStatus record() {
    const auto file = read_sites_file(options_.practice, environment_, table_, diagnostics_);
    if (!file) return refuse(diagnostics_, ExitStatus::no_answer);
    std::string problem;
    const sites::Site* site = find_site(*file, options_.site, problem);
    if (site == nullptr) {
      complain(problem, environment_);
      return ExitStatus::usage;
    }
    const journal::LogContext context{table_, file->names(), today_};
    Diagnostics faults;
    auto action = journal::read_action(row_as_typed(*site), context, faults);
    if (!action) return refuse(faults, ExitStatus::usage);
    Diagnostics notes;
    note_doubts(*site, *action, notes);
    take_weather(*site, folder_of(file->path), *action, notes);

    const std::string path = find_actions(options_.practice, environment_, file->path).path;
    const journal::AppendResult result = journal::append_action(path, journal::row_of(*action));
    print(result.diagnostics, environment_);
    if (result.outcome == journal::Appended::failed) return ExitStatus::not_written;
    if (result.outcome == journal::Appended::duplicate) return ExitStatus::set_aside;
    print(notes, environment_);
    tell(*action, path);
    Diagnostics old_faults;
    read_action_log({path, true}, context, old_faults);
    if (any_at_least(old_faults, Severity::fault)) {
      environment_.err << printable(path) << ": holds rows that are set aside: `budclock records` names them\n";
    }
    return ExitStatus::answered;
  }

 private:
  ExitStatus refuse(const Diagnostics& faults, ExitStatus status) {
    print(faults, environment_);
    environment_.err << "budclock: nothing was recorded\n";
    return status;
  }

  journal::ActionRow row_as_typed(const sites::Site& site) const {
    journal::ActionTaken typed = options_.texts;
    typed.date = options_.date.value_or(today_);
    typed.site = site.name;
    typed.pest = pest_.id;
    journal::ActionRow row = journal::row_of(typed);
    row[static_cast<std::size_t>(
        std::find(journal::k_action_columns.begin(), journal::k_action_columns.end(), "action") -
        journal::k_action_columns.begin())] = options_.action;
    return row;
  }

  /// What may be a slip but is recorded all the same: what was done was done.
  void note_doubts(const sites::Site& site, const journal::ActionTaken& action, Diagnostics& notes) const {
    note_missing_plant(site, table_, pest_, notes);
    note_rules(action.action, notes);
    for (const rules::SiteRestriction& found : sites::Restrictions{site, table_, action.date}.on(pest_, "")) {
      if (!bars_somewhere(found) || !contains(found.actions, action.action)) continue;
      notes.push_back({Severity::note, site.place,
                       fmt::format("the facts of {} bar {} {}: {}: {}; recorded all the same", site.name,
                                   report::word(action.action), found.bars ? "there" : "on some plants there",
                                   found.fact, found.text),
                       "correct the sites file if they no longer hold"});
    }
    for (const journal::ActionText& each : journal::k_action_texts) {
      if (each.from_label || !rules::find_dose(action.*each.text)) continue;
      notes.push_back(
          {Severity::note,
           {},
           fmt::format("--{} reads as an amount of a product, so lists of records withhold it", each.column),
           "amounts belong under --amount"});
    }
  }

  /// What the pest's own rules do not have, or forbid. To keep plants where they are is itself a ban.
  void note_rules(rules::Action kind, Diagnostics& notes) const {
    if (kind == rules::Action::quarantine) return;
    const std::string page = fmt::format("`budclock pests {}` has what not to do, and why", pest_.id);
    const bool listed = std::any_of(pest_.windows.begin(), pest_.windows.end(), [&](const rules::Window& window) {
      return window.kind == rules::WindowKind::act && contains(window.actions, kind);
    });
    if (!listed) {
      notes.push_back({Severity::note,
                       {},
                       fmt::format("no source here speaks of {} against the {}: no window to act lists it; recorded "
                                   "all the same",
                                   report::word(kind), pest_.name),
                       page});
    }
    for (const rules::Window& window : pest_.windows) {
      if (window.kind != rules::WindowKind::abstain || !contains(window.actions, kind)) continue;
      notes.push_back({Severity::note,
                       {},
                       fmt::format("{} is not for the {} while this holds: {} ({}); whether it did that day is not "
                                   "known here; recorded all the same",
                                   report::word(kind), pest_.name, window.name, window.reason),
                       page});
    }
  }

  /// A bar of some of the plants comes as a warning.
  bool bars_somewhere(const rules::SiteRestriction& restriction) const {
    return std::any_of(table_.site_rules.begin(), table_.site_rules.end(),
                       [&](const rules::SiteRule& rule) { return rule.id == restriction.id && rule.bars; });
  }

  /// The temperatures of the day as the site's station has them: neither moved to the site, nor filled by a line, nor
  /// forecast.
  void take_weather(const sites::Site& site, const std::string& folder, journal::ActionTaken& action,
                    Diagnostics& notes) {
    Diagnostics of_weather;
    WeatherRequest request = request_of(site, folder, of_weather);
    request.gaps = weather::GapPolicy::keep;
    request.forecasts.clear();
    for (WeatherFile& each : request.files) each.offset = {};
    const auto record = read_site_record(request, today_, environment_, of_weather);
    for (const Diagnostic& each : of_weather) {
      if (each.severity == Severity::error) notes.push_back(each);
    }
    if (const auto index = record ? record->days.index_of(action.date) : std::nullopt) {
      action.tmin = record->days.tmin[*index];
      action.tmax = record->days.tmax[*index];
    }
    if (weather::has_value(action.tmin.origin) || weather::has_value(action.tmax.origin)) return;
    notes.push_back(
        {Severity::note,
         {},
         fmt::format("the record of {} has no temperatures of {}; they are left empty", site.name, iso(action.date)),
         "write them into the row if they must be kept"});
  }

  void tell(const journal::ActionTaken& action, const std::string& path) const {
    const report::TextStyle style{environment_.width, environment_.colour};
    environment_.out << printable(fmt::format("Recorded in {}: {}, {}, {}: {}.", path, iso(action.date), action.site,
                                              pest_.name, report::action_text(action)))
                     << "\n";
    const std::string weather = report::temperatures_text(action);
    if (!weather.empty()) environment_.out << "Temperatures of the day: " << weather << ".\n";
    const std::string missing = report::missing_text(action);
    if (missing.empty()) return;
    environment_.out << report::paragraph(
        fmt::format("An inspector would miss: {}. By {}; local rules decide.", missing, journal::k_record_rule), 2,
        style, "");
  }

  const DidOptions& options_;
  const rules::PestTable& table_;
  const rules::Pest& pest_;
  Environment& environment_;
  const Day today_;
  Diagnostics diagnostics_;
};

}  // namespace

ExitStatus run_did(const DidOptions& options, Environment& environment) {
  Diagnostics of_pests;
  const auto loaded = load_pests(options.practice.pest_folder, environment, of_pests);
  if (!loaded) return ExitStatus::no_answer;
  const rules::Pest* pest = choose_one(*loaded, options.pest, environment);
  return pest == nullptr ? ExitStatus::usage : ActionRecorder{options, *loaded, *pest, environment}.record();
}

}  // namespace budclock::cli
