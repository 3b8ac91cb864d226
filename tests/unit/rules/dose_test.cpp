#include <budclock/rules/dose.hpp>

#include <catch2/catch.hpp>

using namespace budclock;
using rules::find_dose;

TEST_CASE("an amount before a unit of dose is found") {
  for (const char* text :
       {"2%",        "2 %",  "0.5 oz", "1-oz",   "3 fl oz",    "3 fl. oz",    "3 Fluid Ounces",
        "5ml",       "5 mL", "1 pt",   "2 pts",  "2 qt",       "100 gal",     "100-gal",
        "5 GALLONS", "1 lb", "10 lbs", "40 ppm", "2\xC2\xA0%", "\xC2\xBD oz", "at 7.5\xE2\x80\x89ml each",
        "2\noz"}) {
    INFO(text);
    CHECK(find_dose(text));
  }
  CHECK(find_dose("mix 12.5 fl oz per tank") == "5 fl oz");
}

TEST_CASE("other numbers and words are no dose") {
  for (const char* text : {"50 \xC2\xB0"
                           "F",
                           "179 degree-days", "20 June", "3 galls", "2 ptarmigans", "12 mlx", "percent", "90 percent",
                           "oz", "lb 5", "Leaflet 2, pt. x", "100 feet", "10 m", "2 flies"}) {
    INFO(text);
    CHECK_FALSE(find_dose(text));
  }
}
