#include <budclock/report/layout.hpp>
#include <budclock/report/words.hpp>

#include <algorithm>
#include <cstdlib>
#include <fmt/format.h>
#include <variant>
#include <vector>

namespace budclock::report {

using forecast::WindowState;

std::string gate_text(const rules::Pest& pest, const rules::Gate& gate) {
  const auto texts = [&](const std::vector<std::string>& ids) {
    std::vector<std::string> found;
    for (const std::string& id : ids) found.push_back(rules::find_observation(pest, id)->text);
    return found;
  };
  const std::string seen = list(texts(gate.seen), "and");
  const std::string absent = list(texts(gate.absent), "or");
  if (absent.empty()) return seen;
  if (seen.empty()) return "none of this: " + absent;
  return fmt::format("{}. Not if you find {}", seen, absent);
}

std::string actions_text(const std::vector<rules::Action>& kinds) {
  std::vector<std::string> names;
  for (const rules::Action action : kinds) names.emplace_back(word(action));
  return list(names, "or");
}

std::string not_here_text(const forecast::WindowForecast& window) {
  std::vector<std::string> texts;
  for (const rules::SiteRestriction& bar : window.bars) {
    texts.push_back(fmt::format("{} ({}: {})", actions_text(bar.actions), bar.fact, bar.text));
  }
  return texts.empty() ? "" : fmt::format("Not at this site: {}", fmt::join(texts, "; "));
}

std::string warning_text(const forecast::WindowForecast& window, const rules::SiteRestriction& warning) {
  const bool about_all = warning.actions == kinds_left(window);
  return fmt::format("{}{}: {}", about_all ? "" : actions_text(warning.actions) + ": ", warning.fact, warning.text);
}

std::string day_text(Day day, Day today) {
  const std::string text = short_text(day);
  return year_of(day) == year_of(today) ? text : fmt::format("{} {}", text, year_of(day));
}

std::string distance_text(Day day, Day today) {
  const int days = static_cast<int>((day - today).count());
  if (days == 0) return "today";
  const char* unit = std::abs(days) == 1 ? "day" : "days";
  return days > 0 ? fmt::format("in {} {}", days, unit) : fmt::format("{} {} ago", -days, unit);
}

std::string summary_text(const forecast::Summary& summary, Day today) {
  if (summary.members == 0) return "not known";
  if (!summary.likely) return summary.share > 0 ? "in few years" : "not this season";
  const std::string likely = day_text(*summary.likely, today);
  if (!summary.spread_out) return likely;
  return fmt::format("{} ({})", likely, range_text(summary, today));
}

std::string range_text(const forecast::Summary& summary, Day today) {
  const std::string early = summary.early ? day_text(*summary.early, today) : "not this season";
  const std::string late = summary.late ? day_text(*summary.late, today) : "not this season";
  const std::string years = summary.members < forecast::k_members_for_odds
                                ? fmt::format("only {} past years", summary.members)
                                : "8 years in 10";
  return fmt::format("{}: {} to {}", years, early, late);
}

std::string stage_date_text(const forecast::StageForecast& stage, Day today) {
  const auto& summary = stage.summary;
  if (stage.seen) {
    const auto& not_yet = stage.seen->last_not_found;
    return fmt::format("seen {}{}", day_text(stage.seen->first, today),
                       not_yet ? ", not yet " + day_text(*not_yet, today) : "");
  }
  if (stage.evidence == forecast::Evidence::calendar) {
    const std::string from = day_text(*summary.early, today);
    return summary.spread_out ? fmt::format("{} to {} by the calendar", from, day_text(*summary.late, today))
                              : from + " by the calendar";
  }
  switch (stage.standing) {
    case forecast::Standing::ahead:
      return summary.likely ? fmt::format("{}, {}", summary_text(summary, today), distance_text(*summary.likely, today))
                            : summary_text(summary, today);
    case forecast::Standing::under_way:
      return "under way, " + summary_text(summary, today);
    case forecast::Standing::passed:
      return "passed " + summary_text(summary, today);
    case forecast::Standing::never:
      return "not this season";
    case forecast::Standing::not_known:
      return fmt::format("no date ({})", stage.spread.unknown);
  }
  return {};
}

std::string local_text(const forecast::LocalSum& local, TemperatureUnit unit) {
  const auto in_unit = [unit](double fahrenheit_days) {
    return fmt::format("{:.0f}", unit == TemperatureUnit::fahrenheit ? fahrenheit_days : fahrenheit_days / 1.8);
  };
  const std::string from = fmt::format(" from {} {}", local.seasons, local.seasons == 1 ? "season" : "seasons");
  const std::string published = "published " + in_unit(local.published);
  if (local.learned) {
    if (local.seasons == 0) return fmt::format("{} +- {}", published, in_unit(*local.scatter));
    return fmt::format("{}, this site so far {} +- {}{}", published, in_unit(local.learned->sum),
                       in_unit(local.learned->deviation), from);
  }
  if (local.seasons == 0) return {};
  const std::string range =
      local.seasons > 1 ? fmt::format(" ({} to {})", in_unit(local.lowest), in_unit(local.highest)) : "";
  return fmt::format("{} (no scatter printed), this site's log alone {}{}{}, which moves no date", published,
                     in_unit(local.mean), range, from);
}

std::string count_text(const rules::Count& count) {
  const char* unit = symbol(count.unit);
  std::string text = fmt::format("base {} {}", count.lower_printed, unit);
  if (count.upper) {
    text += fmt::format(", upper {} {} ({} cutoff)", count.upper_printed, unit, name(count.cutoff.value));
  }
  if (count.cutoff.assumed) text += ", cutoff assumed";
  const auto assumed = [](bool is_assumed) { return is_assumed ? " (assumed)" : ""; };
  text += fmt::format(", from {}{}", short_text(count.start.value), assumed(count.start.assumed));
  text += fmt::format(", {}{}", name(count.method.value), assumed(count.method.assumed));
  return text;
}

namespace {

std::string degree_day_text(const rules::Pest& pest, const rules::DegreeDayCue& cue) {
  const rules::Count& count = *rules::find_count(pest, cue.count);
  return fmt::format("{} degree-days {} ({}; {})", cue.printed, symbol(count.unit), word(cue.meaning),
                     count_text(count));
}

struct CueText {
  const rules::Pest& pest;

  std::string operator()(const rules::DegreeDayCue& cue) const { return degree_day_text(pest, cue); }
  std::string operator()(const rules::CalendarCue& cue) const {
    if (cue.from == cue.to) return short_text(cue.from) + " by the calendar";
    return fmt::format("{} to {} by the calendar", short_text(cue.from), short_text(cue.to));
  }
  std::string operator()(const rules::AfterStageCue& cue) const {
    if (cue.degree_days) return fmt::format("{} after {}", degree_day_text(pest, *cue.degree_days), cue.stage);
    return fmt::format("{} days after {}", cue.days.value_or(0), cue.stage);
  }
  std::string operator()(const rules::DayLengthCue& cue) const {
    return fmt::format("day length {} {:g} hours", cue.rising ? "rising to" : "falling to", cue.hours);
  }
  std::string operator()(const rules::PlantCue& cue) const {
    const std::string seen = "when a scout sees: " + rules::find_observation(pest, cue.observation)->text;
    return cue.degree_days ? seen + "; " + degree_day_text(pest, *cue.degree_days) : seen;
  }
  std::string operator()(const rules::SoilTemperatureCue& cue) const {
    return fmt::format("soil temperature {} {}", cue.rising ? "rising to" : "falling to", cue.printed);
  }
};

std::string until_text(const forecast::WindowForecast& window, Day today) {
  return window.until ? " until " + day_text(*window.until, today) : std::string{};
}

const std::string& why_unknown(const forecast::WindowForecast& window) {
  return window.opens.known() ? window.closes.unknown : window.opens.unknown;
}

std::string look_text(const forecast::WindowForecast& window, Day today) {
  const std::string what = window.window->find.empty() ? std::string{} : ": " + window.window->find;
  switch (window.state) {
    case WindowState::ahead:
      return fmt::format("Look from {} ({}){}{}", day_text(*window.from, today), distance_text(*window.from, today),
                         until_text(window, today), what);
    case WindowState::open:
      return "Look now" + until_text(window, today) + what;
    case WindowState::last_days:
      return "Look now, last days" + until_text(window, today) + what;
    case WindowState::closed:
      return "The time to look ended " + day_text(*window.until, today);
    case WindowState::none_left:
      return "Not to be expected this season";
    case WindowState::not_known:
      return fmt::format("Look{}. No date: {}", what, why_unknown(window));
  }
  return {};
}

/// The gate is met and the window open.
std::string offer_text(const forecast::WindowForecast& window, Day today) {
  return fmt::format(
      "Act: the gate is met by what was found {} and counts until {}; finish by {}. Kind of action, as far as the "
      "label allows: {}",
      found_days_text(window.gate, today), day_text(*window.gate_until, today),
      day_text(std::min(*window.until, *window.gate_until), today), actions_text(kinds_left(window)));
}

/// What the log says of the gate of an action that is not offered.
std::string record_text(const rules::Pest& pest, const forecast::WindowForecast& window, Day today) {
  if (window.offered || window.done || is_over(window)) return {};
  std::string text = gate_record_text(window.gate, today);
  if (window.barred_by != nullptr && window.gate_met) text += ", yet leave alone: " + window.barred_by->name;
  if (window.barred_by != nullptr && is_open(window) && !window.gate_met)
    text += (text.empty() ? "Leave alone now: " : ". Leave alone now: ") + window.barred_by->name;
  if (const std::string waits = waits_text(pest, window); !waits.empty()) text += ". " + waits;
  return text.empty() ? text : ". " + text;
}

/// When it opens by its own figures. A ban may keep it shut for longer, and then that says nothing.
std::string likely_text(const forecast::WindowForecast& window, Day today) {
  const auto& likely = window.opens_summary.likely;
  return likely && *likely < *window.from ? "" : "; likely " + summary_text(window.opens_summary, today);
}

std::string act_text(const rules::Pest& pest, const forecast::WindowForecast& window, Day today) {
  if (is_barred_at_site(window)) return not_here_text(window);
  const std::string gate = gate_text(pest, window.window->gate);
  const std::string kinds = actions_text(kinds_left(window));
  const std::string end = window.until ? fmt::format("; plan to be done by {}", day_text(*window.until, today)) : "";
  if (window.offered) return offer_text(window, today);
  if (window.done && !is_over(window)) {
    return fmt::format("Leave alone: {}. What must be found: {}", done_text(*window.done, today), gate);
  }
  switch (window.state) {
    case WindowState::ahead:
      return fmt::format("Act only if you find {}. Not before {} ({}){}{}. Kind of action: {}", gate,
                         day_text(*window.from, today), distance_text(*window.from, today), likely_text(window, today),
                         end, kinds);
    case WindowState::open:
      return fmt::format("Act now only if you find {}{}. Kind of action: {}", gate, end, kinds);
    case WindowState::last_days:
      return fmt::format("Last days: act only if you find {}{}. Kind of action: {}", gate, end, kinds);
    case WindowState::closed:
      return fmt::format("Too late since {} for {}", day_text(*window.until, today), kinds);
    case WindowState::none_left:
      return fmt::format("No window that all sources allow for {}", kinds);
    case WindowState::not_known:
      return fmt::format("Act only if you find {}. Kind of action: {}. No date: {}", gate, kinds, why_unknown(window));
  }
  return {};
}

std::string abstain_text(const forecast::WindowForecast& window, Day today) {
  const std::string kinds = actions_text(*window.window);
  switch (window.state) {
    case WindowState::ahead:
      return fmt::format("Leave alone from {} ({}){}: no {}", day_text(*window.from, today),
                         distance_text(*window.from, today), until_text(window, today), kinds);
    case WindowState::open:
    case WindowState::last_days:
      return fmt::format("Leave alone now{}: no {}", until_text(window, today), kinds);
    case WindowState::closed:
      return fmt::format("The time without {} ended {}", kinds, day_text(*window.until, today));
    case WindowState::none_left:
    case WindowState::not_known:
      return fmt::format("Leave alone ({}): no {}", window.window->name, kinds);
  }
  return {};
}

}  // namespace

std::string cue_text(const rules::Pest& pest, const rules::Trigger& trigger) {
  return std::visit(CueText{pest}, trigger.cue);
}

std::string window_basis_text(const forecast::WindowForecast& window) {
  std::string text;
  const auto seen = [](const std::optional<Day>& day) { return day ? ", seen here " + short_text(*day) : ""; };
  if (window.opened_by) text += fmt::format("Opens by: {}{}. ", window.opened_by->says, seen(window.opening_seen));
  if (window.closed_by) text += fmt::format("Closes by: {}{}. ", window.closed_by->says, seen(window.closing_seen));
  if (text.empty()) return text;
  text += fmt::format("({}", word(window.evidence));
  const std::size_t years = window.opens.dates.size();
  if (window.share_with_window > 0 && window.share_with_window < 1) {
    const double with = window.share_with_window * static_cast<double>(years);
    text += fmt::format("; there is such a window in {:.0f} of {} past years", with, years);
  }
  return text + ")";
}

std::string window_text(const rules::Pest& pest, const forecast::WindowForecast& window, Day today) {
  switch (window.window->kind) {
    case rules::WindowKind::look:
      return look_text(window, today) + ".";
    case rules::WindowKind::act:
      return act_text(pest, window, today) + record_text(pest, window, today) + "." +
             (window.bars.empty() || is_barred_at_site(window) ? "" : " " + not_here_text(window) + ".");
    case rules::WindowKind::abstain:
      return abstain_text(window, today) + ".";
  }
  return {};
}

}  // namespace budclock::report
