// Sites and the scouting log, through the command line.
#include <budclock/rules/load.hpp>

#include "../../../src/cli/check_practice.hpp"
#include "../../../src/cli/file_patterns.hpp"
#include "../../../src/cli/run.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>

using namespace budclock;
using cli::ExitStatus;
namespace fs = std::filesystem;

namespace {

/// A folder of its own with a sites file, gone after the test.
class Practice {
 public:
  Practice() {
    std::string name = (fs::temp_directory_path() / "budclock-practice-XXXXXX").string();
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    folder_ = name;
    write("sites.csv", "name,latitude,longitude,weather\nMill Lane,40.78,-81.92," + k_weather +
                           "\n=Elm's \"Farm\" / 2,40.78,-81.92," + k_weather + "\n");
  }
  Practice(const Practice&) = delete;
  Practice& operator=(const Practice&) = delete;
  ~Practice() { fs::remove_all(folder_); }

  void write(const std::string& name, const std::string& text) const {
    std::ofstream{path(name), std::ios::binary} << text;
  }
  std::string read(const std::string& name) const {
    std::ifstream file{path(name), std::ios::binary};
    return {std::istreambuf_iterator<char>{file}, {}};
  }
  std::string path(const std::string& name) const { return folder_ + "/" + name; }

  struct Outcome {
    ExitStatus status;
    std::string out;
    std::string err;
  };
  Outcome run(std::vector<std::string> arguments) const {
    arguments.insert(arguments.end(), {"--today", "2012-04-18"});
    std::istringstream in;
    std::ostringstream out;
    std::ostringstream err;
    cli::Environment environment{.in = in,
                                 .out = out,
                                 .err = err,
                                 .today = make_day(2015, 1, 5).value(),
                                 .width = 80,
                                 .colour = false,
                                 .sites_file = path("sites.csv")};
    const ExitStatus status = cli::run(arguments, environment);
    return {status, out.str(), err.str()};
  }
  Outcome seen(std::vector<std::string> more, const std::string& site = "Mill Lane") const {
    std::vector<std::string> arguments{"seen", "--site", site, "--pest", "boxwood"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return run(arguments);
  }
  bool offers() const {
    const Outcome answer = run({"when", "boxwood", "--site", "Mill Lane"});
    CHECK(answer.status == ExitStatus::answered);
    return answer.out.find("Act: the gate is met") != std::string::npos;
  }

  static inline const std::string k_weather = BUDCLOCK_SOURCE_DIR "/examples/weather/wooster_oh_1985-2014.csv";

 private:
  std::string folder_;
};

const std::string k_header = "date,site,pest,stage,saw,not_saw,not_found,count,plant,by,note\n";

}  // namespace

TEST_CASE("a sighting is appended to the log beside the sites file, and the answer says what the gates lack") {
  const Practice practice;
  const auto outcome = practice.seen(
      {"--saw", "open-buds, nymphs", "--not-saw", "cupping", "--count", "7/20", "--by", "QT", "--date", "2012-04-12"},
      "mill lane");
  CHECK(outcome.status == ExitStatus::answered);
  CHECK(outcome.err.empty());
  CHECK(practice.read("scouting-log.csv") ==
        k_header + "2012-04-12,Mill Lane,boxwood-psyllid,,nymphs;open-buds,cupping,,7 of 20,,QT,\n");
  CHECK(outcome.out.find("scouting-log.csv: 2012-04-12, Mill Lane, boxwood psyllid: 7 of 20; saw nymphs, open-buds; "
                         "not seen: cupping.\n") != std::string::npos);
  CHECK(outcome.out.find("still missing:") != std::string::npos);
  CHECK(outcome.out.find("flower (not recorded).") != std::string::npos);
}

TEST_CASE("an action is offered with the last observation of its gate, and not before") {
  const Practice practice;
  for (const auto& [option, id] : std::vector<std::pair<std::string, std::string>>{
           {"--saw", "open-buds"}, {"--saw", "nymphs"}, {"--not-saw", "cupping"}, {"--not-saw", "bloom"}}) {
    CHECK_FALSE(practice.offers());
    CHECK(practice.seen({option, id}).status == ExitStatus::answered);
  }
  CHECK(practice.offers());
}

TEST_CASE("what a gate asks for is told only of what grows at the site, and never as an offer") {
  const Practice practice;
  practice.write("sites.csv", "name,latitude,longitude,weather,plants\nMill Lane,40.78,-81.92," + Practice::k_weather +
                                  ",boxwood; Norway spruce\n");
  const auto saw = [&](const std::string& pest, const std::string& what) {
    return practice.run({"seen", "--site", "Mill Lane", "--pest", pest, "--saw", what});
  };
  const auto spruce = saw("cooley", "nymphs");
  CHECK(spruce.out.find("treat bare stem mothers on spruce: ") != std::string::npos);
  CHECK(spruce.out.find("Douglas-fir") == std::string::npos);
  CHECK(spruce.out.find("\n  budclock when cooley-spruce-gall-adelgid --site \"Mill Lane\" --today 2012-04-18\n") !=
        std::string::npos);
  const auto none = saw("hemlock", "live-adelgids");
  CHECK(none.status == ExitStatus::answered);
  CHECK(none.err.find("Mill Lane has no plant of the hemlock woolly adelgid; recorded all the same") !=
        std::string::npos);
  CHECK(none.out.find("dormant oil") == std::string::npos);
  CHECK(none.out.find("budclock when") == std::string::npos);
}

TEST_CASE("the same sighting twice is refused") {
  const Practice practice;
  CHECK(practice.seen({"--saw", "nymphs"}).status == ExitStatus::answered);
  const std::string before = practice.read("scouting-log.csv");
  const auto again = practice.seen({"--saw", "nymphs"});
  CHECK(again.status == ExitStatus::set_aside);
  CHECK(again.err.find("scouting-log.csv:2: this row is there already") != std::string::npos);
  CHECK(practice.read("scouting-log.csv") == before);
}

TEST_CASE("what cannot be right is refused with every reason, and nothing is written") {
  const Practice practice;
  const auto outcome = practice.seen({"--stage", "egg-hach", "--saw", "nymhps", "--count", "9/7"});
  CHECK(outcome.status == ExitStatus::usage);
  CHECK(outcome.err.find("did you mean \"egg-hatch\"?") != std::string::npos);
  CHECK(outcome.err.find("did you mean \"nymphs\"?") != std::string::npos);
  CHECK(outcome.err.find("set aside") == std::string::npos);
  CHECK(outcome.err.find("nothing was recorded\n") != std::string::npos);
  CHECK_FALSE(fs::exists(practice.path("scouting-log.csv")));
  CHECK(practice.seen({"--saw", "nymphs"}, "Mil Lane").err ==
        "budclock: no site is called \"Mil Lane\": did you mean \"Mill Lane\"?\n");
}

TEST_CASE("a log that cannot be written ends with its own exit status") {
  const Practice practice;
  fs::create_directory(practice.path("scouting-log.csv"));
  const auto outcome = practice.seen({"--saw", "nymphs"});
  CHECK(outcome.status == ExitStatus::not_written);
  CHECK(outcome.err.find("nothing was added") != std::string::npos);
}

TEST_CASE("no name, however written, drives a terminal or breaks the log") {
  const Practice practice;
  const std::string nasty = "\x1b[2J=cmd|' /C calc'!A0;\"quoted\",\xff/../x";
  const auto refused = practice.seen({"--saw", "nymphs", "--note", nasty});
  CHECK(refused.status == ExitStatus::usage);
  CHECK(refused.err.find('\x1b') == std::string::npos);
  CHECK(refused.err.find("\\x1B") != std::string::npos);
  for (const char* option : {"--site", "--pest", "--stage", "--saw", "--by", "--count"}) {
    const auto outcome =
        practice.run({"seen", "--site", "Mill Lane", "--pest", "boxwood", "--saw", "nymphs", option, nasty});
    INFO(option);
    CHECK(outcome.status != ExitStatus::answered);
    CHECK((outcome.out + outcome.err).find('\x1b') == std::string::npos);
    CHECK((outcome.out + outcome.err).find('\xff') == std::string::npos);
  }
  CHECK_FALSE(fs::exists(practice.path("scouting-log.csv")));

  const auto taken = practice.seen({"--saw", "nymphs", "--note", "=1+1, \"so\"\nand so"}, "=Elm's \"Farm\" / 2");
  CHECK(taken.status == ExitStatus::answered);
  const auto listed = practice.run({"log", "--site", "=elm's \"farm\" / 2"});
  CHECK(listed.out == "2012-04-18  =Elm's \"Farm\" / 2  boxwood psyllid: saw nymphs. =1+1, \"so\"\\x0Aand so\n");
  CHECK(practice.run({"log", "--format", "csv"}).out.find("\"'=1+1, \"\"so\"\"\nand so\"") != std::string::npos);
  const auto answer = practice.run({"when", "boxwood", "--site", "=Elm's \"Farm\" / 2"});
  CHECK(answer.out.starts_with("=Elm's \"Farm\" / 2, 2012-04-18\n"));
}

TEST_CASE("rows that cannot be right are named and set aside, and the rest of the log is shown") {
  const Practice practice;
  practice.write("scouting-log.csv", k_header +
                                         "2012-04-10,Mill Lane,boxwood-psyllid,,nymphs,,,,,,\n"
                                         "2012-04-31,Mill Lane,boxwood-psyllid,,nymphs,,,,,,\n");
  const auto outcome = practice.run({"log"});
  CHECK(outcome.status == ExitStatus::set_aside);
  CHECK(outcome.err.find("scouting-log.csv:3:1: \"2012-04-31\" does not exist; the row is set aside") !=
        std::string::npos);
  CHECK(outcome.out == "2012-04-10  Mill Lane  boxwood psyllid: saw nymphs\n");
  CHECK(practice.seen({"--saw", "open-buds"}).err.find("`budclock log` names them") != std::string::npos);
}

TEST_CASE("a log that was named and is not there is missed") {
  const Practice practice;
  CHECK(practice.run({"log"}).status == ExitStatus::no_answer);
  CHECK(practice.run({"when", "boxwood", "--site", "Mill Lane", "--log", practice.path("x.csv")}).status ==
        ExitStatus::set_aside);
  CHECK(practice.run({"when", "boxwood", "--site", "Mill Lane"}).status == ExitStatus::answered);
}

TEST_CASE("one site without weather does not stop the others") {
  const Practice practice;
  practice.write("sites.csv",
                 "name,latitude,longitude,weather\nA,40,-80," + Practice::k_weather + "\nB,40,-80,nowhere-*.csv\n");
  const auto outcome = practice.run({"when", "boxwood", "--site", "B", "--site", "A", "--brief"});
  CHECK(outcome.status == ExitStatus::set_aside);
  CHECK(outcome.err.find("sites.csv:3:") != std::string::npos);
  CHECK(outcome.err.find("no file fits \"nowhere-*.csv\"") != std::string::npos);
  CHECK(outcome.err.find("B has no weather") != std::string::npos);
  CHECK(outcome.out.starts_with("A, 2012-04-18\n"));
}

TEST_CASE("patterns name files of the sites file's folder, in order, and no letter of a name is special") {
  const Practice practice;
  fs::create_directory(practice.path("a[1]"));
  for (const char* name : {"b.csv", "a.csv", "a1.csv", "c.txt"}) practice.write(std::string{"a[1]/"} + name, "");
  const std::string folder = practice.path("a[1]");
  CHECK(cli::expand_pattern(folder, "*.csv") ==
        std::vector<std::string>{folder + "/a.csv", folder + "/a1.csv", folder + "/b.csv"});
  CHECK(cli::expand_pattern(folder, "a?.csv") == std::vector<std::string>{folder + "/a1.csv"});
  CHECK(cli::expand_pattern(practice.path(""), "a[1]/b*.csv") == std::vector<std::string>{folder + "/b.csv"});
  CHECK(cli::expand_pattern(folder, "none*").empty());
  CHECK(cli::expand_pattern("x", "/abs/y.csv") == std::vector<std::string>{"/abs/y.csv"});
}

TEST_CASE("a sites file named without its folder has its weather and its forecasts in that folder") {
  const Practice practice;
  fs::copy_file(BUDCLOCK_TEST_DATA "/weather/invented_week_hourly.json", practice.path("hourly.json"));
  fs::copy_file(Practice::k_weather, practice.path("record.csv"));
  practice.write("here.json", R"({"schema": "budclock/sites/1", "sites": [{"name": "Yard", "plants": ["boxwood"],
    "place": {"latitude": 40.78, "longitude": -81.92},
    "weather": {"sources": [{"files": ["rec*.csv"]}], "forecasts": ["hour*.json"]}}]})");
  const fs::path before = fs::current_path();
  fs::current_path(practice.path("."));
  std::vector<Practice::Outcome> all;
  for (const auto& [file, action] : {std::pair{"here.json", "prune"}, std::pair{"./here.json", "pick"}}) {
    all.push_back(practice.run({"day", "--sites", file, "--site", "Yard", "--action", "oil"}));
    all.push_back(practice.run({"when", "--sites", file, "--site", "Yard"}));
    all.push_back(practice.run({"stops", "--sites", file}));
    all.push_back(practice.run({"did", "--sites", file, "--site", "Yard", "--pest", "boxwood", "--action", action}));
  }
  fs::current_path(before);
  for (const Practice::Outcome& outcome : all) {
    INFO(outcome.err);
    CHECK(outcome.err.find("no file fits") == std::string::npos);
    CHECK_FALSE(outcome.out.empty());
  }
}

TEST_CASE("sites files and logs are told by their content and checked with every fault") {
  Diagnostics loading;
  const rules::PestTable table = rules::load(rules::shipped_files(), loading);
  using cli::PracticeFile;
  CHECK(cli::practice_file(R"({"schema": "budclock/sites/1", "sits": []})") == PracticeFile::sites);
  CHECK(cli::practice_file("{\"x\": 1}") == PracticeFile::neither);
  CHECK(cli::practice_file("\xEF\xBB\xBF# ours\nName;Longitude;Latitude;weather\n") == PracticeFile::sites);
  CHECK(cli::practice_file(k_header) == PracticeFile::log);
  CHECK(cli::practice_file("date,tmax_f,tmin_f\n2014-01-01,50,40\n") == PracticeFile::neither);
  CHECK(cli::practice_file("") == PracticeFile::neither);

  const auto faults =
      cli::check_sites_text("{\"schema\": \"budclock/sites/1\",\n \"sites\": [{\"nam\": \"A\"}]}", "s.json", table);
  REQUIRE(faults.size() >= 3);
  CHECK(std::any_of(faults.begin(), faults.end(), [](const Diagnostic& fault) {
    return to_text(fault).find("s.json:2:") == 0 && fault.message.find("/sites/0") != std::string::npos &&
           fault.remedy.find("name") != std::string::npos;
  }));
  const auto rows = cli::check_log_text(k_header + "2012-04-31,A,boxwood psylid,,,,,,,,\n", "log.csv",
                                        {table, {}, make_day(2012, 5, 1).value()});
  CHECK(rows.size() == 2);
}

TEST_CASE("two weather files parted by a blank are told how to be parted") {
  const Practice practice;
  practice.write("a b.csv", "date,tmax_f,tmin_f\n");
  for (const char* files : {"a.csv b.csv", "a*.csv b*.csv"}) {
    practice.write("two.csv", std::string{"name,latitude,longitude,weather,plants\nTwo,40.8,-81.9,"} + files +
                                  ",boxwood\nOdd,40.8,-81.9,a b.csv,boxwood\n");
    const auto night = practice.run({"nightly", "--sites", practice.path("two.csv"), "--out", practice.path("night")});
    INFO(night.err);
    CHECK(night.err.find("no file fits \"" + std::string{files} + "\": part several files by ;") != std::string::npos);
    CHECK(night.err.find("a b.csv: ") != std::string::npos);
    CHECK(night.err.find("no file fits \"a b.csv\"") == std::string::npos);
  }
}

TEST_CASE("the check of a sites file notes a mistyped place, and plants without a pest") {
  const rules::PestTable table = rules::shipped_table();
  const auto said = [&](const std::string& row) {
    const auto notes = cli::check_sites_text("name,latitude,longitude,weather,plants\n" + row + "\n", "s.csv", table);
    std::vector<std::string> texts;
    for (const Diagnostic& each : notes) {
      CHECK(each.severity == Severity::note);
      texts.push_back(to_text(each));
    }
    return texts;
  };
  using Texts = std::vector<std::string>;
  CHECK(said("A,40.8,-81.93,w.csv,boxwood").empty());
  CHECK(said("A,47.6,-122.3,w.csv,boxwood").empty());
  REQUIRE(said("A,40.8,81.93,w.csv,boxwood").size() == 1);
  CHECK(said("A,40.8,81.93,w.csv,boxwood")[0].ends_with(
      " km from the nearest place that any figure here is from: is the longitude west (negative)?"));
  REQUIRE(said("A,-81.93,40.8,w.csv,boxwood").size() == 1);
  CHECK(said("A,-81.93,40.8,w.csv,boxwood")[0].ends_with("are latitude and longitude swapped?"));
  CHECK(said("A,0,0,w.csv,boxwood")[0].ends_with("are latitude and longitude right?"));
  CHECK(said("A,40.8,-81.93,w.csv,mapel; oak") ==
        Texts{"s.csv:2:1: A: no pest here lives on its plants (mapel, oak): name its plants, or pests to watch"});
}

TEST_CASE("an action is appended to the log beside the sites file, with the weather of its day") {
  const Practice practice;
  const auto outcome = practice.run({"did", "--site", "mill lane", "--pest", "boxwood", "--action", "Oil", "--date",
                                     "2012-04-16", "--product", "=Invented"});
  CHECK(outcome.status == ExitStatus::answered);
  CHECK(outcome.out.find("Temperatures of the day: low 55.94 F, high 78.08 F.\n") != std::string::npos);
  CHECK(practice.read("action-log.csv") ==
        "date,site,pest,action,product,registration,amount,area,plants,applicator,licence,reentry,preharvest,notice,"
        "note,tmin_f,tmin_origin,tmax_f,tmax_origin\n"
        "2012-04-16,Mill Lane,boxwood-psyllid,oil,'=Invented,,,,,,,,,,,55.94,observed,78.08,observed\n");
}

TEST_CASE("what the rules of the pest do not have, or forbid, is noted and recorded all the same") {
  const Practice practice;
  practice.write("sites.csv", "name,latitude,longitude,weather,plants\nYard,40.78,-81.92," + Practice::k_weather +
                                  ",boxwood; coneflower; hackberry; eastern hemlock; blue spruce; Norway spruce\n");
  const auto did = [&](const std::string& pest, const std::string& action) {
    const auto outcome = practice.run({"did", "--site", "Yard", "--pest", pest, "--action", action});
    CHECK(outcome.status == ExitStatus::answered);
    std::string words;
    std::istringstream lines{outcome.err};
    for (std::string word; lines >> word;) words += word + " ";
    return words;
  };
  const std::string never = did("boxwood", "soil-systemic");
  CHECK(never.find("no source here speaks of soil systemic against the boxwood psyllid") != std::string::npos);
  CHECK(never.find("`budclock pests boxwood-psyllid`") != std::string::npos);
  CHECK(did("coneflower", "oil").find("no source here speaks of horticultural oil") != std::string::npos);
  const std::string alone = did("hackberry-leaf", "contact");
  CHECK(alone.find("galls closed: do not spray (Nymphs are sealed in.") != std::string::npos);
  CHECK(alone.find("not known here; recorded all the same") != std::string::npos);
  CHECK(alone.find("no source here") == std::string::npos);
  CHECK(did("eastern spruce", "oil").find("bar horticultural oil on some plants there: blue spruce") !=
        std::string::npos);
  CHECK(did("boxwood", "prune").empty());
  CHECK(did("hemlock", "quarantine").empty());
}

TEST_CASE("an action is recorded where the record lacks its day or cannot be read") {
  const Practice practice;
  practice.write("sites.csv", "name,latitude,longitude,weather,plants\nMill Lane,40.78,-81.92,none.csv,boxwood\n");
  const auto outcome = practice.run({"did", "--site", "Mill Lane", "--pest", "boxwood", "--action", "prune"});
  CHECK(outcome.status == ExitStatus::answered);
  CHECK(outcome.err.find("has no temperatures of 2012-04-18; they are left empty") != std::string::npos);
  CHECK(practice.read("action-log.csv").find("\n2012-04-18,Mill Lane,boxwood-psyllid,prune,,,,,,,,,,,,,,,\n") !=
        std::string::npos);
}

TEST_CASE("what cannot be right is no action, and nothing is written") {
  const Practice practice;
  for (const char* kind : {"look", "spray", "", "\x1b[2J"}) {
    const auto outcome = practice.run({"did", "--site", "Mill Lane", "--pest", "boxwood", "--action", kind});
    CHECK(outcome.status == ExitStatus::usage);
    CHECK(outcome.err.find('\x1b') == std::string::npos);
  }
  CHECK(practice.run({"did", "--site", "Mill Lane", "--pest", "boxwood", "--action", "oil", "--date", "2012-04-19"})
            .status == ExitStatus::usage);
  CHECK_FALSE(fs::exists(practice.path("action-log.csv")));
}

TEST_CASE("what was typed from a label stands in the log and in an inspector's export, and nowhere else") {
  const Practice practice;
  std::vector<std::string> arguments{"did", "--site", "Mill Lane", "--pest", "boxwood", "--action", "contact"};
  const std::vector<std::string> of_label{"product", "registration", "amount", "reentry", "preharvest"};
  for (const std::string& each : of_label) arguments.insert(arguments.end(), {"--" + each, "zq9 oz " + each});
  for (const char* each : {"--note", "--area", "--plants", "--notice"}) {
    arguments.insert(arguments.end(), {each, "zq9 oz"});
  }
  std::vector<std::string> texts;
  const auto run_and_keep = [&](const std::vector<std::string>& command) {
    const auto outcome = practice.run(command);
    texts.push_back(outcome.out + outcome.err);
    return outcome.status;
  };
  CHECK(run_and_keep(arguments) == ExitStatus::answered);
  CHECK(run_and_keep(arguments) == ExitStatus::set_aside);
  practice.write("bad.csv", practice.read("action-log.csv") + "2012-04-18,Nowhere,boxwood,oil,zq9 oz,\x1b" +
                                "zq9 oz,zq9 oz,zq9 oz,,,,,,,,,,,\n");
  for (const char* format : {"text", "csv", "json"}) {
    CHECK(run_and_keep({"records", "--format", format}) == ExitStatus::answered);
    CHECK(run_and_keep({"records", "--format", format, "--actions", practice.path("bad.csv")}) ==
          ExitStatus::set_aside);
  }
  CHECK(run_and_keep({"when", "boxwood", "--site", "Mill Lane"}) == ExitStatus::answered);
  for (const std::string& text : texts) CHECK(text.find("zq9") == std::string::npos);
  for (const char* format : {"text", "csv", "json"}) {
    const auto exported = practice.run({"records", "--for-inspector", "--season", "2012", "--format", format});
    for (const std::string& each : of_label) CHECK(exported.out.find("zq9 oz " + each) != std::string::npos);
  }
}

TEST_CASE("an inspector's export names what each row misses, by its line, and holds one season") {
  const Practice practice;
  practice.write("action-log.csv",
                 "date,site,pest,action,product\n2011-04-16,Mill Lane,boxwood-psyllid,oil,\n"
                 "2012-04-16,Mill Lane,boxwood-psyllid,oil,Invented\n2012-04-17,Mill Lane,boxwood-psyllid,prune,\n");
  const auto exported = practice.run({"records", "--for-inspector", "--season", "2012", "--format", "csv"});
  CHECK(exported.status == ExitStatus::answered);
  CHECK(exported.out.find("2011-04-16") == std::string::npos);
  CHECK(exported.out.find(",registration;amount;area;plants;applicator;licence\n") != std::string::npos);
  CHECK(exported.err.find("action-log.csv:3: an inspector would miss registration (EPA registration number)") !=
        std::string::npos);
  CHECK(exported.err.find("action-log.csv:4") == std::string::npos);
}

TEST_CASE("records are filtered by site, pest, season and days") {
  const Practice practice;
  practice.write(
      "action-log.csv",
      "date,site,pest,action\n2011-04-16,Mill Lane,boxwood-psyllid,oil\n"
      "2012-04-16,Mill Lane,boxwood-psyllid,oil\n2012-04-17,=Elm's \"Farm\" / 2,hemlock-woolly-adelgid,oil\n");
  const auto rows = [&](std::vector<std::string> more) {
    more.insert(more.begin(), {"records", "--format", "csv"});
    const std::string out = practice.run(more).out;
    return std::count(out.begin(), out.end(), '\n') - 1;
  };
  CHECK(rows({}) == 3);
  CHECK(rows({"--season", "2012"}) == 2);
  CHECK(rows({"--site", "mill lane"}) == 2);
  CHECK(rows({"--pest", "hemlock"}) == 1);
  CHECK(rows({"--from", "2012-04-16", "--to", "2012-04-16"}) == 1);
  CHECK(practice.run({"records", "--site", "Mil Lane"}).status == ExitStatus::usage);
}
