// Reading and writing surveys: nothing is lost, short cuts mean what they say, odd values are told.
#include "record/read_support.hpp"
#include "support/paths.hpp"

#include "underprop/base/geometry.hpp"
#include "underprop/deck/deck.hpp"

#include "support/catch.hpp"

#include <set>

namespace underprop::record {
namespace read_test_file {
namespace {

std::string every_key_text() {
  return test::file_text(std::filesystem::path(underprop::test::tests_dir) / "record" /
                         "read_every_key.json");
}

Survey read(const Json& json) { return deck::read_survey(json.dump(), "survey.json").survey; }

/// A small deck without any fault, to be spoilt or varied.
Json small_deck() {
  return Json::parse(R"({
    "format": "underprop-survey/1", "recorded_on": "2026-05-01", "standard": "eurocode-uk",
    "deck": {
      "outline": [["0 m", "0 m"], ["3 m", "0 m"], ["3 m", "2.4 m"], ["0 m", "2.4 m"]],
      "height": "400 mm",
      "boards": {"material": "softwood", "width": "145 mm", "thickness": "28 mm", "direction": "x"},
      "joists": [{"name": "J", "direction": "y", "first": "300 mm", "spacing": "400 mm", "count": 7,
                  "timber": "C24", "breadth": "47 mm", "depth": "145 mm"}],
      "bearers": [
        {"name": "B1", "direction": "x", "position": "300 mm", "joists": "on top"},
        {"name": "B2", "direction": "x", "position": "2.1 m", "joists": "on top"}],
      "supports": [
        {"name": "P", "under": "B1", "positions": ["200 mm", "1.5 m", "2.8 m"]},
        {"name": "Q", "under": "B2", "positions": ["200 mm", "1.5 m", "2.8 m"]}]},
    "loads": [{"kind": "tub", "shape": "rectangle", "width": "1.5 m", "length": "1.5 m",
               "at": ["1.5 m", "1.2 m"], "dry_mass": "180 kg", "contents": "600 l",
               "water_depth": "300 mm"}]})");
}

/// "object/key" of everything that stands in a file, list entries as [].
void keys_of(const Json& value, const std::string& path,
             std::set<std::pair<std::string, std::string>>& keys) {
  if (value.is_array()) {
    for (const Json& each : value) keys_of(each, path + "/[]", keys);
  } else if (value.is_object() && !value.contains("low")) {
    for (const auto& [key, child] : value.items()) {
      keys.emplace(path, key);
      keys_of(child, path + "/" + key, keys);
    }
  }
}

std::vector<std::string> pointers_of(const std::vector<Warning>& warnings) {
  std::vector<std::string> pointers;
  for (const Warning& warning : warnings) pointers.push_back(warning.pointer);
  return pointers;
}

TEST_CASE("A survey that sets every key is written back byte for byte", "[read][law]") {
  const std::string text = every_key_text();
  CHECK(test::faults(text) == "");
  const Survey survey = deck::read_survey(text, "survey.json").survey;
  CHECK(write_survey(survey) == text);

  // It really has every key but the short cuts, so that no key is read and then forgotten.
  std::set<std::pair<std::string, std::string>> there;
  keys_of(Json::parse(text), "", there);
  const std::set<std::string> short_cuts{"first", "spacing", "count", "size"};
  for (const Field& key : survey_fields()) {
    INFO(key.object << "/" << key.key);
    const bool short_cut = short_cuts.contains(key.key) &&
                           !(key.key == "size" && key.object == "/deck/condition/[]") &&
                           !(key.key == "count" && key.object == "/deck/braces/[]");
    CHECK(there.contains({key.object, key.key}) != short_cut);
  }
}

TEST_CASE("Fields reach the members that carry their names", "[read][law]") {
  const Survey s = deck::read_survey(every_key_text(), "survey.json").survey;
  CHECK(s.standard == StandardId::north_america_us);
  CHECK(s.site.soil.value() == Soil::firm_clay);
  CHECK(s.site.slope.value() == 1.0 / 12.0);
  CHECK(in_inches(s.site.frost_depth.high()) == Approx(40.0));
  CHECK(in_psf(*s.site.imposed_load) == Approx(40.0));
  CHECK(in_psf(s.site.snow_load.value()) == Approx(25.0));
  CHECK(in_pounds_force(*s.site.concentrated_load) == Approx(300.0));
  CHECK(s.site.trees.looked);
  CHECK(s.site.trees.items.at(0).height == metres(8));
  CHECK(s.deck.height.low() == mm(900));
  CHECK(s.deck.boards.groove_depth == mm(2));
  const Joists& j = s.deck.joists.at(0);
  CHECK(j.positions.size() == 7);
  CHECK(j.depth.is_range());
  CHECK(j.start.held.value() == Hold::hanger);
  CHECK(j.start.nails.high() == 12);
  CHECK(j.start.nails_in_carrier.high() == 8);
  CHECK(j.start.all_holes_nailed.value() == false);
  CHECK(j.end.seat.value() == mm(60));
  CHECK(j.added);
  CHECK(s.deck.joists.at(1).timber.is_unknown());
  CHECK(s.deck.joist_ends.at(0).hold.sound.value() == false);
  const Bearer& b = s.deck.bearers.at(0);
  CHECK(b.plies == 3);
  CHECK(b.gap == mm(2));
  CHECK(b.splices == std::vector<Length>{mm(2900)});
  CHECK(s.deck.ledgers.at(0).fixing.value() == FixingKind::lag_screw);
  CHECK(in_kilonewtons(s.deck.ledgers.at(0).stated_capacity.value()) == Approx(1.8));
  const Supports& p = s.deck.supports.at(0);
  CHECK(p.post->bearer.value() == BearerOnPost::beside);
  CHECK(p.footing.kind.value() == FootingKind::post_in_concrete);
  CHECK(p.footing.length.value() == mm(420));
  CHECK(p.footing.gap == mm(3));
  CHECK_FALSE(s.deck.supports.at(1).post.has_value());
  CHECK(s.deck.supports.at(1).only == std::vector<std::string>{"K1", "K3"});
  CHECK(s.deck.condition.at(0).face == Face::underside);
  const HeavyLoad& tub = s.loads.at(0);
  CHECK(tub.rotation_deg == 90.5);
  CHECK(in_litres(tub.contents.value()) == Approx(1000.0));
  CHECK(tub.runners_along == Axis::y);
  CHECK(s.loads.at(1).feet.size() == 3);
  CHECK_FALSE(s.allow.digging);
}

TEST_CASE("Every example reads, and is the same after writing and reading", "[read][law]") {
  const auto paths = test::example_surveys();
  REQUIRE(paths.size() >= 6);
  for (const auto& path : paths) {
    INFO(path.string());
    const std::string text = test::file_text(path);
    CHECK(test::faults(text) == "");
    const deck::ReadResult first = deck::read_survey(text, "survey.json");
    const std::string written = write_survey(first.survey);
    const deck::ReadResult second = deck::read_survey(written, "survey.json");
    CHECK(write_survey(second.survey) == written);
    CHECK(pointers_of(second.warnings) == pointers_of(first.warnings));
    CHECK(first.warnings.empty());
  }
}

namespace {

/// Every place of a survey gets every `step`th of many values, which values shifts from place to place.
void change_every_value(std::size_t step) {
  const std::vector<Json> others{nullptr,
                                 1,
                                 -3.5,
                                 true,
                                 "",
                                 "x",
                                 "unknown",
                                 "-5 mm",
                                 "0 mm",
                                 "7 mm",
                                 "97 m",
                                 "none",
                                 "all",
                                 "J1",
                                 "level",
                                 "40 kg",
                                 Json::array(),
                                 Json::object(),
                                 Json::array({"1 m", "1 m"})};
  for (const std::string& text : {every_key_text(), small_deck().dump()}) {
    const Json good = Json::parse(text);
    std::vector<std::string> places;
    const Json flat = good.flatten();
    for (const auto& [pointer, value] : flat.items()) places.push_back(pointer);
    std::size_t accepted = 0, refused = 0, number = 0;
    for (const std::string& place : places) {
      for (std::size_t which = number++ % step; which < others.size(); which += step) {
        const Json& other = others[which];
        Json changed = good;
        changed[Json::json_pointer(place)] = other;
        INFO(place << " = " << other.dump());
        try {
          const Survey survey = read(changed);
          ++accepted;
          const std::string written = write_survey(survey);
          CHECK(write_survey(deck::read_survey(written, "survey.json").survey) == written);
          for (const Reading reading : {Reading::cautious, Reading::likely, Reading::favourable}) {
            CHECK_NOTHROW(deck::resolve(survey, reading));
          }
        } catch (const InputErrors& errors) {
          ++refused;
          for (const InputError& error : errors.errors()) {
            CHECK_FALSE(error.found.empty());
            CHECK_FALSE(error.allowed.empty());
            CHECK_FALSE(error.remedy.empty());
          }
        }
      }
    }
    CHECK(accepted * step > 50);
    CHECK(refused > accepted);
  }
}

}  // namespace

TEST_CASE("A change of any value is refused or read; what is read survives and resolves",
          "[read][law]") {
  change_every_value(4);
}

TEST_CASE("Any change of any value is refused or read; what is read survives and resolves",
          "[.slow][law]") {
  change_every_value(1);
}

TEST_CASE("first, spacing and count are the positions spelt out", "[read][law]") {
  const Survey by_count = read(small_deck());
  Json listed = small_deck();
  Json& joists = listed["deck"]["joists"][0];
  for (const char* key : {"first", "spacing", "count"}) joists.erase(key);
  joists["positions"] = {"300 mm", "700 mm", "1.1 m", "1.5 m", "1.9 m", "2.3 m", "2.7 m"};
  CHECK(write_survey(read(listed)) == write_survey(by_count));
}

// Dressed sizes of dry lumber: NDS Supplement Table 1A (2x8 is 1 1/2 x 7 1/4 in.).
TEST_CASE("A nominal size gives the dressed size of the standard's table", "[read][published]") {
  Json json = small_deck();
  json["standard"] = "north-america-us";
  Json& joists = json["deck"]["joists"][0];
  joists.erase("breadth");
  joists.erase("depth");
  joists["timber"] = "Hem-Fir No.2";
  for (const auto& [size, breadth, depth] :
       {std::tuple("2x8", 1.5, 7.25), std::tuple("2 x 10", 1.5, 9.25), std::tuple("4x6", 3.5, 5.5),
        std::tuple("6x6", 5.5, 5.5)}) {
    INFO(size);
    joists["size"] = size;
    const Survey survey = read(json);
    CHECK(in_inches(survey.deck.joists[0].breadth.value()) == Approx(breadth));
    CHECK(in_inches(survey.deck.joists[0].depth.value()) == Approx(depth));
  }
}

TEST_CASE("A clockwise outline is the same deck as a counter-clockwise one", "[read][law]") {
  Json json = small_deck();
  json["deck"]["outline"] =
      Json::parse(R"([["0 m", "2.4 m"], ["3 m", "2.4 m"], ["3 m", "0 m"], ["0 m", "0 m"]])");
  const Survey clockwise = read(json);
  CHECK(signed_area(clockwise.deck.outline) == signed_area(read(small_deck()).deck.outline));
  CHECK(signed_area(clockwise.deck.outline) > Area());
}

TEST_CASE("Nobody looked, looked and found nothing, and found are three things", "[read][law]") {
  Json json = small_deck();
  CHECK_FALSE(read(json).site.ponds.looked);
  json["site"] = {{"ponds", "not seen"}};
  CHECK_FALSE(read(json).site.ponds.looked);
  json["site"] = {{"ponds", "none"}};
  CHECK(read(json).site.ponds.looked);
  CHECK(read(json).site.ponds.items.empty());
  const Survey again = deck::read_survey(write_survey(read(json)), "survey.json").survey;
  CHECK(again.site.ponds.looked);
}

TEST_CASE("A load without a name is called by what it is", "[read][law]") {
  Json json = small_deck();
  json["loads"][0]["at"] = {"800 mm", "1.2 m"};
  json["loads"][0]["width"] = "1 m";
  json["loads"].push_back(json["loads"][0]);
  json["loads"][1]["at"] = {"2.2 m", "1.2 m"};
  const Survey survey = read(json);
  CHECK(survey.loads.at(0).name == "tub");
  CHECK(survey.loads.at(1).name == "tub 2");
}

TEST_CASE("Footings may touch, and a load may reach the deck's edge", "[read][law]") {
  Json json = small_deck();
  json["deck"]["supports"][0]["footing"] = {{"width", "650 mm"}, {"length", "300 mm"}};
  json["deck"]["supports"][0]["positions"] = {"200 mm", "850 mm", "1.5 m"};
  json["loads"][0]["at"] = {"750 mm", "1.65 m"};
  CHECK(test::faults(json.dump()) == "");
  json["loads"][0]["at"] = {"740 mm", "1.65 m"};
  CHECK(test::faults(json.dump()) != "");
}

TEST_CASE("A turned footprint is inside the deck only as it stands", "[read][closed-form]") {
  Json json = small_deck();
  json["loads"][0]["width"] = "2.8 m";
  json["loads"][0]["length"] = "1 m";
  json["loads"][0]["contents"] = "800 l";
  CHECK(test::faults(json.dump()) == "");
  json["loads"][0]["rotation_deg"] = 90;  // 2.8 m along y on a deck of 2.4 m
  CHECK(test::faults(json.dump())
            .find("/loads/0/at: \"tub\" sticks out of the deck by 0.40 of 2.80 m2") !=
        std::string::npos);
}

TEST_CASE("Odd values are told without being refused", "[read][law]") {
  CHECK(deck::read_survey(small_deck().dump(), "survey.json").warnings.empty());
  const auto odd = [](const char* place, const Json& value) {
    Json json = small_deck();
    json[Json::json_pointer(place)] = value;
    return pointers_of(deck::read_survey(json.dump(), "survey.json").warnings);
  };
  using Places = std::vector<std::string>;
  // The plan of 2.25 m2 holds 675 l at 300 mm: 25 % is 169 l, 70 % is 473 l, 85 % is 574 l, 105 % is
  // 709 l. A vessel whose form nobody recorded may have any of them.
  CHECK(odd("/loads/0/contents", "165 l") == Places{"/loads/0/contents"});
  CHECK(odd("/loads/0/contents", "172 l").empty());
  CHECK(odd("/loads/0/contents", "705 l").empty());
  CHECK(odd("/loads/0/contents", "715 l") == Places{"/loads/0/contents"});
  const auto odd_of = [](const char* form, const char* contents) {
    Json json = small_deck();
    json["loads"][0]["form"] = form;
    json["loads"][0]["contents"] = contents;
    return pointers_of(deck::read_survey(json.dump(), "survey.json").warnings);
  };
  CHECK(odd_of("straight-sided", "565 l") == Places{"/loads/0/contents"});
  CHECK(odd_of("straight-sided", "580 l").empty());
  CHECK(odd_of("straight-sided", "705 l").empty());
  CHECK(odd_of("straight-sided", "715 l") == Places{"/loads/0/contents"});
  CHECK(odd_of("moulded with seats", "165 l") == Places{"/loads/0/contents"});
  CHECK(odd_of("moulded with seats", "172 l").empty());
  CHECK(odd_of("moulded with seats", "465 l").empty());
  CHECK(odd_of("moulded with seats", "480 l") == Places{"/loads/0/contents"});
  CHECK(odd("/loads/0/dry_mass", "900 kg") == Places{"/loads/0/dry_mass"});
  // 600 l over 2.8 m x 1.5 m and 300 mm are 48 % of it, which a vessel with seats may hold.
  CHECK(odd("/loads/0/width", "2.8-3.2 m") == Places{"/loads/0/at"});
  CHECK(odd("/deck/bearers/0/direction", "x").empty());
  CHECK(odd("/loads/0/people", 12) == Places{"/loads/0/people"});
  CHECK(odd("/loads/0/height", "2 m") == Places{"/loads/0/height"});
  CHECK(odd("/site", {{"frost_depth", "3 m"}}) == Places{"/site/frost_depth"});
  CHECK(odd("/site", {{"snow_load", "15 kN/m2"}}) == Places{"/site/snow_load"});
  CHECK(odd("/site", {{"imposed_load", "0.2 kN/m2"}}) == Places{"/site/imposed_load"});
  CHECK(odd("/deck/boards/thickness", "95 mm") == Places{"/deck/boards/thickness"});
  CHECK(odd("/deck/boards/width", "28 mm") == Places{"/deck/boards/width"});
  CHECK(odd("/deck/supports/0/footing", {{"width", "80 mm"}}) ==
        Places{"/deck/supports/0/footing/width"});
  CHECK(odd("/deck/supports/0/footing", {{"contact", "gap"}, {"gap", "40 mm"}}) ==
        Places{"/deck/supports/0/footing/gap"});
  CHECK(odd("/deck/height", "5 m") == Places{"/deck/height"});
  Json no_depth = small_deck();
  no_depth["loads"][0].erase("water_depth");  // 2.25 m2
  const auto litres = [&](const char* volume) {
    no_depth["loads"][0]["contents"] = volume;
    return pointers_of(deck::read_survey(no_depth.dump(), "survey.json").warnings);
  };
  CHECK(litres("2600 l").empty());
  CHECK(litres("2800 l") == Places{"/loads/0/contents"});  // 1.2 m deep holds 2700 l
  CHECK(litres("460 l").empty());
  CHECK(litres("440 l") == Places{"/loads/0/contents"});  // 0.2 m deep holds 450 l
  Json planter = small_deck();
  planter["loads"][0]["kind"] = "planter";
  const auto soil = [&](const char* mass) {
    planter["loads"][0]["contents_mass"] = mass;
    return pointers_of(deck::read_survey(planter.dump(), "survey.json").warnings);
  };
  CHECK(soil("900 kg").empty());
  CHECK(soil("400 kg") == Places{"/loads/0/contents_mass"});
  CHECK(soil("2 t") == Places{"/loads/0/contents_mass"});
  Json twice = small_deck();
  twice["deck"]["supports"][0]["footing"] = {{"contact", "tight"}};
  twice["deck"]["condition"] = {{{"defect", "loose packing"}, {"piece", "P"}}};
  const std::vector<Warning> told = deck::read_survey(twice.dump(), "survey.json").warnings;
  CHECK(pointers_of(told) == Places{"/deck/condition/0"});
  CHECK(told.at(0).text.find("/deck/supports/0/footing/contact") != std::string::npos);
  Json plies = small_deck();
  plies["deck"]["bearers"][0]["plies"] = 3;
  plies["deck"]["bearers"][0]["ply_breadth"] = "141 mm";
  plies["deck"]["bearers"][0]["depth"] = "195 mm";
  CHECK(pointers_of(deck::read_survey(plies.dump(), "survey.json").warnings) ==
        Places{"/deck/bearers/0/ply_breadth"});
  Json named = small_deck();
  named["standard"] = "north-america-us";
  named["deck"]["joists"][0]["timber"] = "Hem-Fir No.2";
  named["deck"]["joists"][0]["breadth"] = "2 in";
  named["deck"]["joists"][0]["depth"] = "10 in";
  CHECK(pointers_of(deck::read_survey(named.dump(), "survey.json").warnings) ==
        Places{"/deck/joists/0/breadth"});
  Json wide = small_deck();
  wide["deck"]["joists"][0]["spacing"] = "800 mm";
  wide["deck"]["joists"][0]["count"] = 4;
  CHECK(pointers_of(deck::read_survey(wide.dump(), "survey.json").warnings) ==
        Places{"/deck/joists/0/positions"});
}

TEST_CASE("A slip of unit is met with the unit that was meant", "[read][law]") {
  const auto remedy = [](const char* place, const char* value) {
    Json json = small_deck();
    json[Json::json_pointer(place)] = value;
    const std::string found = test::faults(json.dump());
    const std::size_t last = found.rfind("; ");
    return last == std::string::npos ? std::string() : found.substr(last + 2);
  };
  CHECK(remedy("/deck/height", "400 m") == "did you mean \"400 mm\"?\n");
  CHECK(remedy("/deck/joists/0/depth", "145 m") == "did you mean \"145 mm\"?\n");
  CHECK(remedy("/deck/outline/1/0", "-3000 m") == "check the number and its unit\n");
  CHECK(remedy("/loads/0/dry_mass", "180 t") == "did you mean \"180 kg\"?\n");
  CHECK(remedy("/loads/0/contents", "-600 l") == "did you mean \"600 l\"?\n");
  CHECK(remedy("/loads/0/water_depth", "-300 mm") == "did you mean \"300 mm\"?\n");
}

}  // namespace

}  // namespace read_test_file
}  // namespace underprop::record
