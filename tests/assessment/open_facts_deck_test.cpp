// Decks that show what is open, what follows and what cannot matter.
#include "underprop/base/input_error.hpp"

#include "support/catch.hpp"
#include "support/decks.hpp"

namespace open_facts_deck_test {

using namespace underprop;
using assessment::Assessment;
using assessment::Verdict;
using test::Json;

TEST_CASE("Heights that do not add up are refused with their sum", "[assessment][closed-form]") {
  // 28 + 150 = 178 mm of boards and joist under a surface at 1.9 m: the pads, whose tops the record puts
  // below ground, would hang 1,722 mm over it.
  Json json = test::platform(5);
  json["deck"]["height"] = "1.9 m";
  try {
    test::read(json);
    FAIL("read");
  } catch (const InputErrors& errors) {
    const std::string text = errors.what();
    INFO(text);
    CHECK(text.find("do not add up") != std::string::npos);
    CHECK(text.find("178 mm") != std::string::npos);
    CHECK(text.find("1722 mm") != std::string::npos);
  }
  json["deck"]["height"] = "300 mm";
  CHECK_NOTHROW(test::read(json));
}

TEST_CASE("Loads share the deck: together they may be more than can be judged",
          "[assessment][law]") {
  Json json = test::platform(5, 300, 1900);
  Json second = json["loads"][0];
  second["name"] = "second tub";
  json["loads"][0]["width"] = second["width"] = "1.5 m";
  json["loads"][0]["at"] = {"800 mm", "1.65 m"};
  second["at"] = {"2.5 m", "1.65 m"};
  json["loads"].push_back(second);
  const Assessment a = test::assess(json);
  CHECK(a.verdict == Verdict::refer);
  bool said = false;
  for (const std::string& reason : a.refer_reasons)
    said = said || reason.find("together") != std::string::npos;
  CHECK(said);
}

TEST_CASE("A house wall of unknown depth out of every footing's reach keeps nothing from carrying",
          "[assessment][law]") {
  Json json = test::platform(5);
  REQUIRE(test::assess(json).verdict == Verdict::carries);
  json["site"]["house_walls"] =
      Json::array({{{"name", "house"}, {"from", {"-2 m", "-3 m"}}, {"to", {"6 m", "-3 m"}}}});
  CHECK(test::assess(json).verdict == Verdict::carries);
  // Where the load stands over the first row of pads the wall's depth decides.
  json["loads"][0]["at"] = {"1.675 m", "1.05 m"};
  REQUIRE(test::assess(json).verdict == Verdict::carries);
  json["site"]["house_walls"][0]["from"][1] = json["site"]["house_walls"][0]["to"][1] = "-200 mm";
  CHECK(test::assess(json).verdict != Verdict::carries);
}

TEST_CASE("A tub of impossible litres does not carry by them", "[assessment][law]") {
  // 2.0 x 2.0 x 0.5 m = 2,000 l; no tub of that size holds 200.
  Json json = test::platform(5, 300, 200);
  json["loads"][0]["water_depth"] = "500 mm";
  const Assessment a = test::assess(json);
  CHECK(a.verdict != Verdict::carries);
  bool named = false;
  for (const auto& item : a.must_see)
    named = named || (item.field == "/loads/0/contents" && !item.recorded);
  CHECK(named);
}

TEST_CASE("Contact that nobody saw is tried absent and need not be seen where that passes",
          "[assessment][law]") {
  Json json = test::platform(5, 100, 300);
  json["deck"]["supports"][0]["footing"].erase("contact");
  const Assessment a = test::assess(json);
  CHECK(a.verdict == Verdict::carries);
  for (const auto& item : a.must_see) CHECK(item.field.find("contact") == std::string::npos);
}

TEST_CASE("What has to be done on site is counted in acts", "[assessment][law]") {
  Json json = test::platform(5);
  json["deck"]["probed"] = Json{{"pieces", Json::array()}};
  json["site"].erase("soil");
  json["deck"]["supports"][0]["footing"].erase("width");
  const Assessment a = test::assess(json);
  const std::vector<assessment::ActNeeded> acts = assessment::acts_for(
      a, {"/deck/probed/J", "/site/soil", "/deck/supports/0/footing/width", "/no/such"});
  REQUIRE(acts.size() == 2);  // one screwdriver round, one hole
  CHECK(acts[0].act == record::Act::probe);
  CHECK(acts[1].act == record::Act::dig_beside_footing);
  CHECK(acts[1].fields.size() == 2);
}

}  // namespace open_facts_deck_test
