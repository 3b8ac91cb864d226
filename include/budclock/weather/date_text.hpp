// Dates as people and programs write them.
#pragma once

#include <budclock/core/date.hpp>

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <optional>
#include <string_view>

namespace budclock::weather {

/// The order of the parts of a date that is not ISO ("4/16/2014", "16.4.2014").
enum class DateOrder : std::uint8_t { year_month_day, month_day_year, day_month_year };

/// "month/day/year" and so on, as said to people.
const char* to_text(DateOrder order);

/// Why a text names no day.
enum class DateFault : std::uint8_t {
  none,
  malformed,    ///< not a date in any order
  impossible,   ///< a date that does not exist, such as 30 February
  wrong_order,  ///< exists only in another order than the file's
  wrong_year,   ///< outside k_first_year..k_last_year
};

struct DateReading {
  Day day{};
  DateFault fault = DateFault::none;
};

/// The three parts of a date, as they stand in the text.
struct DateParts {
  struct Part {
    int number = 0;
    int digits = 0;  ///< 0 for the name of a month
  };
  Part first, second, third;
  static constexpr int k_no_time = -1;
  int minute = k_no_time;  ///< of the day, as written: 0 to 1440
  bool utc = false;        ///< the time is marked as UTC

  /// No time of day, or midnight.
  bool midnight() const { return minute <= 0; }

  bool same_day(const DateParts& other) const {
    return first.number == other.first.number && second.number == other.second.number &&
           third.number == other.third.number;
  }
};

/// Splits "2014-04-16", "2014/4/16", "20140416", "4/16/14", "16.4.2014", "16-Apr-2014", "Apr 16, 2014", each with or
/// without a time of day. Nothing when the text is not of that kind.
std::optional<DateParts> split_date(std::string_view text);

/// The minute of the day, 0 to 1440, of "7:05", "07:05:30", "7:05 PM", "24:00", "0705", or an hour "7"; nothing when
/// the text is none of these.
std::optional<int> read_time_of_day(std::string_view text);

/// What the dates of a file tell about the order of their parts.
struct DateOrderEvidence {
  std::size_t month_first = 0;                                            ///< dates that exist only as month/day/year
  std::size_t day_first = 0;                                              ///< dates that exist only as day/month/year
  std::size_t either = 0;                                                 ///< dates that name two different days
  std::size_t month_first_line = 0, day_first_line = 0, either_line = 0;  ///< where the first of each stands

  void add(std::string_view text, std::size_t line);
  /// Nothing is left open: an order is shown, or no date needs one.
  bool settled() const { return either == 0 || month_first != day_first; }
};

/// Reads the dates of one file.
class DateReader {
 public:
  /// `order` is that of dates whose year does not come first with all its digits. Years of two digits are 1969..2068,
  /// as in POSIX strptime's %y.
  /// A time of day is not looked at.
  explicit DateReader(DateOrder order) : order_{order} {}

  DateReading read(std::string_view text) {
    if (text.size() == 10 && std::memcmp(text.data(), month_text_, 8) == 0) {
      const unsigned day = two_digits(text.data() + 8);
      if (day - 1 < days_in_month_) return {month_start_ + date::days{day - 1}, DateFault::none};
    }
    return read_new_month(text);
  }

  /// The day of parts that `split_date` found.
  DateReading read_parts(const DateParts& parts) const;

  /// The day of three numbers from columns of their own.
  static DateReading from_columns(std::string_view year, std::string_view month, std::string_view day);
  /// The day of a year and a day of the year, 1 to 366, each with or without ".0".
  static DateReading from_day_of_year(std::string_view year, std::string_view day_of_year);
  /// The day of a month and day, "04-16", in a given year.
  static DateReading from_month_day(std::string_view text, int year);

 private:
  static unsigned two_digits(const char* text) {
    const auto tens = static_cast<unsigned char>(text[0] - '0');
    const auto ones = static_cast<unsigned char>(text[1] - '0');
    return tens > 9 || ones > 9 ? 0 : tens * 10U + ones;
  }
  DateReading read_new_month(std::string_view text);

  DateOrder order_;
  // The month of the last ISO date, "2014-04-": most rows are of the same month as the row before.
  char month_text_[9] = "........";
  Day month_start_{};
  unsigned days_in_month_ = 0;
};

}  // namespace budclock::weather
