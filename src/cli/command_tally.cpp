#include <budclock/core/thread_pool.hpp>
#include <budclock/report/first_dates.hpp>
#include <budclock/report/tally.hpp>
#include <budclock/weather/reader.hpp>

#include "commands.hpp"
#include "messages.hpp"
#include "weather_input.hpp"

#include <deque>
#include <fmt/format.h>
#include <future>
#include <iterator>
#include <optional>
#include <ostream>
#include <utility>

namespace budclock::cli {

namespace {

/// The stations of one file, each by itself.
class FirstDates {
 public:
  FirstDates(const TallyOptions& options, Environment& environment)
      : options_{options}, request_{request_of(options.weather)}, environment_{environment} {
    if (options.jobs > 1) pool_.emplace(options.jobs);
  }

  ExitStatus run() {
    environment_.out << report::first_dates_header(options_.first_dates);
    Diagnostics diagnostics = read();
    diagnostics.insert(diagnostics.end(), doubts_.begin(), doubts_.end());
    print(diagnostics, environment_);
    return any_at_least(diagnostics, Severity::error) ? ExitStatus::no_answer : answered_with(diagnostics);
  }

 private:
  using Station = weather::StationRecord;

  struct Summed {
    std::string rows;
    Diagnostics doubts;
  };

  Diagnostics read() {
    const WeatherFile& file = request_.files.front();
    weather::FileSummary summary = read_weather_file(
        file.path, file.read, environment_, [&](Station&& station) { take(std::move(station)); },
        pool_ ? &*pool_ : nullptr);
    add_until_left(0);
    if (summary.kind != weather::RecordKind::observed && !any_at_least(summary.diagnostics, Severity::error)) {
      summary.diagnostics.push_back(
          {Severity::error, {file.path}, "is no record of weather", "give one of real years"});
    }
    return std::move(summary.diagnostics);
  }

  void take(Station&& station) {
    if (!pool_) return add(sum(station));
    summing_.push_back(pool_->put([this, station = std::move(station)]() mutable { return sum(station); }));
    add_until_left(pool_->most_under_way());
  }

  void add_until_left(std::size_t most) {
    for (; summing_.size() > most; summing_.pop_front()) add(summing_.front().get());
  }

  Summed sum(Station& station) const {
    const WeatherFile& file = request_.files.front();
    const std::string where = station.id.empty() ? file.path : fmt::format("{}: {}", file.path, station.id);
    std::vector<weather::SiteSource> source;
    source.push_back(
        {where, std::move(station.days), station.unit, file.read_time, file.offset, request_.keep_doubtful});
    weather::SiteSeries site = weather::assemble(std::move(source), request_.gaps, environment_.today);
    return {report::first_dates_rows(station.id, site.days, options_.first_dates), std::move(site.diagnostics)};
  }

  void add(Summed&& summed) {
    environment_.out << summed.rows;
    std::move(summed.doubts.begin(), summed.doubts.end(), std::back_inserter(doubts_));
  }

  const TallyOptions& options_;
  const WeatherRequest request_;
  Environment& environment_;
  Diagnostics doubts_;
  std::deque<std::future<Summed>> summing_;
  std::optional<ThreadPool> pool_;  // the last member: its threads use the others
};

}  // namespace

ExitStatus run_tally(const TallyOptions& options, Environment& environment) {
  if (!options.first_dates.sums.empty()) return FirstDates{options, environment}.run();
  Diagnostics diagnostics;
  const auto record = read_site_record(request_of(options.weather), environment.today, environment, diagnostics);
  print(diagnostics, environment);
  if (!record) return ExitStatus::no_answer;

  for (const std::string& note : record->notes) environment.err << note << '\n';
  print(weather::gap_notes(record->days, record->name), environment);
  const Day first = record->days.first;
  const Day start = in_year(options.start, year_of(first));
  if (first != start) {
    environment.err << "The record begins on " << iso(first) << ", the sum on " << iso(options.start)
                    << ": the sum up to the next start leaves out what came before the record.\n";
  }
  environment.out << report::tally_csv(record->days, options.formula, options.start, options.report_units,
                                       options.decimals);
  return answered_with(diagnostics);
}

}  // namespace budclock::cli
