#include <budclock/document/object_reader.hpp>

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::document;

namespace {

enum class Colour { red, green };
constexpr std::array<NamedValue<Colour>, 2> k_colour_names{{{"red", Colour::red}, {"green", Colour::green}}};

struct Plant {
  std::string name;
  std::optional<int> height;
  std::optional<double> width;
  std::optional<Colour> colour;
  bool evergreen = false;
  std::vector<std::string> aliases;
};

/// Reads a plant as a module would, and gives what was found wrong.
std::vector<std::string> faults_of(std::string_view text, Plant* plant = nullptr) {
  Diagnostics diagnostics;
  const auto root = parse_json(text, "f.json", diagnostics);
  REQUIRE(root);
  Faults faults{"f.json", diagnostics};
  ObjectReader reader{*root, faults};
  Plant read;
  read.name = reader.text("name");
  read.height = reader.whole_number("height", 0, 90, Presence::optional);
  read.width = reader.number("width", 0.5, 9, Presence::optional);
  read.colour = reader.choice("colour", k_colour_names, Presence::optional);
  read.evergreen = reader.flag("evergreen");
  read.aliases = reader.texts("also_called", Presence::optional);
  reader.finish();
  CHECK(faults.count() == diagnostics.size());
  if (plant != nullptr) *plant = read;
  std::vector<std::string> texts;
  for (const Diagnostic& diagnostic : diagnostics) texts.push_back(to_text(diagnostic));
  return texts;
}

using Texts = std::vector<std::string>;

}  // namespace

TEST_CASE("a sound object is read without a word") {
  Plant plant;
  CHECK(faults_of(R"({"name": "box", "height": 3, "width": 1.5, "colour": "green", "evergreen": true,
                      "also_called": ["boxwood", "buxus"]})",
                  &plant)
            .empty());
  CHECK(plant.name == "box");
  CHECK(plant.height == 3);
  CHECK(plant.width == 1.5);
  CHECK(plant.colour == Colour::green);
  CHECK(plant.evergreen);
  CHECK(plant.aliases == Texts{"boxwood", "buxus"});
}

TEST_CASE("optional members may be absent, required ones point at their object's brace") {
  Plant plant;
  CHECK(faults_of(R"({"name": "box"})", &plant).empty());
  CHECK_FALSE(plant.height);
  CHECK_FALSE(plant.evergreen);
  CHECK(faults_of("\n  {}") == Texts{"f.json:2:3: \"name\" is missing at the top: add it"});
}

TEST_CASE("a member of another type says what it is and what to write") {
  CHECK(faults_of(R"({"name": 3})") ==
        Texts{"f.json:1:10: a number stands where a text should at /name: write a text in double quotes"});
  CHECK(faults_of(R"({"name": "a", "height": "3"})") ==
        Texts{"f.json:1:25: a text stands where a number should at /height: write a number, without quotes"});
  CHECK(
      faults_of(R"({"name": "a", "evergreen": "yes"})") ==
      Texts{
          "f.json:1:28: a text stands where true or false should at /evergreen: write true or false, without quotes"});
  CHECK(faults_of(R"({"name": "a", "also_called": "b"})") ==
        Texts{"f.json:1:30: a text stands where a list should at /also_called: write a list in [ ]"});
  CHECK(faults_of(R"({"name": "a", "also_called": ["b", null]})") ==
        Texts{"f.json:1:36: null stands where a text should at /also_called/1: write a text in double quotes"});
}

TEST_CASE("a root that is no object is one fault") {
  CHECK(faults_of("[1]") ==
        Texts{"f.json:1:1: a list stands where an object should at the top: write an object in { }"});
}

TEST_CASE("an empty text is a fault") {
  CHECK(faults_of(R"({"name": " "})") ==
        Texts{"f.json:1:10: the text is empty at /name: write something, or leave the key out"});
}

TEST_CASE("numbers stay within their range, ends included, and whole where they must be") {
  CHECK(faults_of(R"({"name": "a", "height": 0, "width": 0.5})").empty());
  CHECK(faults_of(R"({"name": "a", "height": 90, "width": 9})").empty());
  CHECK(faults_of(R"({"name": "a", "height": 91})") ==
        Texts{"f.json:1:25: 91 is out of range at /height: write a number from 0 to 90"});
  CHECK(faults_of(R"({"name": "a", "width": 0.49})") ==
        Texts{"f.json:1:24: 0.49 is out of range at /width: write a number from 0.5 to 9"});
  CHECK(faults_of(R"({"name": "a", "height": 2.5})") ==
        Texts{"f.json:1:25: 2.5 is not a whole number at /height: write it without a fraction"});
}

TEST_CASE("a word that is not of the set gets the nearest, or all of them") {
  CHECK(faults_of(R"({"name": "a", "colour": "gren"})") ==
        Texts{"f.json:1:25: \"gren\" is not known here at /colour: did you mean \"green\"?"});
  CHECK(faults_of(R"({"name": "a", "colour": "turquoise"})") ==
        Texts{"f.json:1:25: \"turquoise\" is not known here at /colour: write one of: red, green"});
}

TEST_CASE("an unknown key gets the nearest absent key, or all keys") {
  CHECK(faults_of(R"({"name": "a", "hieght": 3})") ==
        Texts{"f.json:1:15: unknown key \"hieght\" at /hieght: did you mean \"height\"?"});
  CHECK(faults_of(R"({"name": "a", "soil": 3})") ==
        Texts{"f.json:1:15: unknown key \"soil\" at /soil: remove it; the keys here are: name, height, width, colour, "
              "evergreen, also_called"});
  CHECK(faults_of(R"({"name": "a", "nam": "b"})").front().find("did you mean") == std::string::npos);
}

TEST_CASE("all faults are found in one pass") {
  CHECK(faults_of(R"({"nmae": "a", "height": -1, "colour": 3, "also_called": ["", 2]})").size() == 6);
}
