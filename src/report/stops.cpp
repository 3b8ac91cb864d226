#include <budclock/report/stops.hpp>

#include <algorithm>
#include <tuple>
#include <utility>

namespace budclock::report {
namespace {

const Day k_never{date::year{k_last_year} / 12 / 31};

/// More evidence first.
int doubt(forecast::Evidence evidence) {
  switch (evidence) {
    case forecast::Evidence::seen_here:
      return 0;
    case forecast::Evidence::sources_agree:
      return 1;
    case forecast::Evidence::one_source:
      return 2;
    case forecast::Evidence::sources_disagree:
      return 3;
    case forecast::Evidence::calendar:
      return 4;
    case forecast::Evidence::none:
      break;
  }
  return 5;
}

/// The evidence of what ends first.
int doubt(const Stop& stop) {
  int least = doubt(forecast::Evidence::none);
  for (const DigestLine& line : stop.lines) {
    if (line.until == stop.by) least = std::min(least, doubt(line.evidence));
  }
  return least;
}

bool more_urgent(const Stop& a, const Stop& b) {
  const auto key = [](const Stop& stop) {
    return std::tuple{!stop.confirmed, stop.by.value_or(k_never), doubt(stop), stop.from, stop.site};
  };
  return key(a) < key(b);
}

/// Shares out stops that are sorted by urgency.
class Planner {
 public:
  Planner(std::vector<Stop>& stops, const Crews& crews) : stops_{stops}, crews_{crews} {}

  void fill(Day day, int crew) {
    double hours = crews_.hours;
    const Stop* first = nullptr;
    const Stop* last = nullptr;
    for (int order = 1;; ++order) {
      Stop* next = pick(day, first, last, hours);
      if (next == nullptr) return;
      next->km = last == nullptr ? 0 : forecast::kilometres_between(last->place, next->place);
      hours -= cost(last, *next);
      next->day = day;
      next->crew = crew;
      next->order = order;
      if (first == nullptr) first = next;
      last = next;
    }
  }

 private:
  double cost(const Stop* last, const Stop& next) const {
    const double km = last == nullptr ? 0 : forecast::kilometres_between(last->place, next.place);
    return crews_.stop_hours + km / crews_.km_per_hour;
  }

  /// The most urgent stop for which there is time, one of the area of the day's first stop if there is any.
  Stop* pick(Day day, const Stop* first, const Stop* last, double hours) {
    Stop* elsewhere = nullptr;
    for (Stop& stop : stops_) {
      if (stop.day || stop.from > day || stop.by.value_or(k_never) < day || cost(last, stop) > hours) continue;
      if (first == nullptr || forecast::kilometres_between(first->place, stop.place) <= crews_.area_km) return &stop;
      if (elsewhere == nullptr) elsewhere = &stop;
    }
    return elsewhere;
  }

  std::vector<Stop>& stops_;
  const Crews& crews_;
};

}  // namespace

std::optional<Stop> stop_at(const SiteDigest& site, forecast::Coordinates place, Day today, int days) {
  if (site.failed) return std::nullopt;
  const Day last = today + date::days{days - 1};
  Stop stop{.site = site.site, .place = place, .from = last};
  for (const DigestLine& line : site.lines) {
    const Day from = line.due == Due::now ? today : line.from.value_or(k_never);
    if (line.group == DigestGroup::leave || from > last) continue;
    stop.lines.push_back(line);
    stop.from = std::min(stop.from, from);
    if (line.until) stop.by = std::min(stop.by.value_or(*line.until), *line.until);
    stop.confirmed = stop.confirmed || line.confirmed;
  }
  for (const DigestVisit& visit : site.visits) {
    if (visit.kind == VisitKind::missed_look || visit.from.value_or(k_never) > last) continue;
    stop.visits.push_back(visit);
    stop.from = std::min(stop.from, std::max(*visit.from, today));
    // What was missed is late already and closes on no day.
    const bool closes = visit.kind == VisitKind::follow_up && visit.until;
    if (closes) stop.by = std::min(stop.by.value_or(*visit.until), *visit.until);
  }
  if (stop.lines.empty() && stop.visits.empty()) return std::nullopt;
  // What opens later and ends first must still be met on one of its own days.
  if (stop.by && *stop.by < stop.from) stop.by = stop.from;
  return stop;
}

StopPlan plan_stops(std::vector<Stop> stops, Day today, const Crews& crews) {
  std::sort(stops.begin(), stops.end(), more_urgent);
  Planner planner{stops, crews};
  for (int day = 0; day < crews.days; ++day) {
    for (int crew = 1; crew <= crews.count; ++crew) planner.fill(today + date::days{day}, crew);
  }
  std::stable_sort(stops.begin(), stops.end(), [](const Stop& a, const Stop& b) {
    const auto key = [](const Stop& stop) { return std::tuple{stop.day.value_or(k_never), stop.crew, stop.order}; };
    return key(a) < key(b);
  });
  const auto left = std::find_if(stops.begin(), stops.end(), [](const Stop& stop) { return !stop.day; });
  const auto fitting = static_cast<std::size_t>(left - stops.begin());
  return {today, crews, std::move(stops), fitting};
}

}  // namespace budclock::report
