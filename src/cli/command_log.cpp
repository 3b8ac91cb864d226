#include <budclock/report/log_report.hpp>

#include "commands.hpp"
#include "log_filter.hpp"
#include "messages.hpp"
#include "pest_files.hpp"
#include "practice_files.hpp"
#include "weather_input.hpp"

#include <ostream>

namespace budclock::cli {
namespace {

std::string written(const std::vector<journal::Sighting>& rows, const rules::PestTable& table, Format format,
                    const Environment& environment) {
  switch (format) {
    case Format::csv:
      return report::log_csv(rows);
    case Format::json:
      return report::log_json(rows);
    default:
      break;
  }
  return report::log_text(rows, table, {environment.width, environment.colour});
}

}  // namespace

ExitStatus run_log(const LogOptions& options, Environment& environment) {
  Diagnostics of_pests;
  const auto loaded = load_pests(options.practice.pest_folder, environment, of_pests);
  if (!loaded) return ExitStatus::no_answer;
  const rules::PestTable& table = *loaded;
  const auto asked = pests_asked(table, options.pests, {}, environment);
  if (!asked) return ExitStatus::usage;

  Diagnostics diagnostics;
  // Without a sites file any site's name will do.
  LogFilter filter{options.sites, *asked, options.from, options.to};
  std::optional<SitesFile> file;
  if (!find_sites_file(options.practice, environment).empty()) {
    file = read_sites_file(options.practice, environment, table, diagnostics);
  }
  if (file && !match_sites(*file, filter.sites, environment)) return ExitStatus::usage;
  LogPath log = find_log(options.practice, environment, file ? file->path : "");
  log.named = true;  // asked for it, so it is missed
  auto rows = read_scouting_log(
      log, {table, file ? file->names() : std::vector<std::string>{}, options.today.value_or(environment.today)},
      diagnostics);
  print(diagnostics, environment);
  if (any_at_least(diagnostics, Severity::error)) return ExitStatus::no_answer;
  std::erase_if(rows, [&](const auto& row) { return !filter.takes(row); });
  environment.out << written(rows, table, options.format, environment);
  diagnostics.insert(diagnostics.end(), of_pests.begin(), of_pests.end());
  return answered_with(diagnostics);
}

}  // namespace budclock::cli
