#include "logs.hpp"

using namespace budclock;
using namespace budclock::journal;
using logs::day;
using logs::k_header;
using Texts = std::vector<std::string>;

TEST_CASE("a row of a log becomes a sighting") {
  const auto read =
      logs::read(k_header +
                 "2014-04-20,mill lane,Test psyllid,hatch,open-buds; nymphs,cupping,,7 of 20,hedge,AB,\"so, "
                 "so\"\n2014-04-10,'=Elm,test-psyllid,,,,yes,0/20,,,'-cold\n");
  CHECK(read.texts() == Texts{});
  REQUIRE(read.log.size() == 2);
  const Sighting& none = read.log[0];
  CHECK(none.date == day("2014-04-10"));
  CHECK(none.site == "=Elm");
  CHECK(none.not_found);
  CHECK(none.count == Share{0, 20});
  CHECK(none.note == "-cold");
  const Sighting& hatch = read.log[1];
  CHECK(hatch.site == "Mill Lane");
  CHECK(hatch.pest == "test-psyllid");
  CHECK(hatch.stage == "hatch");
  CHECK(hatch.saw == Texts{"open-buds", "nymphs"});
  CHECK(hatch.not_saw == Texts{"cupping"});
  CHECK(!hatch.not_found);
  CHECK(hatch.count == Share{7, 20});
  CHECK(hatch.plant == "hedge");
  CHECK(hatch.by == "AB");
  CHECK(hatch.note == "so, so");
  CHECK(hatch.place == Place{"log.csv", 2, 1});
}

TEST_CASE("a log that a spreadsheet has saved is read") {
  const auto read = logs::read(
      "\xEF\xBB\xBFsite;date;pest;saw;\r\nMill Lane;4/20/2014;test psyllid;nymphs;\r\n"
      "Mill Lane;5/1/2014;test psyllid;cupping;\r\n");
  CHECK(read.texts() == Texts{});
  REQUIRE(read.log.size() == 2);
  CHECK(read.log[0].date == day("2014-04-20"));
  CHECK(read.log[1].date == day("2014-05-01"));
}

TEST_CASE("every bad row is named by line and column and left out") {
  const auto read = logs::read(k_header +
                               "2014-04-20,Mil Lane,test psyllid,hatch,,,,,,,\n"
                               "2014-04-20,Mill Lane,test psylid,hatch,,,,,,,\n"
                               "2014-04-20,Mill Lane,jumping lice,,,,yes,,,,\n"
                               "2014-04-20,Mill Lane,test psyllid,hach,,,,,,,\n"
                               "2014-04-20,Mill Lane,test psyllid,,nymph,cuping,,,,,\n"
                               "2014-07-01,Mill Lane,test psyllid,hatch,,,,,,,\n"
                               "2014-02-30,Mill Lane,test psyllid,hatch,,,,,,,\n"
                               "5/4/2014,Mill Lane,test psyllid,hatch,,,,,,,\n"
                               "soon,Mill Lane,test psyllid,hatch,,,,,,,\n"
                               ",,,,,,,,,,x\n"
                               "2014-04-20,Mill Lane,test psyllid,,,,perhaps,,,,\n"
                               "2014-04-20,Mill Lane,test psyllid,,,,,20-Jul,,,\n"
                               "2014-04-20,Mill Lane,test psyllid,,,,,21 of 20,,,\n"
                               "2014-04-20,Mill Lane,test psyllid,,,,,0,,,\n"
                               "2014-04-20,Mill Lane,test psyllid,,,,yes,3,,,\n"
                               "2014-04-20,Mill Lane,test psyllid,,nymphs,nymphs,,,,,\n"
                               "2014-04-20,Mill Lane,test psyllid,,,,,,,,only a note\n"
                               "2014-04-20,Mill Lane,test psyllid,,nymphs,,,,,,\x1B[2J\n"
                               "1492-04-20,Mill Lane,test psyllid,,nymphs,,,,,,\n");
  CHECK(read.log.empty());
  const std::string aside = "; the row is set aside: ";
  CHECK(
      read.texts() ==
      Texts{
          "log.csv:2:12: no site is called \"Mil Lane\"" + aside + "did you mean \"Mill Lane\"?",
          "log.csv:3:22: no pest is called \"test psylid\"" + aside + "did you mean \"test psyllid\"?",
          "log.csv:4:22: \"jumping lice\" is a name of several pests" + aside + "write other-psyllid or test-psyllid",
          "log.csv:5:35: test psyllid has no stage \"hach\"" + aside + "did you mean \"hatch\"?",
          "log.csv:6:36: test psyllid has no observation \"nymph\"" + aside + "did you mean \"nymphs\"?",
          "log.csv:6:42: test psyllid has no observation \"cuping\"" + aside + "did you mean \"cupping\"?",
          "log.csv:7:1: 2014-07-01 lies after today, 2014-06-30" + aside + "correct the date",
          "log.csv:8:1: \"2014-02-30\" does not exist" + aside + "correct the date",
          "log.csv:9:1: \"5/4/2014\" can be read two ways, or not in the order of the other dates" + aside +
              "write it as 2014-04-16",
          "log.csv:10:1: \"soon\" is not a date" + aside + "write it as 2014-04-16",
          "log.csv:11:1: there is no date" + aside + "write it as 2014-04-16",
          "log.csv:11:2: there is no site" + aside + "name one of the sites file",
          "log.csv:11:3: there is no pest" + aside + "name the one looked for",
          "log.csv:12:38: not_found is \"perhaps\"" + aside + "write yes, or leave it empty",
          "log.csv:13:39: \"20-Jul\" is no count" + aside + "write it as 7 of 20; a spreadsheet takes 7/20 for a date",
          "log.csv:14:39: \"21 of 20\" is no count" + aside + "write it as 7 of 20, or as 7",
          "log.csv:15:39: none were counted, yet not_found is empty" + aside +
              "write yes under not_found, or empty the count",
          "log.csv:16:42: 3 were counted of what was not found" + aside + "empty one of count and not_found",
          "log.csv:17:43: \"nymphs\" stands both under saw and not_saw" + aside + "remove it from one of them",
          "log.csv:18:1: the row says nothing of what was seen" + aside +
              "fill stage, saw, not_saw, not_found or count",
          "log.csv:19:48: \"\\x1B[2J\" holds a control character" + aside + "remove it",
          "log.csv:20:1: the year of \"1492-04-20\" is outside 1700 to 2200" + aside + "correct the date"});
  CHECK(any_at_least(read.diagnostics, Severity::fault));
  CHECK(!any_at_least(read.diagnostics, Severity::error));
}

TEST_CASE("a stage cannot be found before its degree-days begin") {
  const auto read = logs::read(k_header +
                               "2014-02-28,Mill Lane,test-psyllid,hatch,,,,,,,\n"
                               "2014-02-28,Mill Lane,test-psyllid,hatch,,,yes,,,,\n"
                               "2014-02-28,Mill Lane,test-psyllid,rest,,,,,,,\n"
                               "2014-03-01,Mill Lane,test-psyllid,hatch,,,,,,,\n");
  CHECK(read.texts() == Texts{"log.csv:2:35: \"egg hatch\" cannot be found on 2014-02-28: its degree-days begin on "
                              "03-01; the row is set aside: correct the date or the stage"});
  CHECK(read.log.size() == 3);
}

TEST_CASE("a stage first found after the one that must follow it is set aside") {
  const auto row = [](const char* date, const char* stage, const char* plant) {
    return std::string{date} + ",Mill Lane,test-psyllid," + stage + ",,,,," + plant + ",,\n";
  };
  const auto read = logs::read(k_header + row("2014-06-10", "hatch", "") + row("2014-05-20", "adult", ""));
  CHECK(read.texts() ==
        Texts{"log.csv:2:1: \"egg hatch\" is found for the first time on 2014-06-10, after \"adults\" on 2014-05-20 "
              "(line 3), which must follow it; the row is set aside: correct the date or the stage; if it was merely "
              "still there, write so in the note"});
  REQUIRE(read.log.size() == 1);
  CHECK(read.log[0].stage == "adult");

  CHECK(logs::read(k_header + row("2014-05-20", "galls", "") + row("2014-06-10", "adult", "")).diagnostics.size() == 1);
  // Found before, on another plant, in another year, on the same day, or of no stated order: nothing is wrong.
  CHECK(logs::read(k_header + row("2014-05-01", "hatch", "") + row("2014-05-20", "adult", "") +
                   row("2014-06-10", "hatch", ""))
            .texts()
            .empty());
  CHECK(logs::read(k_header + row("2014-06-10", "hatch", "A") + row("2014-05-20", "adult", "B")).texts().empty());
  CHECK(logs::read(k_header + row("2014-06-10", "hatch", "") + row("2013-05-20", "adult", "")).texts().empty());
  CHECK(logs::read(k_header + row("2014-05-20", "hatch", "") + row("2014-05-20", "adult", "")).texts().empty());
  CHECK(logs::read(k_header + row("2014-06-10", "rest", "") + row("2014-05-20", "adult", "")).texts().empty());
}

TEST_CASE("a row is checked before it is added") {
  const rules::PestTable table = logs::pests();
  const LogContext context{table, {"Mill Lane"}, day("2014-06-30")};
  const auto texts = [&](const LogRow& row, const std::vector<Sighting>& log) {
    Texts all;
    Diagnostics found;
    const bool sound = read_row(row, log, context, found).has_value();
    CHECK(sound == found.empty());
    for (const auto& fault : found) all.push_back(to_text(fault));
    return all;
  };
  const std::vector<Sighting> log = logs::read(k_header + "2014-05-20,Mill Lane,test-psyllid,adult,,,,,,,\n").log;
  CHECK(texts({"2014-05-21", "Mill Lane", "test-psyllid", "galls", "", "", "", "7/20", "", "", ""}, log) == Texts{});
  CHECK(texts({"2014-05-21", "Mill", "test-psyllid", "galls"}, log) ==
        Texts{"no site is called \"Mill\": write a name that stands in the sites file"});
  CHECK(texts({"2014-05-21", "Mill Lane", "test-psyllid", "hatch"}, log) ==
        Texts{"\"egg hatch\" is found for the first time on 2014-05-21, after \"adults\" on 2014-05-20 (line 2), which "
              "must follow it: correct the date or the stage; if it was merely still there, "
              "write so in the note"});
}

TEST_CASE("an empty log and a log without its columns are errors, a log of no rows is not") {
  CHECK(logs::read("").texts() ==
        Texts{"log.csv: the file has no header line: name its columns in the first line: date,site,pest"});
  CHECK(logs::read("date,site\n2014-05-21,Mill Lane\n").texts() ==
        Texts{"log.csv:1: there is no column \"pest\": add it"});
  CHECK(logs::read(k_header).texts() == Texts{});
}
