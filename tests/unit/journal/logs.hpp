// A pest made up for tests, and how to read a log about it.
#pragma once

#include <budclock/journal/log.hpp>

#include <catch2/catch.hpp>
#include <string>
#include <vector>

namespace logs {

using budclock::Day;

inline Day day(const char* text) { return budclock::parse_iso_day(text).value(); }

inline budclock::rules::Trigger trigger(const std::string& id, budclock::rules::Cue cue) {
  budclock::rules::Trigger trigger;
  trigger.id = id;
  trigger.cue = std::move(cue);
  return trigger;
}

inline budclock::rules::PestTable pests() {
  using namespace budclock::rules;
  Pest pest;
  pest.id = "test-psyllid";
  pest.name = "test psyllid";
  Count count;
  count.id = "plain";
  count.start.value = date::March / 1;
  pest.counts.push_back(count);
  const auto cue = [](double sum) {
    DegreeDayCue degree_days;
    degree_days.count = "plain";
    degree_days.sum = budclock::DegreeDays::fahrenheit_days(sum);
    return degree_days;
  };
  AfterStageCue after;
  after.stage = "adult";
  pest.stages = {{"hatch", "egg hatch", "", {trigger("a", cue(100))}, {}},
                 {"adult", "adults", "", {trigger("b", cue(300))}, {}},
                 {"galls", "galls", "", {trigger("c", after)}, {}},
                 {"rest", "rest", "", {trigger("d", CalendarCue{date::January / 1, date::January / 1})}, {}}};
  pest.observations = {{"open-buds", "buds open", 14, {}}, {"nymphs", "nymphs", 7, {}}, {"cupping", "cupped", {}, {}}};
  Pest other;
  other.id = "other-psyllid";
  other.name = "other psyllid";
  other.also_called = {"jumping lice"};
  pest.also_called = {"jumping lice"};
  PestTable table;
  table.pests = {other, pest};
  return table;
}

struct Read {
  std::vector<budclock::journal::Sighting> log;
  budclock::Diagnostics diagnostics;
  std::vector<std::string> texts() const {
    std::vector<std::string> all;
    for (const auto& diagnostic : diagnostics) all.push_back(to_text(diagnostic));
    return all;
  }
};

inline Read read(const std::string& text) {
  static const budclock::rules::PestTable table = pests();
  Read read;
  read.log =
      budclock::journal::read_log(text, "log.csv", {table, {"Mill Lane", "=Elm"}, day("2014-06-30")}, read.diagnostics);
  return read;
}

inline const std::string k_header = "date,site,pest,stage,saw,not_saw,not_found,count,plant,by,note\n";

}  // namespace logs
