#include <budclock/files/file_set.hpp>
#include <budclock/report/digest.hpp>
#include <budclock/report/page.hpp>
#include <budclock/sites/file_name.hpp>
#include <budclock/sites/pest_names.hpp>

#include "commands.hpp"
#include "file_patterns.hpp"
#include "in_parallel.hpp"
#include "messages.hpp"
#include "nightly_sites.hpp"
#include "pest_files.hpp"
#include "practice_files.hpp"
#include "site_question.hpp"
#include "site_weather.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <ostream>
#include <set>
#include <tuple>
#include <utility>

namespace budclock::cli {
namespace {

constexpr std::string_view k_state_ending = ".jsonl";

/// The day of a state's file; nothing for another file.
std::optional<Day> day_of_state(const std::string& name) {
  return name.ends_with(k_state_ending) ? parse_iso_day(name.substr(0, name.size() - k_state_ending.size()))
                                        : std::nullopt;
}

std::string state_file(Day day) { return fmt::format("state/{}{}", iso(day), k_state_ending); }

/// A bar that counts sites, on a terminal only.
class Progress {
 public:
  Progress(std::size_t sites, Environment& environment) : sites_{sites}, environment_{environment} {}
  ~Progress() {
    if (shown_) environment_.err << "\r\x1b[K" << std::flush;
  }
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  void show(std::size_t done) {
    if (!environment_.progress) return;
    const std::lock_guard guard{mutex_};
    constexpr std::size_t k_bar = 30;
    const std::size_t filled = sites_ == 0 ? k_bar : k_bar * done / sites_;
    environment_.err << fmt::format("\r[{:#<{}}{:.<{}}] {} of {} sites", "", filled, "", k_bar - filled, done, sites_)
                     << std::flush;
    shown_ = true;
  }

 private:
  std::size_t sites_;
  Environment& environment_;
  std::mutex mutex_;
  bool shown_ = false;
};

class Nightly {
 public:
  Nightly(const NightlyOptions& options, const rules::PestTable& table, std::vector<const rules::Pest*> pests,
          Diagnostics of_pests, Environment& environment)
      : options_{options},
        table_{table},
        pests_{std::move(pests)},
        environment_{environment},
        today_{options.today.value_or(environment.today)},
        shared_{std::move(of_pests)},
        told_{shared_.size()},
        folder_{options.out, {"sites", "state"}} {}

  ExitStatus run() {
    const auto file = read_sites_file(options_.practice, environment_, table_, of_sites_file_);
    if (!file) {
      print(of_sites_file_, environment_);
      return nothing_done(ExitStatus::no_answer);
    }
    Diagnostics trouble;
    const auto opened = folder_.open(options_.wait ? files::LockMode::wait : files::LockMode::try_once, trouble);
    if (opened != files::FileSet::Opened::ready) {
      print(trouble, environment_);
      return nothing_done(opened == files::FileSet::Opened::held ? ExitStatus::locked : ExitStatus::not_written);
    }
    plan(*file);
    read_older_state();
    answer();
    stage_digest();
    return write();
  }

 private:
  ExitStatus nothing_done(ExitStatus status) const {
    environment_.err << "budclock: nothing was done\n";
    return status;
  }

  void plan(const SitesFile& file);
  void read_logs(const SitesFile& file);
  void add_site(const sites::Site& site, const SitesFile& file);
  std::size_t record_of(const sites::Site& site);
  SiteQuestion ask(const sites::Site& site) const;
  void add_set_aside(const sites::SiteSetAside& site);
  void share_out_problems();
  bool is_of_this_part(const std::string& name) const;
  std::string file_name_for(const std::string& name);
  void read_older_state();
  void answer();
  void stage_digest();
  ExitStatus write();
  std::vector<Day> earlier_days(std::error_code& failure) const;
  void remove_old_states() const;
  void tell(std::size_t changed, std::size_t files) const;
  ExitStatus status() const;

  const NightlyOptions& options_;
  const rules::PestTable& table_;
  const std::vector<const rules::Pest*> pests_;  ///< those asked for
  Environment& environment_;
  const Day today_;
  Diagnostics shared_;      ///< problems that belong to no site
  const std::size_t told_;  ///< how many of them, its first, were printed when they were met
  Diagnostics of_sites_file_;
  files::FileSet folder_;
  std::map<std::string, std::vector<journal::Sighting>> seen_at_;     ///< by site
  std::map<std::string, std::vector<journal::ActionTaken>> done_at_;  ///< by site
  std::vector<SiteTask> tasks_;
  std::vector<std::size_t> records_;  ///< for each, the first task that has it, until tasks are sorted
  std::map<std::string, std::vector<std::size_t>> records_from_;  ///< by the first of their files
  std::set<std::string> names_taken_;
  std::vector<files::Staged> staged_;
  std::optional<report::WrittenState> older_;
  report::Digest digest_;
  report::Document page_;
  std::map<std::string, std::string> states_;  ///< the lines of today's state, by site
};

/// A name of its own in the folder of reports.
std::string Nightly::file_name_for(const std::string& name) {
  const std::string wanted = sites::safe_file_name(name);
  std::string free = wanted;
  for (int number = 2; !names_taken_.insert(free).second; ++number) free = fmt::format("{}-{}", wanted, number);
  return free;
}

/// The record of the site's weather: one that is there already, or a new one, whose first task is the next.
std::size_t Nightly::record_of(const sites::Site& site) {
  auto& alike = records_from_[site.weather.sources.front().files.front().text];
  const auto same = std::find_if(alike.begin(), alike.end(), [&](std::size_t record) {
    const sites::Site& other = *tasks_[records_[record]].site;
    return other.weather == site.weather && other.elevation_m == site.elevation_m;
  });
  if (same != alike.end()) return *same;
  alike.push_back(records_.size());
  records_.push_back(tasks_.size());
  return alike.back();
}

void Nightly::add_site(const sites::Site& site, const SitesFile& file) {
  SiteTask task{printable(site.name), file_name_for(site.name), site.place, &site};
  if (!is_of_this_part(task.name)) {  // it stands in the way of others' problems until those are shared out
    tasks_.push_back(std::move(task));
    return;
  }
  if (pests_asked_at(site, table_, pests_).empty()) {
    // Where only some pests are asked for, a site without them has nothing to be told.
    if (!options_.pests.empty() || !options_.hosts.empty()) return;
    task.failed = true;
    task.problems.push_back(
        {Severity::error, site.place, sites::why_no_pest(site, table_), "name its plants, or pests to watch"});
  }
  task.record = record_of(site);
  const std::size_t first = records_[task.record];
  if (first != tasks_.size() && tasks_[first].problems.empty()) {
    task.request = tasks_[first].request;
  } else {
    task.request = request_of(site, folder_of(file.path), task.problems);
  }
  tasks_.push_back(std::move(task));
}

SiteQuestion Nightly::ask(const sites::Site& site) const {
  const auto of_site = [&](const auto& logs) {
    const auto found = logs.find(site.name);
    return found == logs.end() ? typename std::decay_t<decltype(logs)>::mapped_type{} : found->second;
  };
  SiteQuestion asked{question_of(site, table_, pests_, of_site(seen_at_), of_site(done_at_), today_),
                     screened(site, table_)};
  asked.question.with_curves =
      std::find(options_.formats.begin(), options_.formats.end(), Format::page) != options_.formats.end();
  return asked;
}

void Nightly::add_set_aside(const sites::SiteSetAside& site) {
  SiteTask task{site.name.empty() ? "(a site without a name)" : printable(site.name), "", site.place};
  if (!site.name.empty()) task.file_name = file_name_for(site.name);
  task.failed = true;
  tasks_.push_back(std::move(task));
}

/// Gives each problem of the sites file to the site in whose lines it stands.
void Nightly::share_out_problems() {
  const auto at = [](const Place& place) { return std::pair{place.line, place.column}; };
  std::stable_sort(of_sites_file_.begin(), of_sites_file_.end(),
                   [&](const Diagnostic& a, const Diagnostic& b) { return at(a.place) < at(b.place); });
  for (const Diagnostic& problem : of_sites_file_) {
    if (problem.severity == Severity::note) continue;
    SiteTask* owner = nullptr;
    for (SiteTask& task : tasks_) {
      if (task.failed && at(task.place) <= at(problem.place)) owner = &task;
      if (!task.failed && at(task.place) <= at(problem.place)) owner = nullptr;
    }
    (owner == nullptr ? shared_ : owner->problems).push_back(problem);
  }
}

void Nightly::read_logs(const SitesFile& file) {
  // Asked for a day gone by, rows after it are not looked at; they are no faults.
  const Day last = std::max(today_, environment_.today);
  for (journal::Sighting& row :
       read_scouting_log(find_log(options_.practice, environment_, file.path), {table_, file.names(), last}, shared_)) {
    seen_at_[row.site].push_back(std::move(row));
  }
  for (journal::ActionTaken& row : read_action_log(find_actions(options_.practice, environment_, file.path),
                                                   {table_, file.names(), last}, shared_)) {
    done_at_[row.site].push_back(std::move(row));
  }
}

void Nightly::plan(const SitesFile& file) {
  read_logs(file);
  for (const sites::Site& site : file.list.sites) add_site(site, file);
  for (const sites::SiteSetAside& site : file.list.set_aside) add_set_aside(site);
  std::stable_sort(tasks_.begin(), tasks_.end(), [](const SiteTask& a, const SiteTask& b) {
    return std::tie(a.place.line, a.place.column) < std::tie(b.place.line, b.place.column);
  });
  share_out_problems();
  std::erase_if(tasks_, [&](const SiteTask& task) { return !is_of_this_part(task.name); });
}

/// By its name alone, so that a site stays in its part wherever it stands in the file.
bool Nightly::is_of_this_part(const std::string& name) const {
  return files::cksum(name) % options_.parts == options_.part - 1;
}

void Nightly::answer() {
  const SiteWork how{[this](const sites::Site& site) { return ask(site); },
                     older_ ? &*older_ : nullptr,
                     table_,
                     folder_,
                     options_.formats,
                     options_.report_units,
                     options_.csv};
  Progress progress{tasks_.size(), environment_};
  auto results = answer_sites(tasks_, records_.size(), today_, options_.jobs, how, environment_,
                              [&](std::size_t done) { progress.show(done); });
  digest_.today = today_;
  digest_.part = options_.part;
  digest_.parts = options_.parts;
  for (SiteResult& result : results) {
    states_.try_emplace(result.digest.site, std::move(result.state));  // of one name, the one that was answered
    digest_.sites.push_back(std::move(result.digest));
    std::move(result.files.begin(), result.files.end(), std::back_inserter(staged_));
  }
  std::copy_if(shared_.begin(), shared_.end(), std::back_inserter(digest_.problems),
               [](const Diagnostic& problem) { return problem.severity > Severity::note; });
  if (older_) report::compare(digest_, *older_);
  older_.reset();
}

/// The days before today that have a state, in order; as far as the folder could be read.
std::vector<Day> Nightly::earlier_days(std::error_code& failure) const {
  std::vector<Day> days;
  for (std::filesystem::directory_iterator entry{folder_.path_of("state"), failure}, end; !failure && entry != end;
       entry.increment(failure)) {
    if (const auto day = day_of_state(entry->path().filename().string()); day && *day < today_) days.push_back(*day);
  }
  std::sort(days.begin(), days.end());
  return days;
}

/// The newest of an earlier day, where there is one that can be read.
void Nightly::read_older_state() {
  std::error_code failure;
  const std::vector<Day> days = earlier_days(failure);
  if (failure) {
    shared_.push_back({Severity::fault,
                       {folder_.path_of("state")},
                       fmt::format("cannot be read ({}), so nothing is compared with earlier days", failure.message()),
                       "check the folder and its rights"});
  }
  if (failure || days.empty()) return;
  const std::string path = folder_.path_of(state_file(days.back()));
  Diagnostics faults;
  auto text = read_whole_file(path, faults);
  if (text) older_ = report::WrittenState::read(*std::move(text), path, faults);
  if (!faults.empty()) {
    shared_.push_back({Severity::fault, faults.front().place,
                       "nothing can be compared with that day: " + faults.front().message, "remove the file"});
  }
}

/// States older than 14 days tell nothing more; the newest of an earlier day always stays.
void Nightly::remove_old_states() const {
  std::error_code failure;
  std::vector<Day> days = earlier_days(failure);
  if (!days.empty()) days.pop_back();
  for (const Day day : days) {
    if (day >= today_ - report::k_digest_days) continue;
    std::filesystem::remove(folder_.path_of(state_file(day)), failure);
  }
}

/// Today's state and the digest's forms, each written as it is made: as texts they would take more memory than all
/// else.
void Nightly::stage_digest() {
  staged_.push_back(folder_.stage(state_file(today_), [&](const Sink& out) {
    out(report::state_head(today_, report::problem_texts(digest_.problems)));
    for (const auto& [name, line] : states_) out(line);
  }));
  staged_.back().listed = false;  // it outlives the set
  states_.clear();
  page_ = report::digest_document(digest_, table_);
  const std::vector<std::pair<const char*, std::function<void(const Sink&)>>> forms{
      {"digest.json", [&](const Sink& out) { report::digest_json(digest_, table_, out); }},
      {"digest.txt", [&](const Sink& out) { report::as_text(page_, report::k_digest_style, out); }},
      {"digest.md", [&](const Sink& out) { report::as_markdown(page_, out); }},
      {"digest.html", [&](const Sink& out) { report::digest_page(digest_, page_, out); }},
      {"digest.csv", [&](const Sink& out) { report::digest_csv(digest_, options_.csv, out); }}};
  const std::size_t before = staged_.size();
  staged_.resize(before + forms.size());
  in_parallel(options_.jobs, forms.size(),
              [&](std::size_t i) { staged_[before + i] = folder_.stage(forms[i].first, forms[i].second); });
}

ExitStatus Nightly::write() {
  const Diagnostics failures = folder_.commit(staged_, "manifest.txt");
  if (!failures.empty()) {
    print({failures.front()}, environment_);
    environment_.err << fmt::format("budclock: {} of {} files could not be written\n", failures.size(), staged_.size());
    return ExitStatus::not_written;
  }
  remove_old_states();
  const auto changed = std::count_if(staged_.begin(), staged_.end(), [](const auto& file) { return file.changed; });
  const bool asked = options_.due || options_.only_changed;
  const bool print_page = asked && (!options_.due || digest_.has_news()) && (!options_.only_changed || digest_.changed);
  if (print_page) {
    // In one piece, so that the system's reason is at hand when it fails.
    environment_.out << report::as_text(page_, report::k_digest_style);
  }
  tell(static_cast<std::size_t>(changed), staged_.size());
  return status();
}

/// The sites with problems, one line each, and last the line for the log.
void Nightly::tell(std::size_t changed, std::size_t files) const {
  std::size_t failed = 0;
  std::size_t set_aside = 0;
  for (const report::SiteDigest& site : digest_.sites) {
    if (site.problems.empty()) continue;
    (site.failed ? failed : set_aside) += 1;
    if (site.told_before) continue;
    environment_.err << report::site_problem_text(site) << '\n';
  }
  if (!digest_.told_before)
    print({shared_.begin() + static_cast<std::ptrdiff_t>(told_), shared_.end()}, environment_, false);
  environment_.err
      << printable(fmt::format(
             "budclock: nightly {}: {} sites, {} failed, {} with values set aside; {} of {} files written, "
             "see {}",
             iso(today_), digest_.sites.size(), failed, set_aside, changed, files, folder_.path_of("digest.txt")))
      << '\n';
}

ExitStatus Nightly::status() const {
  const auto& sites = digest_.sites;
  const bool all_failed = std::all_of(sites.begin(), sites.end(), [](const auto& site) { return site.failed; });
  if (sites.empty() && options_.parts > 1) return ExitStatus::answered;  // a part may have no sites
  if (all_failed) return ExitStatus::no_answer;
  return digest_.has_new_problems() ? ExitStatus::set_aside : ExitStatus::answered;
}

}  // namespace

ExitStatus run_nightly(const NightlyOptions& options, Environment& environment) {
  Diagnostics of_pests;
  const auto loaded = load_pests(options.practice.pest_folder, environment, of_pests);
  if (!loaded) return ExitStatus::no_answer;
  const rules::PestTable& table = *loaded;
  const auto asked = pests_asked(table, options.pests, options.hosts, environment);
  if (!asked) return ExitStatus::usage;
  return Nightly{options, table, *asked, std::move(of_pests), environment}.run();
}

}  // namespace budclock::cli
