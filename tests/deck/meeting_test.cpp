// Who meets whom, on pieces laid out by hand.
#include "underprop/deck/meeting.hpp"

#include "resolve_example.hpp"

#include "support/catch.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <tuple>

namespace underprop::deck {
namespace meeting_test_file {
namespace {

const MeetingLimits limits{mm(2), mm(10), mm(150)};

Strip along_y(double position, double from, double to, double breadth = 47) {
  return {Axis::y, mm(position), mm(from), mm(to), mm(breadth)};
}
Strip along_x(double position, double from, double to, double breadth) {
  return {Axis::x, mm(position), mm(from), mm(to), mm(breadth)};
}

/// One joist along y at x = 500 and one bearer along x, 94 mm broad.
PiecesInPlan one_of_each(double from, double to, double bearer, bool flush = false) {
  PiecesInPlan pieces;
  pieces.joists = {along_y(500, from, to)};
  pieces.bearers = {{along_x(bearer, 0, 4000, 94), flush}};
  return pieces;
}

TEST_CASE("A joist's seat on a bearer is what its length and the bearer's breadth share",
          "[deck][closed-form]") {
  struct Case {
    double from, overlap;
  };
  // The bearer reaches from y = 153 to y = 247.
  for (const Case& c :
       {Case{0, 94}, Case{153, 94}, Case{200, 47}, Case{240, 7}, Case{246.5, 0.5}}) {
    const Meetings found = meet(one_of_each(c.from, 3000, 200), limits);
    REQUIRE(found.met.size() == 1);
    CHECK(found.missed.empty());
    const Meeting& m = found.met.front();
    CHECK(m.kind == MeetingKind::joist_on_bearer);
    CHECK(m.place == mm(200));
    CHECK(m.overlap.value() == Approx(c.overlap));
    CHECK(m.seat.low == mm(std::max(c.from, 153.0)));
    CHECK(m.seat.high == mm(247));
    CHECK(m.miss == mm(0));
  }
}

TEST_CASE("Where the two share nothing, nothing rests, and the miss is the distance between them",
          "[deck][closed-form]") {
  for (const double short_by : {0.0, 0.25, 23.0, 75.0, 100.0, 150.0}) {
    const Meetings found = meet(one_of_each(247 + short_by, 3000, 200), limits);
    CHECK(found.met.empty());
    REQUIRE(found.missed.size() == 1);
    CHECK(found.missed.front().end == PieceEnd::start);
    CHECK(found.missed.front().miss.value() == Approx(short_by));
    CHECK(found.missed.front().overlap == mm(0));
  }
  const Meetings far = meet(one_of_each(247 + 151, 3000, 200), limits);
  CHECK(far.met.empty());
  CHECK(far.missed.empty());
}

TEST_CASE("An end framed into a flush bearer meets it within its sides and a tape's error",
          "[deck][law]") {
  // The bearer reaches from y = -47 to y = 47.
  for (const double from : {-57.0, -47.0, 0.0, 47.0, 57.0}) {
    const Meetings found = meet(one_of_each(from, 3000, 0, true), limits);
    REQUIRE(found.met.size() == 1);
    CHECK(found.met.front().kind == MeetingKind::joist_into_bearer);
    CHECK(found.met.front().end == PieceEnd::start);
    CHECK(found.met.front().miss.value() == Approx(std::max(0.0, from - 47)));
  }
  const Meetings short_of = meet(one_of_each(147, 3000, 0, true), limits);
  CHECK(short_of.met.empty());
  REQUIRE(short_of.missed.size() == 1);
  CHECK(short_of.missed.front().miss.value() == Approx(100));
  const Meetings past = meet(one_of_each(-147, 3000, 0, true), limits);
  CHECK(past.met.empty());
  REQUIRE(past.missed.size() == 1);
  CHECK(past.missed.front().miss.value() == Approx(-100));
}

TEST_CASE("A ledger's place is its middle or either face", "[deck][law]") {
  const auto from = [](double at) {
    PiecesInPlan pieces = one_of_each(at, 3000, 5000);
    pieces.ledgers = {along_x(0, 0, 4000, 38)};
    return meet(pieces, limits);
  };
  for (const double at : {-48.0, -38.0, 0.0, 19.0, 38.0, 48.0}) {
    REQUIRE(from(at).met.size() == 1);
    CHECK(from(at).met.front().kind == MeetingKind::joist_on_ledger);
  }
  CHECK(from(100).met.empty());
  REQUIRE(from(100).missed.size() == 1);
  CHECK(from(100).missed.front().miss.value() == Approx(62));
}

TEST_CASE("A joist crosses what passes below its middle line, give or take the tape",
          "[deck][law]") {
  PiecesInPlan pieces = one_of_each(0, 3000, 200);
  for (const auto& [to, meets] : {std::pair(498.0, true), {497.9, false}}) {
    pieces.bearers.front().to = mm(to);
    CHECK(meet(pieces, limits).met.size() == (meets ? 1 : 0));
  }
  pieces.bearers.front() = {{Axis::y, mm(500), mm(0), mm(3000), mm(94)}, false};
  CHECK(meet(pieces, limits).met.empty());  // runs along it
}

TEST_CASE("On a slanted wall a joist's seat is the wall's width over the slant's cosine",
          "[deck][closed-form]") {
  PiecesInPlan pieces;
  pieces.joists = {along_y(500, 0, 3000)};
  pieces.walls = {{{mm(0), mm(1000)}, {mm(1000), mm(2000)}, mm(100)}};  // at 45 degrees
  const Meetings found = meet(pieces, limits);
  REQUIRE(found.met.size() == 1);
  CHECK(found.met.front().kind == MeetingKind::joist_on_wall);
  CHECK(found.met.front().place.value() == Approx(1500));
  CHECK(found.met.front().overlap.value() == Approx(100 * std::sqrt(2.0)));
  pieces.walls.front().b = {mm(0), mm(2000)};  // along the joists
  CHECK(meet(pieces, limits).met.empty());
}

TEST_CASE("A support at the end of what it carries has half its top below it",
          "[deck][closed-form]") {
  PiecesInPlan pieces = one_of_each(0, 3000, 200);
  pieces.supports = {{{mm(0), mm(200)}, 0, -1, mm(100), mm(300)},
                     {{mm(500), mm(1500)}, -1, 0, mm(100), mm(300)}};
  const Meetings found = meet(pieces, limits);
  REQUIRE(found.met.size() == 3);
  const Meeting &joist = found.met[1], &bearer = found.met[2];
  CHECK(joist.kind == MeetingKind::joist_on_support);
  CHECK(joist.carrier == 1);
  CHECK(joist.overlap == mm(300));
  CHECK(bearer.kind == MeetingKind::bearer_on_support);
  CHECK(bearer.carrier == 0);
  CHECK(bearer.overlap == mm(50));
  CHECK(bearer.place == mm(0));
}

/// A deck with one of everything: two lines of joists on a ledger, a flush bearer, a bearer on top that one
/// of them only just meets and another that it misses, a wall, and supports.
PiecesInPlan everything() {
  PiecesInPlan pieces;
  pieces.joists = {along_y(400, 0, 2540), along_y(900, 0, 2590), along_y(1400, 100, 2540)};
  pieces.bearers = {{along_x(2500, 0, 1900, 94), false},
                    {along_x(2660, 0, 1900, 94), false},
                    {along_x(50, 1200, 1900, 94), true}};
  pieces.ledgers = {along_x(0, 0, 1600, 47)};
  pieces.walls = {{{mm(100), mm(1200)}, {mm(1800), mm(1400)}, mm(100)}};
  pieces.supports = {{{mm(20), mm(2500)}, 0, -1, mm(100), mm(100)},
                     {{mm(900), mm(2580)}, -1, 1, mm(200), mm(200)}};
  return pieces;
}

/// What tells one meeting from another whatever its numbers: kind, places, length.
using Told = std::tuple<int, double, double, double, double, double>;
std::vector<Told> told(const PiecesInPlan& pieces, const std::vector<Meeting>& list) {
  std::vector<Told> all;
  for (const Meeting& m : list) {
    const Strip& piece = m.kind == MeetingKind::bearer_on_support
                             ? static_cast<const Strip&>(pieces.bearers[m.piece])
                             : pieces.joists[m.piece];
    all.emplace_back(static_cast<int>(m.kind), piece.position.value(), m.place.value(),
                     m.seat.low.value(), m.overlap.value(), m.miss.value());
  }
  std::ranges::sort(all);
  return all;
}

TEST_CASE("Mirrored pieces meet alike, with their seats mirrored", "[deck][law]") {
  const PiecesInPlan pieces = everything();
  const Meetings found = meet(pieces, limits);
  CHECK(found.met.size() == 11);
  CHECK(found.missed.size() == 4);
  const Length top = mm(3000);
  PiecesInPlan mirrored = pieces;  // y to 3000 - y
  for (Strip& j : mirrored.joists) std::tie(j.from, j.to) = std::pair(top - j.to, top - j.from);
  for (BearerInPlan& b : mirrored.bearers) b.position = top - b.position;
  for (Strip& l : mirrored.ledgers) l.position = top - l.position;
  for (WallInPlan& w : mirrored.walls) {
    w.a.y = top - w.a.y;
    w.b.y = top - w.b.y;
  }
  for (SupportInPlan& s : mirrored.supports) s.at.y = top - s.at.y;
  const Meetings back = meet(mirrored, limits);
  for (const auto& [a, b] : {std::pair(&found.met, &back.met), {&found.missed, &back.missed}}) {
    REQUIRE(a->size() == b->size());
    for (std::size_t k = 0; k < a->size(); ++k) {
      const Meeting &m = (*a)[k], &n = (*b)[k];
      CHECK(m.kind == n.kind);
      CHECK(m.piece == n.piece);
      CHECK(m.carrier == n.carrier);
      CHECK(m.overlap.value() == Approx(n.overlap.value()));
      CHECK(m.miss.value() == Approx(n.miss.value()));
      if (m.kind == MeetingKind::bearer_on_support) continue;  // along x: as before
      CHECK((top - n.place).value() == Approx(m.place.value()));
      CHECK((top - n.seat.high).value() == Approx(m.seat.low.value()));
      if (at_side(m.kind)) CHECK(m.end != n.end);
    }
  }
  // Across the diagonal: the same numbers.
  PiecesInPlan turned = pieces;
  const auto turn = [](Strip& s) { s.direction = other(s.direction); };
  for (Strip& j : turned.joists) turn(j);
  for (BearerInPlan& b : turned.bearers) turn(b);
  for (Strip& l : turned.ledgers) turn(l);
  for (WallInPlan& w : turned.walls) {
    std::swap(w.a.x, w.a.y);
    std::swap(w.b.x, w.b.y);
  }
  for (SupportInPlan& s : turned.supports) {
    std::swap(s.at.x, s.at.y);
    std::swap(s.size_x, s.size_y);
  }
  const Meetings along = meet(turned, limits);
  CHECK(told(turned, along.met) == told(pieces, found.met));
  CHECK(told(turned, along.missed) == told(pieces, found.missed));
}

TEST_CASE("In whatever order the pieces are given, the same ones meet", "[deck][law]") {
  const PiecesInPlan pieces = everything();
  const Meetings found = meet(pieces, limits);
  PiecesInPlan reversed = pieces;
  std::ranges::reverse(reversed.joists);
  std::ranges::reverse(reversed.bearers);
  std::ranges::reverse(reversed.supports);
  for (SupportInPlan& s : reversed.supports) {
    if (s.bearer >= 0) s.bearer = static_cast<int>(pieces.bearers.size()) - 1 - s.bearer;
    if (s.joist >= 0) s.joist = static_cast<int>(pieces.joists.size()) - 1 - s.joist;
  }
  for (WallInPlan& w : reversed.walls) std::swap(w.a, w.b);
  const Meetings back = meet(reversed, limits);
  CHECK(back.met.size() == found.met.size());
  const auto near = [](const std::vector<Told>& a, const std::vector<Told>& b) {
    return std::ranges::equal(a, b, [](const Told& x, const Told& y) {
      return std::get<0>(x) == std::get<0>(y) && std::get<1>(x) == std::get<1>(y) &&
             std::get<2>(x) == Approx(std::get<2>(y)) && std::get<4>(x) == Approx(std::get<4>(y)) &&
             std::get<5>(x) == Approx(std::get<5>(y));
    });
  };
  CHECK(near(told(reversed, back.met), told(pieces, found.met)));
  CHECK(near(told(reversed, back.missed), told(pieces, found.missed)));
}

TEST_CASE("A board's free ends reach from its outermost joists to its own ends",
          "[deck][closed-form]") {
  const std::vector<Strip> joists{along_y(900, 0, 3000), along_y(450, 0, 3000),
                                  along_y(450.4, 0, 3000), along_y(1350, 1000, 3000)};
  std::vector<bool> counts(4, true);
  const Interval reach{mm(0), mm(1800)};
  const auto at = [&](double s) {
    return board_line(joists, counts, mm(s), reach, mm(1), mm(0.5));
  };
  // One of the pair at 450 and 450.4; the joist at 1350 starts farther on.
  CHECK(at(500).joists == std::vector<std::size_t>{1, 0});
  CHECK(at(500).before == mm(450));
  CHECK(at(500).beyond == mm(900));
  CHECK(at(1500).joists == std::vector<std::size_t>{1, 0, 3});
  CHECK(at(1500).beyond == mm(450));
  counts[1] = counts[2] = false;
  CHECK(at(500).before == mm(900));
  counts[0] = false;
  CHECK(at(500).joists.empty());
  CHECK(at(500).before == mm(1800));
  CHECK(at(500).beyond == mm(1800));
}

// --- in a deck --------------------------------------------------------------------------------------------

using namespace example;

std::vector<Meeting> of_kind(const Deck& deck, MeetingKind kind) {
  std::vector<Meeting> found;
  std::ranges::copy_if(deck.meetings, std::back_inserter(found),
                       [&](const Meeting& m) { return m.kind == kind; });
  return found;
}

TEST_CASE("A resolved deck holds every meeting of its pieces", "[deck][law]") {
  const Deck deck = resolve(recorded(), record::Reading::cautious).deck;
  CHECK(of_kind(deck, MeetingKind::joist_on_bearer).size() == 9);
  CHECK(of_kind(deck, MeetingKind::joist_on_ledger).size() == 9);
  CHECK(of_kind(deck, MeetingKind::joist_on_wall).size() == 9);
  CHECK(of_kind(deck, MeetingKind::bearer_on_support).size() == 3);
  CHECK(of_kind(deck, MeetingKind::joist_on_support).size() == 2);
  for (const Meeting& m : of_kind(deck, MeetingKind::joist_on_bearer)) CHECK(m.overlap == mm(94));
}

TEST_CASE("An end 100 mm from its ledger is not taken as hung, and is told", "[deck][law]") {
  record::Survey survey = recorded();
  survey.deck.joists.front().start = {};  // nobody knows how it is held
  const auto at = [&](double from) {
    survey.deck.joists.front().from = mm(from);
    return resolve(survey, record::Reading::cautious);
  };
  const auto kind = [](const Resolved& resolved) {
    const auto found =
        std::ranges::find(resolved.open, "/deck/joists/0/start/held", &OpenFact::field);
    return found == resolved.open.end() ? std::string() : found->kind;
  };
  CHECK(kind(at(0)) == "joists/held");
  CHECK(kind(at(47)) == "joists/held");
  CHECK(at(47).deck.assumptions.empty());
  const Resolved apart = at(100);
  CHECK(kind(apart) == "joists/held_over");
  CHECK(of_kind(apart.deck, MeetingKind::joist_on_ledger).empty());
  REQUIRE(apart.deck.assumptions.size() == 9);
  CHECK(apart.deck.assumptions.front() ==
        "J1 ends 53 mm short of ledger L1: it does not carry the joist");
}

TEST_CASE("Where a bearer's breadth is not known, each reading has its own seat", "[deck][law]") {
  record::Survey survey = recorded();
  survey.deck.bearers.front().ply_breadth = Fact<Length>::range(mm(40), mm(60));
  survey.deck.joists.front().to = mm(2600);
  std::vector<double> seats;
  for (const record::Reading reading :
       {record::Reading::cautious, record::Reading::likely, record::Reading::favourable}) {
    const Deck deck = resolve(survey, reading).deck;
    seats.push_back(of_kind(deck, MeetingKind::joist_on_bearer).front().overlap.value());
  }
  CHECK(seats == std::vector<double>{40, 50, 60});
}

TEST_CASE("A stretch of a joist too short for a piece of wood is left out and told",
          "[deck][law]") {
  record::Survey survey = recorded();
  // A tooth of the outline, 30 mm high, beside the joist at 50 mm: 3 m of joist, a gap, and 30 mm.
  survey.deck.outline = {at(0, 0),    at(4000, 0), at(4000, 3000), at(500, 3000), at(500, 3130),
                         at(0, 3130), at(0, 3100), at(200, 3100),  at(200, 3000), at(0, 3000)};
  const Deck deck = resolve(survey, record::Reading::cautious).deck;
  CHECK(deck.joists.size() == 9);
  CHECK(deck.joists.front().id == "J1");
  CHECK(deck.joists.front().to == mm(3000));
  REQUIRE_FALSE(deck.assumptions.empty());
  CHECK(deck.assumptions.front() ==
        "a stretch of the joist of J at 50 mm is only 30 mm long and counts for nothing");
}

}  // namespace

}  // namespace meeting_test_file
}  // namespace underprop::deck
