// What rights itself, and how a push is shared: statics and the static theorem by hand; small decks that
// show the rule at every height. Values of data/scope.json stand beside each figure.
#include "../../src/assessment/righting.hpp"

#include "../../src/assessment/stability.hpp"
#include "../support/catch.hpp"
#include "../support/decks.hpp"

#include <cmath>

namespace righting_test_file {

using namespace underprop;
using assessment::Finding;
using assessment::largest_push;
using assessment::ResistingLine;
using test::Json;

namespace {

/// The worst sway or toppling of a deck under 4 kN a support, 30 kN of people among 60 kN.
double sideways(const Json& json) {
  const record::Survey record = test::read(json);
  const auto standard = assessment::standard_for(record.standard);
  const deck::Deck resolved = deck::resolve(record, record::Reading::cautious).deck;
  const assessment::Timbers timbers = assessment::timbers(resolved, *standard);
  assessment::StabilityLoads loads;
  loads.vertical = kilonewtons(60);
  loads.people = kilonewtons(30);
  for (const deck::Support& s : resolved.supports)
    loads.reactions.push_back({s.id, s.at, kilonewtons(4), kilonewtons(6)});
  double worst = 0.0;
  for (const Finding& f : assessment::stability(resolved, timbers, *standard, loads).findings)
    worst = std::max(worst, f.check.utilisation);
  return worst;
}

/// The platform of the tests on pads 300 mm square that stand `tall` mm out of the ground.
Json on_piers(int tall, const char* kind) {
  Json json = test::platform(5);
  json["deck"]["height"] = std::to_string(tall + 28 + 150) + " mm";
  for (Json& group : json["deck"]["supports"]) {
    group["footing"]["kind"] = kind;
    group["footing"]["thickness"] = std::to_string(tall) + " mm";
    group["footing"]["depth"] = "0 mm";
  }
  return json;
}

}  // namespace

TEST_CASE("What stands on a base rights itself up to N b / 3 h",
          "[assessment][stability][closed-form]") {
  // 9 kN on a post 100 mm wide and 600 mm tall: 9000 x 100 / 1800 = 500 N.
  CHECK(assessment::righting_push(9000.0, 100.0, 600.0) == Approx(500.0));
}

TEST_CASE("A stiff deck on ductile lines withstands what statics allows",
          "[assessment][stability][closed-form]") {
  const auto line = [](Axis axis, double x, double y, double R) {
    return ResistingLine{axis, {mm(x), mm(y)}, R};
  };
  const Point at{mm(0), mm(1000)};
  // Lines of 6 kN at y = 0 and 4 m, the push at y = 1 m: the nearer takes 3/4 of it, so 6/0.75 = 8 kN.
  std::vector<ResistingLine> two{line(Axis::x, 0, 0, 6000), line(Axis::x, 0, 4000, 6000)};
  CHECK(largest_push(two, Axis::x, at) == Approx(8000.0));
  // Two lines across, 3 m apart, of 1 kN each hold a couple of 3 kN m besides: 6 kN x 1 m + 3 kN m =
  // (H - 6 kN) x 3 m, H = 9 kN.
  two.push_back(line(Axis::y, 0, 0, 1000));
  two.push_back(line(Axis::y, 3000, 0, 1000));
  CHECK(largest_push(two, Axis::x, at) == Approx(9000.0));
  // In the middle both give all they have; one line beside the push holds nothing.
  CHECK(largest_push(two, Axis::x, {mm(0), mm(2000)}) == Approx(12000.0));
  CHECK(largest_push({line(Axis::x, 0, 0, 6000)}, Axis::x, at) == Approx(0.0).margin(1e-9));
  CHECK(largest_push({line(Axis::x, 0, 1000, 6000)}, Axis::x, at) == Approx(6000.0));
}

TEST_CASE("Blocks stacked over 1.5 times their width hold nothing; a cast pier holds by its width",
          "[assessment][stability][law]") {
  // 300 mm blocks: up to 450 mm they stand; higher they are a loose stack.
  CHECK(std::isfinite(sideways(on_piers(440, "deck block"))));
  CHECK(std::isinf(sideways(on_piers(460, "deck block"))));
  CHECK(std::isinf(sideways(on_piers(460, "laid slab"))));
  CHECK(std::isfinite(sideways(on_piers(460, "cast pad"))));
}

TEST_CASE("A taller pier is never safer, and nothing jumps at 600 mm",
          "[assessment][stability][law]") {
  double before = 0.0;
  for (const int tall : {200, 400, 590, 600, 610, 900, 1500}) {
    const double u = sideways(on_piers(tall, "cast pad"));
    CHECK(u >= before);
    if (before > 0.0 && tall >= 600 && tall <= 610) CHECK(u < 1.05 * before);
    before = u;
  }
}

}  // namespace righting_test_file
