// Conditions: each defect changes the deck, or why_not says why it makes no sense.
#include "resolve_example.hpp"

#include "underprop/deck/pieces.hpp"
#include "underprop/record/facts.hpp"

#include "support/catch.hpp"

namespace underprop::deck {
namespace resolve_condition_test_file {
namespace {

using namespace example;

constexpr record::Defect all_defects[] = {record::Defect::decay,
                                          record::Defect::surface_softening,
                                          record::Defect::notch,
                                          record::Defect::split,
                                          record::Defect::hole,
                                          record::Defect::missing,
                                          record::Defect::corroded_fixing,
                                          record::Defect::missing_fixing,
                                          record::Defect::wrong_fixing,
                                          record::Defect::crack,
                                          record::Defect::tilt,
                                          record::Defect::undermined,
                                          record::Defect::leaning,
                                          record::Defect::buried,
                                          record::Defect::short_bearing,
                                          record::Defect::loose_packing,
                                          record::Defect::out_of_level};

record::Condition condition(record::Defect defect, const std::string& piece) {
  record::Condition c;
  c.defect = defect;
  c.piece = piece;
  return c;
}
record::Condition condition(record::Defect defect, const std::string& piece, double from, double to,
                            double size) {
  record::Condition c = condition(defect, piece);
  c.from = mm(from);
  c.to = mm(to);
  c.size = mm(size);
  return c;
}

Deck with(const record::Condition& c) {
  record::Survey survey = recorded();
  survey.deck.condition.push_back(c);
  INFO(why_not(survey, c));
  REQUIRE(why_not(survey, c).empty());
  return resolve(survey, record::Reading::likely).deck;
}

// What resolving makes of the pieces, as text, for comparing decks.
std::string fingerprint(const Deck& d) {
  std::string s;
  const auto number = [&](double v) { s += std::to_string(v) + ","; };
  const auto piece = [&](const Piece& p) {
    s += p.id + ":";
    for (const Stretch& a : p.absent) number(a.from.value()), number(a.to.value());
    for (const Notch& n : p.notches)
      number(n.from.value()), number(n.to.value()), number(n.depth.value());
    number(p.softened.value());
  };
  for (const Joist& j : d.joists) {
    piece(j);
    number(j.start.sound), number(j.end.sound);
    number(j.start.seat ? j.start.seat->value() : -1),
        number(j.end.seat ? j.end.seat->value() : -1);
  }
  for (const Bearer& b : d.bearers) {
    piece(b);
    number(b.act_together), number(static_cast<int>(b.held_down));
  }
  for (const Ledger& l : d.ledgers) piece(l), number(l.sound);
  for (const Support& p : d.supports) {
    piece(p);
    if (p.post) {
      number(p.post->breadth.value()), number(p.post->bolts), number(p.post->lean.value());
    }
    const Footing& f = p.footing;
    number(f.cracked), number(f.tilted_or_undermined), number(static_cast<int>(f.contact));
    number(f.gap.value()), number(p.bearing_length ? p.bearing_length->value() : -1);
  }
  for (const Wall& w : d.walls) {
    piece(w);
    number(w.width.value()), number(w.strip_width.value()), number(static_cast<int>(w.contact));
    number(w.gap.value());
  }
  for (const auto& r : d.rims) s += r.id;
  for (const auto& n : d.blocking) s += n.id;
  for (const std::string& reason : d.refer_reasons) s += reason;
  return s;
}

TEST_CASE("Every defect of every piece changes the deck and is told, or is refused with a reason",
          "[survey][law]") {
  const record::Survey plain = recorded();
  const std::string before = fingerprint(resolve(plain, record::Reading::likely).deck);
  int accepted = 0, refused = 0;
  for (const char* piece : {"J3", "J", "B1", "L1", "R1", "N1", "P2", "K1", "W1"}) {
    for (const record::Defect defect : all_defects) {
      for (const bool placed : {false, true}) {
        INFO(piece << " defect " << static_cast<int>(defect) << " placed " << placed);
        record::Condition c = condition(defect, piece);
        c.size = mm(30);
        if (placed) c.from = mm(1000), c.to = mm(1100);
        record::Survey survey = plain;
        survey.deck.condition.push_back(c);
        const std::string reason = why_not(survey, c);
        if (!reason.empty()) {
          ++refused;
          CHECK_THROWS_AS(resolve(survey, record::Reading::likely), std::logic_error);
          continue;
        }
        ++accepted;
        const Deck deck = resolve(survey, record::Reading::likely).deck;
        CHECK(fingerprint(deck) != before);
        CHECK(deck.assumptions.size() + deck.refer_reasons.size() > 0);
      }
    }
  }
  // Joist and group of joists 11 each, bearer 10, ledger, rim and blocking 9 each, post 17, pad 7, wall 7.
  CHECK(accepted == 2 * (11 + 11 + 10 + 9 + 9 + 9 + 17 + 7 + 7));
  CHECK(accepted + refused == 2 * 9 * 17);
}

TEST_CASE("A joist out of level refers under the load, and is told elsewhere or within 3 mm",
          "[survey][closed-form]") {
  record::Survey survey = recorded();
  record::Condition c = condition(record::Defect::out_of_level, "J3");
  c.size = mm(4);
  const auto resolved = [&] {
    survey.deck.condition = {c};
    return resolve(survey, record::Reading::likely).deck;
  };
  CHECK(resolved().refer_reasons.size() == 1);
  CHECK(resolved().refer_reasons.at(0).find("J3 is out of level by 4 mm under the load") == 0);
  c.size = mm(3);
  CHECK(resolved().refer_reasons.empty());
  CHECK(resolved().assumptions.at(0).find("within what a base bears") != std::string::npos);
  c.size = mm(40);
  survey.loads[0].at = {metres(50), metres(50)};
  CHECK(resolved().refer_reasons.empty());
  CHECK(resolved().assumptions.at(0).find("does not lie under the load") != std::string::npos);
}

TEST_CASE("What is missing from a place on is missing to the end, and a place alone is a cut",
          "[survey][closed-form]") {
  record::Condition c = condition(record::Defect::missing, "J3");
  c.from = mm(2000);
  const Deck deck = with(c);
  const Joist& j = by_id(deck.joists, "J3");
  REQUIRE(j.absent.size() == 1);
  CHECK(j.absent[0].from == mm(2000));
  CHECK(j.absent[0].to == j.to - j.from);
  record::Condition through = condition(record::Defect::notch, "J3");
  through.from = mm(2000);
  through.size = mm(900);  // deeper than the joist
  const Deck notched = with(through);
  REQUIRE(by_id(notched.joists, "J3").absent.size() == 1);
  CHECK(by_id(notched.joists, "J3").absent[0].from < mm(2000));
  CHECK(by_id(notched.joists, "J3").absent[0].to > mm(2000));
}

TEST_CASE("A post in soil refers, and says how to see its foot", "[survey][law]") {
  const Deck deck = with(condition(record::Defect::buried, "P2"));
  REQUIRE(deck.refer_reasons.size() == 1);
  CHECK(deck.refer_reasons[0].find("P2: its post stands in soil") == 0);
  CHECK(deck.refer_reasons[0].find("dig its foot free") != std::string::npos);
}

TEST_CASE("Decay takes its margin with it", "[survey][closed-form]") {
  record::Condition c = condition(record::Defect::decay, "J3", 1000, 1200, 15);
  const Deck deck = with(c);
  const Joist& j = by_id(deck.joists, "J3");
  REQUIRE(j.absent.size() == 1);
  CHECK(j.absent[0].from == mm(700));
  CHECK(j.absent[0].to == mm(1500));
  CHECK(deck.refer_reasons.empty());
  CHECK(deck.assumptions.at(0).find("J3 counts as absent from 700 mm to 1500 mm") == 0);
  c.face = record::Face::underside;
  CHECK(by_id(with(c).joists, "J3").absent[0].to == mm(1700));
  c.from = mm(2900);
  c.to = mm(3000);
  CHECK(by_id(with(c).joists, "J3").absent[0].to == mm(3000));
  c.from.reset();
  c.to.reset();
  CHECK(by_id(with(c).joists, "J3").absent[0].from == mm(0));
}

TEST_CASE("Decay where the program may not judge refers", "[survey][law]") {
  CHECK(with(condition(record::Defect::decay, "P2")).refer_reasons.size() == 1);
  CHECK(with(condition(record::Defect::decay, "L1", 500, 600, 10)).refer_reasons.size() == 1);
  CHECK(with(condition(record::Defect::decay, "B1", 1900, 1950, 10)).refer_reasons.size() == 1);
  // Between supports, 232 mm over the ground: replace it, but no reason to refer.
  CHECK(with(condition(record::Defect::decay, "B1", 1000, 1050, 10)).refer_reasons.empty());
  record::Survey low = recorded();
  low.deck.height = mm(400);
  low.deck.condition.push_back(condition(record::Defect::decay, "B1", 1000, 1050, 10));
  CHECK(resolve(low, record::Reading::likely).deck.refer_reasons.size() == 1);
}

TEST_CASE("Only shallow softening on top and clear of supports leaves a section",
          "[survey][closed-form]") {
  record::Condition c = condition(record::Defect::surface_softening, "J3", 700, 900, 8);
  c.face = record::Face::top;
  const Deck deck = with(c);
  CHECK(by_id(deck.joists, "J3").softened == mm(16));
  CHECK(by_id(deck.joists, "J3").absent.empty());
  c.size = mm(3);
  CHECK(by_id(with(c).joists, "J3").softened == mm(10));
  c.size = mm(11);
  CHECK(by_id(with(c).joists, "J3").absent.size() == 1);
  c.size = mm(8);
  c.to = mm(2700);  // over the wall and the bearer
  CHECK(by_id(with(c).joists, "J3").absent.size() == 1);
  c.from = mm(1740), c.to = mm(1760);  // over the wall
  CHECK(by_id(with(c).joists, "J3").absent.size() == 1);
  c.from = mm(50), c.to = mm(80);  // at the hanger
  CHECK(by_id(with(c).joists, "J3").absent.size() == 1);
  c.from = mm(700), c.to = mm(900), c.face = record::Face::side;
  CHECK(by_id(with(c).joists, "J3").absent.size() == 1);
}

TEST_CASE("Splits, notches and holes", "[survey][closed-form]") {
  Deck deck =
      with(condition(record::Defect::split, "J3", 100, 200, 0));  // within 3 x 145 of the start
  CHECK_FALSE(by_id(deck.joists, "J3").start.sound);
  CHECK(by_id(deck.joists, "J3").end.sound);
  CHECK(by_id(deck.joists, "J3").notches.at(0).depth.value() == Approx(72.5));
  deck = with(condition(record::Defect::split, "J3", 1000, 1300, 0));  // longer than deep
  CHECK(by_id(deck.joists, "J3").absent.at(0).from == mm(1000));
  deck = with(condition(record::Defect::split, "J3", 1000, 1100, 0));
  CHECK(by_id(deck.joists, "J3").absent.empty());
  CHECK(by_id(deck.joists, "J3").notches.at(0).depth.value() == Approx(36.25));
  CHECK(by_id(deck.joists, "J3").start.sound);
  deck = with(condition(record::Defect::notch, "J3", 0, 0, 40));
  CHECK(by_id(deck.joists, "J3").notches.at(0).cut == Cut::below);
  deck = with(condition(record::Defect::hole, "J3", 900, 900, 40));
  CHECK(by_id(deck.joists, "J3").notches.at(0).cut == Cut::hole);
  deck = with(condition(record::Defect::hole, "J3", 900, 900, 145));
  CHECK(by_id(deck.joists, "J3").absent.size() == 1);
  // Nobody says where: both ends and the middle.
  CHECK(by_id(with(condition(record::Defect::notch, "J3")).joists, "J3").notches.size() == 3);
}

TEST_CASE("Fixings that are gone hold nothing", "[survey][law]") {
  Deck deck = with(condition(record::Defect::missing_fixing, "J3", 0, 0, 0));
  CHECK_FALSE(by_id(deck.joists, "J3").start.sound);
  CHECK(by_id(deck.joists, "J4").start.sound);
  CHECK(deck.bearers[0].held_down == record::HeldDown::screwed);
  deck = with(condition(record::Defect::corroded_fixing, "J3"));  // both ends: the bearer's too
  CHECK(deck.bearers[0].held_down == record::HeldDown::nothing);
  deck = with(condition(record::Defect::corroded_fixing, "L1"));
  CHECK_FALSE(deck.ledgers[0].sound);
  deck = with(condition(record::Defect::missing_fixing, "P2"));
  CHECK(by_id(deck.supports, "P2").post->bolts == 0);
  CHECK(by_id(deck.supports, "P1").post->bolts == 2);
}

TEST_CASE("Supports: cracks, gaps, loose packing, leaning, short bearing", "[survey][law]") {
  CHECK(by_id(with(condition(record::Defect::crack, "K1")).supports, "K1").footing.cracked);
  CHECK(by_id(with(condition(record::Defect::undermined, "K1")).supports, "K1")
            .footing.tilted_or_undermined);
  Deck deck = with(condition(record::Defect::out_of_level, "P2", 0, 0, 6));
  CHECK(by_id(deck.supports, "P2").footing.contact == record::Contact::gap);
  CHECK(by_id(deck.supports, "P2").footing.gap == mm(6));
  deck = with(condition(record::Defect::loose_packing, "P"));
  for (const char* id : {"P1", "P2", "P3"}) {
    CHECK(by_id(deck.supports, id).footing.contact == record::Contact::loose);
  }
  CHECK(by_id(deck.supports, "K1").footing.contact == record::Contact::tight);
  CHECK(by_id(with(condition(record::Defect::leaning, "P2")).supports, "P2").post->lean == mm(4));
  deck = with(condition(record::Defect::short_bearing, "B1", 1900, 1900, 30));
  CHECK_FALSE(by_id(deck.supports, "P1").bearing_length.has_value());
  CHECK(*by_id(deck.supports, "P2").bearing_length == mm(30));
  deck = with(condition(record::Defect::short_bearing, "J3", 0, 0, 20));
  CHECK(*by_id(deck.joists, "J3").start.seat == mm(20));
  deck = with(condition(record::Defect::split, "P2"));
  CHECK(by_id(deck.supports, "P2").post->breadth.value() == Approx(47.5));
}

TEST_CASE("Rims and blocking that are not sound are not there", "[survey][law]") {
  CHECK(with(condition(record::Defect::split, "R1")).rims.empty());
  CHECK(with(condition(record::Defect::missing, "N1")).blocking.empty());
}

TEST_CASE("Conditions that make no sense are refused in words", "[survey][law]") {
  const record::Survey s = recorded();
  CHECK(why_not(s, condition(record::Defect::decay, "J99")) == "no piece or group is called J99");
  CHECK(why_not(s, condition(record::Defect::crack, "J3")).find("record a split") !=
        std::string::npos);
  CHECK(why_not(s, condition(record::Defect::leaning, "K1")).find("record tilt") !=
        std::string::npos);
  CHECK(why_not(s, condition(record::Defect::out_of_level, "P1")).find("size") !=
        std::string::npos);
  CHECK_FALSE(why_not(s, condition(record::Defect::decay, "J3", 3001, 3100, 5)).empty());
  CHECK_FALSE(why_not(s, condition(record::Defect::decay, "J3", 500, 400, 5)).empty());
}

}  // namespace

}  // namespace resolve_condition_test_file
}  // namespace underprop::deck
