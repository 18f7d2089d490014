// The frame rests on the deck's meetings, and on nothing else. The deck is invented.
#include "model/grillage.hpp"

#include "deck/resolve_example.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <stdexcept>

namespace underprop {
namespace meeting_test_file {
namespace {

using deck::Meeting;
using deck::MeetingKind;
using model::CrossingKind;

/// Timber of one kind, firm ground; only what a frame needs to stand.
model::Properties properties(const deck::Deck& deck) {
  const model::Stiff timber{8000.0, 500.0, 270.0};
  model::Properties p;
  p.joists.assign(deck.joists.size(), timber);
  p.sisters.resize(deck.joists.size());
  p.bearers.assign(deck.bearers.size(), timber);
  p.ledgers.assign(deck.ledgers.size(), timber);
  p.boards = timber;
  p.supports.assign(deck.supports.size(), 5000.0);
  p.walls.assign(deck.walls.size(), 20.0);
  p.joist_ends.assign(deck.joists.size(), {model::EndJoint{4000.0}, model::EndJoint{4000.0}});
  p.ledger_fixings.assign(deck.ledgers.size(), 8000.0);
  p.why_no_end.resize(deck.joists.size());
  p.why_no_ledger.resize(deck.ledgers.size());
  p.hold_down.assign(deck.bearers.size(), 0.0);
  p.shell_contact = 20000.0;
  p.wet_density = 550e-9;
  p.board_density = 550e-9;
  return p;
}

deck::Deck resolved(const record::Survey& survey) {
  return deck::resolve(survey, record::Reading::cautious).deck;
}

model::Model built(const deck::Deck& deck) { return model::build(deck, properties(deck), {}); }

long crossings(const model::Model& model, CrossingKind kind) {
  return std::ranges::count(model.crossings, kind, &model::Crossing::kind);
}
long meetings(const deck::Deck& deck, MeetingKind kind) {
  return std::ranges::count(deck.meetings, kind, &Meeting::kind);
}

TEST_CASE("Every meeting of a sound deck is a crossing of its frame, and every crossing a meeting",
          "[model][law]") {
  const deck::Deck deck = resolved(deck::example::recorded());
  const model::Model model = built(deck);
  for (const auto& [crossing, meeting] :
       {std::pair(CrossingKind::bearer, MeetingKind::joist_on_bearer),
        {CrossingKind::ledger, MeetingKind::joist_on_ledger},
        {CrossingKind::wall, MeetingKind::joist_on_wall},
        {CrossingKind::support, MeetingKind::joist_on_support}}) {
    CHECK(crossings(model, crossing) > 0);
    CHECK(crossings(model, crossing) == meetings(deck, meeting));
  }
  for (const model::Crossing& crossing : model.crossings) {
    const Meeting& meeting = deck.meetings[crossing.meeting];
    CHECK(static_cast<std::size_t>(crossing.joist) == meeting.piece);
    CHECK(static_cast<std::size_t>(crossing.other) == meeting.carrier);
  }
  for (const model::Prop& prop : model.props) {
    if (prop.ledger) continue;
    const Meeting& meeting = deck.meetings[prop.meeting];
    CHECK(meeting.kind == MeetingKind::bearer_on_support);
    CHECK(static_cast<std::size_t>(prop.support) == meeting.carrier);
  }
}

TEST_CASE("A joist that stops short of its ledger or bearer does not stand on it in the frame",
          "[model][law]") {
  record::Survey survey = deck::example::recorded();
  record::Joists& joists = survey.deck.joists.front();
  joists.start = deck::example::free_end();
  joists.from = mm(100);  // the ledger reaches to 47 mm at most
  CHECK(crossings(built(resolved(survey)), CrossingKind::ledger) == 0);
  // The bearer reaches from 2553 mm: 3 mm of wood on it, or 3 mm of air.
  joists.to = mm(2556);
  const model::Model on = built(resolved(survey));
  CHECK(crossings(on, CrossingKind::bearer) == 9);
  joists.to = mm(2550);
  CHECK(crossings(built(resolved(survey)), CrossingKind::bearer) == 0);
}

TEST_CASE("A joist is drawn to the middle of the ledger and of the bearer that carry its ends",
          "[model][law]") {
  record::Survey survey = deck::example::recorded();
  record::Joists& joists = survey.deck.joists.front();
  joists.from = mm(40);
  joists.to = mm(2560);
  const model::Model model = built(resolved(survey));
  CHECK(model.joists.front().at.front() == 0.0);
  CHECK(model.joists.front().at.back() == 2600.0);
}

TEST_CASE("A deck whose meetings were not found is refused, not taken to stand on nothing",
          "[model][law]") {
  deck::Deck deck = resolved(deck::example::recorded());
  deck.meetings.clear();
  CHECK_THROWS_AS(built(deck), std::logic_error);
}

TEST_CASE("A sliver of a joist is refused as a broken invariant", "[model][law]") {
  deck::Deck deck = resolved(deck::example::recorded());
  for (deck::Joist& joist : deck.joists) {
    joist.from = mm(2000);
    joist.to = mm(2000.2);
  }
  deck::find_meetings(deck);
  CHECK_THROWS_AS(built(deck), std::logic_error);
}

}  // namespace

}  // namespace meeting_test_file
}  // namespace underprop
