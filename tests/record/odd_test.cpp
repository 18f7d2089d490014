// What is odd without being wrong is told with the likely slip, and with both places where two values
// do not go together.
#include "record/read_support.hpp"
#include "support/catch.hpp"
#include "support/recorded.hpp"

namespace underprop::record {
namespace odd_test_file {
namespace {

using Json = nlohmann::json;

/// A platform of 3 x 2.4 m on two bearers with a tub of 1.5 x 1.5 m and 300 mm of water: 675 l.
Json small_deck() {
  return Json::parse(R"({
    "format": "underprop-survey/1", "recorded_on": "2026-05-01", "standard": "eurocode-uk",
    "deck": {
      "outline": [["0 m", "0 m"], ["3 m", "0 m"], ["3 m", "2.4 m"], ["0 m", "2.4 m"]],
      "height": "400 mm",
      "boards": {"material": "softwood", "width": "120 mm", "thickness": "28 mm",
                 "direction": "x"},
      "joists": [{"name": "J", "direction": "y", "first": "300 mm", "spacing": "400 mm",
                  "count": 7, "timber": "C24", "breadth": "47 mm", "depth": "145 mm"}],
      "bearers": [{"name": "B1", "direction": "x", "position": "200 mm", "joists": "on top"},
                  {"name": "B2", "direction": "x", "position": "2.2 m", "joists": "on top"}],
      "supports": [{"name": "P", "under": "B1", "positions": ["0.2 m", "1.5 m", "2.8 m"]},
                   {"name": "Q", "under": "B2", "positions": ["0.2 m", "1.5 m", "2.8 m"]}]},
    "loads": [{"kind": "tub", "shape": "rectangle", "width": "1.5 m", "length": "1.5 m",
               "at": ["1.5 m", "1.2 m"], "dry_mass": "200 kg", "contents": "600 l",
               "water_depth": "300 mm"}]})");
}

/// What is told stands in the recorded words, and it is something.
void check_told(const std::string& what, const std::string& text) {
  INFO(what);
  CHECK_FALSE(text.empty());
  underprop::test::check_passage("tests/record/odd.expected", what, text + "\n");
}

/// All that is told, one a line.
std::string told(const Json& json) {
  std::string text;
  for (const Warning& warning : deck::read_survey(json.dump(), "survey.json").warnings) {
    text += (text.empty() ? "" : "\n") + warning.pointer + ": " + warning.text;
  }
  return text;
}

std::string told(const char* place, const Json& value) {
  Json json = small_deck();
  json[Json::json_pointer(place)] = value;
  return told(json);
}

}  // namespace

TEST_CASE("A sensible deck is questioned nowhere", "[read][law]") {
  CHECK(told(small_deck()).empty());
}

TEST_CASE("A span of 2.4 mm is met with 2.4 m", "[read][words][recorded]") {
  Json json = small_deck();
  json["deck"]["bearers"][0]["position"] = "2.2 m";
  json["deck"]["bearers"][1]["position"] = "2.2024 m";
  check_told("bearers 2.4 mm apart", told(json));
  check_told("bearers 100 mm apart", told("/deck/bearers/1/position", "300 mm"));
  CHECK(told("/deck/bearers/1/position", "350 mm").empty());
}

TEST_CASE("Litres that do not fit plan and depth are met with the gallons that do",
          "[read][words][recorded]") {
  for (const char* contents : {"150 l", "40 l", "640 us gal", "20 l"})
    check_told(std::string("contents of ") + contents, told("/loads/0/contents", contents));
}

TEST_CASE("A ledger on masonry whose fixings nothing is stated for is told what that means",
          "[read][words][recorded]") {
  Json json = small_deck();
  json["deck"]["ledgers"] = {{{"name", "L"},
                              {"direction", "x"},
                              {"position", "0 m"},
                              {"breadth", "47 mm"},
                              {"depth", "145 mm"},
                              {"fixed_to", "solid masonry"},
                              {"fixing", "anchor"}}};
  check_told("anchors in masonry of which nothing is stated", told(json));
  json["deck"]["ledgers"][0]["stated_capacity"] = "2 kN";
  check_told("anchors in masonry whose pull-out is not stated", told(json));
  json["deck"]["ledgers"][0]["stated_pull_out"] = "2 kN";
  CHECK(told(json).empty());
  json["deck"]["ledgers"][0].erase("stated_pull_out");
  json["deck"]["ledgers"][0].erase("stated_capacity");
  json["deck"]["ledgers"][0]["fixed_to"] = "timber band";
  CHECK(told(json).empty());
}

TEST_CASE("Bolts where nothing hangs on the side of a post are told", "[read][words][recorded]") {
  Json post = {{"breadth", "95 mm"},
               {"depth", "95 mm"},
               {"height", "300 mm"},
               {"bearer", "on top"},
               {"bolts", 2}};
  check_told("bolts below a bearer on top", told("/deck/supports/0/post", post));
  post["bearer"] = "beside";
  CHECK(told("/deck/supports/0/post", post).empty());
}

TEST_CASE("A dry tub of 900 kg is met with its water, and with pounds", "[read][words][recorded]") {
  for (const char* mass : {"900 kg", "2 t"})
    check_told(std::string("a dry tub of ") + mass, told("/loads/0/dry_mass", mass));
  CHECK(told("/loads/0/dry_mass", "700 kg").empty());
}

TEST_CASE("Joists further apart than the boards are laid over show both places",
          "[read][words][recorded]") {
  Json json = small_deck();
  json["deck"]["joists"][0]["spacing"] = "480 mm";
  json["deck"]["joists"][0]["count"] = 6;
  check_told("boards too thin for the joists' spacing", told(json));
  json["deck"]["boards"]["thickness"] = "29 mm";  // 17 times that: 493 mm
  CHECK(told(json).empty());
  json["deck"]["boards"]["material"] = "composite";
  json["deck"]["boards"]["stated_span"] = "400 mm";
  check_told("boards whose maker allows less", told(json));
}

}  // namespace odd_test_file
}  // namespace underprop::record
