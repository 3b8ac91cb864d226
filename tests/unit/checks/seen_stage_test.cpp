// What was seen stands in the place of what was forecast, and what counts from it counts from there.
#include <budclock/report/words.hpp>

#include "records.hpp"

#include <algorithm>

using namespace budclock;
using forecast::Evidence;
using forecast::PestForecast;
using forecast::StageForecast;
using journal::Sighting;
using records::day;

namespace {

const rules::Pest& pest(const char* id) { return *records::shipped().find_pest(id); }

Sighting found(const char* pest_id, const char* stage, const char* date, bool not_found = false) {
  Sighting sighting;
  sighting.date = day(date);
  sighting.site = "wooster";
  sighting.pest = pest_id;
  sighting.stage = stage;
  sighting.not_found = not_found;
  return sighting;
}

Sighting saw(const char* pest_id, const char* observation, const char* date) {
  Sighting sighting = found(pest_id, "", date);
  sighting.saw = {observation};
  return sighting;
}

PestForecast forecast_with(const char* pest_id, const char* today, std::vector<Sighting> log) {
  const records::Record& wooster = records::ohio().back();
  const forecast::Question question{
      .site = wooster.name, .pests = {&pest(pest_id)}, .method = {}, .sightings = std::move(log)};
  return evaluate(question, {weather::until(wooster.days, day(today)), day(today)}).pests.front();
}

const StageForecast& stage(const PestForecast& forecast, const char* id) {
  return *std::find_if(forecast.stages.begin(), forecast.stages.end(),
                       [id](const StageForecast& each) { return std::string{each.stage->id} == id; });
}

const forecast::WindowForecast& window(const PestForecast& forecast, const char* id) {
  return *std::find_if(forecast.windows.begin(), forecast.windows.end(),
                       [id](const forecast::WindowForecast& each) { return std::string{each.window->id} == id; });
}

}  // namespace

TEST_CASE("a stage that was found has that day, and the days since it was looked for in vain as its range") {
  const auto forecast = forecast_with(
      "boxwood-psyllid", "2012-04-20",
      {found("boxwood-psyllid", "egg-hatch", "2012-04-01", true),
       found("boxwood-psyllid", "egg-hatch", "2012-04-04", true), found("boxwood-psyllid", "egg-hatch", "2012-04-09"),
       found("boxwood-psyllid", "egg-hatch", "2012-04-16")});
  const StageForecast& hatch = stage(forecast, "egg-hatch");
  CHECK(hatch.evidence == Evidence::seen_here);
  CHECK(hatch.standing == forecast::Standing::passed);
  CHECK(hatch.summary.likely == day("2012-04-09"));
  CHECK(hatch.summary.early == day("2012-04-05"));
  CHECK(hatch.summary.late == day("2012-04-09"));
  CHECK(report::stage_date_text(hatch, day("2012-04-20")) == "seen Apr 9, not yet Apr 4");
}

TEST_CASE("windows open by what was seen, not by the figure") {
  const auto before = forecast_with("boxwood-psyllid", "2012-04-10", {});
  CHECK(*window(before, "treat-nymphs").from > day("2012-04-10"));
  const auto after =
      forecast_with("boxwood-psyllid", "2012-04-10", {found("boxwood-psyllid", "egg-hatch", "2012-04-08")});
  CHECK(window(after, "treat-nymphs").from == day("2012-04-08"));
  CHECK(window(after, "treat-nymphs").opening_seen == day("2012-04-08"));
  // The figure keeps saying what it says, for those who ask why.
  CHECK(stage(after, "egg-hatch").begins.front().summary.likely ==
        stage(before, "egg-hatch").begins.front().summary.likely);
}

TEST_CASE("live nymphs on record before the figure's day show that eggs have hatched, open buds alone do not") {
  const auto buds = forecast_with("boxwood-psyllid", "2012-04-10", {saw("boxwood-psyllid", "open-buds", "2012-04-08")});
  CHECK_FALSE(stage(buds, "egg-hatch").seen);
  CHECK(*window(buds, "treat-nymphs").from > day("2012-04-10"));
  const auto nymphs = forecast_with("boxwood-psyllid", "2012-04-10", {saw("boxwood-psyllid", "nymphs", "2012-04-08")});
  CHECK(stage(nymphs, "egg-hatch").evidence == Evidence::seen_here);
  CHECK(window(nymphs, "treat-nymphs").from == day("2012-04-08"));
  CHECK(window(nymphs, "treat-nymphs").opening_seen == day("2012-04-08"));
}

TEST_CASE("nymphs found after the figure's day leave the hatch where the figure has it") {
  const auto without = forecast_with("boxwood-psyllid", "2012-05-20", {});
  const auto late = forecast_with("boxwood-psyllid", "2012-05-20", {saw("boxwood-psyllid", "nymphs", "2012-05-18")});
  REQUIRE(*stage(without, "egg-hatch").summary.likely < day("2012-05-18"));
  CHECK_FALSE(stage(late, "egg-hatch").seen);
  CHECK(stage(late, "egg-hatch").summary.likely == stage(without, "egg-hatch").summary.likely);
}

TEST_CASE("nymphs on record before the day on which hatch was noted count from the first of both") {
  const auto both = forecast_with(
      "boxwood-psyllid", "2012-04-12",
      {found("boxwood-psyllid", "egg-hatch", "2012-04-10"), saw("boxwood-psyllid", "nymphs", "2012-04-08")});
  CHECK(stage(both, "egg-hatch").summary.likely == day("2012-04-08"));
}

TEST_CASE("so many days after a stage count from the day it was seen") {
  const auto forecast = forecast_with("hackberry-leaf-gall-psyllids", "2012-04-20",
                                      {found("hackberry-leaf-gall-psyllids", "adults-return", "2012-04-12")});
  const StageForecast& spray = stage(forecast, "spray-time");
  REQUIRE(spray.begins.size() == 2);
  CHECK(spray.begins[0].summary.likely == day("2012-04-22"));
  CHECK(spray.begins[1].summary.likely == day("2012-04-26"));
  CHECK(spray.begins[0].counts_from == day("2012-04-12"));
}

TEST_CASE("degree-days after a stage count from the day it was seen") {
  const char* grape = "grape-phylloxera-leaf-form";
  const auto from = [&](const char* seen) {
    const auto forecast = forecast_with(grape, "2012-06-20", {found(grape, "second-generation-crawlers", seen)});
    for (const StageForecast& each : forecast.stages) {
      for (const auto& trigger : each.begins) {
        if (trigger.counts_from) return trigger;
      }
    }
    FAIL("nothing counts from it");
    return forecast::TriggerForecast{};
  };
  const auto early = from("2012-05-20");
  const auto late = from("2012-06-05");
  CHECK(early.counts_from == day("2012-05-20"));
  CHECK(early.degree_days->start == day("2012-05-20"));
  CHECK(*early.summary.likely < *late.summary.likely);
  CHECK(early.degree_days->so_far > late.degree_days->so_far);
}

TEST_CASE("an observation dates the cue that names it, and a stage that nothing else dates") {
  Sighting cupping = found("boxwood-psyllid", "", "2012-04-18");
  cupping.saw = {"cupping"};
  const auto forecast = forecast_with("boxwood-psyllid", "2012-04-20", {cupping});
  CHECK(stage(forecast, "cupping").summary.likely == day("2012-04-18"));
  CHECK(stage(forecast, "cupping").evidence == Evidence::seen_here);
  // Leaves that have cupped end the time to spray and begin the time to prune.
  CHECK(window(forecast, "treat-nymphs").until <= day("2012-04-18"));
  CHECK(window(forecast, "prune-cupped-tips").from == day("2012-04-18"));
  CHECK(window(forecast, "too-late-to-spray").from == day("2012-04-18"));
}

TEST_CASE("sightings of other sites, other years and later days change nothing") {
  auto elsewhere = found("boxwood-psyllid", "egg-hatch", "2012-04-08");
  elsewhere.site = "hiram";
  const auto forecast = forecast_with("boxwood-psyllid", "2012-04-10",
                                      {elsewhere, found("boxwood-psyllid", "egg-hatch", "2011-04-08"),
                                       found("boxwood-psyllid", "egg-hatch", "2012-04-11")});
  CHECK_FALSE(stage(forecast, "egg-hatch").seen);
  CHECK(*window(forecast, "treat-nymphs").from > day("2012-04-10"));
}

TEST_CASE("a calendar window that ended early by what was seen still shows its next season") {
  const char* balsam = "balsam-woolly-adelgid";
  Sighting buds = found(balsam, "", "2012-03-05");
  buds.saw = {"open-buds"};
  Sighting eggs = found(balsam, "", "2012-03-05");
  eggs.saw = {"eggs-under-wool"};
  const auto spring = forecast_with(balsam, "2012-03-08", {eggs, buds});
  CHECK(window(spring, "winter-oil-or-soap").state == forecast::WindowState::closed);
  const auto autumn = forecast_with(balsam, "2012-12-01", {eggs, buds});
  CHECK(window(autumn, "winter-oil-or-soap").from == day("2013-01-01"));
  CHECK(window(autumn, "winter-oil-or-soap").until ==
        window(forecast_with(balsam, "2012-12-01", {}), "winter-oil-or-soap").until);
}
