// Puts rows together into one series a station, whatever order they come in.
#pragma once

#include <budclock/weather/daily_series.hpp>
#include <budclock/weather/day_reducer.hpp>
#include <budclock/weather/problem_list.hpp>

#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

namespace budclock::weather {

/// One station of a file.
struct StationRecord {
  std::string id;  ///< as in the file; empty when the file names none
  DailySeries days;
  TemperatureUnit unit = TemperatureUnit::celsius;  ///< in which it was written
  std::size_t rows = 0;                             ///< rows read for this station
  std::size_t duplicates = 0;                       ///< rows whose day had been read before
  std::size_t partial_days = 0;  ///< days set aside because their readings within the day have too large a hole
};

/// The rows of one station. Rows may come in any order; a day that comes twice keeps what its rows agree on.
class StationBuilder {
 public:
  struct Cell {
    DayValue tmin{};
    DayValue tmax{};
    std::uint32_t line = 0;  ///< where the day was read first; 0: not read
  };
  /// Memory for cells, whatever is in them.
  using Room = std::vector<Cell>;

  explicit StationBuilder(std::string id, Room room = {}) : cells_{std::move(room)} { record_.id = std::move(id); }

  /// Adds one row. `unit` is that of the messages.
  void add(Day day, DayValue tmin, DayValue tmax, std::size_t line, TemperatureUnit unit, ProblemList& problems) {
    ++record_.rows;
    if (day == next_ && begin_ < end_ && end_ < cells_.size()) {  // nearly every row
      cells_[end_++] = {tmin, tmax, short_line(line)};
      next_ += date::days{1};
      return;
    }
    add_elsewhere(day, {tmin, tmax, short_line(line)}, unit, problems);
  }
  /// Adds a row with one extreme of a day; the other one may come in another row.
  void add_extreme(Day day, bool maximum, DayValue value, std::size_t line, TemperatureUnit unit,
                   ProblemList& problems);
  /// Adds a row with a reading within the day, or with the extremes of a part of it; without a value the row only
  /// tells that the day is in the record. A station has either such rows or rows of whole days.
  void add_reading(Day day, int minute, DayValue lowest, DayValue highest, std::size_t line) {
    ++record_.rows;
    if (has_value(lowest.origin) && has_value(highest.origin))
      readings_.add(day, minute, lowest.value, highest.value, line);
    else
      readings_.add_without_value(day, line);
  }
  /// Counts a row that names no day.
  void add_dateless() { ++record_.rows; }

  std::size_t days() const { return end_ - begin_; }
  /// The memory held, in cells.
  std::size_t cells() const { return cells_.size() + k_cells_a_reduced_day * readings_.days(); }

  /// Keeps no more memory than the days need, and gives the rest up for another station.
  Room rest();

  /// The finished station. Days whose minimum is above their maximum are set aside, with a fault each; partial days
  /// are set aside, with one note.
  StationRecord finish(TemperatureUnit unit, ProblemList& problems);

 private:
  /// A day of readings takes the memory of some cells.
  static constexpr std::size_t k_cells_a_reduced_day = 5;

  static std::uint32_t short_line(std::size_t line) {
    return line < UINT32_MAX ? static_cast<std::uint32_t>(line) : UINT32_MAX;
  }
  void add_elsewhere(Day day, const Cell& cell, TemperatureUnit unit, ProblemList& problems);
  Cell& make_room(Day day);
  void merge(Day day, Cell& kept, const Cell& again, TemperatureUnit unit, ProblemList& problems);
  void add_reduced_days(ProblemList& problems);

  StationRecord record_;
  DayReducer readings_;
  // The days are cells_[begin_] to cells_[end_ - 1], with room on both sides so that descending files grow as cheaply
  // as ascending ones.
  Room cells_;
  std::size_t begin_ = 0;
  std::size_t end_ = 0;
  Day next_{};  ///< the day of cells_[end_]; only when there are days
};

/// Hands each station of a file on when its last row has been read. Stations are held back, and so may come back
/// after other stations' rows, up to k_held_cells days altogether; past that the oldest are handed on. A file that is
/// seen not to be grouped by station is held whole, up to k_most_cells days; past that the reading ends with an error,
/// and what is held is not handed on.
class StationCollector {
 public:
  /// 300,000 days of 20 bytes, 27 records of 30 years: 6 MB.
  static constexpr std::size_t k_held_cells = 300'000;
  /// 200 MB: 20,000 stations of a year.
  static constexpr std::size_t k_most_cells = 10'000'000;
  /// Ids that are remembered, so that a station that comes back is known: about 100 MB.
  static constexpr std::size_t k_most_stations = 1'000'000;

  StationCollector(ProblemList& problems, std::function<void(StationRecord&&)> on_station)
      : problems_{problems}, on_station_{std::move(on_station)} {}

  /// The builder of a row's station. Nothing when the station has been handed on already: its rows are set aside,
  /// with one fault for each run of them.
  StationBuilder* builder_of(std::string_view id, std::size_t line) {
    if (started_ && id == current_id_) return current_;
    return change_station(id, line);
  }

  void set_unit(TemperatureUnit unit) { unit_ = unit; }
  /// True when no more can be held; the error has been reported.
  bool full() const { return full_; }
  /// Hands on all that is held.
  void finish();
  std::size_t stations() const { return stations_; }
  /// Days of the stations handed on that were set aside as partial.
  std::size_t partial_days() const { return partial_days_; }

 private:
  StationBuilder* change_station(std::string_view id, std::size_t line);
  void hand_on_oldest();
  void report_full(std::size_t line);
  void hand_on(StationBuilder& builder);

  ProblemList& problems_;
  std::function<void(StationRecord&&)> on_station_;
  TemperatureUnit unit_ = TemperatureUnit::celsius;
  std::vector<std::unique_ptr<StationBuilder>> held_;  ///< in order of first appearance; empty places: handed on
  std::unordered_map<std::string, std::size_t> places_;
  std::size_t oldest_ = 0;
  StationBuilder::Room spare_;
  std::size_t held_cells_ = 0;  ///< memory of the held stations, without the current one
  bool full_ = false;
  bool grouped_ = true;
  bool started_ = false;
  std::string current_id_;
  StationBuilder* current_ = nullptr;
  std::size_t stations_ = 0;
  std::size_t partial_days_ = 0;
};

}  // namespace budclock::weather
