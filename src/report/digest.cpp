#include <budclock/report/digest.hpp>
#include <budclock/report/words.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <tuple>
#include <utility>

namespace budclock::report {
namespace {

using forecast::PestForecast;
using forecast::SiteForecast;
using forecast::WindowForecast;
using forecast::WindowState;
using rules::WindowKind;

/// "water at 15 ft; children or pets"
std::string facts_text(const std::vector<rules::SiteRestriction>& restrictions) {
  std::vector<std::string> facts;
  for (const rules::SiteRestriction& each : restrictions) {
    if (std::find(facts.begin(), facts.end(), each.fact) == facts.end()) facts.push_back(each.fact);
  }
  return fmt::format("{}", fmt::join(facts, "; "));
}

/// Sorts the windows of one pest into groups.
class PestLines {
 public:
  PestLines(const PestForecast& pest, Day today) : pest_{pest}, today_{today} {}

  std::vector<DigestLine> all() {
    for (const WindowForecast& window : pest_.windows) {
      switch (window.window->kind) {
        case WindowKind::look:
          look(window);
          break;
        case WindowKind::act:
          act(window);
          break;
        case WindowKind::abstain:
          ban(window);
          break;
      }
    }
    if (!lines_.empty()) standing_bans();
    return std::move(lines_);
  }

 private:
  void add(DigestGroup group, Due due, const WindowForecast& window, std::string text) {
    lines_.push_back({group, due, pest_.pest, window.window, kinds_left(window), window.from, window.until, false,
                      std::move(text), window.evidence});
  }

  bool is_soon(const std::optional<Day>& day) const { return day && *day > today_ && *day <= horizon(); }
  Day horizon() const { return today_ + k_digest_days; }
  bool begins_soon(const WindowForecast& window) const {
    return window.state == WindowState::ahead && is_soon(window.from);
  }

  /// Opens and ends within the 14 days.
  bool is_short(const WindowForecast& window) const { return begins_soon(window) && is_soon(window.until); }

  void look(const WindowForecast& window) {
    if (is_open(window)) {
      const bool ends = window.state == WindowState::last_days;
      add(ends ? DigestGroup::last_days : DigestGroup::look, Due::now, window, window.window->find);
    } else if (begins_soon(window)) {
      add(is_short(window) ? DigestGroup::last_days : DigestGroup::look, Due::soon, window, window.window->find);
    }
  }

  /// What a scout found that must not be there: "cupped leaves (found Apr 12)"; empty when there is nothing.
  std::string contrary_find(const WindowForecast& window) const {
    std::vector<std::string> found;
    for (const journal::Demand& demand : window.gate.demands) {
      if (demand.wants_seen || demand.state != journal::DemandState::contradicted) continue;
      found.push_back(fmt::format("{} (found {})", demand.observation->text, day_text(*demand.stated, today_)));
    }
    return fmt::format("{}", fmt::join(found, "; "));
  }

  void act(const WindowForecast& window) {
    if (window.done && !is_over(window)) {
      // Where no end is known, it is told as long as a digest looks back.
      if (!window.until && window.done->day < today_ - k_digest_days) return;
      return add(DigestGroup::leave, Due::now, window, done_text(*window.done, today_));
    }
    const bool found_without_dates = window.state == WindowState::not_known && window.gate_met;
    if (!is_open(window) && !begins_soon(window) && !found_without_dates) return not_to_be_done(window);
    const Due due = begins_soon(window) ? Due::soon : Due::now;
    if (const rules::Window* ban = forecast::ban_on(window, pest_.windows)) {
      return add(DigestGroup::leave, due, window, fmt::format("{}. {}", ban->name, ban->reason));
    }
    if (forecast::is_barred_at_site(window)) {
      add(DigestGroup::leave, due, window, not_here_text(window));
      lines_.back().not_here = facts_text(window.bars);
      return;
    }
    if (const std::string found = contrary_find(window); !found.empty()) {
      return add(DigestGroup::leave, due, window, "not with what was found: " + found);
    }
    const bool ends = window.state == WindowState::last_days || is_short(window);
    add(ends ? DigestGroup::last_days : DigestGroup::act, due, window, first_find(window) + at_site(window));
    lines_.back().confirmed = window.offered;
    // What was found counts no longer than that; after it the plant must be looked at again.
    if (window.offered) lines_.back().until = last_day(window);
  }

  /// ". Not at this site: horticultural oil (...). Mind: children or pets": the site's report has the rest.
  static std::string at_site(const WindowForecast& window) {
    std::string text = window.bars.empty() ? "" : ". " + not_here_text(window);
    if (!window.warnings.empty()) text += ". Mind: " + facts_text(window.warnings);
    return text;
  }

  std::string first_find(const WindowForecast& window) const {
    const std::string record = gate_record_text(window.gate, today_);
    if (window.gate_met) {
      const std::string waits = waits_text(*pest_.pest, window);
      return waits.empty() ? record : record + ". " + waits;
    }
    return fmt::format("only if you find {}{}", gate_text(*pest_.pest, window.window->gate),
                       record.empty() ? "" : ". " + record);
  }

  /// Too late, or without a time that all sources allow; told while it is near.
  void not_to_be_done(const WindowForecast& window) {
    if (window.state == WindowState::closed && *window.until >= today_ - k_digest_days) {
      return add(DigestGroup::leave, Due::now, window, window.window->reason);
    }
    if (window.state != WindowState::none_left) return;
    const auto opens = summarize(window.opens).early;
    const auto closes = summarize(window.closes).late;
    if (!opens || *opens > horizon() || (closes && *closes < today_)) return;
    add(DigestGroup::leave, *opens > today_ ? Due::soon : Due::now, window,
        "the sources together leave no time for it");
    lines_.back().from.reset();
    lines_.back().until.reset();
  }

  void ban(const WindowForecast& window) {
    if (is_open(window)) add(DigestGroup::leave, Due::now, window, window.window->reason);
    if (begins_soon(window)) add(DigestGroup::leave, Due::soon, window, window.window->reason);
  }

  void standing_bans() {
    for (const WindowForecast& window : pest_.windows) {
      if (window.window->kind != WindowKind::abstain || window.state != WindowState::not_known) continue;
      add(DigestGroup::leave, Due::now, window, window.window->reason);
    }
  }

  const PestForecast& pest_;
  Day today_;
  std::vector<DigestLine> lines_;
};

std::vector<DigestVisit> visits_of(const PestForecast& pest, Day today) {
  std::vector<DigestVisit> visits;
  for (const forecast::FollowUp& visit : pest.follow_ups) {
    if (!is_wanted(visit) || *visit.from > today + k_digest_days) continue;
    const bool missed = visit.state == forecast::VisitState::missed;
    visits.push_back({missed ? VisitKind::missed_follow_up : VisitKind::follow_up,
                      *visit.from > today ? Due::soon : Due::now, pest.pest, action_text(visit, today), visit.done,
                      visit.from, visit.until, visit_text(*pest.pest, visit, today)});
  }
  for (const WindowForecast& window : pest.windows) {
    if (!window.missed_look || *window.until < today - k_digest_days) continue;
    visits.push_back({VisitKind::missed_look,
                      Due::now,
                      pest.pest,
                      window.window->name,
                      {},
                      window.from,
                      window.until,
                      fmt::format("Missed look: {}: closed {}, and nothing was recorded while it was open.",
                                  window.window->name, day_text(*window.until, today))});
  }
  return visits;
}

std::string key_of(const DigestVisit& visit) {
  return fmt::format("{}/{}/{}", visit.pest->id, name(visit.kind), visit.name);
}
std::string place_of(const DigestVisit& visit) { return std::string{name(visit.due)}; }

std::string key_of(const DigestLine& line) { return line.pest->id + "/" + line.window->id; }
std::string place_of(const DigestLine& line) {
  return fmt::format("{}, {}{}", name(line.group), name(line.due), line.confirmed ? ", confirmed" : "");
}

/// What ends first comes first, then what begins first; what has no date comes last. Bans come before what is too late.
bool comes_before(const DigestLine& a, const DigestLine& b) {
  const auto key = [](const DigestLine& line) {
    const Day never{date::year{k_last_year} / 12 / 31};
    const bool after_bans = line.group == DigestGroup::leave && line.window->kind != WindowKind::abstain;
    return std::tuple{
        line.due, line.group, after_bans, !line.confirmed, line.until.value_or(never), line.from.value_or(never)};
  };
  return key(a) < key(b);
}

/// An error is told anew each day; values set aside are told once.
bool are_told_in(const std::set<std::string>& texts, const Diagnostics& problems) {
  return !problems.empty() && std::all_of(problems.begin(), problems.end(), [&](const Diagnostic& problem) {
    return problem.severity == Severity::fault && texts.contains(to_text(problem));
  });
}

}  // namespace

SiteDigest site_digest(const SiteForecast& site, Diagnostics problems) {
  SiteDigest digest{site.site, {}, {}, std::move(problems), site.weather.too_old};
  std::erase_if(digest.problems, [](const Diagnostic& problem) { return problem.severity == Severity::note; });
  if (site.weather.too_old) {
    digest.problems.push_back(
        {Severity::error,
         {},
         fmt::format("the weather ends {}, {} days before today: nothing new can be said from it",
                     iso(*site.weather.last_observed), (site.today - *site.weather.last_observed).count()),
         "add the missing days"});
  }
  for (const PestForecast& pest : site.pests) {
    const auto lines = PestLines{pest, site.today}.all();
    digest.lines.insert(digest.lines.end(), lines.begin(), lines.end());
    const auto visits = visits_of(pest, site.today);
    digest.visits.insert(digest.visits.end(), visits.begin(), visits.end());
  }
  // Nobody is sent to treat where nothing new is known.
  if (digest.failed) std::erase_if(digest.lines, [](const DigestLine& line) { return may_be_done(line); });
  std::stable_sort(digest.lines.begin(), digest.lines.end(), comes_before);
  std::stable_sort(digest.visits.begin(), digest.visits.end(), [](const DigestVisit& a, const DigestVisit& b) {
    const auto key = [](const DigestVisit& visit) {
      return std::tuple{visit.due, visit.kind, visit.until.value_or(Day::max())};
    };
    return key(a) < key(b);
  });
  return digest;
}

bool may_be_done(const DigestLine& line) {
  return line.window->kind == WindowKind::act && line.group != DigestGroup::leave;
}

std::set<std::string> problem_texts(const Diagnostics& problems) {
  std::set<std::string> texts;
  for (const Diagnostic& problem : problems) {
    if (problem.severity > Severity::note) texts.insert(to_text(problem));
  }
  return texts;
}

SiteState site_state(const SiteDigest& digest) {
  SiteState state;
  for (const DigestLine& line : digest.lines) state.groups[key_of(line)] = place_of(line);
  for (const DigestVisit& visit : digest.visits) state.groups[key_of(visit)] = place_of(visit);
  state.problems = problem_texts(digest.problems);
  return state;
}

SiteState site_state(const SiteForecast& site, const SiteDigest& digest) {
  SiteState state = site_state(digest);
  SiteState days = planned_days(site);
  state.windows = std::move(days.windows);
  state.stages = std::move(days.stages);
  return state;
}

void compare(SiteDigest& site, const WrittenState& older, const SiteState& now, Day today) {
  const auto before = older.site(site.site);
  const SiteState then = before.value_or(SiteState{});
  site.told_before = !site.failed && are_told_in(then.problems, site.problems);
  site.changes = before ? changes(site.site, then, now, today) : std::vector<Change>{};
  site.changed = !before || !site.changes.empty() || then.problems != now.problems ||
                 then.groups.size() != site.lines.size() + site.visits.size();
  const auto mark = [&](auto& line) {
    const auto place = then.groups.find(key_of(line));
    line.is_new = place == then.groups.end() || place->second != place_of(line);
    site.changed = site.changed || line.is_new;
  };
  for (DigestLine& line : site.lines) mark(line);
  for (DigestVisit& visit : site.visits) mark(visit);
}

void compare(Digest& digest, const WrittenState& older) {
  digest.since = older.today();
  digest.told_before = are_told_in(older.problems(), digest.problems);
  digest.changed = older.problems() != problem_texts(digest.problems);
  digest.changes.clear();
  std::set<std::string> names;
  for (const SiteDigest& site : digest.sites) {
    names.insert(site.site);
    digest.changes.insert(digest.changes.end(), site.changes.begin(), site.changes.end());
    digest.changed = digest.changed || site.changed;
  }
  digest.changed = digest.changed || older.names() != names;
  std::stable_sort(digest.changes.begin(), digest.changes.end(),
                   [](const Change& a, const Change& b) { return a.site < b.site; });
}

bool Digest::has_new_problems() const {
  return (!problems.empty() && !told_before) || std::any_of(sites.begin(), sites.end(), [](const SiteDigest& site) {
           return site.failed || (!site.problems.empty() && !site.told_before);
         });
}

bool Digest::has_news() const {
  return has_new_problems() || std::any_of(sites.begin(), sites.end(), [](const SiteDigest& site) {
           return !site.lines.empty() || !site.visits.empty();
         });
}

std::string_view name(DigestGroup group) {
  switch (group) {
    case DigestGroup::last_days:
      return "last days";
    case DigestGroup::act:
      return "act if confirmed";
    case DigestGroup::leave:
      return "leave alone";
    case DigestGroup::look:
      return "look";
  }
  return {};
}

std::string_view name(VisitKind kind) {
  switch (kind) {
    case VisitKind::follow_up:
      return "follow-up";
    case VisitKind::missed_follow_up:
      return "missed follow-up";
    case VisitKind::missed_look:
      return "missed look";
  }
  return {};
}

std::string_view name(Due due) { return due == Due::now ? "now" : "next 14 days"; }

}  // namespace budclock::report
