// Windows of an invented pest on invented weather: what may be called open, and what may not.
#include "invented.hpp"

#include <catch2/catch.hpp>

using namespace budclock;
using namespace budclock::forecast;
using rules::Action;
using rules::WindowKind;
using namespace invented;

TEST_CASE("an action whose end has no date is never called open") {
  const rules::Pest made = pest({by_sum("opens", 500), by_eye("closes")},
                                {window("spray", WindowKind::act, "opens", "closes", Action::contact),
                                 window("look", WindowKind::look, "opens", "closes", Action::look)});
  const PestForecast forecast = forecast_of(made, as_of("2014-03-10"));
  CHECK(forecast.windows[0].state == WindowState::not_known);
  CHECK(forecast.windows[1].state == WindowState::open);
}

TEST_CASE("weather that ends more than ten days before today opens nothing that it has not reached") {
  const rules::Pest made = pest({by_sum("opens", 500), by_sum("later", 2000)},
                                {window("early", WindowKind::look, "opens", "later", Action::look),
                                 window("late", WindowKind::look, "later", "later", Action::look)});
  SiteWeather stale = as_of("2014-03-10");
  stale.today = day("2014-08-01");
  const SiteForecast forecast = evaluate(Question{.site = "made-up garden", .pests = {&made}, .method = {}}, stale);
  CHECK(forecast.weather.too_old);
  const auto& triggers = forecast.pests[0].stages[0].begins;
  CHECK(triggers[0].standing == Standing::passed);
  CHECK(triggers[1].standing == Standing::not_known);
  CHECK(forecast.pests[0].windows[1].state == WindowState::not_known);
}

TEST_CASE("days that nothing can fill leave later dates unknown instead of late") {
  SiteWeather one_year = as_of("2014-06-30", "2014-01-01");
  for (std::size_t i = 40; i < 60; ++i) one_year.days.tmin[i] = {};
  const rules::Pest made = pest({by_sum("before", 300), by_sum("after", 500)}, {});
  const auto triggers = forecast_of(made, one_year).stages[0].begins;
  CHECK(triggers[0].summary.likely == day("2014-01-30"));
  CHECK(triggers[1].standing == Standing::not_known);
}

TEST_CASE("a ban takes its days from an action of the same kind, and from no other") {
  const rules::Pest made =
      pest({by_sum("opens", 500), by_sum("bans", 700), by_sum("closes", 900), by_sum("ends", 1200)},
           {window("spray", WindowKind::act, "opens", "closes", Action::contact),
            window("prune", WindowKind::act, "opens", "closes", Action::prune),
            window("leave", WindowKind::abstain, "bans", "ends", Action::contact)});
  const PestForecast forecast = forecast_of(made, as_of("2014-02-25"));
  CHECK(forecast.windows[2].from == day("2014-03-11"));
  CHECK(forecast.windows[0].until == day("2014-03-10"));
  CHECK(forecast.windows[1].until == day("2014-03-31"));
}

TEST_CASE("a ban that spans an action's opening puts it off, and one that spans all of it leaves none") {
  const rules::Pest put_off =
      pest({by_sum("bans", 400), by_sum("opens", 500), by_sum("ends", 700), by_sum("closes", 900)},
           {window("spray", WindowKind::act, "opens", "closes", Action::contact),
            window("leave", WindowKind::abstain, "bans", "ends", Action::contact)});
  CHECK(forecast_of(put_off, as_of("2014-02-25")).windows[0].from == day("2014-03-12"));
  const rules::Pest barred =
      pest({by_sum("bans", 400), by_sum("opens", 500), by_sum("closes", 700), by_sum("ends", 900)},
           {window("spray", WindowKind::act, "opens", "closes", Action::contact),
            window("leave", WindowKind::abstain, "bans", "ends", Action::contact)});
  CHECK(forecast_of(barred, as_of("2014-02-25")).windows[0].state == WindowState::none_left);
}

TEST_CASE("a calendar window over New Year belongs to the winter that today lies in or comes to") {
  const rules::Pest made = pest({by_calendar("opens", date::November / 15, date::November / 15),
                                 by_calendar("closes", date::February / 10, date::February / 10)},
                                {window("winter", WindowKind::look, "opens", "closes", Action::look)});
  const auto january = forecast_of(made, as_of("2014-01-20")).windows[0];
  CHECK(january.from == day("2013-11-15"));
  CHECK(january.until == day("2014-02-10"));
  CHECK(january.state == WindowState::open);
  const auto december = forecast_of(made, as_of("2014-12-20")).windows[0];
  CHECK(december.from == day("2014-11-15"));
  CHECK(december.until == day("2015-02-10"));
}

TEST_CASE("a calendar window that is over shows its next season once that is within sixty days") {
  const rules::Pest made = pest({by_calendar("opens", date::January / 20, date::January / 20),
                                 by_calendar("closes", date::March / 1, date::March / 1)},
                                {window("winter", WindowKind::look, "opens", "closes", Action::look)});
  CHECK(forecast_of(made, as_of("2014-11-20")).windows[0].state == WindowState::closed);
  const auto next = forecast_of(made, as_of("2014-11-21")).windows[0];
  CHECK(next.from == day("2015-01-20"));
  CHECK(next.state == WindowState::ahead);
}

TEST_CASE("an action's end is planned on the early bound, a look's on the late one") {
  // Past years reach 900 on 31 March; this year is ten degree-days ahead in the first ways and behind in none.
  SiteWeather weather = as_of("2014-03-01");
  for (int year = 2010; year < 2014; ++year) {  // each past spring colder than the last
    for (Day each = day("2010-03-02"); each <= day("2010-05-01"); each += date::days{1}) {
      const auto index = weather.days.index_of(in_year(month_day_of(each), year)).value();
      weather.days.tmin[index].value = weather.days.tmax[index].value = Temperature::fahrenheit(60 - 2 * (year - 2010));
    }
  }
  const rules::Pest made = pest({by_sum("opens", 500), by_sum("closes", 900)},
                                {window("spray", WindowKind::act, "opens", "closes", Action::contact),
                                 window("look", WindowKind::look, "opens", "closes", Action::look)});
  const PestForecast forecast = forecast_of(made, weather);
  CHECK(*forecast.windows[0].until < *forecast.windows[1].until);
  CHECK(forecast.windows[0].until == forecast.windows[0].closes_summary.early);
  CHECK(forecast.windows[1].until == forecast.windows[1].closes_summary.late);
}

TEST_CASE("a figure made far from the site is pointed out, one made near it is not") {
  rules::Trigger near = by_sum("near", 500);
  near.citation.region = "Ohio";
  rules::Trigger far = by_sum("far", 600);
  far.citation.region = "Utah";
  const rules::Pest made = pest({near, far}, {});
  const std::vector<rules::Region> regions{{"Ohio", 40.4, -82.8}, {"Utah", 39.3, -111.7}};
  Question question{.site = "made-up garden", .pests = {&made}, .method = {}};
  question.regions = &regions;
  CHECK(evaluate(question, as_of("2014-03-10")).pests[0].stages[0].far.empty());  // the place is not known
  question.place = Coordinates{40.8, -81.9};
  const auto stage = evaluate(question, as_of("2014-03-10")).pests[0].stages[0];
  REQUIRE(stage.far.size() == 1);
  CHECK(stage.far[0].name == "Utah");
  CHECK(stage.far[0].kilometres == Approx(2530).margin(20));
}

TEST_CASE("a day length dates its stage where the place is known") {
  rules::Trigger trigger{"long", "long days", rules::DayLengthCue{14, true, 0.8333}, rules::Use::date, {}};
  const rules::Pest made = pest({trigger}, {});
  Question question{.site = "made-up garden", .pests = {&made}, .method = {}};
  CHECK_FALSE(evaluate(question, as_of("2014-03-10")).pests[0].stages[0].spread.known());
  question.place = Coordinates{40, -80};
  const auto stage = evaluate(question, as_of("2014-03-10")).pests[0].stages[0];
  REQUIRE(stage.summary.likely);
  CHECK(month_day_of(*stage.summary.likely).month() == date::May);
}
