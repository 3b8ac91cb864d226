#include <budclock/forecast/evaluate.hpp>
#include <budclock/report/writers.hpp>
#include <budclock/sites/pest_choice.hpp>

#include "commands.hpp"
#include "file_patterns.hpp"
#include "messages.hpp"
#include "pest_files.hpp"
#include "practice_files.hpp"
#include "site_hours.hpp"
#include "site_question.hpp"
#include "site_weather.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <ostream>
#include <utility>

namespace budclock::cli {
namespace {

using Pests = std::vector<const rules::Pest*>;

/// Answers one command line: for a weather file, or for sites.
class When {
 public:
  When(const WhenOptions& options, const rules::PestTable& table, Pests pests, Diagnostics of_pests,
       Environment& environment)
      : options_{options},
        table_{table},
        pests_{std::move(pests)},
        environment_{environment},
        today_{options.today.value_or(environment.today)},
        diagnostics_{std::move(of_pests)},
        reported_{diagnostics_.size()} {}

  ExitStatus for_weather();
  ExitStatus for_sites();

 private:
  void answer(SiteRecord record, forecast::Question question);
  void answer(const sites::Site& site, const SitesFile& file, const std::vector<journal::Sighting>& log,
              const std::vector<journal::ActionTaken>& actions);
  ExitStatus write(const Diagnostics& diagnostics, bool site_failed) const;
  bool report_new();

  const WhenOptions& options_;
  const rules::PestTable& table_;
  const Pests pests_;  ///< those asked for
  Environment& environment_;
  const Day today_;
  Diagnostics diagnostics_;
  std::size_t reported_;
  std::vector<forecast::SiteForecast> answers_;
};

/// Prints what was diagnosed since the last time.
bool When::report_new() {
  const Diagnostics news{diagnostics_.begin() + static_cast<std::ptrdiff_t>(reported_), diagnostics_.end()};
  reported_ = diagnostics_.size();
  print(news, environment_);
  return any_at_least(news, Severity::error);
}

void When::answer(SiteRecord record, forecast::Question question) {
  const forecast::SiteWeather weather{std::move(record.days), today_, std::move(record.notes),
                                      std::move(record.normals)};
  question.method = options_.method;
  question.with_curves = options_.format == Format::page;
  answers_.push_back(forecast::evaluate(question, weather));
}

ExitStatus When::for_weather() {
  WeatherRequest request = request_of(options_.weather);
  request.normals = true;
  auto record = read_site_record(request, today_, environment_, diagnostics_);
  report_new();
  if (!record) return ExitStatus::no_answer;
  forecast::Question question;
  question.site = printable(options_.name.empty() ? record->name : options_.name);
  question.pests = pests_;
  question.place = options_.place;
  question.regions = &table_.regions;
  if (!options_.hosts.empty()) {  // what a rule says of a plant holds wherever it grows
    sites::Site asked;
    asked.plants = sites::list_entries(options_.hosts);
    add_site_facts(asked, table_, today_, question);
  }
  answer(std::move(*record), std::move(question));
  return write(diagnostics_, false);
}

void When::answer(const sites::Site& site, const SitesFile& file, const std::vector<journal::Sighting>& log,
                  const std::vector<journal::ActionTaken>& actions) {
  forecast::Question question = question_of(site, table_, pests_, log, actions, today_);
  if (question.pests.empty()) {
    const std::string plants = site.plants.empty() ? "" : fmt::format(" (plants: {})", fmt::join(site.plants, ", "));
    complain(fmt::format("no pest asked for concerns {}{}: name its plants, or the pests to watch, in {}", site.name,
                         plants, file.path),
             environment_);
    return;
  }
  const WeatherRequest request = request_of(site, folder_of(file.path), diagnostics_);
  auto record = read_site_record(request, today_, environment_, diagnostics_);
  Diagnostics told;  // by the reading of the record, or by `budclock day`
  add_hours(screened(site, table_), first_hours(request, environment_, told, told), today_, question);
  report_new();
  if (!record) {
    complain(fmt::format("{} has no weather: see its sources in {}", site.name, file.path), environment_);
    return;
  }
  answer(std::move(*record), std::move(question));
}

ExitStatus When::for_sites() {
  const auto file = read_sites_file(options_.practice, environment_, table_, diagnostics_);
  if (!file) {
    report_new();
    return ExitStatus::no_answer;
  }
  std::vector<const sites::Site*> asked;
  for (const std::string& name : options_.sites) {
    std::string problem;
    if (const sites::Site* site = find_site(*file, name, problem)) {
      asked.push_back(site);
      continue;
    }
    report_new();
    complain(problem, environment_);
    return any_at_least(diagnostics_, Severity::error) ? ExitStatus::no_answer : ExitStatus::usage;
  }
  // Asked for a day gone by, rows after it are not looked at; they are no faults.
  const Day last = std::max(today_, environment_.today);
  const auto log = read_scouting_log(find_log(options_.practice, environment_, file->path),
                                     {table_, file->names(), last}, diagnostics_);
  const auto actions = read_action_log(find_actions(options_.practice, environment_, file->path),
                                       {table_, file->names(), last}, diagnostics_);
  report_new();
  for (const sites::Site* site : asked) answer(*site, *file, log, actions);
  return answers_.empty() ? ExitStatus::no_answer : write(diagnostics_, answers_.size() < asked.size());
}

ExitStatus When::write(const Diagnostics& diagnostics, bool site_failed) const {
  const report::WriteStyle style{
      {environment_.width, environment_.colour}, options_.detail, options_.report_units, options_.csv};
  environment_.out << report::written(options_.format, answers_, table_, style);
  std::size_t too_old = 0;
  for (const forecast::SiteForecast& forecast : answers_) {
    if (!forecast.weather.too_old) continue;
    ++too_old;
    const std::string whose = answers_.size() == 1 ? "the weather" : "the weather of " + forecast.site;
    complain(fmt::format("{} ends too long before {}: nothing new can be answered", whose, iso(today_)), environment_);
  }
  if (too_old == answers_.size()) return ExitStatus::no_answer;
  return too_old > 0 || site_failed ? ExitStatus::set_aside : answered_with(diagnostics);
}

}  // namespace

ExitStatus run_when(const WhenOptions& options, Environment& environment) {
  Diagnostics of_pests;
  const auto loaded = load_pests(options.practice.pest_folder, environment, of_pests);
  if (!loaded) return ExitStatus::no_answer;
  const rules::PestTable& table = *loaded;
  const auto asked = pests_asked(table, options.pests, options.hosts, environment);
  if (!asked) return ExitStatus::usage;
  if (options.format == Format::page && options.sites.size() > 1) {
    complain("a page is for one site: name one --site", environment);
    return ExitStatus::usage;
  }
  When when{options, table, *asked, std::move(of_pests), environment};
  return options.sites.empty() ? when.for_weather() : when.for_sites();
}

}  // namespace budclock::cli
