// What decides a verdict: what fails already, few acts on site, one reading at a time.
// Every deck is invented for these tests.
#include "underprop/report/sentences.hpp"

#include "support/decks.hpp"

#include "support/catch.hpp"

#include <limits>

namespace deciding_test_file {

using namespace underprop;
using namespace underprop::assessment;
using test::Json;

/// Five rows of pads under C14 joists; the load is a planter of 40 kg over joist J6.
Json planter_deck() {
  Json json = test::platform(5, 40, 0);
  Json& load = json["loads"][0];
  load = {{"name", "planter"},
          {"kind", "planter"},
          {"shape", "rectangle"},
          {"width", "400 mm"},
          {"length", "400 mm"},
          {"height", "300 mm"},
          {"at", {"1.675 m", "1.65 m"}},
          {"dry_mass", "40 kg"},
          {"contents_mass", "0 kg"},
          {"people", 0},
          {"base", "full"}};
  return json;
}

TEST_CASE(
    "A joist under the load that fails as a deck already cannot carry it, however light it is",
    "[assessment][verdict]") {
  // Two rows of pads: 2 x 47 x 150 C14 over 3.0 m under 1.5 kPa of people at 305 mm. By hand, simple span:
  // q = 1.35 x 0.15 + 1.5 x 1.5 x 0.305 = 0.89 kN/m, M = 1.00 kNm; W = 176 cm3; f_m,d = 14 x 0.65 / 1.3 =
  // 7.0 MPa (k_h = 1 at 150 mm): 1.23 kNm, 0.81. At 610 mm centres 1.6: a deck that its owner walks on every day.
  Json json = planter_deck();
  json["deck"]["joists"][0]["spacing"] = "610 mm";
  json["deck"]["joists"][0]["count"] = 6;
  json["deck"]["boards"]["thickness"] = "38 mm";
  Json two = test::platform(2);
  json["deck"]["supports"][0]["positions"] = two["deck"]["supports"][0]["positions"];
  json["loads"][0]["at"] = {"1.675 m", "0.6 m"};
  const Assessment a = test::assess(json);
  INFO(report::verdict_sentence(a));
  CHECK(a.verdict == Verdict::does_not_carry);
  const auto bending =
      std::find_if(a.shown.findings.begin(), a.shown.findings.end(), [](const Finding& f) {
        return f.check.kind == standards::CheckKind::bending && fails(f.check.utilisation);
      });
  REQUIRE(bending != a.shown.findings.end());
  CHECK(bending->already);
}

TEST_CASE("A deck without a load is judged as a deck", "[assessment][verdict]") {
  Json json = test::platform(5);
  json.erase("loads");
  // 28 mm boards' free ends of 150 mm fail under a person by 1.80; the square of 45/28 is 2.58: 0.70.
  json["deck"]["boards"]["thickness"] = "45 mm";
  const Assessment sound = test::assess(json);
  INFO(report::verdict_sentence(sound));
  CHECK(sound.verdict == Verdict::carries);
  CHECK_FALSE(sound.with_load);
  CHECK(report::verdict_sentence(sound).find("Sound as a deck") != std::string::npos);
  // The same with joists of half the depth.
  json["deck"]["joists"][0]["depth"] = "50 mm";
  json["deck"]["rims"][0]["depth"] = "50 mm";
  json["deck"]["rims"][1]["depth"] = "50 mm";
  Json wide = test::platform(2);
  json["deck"]["supports"][0]["positions"] = wide["deck"]["supports"][0]["positions"];
  CHECK(test::assess(json).verdict == Verdict::does_not_carry);
}

TEST_CASE("One hole beside a footing is one thing to do, however many facts it settles",
          "[assessment][verdict][!mayfail]") {
  Json json = test::platform(5);
  Json& footing = json["deck"]["supports"][0]["footing"];
  for (const char* key : {"width", "length", "thickness", "depth"}) footing.erase(key);
  const Assessment a = test::assess(json);
  INFO(report::verdict_sentence(a));
  REQUIRE(a.verdict == Verdict::cannot_tell);
  REQUIRE(a.grounds == Grounds::facts_decide);
  const auto acts = acts_for(a, a.decides.front().fields);
  REQUIRE(acts.size() == 1);
  CHECK(acts.front().act == record::Act::dig_beside_footing);
  // What it says would pass does pass, all of it at once; a number is no better than it must be.
  Json found = json;
  for (std::size_t k = 0; k < a.decides.front().fields.size(); ++k) {
    const std::string& field = a.decides.front().fields[k];
    found[Json::json_pointer(field)] = a.decides.front().passes_if[k];
  }
  const Assessment b = test::assess(found);
  INFO(report::verdict_sentence(b));
  CHECK(b.verdict == Verdict::carries);
}

TEST_CASE("The numbers shown are those of the reading that the verdict rests on",
          "[assessment][verdict]") {
  // Too weak whatever the open facts: shown at their best, where the first line is what the sentence names.
  // C14 fails in bending by 1.86, the best class that nobody stamped, C24, by 14/24 of that: 1.08.
  Json json = test::platform(2);
  json["deck"]["joists"][0].erase("timber");
  const Assessment a = test::assess(json);
  INFO(report::verdict_sentence(a));
  REQUIRE(a.verdict == Verdict::does_not_carry);
  REQUIRE(a.grounds == Grounds::fails_at_best);
  CHECK(a.reading == record::Reading::favourable);
  REQUIRE(a.governing);
  REQUIRE(a.first);
  REQUIRE(a.first->finding);
  CHECK(a.governing->id == a.first->finding->id);
  CHECK(a.governing->check.utilisation == a.first->finding->check.utilisation);
}

TEST_CASE("Where facts decide, both ends of them are shown", "[assessment][verdict][!mayfail]") {
  Json open = test::platform(5);
  open["deck"]["supports"][0]["footing"].erase("contact");
  const Assessment b = test::assess(open);
  REQUIRE(b.verdict == Verdict::cannot_tell);
  CHECK(b.reading == record::Reading::cautious);
  REQUIRE_FALSE(b.at_best.empty());
  CHECK_FALSE(fails(b.at_best.at(b.shown.findings.front().id)));
}

TEST_CASE(
    "A utilisation of one passes, and so does one that a sum of lengths rounds a hair above it",
    "[assessment][verdict]") {
  CHECK_FALSE(fails(1.0));
  CHECK_FALSE(fails(1.0000000000000002));
  CHECK(fails(1.000001));
  CHECK(fails(std::numeric_limits<double>::infinity()));
  CHECK(fails(std::numeric_limits<double>::quiet_NaN()));
}

}  // namespace deciding_test_file
