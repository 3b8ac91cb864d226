#include <budclock/forecast/evaluate.hpp>

#include "wooster.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace budclock;
using namespace budclock::forecast;

namespace {

SiteForecast all_pests_on(Day today) {
  Question question{.site = "", .pests = {}, .method = {}};
  for (const rules::Pest& pest : shipped().pests) question.pests.push_back(&pest);
  return evaluate(question, {weather::until(wooster(), today), today});
}

}  // namespace

TEST_CASE("the doubt of a stage is told by weather, by sources and together") {
  const SiteForecast site = all_pests_on(*make_day(2014, 4, 1));
  int one_source = 0, disagreeing = 0;
  for (const PestForecast& pest : site.pests) {
    for (const StageForecast& stage : pest.stages) {
      std::vector<const Summary*> dated;
      for (const TriggerForecast& trigger : stage.begins) {
        if (trigger.trigger->use != rules::Use::date || !trigger.degree_days || !trigger.summary.late) continue;
        dated.push_back(&trigger.summary);
      }
      INFO(pest.pest->id << " " << stage.stage->id);
      if (stage.evidence == Evidence::calendar || stage.evidence == Evidence::none) {
        CHECK_FALSE(stage.doubt.weather);
        CHECK_FALSE(stage.doubt.sources);
        CHECK_FALSE(stage.doubt.together);
      }
      if (stage.evidence == Evidence::one_source && dated.size() == 1) {
        CHECK(stage.doubt.weather == static_cast<int>((*dated[0]->late - *dated[0]->early).count()));
        CHECK(stage.doubt.sources == 0);
        CHECK(stage.doubt.together == stage.doubt.weather);
        ++one_source;
      }
      if (stage.evidence == Evidence::sources_disagree && dated.size() == 2) {
        const auto a = (*dated[0]->late - *dated[0]->early).count();
        const auto b = (*dated[1]->late - *dated[1]->early).count();
        CHECK(stage.doubt.weather == static_cast<int>(std::lround(static_cast<double>(a + b) / 2)));
        CHECK(stage.doubt.sources == std::abs(static_cast<int>((*dated[0]->likely - *dated[1]->likely).count())));
        CHECK(*stage.doubt.together > *stage.doubt.weather);
        ++disagreeing;
      }
    }
  }
  CHECK(one_source > 0);
  CHECK(disagreeing > 0);
}
