#include <budclock/weather/station_builder.hpp>
#include <budclock/weather/value_text.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <utility>

namespace budclock::weather {
namespace {

constexpr std::size_t k_first_room = 512;

/// Merges one extreme of a day that was given twice. True when the two rows disagree.
bool merge_value(DayValue& kept, DayValue again) {
  if (again.origin == Origin::absent) return false;
  if (kept.origin == Origin::set_aside) return again.origin != Origin::set_aside;
  if (kept.origin == Origin::absent) {
    kept = again;
    return false;
  }
  if (again.origin == kept.origin && again.value == kept.value) return false;
  kept.origin = Origin::set_aside;
  return true;
}

}  // namespace

/// The cell of a day, with room made for it.
StationBuilder::Cell& StationBuilder::make_room(Day day) {
  if (begin_ == end_) {
    if (cells_.empty()) cells_.resize(k_first_room);
    begin_ = end_ = 0;
    next_ = day;
  }
  const auto ahead = (day - next_).count();  // 0: the next cell
  const auto at = static_cast<std::ptrdiff_t>(end_) + ahead;
  if (at < 0) {
    const auto grow = static_cast<std::size_t>(-at) + cells_.size();
    cells_.insert(cells_.begin(), grow, Cell{});
    begin_ += grow;
    end_ += grow;
  } else if (static_cast<std::size_t>(at) >= cells_.size()) {
    cells_.resize(static_cast<std::size_t>(at) + 1 + cells_.size());
  }
  const auto index = static_cast<std::size_t>(static_cast<std::ptrdiff_t>(end_) + ahead);
  if (index < begin_) {
    std::fill(cells_.begin() + std::ptrdiff_t(index), cells_.begin() + std::ptrdiff_t(begin_), Cell{});
    begin_ = index;
  }
  if (index >= end_) {
    std::fill(cells_.begin() + std::ptrdiff_t(end_), cells_.begin() + std::ptrdiff_t(index) + 1, Cell{});
    next_ += date::days{ahead + 1};
    end_ = index + 1;
  }
  return cells_[index];
}

void StationBuilder::add_elsewhere(Day day, const Cell& cell, TemperatureUnit unit, ProblemList& problems) {
  Cell& kept = make_room(day);
  if (kept.line == 0) {
    kept = cell;
  } else {
    ++record_.duplicates;
    merge(day, kept, cell, unit, problems);
  }
}

void StationBuilder::add_extreme(Day day, bool maximum, DayValue value, std::size_t line, TemperatureUnit unit,
                                 ProblemList& problems) {
  ++record_.rows;
  Cell& kept = make_room(day);
  DayValue& place = maximum ? kept.tmax : kept.tmin;
  if (kept.line == 0) kept.line = short_line(line);
  if (place.origin == Origin::absent) {
    place = value;
  } else if (value.origin != Origin::absent) {
    Cell again;
    again.line = short_line(line);
    (maximum ? again.tmax : again.tmin) = value;
    ++record_.duplicates;
    merge(day, kept, again, unit, problems);
  }
}

void StationBuilder::merge(Day day, Cell& kept, const Cell& again, TemperatureUnit unit, ProblemList& problems) {
  const Cell before = kept;
  const bool minima_differ = merge_value(kept.tmin, again.tmin);
  const bool maxima_differ = merge_value(kept.tmax, again.tmax);
  if (!minima_differ && !maxima_differ) {
    problems.add(Severity::fault, again.line, 0,
                 fmt::format("{} was already given on line {}, and nothing differs", iso(day), before.line),
                 "remove one of the two rows", FaultKind::repeat);
    return;
  }
  const auto differing = [unit](const char* name, DayValue first, DayValue second) {
    const auto shown = [unit](DayValue value) {
      return has_value(value.origin) ? with_unit(value.value, unit) : std::string{"unusable"};
    };
    return fmt::format("{} {} there and {} here", name, shown(first), shown(second));
  };
  std::string what;
  if (maxima_differ) what += differing("maximum", before.tmax, again.tmax);
  if (minima_differ && maxima_differ) what += ", ";
  if (minima_differ) what += differing("minimum", before.tmin, again.tmin);
  problems.add(Severity::fault, again.line, 0,
               fmt::format("{} was already given on line {}, with other values ({}); they are set aside", iso(day),
                           before.line, what),
               "remove the wrong row");
}

StationBuilder::Room StationBuilder::rest() {
  Room exact(cells_.begin() + std::ptrdiff_t(begin_), cells_.begin() + std::ptrdiff_t(end_));
  begin_ = 0;
  end_ = exact.size();
  std::swap(exact, cells_);
  return exact;
}

/// Makes days of the readings within days.
void StationBuilder::add_reduced_days(ProblemList& problems) {
  constexpr std::size_t k_most_named = 5;
  std::string named;
  std::size_t first_line = 0;
  for (const ReducedDay& day : readings_.take()) {
    const Origin origin = day.cover == DayCover::whole  ? Origin::observed
                          : day.cover == DayCover::none ? Origin::absent
                                                        : Origin::set_aside;
    make_room(day.day) = Cell{{day.tmin, origin}, {day.tmax, origin}, short_line(day.line)};
    if (day.cover != DayCover::partial) continue;
    if (record_.partial_days++ == 0) first_line = day.line;
    if (record_.partial_days <= k_most_named) named += (named.empty() ? "" : ", ") + iso(day.day);
  }
  if (record_.partial_days == 0) return;
  if (record_.partial_days > k_most_named) named += ", ...";
  problems.add(Severity::note, first_line, 0,
               fmt::format("{}{} day(s) have three hours or more without a reading and are set aside: {}",
                           record_.id.empty() ? "" : record_.id + ": ", record_.partial_days, named));
}

StationRecord StationBuilder::finish(TemperatureUnit unit, ProblemList& problems) {
  if (readings_.days() > 0) add_reduced_days(problems);
  record_.unit = unit;
  DailySeries& days = record_.days;
  const std::size_t count = end_ - begin_;
  days.first = next_ - date::days{static_cast<int>(count)};
  days.tmin.resize(count);
  days.tmax.resize(count);
  for (std::size_t i = 0; i < count; ++i) {
    Cell& cell = cells_[begin_ + i];
    const bool both = has_value(cell.tmin.origin) && has_value(cell.tmax.origin);
    if (both && cell.tmin.value > cell.tmax.value) {
      problems.add(Severity::fault, cell.line, 0,
                   fmt::format("on {} the minimum {} is above the maximum {}; both are set aside", iso(days.day(i)),
                               with_unit(cell.tmin.value, unit), with_unit(cell.tmax.value, unit)),
                   "correct the row", FaultKind::swapped_extremes);
      cell.tmin.origin = Origin::set_aside;
      cell.tmax.origin = Origin::set_aside;
    }
    days.tmin[i] = cell.tmin;
    days.tmax[i] = cell.tmax;
  }
  cells_ = {};
  begin_ = end_ = 0;
  return std::move(record_);
}

StationBuilder* StationCollector::change_station(std::string_view id, std::size_t line) {
  if (full_) return nullptr;
  current_id_ = id;
  started_ = true;
  const auto [entry, is_new] = places_.try_emplace(current_id_, held_.size());
  if (current_ != nullptr) {
    if (is_new && grouped_) spare_ = current_->rest();
    held_cells_ += current_->cells();
  }
  if (is_new) {
    held_.push_back(std::make_unique<StationBuilder>(current_id_, std::exchange(spare_, {})));
    ++stations_;
  } else {
    grouped_ = false;
  }
  current_ = held_[entry->second].get();
  if (current_ == nullptr) {
    problems_.add(Severity::fault, line, 0,
                  fmt::format("station {} comes back here, long after its other rows; these rows are set aside", id),
                  "sort the file by station, or read it with --station");
    return nullptr;
  }
  held_cells_ -= std::min(held_cells_, is_new ? 0 : current_->cells());
  while (grouped_ && held_cells_ > k_held_cells) hand_on_oldest();
  if (held_cells_ > k_most_cells || places_.size() > k_most_stations) report_full(line);
  return full_ ? nullptr : current_;
}

void StationCollector::report_full(std::size_t line) {
  full_ = true;
  problems_.add(Severity::error, line, 0,
                fmt::format("the file has {} stations up to here, mixed or too many to hold in memory", stations_),
                "read one of them with --station, or sort the file by station");
}

void StationCollector::hand_on_oldest() {
  std::unique_ptr<StationBuilder> builder = std::move(held_[oldest_++]);
  held_cells_ -= std::min(held_cells_, builder->cells());
  hand_on(*builder);
}

void StationCollector::hand_on(StationBuilder& builder) {
  StationRecord record = builder.finish(unit_, problems_);
  partial_days_ += record.partial_days;
  on_station_(std::move(record));
}

void StationCollector::finish() {
  if (full_) {
    const auto kept = std::count_if(held_.begin(), held_.end(), [](const auto& builder) { return builder != nullptr; });
    stations_ -= static_cast<std::size_t>(kept);
    held_.clear();
    return;
  }
  for (; oldest_ < held_.size(); ++oldest_) {
    if (held_[oldest_] == nullptr) continue;
    hand_on(*held_[oldest_]);
    held_[oldest_].reset();
  }
}

}  // namespace budclock::weather
