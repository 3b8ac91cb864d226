#include <budclock/core/diagnostic.hpp>
#include <budclock/report/csv.hpp>
#include <budclock/report/day_report.hpp>
#include <budclock/report/words.hpp>
#include <budclock/rules/names.hpp>

#include "json_text.hpp"
#include "source_list.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace budclock::report {
namespace {

using forecast::DayScreen;
using forecast::HourRun;
using forecast::HourStanding;
using forecast::JudgedHour;
using forecast::LimitList;
using sites::DayFact;
using sites::DayFacts;
using weather::ForecastHour;
using Json = nlohmann::ordered_json;

constexpr int k_hour = 60;
constexpr std::size_t k_most_runs = 5;
constexpr const char* k_no_limit = "no stated limit met; read the label";
constexpr const char* k_barred = "barred at this site";
constexpr const char* k_barred_first = "Barred at this site";
constexpr const char* k_weekdays[]{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};

std::string_view word(rules::DayAction action) {
  switch (action) {
    case rules::DayAction::contact:
      return "contact spray";
    case rules::DayAction::oil:
      return "horticultural oil";
    case rules::DayAction::systemic:
      return "soil systemic";
  }
  return {};
}

std::string_view word(HourStanding standing) {
  switch (standing) {
    case HourStanding::ruled_out:
      return "ruled out";
    case HourStanding::not_known:
      return "not known";
    case HourStanding::none_met:
      return "no stated limit met";
  }
  return {};
}

std::string clock(int minute) { return fmt::format("{}:{:02}", minute / k_hour, minute % k_hour); }

std::string day_name(Day day) {
  return fmt::format("{} {}", k_weekdays[date::weekday{day}.c_encoding()], short_text(day));
}

/// "52", "4.5".
std::string short_number(double value) { return fmt::format("{:g}", std::round(value * 10) / 10); }

std::string number_or(const std::optional<double>& value, const char* otherwise) {
  return value ? short_number(*value) : otherwise;
}

std::string wind_text(const ForecastHour& hour) {
  if (!hour.wind) return "?";
  if (hour.wind->high_mph == 0) return "0";
  std::string text = hour.wind_direction.empty() ? "" : printable(hour.wind_direction) + " ";
  text += short_number(hour.wind->low_mph);
  if (hour.wind->high_mph != hour.wind->low_mph) text += "-" + short_number(hour.wind->high_mph);
  return text;
}

/// The hours' own columns; the marks of limits stand last.
std::vector<std::string> hour_row(const JudgedHour& judged) {
  const ForecastHour& hour = judged.hour;
  return {clock(hour.minute),
          hour.temperature ? to_text(*hour.temperature, TemperatureUnit::fahrenheit, 0) : "?",
          number_or(hour.humidity_percent, "?"),
          wind_text(hour),
          number_or(hour.rain_chance_percent, "?"),
          judged.daylight ? "" : "dark"};
}

bool said_alike(const JudgedHour& a, const JudgedHour& b) {
  return a.hour.day == b.hour.day && a.standing == b.standing && a.ruled_out_by == b.ruled_out_by &&
         a.flagged_by == b.flagged_by && a.not_known == b.not_known;
}

/// "grape phylloxera, leaf form; hemlock woolly adelgid": there are commas in names.
std::string names_of(const std::vector<const rules::Pest*>& pests) {
  std::vector<std::string> names;
  for (const rules::Pest* pest : pests) names.push_back(pest->name);
  return fmt::format("{}", fmt::join(names, "; "));
}

/// "soil systemic, against hemlock woolly adelgid: water at 40 ft: no soil drench so near to water".
std::string fact_text(const DayFacts& facts, const DayFact& fact) {
  const bool all = fact.pests.size() == facts.pests.size();
  return fmt::format("{}{}: {}: {}", actions_text(fact.rule.actions), all ? "" : ", against " + names_of(fact.pests),
                     fact.rule.fact, fact.rule.text);
}

class TextWriter {
 public:
  TextWriter(const DayScreen& screen, const DayFacts& facts, const rules::PestTable& table, const TextStyle& style)
      : screen_{screen}, facts_{facts}, sources_{table}, style_{style} {}

  std::string written() {
    const std::string title =
        fmt::format("{}: hours for {}, from {}", screen_.site, word(screen_.action), short_text(screen_.today));
    text_ += bold(paragraph(printable(title), 0, style_), style_);
    text_ += paragraph("The label and the law decide. An hour without a stated limit is no permission.", 0, style_);
    if (!screen_.elsewhere.empty()) text_ += paragraph("! Mind: " + screen_.elsewhere + ".", 2, style_, "");
    add_facts();
    if (!facts_.bars_all()) add_hours();
    const std::string sources = sources_.text(style_);
    if (!sources.empty()) text_ += "\n" + bold("Sources", style_) + "\n" + sources;
    return std::move(text_);
  }

 private:
  /// What the site bars or warns of, before any hour.
  void add_facts() {
    const std::string_view action = word(screen_.action);
    text_ += "\n" + bold("What the facts of this site say", style_) + "\n";
    if (facts_.bars_all()) {
      text_ += paragraph(fmt::format("! {}: {}. No hours are offered.", k_barred_first, action), 4, style_, "  ");
    } else if (!facts_.barred.empty()) {
      text_ += paragraph(fmt::format("! {}: {} against {}.", k_barred_first, action, names_of(facts_.barred)), 4,
                         style_, "  ");
    }
    text_ +=
        paragraph(facts_.is_listed
                      ? fmt::format("Pests of this site that {} is listed against: {}.", action, names_of(facts_.pests))
                      : fmt::format("! No source here speaks of {} against a pest of this site.", action),
                  2, style_, "  ");
    for (const DayFact& fact : facts_.facts) {
      const std::string mark =
          fact.rule.citation.source.empty() ? "[common practice]" : sources_.mark(fact.rule.citation);
      text_ += paragraph(fmt::format("{}: {} {}", fact.rule.bars ? "Barred" : "Mind", fact_text(facts_, fact), mark), 4,
                         style_, "  ! ");
    }
  }

  void add_hours() {
    add_runs();
    add_outside();
    for (std::size_t i = 0; i < screen_.hours.size();) {
      if (i == 0 || screen_.hours[i].hour.day != screen_.hours[i - 1].hour.day) add_day(screen_.hours[i].hour);
      i = add_span(i);
    }
  }

  std::string limits_text(const LimitList& limits) {
    std::vector<std::string> texts;
    for (const std::size_t index : limits) {
      const rules::DayLimit& limit = screen_.limits[index];
      const std::string mark = limit.own                       ? "[the firm's own limit]"
                               : limit.citation.source.empty() ? "[common practice]"
                                                               : sources_.mark(limit.citation);
      texts.push_back(limit.text + " " + mark);
    }
    return fmt::format("{}", fmt::join(texts, "; "));
  }

  /// What the forecast would have to say for these limits to be judged.
  std::string lacking_text(const LimitList& limits) {
    std::vector<std::string> texts;
    for (const std::size_t index : limits) {
      const char* lacks = "";
      switch (screen_.limits[index].measure) {
        case rules::Measure::temperature:
          lacks = "temperature";
          break;
        case rules::Measure::humidity:
          lacks = "humidity";
          break;
        case rules::Measure::wind:
        case rules::Measure::calm:
          lacks = "wind";
          break;
        case rules::Measure::rain_ahead:
          lacks = "rain in the hours ahead";
          break;
        case rules::Measure::rain_before:
          lacks = "rain in the hours before";
          break;
        case rules::Measure::soil:
        case rules::Measure::drought:
          break;
      }
      if (std::find(texts.begin(), texts.end(), lacks) == texts.end()) texts.emplace_back(lacks);
    }
    return list(texts);
  }

  void add_runs() {
    text_ += "\n" + bold("Daylight hours, no stated limit met", style_) + "\n";
    if (!facts_.barred.empty()) {
      std::vector<const rules::Pest*> free;
      std::copy_if(facts_.pests.begin(), facts_.pests.end(), std::back_inserter(free), [&](const rules::Pest* pest) {
        return std::find(facts_.barred.begin(), facts_.barred.end(), pest) == facts_.barred.end();
      });
      text_ += paragraph(fmt::format("Only against {}.", names_of(free)), 2, style_, "  ");
    }
    if (screen_.runs.empty()) text_ += paragraph("None in this forecast.", 2, style_, "  ");
    for (std::size_t i = 0; i < std::min(k_most_runs, screen_.runs.size()); ++i) add_run(screen_.runs[i]);
    if (screen_.runs.size() > k_most_runs) {
      text_ += paragraph(fmt::format("and {} shorter", screen_.runs.size() - k_most_runs), 2, style_, "  ");
    }
  }

  void add_run(const HourRun& run) {
    const ForecastHour& first = screen_.hours[run.first].hour;
    const ForecastHour& last = screen_.hours[run.first + run.count - 1].hour;
    std::string line = fmt::format("{} {} to {} ({} h)", day_name(first.day), clock(first.minute),
                                   clock(last.minute + k_hour), run.count);
    LimitList flags;
    for (std::size_t i = run.first; i < run.first + run.count; ++i) {
      for (const std::size_t flag : screen_.hours[i].flagged_by) {
        if (std::find(flags.begin(), flags.end(), flag) == flags.end()) flags.push_back(flag);
      }
    }
    if (!flags.empty()) line += "; in part: " + limits_text(flags);
    text_ += paragraph(line, 4, style_, "  - ");
  }

  /// Limits that no forecast can tell of: what the site says, and what nobody does.
  void add_outside() {
    if (!screen_.ground.stated.empty()) {
      text_ += "\n" + bold("Stated for this site", style_) + "\n";
      text_ += paragraph(printable(fmt::format("{}", fmt::join(screen_.ground.stated, "; "))) + ".", 2, style_, "  ");
    }
    LimitList outside;
    for (std::size_t i = 0; i < screen_.limits.size(); ++i) {
      if (!is_stated(screen_.ground, screen_.limits[i].measure)) outside.push_back(i);
    }
    if (outside.empty()) return;
    text_ += "\n" + bold("Not known here: look before you start", style_) + "\n";
    for (const std::size_t index : outside) text_ += paragraph(limits_text({index}), 4, style_, "  ! ");
  }

  void add_day(const ForecastHour& first) {
    const forecast::SunTimes sun = forecast::sun_times(screen_.place, first.day, first.offset_minutes);
    const bool rises = sun.rise >= 0 && sun.set < 24 * k_hour && sun.rise < sun.set;
    const std::string light = rises ? fmt::format(", sun {} to {}", clock(sun.rise), clock(sun.set)) : "";
    text_ += "\n" + bold(day_name(first.day) + light, style_) + "\n";
  }

  /// Hours on end of which the same is to be said; returns the one after them.
  std::size_t add_span(std::size_t from) {
    std::size_t to = from + 1;
    while (to < screen_.hours.size() && said_alike(screen_.hours[from], screen_.hours[to])) ++to;
    const JudgedHour& hour = screen_.hours[from];
    std::string line;
    switch (hour.standing) {
      case HourStanding::ruled_out:
        line = "ruled out: " + limits_text(hour.ruled_out_by);
        break;
      case HourStanding::not_known:
        line = "not known: the forecast does not say " + lacking_text(hour.not_known);
        break;
      case HourStanding::none_met:
        line = k_no_limit;
        if (!hour.not_known.empty()) line += ". Not known: " + lacking_text(hour.not_known);
        break;
    }
    if (!hour.flagged_by.empty()) line += ". Mind: " + limits_text(hour.flagged_by);
    text_ += paragraph(line, 4, style_, "  ");
    std::vector<std::vector<std::string>> rows{{"hour", "F", "RH%", "mph", "rain%", ""}};
    for (std::size_t i = from; i < to; ++i) rows.push_back(hour_row(screen_.hours[i]));
    text_ += table(rows, 2, style_);
    return to;
  }

  const DayScreen& screen_;
  const DayFacts& facts_;
  SourceList sources_;
  TextStyle style_;
  std::string text_;
};

std::vector<std::string> ids(const DayScreen& screen, const LimitList& limits) {
  std::vector<std::string> names;
  for (const std::size_t index : limits) names.push_back(screen.limits[index].id);
  return names;
}

std::string texts(const DayScreen& screen, const LimitList& limits) {
  std::vector<std::string> words;
  for (const std::size_t index : limits) {
    const rules::DayLimit& limit = screen.limits[index];
    words.push_back(fmt::format("{} [{}]", limit.text,
                                limit.own                       ? "the firm's own limit"
                                : limit.citation.source.empty() ? "common practice"
                                                                : limit.citation.source));
  }
  return fmt::format("{}", fmt::join(words, "; "));
}

std::string offset_text(int minutes) {
  return fmt::format("{}{:02}:{:02}", minutes < 0 ? '-' : '+', std::abs(minutes) / k_hour, std::abs(minutes) % k_hour);
}

std::string time_text(const ForecastHour& hour) {
  return fmt::format("{}T{:02}:{:02}:00{}", iso(hour.day), hour.minute / k_hour, hour.minute % k_hour,
                     offset_text(hour.offset_minutes));
}

Json number_json(const std::optional<double>& value) {
  return value ? Json(std::round(*value * 100) / 100) : Json(nullptr);
}

std::optional<double> fahrenheit(const ForecastHour& hour) {
  return hour.temperature ? std::optional{hour.temperature->fahrenheit()} : std::nullopt;
}
std::optional<double> low_wind(const ForecastHour& hour) {
  return hour.wind ? std::optional{hour.wind->low_mph} : std::nullopt;
}
std::optional<double> high_wind(const ForecastHour& hour) {
  return hour.wind ? std::optional{hour.wind->high_mph} : std::nullopt;
}

/// Of an hour where the site bars the action, that it does.
std::string_view standing_at(const DayFacts& facts, const JudgedHour& judged) {
  return facts.bars_all() ? k_barred : word(judged.standing);
}

/// "soil systemic: water at 40 ft: no soil drench so near to water [whitmore-2014]", one after the other.
std::string facts_texts(const DayFacts& facts, bool bars) {
  std::vector<std::string> texts;
  for (const DayFact& fact : facts.facts) {
    if (fact.rule.bars != bars) continue;
    const std::string& source = fact.rule.citation.source;
    texts.push_back(fmt::format("{} [{}]", fact_text(facts, fact), source.empty() ? "common practice" : source));
  }
  return fmt::format("{}", fmt::join(texts, "; "));
}

Json pests_json(const std::vector<const rules::Pest*>& pests) {
  Json names = Json::array();
  for (const rules::Pest* pest : pests) names.push_back(pest->id);
  return names;
}

Json site_json(const DayFacts& facts) {
  Json json{{"barred", facts.bars_all()},
            {"listed", facts.is_listed},
            {"pests", pests_json(facts.pests)},
            {"barred_pests", pests_json(facts.barred)},
            {"facts", Json::array()}};
  for (const DayFact& fact : facts.facts) {
    Json actions = Json::array();
    for (const rules::Action action : fact.rule.actions) actions.push_back(rules::name(action));
    const std::string& source = fact.rule.citation.source;
    json["facts"].push_back({{"id", fact.rule.id},
                             {"effect", fact.rule.bars ? "bars" : "warns"},
                             {"actions", std::move(actions)},
                             {"pests", pests_json(fact.pests)},
                             {"fact", fact.rule.fact},
                             {"text", fact.rule.text},
                             {"source", source.empty() ? Json(nullptr) : Json(source)},
                             {"grade", rules::name(fact.rule.citation.grade)}});
  }
  return json;
}

Json hour_json(const DayScreen& screen, const DayFacts& facts, const JudgedHour& judged) {
  const ForecastHour& hour = judged.hour;
  return {{"time", time_text(hour)},
          {"daylight", judged.daylight},
          {"temperature_f", number_json(fahrenheit(hour))},
          {"humidity_percent", number_json(hour.humidity_percent)},
          {"wind_low_mph", number_json(low_wind(hour))},
          {"wind_high_mph", number_json(high_wind(hour))},
          {"wind_direction", hour.wind_direction.empty() ? Json(nullptr) : Json(hour.wind_direction)},
          {"rain_chance_percent", number_json(hour.rain_chance_percent)},
          {"words", hour.words.empty() ? Json(nullptr) : Json(hour.words)},
          {"standing", standing_at(facts, judged)},
          {"ruled_out_by", ids(screen, judged.ruled_out_by)},
          {"flagged_by", ids(screen, judged.flagged_by)},
          {"not_known", ids(screen, judged.not_known)}};
}

}  // namespace

std::string day_text(const DayScreen& screen, const DayFacts& facts, const rules::PestTable& table,
                     const TextStyle& style) {
  return TextWriter{screen, facts, table, style}.written();
}

std::string day_csv(const DayScreen& screen, const DayFacts& facts) {
  const std::string bars = facts_texts(facts, true);
  const std::string warns = facts_texts(facts, false);
  CsvText csv;
  for (const char* name : {"site", "action", "date", "hour", "utc_offset", "daylight", "temperature_f",
                           "humidity_percent", "wind_low_mph", "wind_high_mph", "wind_direction", "rain_chance_percent",
                           "words", "standing", "ruled_out_by", "flagged_by", "not_known", "site_bars", "site_warns"}) {
    csv.plain(name);
  }
  csv.end_row();
  for (const JudgedHour& judged : screen.hours) {
    const ForecastHour& hour = judged.hour;
    csv.text(screen.site).plain(rules::name_in(rules::k_day_action_names, screen.action)).plain(iso(hour.day));
    csv.plain(fmt::format("{:02}:{:02}", hour.minute / k_hour, hour.minute % k_hour));
    csv.plain(offset_text(hour.offset_minutes)).plain(judged.daylight ? "yes" : "no");
    for (const auto& value : {fahrenheit(hour), hour.humidity_percent, low_wind(hour), high_wind(hour)}) {
      csv.number(number_or(value, ""));
    }
    csv.text(hour.wind_direction).number(number_or(hour.rain_chance_percent, "")).text(hour.words);
    csv.plain(standing_at(facts, judged)).plain(texts(screen, judged.ruled_out_by));
    csv.plain(texts(screen, judged.flagged_by));
    csv.plain(fmt::format("{}", fmt::join(ids(screen, judged.not_known), ";")));
    csv.text(bars).text(warns);
    csv.end_row();
  }
  return csv.str();
}

std::string day_json(const DayScreen& screen, const DayFacts& facts) {
  Json json{{"schema", "budclock/day/1"},
            {"site", screen.site},
            {"today", iso(screen.today)},
            {"action", rules::name_in(rules::k_day_action_names, screen.action)},
            {"caution", "The label and the law decide. An hour without a stated limit is no permission."},
            {"limits", Json::array()},
            {"runs", Json::array()},
            {"hours", Json::array()}};
  for (const rules::DayLimit& limit : screen.limits) {
    json["limits"].push_back(
        {{"id", limit.id},
         {"text", limit.text},
         {"source", limit.own || limit.citation.source.empty() ? Json(nullptr) : Json(limit.citation.source)},
         {"grade", rules::name(limit.citation.grade)},
         {"judged", is_stated(screen.ground, limit.measure)},
         {"own", limit.own}});
  }
  json["stated"] = screen.ground.stated;
  json["elsewhere"] = screen.elsewhere.empty() ? Json(nullptr) : Json(screen.elsewhere);
  json["site_facts"] = site_json(facts);
  for (const HourRun& run : facts.bars_all() ? std::vector<HourRun>{} : screen.runs) {
    json["runs"].push_back({{"from", time_text(screen.hours[run.first].hour)}, {"hours", run.count}});
  }
  for (const JudgedHour& hour : screen.hours) json["hours"].push_back(hour_json(screen, facts, hour));
  return json_text(json);
}

}  // namespace budclock::report
