// What is open, what follows from the record, and what cannot matter.
#include "resolve_example.hpp"

#include "deck/heights.hpp"
#include "underprop/deck/read.hpp"

#include "support/catch.hpp"

namespace open_facts_test {

using namespace underprop;
using namespace underprop::deck;
using namespace underprop::deck::example;
using record::Reading;
using record::StandardId;

Resolved cautious(const record::Survey& survey) { return resolve(survey, Reading::cautious); }
bool is_open(const record::Survey& survey, const std::string& field) {
  return open_fact(cautious(survey), field) != nullptr;
}

record::Survey american() {
  record::Survey survey = recorded();
  survey.standard = StandardId::north_america_us;
  survey.site.snow_load = kilopascals(0.0);
  for (auto* timber : {&survey.deck.joists[0].timber, &survey.deck.bearers[0].timber,
                       &survey.deck.ledgers[0].timber, &survey.deck.supports[0].post->timber,
                       &survey.deck.boards.timber})
    *timber = std::string("Hem-Fir No.2");
  return survey;
}

// --- never the better case -----------------------------------------------------------------------

TEST_CASE(
    "Snow that nobody recorded is open in North America, none recorded is none, and in Britain "
    "it is no question",
    "[survey][law]") {
  record::Survey survey = american();
  CHECK_FALSE(is_open(survey, "/site/snow_load"));
  CHECK(cautious(survey).deck.site.snow_load->value() == 0.0);
  survey.site.snow_load = {};
  REQUIRE(is_open(survey, "/site/snow_load"));
  // 70 psf, the most that the code's tables for decks have.
  CHECK(in_psf(*cautious(survey).deck.site.snow_load) == Approx(70.0));
  CHECK(open_fact(cautious(survey), "/site/snow_load")->act == record::Act::ask_authority);
  survey.standard = StandardId::eurocode_uk;
  survey = recorded();
  CHECK_FALSE(is_open(survey, "/site/snow_load"));
  CHECK_FALSE(cautious(survey).deck.site.snow_load.has_value());
}

TEST_CASE("Boards of which nobody knows whether they run through are taken as joined",
          "[survey][law]") {
  record::Survey survey = recorded();
  survey.deck.boards.joints = {};
  CHECK(is_open(survey, "/deck/boards/joints"));
  CHECK(cautious(survey).deck.boards.joints == record::BoardJoints::staggered);
  CHECK(resolve(survey, Reading::favourable).deck.boards.joints == record::BoardJoints::none);
}

TEST_CASE("Litres are held against plan, depth and form", "[survey][closed-form]") {
  // 2.0 m x 1.8 m x 0.5 m = 1800 l. Straight sides hold 85 to 105 % of it, 1530 to 1890 l; moulded with
  // seats 25 to 70 %, 450 to 1260 l.
  record::Survey survey = recorded();
  record::HeavyLoad& tub = survey.loads[0];
  tub.water_depth = mm(500);
  const auto contents = [&](Reading reading) {
    return resolve(survey, reading).deck.loads[0].contents.value();
  };
  const auto seen = [&] { return cautious(survey).deck.loads[0].contents_recorded; };
  SECTION("what fits the stated form counts as stated") {
    tub.form = record::VesselForm::moulded;
    tub.contents = litres(1100);
    CHECK(contents(Reading::cautious) == Approx(1100));
    CHECK(cautious(survey).open.empty());
    tub.form = record::VesselForm::straight_sided;
    tub.contents = litres(1800);
    CHECK(contents(Reading::cautious) == Approx(1800));
    CHECK(seen());
  }
  SECTION("litres that only seats explain leave the form open: both ends have to pass") {
    tub.contents = litres(1100);
    CHECK(is_open(survey, "/loads/0/form"));
    CHECK(contents(Reading::cautious) == Approx(1890));
    CHECK(contents(Reading::likely) == Approx(1100));
    CHECK(seen());
  }
  SECTION("litres that only straight sides hold say the form") {
    tub.contents = litres(1700);
    CHECK(cautious(survey).open.empty());
    CHECK(contents(Reading::cautious) == Approx(1700));
  }
  SECTION("less than its form can hold is not taken as seen") {
    tub.form = record::VesselForm::straight_sided;
    tub.contents = litres(800);
    CHECK(is_open(survey, "/loads/0/contents"));
    CHECK(contents(Reading::cautious) == Approx(1890));
    CHECK(contents(Reading::favourable) == Approx(800));
    CHECK_FALSE(seen());
    tub.form = {};
    tub.contents = litres(200);  // less than any tub of this size
    CHECK(contents(Reading::cautious) == Approx(1890));
    CHECK_FALSE(seen());
  }
  SECTION("without a depth only what no depth explains is questioned") {
    tub.water_depth = {};
    tub.contents = litres(800);
    CHECK(cautious(survey).open.empty());
    tub.contents = litres(100);
    CHECK_FALSE(seen());
  }
}

// --- heights -------------------------------------------------------------------------------------

TEST_CASE("The heights of a deck are one chain", "[survey][closed-form]") {
  record::Survey survey = recorded();
  record::Supports& posts = survey.deck.supports[0];
  // 550 - 28 - 145 - 145 - 200 = 32 mm: the footing's top over ground.
  const HeightChain chain = height_chain(survey, posts);
  REQUIRE(chain.top);
  CHECK(in_mm(*chain.top) == Approx(32.0));
  CHECK(in_mm(chain.pieces) == Approx(518.0));

  SECTION("with the depth of the underside it gives the thickness of a cast pad") {
    // 32 + 300 - 25 for the tape = 307 mm.
    posts.footing.thickness = {};
    const Resolved resolved = cautious(survey);
    CHECK(in_mm(resolved.deck.supports[0].footing.thickness) == Approx(307.0));
    CHECK_FALSE(is_open(survey, "/deck/supports/0/footing/thickness"));
    REQUIRE(resolved.deck.assumptions.size() == 1);
    CHECK(resolved.deck.assumptions[0].find("it follows from the surface") != std::string::npos);
  }
  SECTION("where the ground may rise it gives less, where the slope is open nothing") {
    posts.footing.thickness = {};
    survey.site.slope = 0.02;  // over the diagonal of 5 m: 100 mm
    CHECK(in_mm(cautious(survey).deck.supports[0].footing.thickness) == Approx(207.0));
    survey.site.slope = {};
    CHECK(is_open(survey, "/deck/supports/0/footing/thickness"));
  }
  SECTION("a thickness that stays open is at best the whole depth") {
    posts.footing.thickness = {};
    survey.deck.height = {};
    posts.footing.depth = mm(400);
    CHECK(in_mm(resolve(survey, Reading::favourable).deck.supports[0].footing.thickness) ==
          Approx(400.0));
  }
  SECTION("what does not add up is said with the sum") {
    survey.deck.height = mm(1900);
    const auto miss = height_miss(survey, posts);
    REQUIRE(miss);
    CHECK(in_mm(miss->by) == Approx(1382.0));
    CHECK(miss->found.find("do not add up") != std::string::npos);
    CHECK(miss->found.find("518 mm") != std::string::npos);
  }
  SECTION("a hand's breadth of rough ground is no contradiction") {
    CHECK(height_miss(survey, posts)->by < mm(100.0));
  }
}

// --- cannot matter -------------------------------------------------------------------------------

record::GroundLine wall_at(double y) {
  record::GroundLine wall;
  wall.name = "house";
  wall.from = at(-2000, y);
  wall.to = at(8000, y);
  return wall;
}

TEST_CASE("The depth of a house wall is asked only where a footing is near it", "[survey][law]") {
  record::Survey survey = recorded();
  survey.deck.walls.clear();
  survey.site.house_walls.items = {wall_at(6000)};  // 3.4 m from the nearest post
  CHECK(cautious(survey).open.empty());
  survey.site.house_walls.items = {wall_at(3100)};  // 0.5 m
  CHECK(is_open(survey, "/site/house_walls/0/height"));
  CHECK(cautious(survey).deck.site.house_walls[0].height > metres(1.0));
}

TEST_CASE("What the soil says of itself is not asked", "[survey][law]") {
  record::Survey survey = recorded();
  survey.site.heel_marks = {};
  survey.site.shrinkable_clay = {};
  survey.site.water_in_hole = {};
  survey.site.trees.looked = false;
  survey.deck.supports[0].footing.below_topsoil = {};
  survey.site.soil = record::Soil::gravel;
  CHECK_FALSE(is_open(survey, "/site/heel_marks"));
  CHECK_FALSE(is_open(survey, "/site/shrinkable_clay"));
  CHECK_FALSE(is_open(survey, "/site/trees"));
  CHECK_FALSE(is_open(survey, "/deck/supports/0/footing/below_topsoil"));
  CHECK(is_open(survey, "/site/water_in_hole"));
  survey.site.soil = record::Soil::firm_clay;
  CHECK(is_open(survey, "/site/shrinkable_clay"));
  CHECK_FALSE(is_open(survey, "/site/water_in_hole"));
  survey.site.soil = {};
  for (const char* field : {"/site/heel_marks", "/site/shrinkable_clay", "/site/water_in_hole",
                            "/deck/supports/0/footing/below_topsoil"}) {
    INFO(field);
    CHECK(is_open(survey, field));
  }
}

TEST_CASE("Water in a hole does not concern slabs laid on the surface", "[survey][law]") {
  record::Survey survey = recorded();
  survey.deck.walls.clear();
  survey.site.soil = record::Soil::dense_sand;
  survey.site.water_in_hole = {};
  for (record::Supports& group : survey.deck.supports) {
    group.footing.kind = record::FootingKind::laid_slab;
    group.footing.depth = mm(0);
  }
  CHECK_FALSE(is_open(survey, "/site/water_in_hole"));
}

TEST_CASE("Frost is asked where the house holds the deck and the ground may heave",
          "[survey][law]") {
  record::Survey survey = american();
  survey.site.frost_depth = {};
  CHECK(is_open(survey, "/site/frost_depth"));
  survey.site.soil = record::Soil::gravel;
  CHECK_FALSE(is_open(survey, "/site/frost_depth"));
  survey.site.soil = record::Soil::firm_clay;
  for (record::Supports& group : survey.deck.supports) group.footing.depth = inches(50.0);
  CHECK_FALSE(is_open(survey, "/site/frost_depth"));
  survey.deck.supports[0].footing.depth = mm(300);
  survey.deck.ledgers.clear();
  CHECK_FALSE(is_open(survey, "/site/frost_depth"));
  // In Britain it is a convention.
  survey = recorded();
  survey.site.frost_depth = {};
  CHECK_FALSE(is_open(survey, "/site/frost_depth"));
  CHECK(in_mm(cautious(survey).deck.site.frost_depth) == Approx(450.0));
}

TEST_CASE("Nobody sits below a low deck, and it is not one of two", "[survey][law]") {
  record::Survey survey = recorded();
  survey.site.storeys = {};
  survey.site.space_below = {};
  CHECK(cautious(survey).open.empty());
  survey.deck.height = mm(1900);
  CHECK(is_open(survey, "/site/storeys"));
  CHECK(is_open(survey, "/site/space_below"));
}

TEST_CASE("Who walked round would have told of a pond or a roof", "[survey][law]") {
  record::Survey survey = recorded();
  survey.site.ponds.looked = false;
  survey.site.roof_or_screen = {};
  CHECK(cautious(survey).open.empty());
  survey.site.retaining_walls.looked = survey.site.drains.looked = survey.site.trees.looked = false;
  CHECK(is_open(survey, "/site/ponds"));
  CHECK(is_open(survey, "/site/roof_or_screen"));
}

// --- what follows --------------------------------------------------------------------------------

TEST_CASE("Who counted the nails, or measured the fixings along a ledger, has seen them",
          "[survey][law]") {
  record::Survey survey = recorded();
  survey.deck.joists[0].start.sound = {};
  survey.deck.ledgers[0].sound = {};
  CHECK(cautious(survey).open.empty());
  CHECK(cautious(survey).deck.ledgers[0].sound);
  survey.deck.joists[0].start.nails_in_carrier = {};
  survey.deck.ledgers[0].fixing_spacing = {};
  CHECK(is_open(survey, "/deck/joists/0/start/sound"));
  CHECK(is_open(survey, "/deck/ledgers/0/sound"));
}

TEST_CASE("A species without a grade is the lowest grade sold for structure of that species",
          "[survey][law]") {
  record::Survey survey = american();
  survey.deck.joists[0].timber = std::string("Southern Pine");
  survey.deck.joists[0].incised = {};
  CHECK(is_open(survey, "/deck/joists/0/timber"));
  CHECK(cautious(survey).deck.joists[0].timber == "Southern Pine No.3");
  CHECK(resolve(survey, Reading::likely).deck.joists[0].timber == "Southern Pine No.2");
  // It takes preservative without slits.
  CHECK_FALSE(is_open(survey, "/deck/joists/0/incised"));
  survey.deck.joists[0].timber = std::string("Hem-Fir");
  CHECK(is_open(survey, "/deck/joists/0/incised"));
  survey = recorded();
  survey.deck.joists[0].timber = std::string("structural softwood");
  CHECK(cautious(survey).deck.joists[0].timber == "C16");
}

TEST_CASE("A brace or rim that nobody measured is an open fact", "[survey][law]") {
  record::Survey survey = recorded();
  record::Brace brace;
  brace.at = "P";
  brace.bolts = 1;
  survey.deck.braces.push_back(brace);
  survey.deck.rims[0].breadth = {};
  for (const char* field : {"/deck/braces/0/breadth", "/deck/braces/0/depth",
                            "/deck/braces/0/bolt_diameter", "/deck/rims/0/breadth"}) {
    INFO(field);
    CHECK(is_open(survey, field));
  }
  CHECK(cautious(survey).deck.braces[0].breadth <
        resolve(survey, Reading::favourable).deck.braces[0].breadth);
  survey.deck.braces[0].bolts = 0;  // nailed: no bolt to measure
  CHECK_FALSE(is_open(survey, "/deck/braces/0/bolt_diameter"));
}

TEST_CASE("A short post leans no more than the eye overlooks", "[survey][closed-form]") {
  record::Survey survey = recorded();
  survey.deck.supports[0].post->lean = {};
  survey.deck.supports[0].post->height = mm(300);  // 1 in 50: 6 mm
  CHECK(in_mm(cautious(survey).deck.supports[0].post->lean) == Approx(6.0));
  survey.deck.supports[0].post->height = mm(1800);
  CHECK(in_mm(cautious(survey).deck.supports[0].post->lean) == Approx(20.0));
}

TEST_CASE("The centre of a tub follows from the depth of its water", "[survey][closed-form]") {
  record::Survey survey = recorded();
  survey.loads[0].height = {};
  CHECK(is_open(survey, "/loads/0/height"));
  survey.loads[0].water_depth = mm(500);
  survey.loads[0].form = record::VesselForm::moulded;
  CHECK(cautious(survey).open.empty());
  CHECK(in_mm(cautious(survey).deck.loads[0].centre_of_mass_height) == Approx(100.0 + 0.6 * 500.0));
}

TEST_CASE("Rows that one builder made alike are one fact", "[survey][law]") {
  record::Survey survey = recorded();
  record::Supports second = survey.deck.supports[0];
  second.name = "Q";
  survey.deck.supports[0].footing.width = {};
  second.footing.width = {};
  survey.deck.supports.insert(survey.deck.supports.begin() + 1, second);
  const Resolved one = cautious(survey);
  REQUIRE(open_fact(one, "/deck/supports/0/footing/width"));
  CHECK(open_fact(one, "/deck/supports/1/footing/width") == nullptr);
  CHECK(open_fact(one, "/deck/supports/0/footing/width")->what.find("P and Q") !=
        std::string::npos);
  // Found out at one of them it is found out of both.
  const Resolved found =
      resolve(survey, Reading::cautious, {{"/deck/supports/0/footing/width", Reading::favourable}});
  CHECK(by_id(found.deck.supports, "Q1").footing.width ==
        by_id(found.deck.supports, "P1").footing.width);
  CHECK(by_id(found.deck.supports, "Q1").footing.width >
        by_id(one.deck.supports, "Q1").footing.width);
  // One that is recorded otherwise is a fact of its own.
  survey.deck.supports[1].footing.length = mm(500);
  CHECK(open_fact(cautious(survey), "/deck/supports/1/footing/width"));
}

}  // namespace open_facts_test
