#include <budclock/rules/load.hpp>
#include <budclock/rules/names.hpp>

#include "rule_files.hpp"

#include <algorithm>
#include <set>

using namespace budclock;
using namespace budclock::rules;
using rule_files::changed;
using rule_files::load_pest;
using rule_files::Loaded;
using rule_files::read;

namespace {

using Texts = std::vector<std::string>;

/// What is said of the test pest with `from` replaced by `to`; it must then contribute nothing.
Texts said_after(const std::string& from, const std::string& to) {
  const Loaded loaded = load_pest(changed(read("test-psyllid.json"), from, to));
  CHECK(loaded.table.pests.empty());
  CHECK(loaded.table.sources.size() == 2);
  return loaded.texts();
}

const std::string k_file = "pests/test-psyllid.json:";

}  // namespace

TEST_CASE("a sound set of files becomes plain values") {
  const Loaded loaded = load_pest(read("test-psyllid.json"));
  CHECK(loaded.texts() == Texts{});
  const Pest* pest = loaded.table.find_pest("test-psyllid");
  REQUIRE(pest);
  CHECK(pest->name == "test psyllid");
  CHECK(pest->scientific_names == Texts{"Psylla ficta", "Psylla imaginaria"});
  CHECK(pest->hosts.at(0).also_called == Texts{"fictwood"});
  CHECK(pest->need == Need::rarely);
  CHECK(pest->need_text.text == "Tolerate it first.");
  CHECK(pest->life_cycle.at(0).reached_by.empty());
  CHECK(pest->life_cycle.at(1).reached_by == std::vector{Action::contact, Action::soap});
  CHECK(pest->observations.at(0).valid_days == 14);
  CHECK_FALSE(pest->observations.at(1).valid_days);
  CHECK(pest->observations.at(1).citation.grade == Grade::common_practice);
  CHECK(pest->do_not.at(0).text == "No soil systemic.");
  CHECK(pest->conflicts.at(0).citation.source == "second-undated");
  CHECK(pest->sample->text == "Ten tips.");
  CHECK(pest->action_threshold->text == "Half the tips.");
  CHECK(pest->follow_up->success.text == "Flat leaves.");
  CHECK(pest->cautions == Texts{"bees"});
  CHECK(loaded.table.find_source("first-2001")->locator == "p. 1");
  CHECK(loaded.table.find_source("second-undated")->year == "undated");
  CHECK(loaded.table.find_caution("label")->citation.grade == Grade::common_practice);
  CHECK(loaded.table.find_pest("nothing") == nullptr);
}

TEST_CASE("a count keeps its thresholds as printed and on the grid, and what is assumed") {
  const Loaded loaded = load_pest(read("test-psyllid.json"));
  const Pest& pest = loaded.table.pests.at(0);
  const Count& plain = *find_count(pest, "plain");
  CHECK(plain.unit == TemperatureUnit::fahrenheit);
  CHECK(plain.lower == Temperature::celsius(10));
  CHECK(plain.lower_printed == "50");
  CHECK_FALSE(plain.upper);
  CHECK_FALSE(plain.method.assumed);
  CHECK(formula(plain) == degree_day::Formula{degree_day::Method::average, degree_day::Cutoff::none,
                                              Temperature::fahrenheit(50), std::nullopt});
  const Count& curved = *find_count(pest, "curved");
  CHECK(curved.lower == Temperature::celsius(4.5));
  CHECK(curved.upper == Temperature::celsius(30));
  CHECK(curved.upper_printed == "30");
  CHECK(curved.method.assumed);
  CHECK(curved.method.note == "Not stated.");
  CHECK(curved.method.alternatives ==
        std::vector{degree_day::Method::single_triangle, degree_day::Method::double_sine});
  CHECK(curved.cutoff.value == degree_day::Cutoff::horizontal);
  CHECK(iso(curved.start.value) == "03-01");
  CHECK(iso(curved.start.alternatives.at(1)) == "02-29");
}

TEST_CASE("each kind of cue is read") {
  const Loaded loaded = load_pest(read("test-psyllid.json"));
  const Pest& pest = loaded.table.pests.at(0);
  const Trigger& hatch = *find_trigger(pest, "hatch-plain");
  const auto& figure = std::get<DegreeDayCue>(hatch.cue);
  CHECK(figure.printed == "1,010");
  CHECK(figure.sum == DegreeDays::fahrenheit_days(1010));
  CHECK(figure.meaning == Meaning::first_occurrence);
  CHECK(hatch.use == Use::date);
  CHECK(hatch.citation.region == "Ohio");
  CHECK(std::get<DegreeDayCue>(find_trigger(pest, "hatch-low")->cue).sum == DegreeDays::fahrenheit_days(80.5));
  const auto& buds = std::get<PlantCue>(find_trigger(pest, "hatch-buds")->cue);
  CHECK(buds.observation == "open-buds");
  CHECK(buds.degree_days->sum == DegreeDays::celsius_days(30));
  CHECK_FALSE(std::get<PlantCue>(find_trigger(pest, "hatch-end")->cue).degree_days);
  CHECK(iso(std::get<CalendarCue>(find_trigger(pest, "adult-calendar")->cue).to) == "06-15");
  CHECK(std::get<AfterStageCue>(find_trigger(pest, "adult-after")->cue).days == 30);
  CHECK(std::get<AfterStageCue>(find_trigger(pest, "adult-after-warmth")->cue).degree_days->printed == "300");
  const auto& light = std::get<DayLengthCue>(find_trigger(pest, "adult-light")->cue);
  CHECK(light.hours == 13.5);
  CHECK_FALSE(light.rising);
  CHECK(light.sun_below_horizon_degrees == 6);
  const auto& soil = std::get<SoilTemperatureCue>(find_trigger(pest, "adult-soil")->cue);
  CHECK(soil.value == Temperature::celsius(7.2));
  CHECK_FALSE(soil.rising);
  CHECK(find_trigger(pest, "nothing") == nullptr);
}

TEST_CASE("a window keeps its edges, gate and host") {
  const Loaded loaded = load_pest(read("test-psyllid.json"));
  const Window& spray = loaded.table.pests.at(0).windows.at(1);
  CHECK(spray.kind == WindowKind::act);
  CHECK(spray.opens.take == Direction::latest);
  CHECK(spray.closes.triggers == Texts{"hatch-end"});
  CHECK(spray.gate.seen == Texts{"open-buds", "nymphs"});
  CHECK(spray.gate.absent == Texts{"cupping"});
  CHECK(spray.host == "testwood");
  CHECK(loaded.table.pests.at(0).windows.at(0).gate.empty());
}

TEST_CASE("a name that refers to nothing gets the nearest one") {
  CHECK(said_after("\"count\": \"plain\"", "\"count\": \"plian\"") ==
        Texts{k_file + "35:43: there is no count \"plian\" at /stages/0/begins/0/cue/degree_days/count: did you mean "
                       "\"plain\"?"});
  CHECK(said_after("\"observation\": \"cupping\"", "\"observation\": \"cuping\"") ==
        Texts{k_file +
              "48:108: there is no observation \"cuping\" at /stages/0/ends/0/cue/plant_cue/observation: did you "
              "mean \"cupping\"?"});
  CHECK(said_after("\"begins\": [", "\"shown_by\": [\"nymhps\"], \"begins\": [")
            .front()
            .ends_with("there is no observation \"nymhps\" at /stages/0/shown_by/0: did you mean \"nymphs\"?"));
  CHECK(said_after("\"stage\": \"hatch\"", "\"stage\": \"hatched\"") ==
        Texts{k_file +
              "55:102: there is no stage \"hatched\" at /stages/1/begins/1/cue/after_stage/stage: did you mean "
              "\"hatch\"?"});
  CHECK(said_after("\"hatch-plain\", \"hatch-low\"", "\"hatch-plain\", \"hatch-lo\"") ==
        Texts{k_file + "70:64: there is no trigger \"hatch-lo\" at /windows/0/opens/triggers/1: did you mean "
                       "\"hatch-low\"?"});
  CHECK(said_after("[\"label\", \"bees\"]", "[\"label\", \"beez\"]") ==
        Texts{k_file + "77:100: there is no caution \"beez\" at /windows/1/cautions/1: did you mean \"bees\"?"});
  CHECK(said_after("\"host\": \"testwood\"", "\"host\": \"oak\"") ==
        Texts{k_file + "78:14: there is no host \"oak\" at /windows/1/host: write one of: testwood"});
  CHECK(said_after("\"source\": \"first-2001\", \"where\": \"p. 2\"",
                   "\"source\": \"first-2010\", \"where\": \"p. 2\"") ==
        Texts{k_file + "13:127: there is no source \"first-2010\" at /life_cycle/0/citation/source: did you mean "
                       "\"first-2001\"?"});
}

TEST_CASE("an id stands once and in its form, and the pest's is its file's name") {
  CHECK(said_after("\"id\": \"curved\"", "\"id\": \"plain\"").front() ==
        k_file + "19:13: the id \"plain\" stands twice at /counts/1/id: give each its own");
  CHECK(said_after("\"id\": \"adult-calendar\"", "\"id\": \"hatch-plain\"").front() ==
        k_file + "54:16: the id \"hatch-plain\" stands twice at /stages/1/begins/0/id: give each its own");
  CHECK(said_after("\"id\": \"no-oil\"", "\"id\": \"No oil\"") ==
        Texts{k_file + "79:12: \"No oil\" is no id at /windows/2/id: use lower-case letters, digits and hyphens only"});
  CHECK(said_after("\"id\": \"test-psyllid\"", "\"id\": \"text-psyllid\"") ==
        Texts{k_file +
              "3:9: the id \"text-psyllid\" is not the name of its file at /id: write \"test-psyllid\", or name "
              "the file text-psyllid.json"});
}

TEST_CASE("a figure may have its scatter, in its own unit and below itself") {
  const auto with = [](const std::string& scatter) {
    return changed(read("test-psyllid.json"), "\"printed\": \"120\"",
                   "\"printed\": \"120\", \"scatter\": \"" + scatter + "\"");
  };
  const Loaded loaded = load_pest(with("14.4"));
  CHECK(loaded.texts().empty());
  const Pest& pest = loaded.table.pests.at(0);
  CHECK(std::get<DegreeDayCue>(find_trigger(pest, "hatch-high")->cue).scatter == DegreeDays::fahrenheit_days(14.4));
  CHECK_FALSE(std::get<DegreeDayCue>(find_trigger(pest, "hatch-plain")->cue).scatter);
  for (const char* scatter : {"0", "120", "130"}) {
    CAPTURE(scatter);
    REQUIRE(load_pest(with(scatter)).texts().size() == 1);
    CHECK(load_pest(with(scatter))
              .texts()
              .front()
              .find("a scatter lies between zero and the figure itself at "
                    "/stages/0/begins/2/cue/degree_days/scatter") != std::string::npos);
  }
}

TEST_CASE("a figure is one number as printed") {
  CHECK(said_after("\"printed\": \"120\"", "\"printed\": \"120-150\"") ==
        Texts{k_file +
              "41:63: \"120-150\" is no number at /stages/0/begins/2/cue/degree_days/printed: write one number as "
              "printed, such as \"179\" or \"1,010\"; two for a range are two triggers"});
  for (const char* text : {"1e3", "12,0", "1,01", ",120", "120,", "nan", "inf", "+120", " 120", "0x78", "1.2.3", "-"}) {
    INFO(text);
    CHECK(said_after("\"printed\": \"120\"", std::string{"\"printed\": \""} + text + "\"").size() == 1);
  }
  CHECK(said_after("\"printed\": \"120\"", "\"printed\": \"-1\"") ==
        Texts{k_file +
              "41:63: -1 is out of range at /stages/0/begins/2/cue/degree_days/printed: write a number from 0 to "
              "20000"});
  CHECK(said_after("\"lower\": \"50\"", "\"lower\": \"500\"") ==
        Texts{k_file + "17:43: 500 is out of range at /counts/0/lower: write a number from -20 to 120"});
}

TEST_CASE("a count that no formula can follow is refused") {
  const auto one_at = [](const Texts& texts, const std::string& place) {
    REQUIRE(texts.size() == 1);
    CHECK(texts.front().substr(0, place.size()) == place);
    CHECK(texts.front().find("at /counts/") != std::string::npos);
  };
  one_at(said_after("\"upper\": \"30\"", "\"upper\": \"4.5\""), k_file + "18:5:");
  one_at(said_after("\"upper\": \"30\"", "\"upper\": \"4\""), k_file + "18:5:");
  one_at(said_after(", \"upper\": \"30\"", ""), k_file + "18:5:");
  one_at(said_after("\"method\": {\"value\": \"average\"}, \"cutoff\": {\"value\": \"none\"}",
                    "\"method\": {\"value\": \"average\"}, \"cutoff\": {\"value\": \"vertical\"}"),
         k_file + "17:5:");
}

TEST_CASE("an alternative must make a formula too") {
  CHECK(said_after("[\"single-triangle\", \"double-sine\"], \"note\": \"Not stated.\"},\n      \"cutoff\": {\"value\": "
                   "\"horizontal\"",
                   "[\"average\"]},\n      \"cutoff\": {\"value\": \"vertical\"")
            .size() == 1);
}

TEST_CASE("alternatives need an assumption") {
  CHECK(said_after("{\"value\": \"03-01\", \"assumed\": true,", "{\"value\": \"03-01\",") ==
        Texts{k_file +
              "22:51: alternatives stand beside a stated value at /counts/1/start/alternatives: add \"assumed\": "
              "true, or remove them"});
}

TEST_CASE("no figure stands on common practice, a calendar range may") {
  const Texts said = said_after(
      "\"citation\": {\"source\": \"first-2001\", \"where\": \"table 1\", \"region\": \"Ohio\", "
      "\"grade\": \"seen\", \"note\": \"As printed.\"}",
      "\"citation\": {\"grade\": \"common practice\"}");
  CHECK(said ==
        Texts{k_file + "36:22: a figure stands on common practice at /stages/0/begins/0/citation: name the source "
                       "it is printed in, or remove the figure"});
  CHECK(said_after("\"days\": 30}}, \"citation\": {\"source\": \"first-2001\"}",
                   "\"days\": 30}}, \"citation\": {\"grade\": \"common practice\"}")
            .size() == 1);
}

TEST_CASE("a citation names a source or owns up to common practice, not both") {
  CHECK(
      said_after("\"need\": {\"usually\": \"rarely\", \"text\": \"Tolerate it first.\", \"citation\": {\"source\": "
                 "\"first-2001\"}}",
                 "\"need\": {\"usually\": \"rarely\", \"text\": \"Tolerate it first.\", \"citation\": {\"region\": "
                 "\"Ohio\"}}") ==
      Texts{k_file + "11:75: no source is named at /need/citation: add \"source\", or \"grade\": \"common practice\""});
  CHECK(said_after("{\"source\": \"second-undated\", \"grade\": \"quoted\"}",
                   "{\"source\": \"second-undated\", \"grade\": \"common practice\"}")
            .front() == k_file +
                            "39:22: common practice has no source at /stages/0/begins/1/citation: grade it \"seen\" or "
                            "\"quoted\", or remove the source");
}

TEST_CASE("a range has its low end first") {
  CHECK(said_after("\"printed\": \"120\"", "\"printed\": \"80\"") ==
        Texts{k_file + "31:5: a range of count \"plain\" has its low end above its high end at /stages/0: swap \"range "
                       "low\" and \"range high\", or correct the figures"});
}

TEST_CASE("stages may not wait for one another in a circle") {
  CHECK(
      said_after("\"cue\": {\"plant_cue\": {\"observation\": \"open-buds\", \"degree_days\": {\"count\": \"curved\", "
                 "\"printed\": \"30\", \"meaning\": \"mean\"}}}",
                 "\"cue\": {\"after_stage\": {\"stage\": \"adult\"}}") ==
      Texts{k_file + "31:5: the stage \"hatch\" waits for itself to begin at /stages/0: begin it, or a stage it waits "
                     "for, by another cue",
            k_file + "51:5: the stage \"adult\" waits for itself to begin at /stages/1: begin it, or a stage it waits "
                     "for, by another cue"});
}

TEST_CASE("a cue is of exactly one kind") {
  CHECK(said_after("\"cue\": {\"calendar\":", "\"cue\": {\"calender\":") ==
        Texts{k_file + "54:79: \"calender\" is no kind of cue at /stages/1/begins/0/cue/calender: did you mean "
                       "\"calendar\"?"});
  CHECK(said_after("\"cue\": {\"calendar\": {\"from\": \"05-20\", \"to\": \"06-15\"}}", "\"cue\": {}") ==
        Texts{k_file +
              "54:78: a cue has one member, this one has 0 at /stages/1/begins/0/cue: write one of degree_days, "
              "calendar, after_stage, day_length, plant_cue, soil_temperature"});
  CHECK(said_after("\"days\": 30}",
                   "\"days\": 30, \"degree_days\": {\"count\": \"plain\", \"printed\": \"1\", \"meaning\": "
                   "\"mean\"}}")
            .front() == k_file +
                            "55:92: both \"degree_days\" and \"days\" stand here at "
                            "/stages/1/begins/1/cue/after_stage: make two triggers of them");
}

TEST_CASE("a window to act has a gate, the narrow edges and the label") {
  CHECK(said_after("     \"gate\": {\"seen\": [\"open-buds\", \"nymphs\"], \"absent\": [\"cupping\"]},\n", "") ==
        Texts{k_file +
              "73:5: a window to act has no gate at /windows/1: add what a scout must have seen, or not found, to "
              "\"gate\""});
  CHECK(said_after("\"seen\": [\"open-buds\", \"nymphs\"], \"absent\": [\"cupping\"]", "").size() == 1);
  CHECK(said_after("\"opens\": {\"take\": \"latest\"", "\"opens\": {\"take\": \"earliest\"") ==
        Texts{k_file + "74:24: a window to act opens at the latest of its triggers at /windows/1/opens/take: write "
                       "\"latest\""});
  CHECK(said_after("\"closes\": {\"take\": \"earliest\"", "\"closes\": {\"take\": \"latest\"") ==
        Texts{k_file + "75:25: a window to act closes at the earliest of its triggers at /windows/1/closes/take: write "
                       "\"earliest\""});
  CHECK(said_after("[\"label\", \"bees\"]", "[\"bees\"]") ==
        Texts{k_file + "73:5: a window for a pesticide lacks the caution \"label\" at /windows/1: add it to "
                       "\"cautions\""});
  CHECK(said_after("\"absent\": [\"cupping\"]", "\"absent\": [\"nymphs\"]").front() ==
        k_file + "76:14: \"nymphs\" must be both seen and absent at /windows/1/gate: remove one of them");
}

TEST_CASE("a window to look, or to abstain, has the wide edges and no other action") {
  CHECK(said_after("\"opens\": {\"take\": \"earliest\"", "\"opens\": {\"take\": \"latest\"") ==
        Texts{k_file + "70:24: a window to look opens at the earliest of its triggers at /windows/0/opens/take: write "
                       "\"earliest\""});
  CHECK(said_after("\"actions\": [\"look\"]", "\"actions\": [\"look\", \"soap\"]") ==
        Texts{k_file +
              "69:74: a window to look offers another action at /windows/0/actions: make it a window to act, with "
              "a gate"});
  CHECK(said_after("\"take\": \"latest\", \"triggers\": [\"adult-light\"]",
                   "\"take\": \"earliest\", \"triggers\": [\"adult-light\"]") ==
        Texts{k_file +
              "81:25: a window to abstain closes at the latest of its triggers at /windows/2/closes/take: write "
              "\"latest\""});
}

TEST_CASE("an edge rests on triggers that may decide") {
  CHECK(said_after("\"triggers\": [\"hatch-plain\", \"hatch-low\"]", "\"triggers\": [\"hatch-high\"]") ==
        Texts{k_file + "70:49: the trigger \"hatch-high\" is for \"shown\" and decides no edge at "
                       "/windows/0/opens/triggers/0: name another trigger, or change its use"});
  CHECK(said_after("\"triggers\": [\"hatch-plain\", \"hatch-low\"]", "\"triggers\": []") ==
        Texts{k_file + "70:48: no trigger decides this edge at /windows/0/opens/triggers: name at least one"});
}

TEST_CASE("a dose in any text is refused") {
  CHECK(said_after("\"Cupped leaves.\"", "\"Spray 2 fl oz.\"") ==
        Texts{k_file + "10:12: \"2 fl oz\" reads as a dose at /signs: leave amounts to the product's label"});
  const std::string sources = changed(read("sources.json"), "Made up for tests as well", "Oil at 2% kills");
  const Loaded loaded = rule_files::load(read("test-psyllid.json"), sources, read("cautions.json"));
  const auto of_sources = [](const Diagnostic& diagnostic) { return diagnostic.place.file == "sources.json"; };
  const auto found = std::find_if(loaded.diagnostics.begin(), loaded.diagnostics.end(), of_sources);
  REQUIRE(found != loaded.diagnostics.end());
  CHECK(to_text(*found) ==
        "sources.json:5:75: \"2%\" reads as a dose at /sources/second-undated/title: leave amounts to the product's "
        "label");
  CHECK(loaded.table.sources.empty());
}

TEST_CASE("a source needs a year that can be one") {
  const auto said = [](const std::string& year) {
    const std::string sources = changed(read("sources.json"), "\"year\": \"undated\"", "\"year\": \"" + year + "\"");
    return rule_files::load("{\"schema\": \"budclock/sources/1\", \"sources\": {}}", sources, read("cautions.json"));
  };
  CHECK(said("1998-2003").table.sources.size() == 2);
  CHECK(said("2019, revised 2024").table.sources.size() == 2);
  CHECK(said("20233").texts().front() ==
        "sources.json:5:55: 20233 is no year at /sources/second-undated/year: write four digits, 1700 to 2200");
  CHECK(said("1699").texts().size() > 0);
  CHECK(said("2201").texts().size() > 0);
  CHECK(said("none").texts().front() ==
        "sources.json:5:55: \"none\" holds no year at /sources/second-undated/year: write "
        "the year, or \"undated\"");
}

TEST_CASE("a later file replaces a pest, source or caution of the same id, a faulty one does not") {
  const std::string sources = read("sources.json");
  const std::string cautions = read("cautions.json");
  const std::string pest = read("test-psyllid.json");
  const std::string later = changed(pest, "Cupped leaves.", "Other leaves.");
  const std::string faulty = changed(later, "\"signs\"", "\"sings\"");
  const std::string later_source = R"({"schema": "budclock/sources/1", "sources": {
    "first-2001": {"author": "A. First", "year": "2001", "title": "Another title"}}})";
  Diagnostics diagnostics;
  const PestTable table = load({{"data/test-psyllid.json", pest},
                                {"sources.json", sources},
                                {"cautions.json", cautions},
                                {"own/test-psyllid.json", later},
                                {"own/sources.json", later_source},
                                {"bad/test-psyllid.json", faulty}},
                               diagnostics);
  CHECK(table.pests.size() == 1);
  CHECK(table.pests.at(0).signs == "Other leaves.");
  CHECK(table.sources.size() == 2);
  CHECK(table.find_source("first-2001")->title == "Another title");
  REQUIRE(diagnostics.size() == 2);
  CHECK(diagnostics.at(0).place.file == "bad/test-psyllid.json");
}

TEST_CASE("the table is sorted by the pests' ids") {
  const std::string pest = read("test-psyllid.json");
  std::string other = changed(pest, "\"id\": \"test-psyllid\"", "\"id\": \"aardvark\"");
  other = changed(other, "\"name\": \"test psyllid\"", "\"name\": \"zebra\"");
  const std::string sources = read("sources.json");
  const std::string cautions = read("cautions.json");
  Diagnostics diagnostics;
  const PestTable table =
      load({{"test-psyllid.json", pest}, {"aardvark.json", other}, {"s", sources}, {"c", cautions}}, diagnostics);
  CHECK(diagnostics.empty());
  REQUIRE(table.pests.size() == 2);
  CHECK(table.pests.at(0).id == "aardvark");
}

TEST_CASE("a file of no known kind is refused") {
  CHECK(said_after("budclock/pest/1", "budclock/pets/1") ==
        Texts{k_file + "2:13: \"budclock/pets/1\" is not known here at /schema: did you mean \"budclock/pest/1\"?"});
  CHECK(said_after("\"schema\": \"budclock/pest/1\",", "") ==
        Texts{k_file + "1:1: \"schema\" is missing at the top: add it"});
}

TEST_CASE("faults come in the order of their places") {
  std::string text = changed(read("test-psyllid.json"), "\"Cupped leaves.\"", "\"Spray 2 qt.\"");
  text = changed(text, "\"cautions\": [\"bees\"]\n", "\"cautions\": [\"beees\"]\n");
  text = changed(text, "\"valid_days\": 14", "\"valid_days\": 0");
  const Loaded loaded = load_pest(text);
  REQUIRE(loaded.diagnostics.size() == 3);
  CHECK(loaded.diagnostics.at(0).place.line == 10);
  CHECK(loaded.diagnostics.at(1).place.line == 26);
  CHECK(loaded.diagnostics.at(2).place.line == 89);
}

TEST_CASE("each word of the language reads back as itself") {
  CHECK(name(Action::soil_systemic) == "soil systemic");
  CHECK(name(Meaning::first_occurrence) == "first occurrence");
  CHECK(name(Grade::common_practice) == "common practice");
  CHECK(name(Need::often) == "often");
  CHECK(name(Use::shown) == "shown");
  CHECK(name(WindowKind::abstain) == "abstain");
  CHECK(name(Direction::latest) == "latest");
}

TEST_CASE("the shipped files load without a fault") {
  Diagnostics diagnostics;
  const std::vector<RuleFile> files = shipped_files();
  const PestTable table = load(files, diagnostics);
  for (const Diagnostic& diagnostic : diagnostics) UNSCOPED_INFO(to_text(diagnostic));
  CHECK(diagnostics.empty());
  constexpr std::size_t k_others = 8;  // sources, cautions, regions, limits, site facts and three files of companions
  CHECK(table.pests.size() + k_others == files.size());
}

TEST_CASE("every degree-day figure's region that is no laboratory and no half continent has a middle") {
  Diagnostics diagnostics;
  const PestTable table = load(shipped_files(), diagnostics);
  const std::set<std::string> too_wide{"", "laboratory", "eastern United States", "Midwest", "Europe"};
  for (const Pest& pest : table.pests) {
    for (const Stage& stage : pest.stages) {
      for (const Trigger& trigger : stage.begins) {
        const std::string& region = trigger.citation.region;
        if (!std::holds_alternative<DegreeDayCue>(trigger.cue) || too_wide.contains(region)) continue;
        INFO(pest.id << " " << trigger.id << " " << region);
        CHECK(table.find_region(region) != nullptr);
      }
    }
  }
}

TEST_CASE("a month brings the pests whose calendar ranges or windows touch it, over New Year too") {
  Pest pest;
  const auto range = [](const char* id, date::month_day from, date::month_day to) {
    return Trigger{id, id, CalendarCue{from, to}, Use::date, {}};
  };
  pest.stages.emplace_back();
  pest.stages.back().begins = {range("opens", date::April / 20, date::April / 20),
                               range("closes", date::June / 10, date::June / 10)};
  CHECK(due_in(pest, date::April));
  CHECK_FALSE(due_in(pest, date::May));
  Window window;
  window.opens.triggers = {"opens"};
  window.closes.triggers = {"closes"};
  pest.windows = {window};
  CHECK(due_in(pest, date::May));
  CHECK_FALSE(due_in(pest, date::July));
  pest.stages.back().begins.push_back(range("winter", date::November / 15, date::February / 1));
  CHECK(due_in(pest, date::January));
  CHECK(due_in(pest, date::December));
  CHECK_FALSE(due_in(pest, date::March));
}

TEST_CASE("a follow-up has one time, or none, and its own time its source") {
  const std::string text = rule_files::read("test-psyllid.json");
  const std::string old = R"("follow_up": {"text": "Flat leaves.", "citation": {"source": "first-2001"}})";
  const auto with = [&](const std::string& when) {
    return rule_files::load_pest(rule_files::changed(
        text, old,
        R"("follow_up": {"text": "Flat leaves.", "citation": {"source": "first-2001"}, "when": )" + when + "}"));
  };
  const auto days = with(R"({"days": 21, "citation": {"source": "first-2001"}})");
  REQUIRE(days.texts().empty());
  CHECK(days.table.find_pest("test-psyllid")->follow_up->days == 21);
  CHECK(with(R"({"days": 21})").texts().size() == 1);
  const auto range = with(
      R"({"calendar": {"from": "06-21", "to": "06-30"}, "next_season": true, "citation": {"grade": "common practice"}})");
  REQUIRE(range.texts().empty());
  CHECK(range.table.find_pest("test-psyllid")->follow_up->calendar->to == date::June / 30);
  CHECK(range.table.find_pest("test-psyllid")->follow_up->next_season);
  CHECK(with(R"({"trigger": "no-such"})").texts().at(0).find("no-such") != std::string::npos);
  CHECK(with(R"({"next_season": true})").texts().empty());
  CHECK(with("{}").texts().at(0).find("a visit has one time, this one has 0") != std::string::npos);
}

TEST_CASE("what a pest means for its plant is one of three harms with its source") {
  const std::string text = rule_files::read("test-psyllid.json");
  const auto with = [&](const std::string& effect) {
    return rule_files::load_pest(rule_files::changed(text, R"("follow_up":)", effect + R"(, "follow_up":)"));
  };
  const auto sound =
      with(R"("effect": {"harm": "weakens", "text": "It slows growth.", "citation": {"source": "first-2001"}})");
  REQUIRE(sound.texts().empty());
  CHECK(sound.table.find_pest("test-psyllid")->effect->harm == rules::Harm::weakens);
  CHECK(with(R"("effect": {"harm": "ugly", "text": "x", "citation": {"source": "first-2001"}})").texts().size() == 1);
}

TEST_CASE("every shipped pest says what it means for its plant and what a later visit should find") {
  Diagnostics diagnostics;
  const rules::PestTable table = rules::load(rules::shipped_files(), diagnostics);
  REQUIRE(diagnostics.empty());
  for (const rules::Pest& pest : table.pests) {
    INFO(pest.id);
    CHECK(pest.effect.has_value());
    CHECK(pest.follow_up.has_value());
  }
}
