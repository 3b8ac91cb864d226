#include <budclock/forecast/evaluate.hpp>
#include <budclock/report/stops.hpp>

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

class Stops {
 public:
  Stops(const StopsOptions& options, const rules::PestTable& table, Pests pests, Environment& environment)
      : options_{options},
        table_{table},
        pests_{std::move(pests)},
        environment_{environment},
        today_{options.today.value_or(environment.today)} {}

  ExitStatus plan() {
    const auto file = read_sites_file(options_.practice, environment_, table_, diagnostics_);
    if (!file) {
      print(diagnostics_, environment_);
      return ExitStatus::no_answer;
    }
    const Day last = std::max(today_, environment_.today);
    const auto log = read_scouting_log(find_log(options_.practice, environment_, file->path),
                                       {table_, file->names(), last}, diagnostics_);
    const auto actions = read_action_log(find_actions(options_.practice, environment_, file->path),
                                         {table_, file->names(), last}, diagnostics_);
    std::vector<report::Stop> stops;
    std::size_t failed = file->list.set_aside.size();
    for (const sites::Site& site : file->list.sites) {
      const report::SiteDigest digest = answer(site, *file, log, actions);
      failed += digest.failed ? 1 : 0;
      auto stop = report::stop_at(digest, {site.latitude, site.longitude}, today_, options_.crews.days);
      if (stop) stops.push_back(std::move(*stop));
    }
    print(diagnostics_, environment_, false);
    write(report::plan_stops(std::move(stops), today_, options_.crews));
    if (failed > 0) complain(fmt::format("{} sites could not be answered and are no stops", failed), environment_);
    const bool none = failed == file->list.sites.size() + file->list.set_aside.size();
    return none ? ExitStatus::no_answer : failed > 0 ? ExitStatus::set_aside : answered_with(diagnostics_);
  }

 private:
  report::SiteDigest answer(const sites::Site& site, const SitesFile& file, const std::vector<journal::Sighting>& log,
                            const std::vector<journal::ActionTaken>& actions) {
    forecast::Question question = question_of(site, table_, pests_, log, actions, today_);
    report::SiteDigest nothing;
    if (question.pests.empty()) return nothing;
    const WeatherRequest request = request_of(site, folder_of(file.path), diagnostics_);
    auto record = read_site_record(request, today_, environment_, diagnostics_);
    Diagnostics told;  // by the reading of the record, or by `budclock day`
    add_hours(screened(site, table_), first_hours(request, environment_, told, told), today_, question);
    if (!record) {
      complain(fmt::format("{} has no weather: see its sources in {}", site.name, file.path), environment_);
      nothing.failed = true;
      return nothing;
    }
    const forecast::SiteWeather weather{std::move(record->days), today_, std::move(record->notes),
                                        std::move(record->normals)};
    report::SiteDigest digest = report::site_digest(forecast::evaluate(question, weather), {});
    if (digest.failed) complain(report::site_problem_text(digest), environment_);
    return digest;
  }

  void write(const report::StopPlan& plan) const {
    switch (options_.format) {
      case Format::csv:
        environment_.out << report::stops_csv(plan, options_.csv);
        return;
      case Format::calendar:
        environment_.out << report::stops_calendar(plan);
        return;
      case Format::markdown:
        environment_.out << report::as_markdown(report::stops_document(plan));
        return;
      default:
        environment_.out << report::as_text(report::stops_document(plan), {environment_.width, environment_.colour});
    }
  }

  const StopsOptions& options_;
  const rules::PestTable& table_;
  const Pests pests_;
  Environment& environment_;
  const Day today_;
  Diagnostics diagnostics_;
};

}  // namespace

ExitStatus run_stops(const StopsOptions& options, Environment& environment) {
  Diagnostics of_pests;
  const auto loaded = load_pests(options.practice.pest_folder, environment, of_pests);
  if (!loaded) return ExitStatus::no_answer;
  const auto asked = pests_asked(*loaded, options.pests, options.hosts, environment);
  if (!asked) return ExitStatus::usage;
  return Stops{options, *loaded, *asked, environment}.plan();
}

}  // namespace budclock::cli
