// What carries a bearer and what carries across it: bolts near its end, joints in its length, whether
// it stands upright; what holds a ledger to the house when the deck is pushed away from it; what a post
// itself weighs. The decks are invented.
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/assessment/assessment.hpp"
#include "underprop/deck/deck.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

namespace carriers_test_file {

using namespace underprop;
using test::Json;

namespace {

assessment::DeckAssessment judged(const Json& json) {
  const record::Survey record = test::read(json);
  const deck::Deck deck = deck::resolve(record, record::Reading::cautious).deck;
  return assessment::assess_deck(deck, *assessment::standard_for(record.standard));
}

std::optional<double> used(const assessment::DeckAssessment& result, const std::string& piece,
                           const std::string& check) {
  std::optional<double> most;
  for (const assessment::Finding& f : result.findings) {
    if (f.piece == piece && f.check.check == check)
      most = std::max(most.value_or(0.0), f.check.utilisation);
  }
  return most;
}

}  // namespace

TEST_CASE("A joint in a bearer's length away from its supports carries nothing that is recorded",
          "[assessment][law]") {
  Json json = test::raised(4);
  json["deck"]["bearers"][1]["plies_fixed_together"] = false;
  CHECK_FALSE(used(judged(json), "B", "splice"));
  json["deck"]["bearers"][1]["splices"] = {"6 ft"};
  const std::optional<double> apart = used(judged(json), "B", "splice");
  REQUIRE(apart);
  // 2 ft from the post's axis, which gives 5.5/2 in. to rest on.
  CHECK(*apart == Approx(24.0 / 2.75));
  // Plies fixed together change nothing: which of them are cut there is not recorded (IRC R507.5 wants
  // the splices of a beam over its posts).
  json["deck"]["bearers"][1]["plies_fixed_together"] = true;
  CHECK(used(judged(json), "B", "splice") == apart);
  json["deck"]["bearers"][1]["splices"] = {"8 ft"};  // over a post
  CHECK(used(judged(json), "B", "splice") == 0.0);
}

TEST_CASE("Bolts through the side of a post need wood beyond them", "[assessment][law]") {
  Json json = test::raised(4);
  Json& post = json["deck"]["supports"][1]["post"];
  post["bearer"] = "beside";
  post["bolts"] = 2;
  post["bolt_diameter"] = "0.5 in";
  // The outer posts stand at the bearer's very ends.
  const std::optional<double> flush = used(judged(json), "B", "bolts to the side of a post");
  REQUIRE(flush);
  CHECK(std::isinf(*flush));
  json["deck"]["supports"][1]["positions"] = {"1 ft", "4 ft", "8 ft", "12 ft", "15 ft"};
  const std::optional<double> inside = used(judged(json), "B", "bolts to the side of a post");
  REQUIRE(inside);
  CHECK(std::isfinite(*inside));
}

TEST_CASE("A tall bearer on which joists only lie is not taken as held upright",
          "[assessment][law]") {
  Json json = test::raised(4);
  json["deck"]["bearers"][1]["plies_fixed_together"] = false;  // each ply 9.25 x 1.5 in.
  const std::optional<double> lying = used(judged(json), "B", "held upright");
  REQUIRE(lying);
  CHECK(*lying > 1.0);
  json["deck"]["bearers"][1]["joists_held_down"] = "nailed";
  const std::optional<double> nailed = used(judged(json), "B", "held upright");
  REQUIRE(nailed);
  CHECK(*nailed <= 1.0);
}

TEST_CASE("A heavier post presses on its footing with its own weight", "[assessment][law]") {
  // The same pad, load and stiffness; the finding says what the post weighs: 550 kg/m3 x 5.5 in. x
  // 5.5 in. x 3 ft = 31.2 lb.
  const assessment::DeckAssessment result = judged(test::raised(4));
  int found = 0;
  for (const assessment::Finding& f : result.findings) {
    if (f.check.check != "ground pressure") continue;
    for (const standards::Step& step : f.check.steps) {
      if (step.symbol != "W_p") continue;
      ++found;
      CHECK(step.value == Approx(550.0 / 16.018463 * 5.5 * 5.5 * 36.0 / 1728.0).epsilon(1e-4));
    }
  }
  CHECK(found > 0);
}

TEST_CASE("A seat on packers that nobody measured is a short one", "[assessment][law]") {
  Json json = test::platform(5);
  const auto bearing = [&] {
    return test::utilisation(test::assess(json), "J", "bearing across the grain");
  };
  json["deck"]["supports"][0]["packers"] = 1;
  const double open = bearing();
  json["deck"]["supports"][0]["bearing_length"] = "75 mm";
  CHECK(open == Approx(bearing()));
  json["deck"]["supports"][0]["bearing_length"] = "300 mm";
  CHECK(open > bearing());
}

}  // namespace carriers_test_file
