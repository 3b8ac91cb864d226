#include <budclock/report/check_report.hpp>
#include <budclock/report/csv.hpp>

#include "json_text.hpp"

#include <fmt/format.h>

namespace budclock::report {
namespace {

using Json = nlohmann::ordered_json;

const char* name(Severity severity) {
  switch (severity) {
    case Severity::note:
      return "note";
    case Severity::fault:
      return "fault";
    case Severity::error:
      break;
  }
  return "error";
}

std::string day_or_nothing(const std::optional<Day>& day) { return day ? iso(*day) : std::string{}; }
Json day_or_null(const std::optional<Day>& day) { return day ? Json(iso(*day)) : Json(nullptr); }
std::string number_or_nothing(std::size_t number) { return number > 0 ? fmt::format("{}", number) : std::string{}; }

void file_row(CsvText& csv, const FileCheck& file) {
  const char* worst = any_at_least(file.problems, Severity::error)   ? "error"
                      : any_at_least(file.problems, Severity::fault) ? "fault"
                                                                     : "clean";
  csv.text(file.file).plain("file").text(file.what).empty().empty().plain(worst);
  std::vector<std::string> facts;
  for (const auto& [fact, value] : file.facts) facts.push_back(fact + " " + value);
  csv.text(fmt::format("{}", fmt::join(facts, "; "))).empty();
  for (int column = 0; column < 11; ++column) csv.empty();
  csv.end_row();
}

void station_row(CsvText& csv, const std::string& file, const weather::StationCheck& station) {
  csv.text(file).plain("station").text(station.id).empty().empty().empty().empty().empty();
  csv.plain(day_or_nothing(station.first)).plain(day_or_nothing(station.last));
  for (const std::size_t number :
       {station.days, station.rows, station.duplicates, station.missing_minima, station.missing_maxima,
        station.set_aside, station.doubted, station.by_line.minima + station.by_line.maxima}) {
    csv.plain(fmt::format("{}", number));
  }
  csv.plain(station.longest_gap ? fmt::format("{}", station.longest_gap->days()) : "0");
  csv.end_row();
}

void problem_row(CsvText& csv, const std::string& file, const Diagnostic& problem) {
  csv.text(file).plain("problem").empty().plain(number_or_nothing(problem.place.line));
  csv.plain(number_or_nothing(problem.place.column)).plain(name(problem.severity));
  csv.text(printable(problem.message)).text(printable(problem.remedy));
  for (int column = 0; column < 11; ++column) csv.empty();
  csv.end_row();
}

Json station_json(const weather::StationCheck& station) {
  Json json{{"id", station.id},
            {"first", day_or_null(station.first)},
            {"last", day_or_null(station.last)},
            {"days", station.days},
            {"rows", station.rows},
            {"duplicates", station.duplicates},
            {"missing_minima", station.missing_minima},
            {"missing_maxima", station.missing_maxima},
            {"set_aside", station.set_aside},
            {"doubted", station.doubted},
            {"by_line", station.by_line.minima + station.by_line.maxima},
            {"longest_gap", nullptr}};
  if (station.longest_gap) {
    json["longest_gap"] = {{"first", iso(station.longest_gap->first)},
                           {"last", iso(station.longest_gap->last)},
                           {"days", station.longest_gap->days()}};
  }
  return json;
}

Json file_json(const FileCheck& file) {
  Json json{{"file", file.file},
            {"what", file.what},
            {"facts", Json::object()},
            {"stations", Json::array()},
            {"problems", Json::array()}};
  for (const auto& [fact, value] : file.facts) json["facts"][fact] = value;
  for (const weather::StationCheck& station : file.stations) json["stations"].push_back(station_json(station));
  for (const Diagnostic& problem : file.problems) {
    json["problems"].push_back({{"severity", name(problem.severity)},
                                {"line", problem.place.line},
                                {"column", problem.place.column},
                                {"message", problem.message},
                                {"remedy", problem.remedy}});
  }
  return json;
}

}  // namespace

std::string check_csv(const std::vector<FileCheck>& files) {
  CsvText csv;
  for (const char* column :
       {"file", "kind", "name", "line", "column", "severity", "message", "remedy", "first", "last", "days", "rows",
        "duplicates", "missing_minima", "missing_maxima", "set_aside", "doubted", "by_line", "longest_gap_days"}) {
    csv.plain(column);
  }
  csv.end_row();
  for (const FileCheck& file : files) {
    file_row(csv, file);
    for (const weather::StationCheck& station : file.stations) station_row(csv, file.file, station);
    for (const Diagnostic& problem : file.problems) problem_row(csv, file.file, problem);
  }
  return csv.str();
}

std::string check_json(const std::vector<FileCheck>& files) {
  Json json{{"schema", "budclock/check/1"}, {"files", Json::array()}};
  for (const FileCheck& file : files) json["files"].push_back(file_json(file));
  return json_text(json);
}

}  // namespace budclock::report
