// The digest for a spreadsheet and a program.
#include <budclock/report/digest.hpp>
#include <budclock/report/words.hpp>
#include <budclock/rules/names.hpp>

#include "json_text.hpp"

#include <fmt/format.h>

namespace budclock::report {
namespace {

using Json = nlohmann::ordered_json;

std::string day_or_nothing(const std::optional<Day>& day) { return day ? iso(*day) : std::string{}; }
Json day_or_null(const std::optional<Day>& day) { return day ? Json(iso(*day)) : Json(nullptr); }

void problem_row(CsvText& csv, const std::string& site, const Diagnostic& problem, Day today) {
  csv.text(site).plain(iso(today)).plain("problem").plain("now");
  for (int column = 0; column < 11; ++column) csv.empty();
  csv.text(to_text(problem)).empty().empty();
  csv.end_row();
}

void line_row(CsvText& csv, const std::string& site, const DigestLine& line, const Digest& digest) {
  const Day today = digest.today;
  const rules::Window& window = *line.window;
  const auto days_to = [&](const std::optional<Day>& day) {
    return day ? fmt::format("{}", (*day - today).count()) : std::string{};
  };
  csv.text(site).plain(iso(today)).plain(name(line.group)).plain(name(line.due));
  csv.plain(line.pest->id).text(line.pest->name).text(window.host).plain(rules::name(window.kind));
  csv.plain(window.id).text(window.name).plain(day_or_nothing(line.from)).plain(day_or_nothing(line.until));
  csv.plain(days_to(line.until)).text(actions_text(line.actions));
  csv.plain(window.kind == rules::WindowKind::act ? line.confirmed ? "yes" : "no" : "").text(line.text);
  csv.plain(digest.since ? line.is_new ? "yes" : "no" : "").text(line.not_here);
  csv.end_row();
}

Json problem_json(const Diagnostic& problem) {
  Json json{{"severity", problem.severity == Severity::error ? "error" : "fault"},
            {"message", printable(problem.message)}};
  if (!problem.remedy.empty()) json["remedy"] = printable(problem.remedy);
  if (!problem.place.file.empty()) json["file"] = printable(problem.place.file);
  if (problem.place.line > 0) json["line"] = problem.place.line;
  if (problem.place.column > 0) json["column"] = problem.place.column;
  return json;
}

Json problems_json(const Diagnostics& problems) {
  Json json = Json::array();
  for (const Diagnostic& problem : problems) json.push_back(problem_json(problem));
  return json;
}

Json line_json(const DigestLine& line) {
  const rules::Window& window = *line.window;
  Json json{{"group", name(line.group)},
            {"due", name(line.due)},
            {"pest", line.pest->id},
            {"pest_name", line.pest->name},
            {"kind", rules::name(window.kind)},
            {"window", window.id},
            {"name", window.name},
            {"from", day_or_null(line.from)},
            {"until", day_or_null(line.until)},
            {"actions", Json::array()},
            {"confirmed", line.confirmed},
            {"text", line.text},
            {"new", line.is_new}};
  for (const rules::Action action : line.actions) json["actions"].push_back(rules::name(action));
  if (!window.host.empty()) json["host"] = window.host;
  if (!line.not_here.empty()) json["not_at_site"] = line.not_here;
  if (may_be_done(line)) {
    json["do_not"] = Json::array();
    for (const rules::Remark& remark : line.pest->do_not) json["do_not"].push_back(remark.text);
  }
  return json;
}

void visit_row(CsvText& csv, const std::string& site, const DigestVisit& visit, const Digest& digest) {
  csv.text(site).plain(iso(digest.today)).plain(name(visit.kind)).plain(name(visit.due));
  csv.plain(visit.pest->id).text(visit.pest->name).empty().plain("visit").empty().text(visit.name);
  csv.plain(day_or_nothing(visit.from)).plain(day_or_nothing(visit.until));
  csv.plain(visit.until ? fmt::format("{}", (*visit.until - digest.today).count()) : "");
  csv.empty().empty().text(visit.text).plain(digest.since ? visit.is_new ? "yes" : "no" : "");
  csv.end_row();
}

Json visit_json(const DigestVisit& visit) {
  return {{"kind", name(visit.kind)},
          {"due", name(visit.due)},
          {"pest", visit.pest->id},
          {"pest_name", visit.pest->name},
          {"name", visit.name},
          {"done", day_or_null(visit.done)},
          {"from", day_or_null(visit.from)},
          {"until", day_or_null(visit.until)},
          {"text", visit.text},
          {"new", visit.is_new}};
}

Json change_json(const Change& change, const rules::PestTable& table, Day since, Day today) {
  return {{"site", change.site},
          {"pest", change.pest},
          {"id", change.id},
          {"what", name(change.what)},
          {"before", iso(change.before)},
          {"now", iso(change.now)},
          {"days", change.days()},
          {"text", change_text(change, table, since, today)}};
}

Json site_json(const SiteDigest& site) {
  Json json{{"site", site.site},       {"failed", site.failed},       {"file", site.place.file},
            {"line", site.place.line}, {"column", site.place.column}, {"problems", problems_json(site.problems)},
            {"lines", Json::array()}};
  json["told_before"] = site.told_before;
  for (const DigestLine& line : site.lines) json["lines"].push_back(line_json(line));
  json["visits"] = Json::array();
  for (const DigestVisit& visit : site.visits) json["visits"].push_back(visit_json(visit));
  return json;
}

}  // namespace

void digest_csv(const Digest& digest, const CsvDialect& dialect, const Sink& out) {
  CsvText csv{dialect};
  for (const char* column : {"site", "today", "group", "due", "pest", "pest_name", "host", "kind", "window", "name",
                             "from", "until", "days_left", "actions", "confirmed", "text", "new", "not_at_site"}) {
    csv.plain(column);
  }
  csv.end_row();
  for (const SiteDigest& site : digest.sites) {
    for (const Diagnostic& problem : site.problems) problem_row(csv, site.site, problem, digest.today);
    out(csv.take());
  }
  for (const Diagnostic& problem : digest.problems) problem_row(csv, "", problem, digest.today);
  for (const SiteDigest& site : digest.sites) {
    for (const DigestLine& line : site.lines) line_row(csv, site.site, line, digest);
    for (const DigestVisit& visit : site.visits) visit_row(csv, site.site, visit, digest);
    out(csv.take());
  }
}

std::string digest_csv(const Digest& digest, const CsvDialect& dialect) {
  return collected([&](const Sink& out) { digest_csv(digest, dialect, out); });
}

void digest_json(const Digest& digest, const rules::PestTable& table, const Sink& out) {
  const Json head{{"schema", "budclock/digest/1"},
                  {"today", iso(digest.today)},
                  {"part", digest.part},
                  {"parts", digest.parts},
                  {"compared_with", day_or_null(digest.since)},
                  {"changed", digest.changed},
                  {"told_before", digest.told_before},
                  {"problems", problems_json(digest.problems)}};
  JsonStream json{head, out};
  json.begin_array("changes");
  for (const Change& change : digest.changes) {
    json.add(change_json(change, table, digest.since.value_or(digest.today), digest.today));
  }
  json.begin_array("sites");
  for (const SiteDigest& site : digest.sites) json.add(site_json(site));
  json.finish();
}

std::string digest_json(const Digest& digest, const rules::PestTable& table) {
  return collected([&](const Sink& out) { digest_json(digest, table, out); });
}

}  // namespace budclock::report
