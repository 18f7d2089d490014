// Resolving: groups spelt out, readings, overrides.
#include "resolve_example.hpp"

#include "catalog/embedded.hpp"
#include "underprop/deck/pieces.hpp"
#include "underprop/record/facts.hpp"
#include "underprop/record/wording.hpp"

#include "support/catch.hpp"

#include <set>

namespace underprop::deck {
namespace resolve_test_file {
namespace {

using namespace example;

constexpr record::Reading readings[] = {record::Reading::cautious, record::Reading::likely,
                                        record::Reading::favourable};

TEST_CASE("A deck with every fact recorded has no open fact, and all readings agree",
          "[survey][law]") {
  const record::Survey survey = recorded();
  for (const record::Reading reading : readings) {
    const Resolved resolved = resolve(survey, reading);
    for (const OpenFact& fact : resolved.open) UNSCOPED_INFO(fact.field);
    CHECK(resolved.open.empty());
    CHECK(resolved.deck.site.feared.empty());
    CHECK(resolved.deck.assumptions.empty());
    CHECK(resolved.deck.joists.size() == 9);
    CHECK(resolved.deck.joists[3].start.held == record::Hold::hanger);
    CHECK(resolved.deck.joists[3].start.recorded);
    CHECK(resolved.deck.joists[3].probed);
    CHECK(resolved.deck.boards.thickness == mm(26));
    CHECK(resolved.deck.supports[0].footing.contact_recorded);
    CHECK(resolved.deck.reading == record::Reading::cautious);  // the soil is recorded
  }
}

TEST_CASE("Groups are spelt out in order of position", "[survey][law]") {
  record::Survey survey = recorded();
  std::reverse(survey.deck.joists[0].positions.begin(), survey.deck.joists[0].positions.end());
  const Deck deck = resolve(survey, record::Reading::likely).deck;
  CHECK(deck.joists[0].id == "J1");
  CHECK(deck.joists[0].position == mm(50));
  CHECK(deck.joists[8].id == "J9");
  CHECK(deck.joists[8].from == mm(0));
  CHECK(deck.joists[8].to == mm(3000));
  REQUIRE(deck.supports.size() == 5);
  CHECK(deck.supports[0].id == "P1");
  CHECK(deck.supports[0].at == at(200, 2600));
  CHECK(deck.supports[1].at == at(2000, 2600));
  CHECK(deck.supports[2].bearer == 0);
  CHECK(deck.supports[3].id == "K1");
  CHECK(deck.joists[static_cast<std::size_t>(deck.supports[3].joist)].id == "J4");
  CHECK(deck.supports[4].at == Point{deck.joists[4].position, mm(1300)});
}

TEST_CASE("Where the outline is broken a line carries two joists and a bearer is two pieces",
          "[survey][closed-form]") {
  record::Survey survey = recorded();
  // A notch from x = 1500 to 2500, y from 1000 to 2000: open towards neither edge along the joists.
  survey.deck.outline = {at(0, 0),       at(4000, 0),    at(4000, 3000), at(2500, 3000),
                         at(2500, 1000), at(1500, 1000), at(1500, 3000), at(0, 3000)};
  const Deck u = resolve(survey, record::Reading::likely).deck;
  CHECK(u.joists.size() == 9);
  CHECK(u.joists[4].to == mm(1000));
  REQUIRE(u.bearers.size() == 2);
  CHECK(u.bearers[0].id == "B1-1");
  CHECK(u.bearers[0].to == mm(1500));
  CHECK(u.bearers[1].id == "B1-2");
  CHECK(u.bearers[1].from == mm(2500));
  // The middle post stands where there is no deck: left out, and told.
  CHECK(std::count_if(u.supports.begin(), u.supports.end(),
                      [](const Support& s) { return s.bearer >= 0; }) == 2);
  CHECK_FALSE(u.assumptions.empty());
  CHECK(pieces_without_place(survey) == u.assumptions);

  survey.deck.outline = {at(0, 0),       at(4000, 0),    at(4000, 1000), at(2500, 1000),
                         at(2500, 2000), at(4000, 2000), at(4000, 3000), at(0, 3000)};
  const Deck broken = resolve(survey, record::Reading::likely).deck;
  // Joists at 2975 (J7), 3462.5 and 3950 are broken in two.
  REQUIRE(broken.joists.size() == 12);
  CHECK(broken.joists[6].id == "J7");
  CHECK(broken.joists[6].to == mm(1000));
  CHECK(broken.joists[7].id == "J8");
  CHECK(broken.joists[7].position == broken.joists[6].position);
  CHECK(broken.joists[7].from == mm(2000));
}

TEST_CASE("With nothing known every reading resolves, and every open fact can be found out",
          "[survey][law][!mayfail]") {
  for (const record::StandardId standard :
       {record::StandardId::eurocode_uk, record::StandardId::north_america_us}) {
    const record::Survey survey = unknown(standard);
    for (const record::Reading reading : readings) {
      const Resolved resolved = resolve(survey, reading);
      std::set<std::string> fields;
      for (const OpenFact& fact : resolved.open) {
        INFO(fact.field);
        CHECK(fields.insert(fact.field).second);
        CHECK(record::fact_kind(fact.kind).kind == fact.kind);
        CHECK_FALSE(fact.cautious.empty());
        CHECK_FALSE(fact.likely.empty());
        CHECK_FALSE(fact.favourable.empty());
        CHECK_FALSE(fact.find_out.empty());
        CHECK(fact.field.front() == '/');
        CHECK_FALSE(fact.range);
      }
      for (const char* field :
           {"/site/soil", "/deck/joists/0/timber", "/deck/joists/0/start/held",
            "/deck/joists/0/end/held", "/deck/ledgers/0/fixed_to", "/deck/probed/J",
            "/deck/supports/0/footing/contact", "/deck/walls/0/contact", "/loads/0/dry_mass",
            "/loads/0/contents", "/loads/0/width", "/site/retaining_walls"}) {
        INFO(field);
        CHECK(fields.count(field) == 1);
      }
      CHECK(fields.count("/deck/joists/0/over_bearers") == 0);
      CHECK(fields.count("/deck/boards/joints") == 0);
      CHECK(fields.count("/deck/joists/0/incised") ==
            (standard == record::StandardId::north_america_us ? 1 : 0));
      CHECK_FALSE(resolved.deck.loads[0].mass_recorded);
      CHECK_FALSE(resolved.deck.loads[0].contents_recorded);
      CHECK_FALSE(resolved.deck.loads[0].footprint_recorded);
    }
  }
}

TEST_CASE("The facts that \"carries\" requires are marked so", "[survey][law]") {
  const Resolved resolved =
      resolve(unknown(record::StandardId::eurocode_uk), record::Reading::cautious);
  std::set<std::string> must;
  for (const OpenFact& fact : resolved.open) {
    if (fact.must_see) must.insert(fact.field);
  }
  CHECK(must == std::set<std::string>{
                    "/deck/joists/0/start/held", "/deck/joists/0/end/held",
                    "/deck/ledgers/0/fixed_to", "/deck/supports/0/footing/contact",
                    "/deck/supports/1/footing/contact", "/deck/walls/0/contact", "/deck/probed/J",
                    "/deck/probed/B1", "/deck/probed/L1", "/deck/probed/P", "/loads/0/width",
                    "/loads/0/length", "/loads/0/contents", "/loads/0/dry_mass"});
}

TEST_CASE("Unknown facts take the table's value of the reading", "[survey][law]") {
  const record::Survey survey = unknown(record::StandardId::eurocode_uk);
  const Deck cautious = resolve(survey, record::Reading::cautious).deck;
  const Deck likely = resolve(survey, record::Reading::likely).deck;
  const Deck favourable = resolve(survey, record::Reading::favourable).deck;
  CHECK(cautious.joists[0].timber == "C14");
  CHECK(likely.joists[0].timber == "C16");
  CHECK(favourable.joists[0].timber == "C24");
  CHECK(cautious.joists[0].start.held == record::Hold::end_grain);
  CHECK(likely.joists[0].start.held == record::Hold::hanger);
  CHECK(cautious.joists[0].end.held == record::Hold::free);
  CHECK(likely.joists[0].end.held == record::Hold::resting);
  CHECK_FALSE(favourable.joists[0].start.recorded);
  CHECK(cautious.ledgers[0].fixed_to == record::LedgerWall::veneer);
  CHECK_FALSE(cautious.ledgers[0].wall_recorded);
  CHECK(cautious.supports[0].footing.width == mm(200));
  CHECK(likely.supports[0].footing.width == mm(300));
  CHECK(favourable.supports[0].footing.width == mm(450));
  // A quarter of the width where nobody knows what footing it is.
  CHECK(cautious.supports[0].footing.offset == mm(50));
  CHECK(likely.supports[0].footing.offset == mm(25));
  CHECK(favourable.supports[0].footing.offset == mm(0));
  CHECK(cautious.supports[0].footing.contact == record::Contact::tight);
  CHECK_FALSE(cautious.supports[0].footing.contact_recorded);
  CHECK_FALSE(likely.supports[0].footing.contact_recorded);
  CHECK(favourable.supports[0].footing.contact_recorded);
  CHECK_FALSE(cautious.bearers[0].act_together);
  CHECK(likely.bearers[0].act_together);
  CHECK_FALSE(cautious.joists[0].probed);
  CHECK(favourable.joists[0].probed);
  CHECK_FALSE(favourable.supports[0].post->base_fixed);
  CHECK_FALSE(cautious.site.soil.has_value());
  CHECK_FALSE(favourable.site.soil.has_value());
}

TEST_CASE("Surroundings nobody looked at are feared in the cautious reading only",
          "[survey][law][!mayfail]") {
  record::Survey survey = recorded();
  survey.site.ponds.looked = false;
  survey.site.use = {};
  const Resolved cautious = resolve(survey, record::Reading::cautious);
  REQUIRE(cautious.deck.site.feared.size() == 2);
  CHECK(cautious.deck.site.feared[0].first == "/site/use");
  CHECK(cautious.deck.site.feared[1].first == "/site/ponds");
  CHECK(open_fact(cautious, "/site/ponds") != nullptr);
  CHECK(resolve(survey, record::Reading::likely).deck.site.feared.empty());
  CHECK(resolve(survey, record::Reading::cautious, {{"/site/ponds", record::Reading::favourable}})
            .deck.site.feared.size() == 1);
  // The seismic category matters in North America above 600 mm.
  survey = recorded();
  survey.site.seismic_category = {};
  CHECK(resolve(survey, record::Reading::cautious).deck.site.feared.empty());
  survey.standard = record::StandardId::north_america_us;
  CHECK(resolve(survey, record::Reading::cautious).deck.site.feared.empty());
  survey.deck.height = mm(601);
  CHECK(resolve(survey, record::Reading::cautious).deck.site.feared.size() == 1);
}

TEST_CASE("Trees and shrinkable clay matter only together", "[survey][law]") {
  record::Survey survey = recorded();
  survey.site.trees.looked = false;  // not on shrinkable clay: nothing to find out
  CHECK(resolve(survey, record::Reading::cautious).open.empty());
  survey.site.trees.looked = true;
  survey.site.shrinkable_clay = {};  // no tree
  CHECK(resolve(survey, record::Reading::cautious).open.empty());
  survey.site.trees.items.push_back({at(9000, 0), mm(10000)});
  CHECK(resolve(survey, record::Reading::cautious).deck.site.feared.size() == 1);
}

TEST_CASE("Ranges give their worse end, their middle, their better end", "[survey][law]") {
  record::Survey survey = recorded();
  survey.deck.joists[0].depth = Fact<Length>::range(mm(140), mm(150));
  survey.deck.height = Fact<Length>::range(mm(500), mm(600));
  survey.loads[0].people = Fact<int>::range(4, 7);
  survey.loads[0].contents = Fact<Volume>::range(litres(1000), litres(1200));
  survey.deck.joists[0].start.nails_in_carrier = Fact<int>::range(5, 8);
  const Resolved cautious = resolve(survey, record::Reading::cautious);
  const Resolved likely = resolve(survey, record::Reading::likely);
  const Resolved favourable = resolve(survey, record::Reading::favourable);
  CHECK(cautious.deck.joists[0].depth == mm(140));
  CHECK(likely.deck.joists[0].depth == mm(145));
  CHECK(favourable.deck.joists[0].depth == mm(150));
  CHECK(cautious.deck.height == mm(600));
  CHECK(favourable.deck.height == mm(500));
  CHECK(cautious.deck.loads[0].people == 7);
  CHECK(likely.deck.loads[0].people == 6);
  CHECK(favourable.deck.loads[0].people == 4);
  CHECK(cautious.deck.loads[0].contents.value() == Approx(1200));
  CHECK(likely.deck.loads[0].contents.value() == Approx(1100));
  CHECK(cautious.deck.joists[0].start.nails == 5);
  CHECK(likely.deck.joists[0].start.nails == 6);
  CHECK(favourable.deck.joists[0].start.nails == 8);
  CHECK(cautious.open.size() == 5);
  const OpenFact* depth = open_fact(cautious, "/deck/joists/0/depth");
  REQUIRE(depth != nullptr);
  CHECK(depth->range);
  CHECK(depth->cautious == "140 mm");
  CHECK(depth->favourable == "150 mm");
}

TEST_CASE("An override changes its own field and no other", "[survey][law]") {
  const record::Survey survey = unknown(record::StandardId::north_america_us);
  const Deck plain = resolve(survey, record::Reading::cautious).deck;
  const Deck with = resolve(survey, record::Reading::cautious,
                            {{"/deck/joists/0/timber", record::Reading::favourable}})
                        .deck;
  CHECK(with.joists[0].timber == "Douglas Fir-Larch No.2");
  CHECK(plain.joists[0].timber != with.joists[0].timber);
  CHECK(with.bearers[0].timber == plain.bearers[0].timber);
  CHECK(with.joists[0].incised == plain.joists[0].incised);
  CHECK(with.joists[0].start.held == plain.joists[0].start.held);
  const Deck probed =
      resolve(survey, record::Reading::cautious, {{"/deck/probed/J", record::Reading::favourable}})
          .deck;
  CHECK(probed.joists[0].probed);
  CHECK_FALSE(probed.bearers[0].probed);
  const Deck tight = resolve(survey, record::Reading::cautious,
                             {{"/deck/supports/0/footing/contact", record::Reading::favourable}})
                         .deck;
  CHECK(tight.supports[0].footing.contact_recorded);
  CHECK_FALSE(by_id(tight.supports, "K1").footing.contact_recorded);
  CHECK(resolve(survey, record::Reading::cautious, {{"/site/soil", record::Reading::favourable}})
            .deck.reading == record::Reading::favourable);
  CHECK(plain.reading == record::Reading::cautious);
}

TEST_CASE("Single ends, sisters and probing by name", "[survey][law]") {
  record::Survey survey = recorded();
  record::JoistEnd end;
  end.joist = "J3";
  end.hold.held = record::Hold::skew_nails;
  survey.deck.joist_ends.push_back(end);
  survey.deck.sisters.push_back({"J2", "C24", false, mm(47), mm(145)});
  survey.deck.probed.pieces = {"J", "L1", "posts"};
  const Resolved resolved = resolve(survey, record::Reading::cautious);
  CHECK(resolved.deck.joists[2].start.held == record::Hold::skew_nails);
  CHECK(resolved.deck.joists[2].start.field == "/deck/joist_ends/0/hold/held");
  CHECK(resolved.deck.joists[2].start.nails == 2);
  CHECK_FALSE(resolved.deck.joists[2].start.sound);
  CHECK(resolved.deck.joists[3].start.held == record::Hold::hanger);
  CHECK(resolved.deck.joists[1].sisters.size() == 1);
  CHECK(resolved.deck.joists[0].sisters.empty());
  CHECK(open_fact(resolved, "/deck/joist_ends/0/hold/nails") != nullptr);
  CHECK(open_fact(resolved, "/deck/probed/B1") != nullptr);
  CHECK(open_fact(resolved, "/deck/probed/J") == nullptr);
  CHECK(resolved.deck.supports[0].probed);
  survey.deck.probed.pieces = {"J1", "bearers", "ledger", "P"};
  const Resolved some = resolve(survey, record::Reading::cautious);
  CHECK(some.deck.joists[0].probed);
  CHECK_FALSE(some.deck.joists[1].probed);
  CHECK(open_fact(some, "/deck/probed/J") != nullptr);
  CHECK(open_fact(some, "/deck/probed/B1") == nullptr);
}

TEST_CASE(
    "Whoever sees how an end is held sees its nails too; an override holds for what is below it",
    "[survey][law]") {
  const record::Survey survey = unknown(record::StandardId::eurocode_uk);
  const Resolved plain = resolve(survey, record::Reading::cautious);
  CHECK(plain.deck.joists[0].start.held == record::Hold::end_grain);
  CHECK_FALSE(plain.deck.joists[0].start.sound);
  CHECK(open_fact(plain, "/deck/joists/0/start/nails") == nullptr);
  const Deck seen = resolve(survey, record::Reading::cautious,
                            {{"/deck/joists/0/start/held", record::Reading::favourable}})
                        .deck;
  CHECK(seen.joists[0].start.held == record::Hold::hanger);
  CHECK(seen.joists[0].start.nails == 8);
  CHECK(seen.joists[0].start.sound);
  CHECK(seen.joists[0].end.held == record::Hold::free);
  const Deck dug = resolve(survey, record::Reading::cautious,
                           {{"/deck/supports/0/footing", record::Reading::favourable}})
                       .deck;
  CHECK(dug.supports[0].footing.width == mm(450));
  CHECK(dug.supports[0].footing.depth == mm(300));
  CHECK_FALSE(dug.supports[0].post->bearer_on_top);
  CHECK(by_id(dug.supports, "K1").footing.width == mm(200));
}

TEST_CASE("Resolving is repeatable", "[survey][law]") {
  const record::Survey survey = unknown(record::StandardId::eurocode_uk);
  const Resolved a = resolve(survey, record::Reading::cautious),
                 b = resolve(survey, record::Reading::cautious);
  REQUIRE(a.open.size() == b.open.size());
  for (std::size_t i = 0; i < a.open.size(); ++i) {
    CHECK(a.open[i].field == b.open[i].field);
    CHECK(a.open[i].cautious == b.open[i].cautious);
  }
  CHECK(a.deck.assumptions == b.deck.assumptions);
}

TEST_CASE("Names of pieces are unique and those of the resolved deck", "[survey][law]") {
  const record::Survey survey = recorded();
  const Deck deck = resolve(survey, record::Reading::likely).deck;
  std::set<std::string> names, resolved;
  for (const PieceName& name : piece_names(survey)) CHECK(names.insert(name.id).second);
  for (const auto& p : deck.joists) resolved.insert(p.id);
  for (const auto& p : deck.bearers) resolved.insert(p.id);
  for (const auto& p : deck.ledgers) resolved.insert(p.id);
  for (const auto& p : deck.rims) resolved.insert(p.id);
  for (const auto& p : deck.blocking) resolved.insert(p.id);
  for (const auto& p : deck.supports) resolved.insert(p.id);
  for (const auto& p : deck.walls) resolved.insert(p.id);
  CHECK(names == resolved);
}

TEST_CASE("Every fact names the act on site that settles it, and one hole settles soil and footing",
          "[survey][law]") {
  for (std::size_t i = 0; i < record::number_of_acts; ++i) {
    const record::ActOnSite& act = record::act_on_site(static_cast<record::Act>(i));
    CHECK(act.act == static_cast<record::Act>(i));
    CHECK(act.minutes > 0);
    CHECK_FALSE(act.what.empty());
    CHECK(record::act_in_words(act.act, record::StandardId::eurocode_uk).find('{') ==
          std::string::npos);
  }
  CHECK(record::fact_kind("site/soil").act == record::Act::dig_beside_footing);
  CHECK(record::fact_kind("supports/footing/width").act == record::Act::dig_beside_footing);
  CHECK(record::fact_kind("probed").act == record::Act::probe);
}

TEST_CASE("Cautious is never better than likely, likely never than favourable, in the table",
          "[survey][law]") {
  for (const record::FactKind& kind : record::fact_kinds()) {
    INFO(kind.kind);
    CHECK_FALSE(kind.what.empty());
    CHECK_FALSE(kind.reason.empty());
    CHECK_FALSE(kind.find_out.empty());
    CHECK(kind.effort_minutes > 0);
    for (const record::StandardId standard :
         {record::StandardId::eurocode_uk, record::StandardId::north_america_us}) {
      if (kind.quantity == record::FactQuantity::word ||
          kind.quantity == record::FactQuantity::yes_or_no)
        continue;
      if (kind.kind == "supports/footing/offset_share") continue;  // larger is worse, by its use
      const double c = kind.value(standard, record::Reading::cautious).number;
      const double l = kind.value(standard, record::Reading::likely).number;
      const double f = kind.value(standard, record::Reading::favourable).number;
      if (kind.smaller_is_worse) {
        CHECK((c <= l && l <= f));
      } else {
        CHECK((c >= l && l >= f));
      }
    }
  }
  CHECK_THROWS_AS(record::fact_kind("joists/colour"), std::logic_error);
}

// The table's classes must be ones that the tables of timber have.
TEST_CASE("The timber assumed is in the tables of timber", "[survey][law]") {
  std::string european, american;
  for (const auto& file : catalog::embedded_files()) {
    if (file.path == "eurocode/timber.json") european = file.text;
    if (file.path.substr(0, 14) == "north_america/") american += file.text;
  }
  REQUIRE_FALSE(european.empty());
  for (const record::FactKind& kind : record::fact_kinds()) {
    const bool timber =
        kind.kind.find("/timber") != std::string::npos || kind.kind == "boards/hardwood";
    if (!timber) continue;
    for (const record::Reading reading : readings) {
      const std::string uk = kind.value(record::StandardId::eurocode_uk, reading).text;
      INFO(kind.kind << " " << uk);
      CHECK(european.find('"' + uk + '"') != std::string::npos);
      const std::string us = kind.value(record::StandardId::north_america_us, reading).text;
      const std::size_t grade = us.rfind(" No.");
      REQUIRE(grade != std::string::npos);
      if (american.empty()) continue;
      INFO(us);
      CHECK(american.find(us.substr(0, grade)) != std::string::npos);
    }
  }
}

}  // namespace

}  // namespace resolve_test_file
}  // namespace underprop::deck
