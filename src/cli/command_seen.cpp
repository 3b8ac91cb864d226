#include <budclock/journal/append.hpp>
#include <budclock/report/log_report.hpp>
#include <budclock/report/words.hpp>
#include <budclock/sites/pest_choice.hpp>

#include "commands.hpp"
#include "messages.hpp"
#include "one_pest.hpp"
#include "pest_files.hpp"
#include "practice_files.hpp"
#include "shell_words.hpp"
#include "site_doubts.hpp"
#include "weather_input.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <ostream>
#include <set>
#include <sstream>

namespace budclock::cli {
namespace {

/// "7/20" is a date to a spreadsheet; the log has "7 of 20".
std::string count_for_log(const std::string& count) {
  const std::size_t slash = count.find('/');
  return slash == std::string::npos ? count : count.substr(0, slash) + " of " + count.substr(slash + 1);
}

/// The log's list: ids parted by semicolons, in one order, so that the same row is known again.
std::string list_for_log(std::string ids) {
  std::replace(ids.begin(), ids.end(), ',', ';');
  std::erase(ids, ' ');
  std::istringstream text{ids};
  std::set<std::string> sorted;
  for (std::string id; std::getline(text, id, ';');) sorted.insert(id);
  return fmt::format("{}", fmt::join(sorted, ";"));
}

journal::LogRow row_of(const SeenOptions& options, const std::string& site, const rules::Pest& pest, Day date) {
  return {iso(date),
          site,
          pest.id,
          options.stage,
          list_for_log(options.saw),
          list_for_log(options.not_saw),
          options.not_found ? "yes" : "",
          count_for_log(options.count),
          options.plant,
          options.by,
          options.note};
}

class Recorder {
 public:
  Recorder(const SeenOptions& options, const rules::PestTable& table, const rules::Pest& pest, Environment& environment)
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
    LogPath path = find_log(options_.practice, environment_, file->path);
    path.named = false;  // the first row makes it
    const journal::LogContext context{table_, file->names(), today_};
    Diagnostics old_faults;
    auto log = read_scouting_log(path, context, old_faults);
    const journal::LogRow row = row_of(options_, site->name, pest_, options_.date.value_or(today_));
    Diagnostics faults;
    const auto sighting = journal::read_row(row, log, context, faults);
    if (!sighting) return refuse(faults, ExitStatus::usage);

    const journal::AppendResult result = journal::append_to_log(path.path, row);
    print(result.diagnostics, environment_);
    if (result.outcome == journal::Appended::failed) return ExitStatus::not_written;
    if (result.outcome == journal::Appended::duplicate) return ExitStatus::set_aside;
    log.push_back(*sighting);  // the newest of its day
    Diagnostics notes;
    const bool is_missing = note_missing_plant(*site, table_, pest_, notes);
    if (report::listed_text(options_.note) != options_.note) {
      notes.push_back({Severity::note,
                       {},
                       "--note reads as an amount of a product, so lists withhold it",
                       "`budclock did` records what was used, under --amount"});
    }
    print(notes, environment_);
    environment_.out << printable(fmt::format("Recorded in {}: {}, {}, {}: {}", path.path, iso(sighting->date),
                                              site->name, pest_.name, report::sighting_text(*sighting, table_)))
                     << ".\n";
    if (!is_missing) tell_gates(*site, log);
    if (any_at_least(old_faults, Severity::fault)) {
      environment_.err << printable(path.path) << ": holds rows that are set aside: `budclock log` names them\n";
    }
    return ExitStatus::answered;
  }

 private:
  ExitStatus refuse(const Diagnostics& faults, ExitStatus status) {
    print(faults, environment_);
    environment_.err << "budclock: nothing was recorded\n";
    return status;
  }

  /// What the gates ask for and have is no offer; the command that makes one is told with it.
  void tell_gates(const sites::Site& site, const std::vector<journal::Sighting>& log) const {
    const report::TextStyle style{environment_.width, environment_.colour};
    const std::string gates = report::gates_text(pest_, log, site, table_, today_, style);
    if (gates.empty()) return;
    environment_.out << gates
                     << report::paragraph(
                            "This does not say that a window is open or that the site allows it. This command does:", 2,
                            style, "")
                     << "  " << printable(command_to_ask(site)) << "\n";
  }

  /// Of the pest at the site, with the files that were named.
  std::string command_to_ask(const sites::Site& site) const {
    std::string command = fmt::format("budclock when {}", pest_.id);
    const auto add = [&](const char* option, const std::string& value) {
      if (!value.empty()) command += fmt::format(" {} \"{}\"", option, quoted_for_shell(value, Quote::twice));
    };
    add("--site", site.name);
    add("--sites", options_.practice.sites_file);
    add("--log", options_.practice.log_file);
    add("--pests", options_.practice.pest_folder);
    if (options_.today) command += fmt::format(" --today {}", iso(*options_.today));
    return command;
  }

  const SeenOptions& options_;
  const rules::PestTable& table_;
  const rules::Pest& pest_;
  Environment& environment_;
  const Day today_;
  Diagnostics diagnostics_;
};

}  // namespace

ExitStatus run_seen(const SeenOptions& options, Environment& environment) {
  Diagnostics of_pests;
  const auto loaded = load_pests(options.practice.pest_folder, environment, of_pests);
  if (!loaded) return ExitStatus::no_answer;
  const rules::PestTable& table = *loaded;
  if (options.list) {
    const sites::PestChoice choice = sites::choose_pests(table, {options.pest});
    for (const std::string& problem : choice.problems) complain(problem, environment);
    for (const rules::Pest* pest : choice.pests) {
      if (pest != choice.pests.front()) environment.out << '\n';
      environment.out << report::recordable_text(*pest, {environment.width, environment.colour});
    }
    return choice.problems.empty() ? ExitStatus::answered : ExitStatus::usage;
  }
  const rules::Pest* pest = choose_one(table, options.pest, environment);
  return pest == nullptr ? ExitStatus::usage : Recorder{options, table, *pest, environment}.record();
}

}  // namespace budclock::cli
