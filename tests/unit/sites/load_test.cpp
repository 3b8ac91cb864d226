#include "site_files.hpp"

using namespace budclock;
using namespace budclock::sites;
using site_files::changed;
using site_files::load;
using Texts = std::vector<std::string>;

TEST_CASE("a sites file becomes sites") {
  const auto loaded = load(site_files::read("sites.json"));
  CHECK(loaded.texts() == Texts{});
  CHECK(loaded.list.set_aside.empty());
  REQUIRE(loaded.list.sites.size() == 2);
  const Site& site = loaded.list.sites[0];
  CHECK(site.name == "Mill Lane");
  CHECK(site.place == Place{"sites.json", 6, 5});
  CHECK(site.latitude == 40.7833);
  CHECK(site.longitude == -81.9167);
  CHECK(site.elevation_m == 310);
  CHECK(site.plants == Texts{"Testwood hedge", "oak"});
  CHECK(site.watch == Texts{"test-psyllid"});
  CHECK(site.mute == Texts{"other-psyllid"});
  REQUIRE(site.contact.size() == 2);
  CHECK(site.contact[1] == std::pair<std::string, std::string>{"phone", "+1 555 0100"});

  REQUIRE(site.weather.sources.size() == 2);
  const WeatherSource& logger = site.weather.sources[0];
  REQUIRE(logger.files.size() == 1);
  CHECK(logger.files[0].text == "logger/*.csv");
  CHECK(logger.files[0].place == Place{"sites.json", 12, 23});
  CHECK(logger.units == TemperatureUnit::fahrenheit);
  CHECK(logger.date_order == weather::DateOrder::month_day_year);
  CHECK(logger.station == "S 1");
  CHECK(logger.columns == ColumnNames{"Day", "High", "Low"});
  CHECK(logger.offset == TemperatureDifference::fahrenheit(1.8));
  CHECK(logger.station_elevation_m == 300.5);
  CHECK(logger.read_time == ReadTime::as_dated);
  const WeatherSource& station = site.weather.sources[1];
  CHECK(station.files.size() == 2);
  CHECK(station.offset == TemperatureDifference::celsius(-0.5));
  CHECK(station.read_time == ReadTime::morning);
  CHECK(site.weather.gaps == GapPolicy::fill);
  CHECK(site.weather.forecasts.size() == 1);

  const Site& plain = loaded.list.sites[1];
  CHECK(plain.name == "Hof M\xC3\xBCller / \"North\"");
  CHECK(!plain.elevation_m);
  CHECK(!plain.weather.gaps);
  WeatherSource bare;
  bare.files = {{"ithaca.csv", {}}};
  CHECK(plain.weather.sources[0] == bare);
}

TEST_CASE("a site with a fault is set aside and the others stand") {
  const auto loaded = load(changed(site_files::read("sites.json"), "\"offset_c\": -0.5", "\"ofset_c\": -0.5"));
  CHECK(loaded.texts() ==
        Texts{"sites.json:16:58: unknown key \"ofset_c\" at /sites/0/weather/sources/1/ofset_c: did you mean "
              "\"offset_c\"?"});
  CHECK(loaded.diagnostics[0].severity == Severity::fault);
  REQUIRE(loaded.list.sites.size() == 1);
  CHECK(loaded.list.sites[0].latitude == 42);
  REQUIRE(loaded.list.set_aside.size() == 1);
  CHECK(loaded.list.set_aside[0].name == "Mill Lane");
}

TEST_CASE("a key given twice in a site sets that site aside") {
  const auto loaded = load(changed(site_files::read("sites.json"), "\"gaps\":", "\"gaps\": \"refuse\", \"gaps\":"));
  CHECK(loaded.texts() ==
        Texts{"sites.json:18:27: the key \"gaps\" stands twice, first on line 18, at /sites/0/weather/gaps: remove one "
              "of them"});
  CHECK(loaded.list.sites.size() == 1);
}

TEST_CASE("a file that is no sites file gives an error and no site") {
  const auto loaded = load(changed(site_files::read("sites.json"), "budclock/sites/1", "budclock/sites/9"));
  CHECK(loaded.texts() == Texts{"sites.json:2:13: \"budclock/sites/9\" is not known here at /schema: did you mean "
                                "\"budclock/sites/1\"?"});
  CHECK(loaded.diagnostics[0].severity == Severity::error);
  CHECK(loaded.list.sites.empty());

  CHECK(load("[]").texts() == Texts{
                                  "sites.json:1:1: a list stands where an object should at the top: write an object "
                                  "in { }",
                              });
  CHECK(load("").texts() == Texts{"sites.json: the file has no header line: name its columns in the first line: "
                                  "name,latitude,longitude,weather"});
}

TEST_CASE("names that differ only in case are one name") {
  const auto loaded = load(changed(site_files::read("sites.json"), "Hof Müller / \\\"North\\\"", "MILL lane"));
  CHECK(loaded.texts() == Texts{"sites.json:26:15: the name \"MILL lane\" stands twice, first on line 6 at "
                                "/sites/1/name: give each site its own name"});
}

TEST_CASE("control characters and outer spaces in names are refused") {
  const std::string sound = site_files::read("sites.json");
  CHECK(load(changed(sound, "Mill Lane", "Mill\\u001B[2J")).texts() ==
        Texts{"sites.json:7:15: \"Mill\\x1B[2J\" holds a control character at /sites/0/name: remove it"});
  CHECK(load(changed(sound, "Mill Lane", "Mill Lane ")).texts() ==
        Texts{"sites.json:7:15: the name \"Mill Lane \" begins or ends with a space at /sites/0/name: remove it"});
  CHECK(load(changed(sound, "wooster.csv", "woo\\u0000ster.csv")).texts() ==
        Texts{"sites.json:16:22: \"woo\\x00ster.csv\" holds a control character at "
              "/sites/0/weather/sources/1/files/0: remove it"});
}

TEST_CASE("an unknown pest is named with the nearest") {
  const std::string sound = site_files::read("sites.json");
  CHECK(load(changed(sound, "other psyllid", "other psylid")).texts() ==
        Texts{"sites.json:22:58: no pest is called \"other psylid\" at /sites/0/pests/mute/0: did you mean \"other "
              "psyllid\"?"});
  CHECK(load(changed(sound, "other psyllid", "test psyllid")).texts() ==
        Texts{"sites.json:22:16: test psyllid is to be watched and muted at /sites/0/pests: remove it from one of the "
              "lists"});
}

TEST_CASE("a plant that looks like a misspelt host is a fault, for its pests are lost, and the site is answered") {
  const auto loaded = load(changed(site_files::read("sites.json"), "Testwood hedge", "testwod"));
  CHECK(loaded.texts() == Texts{"sites.json:21:18: no pest here lives on \"testwod\": did you mean \"testwood\"?"});
  CHECK(loaded.diagnostics[0].severity == Severity::fault);
  CHECK(loaded.list.sites.size() == 2);
}

TEST_CASE("offsets in both units, empty lists of files and of sources are refused") {
  const std::string sound = site_files::read("sites.json");
  CHECK(load(changed(sound, "\"offset_f\": 1.8", "\"offset_f\": 1.8, \"offset_c\": 1")).texts() ==
        Texts{"sites.json:11:11: the offset is given in two units at /sites/0/weather/sources/0: remove one of them"});
  CHECK(load(changed(sound, "[\"ithaca.csv\"]", "[]")).texts() ==
        Texts{"sites.json:28:41: no weather file is named at /sites/1/weather/sources/0/files: add one"});
  CHECK(load(changed(sound, "[{\"files\": [\"ithaca.csv\"]}]", "[]")).texts() ==
        Texts{"sites.json:28:30: no weather source is named at /sites/1/weather/sources: add one with its \"files\""});
}

TEST_CASE("sites are found by name and suggested") {
  const auto loaded = load(site_files::read("sites.json"));
  REQUIRE(find_site(loaded.list.sites, "mill lane") != nullptr);
  CHECK(find_site(loaded.list.sites, "Mill") == nullptr);
  CHECK(suggest_site(loaded.list.sites, "Mil Lane") == "did you mean \"Mill Lane\"?");
  CHECK(suggest_site(loaded.list.sites, "x") == "the sites are: Mill Lane, Hof M\xC3\xBCller / \"North\"");
}
