// Letters to clients: what is told and what is not, and parts of the firm's own.
#include <budclock/report/letter.hpp>
#include <budclock/rules/load.hpp>

#include "built_site.hpp"

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::report;
using forecast::WindowState;
using rules::WindowKind;

namespace {

std::vector<LetterPart> shipped() {
  static const auto k_files = rules::shipped_letter_parts();
  std::vector<LetterPart> parts;
  for (const rules::RuleFile& file : k_files) {
    parts.push_back({file.name.substr(file.name.find_last_of('/') + 1), file.text, file.name});
  }
  return parts;
}

std::string text_of(const Built& built, const LetterFacts& facts = {}, std::vector<LetterPart> more = {}) {
  std::vector<LetterPart> parts = shipped();
  parts.insert(parts.end(), more.begin(), more.end());
  Diagnostics faults;
  const LetterTemplates templates = read_letter(parts, faults);
  REQUIRE(faults.empty());
  return as_text(letter(built.site, facts, templates), {.width = 1000, .colour = false});
}

std::vector<std::string> faults_of(std::string_view name, std::string_view text) {
  Diagnostics faults;
  const std::vector<LetterPart> parts{{name, text, "own"}};
  read_letter(parts, faults);
  std::vector<std::string> texts;
  for (const Diagnostic& fault : faults) texts.push_back(to_text(fault));
  return texts;
}

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

using Texts = std::vector<std::string>;

}  // namespace

TEST_CASE("a pest without anything to look for or to do is only named, and safety is left out") {
  const std::string text = text_of(Built{});
  CHECK(holds(text, "Dear client,"));
  CHECK(holds(text, "We also watch for test psyllid. Nothing needs doing"));
  CHECK_FALSE(holds(text, "Safety"));
}

TEST_CASE("an action is proposed when it is offered, and else only for what may be found") {
  Built built;
  auto& window = built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-04-20");
  CHECK(holds(text_of(built),
              "Only if we find this would we do more: live nymphs. Then we would propose an oil spray "
              "made for plants, by Apr 20."));
  window.offered = window.gate_met = true;
  window.gate_until = day("2012-04-16");
  CHECK(holds(text_of(built), "We can offer an oil spray made for plants, by Apr 16."));
  CHECK_FALSE(holds(text_of(built), "Only if"));
  CHECK(holds(text_of(built), "Safety"));
}

TEST_CASE("a look is proposed for while what it may find can still be acted on") {
  Built built;
  built.add(WindowKind::look, WindowState::open, "2012-04-01", "2012-05-20");
  CHECK(holds(text_of(built), "We propose to look by May 20."));
  built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-04-20");
  CHECK(holds(text_of(built), "We propose to look by Apr 20."));
}

TEST_CASE("what a ban holds back is left alone with its reason") {
  Built built;
  rules::Window ban;
  ban.name = "cupped";
  ban.reason = "The leaves shield it.";
  built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-04-20").barred_by = &ban;
  CHECK(holds(text_of(built), "treating it now would do no good or do harm: The leaves shield it."));
  CHECK_FALSE(holds(text_of(built), "oil"));
}

TEST_CASE("the last look of this year is told, and no free text of the log") {
  Built built;
  journal::Sighting row;
  row.date = day("2012-04-02");
  row.pest = built.pest.id;
  row.saw = {"nymphs"};
  row.note = "9 oz a tree";
  journal::Sighting newer = row;
  newer.date = day("2012-04-09");
  newer.saw.clear();
  newer.not_saw = {"cupping"};
  journal::Sighting later = row;
  later.date = day("2012-04-11");
  const std::string text = text_of(built, {"", {row, newer, later}, {}});
  CHECK(holds(text, "On Apr 9 we looked for this and did not find it: cupped leaves."));
  CHECK_FALSE(holds(text, "Apr 2"));
  CHECK_FALSE(holds(text, "Apr 11"));
  CHECK_FALSE(holds(text, "oz"));
}

TEST_CASE("a client's name is written as it is and never read") {
  const std::string text = text_of(Built{}, {"{site} \x1b[31m", {}, {}});
  CHECK(holds(text, "Dear {site} \\x1B[31m,"));
  CHECK(holds(text_of(Built{}, {"A\n# B", {}, {}}), "Dear A\\x0A# B,"));
}

TEST_CASE("a part of the firm's own stands in the place of the shipped one") {
  const std::string text = text_of(Built{}, {}, {{"opening.txt", "# Hello {{you}}\r\n\r\none\r\ntwo\r\n", "own"}});
  CHECK(text.starts_with("Hello {you}\none two\n"));
  CHECK(holds(text, "Please call us"));
}

TEST_CASE("what is wrong with a part is told with its line and column") {
  CHECK(faults_of("opening.txt", "Dear\n{cleint},") ==
        Texts{"own:2:1: {cleint} is no placeholder of opening.txt: did you mean {client}?"});
  CHECK(faults_of("pest.txt", "{pest {site}").at(0).starts_with("own:1:1: a brace stands alone"));
  CHECK(faults_of("pest.txt", "{pest} }").at(0).starts_with("own:1:8: a brace stands alone"));
  CHECK(faults_of("safety.txt", "{pest}").size() == 1);
  CHECK(faults_of("closng.txt", "x") == Texts{"own: no part of a letter has this name: did you mean closing.txt?"});
  CHECK(faults_of("closing.txt", "{{ }} {site}").empty());
}
