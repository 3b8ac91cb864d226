// The action log: reading, appending, and what an inspector would miss.
#include <budclock/journal/action_log.hpp>

#include "logs.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>
#include <iterator>
#include <set>
#include <sys/wait.h>
#include <unistd.h>

using namespace budclock;
using namespace budclock::journal;

namespace {

const std::string k_header =
    "date,site,pest,action,product,registration,amount,area,plants,applicator,licence,reentry,preharvest,notice,note,"
    "tmin_f,tmin_origin,tmax_f,tmax_origin\n";
const std::string k_aside = "; the row is set aside: ";

struct Read {
  std::vector<ActionTaken> actions;
  std::vector<std::string> texts;
};

Read read(const std::string& text) {
  static const rules::PestTable table = logs::pests();
  Diagnostics diagnostics;
  Read read;
  read.actions = read_actions(text, "a.csv", {table, {"Mill Lane", "=Elm"}, logs::day("2014-06-30")}, diagnostics);
  for (const Diagnostic& each : diagnostics) read.texts.push_back(to_text(each));
  return read;
}

using Texts = std::vector<std::string>;

/// What is wrong with a row of the four columns that must be there, and the two of the minimum.
Texts faults(const std::string& row) { return read("date,site,pest,action,tmin_f,tmin_origin\n" + row + "\n").texts; }

ActionTaken action() {
  ActionTaken action;
  action.date = logs::day("2014-04-20");
  action.site = "Mill Lane";
  action.pest = "test-psyllid";
  action.action = rules::Action::soil_systemic;
  return action;
}

/// A file of its own, gone after the test.
class File {
 public:
  File() {
    std::string name = (std::filesystem::temp_directory_path() / "budclock-actions-XXXXXX").string();
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    folder_ = name;
  }
  File(const File&) = delete;
  File& operator=(const File&) = delete;
  ~File() { std::filesystem::remove_all(folder_); }

  std::string path() const { return folder_ + "/actions.csv"; }
  std::string content() const {
    std::ifstream file{path(), std::ios::binary};
    return {std::istreambuf_iterator<char>{file}, {}};
  }

 private:
  std::string folder_;
};

}  // namespace

TEST_CASE("an action log is read by its columns, in any order, and comes by date") {
  const Read log = read(
      "note;Date;site;pest;action;product;tmin_f;tmin_origin;tmax_f;tmax_origin\n"
      "second;4/20/2014;mill lane;test-psyllid;Soil-Systemic;Invented 2;41.5;observed;;set aside\n"
      ";4/13/2014;=Elm;test psyllid;prune;;;;;\n");
  CHECK(log.texts == Texts{});
  REQUIRE(log.actions.size() == 2);
  CHECK(log.actions[0].site == "=Elm");
  CHECK(log.actions[0].action == rules::Action::prune);
  CHECK(log.actions[0].tmin.origin == weather::Origin::absent);
  const ActionTaken& second = log.actions[1];
  CHECK(iso(second.date) == "2014-04-20");
  CHECK(second.site == "Mill Lane");
  CHECK(second.pest == "test-psyllid");
  CHECK(second.action == rules::Action::soil_systemic);
  CHECK(second.product == "Invented 2");
  CHECK(second.note == "second");
  CHECK(second.tmin.value == Temperature::fahrenheit(41.5));
  CHECK(second.tmin.origin == weather::Origin::observed);
  CHECK(second.tmax.origin == weather::Origin::set_aside);
  CHECK(second.place == Place{"a.csv", 2, 1});
}

TEST_CASE("a row that cannot be right is named by line and column") {
  CHECK(faults("2014-07-01,Mill Lane,test-psyllid,oil,,") ==
        Texts{"a.csv:2:1: 2014-07-01 lies after today, 2014-06-30" + k_aside + "correct the date"});
  CHECK(faults("2014-04-20,Mil Lane,test-psyllid,oil,,") ==
        Texts{"a.csv:2:12: no site is called \"Mil Lane\"" + k_aside + "did you mean \"Mill Lane\"?"});
  CHECK(faults("2014-04-20,Mill Lane,test-psylid,oil,,").size() == 1);
  CHECK(faults("2014-04-20,Mill Lane,test-psyllid,oli,,") ==
        Texts{"a.csv:2:35: \"oli\" is no kind of action" + k_aside + "did you mean \"oil\"?"});
  CHECK(faults("2014-04-20,Mill Lane,test-psyllid,,,") ==
        Texts{"a.csv:2:35: there is no action" + k_aside + "write its kind, such as contact, oil or prune"});
  CHECK(
      faults("2014-04-20,Mill Lane,test-psyllid,look,,") ==
      Texts{"a.csv:2:35: to look is no action" + k_aside + "record what was seen in the scouting log: budclock seen"});
  CHECK(faults("2014-04-20,Mill Lane,test-psyllid,oil,warm,observed") ==
        Texts{"a.csv:2:39: the tmin_f is no temperature in degrees F" + k_aside + "correct it, or empty it"});
  CHECK(faults("2014-04-20,Mill Lane,test-psyllid,oil,999,observed").size() == 1);
  CHECK(faults("2014-04-20,Mill Lane,test-psyllid,oil,50,seen").size() == 1);
  CHECK(faults("2014-04-20,Mill Lane,test-psyllid,oil,50,") ==
        Texts{"a.csv:2:42: tmin_f and tmin_origin do not fit" + k_aside + "fill both, or empty both"});
  CHECK(faults("2014-04-20,Mill Lane,test-psyllid,oil,,observed").size() == 1);
  CHECK(faults("2014-07-01,Mil Lane,test-psylid,oli,warm,").size() == 5);
}

TEST_CASE("every sound row beside a bad one is read") {
  const Read log = read(
      "date,site,pest,action\n2014-04-20,Mill Lane,test-psyllid,oil\n2014-04-21,Nowhere,test-psyllid,oil\n"
      "2014-04-22,Mill Lane,test-psyllid,soap\n");
  CHECK(log.texts.size() == 1);
  CHECK(log.actions.size() == 2);
}

TEST_CASE("a log without a column that must be there is refused") {
  CHECK(read("date,site,pest\n2014-04-20,Mill Lane,test-psyllid\n").texts ==
        Texts{"a.csv:1: there is no column \"action\": add it"});
}

TEST_CASE("no message quotes what was typed from a label") {
  const Read log = read(
      "date,site,pest,action,product,amount\n2014-04-20,Mill Lane,test-psyllid,oil,Inv\x1b"
      "ented,\x01"
      "9\n");
  CHECK(log.texts == Texts{"a.csv:2:39: the product holds a control character" + k_aside + "remove it",
                           "a.csv:2:49: the amount holds a control character" + k_aside + "remove it"});
}

TEST_CASE("an action is read back as it was recorded, whatever its texts") {
  for (const std::string text : {"=1+1", "a,b;c\t\"d\"", "two\nlines", "#", "M\xC3\xBCller", "'quoted'", "-"}) {
    const File file;
    ActionTaken given = action();
    for (const ActionText& each : k_action_texts) given.*each.text = text + std::string{each.column};
    given.tmin = {Temperature::celsius(5.6), weather::Origin::observed};
    given.tmax = {{}, weather::Origin::set_aside};
    CHECK(append_action(file.path(), row_of(given)).outcome == Appended::added);
    const Read log = read(file.content());
    CHECK(log.texts == Texts{});
    REQUIRE(log.actions.size() == 1);
    for (const ActionText& each : k_action_texts) CHECK(log.actions[0].*each.text == given.*each.text);
    CHECK(log.actions[0].tmin.value == given.tmin.value);
    CHECK(log.actions[0].tmin.origin == given.tmin.origin);
    CHECK(log.actions[0].tmax.origin == given.tmax.origin);
  }
}

TEST_CASE("a new action log gets its header, and no text in it can run as a formula") {
  const File file;
  ActionTaken given = action();
  given.product = "=Invented";
  CHECK(append_action(file.path(), row_of(given)).outcome == Appended::added);
  CHECK(file.content() == k_header + "2014-04-20,Mill Lane,test-psyllid,soil systemic,'=Invented,,,,,,,,,,,,,,\n");
}

TEST_CASE("the same action is not added again once its weather is known") {
  const File file;
  ActionTaken given = action();
  CHECK(append_action(file.path(), row_of(given)).outcome == Appended::added);
  const std::string before = file.content();
  given.tmin = {Temperature::fahrenheit(41), weather::Origin::observed};
  CHECK(append_action(file.path(), row_of(given)).outcome == Appended::duplicate);
  CHECK(file.content() == before);
  given.note = "the back hedge";
  CHECK(append_action(file.path(), row_of(given)).outcome == Appended::added);
}

TEST_CASE("four processes that record actions at once lose nothing") {
  constexpr int k_rows = 250;
  const File file;
  std::vector<pid_t> children;
  for (int process = 0; process < 4; ++process) {
    const pid_t child = ::fork();
    if (child == 0) {
      ActionTaken given = action();
      for (int i = 0; i < k_rows; ++i) {
        given.note = fmt::format("{}-{}", process, i);
        if (append_action(file.path(), row_of(given)).outcome != Appended::added) ::_exit(1);
      }
      ::_exit(0);
    }
    children.push_back(child);
  }
  for (const pid_t child : children) {
    int status = -1;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK(status == 0);
  }
  const Read log = read(file.content());
  CHECK(log.texts == Texts{});
  std::set<std::string> notes;
  for (const ActionTaken& each : log.actions) notes.insert(each.note);
  CHECK(log.actions.size() == 4 * k_rows);
  CHECK(notes.size() == 4 * k_rows);
}

TEST_CASE("what the federal record asks for is missed only where a pesticide was used") {
  const auto columns = [](const ActionTaken& row) {
    std::vector<std::string_view> all;
    for (const ActionText* each : missing_texts(row)) all.push_back(each->column);
    return all;
  };
  ActionTaken given = action();
  CHECK(columns(given) ==
        std::vector<std::string_view>{"product", "registration", "amount", "area", "plants", "applicator", "licence"});
  given.product = given.amount = given.plants = "given";
  CHECK(columns(given) == std::vector<std::string_view>{"registration", "area", "applicator", "licence"});
  given.action = rules::Action::prune;
  CHECK(columns(given).empty());
}
