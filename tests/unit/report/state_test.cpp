#include <budclock/report/state.hpp>

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::report;

namespace {

Day day(const char* text) { return parse_iso_day(text).value(); }

const Day k_today = day("2012-04-10");

using Sites = std::map<std::string, SiteState>;

SiteState with_window(const char* from, const char* until) {
  SiteState state;
  state.windows["a-pest/look"] = {day(from), day(until)};
  return state;
}

std::vector<Change> moves(const SiteState& older, const SiteState& now) {
  return changes("Mill Lane", older, now, k_today);
}

std::string written(const Sites& sites) {
  std::string text = state_head(k_today, {"a problem"});
  for (const auto& [name, site] : sites) text += state_line(name, site);
  return text;
}

Sites sites_in(const WrittenState& state) {
  Sites sites;
  for (const std::string& name : state.names()) sites[name] = state.site(name).value();
  return sites;
}

/// "opens -4", for each change between two days' windows.
std::vector<std::string> moved(const char* from, const char* until, const char* now_from, const char* now_until) {
  std::vector<std::string> texts;
  for (const Change& change : moves(with_window(from, until), with_window(now_from, now_until))) {
    const char* what = change.what == Change::What::opens  ? "opens"
                       : change.what == Change::What::ends ? "ends"
                                                           : "stage";
    texts.push_back(what + (" " + std::to_string(change.days())));
  }
  return texts;
}

using Texts = std::vector<std::string>;

std::string fault_of(const std::string& text) {
  Diagnostics diagnostics;
  CHECK_FALSE(WrittenState::read(text, "s.json", diagnostics));
  return diagnostics.empty() ? "none" : to_text(diagnostics[0]);
}

}  // namespace

TEST_CASE("a state is read back as it was written") {
  Sites sites{{"Mill Lane", with_window("2012-04-12", "2012-05-01")}, {"empty", {}}};
  sites["Mill Lane"].stages["a-pest/hatch"] = {day("2012-04-20"), {}};
  sites["Mill Lane"].groups["a-pest/look"] = "look, now";
  sites["\"quoted\" / M\xC3\xBCller"].windows["a-pest/act"] = {{}, day("2012-05-21")};
  sites["empty"].problems = {"w.csv:7:3: no number: correct it"};
  Diagnostics diagnostics;
  const auto read = WrittenState::read(written(sites), "s.json", diagnostics);
  CHECK(diagnostics.empty());
  REQUIRE(read);
  CHECK(read->today() == k_today);
  CHECK(read->problems() == std::set<std::string>{"a problem"});
  CHECK(sites_in(*read) == sites);
  CHECK_FALSE(read->site("Gorge View"));
}

TEST_CASE("a state that is broken is named by its place") {
  CHECK(fault_of("{").starts_with("s.json:1:"));
  CHECK(fault_of(R"({"schema": "budclock/state/9", "today": "2012-04-10"})") ==
        "s.json:1:12: \"budclock/state/9\" is not known here at /schema: it should be budclock/state/2");
  CHECK(fault_of(R"({"schema": "budclock/state/2", "today": "2012-04-31"})") ==
        "s.json:1:1: there is no day at the top: \"today\" should be as 2012-04-12");
  CHECK(fault_of(R"({"schema": "budclock/state/2", "today": "2012-04-10"}
{"name": "a", "windows": {"a/b": "2012-04-1/.."}, "stages": {}, "groups": {}, "problems": []}
)") == "s.json:2:34: \"2012-04-1/..\" is no interval of days at /windows/a~1b: write it as 2012-04-12/2012-04-26");
  CHECK(fault_of(R"({"schema": "budclock/state/2", "today": "2012-04-10"}
{"name": "a", "windows)")
            .starts_with("s.json:2:"));
  CHECK(fault_of("") == "s.json: the file is empty: remove it");
}

TEST_CASE("a state of many sites is read back") {
  Sites sites;
  for (int site = 0; site < 20'000; ++site) {
    SiteState& into = sites["site " + std::to_string(site)];
    for (int window = 0; window < 30; ++window) {
      into.windows["a-pest-with-a-name/a-window-" + std::to_string(window)] = {k_today, k_today};
    }
  }
  const std::string text = written(sites);
  CHECK(text.size() > std::size_t{16} << 20);
  Diagnostics diagnostics;
  const auto read = WrittenState::read(text, "s.json", diagnostics);
  REQUIRE(read);
  CHECK(sites_in(*read) == sites);
}

TEST_CASE("a state may hold more than we know of") {
  Diagnostics diagnostics;
  CHECK(
      WrittenState::read(R"({"schema": "budclock/state/2", "today": "2012-04-10", "more": 1})", "s.json", diagnostics));
}

TEST_CASE("a date that moved is told when it was or is within the next 14 days") {
  CHECK(moved("2012-04-12", "2012-06-01", "2012-04-12", "2012-06-01") == Texts{});
  CHECK(moved("2012-04-16", "2012-06-01", "2012-04-12", "2012-06-01") == Texts{"opens -4"});
  CHECK(moved("2012-04-25", "2012-06-01", "2012-04-24", "2012-06-01") == Texts{"opens -1"});
  CHECK(moved("2012-04-24", "2012-06-01", "2012-04-25", "2012-06-01") == Texts{"opens 1"});
  CHECK(moved("2012-04-26", "2012-06-01", "2012-04-25", "2012-06-01") == Texts{});
  CHECK(moved("2012-04-09", "2012-06-01", "2012-04-08", "2012-06-01") == Texts{});
  CHECK(moved("2012-04-01", "2012-04-20", "2012-04-01", "2012-04-23") == Texts{"ends 3"});
}

TEST_CASE("of a pest at a site the date that moved farthest is told") {
  CHECK(moved("2012-04-16", "2012-04-20", "2012-04-12", "2012-04-22") == Texts{"opens -4"});
  CHECK(moved("2012-04-16", "2012-04-20", "2012-04-15", "2012-04-22") == Texts{"ends 2"});
  CHECK(moved("2012-04-16", "2012-04-20", "2012-04-14", "2012-04-22") == Texts{"opens -2"});
}

TEST_CASE("a stage that moved is told where no window moved as far") {
  SiteState older = with_window("2012-04-16", "2012-06-01");
  SiteState now = with_window("2012-04-15", "2012-06-01");
  older.stages["a-pest/hatch"].from = day("2012-04-20");
  now.stages["a-pest/hatch"].from = day("2012-04-22");
  const auto all = moves(older, now);
  REQUIRE(all.size() == 1);
  CHECK(all[0].id == "hatch");
  CHECK(all[0].days() == 2);
}

TEST_CASE("a window or a date that is new is no change") {
  SiteState older = with_window("2012-04-16", "2012-06-01");
  const SiteState now = with_window("2012-04-12", "2012-06-01");
  older.windows["a-pest/look"].from.reset();
  CHECK(moves(older, now).empty());
  older.windows.clear();
  CHECK(moves(older, now).empty());
}

TEST_CASE("a change says how far, since when, and to what day") {
  rules::Pest pest;
  pest.id = "a-pest";
  pest.name = "gall adelgid";
  pest.windows.resize(1);
  pest.windows[0].id = "treat";
  pest.windows[0].name = "treat bare stem mothers";
  pest.stages.resize(1);
  pest.stages[0].id = "hatch";
  pest.stages[0].name = "egg hatch";
  rules::PestTable table;
  table.pests.push_back(pest);
  const Change opens{"Mill Lane", "a-pest", "treat", Change::What::opens, day("2012-04-16"), day("2012-04-12")};
  CHECK(change_text(opens, table, day("2012-04-09"), k_today) ==
        "gall adelgid at Mill Lane: 4 days earlier than yesterday (treat bare stem mothers: from Apr 12)");
  const Change ends{"Mill Lane", "a-pest", "treat", Change::What::ends, day("2012-04-11"), day("2012-04-12")};
  CHECK(change_text(ends, table, day("2012-04-07"), k_today) ==
        "gall adelgid at Mill Lane: 1 day later than on 2012-04-07 (treat bare stem mothers: until Apr 12)");
  const Change stage{"Mill Lane", "a-pest", "hatch", Change::What::stage, day("2012-04-14"), day("2012-04-12")};
  CHECK(change_text(stage, table, day("2012-04-09"), k_today) ==
        "gall adelgid at Mill Lane: 2 days earlier than yesterday (egg hatch: Apr 12)");
  CHECK(change_text(stage, {}, day("2012-04-09"), k_today).starts_with("a-pest at Mill Lane: 2 days"));
}
