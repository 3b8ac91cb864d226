#include <budclock/weather/quality.hpp>
#include <budclock/weather/quality_checks.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <tuple>
#include <utility>

namespace budclock::weather {
namespace {

constexpr std::array k_check_names{"naught",     "duplicate",    "equal-extremes",  "bounds",  "streak",
                                   "wrong-unit", "gap",          "outlier",         "swapped", "inconsistent",
                                   "spike",      "lagged-range", "beyond-opposites"};

const char* name(Extreme extreme) { return extreme == Extreme::minimum ? "minimum" : "maximum"; }

/// Suspicions of one reason on days without a break.
struct Run {
  const Suspicion* first = nullptr;
  Day last{};
  std::size_t values = 0;
};

bool continues(const Run& run, const Suspicion& next) {
  return run.first->check == next.check && run.first->reason == next.reason && next.day - run.last <= date::days{1};
}

std::string message(const Run& run, TemperatureUnit unit) {
  const Suspicion& first = *run.first;
  if (run.values == 1) {
    return fmt::format("{}: {} {}: {}", iso(first.day), name(first.extreme), with_unit(first.value, unit),
                       first.reason);
  }
  const std::string days =
      first.day == run.last ? iso(first.day) : fmt::format("{} to {}", iso(first.day), iso(run.last));
  return fmt::format("{}: {} values: {}", days, run.values, first.reason);
}

}  // namespace

std::string_view name(Check check) { return k_check_names[static_cast<std::size_t>(check)]; }

std::string with_unit(TemperatureDifference difference, TemperatureUnit unit) {
  return fmt::format("{} {}", to_text(difference, unit, 1), symbol(unit));
}

void QualityDesk::doubt(Extreme extreme, std::size_t index, Check check, std::string reason) {
  found_.push_back({days_.day(index), extreme, values(extreme)[index].value, check, std::move(reason)});
}

void QualityDesk::settle() {
  for (; settled_ < found_.size(); ++settled_) {
    auto& values = found_[settled_].extreme == Extreme::minimum ? days_.tmin : days_.tmax;
    values[*days_.index_of(found_[settled_].day)].origin = Origin::set_aside;
  }
}

std::vector<Suspicion> QualityDesk::take() {
  std::sort(found_.begin(), found_.end(), [](const Suspicion& a, const Suspicion& b) {
    return std::tie(a.day, a.extreme) < std::tie(b.day, b.extreme);
  });
  return std::move(found_);
}

std::vector<Suspicion> check_quality(const DailySeries& series, TemperatureUnit unit) {
  QualityDesk desk{series, unit};
  for (const auto step :
       {check_naught, check_duplicates, check_equal_extremes, check_bounds, check_streaks, check_against_climate,
        check_consistency, check_spikes, check_lagged_range, check_beyond_opposites}) {
    step(desk);
    desk.settle();
  }
  return desk.take();
}

void set_aside(DailySeries& series, const std::vector<Suspicion>& suspicions) {
  for (const Suspicion& suspicion : suspicions) {
    const auto index = series.index_of(suspicion.day);
    if (index) (suspicion.extreme == Extreme::minimum ? series.tmin : series.tmax)[*index].origin = Origin::set_aside;
  }
}

Diagnostics quality_faults(const std::vector<Suspicion>& suspicions, std::string_view file_name, TemperatureUnit unit) {
  std::vector<Run> runs;
  for (const Suspicion& suspicion : suspicions) {
    // Two reasons may run side by side, one for each extreme.
    const auto open = std::find_if(runs.rbegin(), runs.rbegin() + std::min<std::ptrdiff_t>(2, std::ssize(runs)),
                                   [&](const Run& run) { return continues(run, suspicion); });
    const bool found = open != runs.rbegin() + std::min<std::ptrdiff_t>(2, std::ssize(runs));
    Run& run = found ? *open : runs.emplace_back(Run{&suspicion, suspicion.day, 0});
    run.last = suspicion.day;
    ++run.values;
  }
  Diagnostics faults;
  for (const Run& run : runs) {
    faults.push_back({Severity::fault,
                      {std::string{file_name}, 0, 0},
                      message(run, unit),
                      run.values == 1 ? "correct it in the file, or leave the cell empty"
                                      : "correct them in the file, or leave the cells empty"});
  }
  return faults;
}

}  // namespace budclock::weather
