#include "site_files.hpp"

using namespace budclock;
using namespace budclock::sites;
using site_files::load;
using Texts = std::vector<std::string>;

namespace {

auto load_csv(const std::string& text) { return load(text, "sites.csv"); }

}  // namespace

TEST_CASE("a row of a table is the same site as an object in JSON") {
  const auto csv = load_csv(
      "name,latitude,longitude,elevation_m,weather,station,units,date_order,date_column,tmax_column,tmin_column,"
      "offset_f,station_elevation_m,read_time,gaps,forecasts,plants,watch,mute,contact_client,contact_phone\n"
      "Mill Lane,40.7833,-81.9167,310,logger/*.csv,S 1,F,mdy,Day,High,Low,1.8,300.5,midnight,fill,forecast.json,"
      "Testwood hedge; oak,Psylla imaginaria,other psyllid,M. Invented,+1 555 0100\n");
  CHECK(csv.texts() == Texts{});
  REQUIRE(csv.list.sites.size() == 1);
  auto json = load(site_files::read("sites.json"));
  Site& expected = json.list.sites[0];
  expected.weather.sources.resize(1);
  const Site& site = csv.list.sites[0];
  CHECK(site.name == expected.name);
  CHECK(site.place == Place{"sites.csv", 2, 1});
  CHECK(site.latitude == expected.latitude);
  CHECK(site.longitude == expected.longitude);
  CHECK(site.elevation_m == expected.elevation_m);
  CHECK(site.weather == expected.weather);
  CHECK(site.plants == expected.plants);
  CHECK(site.watch == expected.watch);
  CHECK(site.mute == expected.mute);
  CHECK(site.contact == expected.contact);
}

TEST_CASE("a semicolon table may write decimal commas and quoted lists") {
  const auto loaded = load_csv(
      "\xEF\xBB\xBFName;Weather;Latitude;Longitude;Plants\r\nA;\"a.csv;b.csv\";40,5;-80,25;\"fir;spruce\"\r\n");
  CHECK(loaded.texts() == Texts{});
  REQUIRE(loaded.list.sites.size() == 1);
  CHECK(loaded.list.sites[0].latitude == 40.5);
  CHECK(loaded.list.sites[0].longitude == -80.25);
  CHECK(loaded.list.sites[0].weather.sources[0].files.size() == 2);
  CHECK(loaded.list.sites[0].plants == Texts{"fir", "spruce"});
}

TEST_CASE("faults of a table name line, column and the column's name") {
  const auto loaded = load_csv(
      "name,latitude,longitude,weather,plnts\n"
      "A,north,-80,a.csv,fir\n"
      "B,40,-200,b.csv,fir\n"
      "C,40,-80,,fir\n"
      ",40,-80,a.csv,fir\n"
      "D,40,-80,d.csv\n"
      "E,40,-80,e.csv,fir,more\n"
      "F\xFF,40,-80,f.csv,\n"
      "\"G,40,-80,g.csv,\n");
  CHECK(loaded.texts() ==
        Texts{"sites.csv:1:33: unknown column \"plnts\"; it is not read: did you mean \"plants\"?",
              "sites.csv:7:20: the row has more than 5 cells; the row is set aside: put quotes around a text that "
              "holds the delimiter",
              "sites.csv:8:1: the text is not UTF-8; the row is set aside: save the file as UTF-8",
              "sites.csv:9:1: a quote is not closed; the row is set aside: correct the line",
              "sites.csv:2:3: a text stands where a number should at latitude: write a number, without quotes",
              "sites.csv:3:6: -200 is out of range at longitude: write a number from -180 to 180",
              "sites.csv:4:10: no weather file is named at weather: add one",
              "sites.csv:5:1: \"name\" is missing at the row: add it"});
  REQUIRE(loaded.list.sites.size() == 1);
  CHECK(loaded.list.sites[0].name == "D");
  CHECK(!any_at_least(loaded.diagnostics, Severity::error));
}

TEST_CASE("a table without a required column is an error") {
  CHECK(load_csv("name,latitude,weather\nA,40,a.csv\n").texts() ==
        Texts{"sites.csv:1: there is no column \"longitude\": add it"});
  CHECK(load_csv("name,name,latitude,longitude,weather\n").texts() ==
        Texts{"sites.csv:1:6: the column \"name\" stands twice; the first is read: remove one of them"});
}

TEST_CASE("a row lost to a comment mark is said") {
  CHECK(
      load_csv("name,latitude,longitude,weather\n# a remark\n#1 Elm,40,-80,a.csv\n\"#2 Elm\",40,-80,a.csv\n").texts() ==
      Texts{"sites.csv:3:1: this line begins with #, so it is a comment and no row: put quotes around its first "
            "cell if it is one"});
}
