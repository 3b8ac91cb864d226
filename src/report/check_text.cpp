#include <budclock/report/check_report.hpp>
#include <budclock/report/words.hpp>

#include <fmt/format.h>

namespace budclock::report {
namespace {

std::string counted(std::size_t count, const char* one, const char* many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string verdict(const FileCheck& file) {
  std::size_t faults = 0;
  for (const Diagnostic& problem : file.problems) faults += problem.severity > Severity::note ? 1 : 0;
  if (any_at_least(file.problems, Severity::error)) return "cannot be used as it is";
  return faults == 0 ? "clean" : counted(faults, "problem", "problems");
}

std::string station_text(const weather::StationCheck& station) {
  if (!station.first) return "no day";
  std::string text =
      fmt::format("{} to {}, {}", iso(*station.first), iso(*station.last), counted(station.days, "day", "days"));
  const auto add = [&](std::size_t count, const std::string& words) {
    if (count > 0) text += "; " + words;
  };
  const std::size_t missing = station.missing_minima + station.missing_maxima;
  if (missing == 0) {
    text += "; nothing missing";
  } else {
    text += fmt::format("; missing: {}, {}", counted(station.missing_minima, "minimum", "minima"),
                        counted(station.missing_maxima, "maximum", "maxima"));
  }
  if (station.longest_gap && station.longest_gap->days() > 1) {
    text += fmt::format(" (longest gap {} days, {} to {})", station.longest_gap->days(),
                        iso(station.longest_gap->first), iso(station.longest_gap->last));
  }
  const std::size_t lined = station.by_line.minima + station.by_line.maxima;
  add(station.set_aside, counted(station.set_aside, "value", "values") + " set aside as unreadable or impossible");
  add(station.partial_days, counted(station.partial_days, "day", "days") +
                                " of too few readings set aside, as a logger's first and last often are");
  add(station.doubted, counted(station.doubted, "value", "values") + " doubted and set aside");
  add(lined, counted(lined, "value", "values") + " in gaps short enough for a straight line");
  add(station.duplicates, counted(station.duplicates, "row repeats", "rows repeat") + " a day");
  return text + ".";
}

}  // namespace

std::vector<std::pair<std::string, std::string>> weather_facts(const weather::FileSummary& summary) {
  std::vector<std::pair<std::string, std::string>> facts;
  if (summary.kind == weather::RecordKind::forecast) facts.emplace_back("values", "forecast");
  if (summary.kind == weather::RecordKind::normals) facts.emplace_back("values", "normals, a mean year");
  if (summary.unit) {
    const char* known = summary.unit_evidence == weather::UnitEvidence::option   ? "as stated on the command line"
                        : summary.unit_evidence == weather::UnitEvidence::layout ? "fixed by the layout"
                                                                                 : "by its header";
    facts.emplace_back("units",
                       fmt::format("{}{}, {}", summary.tenths ? "tenths of " : "", symbol(*summary.unit), known));
  }
  if (summary.date_order) facts.emplace_back("dates", to_text(*summary.date_order));
  if (summary.stations > 0) facts.emplace_back("stations", fmt::format("{}", summary.stations));
  if (summary.within_day) facts.emplace_back("readings", "finer than daily, reduced to daily extremes");
  if (summary.partial_days > 0) facts.emplace_back("partial days set aside", fmt::format("{}", summary.partial_days));
  if (summary.flagged > 0) facts.emplace_back("values failed by the publisher", fmt::format("{}", summary.flagged));
  if (summary.rows > 0) facts.emplace_back("rows", fmt::format("{}", summary.rows));
  return facts;
}

std::string check_text(const std::vector<FileCheck>& files, const TextStyle& style) {
  std::string out;
  for (const FileCheck& file : files) {
    if (!out.empty()) out += '\n';
    out += bold(printable(fmt::format("{}: {}", file.file, verdict(file))), style) + "\n";
    std::vector<std::string> facts;
    if (!file.what.empty()) facts.push_back(file.what);
    for (const auto& [name, value] : file.facts) facts.push_back(fmt::format("{} {}", name, value));
    if (!facts.empty()) out += paragraph(fmt::format("{}.", fmt::join(facts, "; ")), 2, style);
    for (const weather::StationCheck& station : file.stations) {
      const std::string name = station.id.empty() ? std::string{} : printable(station.id) + ": ";
      out += paragraph(name + station_text(station), 4, style, "  - ");
    }
    for (const Diagnostic& problem : file.problems) out += "  " + to_text(problem) + "\n";
  }
  return out;
}

}  // namespace budclock::report
