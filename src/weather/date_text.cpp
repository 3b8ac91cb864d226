#include <budclock/weather/date_text.hpp>

#include <array>
#include <cstring>

namespace budclock::weather {
namespace {

using Part = DateParts::Part;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }
bool is_letter(char c) { return lower(c) >= 'a' && lower(c) <= 'z'; }

/// A month from its English name, full or of three letters; 0 when it is none.
int month_of_name(std::string_view name) {
  static constexpr std::array<std::string_view, 12> k_names{"january",   "february", "march",    "april",
                                                            "may",       "june",     "july",     "august",
                                                            "september", "october",  "november", "december"};
  for (std::size_t m = 0; m < k_names.size(); ++m) {
    if (name.size() != 3 && name.size() != k_names[m].size()) continue;
    std::size_t same = 0;
    while (same < name.size() && lower(name[same]) == k_names[m][same]) ++same;
    if (same == name.size()) return static_cast<int>(m) + 1;
  }
  return 0;
}

/// Takes a number of at most `most` digits off the front of `text`; nothing when there is none.
std::optional<Part> take_number(std::string_view& text, int most) {
  Part part;
  while (part.digits < static_cast<int>(text.size()) && is_digit(text[static_cast<std::size_t>(part.digits)])) {
    if (part.digits == most) return std::nullopt;
    part.number = part.number * 10 + (text[static_cast<std::size_t>(part.digits)] - '0');
    ++part.digits;
  }
  if (part.digits == 0) return std::nullopt;
  text.remove_prefix(static_cast<std::size_t>(part.digits));
  return part;
}

/// Takes a number or the name of a month.
std::optional<Part> take_part(std::string_view& text) {
  if (text.empty()) return std::nullopt;
  if (is_digit(text.front())) return take_number(text, 4);
  std::size_t length = 0;
  while (length < text.size() && is_letter(text[length])) ++length;
  const int month = month_of_name(text.substr(0, length));
  if (month == 0) return std::nullopt;
  text.remove_prefix(length);
  return Part{month, 0};
}

/// Takes what stands between two parts: one of - / . or, beside a month's name, spaces and commas.
std::optional<char> take_separator(std::string_view& text) {
  std::size_t length = 0;
  while (length < text.size() && std::strchr("-/., ", text[length]) != nullptr && text[length] != '\0') ++length;
  if (length == 0 || length > 2) return std::nullopt;
  const char separator = text.front();
  text.remove_prefix(length);
  return length == 1 ? separator : ' ';
}

bool is_plain_separator(char c) { return c == '-' || c == '/' || c == '.'; }

/// A time of day and whether it is marked as UTC.
struct TimeOfDay {
  int minute = 0;
  bool utc = false;
};

void skip_spaces(std::string_view& text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
}

/// Takes "Z", "UTC", "+00:00", "-0500" off the front: an offset is dropped, because days are local days and the time is
/// taken as written. False when something else stands there.
bool take_offset(std::string_view& text, bool& utc) {
  skip_spaces(text);
  if (text.empty()) return true;
  if (text == "Z" || text == "UTC" || text == "GMT") {
    utc = true;
    text = {};
    return true;
  }
  if (text.front() != '+' && text.front() != '-') return false;
  text.remove_prefix(1);
  const auto hours = take_number(text, 4);
  if (!hours) return false;
  int minutes = hours->digits > 2 ? hours->number % 100 : 0;
  if (!text.empty() && text.front() == ':') {
    text.remove_prefix(1);
    const auto part = take_number(text, 2);
    if (!part) return false;
    minutes = part->number;
  }
  utc = minutes == 0 && hours->number == 0;
  return text.empty();
}

/// Takes "am", "p.m." or "a" off the front and turns the hour of a twelve-hour clock into that of the day.
bool take_half_of_day(std::string_view& text, int& hour) {
  skip_spaces(text);
  if (text.empty() || (lower(text.front()) != 'a' && lower(text.front()) != 'p')) return true;
  if (hour < 1 || hour > 12) return false;
  hour = hour % 12 + (lower(text.front()) == 'p' ? 12 : 0);
  text.remove_prefix(1);
  while (!text.empty() && (text.front() == '.' || lower(text.front()) == 'm')) text.remove_prefix(1);
  return true;
}

/// Reads all of "0:00", "00:00:00", "12:00:00 AM", "00:00:00.000Z", "13:05-05:00"; nothing when it is not a time.
std::optional<TimeOfDay> read_clock(std::string_view text) {
  const auto first = take_number(text, 2);
  if (!first || first->number > 24 || text.empty() || text.front() != ':') return std::nullopt;
  int hour = first->number;
  int minute = 0;
  for (int i = 0; i < 2 && !text.empty() && text.front() == ':'; ++i) {
    text.remove_prefix(1);
    const auto part = take_number(text, 2);
    if (!part || part->number > (i == 0 ? 59 : 60)) return std::nullopt;
    if (i == 0) minute = part->number;
  }
  if (!text.empty() && text.front() == '.') {
    text.remove_prefix(1);
    if (!take_number(text, 9)) return std::nullopt;
  }
  TimeOfDay time;
  if (!take_half_of_day(text, hour) || !take_offset(text, time.utc)) return std::nullopt;
  time.minute = hour * 60 + minute;
  if (time.minute > 24 * 60) return std::nullopt;
  return time;
}

int full_year(Part year) {
  if (year.digits > 2) return year.number;
  return year.number + (year.number < 69 ? 2000 : 1900);
}

DateReading day_of(int year, int month, int day) {
  if (year < k_first_year || year > k_last_year) return {{}, DateFault::wrong_year};
  const auto found = make_day(year, static_cast<unsigned>(month), static_cast<unsigned>(day));
  if (!found) return {{}, DateFault::impossible};
  return {*found, DateFault::none};
}

/// True when neither the year's place nor a month's name settles what is month and what is day.
bool needs_order(const DateParts& parts) {
  return parts.first.digits != 0 && parts.second.digits != 0 && parts.first.digits < 3;
}

}  // namespace

const char* to_text(DateOrder order) {
  switch (order) {
    case DateOrder::year_month_day:
      return "year/month/day";
    case DateOrder::month_day_year:
      return "month/day/year";
    case DateOrder::day_month_year:
      break;
  }
  return "day/month/year";
}

std::optional<DateParts> split_date(std::string_view text) {
  DateParts parts;
  std::string_view rest = text;
  std::size_t leading_digits = 0;
  while (leading_digits < rest.size() && is_digit(rest[leading_digits])) ++leading_digits;
  if (leading_digits == 8) {
    for (auto [part, length] : {std::pair{&parts.first, 4U}, std::pair{&parts.second, 2U}, {&parts.third, 2U}}) {
      std::string_view piece = rest.substr(0, length);
      *part = *take_number(piece, 4);
      rest.remove_prefix(length);
    }
  } else {
    const auto first = take_part(rest);
    const auto gap = take_separator(rest);
    const auto second = take_part(rest);
    const auto other_gap = take_separator(rest);
    const auto third = take_part(rest);
    if (!first || !gap || !second || !other_gap || !third) return std::nullopt;
    const bool named = first->digits == 0 || second->digits == 0;
    if (!named && (*gap != *other_gap || !is_plain_separator(*gap))) return std::nullopt;
    if (third->digits == 0 || (first->digits == 0 && second->digits == 0)) return std::nullopt;
    parts = {*first, *second, *third};
  }
  if (rest.empty()) return parts;
  if (rest.front() != 'T' && rest.front() != ' ') return std::nullopt;
  rest.remove_prefix(1);
  const auto time = read_clock(rest);
  if (!time) return std::nullopt;
  parts.minute = time->minute;
  parts.utc = time->utc;
  return parts;
}

std::optional<int> read_time_of_day(std::string_view text) {
  if (const auto clock = read_clock(text)) return clock->minute;
  const auto number = take_number(text, 4);
  if (!number) return std::nullopt;
  if (text == ".0") text = {};
  int hour = number->digits > 2 ? number->number / 100 : number->number;
  const int minute = number->digits > 2 ? number->number % 100 : 0;
  if (!take_half_of_day(text, hour) || !text.empty() || minute > 59 || hour * 60 + minute > 24 * 60)
    return std::nullopt;
  return hour * 60 + minute;
}

void DateOrderEvidence::add(std::string_view text, std::size_t line) {
  const auto parts = split_date(text);
  if (!parts || !needs_order(*parts)) return;
  const int a = parts->first.number;
  const int b = parts->second.number;
  if (a < 1 || b < 1 || a > 31 || b > 31 || (a > 12 && b > 12) || a == b) return;
  auto count = [line](std::size_t& seen, std::size_t& first_line) {
    if (seen++ == 0) first_line = line;
  };
  if (b > 12) {
    count(month_first, month_first_line);
  } else if (a > 12) {
    count(day_first, day_first_line);
  } else {
    count(either, either_line);
  }
}

DateReading DateReader::read_parts(const DateParts& parts) const {
  const auto& [first, second, third, minute, utc] = parts;
  if (first.digits == 0) return day_of(full_year(third), first.number, second.number);
  if (first.digits >= 3) return day_of(first.number, second.number, third.number);
  if (second.digits == 0) return day_of(full_year(third), second.number, first.number);
  if (order_ == DateOrder::year_month_day) return day_of(full_year(first), second.number, third.number);
  const bool month_first = order_ == DateOrder::month_day_year;
  const int month = month_first ? first.number : second.number;
  const int day = month_first ? second.number : first.number;
  const DateReading reading = day_of(full_year(third), month, day);
  if (reading.fault != DateFault::impossible) return reading;
  const bool other = day_of(full_year(third), day, month).fault == DateFault::none;
  return {{}, other ? DateFault::wrong_order : DateFault::impossible};
}

DateReading DateReader::read_new_month(std::string_view text) {
  const auto parts = split_date(text);
  if (!parts) return {{}, DateFault::malformed};
  const DateReading reading = read_parts(*parts);
  if (reading.fault == DateFault::none && text.size() == 10 && text[4] == '-' && text[7] == '-') {
    const date::year_month_day ymd{reading.day};
    std::memcpy(month_text_, text.data(), 8);
    month_start_ = Day{ymd.year() / ymd.month() / 1};
    days_in_month_ = static_cast<unsigned>((ymd.year() / ymd.month() / date::last).day());
  }
  return reading;
}

DateReading DateReader::from_columns(std::string_view year, std::string_view month, std::string_view day) {
  const auto y = take_number(year, 4);
  const auto m = take_part(month);
  const auto d = take_number(day, 2);
  if (!y || !m || !d || !year.empty() || !month.empty() || !day.empty()) return {{}, DateFault::malformed};
  return day_of(full_year(*y), m->number, d->number);
}

DateReading DateReader::from_day_of_year(std::string_view year, std::string_view day_of_year) {
  const auto take_whole = [](std::string_view text) -> std::optional<Part> {
    const auto number = take_number(text, 4);
    if (text.starts_with('.')) {
      text.remove_prefix(1);
      while (text.starts_with('0')) text.remove_prefix(1);
    }
    return text.empty() ? number : std::nullopt;
  };
  const auto y = take_whole(year);
  const auto number = take_whole(day_of_year);
  if (!y || !number) return {{}, DateFault::malformed};
  const DateReading first = day_of(full_year(*y), 1, 1);
  if (first.fault != DateFault::none) return first;
  const Day day = first.day + date::days{number->number - 1};
  if (number->number < 1 || year_of(day) != full_year(*y)) return {{}, DateFault::impossible};
  return {day, DateFault::none};
}

DateReading DateReader::from_month_day(std::string_view text, int year) {
  const auto month = take_number(text, 2);
  const auto gap = take_separator(text);
  const auto day = take_number(text, 2);
  if (!month || !gap || !day || !text.empty()) return {{}, DateFault::malformed};
  return day_of(year, month->number, day->number);
}

}  // namespace budclock::weather
