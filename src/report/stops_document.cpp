// A plan of stops for people, spreadsheets and calendars.
#include <budclock/core/diagnostic.hpp>
#include <budclock/report/stops.hpp>
#include <budclock/report/words.hpp>

#include "calendar_events.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <utility>

namespace budclock::report {
namespace {

/// What one kind of action needs besides eyes (common practice).
const char* gear(rules::Action action) {
  switch (action) {
    case rules::Action::prune:
      return "clean pruners and bags";
    case rules::Action::pick:
      return "bags";
    case rules::Action::contact:
    case rules::Action::soap:
    case rules::Action::oil:
    case rules::Action::foliar_systemic:
      return "sprayer, the label and the protective gear it names";
    case rules::Action::soil_systemic:
    case rules::Action::trunk_systemic:
      return "systemic equipment, the label and the protective gear it names";
    case rules::Action::look:
    case rules::Action::quarantine:
      break;
  }
  return nullptr;
}

std::string bring(const Stop& stop) {
  std::vector<std::string> things{"hand lens"};
  for (const DigestLine& line : stop.lines) {
    if (!may_be_done(line)) continue;
    for (const rules::Action action : line.actions) {
      const char* thing = gear(action);
      if (thing != nullptr && std::find(things.begin(), things.end(), thing) == things.end())
        things.emplace_back(thing);
    }
  }
  return fmt::format("{}", fmt::join(things, "; "));
}

std::string what(const DigestLine& line, Day today) {
  const char* kind = !may_be_done(line) ? "Look" : line.confirmed ? "CONFIRMED, act" : "Act only if found";
  const std::string host = line.window->host.empty() ? "" : " on " + line.window->host;
  std::string text = fmt::format("{}: {}{}: {}", kind, line.pest->name, host, line.window->name);
  if (line.due == Due::soon && line.from) text += ", from " + day_text(*line.from, today);
  if (line.until) text += ", until " + day_text(*line.until, today);
  if (!line.text.empty()) text += ": " + line.text;
  if (!text.ends_with('.')) text += '.';
  return text;
}

std::string what(const DigestVisit& visit) { return fmt::format("{}: {}", visit.pest->name, visit.text); }

/// All that is to be done there, in words.
std::vector<std::string> tasks(const Stop& stop, Day today) {
  std::vector<std::string> all;
  for (const DigestLine& line : stop.lines) all.push_back(what(line, today));
  for (const DigestVisit& visit : stop.visits) all.push_back(what(visit));
  return all;
}

std::string by_text(const Stop& stop, Day today) {
  return stop.by ? ", by " + day_text(*stop.by, today) : ", no end is known";
}

std::string counted(std::size_t count, const char* one, const char* many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

bool closes_within(const Stop& stop, const StopPlan& plan) {
  return stop.by && *stop.by < plan.today + date::days{plan.crews.days};
}

/// "12 stops, room for 8; 4 do not fit, 3 of them close within these days".
std::string summary(const StopPlan& plan) {
  const std::string all = counted(plan.stops.size(), "stop", "stops");
  if (plan.left().empty()) return all + (plan.stops.size() == 1 ? ", and it fits" : ", and all fit");
  const auto closing = std::count_if(plan.left().begin(), plan.left().end(),
                                     [&](const Stop& stop) { return closes_within(stop, plan); });
  return fmt::format("{}, room for {}; {} {} not fit, {} of them {} within these days", all, plan.fitting,
                     plan.left().size(), plan.left().size() == 1 ? "does" : "do", closing,
                     closing == 1 ? "closes" : "close");
}

void add_stop(Document& document, const Stop& stop, const std::string& heading, Day today) {
  document.push_back({PartKind::place, heading});
  for (std::string& task : tasks(stop, today)) document.push_back({PartKind::stop, std::move(task)});
  document.push_back({PartKind::stop, "Bring: " + bring(stop) + "."});
}

}  // namespace

Document stops_document(const StopPlan& plan) {
  const Crews& crews = plan.crews;
  Document document{
      {PartKind::title, fmt::format("Stops from {}, {} for {}: {}", iso(plan.today),
                                    counted(static_cast<std::size_t>(crews.days), "day", "days"),
                                    counted(static_cast<std::size_t>(crews.count), "crew", "crews"), summary(plan))}};
  if (!plan.left().empty()) document.push_back({PartKind::section, "DOES NOT FIT"});
  for (const Stop& stop : plan.left()) {
    const std::string later = closes_within(stop, plan) ? ": closes before there is room" : ": there is time after";
    add_stop(document, stop, printable(stop.site) + by_text(stop, plan.today) + later, plan.today);
  }
  const Stop* before = nullptr;
  for (const Stop& stop : plan.fit()) {
    if (before == nullptr || before->day != stop.day || before->crew != stop.crew) {
      document.push_back({PartKind::section, fmt::format("{}, CREW {}", iso(*stop.day), stop.crew)});
    }
    const std::string way = stop.order == 1 ? "" : fmt::format(", {:.0f} km on", stop.km);
    add_stop(document, stop,
             fmt::format("{}. {}{}{}", stop.order, printable(stop.site), by_text(stop, plan.today), way), plan.today);
    before = &stop;
  }
  document.push_back(
      {PartKind::closing,
       fmt::format(
           "Taken for granted: {:g} h at a stop (--stop-hours), {:g} km/h in a straight line (--speed), one area "
           "within {:g} km (--area), {:g} h a day. Look first, everywhere; the label, the weather of the day and "
           "your licence decide what is done.",
           crews.stop_hours, crews.km_per_hour, crews.area_km, crews.hours)});
  return document;
}

std::string stops_csv(const StopPlan& plan, const CsvDialect& dialect) {
  CsvText csv{dialect};
  for (const char* column : {"day", "crew", "order", "site", "latitude", "longitude", "km_from_last", "due_from", "by",
                             "confirmed", "what", "bring"}) {
    csv.plain(column);
  }
  csv.end_row();
  for (const Stop& stop : plan.stops) {
    csv.plain(stop.day ? iso(*stop.day) : "");
    csv.plain(stop.day ? fmt::format("{}", stop.crew) : "").plain(stop.day ? fmt::format("{}", stop.order) : "");
    csv.text(stop.site).number(fmt::format("{:.4f}", stop.place.latitude));
    csv.number(fmt::format("{:.4f}", stop.place.longitude)).number(fmt::format("{:.1f}", stop.km));
    csv.plain(iso(stop.from)).plain(stop.by ? iso(*stop.by) : "").plain(stop.confirmed ? "yes" : "no");
    csv.text(fmt::format("{}", fmt::join(tasks(stop, plan.today), " "))).text(bring(stop));
    csv.end_row();
  }
  return csv.str();
}

std::string stops_calendar(const StopPlan& plan) {
  std::vector<CalendarEvent> events;
  for (const Stop& stop : plan.fit()) {
    CalendarEvent event;
    event.identity = fmt::format("stop\n{}\n{}", stop.site, year_of(*stop.day));
    for (const DigestLine& line : stop.lines) {
      event.identity += fmt::format("\n{}/{}", line.pest->id, line.window->id);
    }
    for (const DigestVisit& visit : stop.visits) event.identity += fmt::format("\n{}/{}", visit.pest->id, visit.name);
    for (const std::string& task : tasks(stop, plan.today)) event.description += task + "\n";
    event.description += "Bring: " + bring(stop) + ".";
    event.stamp = plan.today;
    event.first = event.last = *stop.day;
    event.summary = printable(fmt::format("Crew {}, stop {}: {}", stop.crew, stop.order, stop.site));
    event.location = printable(stop.site);
    events.push_back(std::move(event));
  }
  return icalendar(events);
}

}  // namespace budclock::report
