// Answers many sites, each weather record read once, on several threads.
#pragma once

#include <budclock/files/file_set.hpp>
#include <budclock/forecast/evaluate.hpp>
#include <budclock/report/digest.hpp>
#include <budclock/report/state.hpp>

#include "environment.hpp"
#include "options.hpp"
#include "site_hours.hpp"
#include "weather_input.hpp"

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

namespace budclock::cli {

/// What is asked of a site.
struct SiteQuestion {
  forecast::Question question;
  ScreenedSite screened;
};

/// A site to be answered, or one that cannot be: then `failed`, and `problems` tell why.
struct SiteTask {
  std::string name;                   ///< fit to be shown
  std::string file_name;              ///< of its reports, without ending; empty: it gets none
  Place place;                        ///< where it stands in the sites file
  const sites::Site* site = nullptr;  ///< as the file has it; nothing where it cannot be read
  WeatherRequest request{};
  std::size_t record = 0;  ///< sites with the same number have the same weather
  Diagnostics problems{};  ///< known before its weather is read
  bool failed = false;
};

struct SiteResult {
  report::SiteDigest digest{};
  std::string state{};                 ///< its line in the state of today
  std::vector<files::Staged> files{};  ///< its reports
};

/// What is asked of each site, and what is done with the answer.
struct SiteWork {
  std::function<SiteQuestion(const sites::Site&)> ask;  ///< called from any thread
  const report::WrittenState* older = nullptr;          ///< of the day compared with; nothing: there is none
  const rules::PestTable& table;
  const files::FileSet& folder;
  const std::vector<Format>& formats;
  TemperatureUnit report_units;
  report::CsvDialect csv;
};

/// One result for each task, in their order, whatever thread was first. A record is read once, by whichever thread
/// takes its number, and it and its sums are dropped before that thread takes the next. A site that fails, for
/// whatever reason, is a result that says so; the others are as they would be without it. `on_done` is told how many
/// sites are done, from any thread.
std::vector<SiteResult> answer_sites(const std::vector<SiteTask>& tasks, std::size_t records, Day today, int jobs,
                                     const SiteWork& how, Environment& environment,
                                     const std::function<void(std::size_t)>& on_done);

}  // namespace budclock::cli
