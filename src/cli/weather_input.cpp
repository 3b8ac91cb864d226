#include "weather_input.hpp"

#include <budclock/files/open_file.hpp>
#include <budclock/weather/byte_source.hpp>
#include <budclock/weather/refusal.hpp>

#include <algorithm>
#include <cerrno>
#include <fcntl.h>
#include <filesystem>
#include <fmt/format.h>
#include <istream>
#include <system_error>
#include <utility>

namespace budclock::cli {
namespace {

const char* const k_standard_input = "standard input";
const char* const k_not_there = "is not there";

std::string shown(const std::string& path) { return path == "-" ? k_standard_input : path; }

std::string station_list(const std::vector<weather::StationRecord>& stations) {
  std::vector<std::string> ids;
  for (const auto& station : stations) ids.push_back(station.id);
  return fmt::format("{}", fmt::join(ids, ", "));
}

struct OneStation {
  weather::StationRecord record;
  weather::RecordKind kind = weather::RecordKind::observed;
  TemperatureUnit unit = TemperatureUnit::fahrenheit;
};

/// What is wrong with a file of this kind where the other is asked for, and what to do.
std::optional<std::pair<std::string, std::string>> wrong_kind(weather::RecordKind kind, weather::RecordKind wanted) {
  using weather::RecordKind;
  if (kind == RecordKind::forecast && wanted == RecordKind::observed) {
    return std::pair{"is a forecast, not a record of weather", "give it with --forecast"};
  }
  if (kind == RecordKind::normals) {
    return std::pair{
        "holds normals, a mean year: temperatures of a mean year put through a threshold date spring "
        "events late",
        "give a record of real years; `when` takes normals beside one that lacks past years"};
  }
  return std::nullopt;
}

/// Reads one file; exactly one station must come out of it. A plain record can stand for a forecast, not the reverse.
std::optional<OneStation> read_one_station(const WeatherFile& file, weather::RecordKind wanted,
                                           Environment& environment, Diagnostics& diagnostics,
                                           bool take_normals = false) {
  const auto fail = [&](std::string message, std::string remedy) {
    diagnostics.push_back({Severity::error, {shown(file.path)}, std::move(message), std::move(remedy)});
    return std::nullopt;
  };
  std::vector<weather::StationRecord> stations;
  const auto keep = [&](weather::StationRecord&& station) { stations.push_back(std::move(station)); };
  weather::FileSummary summary = read_weather_file(file.path, file.read, environment, keep);
  for (Diagnostic& entry : summary.diagnostics) {
    // A bare word after --weather may be a pest.
    const bool is_word = file.path.find_first_of("./") == std::string::npos;
    if (is_word && entry.message == k_not_there) entry.remedy += "; pests are named before --weather";
  }
  diagnostics.insert(diagnostics.end(), summary.diagnostics.begin(), summary.diagnostics.end());
  // An error also means that what was read before it is not the whole record.
  if (any_at_least(summary.diagnostics, Severity::error)) return std::nullopt;
  const bool is_taken = take_normals && summary.kind == weather::RecordKind::normals;
  const auto trouble = is_taken ? std::nullopt : wrong_kind(summary.kind, wanted);
  if (trouble) return fail(trouble->first, trouble->second);
  if (stations.size() > 1) {
    return fail(fmt::format("holds {} stations: {}", stations.size(), station_list(stations)),
                "choose one with --station");
  }
  if (stations.empty()) {
    return fail(file.read.station.empty() ? "has no days" : fmt::format("has no station {}", file.read.station),
                fmt::format("see what it holds with: budclock check {}", file.path));
  }
  if (summary.unit == TemperatureUnit::fahrenheit && weather::is_too_cold_for_trees(stations.front().days)) {
    return fail(
        "no day of the year reaches 50 F, where no tree could live: most likely the file is in C, and it is read "
        "as F",
        "read it with --units C (in a sites file: units C)");
  }
  return OneStation{std::move(stations.front()), summary.kind, summary.unit.value_or(TemperatureUnit::fahrenheit)};
}

/// A record cannot hold tomorrow: most likely a year was mistyped. Such days are set aside.
void drop_days_to_come(weather::DailySeries& days, const std::string& file, Day now, Diagnostics& diagnostics) {
  if (days.empty() || days.last() <= now) return;
  diagnostics.push_back(
      {Severity::fault,
       {file},
       fmt::format("holds days to come, up to {}; they are set aside", iso(days.last())),
       "correct the year of those rows, or give days to come apart from the record, with --forecast"});
  days = weather::until(days, now);
}

/// With --strict: the doubtful values of `site` are errors.
void refuse_doubts(Diagnostics& doubts) {
  for (Diagnostic& doubt : doubts) {
    if (doubt.severity == Severity::fault) doubt.severity = Severity::error;
  }
}

/// With --gaps refuse: an error for each gap of the year of `today`, from its first day to the record's last.
Diagnostics gaps_refused(const weather::DailySeries& days, Day today, const std::string& name) {
  const Day first{date::year{year_of(today)} / 1 / 1};
  Diagnostics errors;
  for (const weather::Gap& gap : weather::gaps(days)) {
    if (gap.last < first) continue;
    const Day from = std::max(gap.first, first);
    const std::string days_text = from == gap.last
                                      ? fmt::format("{} lacks a temperature", iso(from))
                                      : fmt::format("{} to {} lack temperatures", iso(from), iso(gap.last));
    errors.push_back({Severity::error, {name}, days_text, "add them, or let them be filled with --gaps fill"});
  }
  if (days.first > first) {
    errors.push_back({Severity::error,
                      {name},
                      fmt::format("begins {}, after the first of January", iso(days.first)),
                      "add the days before, or let them be filled with --gaps fill"});
  }
  return errors;
}

/// Normals of the two extremes may stand in two files: each fills what is not there yet.
void add_normals(const weather::DailySeries& more, TemperatureDifference offset, weather::DailySeries& normals) {
  for (std::size_t i = 0; i < more.size(); ++i) {
    const std::size_t at = weather::include_day(normals, more.day(i));
    const auto fill = [&](weather::DayValue& value, const weather::DayValue& from) {
      if (!has_value(value.origin) && has_value(from.origin)) value = {from.value + offset, from.origin};
    };
    fill(normals.tmin[at], more.tmin[i]);
    fill(normals.tmax[at], more.tmax[i]);
  }
}

/// Normals that lack a day say nothing of a season.
void check_normals(SiteRecord& record, const std::string& file, Diagnostics& diagnostics) {
  if (record.normals.empty()) return;
  const Day first{date::year{weather::k_normals_year} / 1 / 1};
  std::size_t days = 0;
  for (std::size_t i = 0; i < record.normals.size(); ++i) days += record.normals.complete(i) ? 1U : 0U;
  if (days == 366 && record.normals.first == first) return;
  diagnostics.push_back(
      {Severity::fault,
       {file},
       fmt::format("holds normals of {} days of the year with both extremes; they are set aside", days),
       "give the normals of all 366 days, 29 February included"});
  record.normals = {};
}

void append_forecasts(const WeatherRequest& request, Environment& environment, SiteRecord& record,
                      Diagnostics& diagnostics) {
  for (const WeatherFile& file : request.forecasts) {
    const auto station = read_one_station(file, weather::RecordKind::forecast, environment, diagnostics);
    if (!station) continue;
    const std::size_t days = weather::append_forecast(record.days, station->record.days);
    record.notes.push_back(
        days == 0 ? fmt::format("{}: the forecast holds no day after the weather.", shown(file.path))
                  : fmt::format("{}: {} days of forecast, up to {}.", shown(file.path), days, iso(record.days.last())));
  }
}

}  // namespace

WeatherRequest request_of(const WeatherOptions& options) {
  WeatherRequest request{.files = {},
                         .forecasts = {},
                         .gaps = options.gaps,
                         .keep_doubtful = options.keep_doubtful,
                         .strict = options.strict};
  TemperatureDifference offset = options.offset;
  if (options.site_elevation_m && options.station_elevation_m) {
    offset = offset + weather::lapse(*options.site_elevation_m - *options.station_elevation_m);
  }
  for (const std::string& path : options.files) {
    request.files.push_back({path, options.read, options.read_time, offset});
  }
  for (const std::string& path : options.forecasts) {
    weather::ReadOptions read = options.read;
    read.station.clear();
    request.forecasts.push_back({path, read, weather::ReadTime::as_dated, {}});
  }
  return request;
}

weather::FileSummary read_weather_file(const std::string& path, const weather::ReadOptions& options,
                                       Environment& environment,
                                       const std::function<void(weather::StationRecord&&)>& on_station,
                                       ThreadPool* pool) {
  const auto failed = [&](std::string message, std::string remedy) {
    weather::FileSummary summary;
    summary.diagnostics.push_back({Severity::error, {shown(path)}, std::move(message), std::move(remedy)});
    return summary;
  };
  try {
    if (path == "-") {
      weather::StreamSource source{environment.in};
      return weather::read_weather(source, k_standard_input, options, on_station, pool);
    }
    const files::OpenFile file{path, O_RDONLY};
    if (!file.is_open()) {
      return failed(
          file.error() == ENOENT ? k_not_there : fmt::format("cannot be opened ({})", files::reason(file.error())),
          "check the path");
    }
    weather::DescriptorSource source{file.get()};
    return weather::read_weather(source, path, options, on_station, pool);
  } catch (const std::system_error& failure) {
    return failed(fmt::format("cannot be read ({})", failure.code().message()), "check the file and the disk");
  }
}

std::optional<SiteRecord> read_site_record(const WeatherRequest& request, Day today, Environment& environment,
                                           Diagnostics& diagnostics) {
  std::vector<weather::SiteSource> sources;
  SiteRecord record;
  std::string of_normals;
  for (const WeatherFile& file : request.files) {
    auto station = read_one_station(file, weather::RecordKind::observed, environment, diagnostics, request.normals);
    if (!station) continue;
    if (station->kind == weather::RecordKind::normals) {
      add_normals(station->record.days, file.offset, record.normals);
      of_normals = shown(file.path);
      continue;
    }
    drop_days_to_come(station->record.days, shown(file.path), environment.today, diagnostics);
    if (sources.empty()) {
      const std::string& id = station->record.id;
      record.name = !id.empty()        ? id
                    : file.path == "-" ? k_standard_input
                                       : std::filesystem::path{file.path}.stem().string();
    }
    sources.push_back({shown(file.path), std::move(station->record.days), station->unit, file.read_time, file.offset,
                       request.keep_doubtful});
  }
  if (sources.empty() && !of_normals.empty()) {
    diagnostics.push_back({Severity::error,
                           {of_normals},
                           "holds normals, a mean year, and no other file gives this season's weather",
                           "give the days of this season up to today as well"});
  }
  check_normals(record, of_normals, diagnostics);
  weather::SiteSeries site = weather::assemble(std::move(sources), request.gaps, today);
  if (request.strict) refuse_doubts(site.diagnostics);
  if (request.gaps == weather::GapPolicy::refuse && !site.days.empty()) {
    const Diagnostics refused = gaps_refused(site.days, today, record.name);
    site.diagnostics.insert(site.diagnostics.end(), refused.begin(), refused.end());
  }
  diagnostics.insert(diagnostics.end(), site.diagnostics.begin(), site.diagnostics.end());
  if (site.days.empty() || any_at_least(site.diagnostics, Severity::error)) return std::nullopt;
  record.days = std::move(site.days);
  record.notes = std::move(site.notes);
  append_forecasts(request, environment, record, diagnostics);
  return record;
}

}  // namespace budclock::cli
