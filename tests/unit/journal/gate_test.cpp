#include "logs.hpp"

#include <algorithm>

using namespace budclock;
using namespace budclock::journal;
using logs::day;

namespace {

const rules::PestTable k_table = logs::pests();
const rules::Pest& k_pest = k_table.pests[1];
const rules::Gate k_gate{{"open-buds", "nymphs"}, {"cupping"}};

Sighting row(const char* date) {
  Sighting sighting;
  sighting.date = day(date);
  sighting.site = "Mill Lane";
  sighting.pest = "test-psyllid";
  return sighting;
}

Sighting saw(const char* date, const char* observation) {
  Sighting sighting = row(date);
  sighting.saw = {observation};
  return sighting;
}

Sighting not_saw(const char* date, const char* observation) {
  Sighting sighting = row(date);
  sighting.not_saw = {observation};
  return sighting;
}

GateState state(const std::vector<Sighting>& log, const char* today) {
  return gate_state(k_pest, k_gate, log, "Mill Lane", day(today));
}

const std::vector<Sighting> k_full{saw("2014-04-20", "open-buds"), saw("2014-04-21", "nymphs"),
                                   not_saw("2014-04-21", "cupping")};

}  // namespace

TEST_CASE("recording observations one by one opens the gate with the last, whatever their order") {
  std::vector<std::size_t> order{0, 1, 2};
  int orders = 0;
  do {
    std::vector<Sighting> log;
    for (std::size_t i = 0; i < order.size(); ++i) {
      CHECK(!state(log, "2014-04-22").met());
      log.push_back(k_full[order[i]]);
    }
    CHECK(state(log, "2014-04-22").met());
    ++orders;
  } while (std::next_permutation(order.begin(), order.end()));
  CHECK(orders == 6);
}

TEST_CASE("removing, ageing or contradicting any one observation closes the gate") {
  for (std::size_t i = 0; i < k_full.size(); ++i) {
    INFO(i);
    std::vector<Sighting> log = k_full;
    log.erase(log.begin() + static_cast<std::ptrdiff_t>(i));
    CHECK(state(log, "2014-04-22").demands[i].state == DemandState::not_recorded);
    CHECK(!state(log, "2014-04-22").met());

    log = k_full;
    std::swap(log[i].saw, log[i].not_saw);
    log[i].date = day("2014-04-22");
    log.insert(log.end(), k_full[i]);
    CHECK(state(log, "2014-04-22").demands[i].state == DemandState::contradicted);
    CHECK(!state(log, "2014-04-22").met());

    log = k_full;
    log[i].date = day("2013-04-22");
    CHECK(!state(log, "2014-04-22").met());
  }
}

TEST_CASE("an observation counts for its days of validity and not one longer") {
  CHECK(state(k_full, "2014-04-28").met());
  CHECK(state(k_full, "2014-04-28").met_until() == day("2014-04-28"));
  const GateState later = state(k_full, "2014-04-29");
  CHECK(!later.met());
  CHECK(!later.met_until());
  CHECK(later.demands[0].state == DemandState::met);
  CHECK(later.demands[0].counts_until == day("2014-05-04"));
  CHECK(later.demands[1].state == DemandState::aged);
  CHECK(later.demands[1].stated == day("2014-04-21"));
  CHECK(later.demands[2].counts_until == day("2014-12-31"));
}

TEST_CASE("rows after today do not count yet") {
  CHECK(!state(k_full, "2014-04-20").met());
  CHECK(state(k_full, "2014-04-21").met());
}

TEST_CASE("the newest statement wins, of one day the last row") {
  std::vector<Sighting> log = k_full;
  log.push_back(not_saw("2014-04-21", "nymphs"));
  CHECK(state(log, "2014-04-22").demands[1].state == DemandState::contradicted);
  log.push_back(saw("2014-04-21", "nymphs"));
  CHECK(state(log, "2014-04-22").met());
  log.push_back(not_saw("2014-04-19", "nymphs"));
  CHECK(state(log, "2014-04-22").met());
}

TEST_CASE("a pest that was not found withdraws what was seen before, not what the same row says") {
  std::vector<Sighting> log = k_full;
  Sighting none = row("2014-04-22");
  none.not_found = true;
  none.saw = {"open-buds"};
  log.push_back(none);
  const GateState found = state(log, "2014-04-22");
  CHECK(found.demands[0].state == DemandState::met);
  CHECK(found.demands[1].state == DemandState::contradicted);
  CHECK(found.demands[2].state == DemandState::met);
  log.back().stage = "hatch";  // only the stage was not found
  CHECK(state(log, "2014-04-22").met());
}

TEST_CASE("other sites and other pests do not count") {
  for (const auto change : {+[](Sighting& sighting) { sighting.site = "Elm"; },
                            +[](Sighting& sighting) { sighting.pest = "other-psyllid"; }}) {
    std::vector<Sighting> log = k_full;
    change(log[1]);
    CHECK(!state(log, "2014-04-22").met());
  }
}

TEST_CASE("an empty gate asks for nothing") {
  CHECK(gate_state(k_pest, {}, {}, "Mill Lane", day("2014-04-22")).met());
  CHECK(!gate_state(k_pest, {}, {}, "Mill Lane", day("2014-04-22")).met_until());
}

TEST_CASE("a stage is found on its first day, after the last day it was not") {
  std::vector<Sighting> log{row("2014-04-10"), row("2014-04-14"), row("2014-04-20"), row("2014-04-25"),
                            row("2014-05-01")};
  log[0].not_found = true;  // the whole pest
  log[1].stage = "hatch", log[1].not_found = true;
  log[2].stage = "hatch";
  log[3].stage = "hatch";
  log[4].stage = "hatch", log[4].not_found = true;
  const auto found = stage_found(log, "Mill Lane", "test-psyllid", "hatch", 2014, day("2014-06-01"));
  REQUIRE(found);
  CHECK(found->first == day("2014-04-20"));
  CHECK(found->last_not_found == day("2014-04-14"));
  CHECK(!stage_found(log, "Mill Lane", "test-psyllid", "hatch", 2014, day("2014-04-19")));
  CHECK(!stage_found(log, "Mill Lane", "test-psyllid", "hatch", 2013, day("2014-06-01")));
  CHECK(!stage_found(log, "Mill Lane", "test-psyllid", "adult", 2014, day("2014-06-01")));
  CHECK(!stage_found(log, "Elm", "test-psyllid", "hatch", 2014, day("2014-06-01")));
}

TEST_CASE("a find is contradicted by a row of its day that says of the same plant that it was not there") {
  const auto contradicted = [](const std::string& plant, const std::string& stage) {
    std::vector<Sighting> log{row("2014-04-20"), row("2014-04-20")};
    log[0].stage = "hatch", log[0].plant = "hedge";
    log[1].stage = stage, log[1].plant = plant, log[1].not_found = true;
    return stage_found(log, "Mill Lane", "test-psyllid", "hatch", 2014, day("2014-06-01"))->contradicted;
  };
  CHECK(contradicted("hedge", "hatch"));
  CHECK(contradicted("hedge", ""));  // the whole pest
  CHECK_FALSE(contradicted("pot", "hatch"));
  CHECK_FALSE(contradicted("hedge", "adult"));
}

TEST_CASE("what was seen before something was done does not count, what must be absent still does") {
  const auto after = [&](std::vector<Sighting> log, const char* acted) {
    return gate_state(k_pest, k_gate, log, "Mill Lane", day("2014-04-25"), {.acted = day(acted)});
  };
  CHECK(after(k_full, "2014-04-19").met());
  const GateState acted = after(k_full, "2014-04-21");
  CHECK_FALSE(acted.met());
  REQUIRE(acted.demands.size() == 3);
  CHECK(acted.demands[0].state == DemandState::acted_on);
  CHECK(acted.demands[1].state == DemandState::acted_on);
  CHECK(acted.demands[2].state == DemandState::met);
  auto again = k_full;
  again.push_back(saw("2014-04-24", "open-buds"));
  again.push_back(saw("2014-04-24", "nymphs"));
  CHECK(after(again, "2014-04-21").met());
}

TEST_CASE("a find on a plant known to be another host says nothing of this one") {
  std::vector<Sighting> log = k_full;
  const auto on = [&](const char* host) {
    return gate_state(k_pest, k_gate, log, "Mill Lane", day("2014-04-22"), {.host = host, .acted = {}}).met();
  };
  CHECK(on("testwood"));
  log[1].hosts = {"spruce"};
  CHECK_FALSE(on("testwood"));
  CHECK(on("spruce"));
  CHECK(on(""));
}
