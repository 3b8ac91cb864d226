#include <budclock/weather/refusal.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <utility>

namespace budclock::weather {
namespace {

/// Fewer rows are soon looked through by eye, and a few faults of them say nothing of the whole. Common practice.
constexpr std::size_t k_fewest_rows = 30;

/// What is left after half of the rows shows no season. Common practice.
bool is_most(std::size_t count, std::size_t rows) { return count * 2 > rows; }

/// Nine in ten of the faults have one cause: strays of another do not hide it. Common practice.
bool is_nearly_all(std::size_t count, const ProblemList& problems) { return count * 10 >= problems.faults() * 9; }

/// The share is less than half, because only the warm season shows it: read as °C, 49 % of the days that ship as
/// examples for Cornwall, Vermont (examples/weather) have an impossible value, and of a record that ends in spring far
/// fewer do. One in ten rows (common practice) is no work of a faulty sensor.
bool is_fahrenheit_read_as_celsius(const ProblemList& problems, std::size_t rows) {
  const std::size_t count = problems.faults(FaultKind::other_unit);
  return count * 10 > rows && is_nearly_all(count, problems);
}

struct Refusal {
  std::string message;
  std::string remedy;
};

Refusal of_unit(const FileSummary& summary, std::size_t count) {
  const char* remedy = summary.unit_evidence == UnitEvidence::option
                           ? "read it with --units F (in a sites file: units F)"
                       : summary.unit_evidence == UnitEvidence::header ? "correct the unit in the header to F"
                                                                       : "get the file again, in C";
  return {fmt::format("{} temperatures in {} rows are beyond what has ever been measured in C, and none of these "
                      "beyond that in F: most likely the file is in F, and it is read as C",
                      count, summary.rows),
          remedy};
}

Refusal of_swapped(const FileSummary& summary, std::size_t count) {
  return {fmt::format("on {} of {} days the minimum is above the maximum: most likely maximum and minimum are swapped",
                      count, summary.rows),
          "correct the header, or say which column is which with --columns tmax=NAME,tmin=NAME (in a sites "
          "file: the columns tmax_column and tmin_column, or columns in JSON)"};
}

Refusal of_dates(const FileSummary& summary, DateOrder order, std::size_t count) {
  const bool day_first = order == DateOrder::day_month_year;
  return {fmt::format("{} of {} dates do not exist in the order of {}: most likely they are {}", count, summary.rows,
                      to_text(order), to_text(day_first ? DateOrder::month_day_year : DateOrder::day_month_year)),
          day_first ? "try --date-order mdy (in a sites file: date_order mdy)"
                    : "try --date-order dmy (in a sites file: date_order dmy)"};
}

std::optional<Refusal> refusal(const FileSummary& summary, const ReadOptions& options, const ProblemList& problems) {
  if (is_fahrenheit_read_as_celsius(problems, summary.rows)) {
    return of_unit(summary, problems.faults(FaultKind::other_unit));
  }
  if (!is_most(problems.faulty_lines(), summary.rows)) return std::nullopt;
  const std::size_t swapped = problems.faults(FaultKind::swapped_extremes);
  if (is_nearly_all(swapped, problems)) return of_swapped(summary, swapped);
  const std::size_t misdated = problems.faults(FaultKind::other_date_order);
  if (options.date_order && is_nearly_all(misdated, problems)) return of_dates(summary, *options.date_order, misdated);
  return Refusal{fmt::format("{} of {} rows are faulty, too many for the rest to be a record", problems.faulty_lines(),
                             summary.rows),
                 "correct the file, or say how it is to be read with --columns, --units or --date-order"};
}

}  // namespace

bool is_too_cold_for_trees(const DailySeries& days) {
  const Temperature warm = Temperature::hundredths_celsius(1000);
  constexpr int k_fewest_days = 20;
  std::array<int, 12> days_of{};
  for (std::size_t i = 0; i < days.size(); ++i) {
    if (!has_value(days.tmax[i].origin)) continue;
    if (days.tmax[i].value >= warm) return false;
    ++days_of[static_cast<unsigned>(month_day_of(days.day(i)).month()) - 1];
  }
  return std::all_of(days_of.begin(), days_of.end(), [](int count) { return count >= k_fewest_days; });
}

void refuse_mostly_faulty(const FileSummary& summary, const ReadOptions& options, ProblemList& problems) {
  if (summary.rows < k_fewest_rows || problems.has_error()) return;
  if (auto found = refusal(summary, options, problems)) {
    problems.replace_faults(std::move(found->message), std::move(found->remedy));
  }
}

}  // namespace budclock::weather
