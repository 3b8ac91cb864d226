// Safety facts and the firm's limits: what is read, every fault in its place, and what the facts make of actions.
#include <budclock/rules/load.hpp>
#include <budclock/sites/day_facts.hpp>
#include <budclock/sites/restrictions.hpp>

#include "site_files.hpp"

#include <algorithm>
#include <cmath>

using namespace budclock;
using namespace budclock::sites;

namespace {

const Day k_today = *parse_iso_day("2012-04-10");

const rules::PestTable& shipped() {
  static const rules::PestTable table = [] {
    Diagnostics found;
    return rules::load(rules::shipped_files(), found);
  }();
  return table;
}

/// A sites file of one site with these facts.
std::string file_with(const std::string& plants, const std::string& facts, const std::string& more = "") {
  return "{\"schema\": \"budclock/sites/1\", \"sites\": [\n{\"name\": \"Garden\", \"place\": {\"latitude\": 40, "
         "\"longitude\": -80}, \"weather\": {\"sources\": [{\"files\": [\"a.csv\"]}]}, \"plants\": [" +
         plants + "],\n\"safety\": {" + facts + "}" + more + "}]}";
}

site_files::Loaded load_text(const std::string& text) {
  site_files::Loaded loaded;
  loaded.list = load_sites(text, text.starts_with('{') ? "s.json" : "s.csv", shipped(), loaded.diagnostics, k_today);
  return loaded;
}

Site site_with(const std::string& plants, const std::string& facts) {
  const auto loaded = load_text(file_with(plants, facts));
  for (const std::string& text : loaded.texts()) FAIL_CHECK(text);
  REQUIRE(loaded.list.sites.size() == 1);
  return loaded.list.sites[0];
}

/// "bars water-drench: soil systemic; ..." of a pest at a site.
std::string said(const Site& site, const std::string& pest, const std::string& host = "", Day today = k_today) {
  std::string text;
  for (const auto& each : Restrictions{site, shipped(), today}.on(*shipped().find_pest(pest), host)) {
    text += (each.bars ? "bars " : "warns ") + each.id + ": " + each.fact + "\n";
  }
  return text;
}

/// "barred: a b; free: c", then the facts with the pests they concern.
std::string day_said(const Site& site, rules::DayAction action) {
  const DayFacts facts = day_facts(site, shipped(), action, k_today);
  std::string text = facts.is_listed ? "" : "not listed; ";
  for (const rules::Pest* pest : facts.pests) {
    const bool barred = std::find(facts.barred.begin(), facts.barred.end(), pest) != facts.barred.end();
    text += (barred ? "barred " : "free ") + pest->id + "; ";
  }
  for (const DayFact& fact : facts.facts) {
    text += (fact.rule.bars ? "\nbars " : "\nwarns ") + fact.rule.id + ":";
    for (const rules::Pest* pest : fact.pests) text += " " + pest->id;
  }
  return text + (facts.bars_all() ? "\nall barred" : "");
}

}  // namespace

TEST_CASE("no safety fact is taken as stated before it is") {
  const Site site = site_with("\"boxwood\"", "");
  CHECK(not_stated(site.safety, k_today).size() == 10);
  CHECK(said(site, "boxwood-psyllid").empty());
  const Site all = site_with("\"boxwood\"", R"json("state": "oh", "water": "no", "in_bloom": [],
    "due_to_bloom": ["none"], "hives": "no", "oil_sensitive": [], "predators": [], "children_or_pets": "no",
    "soil": "moist (2012-04-08)", "drought": "no (2012-04-03)")json");
  CHECK(not_stated(all.safety, k_today).empty());
  CHECK(all.safety.state == "OH");
  CHECK(said(all, "boxwood-psyllid").empty());
  CHECK(not_stated(all.safety, k_today + date::days{1}) == std::vector<std::string>{"drought this week"});
}

TEST_CASE("every fault of the facts is told at once with its place and remedy, and the site is set aside") {
  const auto loaded = load_text(file_with("\"boxwood\"", R"json("state": "XX",
"water": "-5 ft",
"hives": "12",
"in_bloom": ["boxwod (2012-04-08)", "boxwood (2012-04-11)", "boxwood (April)"],
"due_to_bloom": "boxwood",
"oil_sensitive": ["quinquefoil"],
"predators": ["Laricobius nigrinus (2012-05-01)"],
"children_or_pets": "perhaps",
"soil": "dry",
"drought": "maybe (2012-04-08)",
"pond": "yes")json",
                                          R"json(,
"limits": ["wnd 8", "wind -1", "oil-humidity 101 flags", "wind", "soil-state 4", "wind 8 stops"])json"));
  CHECK(loaded.list.sites.empty());
  REQUIRE(loaded.list.set_aside.size() == 1);
  CHECK(loaded.list.set_aside[0].name == "Garden");
  const std::vector<std::string> starts{
      "s.json:3:21: \"XX\" is no state's postal code at /sites/0/safety/state: write the two-letter",
      "s.json:4:10: \"-5 ft\" is no distance at /sites/0/safety/water: write a number above zero and its unit",
      "s.json:5:10: \"12\" is no distance",
      "s.json:6:14: no plant here is called \"boxwod\" at /sites/0/safety/in_bloom/0: did you mean \"boxwood\"?",
      "s.json:6:37: 2012-04-11 lies in the future",
      "s.json:6:61: \"boxwood (April)\" ends with no day",
      "s.json:7:17: ",
      "s.json:8:19: no plant here is called \"quinquefoil\"",
      "s.json:9:15: 2012-05-01 lies in the future",
      "s.json:10:21: \"perhaps\" is not known here",
      "s.json:11:9: when \"dry\" was noted is not said",
      "s.json:12:12: \"maybe\" is not known here",
      "s.json:13:1: unknown key \"pond\"",
      "s.json:14:12: no limit is called \"wnd\" at /sites/0/limits/0: did you mean \"wind\"?",
      "s.json:14:21: -1 is no value of the limit \"wind\"",
      "s.json:14:32: 101 is no value of the limit \"oil-humidity\" at /sites/0/limits/2: write a number from 0 to 100",
      "s.json:14:58: \"wind\" says neither a value nor an effect",
      "s.json:14:66: 4 is no value of the limit \"soil-state\"",
      "s.json:14:82: \"wind 8 stops\" says neither",
  };
  const auto texts = loaded.texts();
  REQUIRE(texts.size() == starts.size());
  for (std::size_t i = 0; i < starts.size(); ++i) {
    INFO(starts[i]);
    CHECK(texts[i].substr(0, starts[i].size()) == starts[i]);
  }
}

TEST_CASE("a state by its name is told its code") {
  const auto texts = load_text(file_with("", "\"state\": \"Maine\"")).texts();
  REQUIRE(texts.size() == 1);
  CHECK(texts[0].ends_with("write \"ME\""));
}

TEST_CASE("cells hold the same facts as JSON") {
  const auto loaded = load_text(
      "name,latitude,longitude,weather,plants,state,water,in_bloom,due_to_bloom,hives,oil_sensitive,predators,"
      "children_or_pets,soil,drought,limits\n"
      "Garden,40,-80,a.csv,boxwood,ME,20 m,clover; boxwood (2012-04-08),none,yes,boxwood,Laricobius,yes,dry "
      "(2012-04-08),yes (2012-04-08),wind 8; calm rules out\n");
  for (const std::string& text : loaded.texts()) FAIL_CHECK(text);
  REQUIRE(loaded.list.sites.size() == 1);
  const Site& csv = loaded.list.sites[0];
  const Site json = site_with("\"boxwood\"", R"json("state": "ME", "water": "20 m",
    "in_bloom": ["clover", "boxwood (2012-04-08)"], "due_to_bloom": [], "hives": "yes", "oil_sensitive": ["boxwood"],
    "predators": ["Laricobius"], "children_or_pets": "yes", "soil": "dry (2012-04-08)",
    "drought": "yes (2012-04-08)")json");
  CHECK(csv.safety == json.safety);
  REQUIRE(csv.limits.size() == 2);
  CHECK(csv.limits[0].value == 8);
  CHECK(csv.limits[1].effect == rules::Effect::rules_out);
  CHECK(std::abs(*csv.safety.water->feet - 65.6168) < 0.001);
}

TEST_CASE("the firm's limits come before a site's own, and a bad one spoils the file, for it is every site's") {
  const std::string text = file_with("\"boxwood\"", "", R"json(, "limits": ["wind 6"])json");
  const auto good = load_text(site_files::changed(text, "\"sites\"", "\"limits\": [\"wind 8\"], \"sites\""));
  REQUIRE(good.list.sites.size() == 1);
  REQUIRE(good.list.sites[0].limits.size() == 2);
  CHECK(good.list.sites[0].limits[1].value == 6);
  const auto bad = load_text(site_files::changed(text, "\"sites\"", "\"limits\": [\"wimd 8\"], \"sites\""));
  CHECK(bad.list.sites.empty());
  REQUIRE(bad.texts().size() == 1);
  CHECK(bad.texts()[0].find("no limit is called \"wimd\" at /limits/0") != std::string::npos);
}

TEST_CASE("water nearer than a source allows bars a drench, farther away it warns, and near without a distance bars") {
  const auto at = [](const char* water) {
    return said(site_with("\"eastern hemlock\"", std::string{"\"water\": \""} + water + "\""),
                "hemlock-woolly-adelgid");
  };
  CHECK(at("74 ft") == "bars water-drench: water at 74 ft\nwarns water: water at 74 ft\n");
  CHECK(at("75 ft") == "warns water: water at 75 ft\n");
  CHECK(at("20 m") == "bars water-drench: water at 20 m\nwarns water: water at 20 m\n");
  CHECK(at("yes") == "bars water-drench: water near\nwarns water: water near\n");
  CHECK(at("no").empty());
}

TEST_CASE("a plant in bloom bars on the pest's host and warns elsewhere; noted later it is not known yet") {
  const Site site = site_with("\"boxwood hedge\", \"eastern hemlock\"", "\"in_bloom\": [\"boxwood (2012-04-08)\"]");
  CHECK(said(site, "boxwood-psyllid") == "bars bloom-host: boxwood in bloom (noted 2012-04-08)\n");
  CHECK(said(site, "hemlock-woolly-adelgid") == "warns bloom-other: boxwood in bloom (noted 2012-04-08)\n");
  CHECK(said(site, "boxwood-psyllid", "", k_today - date::days{3}).empty());
}

TEST_CASE("what was due to bloom by today counts as in bloom") {
  const Site site = site_with("\"boxwood\"", "\"due_to_bloom\": [\"boxwood (2012-04-12)\"]");
  CHECK(said(site, "boxwood-psyllid") ==
        "bars bloom-due-host: boxwood due to bloom on 2012-04-12\n"
        "warns bloom-due-host-spray: boxwood due to bloom on 2012-04-12\n");
  CHECK(said(site, "boxwood-psyllid", "", k_today + date::days{2}) ==
        "bars bloom-host: boxwood due to bloom since 2012-04-12\n");
}

TEST_CASE("a bloom of an earlier year is not stated for this one") {
  const Site site = site_with("\"boxwood\"", "\"in_bloom\": [\"boxwood (2011-04-08)\"], \"due_to_bloom\": []");
  CHECK(said(site, "boxwood-psyllid").empty());
  const auto missing = not_stated(site.safety, k_today);
  CHECK(std::count(missing.begin(), missing.end(), "plants in bloom") == 1);
  CHECK(std::count(missing.begin(), missing.end(), "plants due to bloom") == 0);
}

TEST_CASE("oil is barred where all plants of the host are blue, and warned of where some are") {
  const auto at = [](const char* plants, const char* host) {
    return said(site_with(plants, ""), "cooley-spruce-gall-adelgid", host);
  };
  CHECK(at("\"blue spruce\"", "spruce") == "bars blue-foliage: blue spruce\n");
  CHECK(at("\"blue spruce\", \"Norway spruce\"", "spruce") == "warns blue-foliage: blue spruce\n");
  CHECK(at("\"blue spruce\", \"Douglas-fir\"", "Douglas-fir").empty());
  CHECK(at("\"spruce\"", "spruce").empty());
}

TEST_CASE("a state's law warns of what it restricts there, and New York's on hemlock of hemlock only") {
  CHECK(said(site_with("\"eastern hemlock\"", "\"state\": \"ME\""), "hemlock-woolly-adelgid") ==
        "warns maine: the law of Maine\n");
  const Site york = site_with("\"eastern hemlock\", \"grape\"", "\"state\": \"NY\"");
  CHECK(said(york, "hemlock-woolly-adelgid") ==
        "warns new-york-hemlock: the law of New York\nwarns states-further: the law of New York\n");
  CHECK(said(york, "grape-phylloxera-leaf-form") == "warns states-further: the law of New York\n");
  CHECK(said(site_with("\"eastern hemlock\"", "\"state\": \"OH\""), "hemlock-woolly-adelgid").empty());
}

TEST_CASE("unfit soil bars a drench for a week after it was noted, drought bars oil") {
  const Site site =
      site_with("\"eastern hemlock\"", "\"soil\": \"frozen (2012-04-08)\", \"drought\": \"yes (2012-04-08)\"");
  CHECK(said(site, "hemlock-woolly-adelgid") ==
        "bars soil-unfit: soil frozen (noted 2012-04-08)\nbars drought: drought (noted 2012-04-08)\n");
  CHECK(said(site, "hemlock-woolly-adelgid", "", k_today + date::days{5}) ==
        "bars soil-unfit: soil frozen (noted 2012-04-08)\nbars drought: drought (noted 2012-04-08)\n");
  CHECK(said(site, "hemlock-woolly-adelgid", "", k_today + date::days{6}).empty());
}

TEST_CASE("a row that cannot be split is a site of its own, named by its line") {
  const auto loaded = load_text(
      "name,latitude,longitude,weather\nOne,40,-80,a.csv\nTwo,40,-80,b.csv,more\nThree,40,-80,\"c.csv\"x\n"
      "Four,40,-80,d.csv\n");
  REQUIRE(loaded.list.sites.size() == 2);
  REQUIRE(loaded.list.set_aside.size() == 2);
  CHECK(loaded.list.set_aside[0].name == "line 3");
  CHECK(loaded.list.set_aside[0].place.line == 3);
  CHECK(loaded.list.set_aside[1].name == "line 4");
}

TEST_CASE("a day's action is barred where it is for every pest that it could be used against, and only there") {
  const std::string hemlock = "\"eastern hemlock\"";
  CHECK(day_said(site_with(hemlock, R"("water": "40 ft")"), rules::DayAction::systemic) ==
        "barred hemlock-woolly-adelgid; \nbars water-drench: hemlock-woolly-adelgid"
        "\nwarns water: hemlock-woolly-adelgid\nall barred");
  CHECK(day_said(site_with(hemlock, R"("water": "90 ft")"), rules::DayAction::systemic) ==
        "free hemlock-woolly-adelgid; \nwarns water: hemlock-woolly-adelgid");
  CHECK(day_said(site_with(hemlock, R"("oil_sensitive": ["eastern hemlock"])"), rules::DayAction::oil) ==
        "barred hemlock-woolly-adelgid; \nbars oil-sensitive: hemlock-woolly-adelgid\nall barred");
  CHECK(day_said(site_with("\"boxwood\", \"eastern hemlock\"", R"j("in_bloom": ["boxwood (2012-04-08)"])j"),
                 rules::DayAction::contact) ==
        "barred boxwood-psyllid; free hemlock-woolly-adelgid; \nbars bloom-host: boxwood-psyllid"
        "\nwarns bloom-other: hemlock-woolly-adelgid");
}

TEST_CASE("what the site bars is barred for an action that no pest of the site asks for") {
  CHECK(day_said(site_with("\"boxwood\"", R"("water": "40 ft")"), rules::DayAction::systemic) ==
        "not listed; barred boxwood-psyllid; \nbars water-drench: boxwood-psyllid\nwarns water: boxwood-psyllid"
        "\nall barred");
}
