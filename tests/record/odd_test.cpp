// What is odd without being wrong is told with the likely slip, and with both places where two values
// do not go together.
#include "record/read_support.hpp"
#include "support/catch.hpp"

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

TEST_CASE("A span of 2.4 mm is met with 2.4 m", "[read][law]") {
  Json json = small_deck();
  json["deck"]["bearers"][0]["position"] = "2.2 m";
  json["deck"]["bearers"][1]["position"] = "2.2024 m";
  CHECK(told(json) ==
        "/deck/bearers/1/position: a span of 2.4 mm from /deck/bearers/0/position: did you mean "
        "\"2.4 m\"?");
  CHECK(told("/deck/bearers/1/position", "300 mm") ==
        "/deck/bearers/1/position: a span of 100 mm from /deck/bearers/0/position: are the numbers "
        "and their units right?");
  CHECK(told("/deck/bearers/1/position", "350 mm").empty());
}

TEST_CASE("Litres that do not fit plan and depth are met with the gallons that do", "[read][law]") {
  CHECK(told("/loads/0/contents", "170 l") ==
        "/loads/0/contents: 170 l is under 60 % of the footprint times 300 mm of water "
        "(/loads/0/water_depth; 675 l): did you mean \"170 us gal\"?");
  CHECK(told("/loads/0/contents", "95 l") ==
        "/loads/0/contents: 95 l is under 60 % of the footprint times 300 mm of water "
        "(/loads/0/water_depth; 675 l): did you mean \"95 imp gal\"?");
  CHECK(told("/loads/0/contents", "640 us gal") ==
        "/loads/0/contents: 2422.66 l is more than the footprint times 300 mm of water "
        "(/loads/0/water_depth) holds (675 l): did you mean \"640 l\"?");
  CHECK(told("/loads/0/contents", "20 l") ==
        "/loads/0/contents: 20 l is under 60 % of the footprint times 300 mm of water "
        "(/loads/0/water_depth; 675 l): is it the volume to the brim, and are its unit and the "
        "depth right? Seats and sloping sides take their share");
}

TEST_CASE("A ledger on masonry whose fixings nothing is stated for is told what that means",
          "[read][law]") {
  Json json = small_deck();
  json["deck"]["ledgers"] = {{{"name", "L"},
                              {"direction", "x"},
                              {"position", "0 m"},
                              {"breadth", "47 mm"},
                              {"depth", "145 mm"},
                              {"fixed_to", "solid masonry"},
                              {"fixing", "anchor"}}};
  CHECK(told(json) ==
        "/deck/ledgers/0/stated_capacity: nothing is stated for fixings in solid masonry "
        "(/deck/ledgers/0/fixed_to): without a figure from a test or the maker's sheet they count "
        "for nothing, and so does the ledger");
  json["deck"]["ledgers"][0]["stated_capacity"] = "2 kN";
  CHECK(told(json) ==
        "/deck/ledgers/0/stated_pull_out: no figure against a pull out of solid masonry "
        "(/deck/ledgers/0/fixed_to): joists beside the wall's face pull its fixings, and half of "
        "what is stated downwards counts until the maker's pull-out (tension) figure for this wall "
        "is recorded");
  json["deck"]["ledgers"][0]["stated_pull_out"] = "2 kN";
  CHECK(told(json).empty());
  json["deck"]["ledgers"][0].erase("stated_pull_out");
  json["deck"]["ledgers"][0].erase("stated_capacity");
  json["deck"]["ledgers"][0]["fixed_to"] = "timber band";
  CHECK(told(json).empty());
}

TEST_CASE("Bolts where nothing hangs on the side of a post are told", "[read][law]") {
  Json post = {{"breadth", "95 mm"},
               {"depth", "95 mm"},
               {"height", "300 mm"},
               {"bearer", "on top"},
               {"bolts", 2}};
  CHECK(told("/deck/supports/0/post", post) ==
        "/deck/supports/0/post/bolts: bolts where the piece above sits \"on top\" "
        "(/deck/supports/0/post/bearer) enter no check: does it hang on the side of the post?");
  post["bearer"] = "beside";
  CHECK(told("/deck/supports/0/post", post).empty());
}

TEST_CASE("A dry tub of 900 kg is met with its water, and with pounds", "[read][law]") {
  CHECK(told("/loads/0/dry_mass", "900 kg") ==
        "/loads/0/dry_mass: a dry tub of 900 kg is heavy: is the water counted in, or did you mean "
        "\"900 lb\"?");
  CHECK(told("/loads/0/dry_mass", "2 t") ==
        "/loads/0/dry_mass: a dry tub of 2000 kg is heavy: is the water counted in?");
  CHECK(told("/loads/0/dry_mass", "700 kg").empty());
}

TEST_CASE("Joists further apart than the boards are laid over show both places", "[read][law]") {
  Json json = small_deck();
  json["deck"]["joists"][0]["spacing"] = "480 mm";
  json["deck"]["joists"][0]["count"] = 6;
  CHECK(told(json) ==
        "/deck/joists/0/positions: joists 480 mm apart under boards 28 mm thick "
        "(/deck/boards/thickness) are wider apart than such boards are laid: is a joist left out?");
  json["deck"]["boards"]["thickness"] = "29 mm";  // 17 times that: 493 mm
  CHECK(told(json).empty());
  json["deck"]["boards"]["material"] = "composite";
  json["deck"]["boards"]["stated_span"] = "400 mm";
  CHECK(told(json) ==
        "/deck/joists/0/positions: joists 480 mm apart under boards whose maker allows 400 mm "
        "(/deck/boards/stated_span): is a joist left out?");
}

}  // namespace odd_test_file
}  // namespace underprop::record
