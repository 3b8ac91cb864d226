#include "hindcast_against.hpp"

#include <budclock/forecast/against.hpp>
#include <budclock/journal/log.hpp>
#include <budclock/report/against_report.hpp>

#include "messages.hpp"
#include "practice_files.hpp"
#include "weather_input.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <ostream>
#include <set>

namespace budclock::cli {
namespace {

/// The site that is asked for, or the only one of the log.
std::optional<std::string> site_of(const std::vector<journal::Sighting>& log, const std::string& asked,
                                   Environment& environment) {
  std::set<std::string> sites;
  for (const auto& sighting : log) sites.insert(sighting.site);
  const bool named = sites.contains(asked);
  if (named) return asked;
  if (asked.empty() && sites.size() == 1) return *sites.begin();
  environment.err << fmt::format("budclock: {}: name with --site one of: {}\n",
                                 asked.empty() ? fmt::format("the log speaks of {} sites", sites.size())
                                               : fmt::format("the log has no site '{}'", asked),
                                 fmt::join(sites, ", "));
  return std::nullopt;
}

std::string written(const std::string& site, const std::vector<forecast::FigureAgainst>& figures, Format format,
                    const Environment& environment) {
  switch (format) {
    case Format::csv:
      return report::against_csv(site, figures);
    case Format::json:
      return report::against_json(site, figures);
    default:
      break;
  }
  return report::against_text(site, figures, {environment.width, environment.colour});
}

}  // namespace

ExitStatus run_against(const HindcastOptions& options, const rules::PestTable& table,
                       const forecast::HindcastQuestion& question, const weather::DailySeries& record,
                       Diagnostics& diagnostics, Environment& environment) {
  Diagnostics of_log;
  const auto text = read_whole_file(options.against, of_log);
  std::vector<journal::Sighting> log;
  if (text) log = journal::read_log(*text, options.against, {table, {}, environment.today}, of_log);
  print(of_log, environment);
  diagnostics.insert(diagnostics.end(), of_log.begin(), of_log.end());
  if (!text) return ExitStatus::no_answer;
  if (log.empty()) {
    environment.err << "budclock: the log has no row that can be used\n";
    return ExitStatus::no_answer;
  }
  const auto site = site_of(log, options.site, environment);
  if (!site) return ExitStatus::usage;

  std::vector<forecast::FigureAgainst> figures;
  for (const forecast::Figure& figure : forecast::figures_of(question.pests)) {
    // A find says when a stage begins; its end is another event.
    const auto& begins_by = figure.stage->begins;
    const bool begins = std::any_of(begins_by.begin(), begins_by.end(),
                                    [&](const rules::Trigger& trigger) { return trigger.id == figure.trigger->id; });
    const auto seasons = forecast::finds_of(log, *site, figure.pest->id, figure.stage->id, year_of(record.first),
                                            year_of(record.last()));
    if (begins && !seasons.empty()) figures.push_back(against(figure, seasons, record, question.leads));
  }
  if (figures.empty()) {
    environment.err << fmt::format("budclock: the log of {} finds no stage that a degree-day figure dates\n", *site);
    return ExitStatus::no_answer;
  }
  environment.out << written(*site, figures, options.format, environment);
  return answered_with(diagnostics);
}

}  // namespace budclock::cli
