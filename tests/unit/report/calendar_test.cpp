#include <budclock/report/calendar.hpp>

#include "built_site.hpp"

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::report;
using forecast::WindowState;
using rules::WindowKind;

namespace {

using Texts = std::vector<std::string>;

Texts lines(const std::string& text) {
  Texts all;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find("\r\n", at);
    REQUIRE(end != std::string::npos);
    all.push_back(text.substr(at, end - at));
    at = end + 2;
  }
  return all;
}

/// The values of a property, folded lines joined (RFC 5545, 3.1).
Texts values(const std::string& text, const std::string& property) {
  Texts found;
  bool inside = false;
  for (const std::string& line : lines(text)) {
    if (line.starts_with(' ')) {
      if (inside) found.back() += line.substr(1);
      continue;
    }
    inside = line.starts_with(property + ":") || line.starts_with(property + ";");
    if (inside) found.push_back(line.substr(line.find(':') + 1));
  }
  return found;
}

std::string calendar_of(const Built& built) { return calendar({&built.site, 1}); }

struct TwoWindows : Built {
  TwoWindows() {
    add(WindowKind::look, WindowState::open, "2012-04-01", "2012-04-30");
    add(WindowKind::act, WindowState::ahead, "2012-04-20", "2012-04-20");
  }
};

}  // namespace

TEST_CASE("an event lasts whole days from its first to the day after its last") {
  const std::string text = calendar_of(TwoWindows{});
  CHECK(values(text, "DTSTART") == Texts{"20120401", "20120420"});
  CHECK(values(text, "DTEND") == Texts{"20120501", "20120421"});
  CHECK(values(text, "DTSTAMP") == Texts{"20120410T000000Z", "20120410T000000Z"});
  CHECK(values(text, "SUMMARY") ==
        Texts{"Look: Mill Lane: test psyllid: window-0", "Act only if confirmed: Mill Lane: test psyllid: window-1"});
}

TEST_CASE("a window whose end is not known marks its first day only and says so") {
  Built built;
  built.add(WindowKind::look, WindowState::ahead, "2012-04-20", "");
  const std::string text = calendar_of(built);
  CHECK(values(text, "DTEND") == Texts{"20120421"});
  CHECK(values(text, "DESCRIPTION").at(0).find("No end is known") != std::string::npos);
}

TEST_CASE("bans, windows that are over and windows without a day are no events") {
  Built built;
  built.add(WindowKind::abstain, WindowState::open, "2012-04-01", "2012-04-30");
  built.add(WindowKind::look, WindowState::closed, "2012-03-01", "2012-04-01");
  built.add(WindowKind::act, WindowState::none_left, "2012-04-20", "2012-04-10");
  built.add(WindowKind::act, WindowState::not_known, "", "2012-06-10");
  CHECK(values(calendar_of(built), "UID") == Texts{});
}

TEST_CASE("an action that the gate offers is called confirmed") {
  Built built;
  auto& window = built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-04-30");
  window.offered = true;
  window.gate_until = day("2012-04-17");
  CHECK(values(calendar_of(built), "SUMMARY") == Texts{"Confirmed\\, act: Mill Lane: test psyllid: window-0"});
  CHECK(values(calendar_of(built), "DTEND") == Texts{"20120418"});
}

TEST_CASE("an action that is held back by a ban, a find or old weather is no event") {
  Built built;
  auto& window = built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-04-30");
  const auto events = [&] { return values(calendar_of(built), "UID").size(); };
  CHECK(events() == 1);
  rules::Window ban;
  window.barred_by = &ban;
  CHECK(events() == 0);
  window.barred_by = nullptr;
  window.gate.demands = {{&built.pest.observations[1], false, journal::DemandState::contradicted}};
  CHECK(events() == 0);
  window.gate.demands.clear();
  built.site.weather.too_old = true;
  CHECK(events() == 0);
}

TEST_CASE("an event keeps its UID when its dates move, and its sequence grows with the day") {
  TwoWindows today;
  TwoWindows later;
  later.site.today += date::days{3};
  for (auto& window : later.site.pests[0].windows) *window.from += date::days{5};
  const std::string before = calendar_of(today);
  const std::string after = calendar_of(later);
  CHECK(values(before, "UID") == values(after, "UID"));
  CHECK(std::stoi(values(after, "SEQUENCE").at(0)) == std::stoi(values(before, "SEQUENCE").at(0)) + 3);
}

TEST_CASE("another site, pest, stage, window or season has another UID") {
  const std::string base = values(calendar_of(TwoWindows{}), "UID").at(0);
  CHECK(values(calendar_of(TwoWindows{}), "UID").at(1) != base);
  TwoWindows site;
  site.site.site = "Elm";
  CHECK(values(calendar_of(site), "UID").at(0) != base);
  TwoWindows pest;
  pest.pest.id = "other-psyllid";
  pest.site.pests[0].pest = &pest.pest;
  CHECK(values(calendar_of(pest), "UID").at(0) != base);
  TwoWindows stage;
  stage.windows[0].stages = {"hatch"};
  CHECK(values(calendar_of(stage), "UID").at(0) != base);
  TwoWindows season;
  *season.site.pests[0].windows[0].from += date::days{366};
  CHECK(values(calendar_of(season), "UID").at(0) != base);
}

TEST_CASE("hostile names cannot add lines, and no line is longer than 75 octets or cut inside a character") {
  TwoWindows built;
  built.site.site = "M\xC3\xBChle;\r\nBEGIN:VALARM,\\ " + std::string(40, 'x');
  for (int i = 0; i < 60; ++i) built.site.site += "\xC3\xA9";
  const std::string text = calendar_of(built);
  for (const std::string& line : lines(text)) {
    CHECK(line.size() <= 75);
    CHECK_FALSE(line.starts_with("BEGIN:VALARM"));
    CHECK(line.find_first_of("\r\n") == std::string::npos);
    if (line.size() > 1 && line[0] == ' ') CHECK((static_cast<unsigned char>(line[1]) & 0xC0) != 0x80);
  }
  CHECK(values(text, "LOCATION").at(0).find("hle\\;") != std::string::npos);
}

TEST_CASE("an action's event says what must never be done about its pest") {
  Built built;
  built.pest.do_not = {{"No oil on blue testwood.", {}}};
  built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-04-30");
  CHECK(values(calendar_of(built), "DESCRIPTION").at(0).find("! No oil on blue testwood.") != std::string::npos);
}
