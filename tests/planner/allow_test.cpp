// What the owner does not allow, and where nobody may dig, the planner does not offer.
#include "../../src/planner/options.hpp"
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "support/paths.hpp"

#include <fstream>
#include <sstream>

namespace allow_test_file {

using namespace underprop;
using works::Measure;

namespace {

record::Survey raised_deck() {
  std::ifstream file(std::string(test::source_dir) +
                     "/examples/ledger-hung-raised-deck/survey.json");
  std::ostringstream text;
  text << file.rdbuf();
  return deck::read_survey(text.str(), "survey.json").survey;
}

std::size_t offered(const std::vector<planner::WorkSet>& sets, Measure measure) {
  std::size_t count = 0;
  for (const planner::WorkSet& set : sets) {
    for (const works::Work& work : set) count += work.measure == measure ? 1 : 0;
  }
  return count;
}

std::vector<planner::WorkSet> for_beam(const record::Survey& survey) {
  planner::Failure failure;
  failure.piece = "B1";
  failure.check = "bending";
  return planner::Candidates(survey).answers(failure, {});
}

}  // namespace

TEST_CASE("New bearers, sleepers and pads are offered only where they are allowed", "[planner]") {
  record::Survey deck = raised_deck();
  CHECK(offered(planner::Candidates(deck).lines(), Measure::bearer_on_pads) > 0);
  CHECK(offered(for_beam(deck), Measure::pad) > 0);
  deck.allow.bearers = false;
  CHECK(offered(planner::Candidates(deck).lines(), Measure::bearer_on_pads) == 0);
  deck.allow.bearers = true;
  deck.allow.pads = false;
  CHECK(offered(for_beam(deck), Measure::pad) == 0);
  deck.allow.pads = true;
  deck.allow.digging = false;
  CHECK(planner::Candidates(deck).lines().empty());
  CHECK(offered(for_beam(deck), Measure::pad) == 0);
}

TEST_CASE("Sleepers come under low decks, if they are allowed", "[planner]") {
  test::Json json = test::platform(2, 200, 300);
  record::Survey low = test::read(json);
  const auto with = planner::Candidates(low).lines();
  low.allow.sleepers = false;
  const auto without = planner::Candidates(low).lines();
  CHECK(offered(with, Measure::sleeper) > 0);
  CHECK(offered(without, Measure::sleeper) == 0);
}

TEST_CASE("No pad is offered where nobody may dig", "[planner]") {
  record::Survey deck = raised_deck();
  record::Zone all;
  all.name = "cables";
  all.outline = {{mm(-2000.0), mm(-2000.0)},
                 {mm(9000.0), mm(-2000.0)},
                 {mm(9000.0), mm(9000.0)},
                 {mm(-2000.0), mm(9000.0)}};
  deck.deck.closed_zones.push_back(all);
  CHECK(planner::Candidates(deck).lines().empty());
  CHECK(offered(for_beam(deck), Measure::pad) == 0);
}

}  // namespace allow_test_file
