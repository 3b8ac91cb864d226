#include <budclock/report/records_report.hpp>

#include "commands.hpp"
#include "log_filter.hpp"
#include "messages.hpp"
#include "pest_files.hpp"
#include "practice_files.hpp"

#include <fmt/format.h>
#include <ostream>

namespace budclock::cli {
namespace {

using Rows = std::vector<journal::ActionTaken>;

std::string written(const Rows& rows, const rules::PestTable& table, const RecordsOptions& options,
                    const Environment& environment) {
  const auto fields = options.for_inspector ? report::RecordFields::every : report::RecordFields::listed;
  switch (options.format) {
    case Format::csv:
      return report::records_csv(rows, fields);
    case Format::json:
      return report::records_json(rows, fields);
    default:
      break;
  }
  return report::records_text(rows, table, fields, {environment.width, environment.colour});
}

/// A note for each row that lacks what an inspector asks for.
Diagnostics missing_notes(const Rows& rows) {
  Diagnostics notes;
  for (const journal::ActionTaken& row : rows) {
    const std::string missing = report::missing_text(row);
    if (missing.empty()) continue;
    notes.push_back({Severity::note,
                     {row.place.file, row.place.line, 0},
                     "an inspector would miss " + missing,
                     fmt::format("add it to that line; {}", journal::k_record_rule)});
  }
  return notes;
}

}  // namespace

ExitStatus run_records(const RecordsOptions& options, Environment& environment) {
  Diagnostics diagnostics;
  const auto loaded = load_pests(options.practice.pest_folder, environment, diagnostics);
  if (!loaded) return ExitStatus::no_answer;
  const std::size_t reported = diagnostics.size();
  const rules::PestTable& table = *loaded;
  const auto asked = pests_asked(table, options.pests, {}, environment);
  if (!asked) return ExitStatus::usage;

  LogFilter filter{options.sites, *asked, options.from, options.to};
  const auto season = options.season;
  // Without a sites file any site's name will do.
  std::optional<SitesFile> file;
  if (!find_sites_file(options.practice, environment).empty()) {
    file = read_sites_file(options.practice, environment, table, diagnostics);
  }
  if (file && !match_sites(*file, filter.sites, environment)) return ExitStatus::usage;
  LogPath log = find_actions(options.practice, environment, file ? file->path : "");
  log.named = true;  // asked for it, so it is missed
  Rows rows = read_action_log(
      log, {table, file ? file->names() : std::vector<std::string>{}, options.today.value_or(environment.today)},
      diagnostics);
  print({diagnostics.begin() + static_cast<std::ptrdiff_t>(reported), diagnostics.end()}, environment);
  if (any_at_least(diagnostics, Severity::error)) return ExitStatus::no_answer;
  std::erase_if(rows, [&](const auto& row) { return !filter.takes(row) || (season && year_of(row.date) != *season); });
  environment.out << written(rows, table, options, environment);
  if (options.for_inspector) print(missing_notes(rows), environment);
  return answered_with(diagnostics);
}

}  // namespace budclock::cli
