// What each measure changes in the record. No published source stands behind these: they hold the
// meaning of the measures as their header states it.
#include "works/demo_deck.hpp"

#include "underprop/deck/deck.hpp"
#include "underprop/deck/pieces.hpp"
#include "underprop/deck/read.hpp"
#include "underprop/record/facts.hpp"
#include "underprop/record/format.hpp"
#include "works/rules.hpp"

#include "support/catch.hpp"

#include <algorithm>
#include <limits>
#include <set>

namespace apply_test_file {

using namespace demo;
using deck::Deck;
using record::Contact;
using record::Reading;

namespace {

Deck resolved(const record::Survey& s, Reading reading = Reading::cautious) {
  return deck::resolve(s, reading).deck;
}

const deck::Support& support(const Deck& deck, const std::string& id) {
  for (const deck::Support& s : deck.supports) {
    if (s.id == id) return s;
  }
  FAIL("no support " << id);
  throw std::logic_error("unreachable");
}

const deck::Joist& joist(const Deck& deck, const std::string& id) {
  for (const deck::Joist& j : deck.joists) {
    if (j.id == id) return j;
  }
  FAIL("no joist " << id);
  throw std::logic_error("unreachable");
}

std::size_t count_open_new(const record::Survey& before, const record::Survey& after) {
  return deck::resolve(after, Reading::cautious).open.size() -
         deck::resolve(before, Reading::cautious).open.size();
}

}  // namespace

TEST_CASE("packing one support leaves its neighbours as they were", "[works][law]") {
  record::Survey before = demo_deck();
  before.deck.condition.push_back({record::Defect::loose_packing, "P", {}, {}, {}, {}});
  before.deck.braces.push_back({});
  before.deck.braces.back().at = "P";
  const record::Survey after = works::apply(before, pack({"P2"}));
  const Deck d = resolved(after);
  CHECK(support(d, "P2.1").footing.contact == Contact::tight);
  CHECK(support(d, "P1.1").footing.contact == Contact::loose);
  CHECK(support(d, "P3.1").footing.contact == Contact::loose);
  CHECK(support(d, "Q1").footing.contact == Contact::loose);
  CHECK(support(d, "P2.1").at == Point{mm(2000), mm(300)});
  CHECK(support(d, "P2.1").packers == 1);
  CHECK(works::recorded_name("P2.1") == "P2");
  CHECK(works::recorded_name("P2") == "P2");
  const auto& probed = after.deck.probed.pieces;
  CHECK(std::find(probed.begin(), probed.end(), "P3.1") != probed.end());
  CHECK(after.deck.braces[0].at == "P1.");
}

TEST_CASE("a whole group is packed without splitting it", "[works][law]") {
  const record::Survey after = works::apply(demo_deck(), pack({"P"}));
  REQUIRE(after.deck.supports.size() == 2);
  for (const char* id : {"P1", "P2", "P3"}) {
    CHECK(support(resolved(after), id).footing.contact == Contact::tight);
  }
  CHECK(works::apply(demo_deck(), pack({"P1", "P2", "P3"})).deck.supports.size() == 2);
}

TEST_CASE("works that name a support by its recorded name find it after a split", "[works][law]") {
  const record::Survey after =
      works::apply(demo_deck(), std::vector<Work>{pack({"P1"}), pack({"P3"})});
  const Deck d = resolved(after);
  CHECK(support(d, "P1.1").footing.contact == Contact::tight);
  CHECK(support(d, "P2.1").footing.contact == Contact::loose);
  CHECK(support(d, "P3.1").footing.contact == Contact::tight);
  const Deck whole =
      resolved(works::apply(demo_deck(), std::vector<Work>{pack({"P1"}), pack({"P"})}));
  for (const deck::Support& s : whole.supports) {
    CHECK(s.footing.contact == (s.id.starts_with("P") ? Contact::tight : Contact::loose));
  }
}

TEST_CASE("supports under joists split likewise", "[works][law]") {
  record::Survey s = demo_deck();
  s.deck.supports.push_back(pads_under("S", "J"));
  s.deck.supports.back().positions = {mm(1000), mm(2000)};
  s.deck.supports.back().only = {"J2", "J3"};
  REQUIRE(support(resolved(s), "S3").at == Point{mm(800), mm(1000)});
  const Deck d = resolved(works::apply(s, pack({"S3"})));
  CHECK(support(d, "S3.1").at == Point{mm(800), mm(1000)});
  CHECK(support(d, "S3.1").footing.contact == Contact::tight);
  CHECK(support(d, "S1.1").at == Point{mm(400), mm(1000)});
  CHECK(support(d, "S1.1").footing.contact == Contact::loose);
  CHECK(d.supports.size() == resolved(s).supports.size());
}

TEST_CASE("packing ends what the record says of loose packing there and nowhere else",
          "[works][law]") {
  record::Survey s = demo_deck();
  for (record::Supports& group : s.deck.supports) group.footing.contact = Contact::tight;
  s.deck.condition.push_back({record::Defect::loose_packing, "P", {}, {}, {}, {}});
  const Deck d = resolved(works::apply(s, pack({"P2"})));
  CHECK(support(d, "P1.1").footing.contact == Contact::loose);
  CHECK(support(d, "P2.1").footing.contact == Contact::tight);
  CHECK(support(d, "P3.1").footing.contact == Contact::loose);
}

TEST_CASE("a pad stands where the tape says, added and with every fact recorded", "[works][law]") {
  const record::Survey after = works::apply(demo_deck(), pad_under_bearer());
  const Deck d = resolved(after);
  const deck::Support& p = support(d, "N1P1");
  CHECK(p.at == Point{mm(1250), mm(300)});
  CHECK(p.added);
  CHECK(p.footing.contact_recorded);
  CHECK(p.footing.contact == Contact::tight);
  CHECK(p.footing.width == mm(450));
  CHECK(p.footing.depth == mm(300));
  CHECK(p.footing.offset == mm(0));
  CHECK(p.bearing_length == mm(150));  // the packer of data/building.json
  CHECK(count_open_new(demo_deck(), after) == 0);

  Work under_joists = pad_under_bearer();
  under_joists.pieces = {"J5", "J7"};
  under_joists.places = {{mm(1600), mm(1400)}, {mm(2400), mm(1600)}};
  const Deck e = resolved(works::apply(demo_deck(), under_joists));
  CHECK(support(e, "N1P1").at == Point{mm(1600), mm(1400)});
  CHECK(support(e, "N1PP1").at == Point{mm(2400), mm(1600)});
}

TEST_CASE("a new bearer lies under the joists on its own pads", "[works][law]") {
  const record::Survey after = works::apply(
      demo_deck(), new_bearer(mm(0), mm(4000), {mm(100), mm(2000), mm(3900)}, mm(400)));
  const Deck d = resolved(after);
  REQUIRE(d.bearers.size() == 3);
  const deck::Bearer& b = d.bearers[2];
  CHECK(b.id == "N1B");
  CHECK(b.added);
  CHECK(b.probed);
  CHECK(b.act_together);
  CHECK(b.splices.empty());
  CHECK(b.timber == "C24");
  const deck::Support& p = support(d, "N1P2");
  REQUIRE(p.post);
  CHECK(p.post->height == mm(400));
  CHECK(p.post->breadth == mm(100));
  CHECK(p.probed);
  CHECK(p.bearer == 2);
  CHECK(count_open_new(demo_deck(), after) == 0);
}

TEST_CASE("a bearer longer than stock is spliced over a pad", "[works][law]") {
  record::Survey s = demo_deck();
  s.deck.outline[1].x = s.deck.outline[2].x = mm(9000);
  // Longest stock 6.0 m: the last pad within it stands at 4.5 m.
  const Work w = new_bearer(mm(0), mm(8000), {mm(100), mm(2500), mm(4500), mm(6500), mm(7900)});
  const record::Survey after = works::apply(s, w);
  CHECK(after.deck.bearers.back().splices == std::vector<Length>{mm(4500)});
  const auto cuts = works::cutting_list({w}, s);
  REQUIRE(cuts.size() == 2);
  CHECK(cuts[0].length == mm(4500));
  CHECK(cuts[0].count == 2);
  CHECK(cuts[1].length == mm(3500));
}

TEST_CASE("names of new pieces never collide", "[works][law]") {
  record::Survey s = demo_deck();
  s.deck.supports[1].name = "N1P";
  const record::Survey after = works::apply(
      s, std::vector<Work>{pad_under_bearer(), pad_under_bearer(), added_joist(mm(1800))});
  std::set<std::string> ids;
  for (const deck::PieceName& piece : deck::piece_names(after)) {
    INFO(piece.id);
    CHECK(ids.insert(piece.id).second);
  }
  CHECK(ids.contains("N2P1"));
  CHECK(ids.contains("N3P1"));
  CHECK(ids.contains("N4J1"));
}

TEST_CASE("sisters, added joists and blocking join the deck", "[works][law]") {
  const Deck d = resolved(works::apply(
      demo_deck(), std::vector<Work>{sister({"J4"}), added_joist(mm(1800)), blocking(mm(1500))}));
  REQUIRE(joist(d, "J4").sisters.size() == 1);
  CHECK(joist(d, "J4").sisters[0].depth == mm(145));
  CHECK(joist(d, "J5").sisters.empty());
  const deck::Joist& added = joist(d, "N1J1");
  CHECK(added.position == mm(1800));
  CHECK(added.added);
  CHECK(added.probed);
  CHECK(added.start.held == record::Hold::resting);
  REQUIRE(d.blocking.size() == 1);
  CHECK(d.blocking[0].id == "N2K");
  CHECK(d.blocking[0].position == mm(1500));
}

TEST_CASE("an added joist hangs where its neighbours hang", "[works][law]") {
  record::Survey s = demo_deck();
  s.deck.joists[0].start.held = record::Hold::end_grain;
  s.deck.joists[0].start.nails = 3;
  s.deck.joists[0].end.held = record::Hold::free;
  Work w = added_joist(mm(1800));
  w.fasteners = 14;
  const Deck d = resolved(works::apply(s, w));
  CHECK(joist(d, "N1J1").start.held == record::Hold::hanger);
  CHECK(joist(d, "N1J1").start.nails == 14);
  CHECK(joist(d, "N1J1").start.recorded);
  CHECK(joist(d, "N1J1").end.held == record::Hold::free);
}

TEST_CASE("a new hanger mends one end and leaves the faults of the other", "[works][law]") {
  record::Survey s = demo_deck();
  s.deck.joists[0].start.held = record::Hold::hanger;
  s.deck.joists[0].end.held = record::Hold::hanger;
  s.deck.condition.push_back({record::Defect::corroded_fixing, "J", {}, {}, {}, {}});
  const Deck d = resolved(works::apply(s, hangers({"J6"}, {{mm(2000), mm(10)}})));
  CHECK(joist(d, "J6").start.held == record::Hold::hanger);
  CHECK(joist(d, "J6").start.nails == 20);
  CHECK(joist(d, "J6").start.sound);
  CHECK_FALSE(joist(d, "J6").end.sound);
  CHECK_FALSE(joist(d, "J5").start.sound);
  CHECK_FALSE(joist(d, "J5").end.sound);
  const Deck both = resolved(works::apply(s, hangers({"J6"})));
  CHECK(joist(both, "J6").start.sound);
  CHECK(joist(both, "J6").end.sound);
}

TEST_CASE("a bigger pad replaces the footing, its cracks and its tilt", "[works][law]") {
  record::Survey s = demo_deck();
  s.deck.condition.push_back({record::Defect::crack, "Q2", {}, {}, {}, {}});
  s.deck.condition.push_back({record::Defect::tilt, "Q", {}, {}, {}, {}});
  const Deck d = resolved(works::apply(s, bigger_pad("Q2")));
  const deck::Support& p = support(d, "Q2.1");
  CHECK(p.footing.width == mm(450));
  CHECK(p.footing.contact == Contact::tight);
  CHECK(p.added);
  CHECK_FALSE(p.footing.cracked);
  CHECK_FALSE(p.footing.tilted_or_undermined);
  CHECK(support(d, "Q1.1").footing.tilted_or_undermined);
  CHECK_FALSE(support(d, "Q1.1").added);
}

TEST_CASE("moving the load moves only the load", "[works][law]") {
  const record::Survey after = works::apply(demo_deck(), move_load());
  CHECK(after.loads[0].at == Point{mm(1200), mm(1500)});
  CHECK(after.loads[0].rotation_deg == 90.0);
  CHECK(resolved(after).supports.size() == resolved(demo_deck()).supports.size());
}

TEST_CASE("new timber of a species that is not named counts as incised in North America only",
          "[works][law]") {
  using record::StandardId;
  CHECK(works::counts_as_incised(StandardId::north_america_us, "Hem-Fir No.2"));
  CHECK_FALSE(works::counts_as_incised(StandardId::north_america_us, "Southern Pine No.2"));
  CHECK_FALSE(works::counts_as_incised(StandardId::eurocode_uk, "C24"));
}

TEST_CASE("works that make no sense are refused by name", "[works][law]") {
  const record::Survey s = demo_deck();
  CHECK_THROWS_AS(works::apply(s, pack({"P9"})), std::invalid_argument);
  CHECK_THROWS_AS(works::apply(s, pack({})), std::invalid_argument);
  CHECK_THROWS_AS(works::apply(s, sister({"J99"})), std::invalid_argument);
  CHECK_THROWS_AS(works::apply(s, hangers({"X1"})), std::invalid_argument);
  CHECK_THROWS_AS(works::apply(s, bigger_pad("X1")), std::invalid_argument);
  Work beyond = pad_under_bearer();
  beyond.places = {{mm(4500), mm(300)}};
  CHECK_THROWS_AS(works::apply(s, beyond), std::invalid_argument);
  Work flat = pad_under_bearer();
  flat.pad_width = mm(0);
  CHECK_THROWS_AS(works::apply(s, flat), std::invalid_argument);
  Work nameless = sister({"J4"});
  nameless.timber.clear();
  CHECK_THROWS_AS(works::apply(s, nameless), std::invalid_argument);
  Work load = move_load();
  load.load = 3;
  CHECK_THROWS_AS(works::apply(s, load), std::invalid_argument);
  Work endless = added_joist(mm(1800));
  endless.depth = mm(std::numeric_limits<double>::quiet_NaN());
  CHECK_THROWS_AS(works::apply(s, endless), std::invalid_argument);
}

TEST_CASE("every measure together resolves in every reading, under both standards",
          "[works][law]") {
  for (record::Survey s : {demo_deck(), american_deck()}) {
    s.deck.rims.push_back({"R", true, "J", mm(47), mm(145), record::RimFixing::end_grain});
    // Pads whose tops are level with the ground carry the bearers: heights of a record must add up.
    s.deck.height = s.deck.boards.thickness.value() + s.deck.joists[0].depth.value() +
                    s.deck.bearers[0].depth.value();
    std::vector<Work> all = one_of_each();
    if (s.standard == record::StandardId::north_america_us) {
      for (Work& w : all) {
        if (!w.timber.empty()) w.timber = "Hem-Fir No.2";
      }
    }
    const record::Survey after = works::apply(s, all);
    for (const Reading reading : {Reading::cautious, Reading::likely, Reading::favourable}) {
      CHECK_NOTHROW(deck::resolve(after, reading));
    }
    CHECK(deck::pieces_without_place(after).empty());
    // The same bytes each time, and the file format can hold it.
    const std::string text = record::write_survey(after);
    CHECK(text == record::write_survey(works::apply(s, all)));
    deck::ReadResult read;
    CHECK_NOTHROW(read = deck::read_survey(text, "after.json"));
    CHECK(record::write_survey(read.survey) == text);
  }
}

}  // namespace apply_test_file
