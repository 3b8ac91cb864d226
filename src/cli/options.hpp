// What the command line says, typed and checked.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/core/temperature.hpp>
#include <budclock/degree_day/formula.hpp>
#include <budclock/forecast/distance.hpp>
#include <budclock/journal/action.hpp>
#include <budclock/report/first_dates.hpp>
#include <budclock/report/stops.hpp>
#include <budclock/report/writers.hpp>
#include <budclock/rules/day_limits.hpp>
#include <budclock/weather/assemble.hpp>
#include <budclock/weather/reader.hpp>

#include "completion.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace budclock::cli {

using report::Format;

struct WeatherOptions {
  std::vector<std::string> files;
  weather::ReadOptions read;
  weather::ReadTime read_time = weather::ReadTime::as_dated;
  TemperatureDifference offset;  ///< of the site against the station
  std::optional<double> site_elevation_m;
  std::optional<double> station_elevation_m;
  weather::GapPolicy gaps = weather::GapPolicy::fill;
  bool strict = false;
  bool keep_doubtful = false;
  std::vector<std::string> forecasts;
};

/// The files of a practice, as named on the command line; empty: looked for (see practice_files.hpp).
struct PracticeOptions {
  std::string sites_file;
  std::string log_file;
  std::string actions_file;
  std::string pest_folder;  ///< more pest files (see pest_files.hpp); empty: none
};

struct WhenOptions {
  std::vector<std::string> pests;
  std::vector<std::string> hosts;
  WeatherOptions weather;
  std::vector<std::string> sites;  ///< names from the sites file; else `weather` counts
  PracticeOptions practice;
  std::optional<Day> today;
  Format format = Format::text;
  report::CsvDialect csv;
  TemperatureUnit report_units = TemperatureUnit::fahrenheit;
  std::optional<degree_day::Method> method;
  std::string name;
  std::optional<forecast::Coordinates> place;
  report::Detail detail = report::Detail::full;
};

/// Every site of the sites file, into a folder.
struct NightlyOptions {
  std::vector<std::string> pests;
  std::vector<std::string> hosts;
  PracticeOptions practice;
  std::string out;  ///< the folder
  std::optional<Day> today;
  int jobs = 0;            ///< threads; at least 1 once parsed
  std::uint32_t part = 1;  ///< which of `parts`
  std::uint32_t parts = 1;
  std::vector<Format> formats{Format::text};
  report::CsvDialect csv;
  TemperatureUnit report_units = TemperatureUnit::fahrenheit;
  bool due = false;           ///< print the page when something is due
  bool only_changed = false;  ///< print it when it says something new
  bool wait = false;          ///< for another run, instead of leaving
};

struct DigestOptions {
  std::vector<std::string> folders;
  std::string pest_folder;
  std::optional<Day> today;
  Format format = Format::text;
  report::CsvDialect csv;
};

struct StopsOptions {
  std::vector<std::string> pests;
  std::vector<std::string> hosts;
  PracticeOptions practice;
  std::optional<Day> today;
  report::Crews crews;
  Format format = Format::text;
  report::CsvDialect csv;
};

struct NoteOptions {
  std::string site;
  PracticeOptions practice;
  std::optional<Day> today;
  std::string templates;  ///< a folder; empty: the shipped ones
  Format format = Format::text;
};

struct TallyOptions {
  WeatherOptions weather;
  degree_day::Formula formula;           ///< for every day's row
  report::FirstDatesPlan first_dates{};  ///< with sums: for their first dates in place of every day's row
  int jobs = 0;                          ///< threads that sum stations; 0 on the way here only
  MonthDay start = date::January / 1;
  TemperatureUnit report_units = TemperatureUnit::fahrenheit;
  int decimals = 3;
};

struct YearlineOptions {
  std::vector<std::string> pests;
  WeatherOptions weather;
  std::optional<Day> today;
  Format format = Format::text;
  std::string name;
  std::string pest_folder;
};

/// A row for the scouting log, in words.
struct SeenOptions {
  std::string site;
  std::string pest;
  std::string stage;
  std::string saw;
  std::string not_saw;
  bool not_found = false;
  std::string count;
  std::string plant;
  std::string by;
  std::string note;
  std::optional<Day> date;
  std::optional<Day> today;
  bool list = false;  ///< show what can be recorded of the pest, and record nothing
  PracticeOptions practice;
};

struct LogOptions {
  std::vector<std::string> sites;
  std::vector<std::string> pests;
  std::optional<Day> from;
  std::optional<Day> to;
  std::optional<Day> today;
  Format format = Format::text;
  PracticeOptions practice;
};

/// A row for the action log, in words.
struct DidOptions {
  journal::ActionTaken texts;  ///< its texts alone
  std::string site;
  std::string pest;
  std::string action;
  std::optional<Day> date;
  std::optional<Day> today;
  PracticeOptions practice;
};

struct RecordsOptions {
  std::vector<std::string> sites;
  std::vector<std::string> pests;
  std::optional<int> season;  ///< a calendar year
  std::optional<Day> from;
  std::optional<Day> to;
  std::optional<Day> today;
  bool for_inspector = false;
  Format format = Format::text;
  PracticeOptions practice;
};

/// The hours of a site against the limits of an action.
struct DayOptions {
  std::string site;
  std::string action;  ///< as typed
  rules::DayAction kind = rules::DayAction::contact;
  std::string forecast;  ///< empty: the site's own
  std::optional<Day> today;
  Format format = Format::text;
  PracticeOptions practice;
};

struct HindcastOptions {
  std::vector<std::string> pests;
  WeatherOptions weather;
  std::vector<int> leads{7, 14, 30, 60};
  int known_days = 0;
  std::string against;  ///< a scouting log; empty: against the weather itself
  std::string site;     ///< of the log
  std::string pest_folder;
  Format format = Format::text;
  std::string name;
};

struct PestsOptions {
  std::vector<std::string> pests;
  std::vector<std::string> hosts;
  std::optional<date::month> due;  ///< only pests with a window that the calendar puts into this month
  std::string pest_folder;
  Format format = Format::text;
};

struct CheckOptions {
  std::vector<std::string> files;
  weather::ReadOptions read;
  Format format = Format::text;
};

/// Text that the command line itself asks for: help or the version.
struct ShowText {
  std::string text;
};

/// A command line that cannot be followed: what is wrong and what to do.
struct UsageError {
  std::string message;
};

using Command = std::variant<ShowText, UsageError, WhenOptions, NightlyOptions, DigestOptions, StopsOptions,
                             NoteOptions, YearlineOptions, HindcastOptions, TallyOptions, PestsOptions, CheckOptions,
                             SeenOptions, LogOptions, DidOptions, RecordsOptions, DayOptions, CompleteOptions>;

}  // namespace budclock::cli
