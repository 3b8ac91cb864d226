#include "nightly_sites.hpp"

#include <budclock/report/writers.hpp>

#include "in_parallel.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <fmt/format.h>
#include <new>
#include <utility>

namespace budclock::cli {
namespace {

constexpr report::TextStyle k_report_style{.width = 80, .colour = false};

/// Answers the sites of one record after another.
class Worker {
 public:
  Worker(const std::vector<SiteTask>& tasks, Day today, const SiteWork& how, Environment& environment)
      : tasks_{tasks}, today_{today}, how_{how}, environment_{environment} {}

  /// The sites are all of one record.
  void answer(const std::vector<std::size_t>& sites, std::vector<SiteResult>& results) const {
    try {
      read_and_answer(sites, results);
    } catch (const std::exception& failure) {
      for (const std::size_t site : sites) results[site] = failed(tasks_[site], {broken(failure)});
    }
  }

  /// What is left of a site that cannot be answered: a report that says so.
  SiteResult failed(const SiteTask& task, const Diagnostics& more) const {
    SiteResult result;
    result.digest = {task.name, task.place, {}, with(task.problems, more), true};
    std::erase_if(result.digest.problems, [](const Diagnostic& each) { return each.severity == Severity::note; });
    compare(result, report::site_state(result.digest));
    const report::Document document = report::failed_site_document(result.digest, today_);
    add(result, task, Format::text, report::as_text(document, k_report_style));
    return result;
  }

 private:
  static Diagnostic broken(const std::exception& failure) {
    if (dynamic_cast<const std::bad_alloc*>(&failure) != nullptr) {
      return {Severity::error, {}, "there was not enough memory for it", "run it again, with fewer --jobs"};
    }
    return {Severity::error, {}, failure.what(), ""};
  }

  void read_and_answer(const std::vector<std::size_t>& sites, std::vector<SiteResult>& results) const {
    Diagnostics of_record;
    auto record = read_site_record(tasks_[sites.front()].request, today_, environment_, of_record);
    shorten(of_record);
    if (!record) {
      for (const std::size_t site : sites) results[site] = failed(tasks_[site], without_weather(site, of_record));
      return;
    }
    const forecast::SiteWeather weather{std::move(record->days), today_, std::move(record->notes),
                                        std::move(record->normals)};
    forecast::Evaluator evaluator{weather};
    Diagnostics told;  // by the reading of the record
    const SiteHours hours = first_hours(tasks_[sites.front()].request, environment_, told, told);
    for (const std::size_t site : sites) {
      try {
        auto [question, screened] = how_.ask(*tasks_[site].site);
        add_hours(screened, hours, today_, question);
        results[site] = answered(tasks_[site], evaluator.answer(question), of_record);
      } catch (const std::exception& failure) {
        results[site] = failed(tasks_[site], {broken(failure)});
      }
    }
  }

  /// Each site of the record tells its problems again: a file full of them must not fill the disk.
  static void shorten(Diagnostics& problems) {
    constexpr std::size_t k_most = 20;
    std::erase_if(problems, [](const Diagnostic& each) { return each.severity == Severity::note; });
    std::stable_sort(problems.begin(), problems.end(),
                     [](const Diagnostic& a, const Diagnostic& b) { return a.severity > b.severity; });
    if (problems.size() <= k_most) return;
    const std::size_t more = problems.size() - k_most;
    problems.resize(k_most);
    problems.push_back({Severity::fault,
                        {problems.back().place.file},
                        fmt::format("and {} problems more", more),
                        "budclock check tells them all"});
  }

  Diagnostics without_weather(std::size_t site, Diagnostics of_record) const {
    if (!any_at_least(of_record, Severity::error) && !any_at_least(tasks_[site].problems, Severity::error)) {
      of_record.push_back({Severity::error, tasks_[site].place, "there is no weather", "see its sources"});
    }
    return of_record;
  }

  static Diagnostics with(Diagnostics problems, const Diagnostics& more) {
    problems.insert(problems.end(), more.begin(), more.end());
    return problems;
  }

  SiteResult answered(const SiteTask& task, const forecast::SiteForecast& site, const Diagnostics& of_record) const {
    SiteResult result;
    result.digest = report::site_digest(site, with(task.problems, of_record));
    result.digest.place = task.place;
    compare(result, report::site_state(site, result.digest));
    const report::WriteStyle style{.text = k_report_style,
                                   .unit = how_.report_units,
                                   .csv = how_.csv,
                                   .more = report::site_problems(result.digest)};
    for (const Format format : how_.formats) {
      add(result, task, format, report::written(format, {&site, 1}, how_.table, style));
    }
    return result;
  }

  void compare(SiteResult& result, const report::SiteState& now) const {
    if (how_.older != nullptr) report::compare(result.digest, *how_.older, now, today_);
    result.state = report::state_line(result.digest.site, now);
  }

  void add(SiteResult& result, const SiteTask& task, Format format, const std::string& bytes) const {
    if (task.file_name.empty()) return;
    const std::string name = fmt::format("sites/{}.{}", task.file_name, report::file_extension(format));
    result.files.push_back(how_.folder.stage(name, bytes));
  }

  const std::vector<SiteTask>& tasks_;
  Day today_;
  const SiteWork& how_;
  Environment& environment_;
};

}  // namespace

std::vector<SiteResult> answer_sites(const std::vector<SiteTask>& tasks, std::size_t records, Day today, int jobs,
                                     const SiteWork& how, Environment& environment,
                                     const std::function<void(std::size_t)>& on_done) {
  std::vector<std::vector<std::size_t>> sites_of(records);
  std::vector<SiteResult> results(tasks.size());
  const Worker worker{tasks, today, how, environment};
  for (std::size_t site = 0; site < tasks.size(); ++site) {
    if (tasks[site].failed) {
      results[site] = worker.failed(tasks[site], {});
    } else {
      sites_of[tasks[site].record].push_back(site);
    }
  }
  std::atomic<std::size_t> done{0};
  in_parallel(jobs, records, [&](std::size_t record) {
    if (sites_of[record].empty()) return;
    worker.answer(sites_of[record], results);
    on_done(done += sites_of[record].size());
  });
  return results;
}

}  // namespace budclock::cli
