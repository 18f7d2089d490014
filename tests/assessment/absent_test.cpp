// A joist that is not there: its neighbours carry the boards, and the boards reach twice as far.
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/assessment/assessment.hpp"

#include <algorithm>

namespace absent_test_file {

using namespace underprop;
using test::Json;

namespace {

assessment::DeckAssessment assessed(const Json& json) {
  const record::Survey survey = deck::read_survey(json.dump(), "test").survey;
  const auto standard = assessment::standard_for(survey.standard);
  return assessment::assess_deck(deck::resolve(survey, record::Reading::cautious).deck, *standard);
}

double of(const assessment::DeckAssessment& a, const std::string& id) {
  for (const assessment::Finding& f : a.findings) {
    if (f.id == id) return f.check.utilisation;
  }
  return 0.0;
}

}  // namespace

TEST_CASE("A joist that is missing leaves no loose node, and its boards span to the next joists",
          "[assessment][law]") {
  const Json whole = test::platform(5);
  const auto before = assessed(whole);
  REQUIRE_FALSE(before.mechanism.has_value());
  const std::string board = "boards/one person on one board";
  // Wholly missing, and over a stretch near the load: with its pads standing useless below.
  for (const bool part : {false, true}) {
    Json json = whole;
    Json defect = {{"defect", "missing"}, {"piece", "J6"}};
    if (part) {
      defect["from"] = "1.2 m";
      defect["to"] = "1.8 m";
    }
    json["deck"]["condition"] = Json::array({defect});
    const auto after = assessed(json);
    INFO(part);
    CHECK_FALSE(after.mechanism.has_value());
    CHECK(of(after, board) > 1.5 * of(before, board));
    CHECK(after.safety >= before.safety);
  }
}

namespace {

Json with_sister(Json json, const std::string& breadth, const std::string& depth) {
  json["deck"]["sisters"] = Json::array({{{"joist", "J6"},
                                          {"timber", "C14"},
                                          {"incised", false},
                                          {"breadth", breadth},
                                          {"depth", depth}}});
  return json;
}

Json decayed(Json json, const char* from, const char* to) {
  Json defect = {{"defect", "decay"}, {"piece", "J6"}};
  if (from != nullptr) {
    defect["from"] = from;
    defect["to"] = to;
  }
  json["deck"]["condition"] = Json::array({defect});
  return json;
}

}  // namespace

TEST_CASE("A sister of the same wood carries in the place of a joist that is gone",
          "[assessment][law]") {
  // Statics: the same stiffness at the same place takes the same share; its own weight apart, since the
  // decayed joist still hangs there.
  const Json whole = test::platform(5);
  const auto sound = assessed(whole);
  const auto mended = assessed(with_sister(decayed(whole, nullptr, nullptr), "47 mm", "150 mm"));
  REQUIRE_FALSE(mended.mechanism.has_value());
  for (const char* check : {"bending", "shear"}) {
    const double before = of(sound, std::string("J6/") + check);
    INFO(check);
    REQUIRE(before > 0.1);
    const double after = of(mended, std::string("J6 sister/") + check);
    // Beside a stretch that is not there no load near a support is left out of the shear (EN 1995-1-1
    // 6.1.7(3) is for whole pieces): the sister takes all of what the sound joist need not.
    if (std::string(check) == "bending") {
      CHECK_THAT(after, Catch::Matchers::WithinRel(before, 0.02));
    } else {
      CHECK(after >= before);
      CHECK_FALSE(assessment::fails(after));
    }
    CHECK_THAT(of(mended, std::string("J5/") + check),
               Catch::Matchers::WithinRel(of(sound, std::string("J5/") + check), 0.02));
  }
  CHECK_THAT(of(mended, "boards/one person on one board"),
             Catch::Matchers::WithinRel(of(sound, "boards/one person on one board"), 1e-9));
}

TEST_CASE("Decay over a support or between them is mended by a sister that is strong enough",
          "[assessment][law]") {
  const Json whole = test::platform(5);
  struct Part {
    const char *from, *to;
  };
  for (const Part part : {Part{"1.4 m", "1.8 m"}, Part{"2 m", "2.3 m"}, Part{"50 mm", "250 mm"}}) {
    INFO(part.from);
    const Json rotten = decayed(whole, part.from, part.to);
    const auto good = assessed(with_sister(rotten, "47 mm", "150 mm"));
    REQUIRE_FALSE(good.mechanism.has_value());
    // The sister is checked with the whole of what it and the rest of the joist take.
    CHECK(of(good, "J6 sister/bending") > 0.9 * of(assessed(whole), "J6/bending"));
    CHECK(of(good, "boards/one person on one board") <
          of(assessed(rotten), "boards/one person on one board"));
    // Less of it is never safer.
    double last = of(good, "J6 sister/bending");
    for (const char* breadth : {"38 mm", "25 mm", "12 mm"}) {
      const auto thinner = assessed(with_sister(rotten, breadth, "150 mm"));
      CHECK(of(thinner, "J6 sister/bending") >= last);
      last = of(thinner, "J6 sister/bending");
    }
    CHECK(last > 1.0);
  }
}

TEST_CASE("A sister beside a joist that hangs is not taken to hang too", "[assessment][law]") {
  // Its ends are held by nothing that is recorded: the neighbours carry, and the boards reach across.
  const Json rotten = decayed(test::hung_platform("hanger"), "1.4 m", "1.8 m");
  const auto without = assessed(rotten);
  const auto with = assessed(with_sister(rotten, "47 mm", "150 mm"));
  CHECK(with.mechanism.has_value() == without.mechanism.has_value());
  CHECK(of(with, "boards/one person on one board") >=
        of(without, "boards/one person on one board") * (1.0 - 1e-9));
}

TEST_CASE(
    "A sister that does not reach counts for nothing, and the order of sisters changes nothing",
    "[assessment][law]") {
  const Json rotten = decayed(test::platform(5), "1.4 m", "1.8 m");
  // EN 1995-1-1 6.1.5 and NDS 3.10 count actual contact: 30 mm too shallow touches the boards or the pad.
  const auto none = assessed(rotten);
  const auto shallow = assessed(with_sister(rotten, "47 mm", "120 mm"));
  CHECK(shallow.safety == none.safety);
  CHECK(of(shallow, "J6 sister/bending") == 0.0);
  REQUIRE(!shallow.assumptions.empty());
  CHECK(std::any_of(shallow.assumptions.begin(), shallow.assumptions.end(), [](const auto& text) {
    return text.find("counts for nothing") != std::string::npos;
  }));
  Json two = with_sister(rotten, "47 mm", "150 mm");
  Json other = two["deck"]["sisters"][0];
  other["timber"] = "D30";
  other["breadth"] = "20 mm";
  two["deck"]["sisters"].push_back(other);
  Json turned = two;
  std::reverse(turned["deck"]["sisters"].begin(), turned["deck"]["sisters"].end());
  const auto a = assessed(two), b = assessed(turned);
  CHECK(a.safety == Approx(b.safety).epsilon(1e-9));
  for (const char* check : {"bending", "shear", "bearing across the grain"}) {
    INFO(check);
    const std::string id = std::string("J6 sister/") + check;
    CHECK(of(a, id) == Approx(of(b, id)).epsilon(1e-9));
  }
}

TEST_CASE("In a hanger the joist alone bears and is sheared, whatever is fixed beside it",
          "[assessment][law]") {
  const Json bare = test::hung_platform("hanger");
  const auto without = assessed(bare), with = assessed(with_sister(bare, "47 mm", "150 mm"));
  for (const char* check : {"shear", "bearing across the grain"}) {
    INFO(check);
    const std::string id = std::string("J6/") + check;
    REQUIRE(of(without, id) > 0.0);
    // The stiffer pair draws more load, never less.
    CHECK(of(with, id) >= of(without, id) * (1.0 - 1e-9));
  }
  CHECK(of(with, "J6/bending") < of(without, "J6/bending"));
}

}  // namespace absent_test_file
