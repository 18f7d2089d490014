// What holds a raised deck and what pushes it: walls on both sides, posts out of plumb, bearers beside
// their posts, feet that are held down. Statics by hand and laws, both standards; values of data/scope.json
// stand beside each figure.
#include "../../src/assessment/stability.hpp"

#include "../support/catch.hpp"
#include "../support/decks.hpp"

#include "underprop/base/input_error.hpp"
#include "underprop/report/sentences.hpp"

#include <cmath>

namespace sway_held_test_file {

using namespace underprop;
using assessment::Finding;
using test::Json;

namespace {

/// The raised deck of the tests, judged by either standard: 15 posts 5.5 x 5.5 in, 3 ft tall.
Json deck(bool american) {
  Json json = test::raised(4);
  if (american) return json;
  std::string text = json.dump();
  for (const char* grade : {"Hem-Fir No.2", "Hem-Fir No.1"}) {
    for (std::size_t at = text.find(grade); at != std::string::npos; at = text.find(grade))
      text.replace(at, 12, "C24");
  }
  json = Json::parse(text);
  json["standard"] = "eurocode-uk";
  json["site"].erase("seismic_category");
  return json;
}

Json brace(const char* direction, const char* at, int count) {
  return {
      {"direction", direction}, {"kind", "diagonal"}, {"at", at},   {"count", count},
      {"breadth", "1.5 in"},    {"depth", "5.5 in"},  {"bolts", 2}, {"bolt_diameter", "0.5 in"}};
}

Json walls(const char* direction, const char* from, const char* to) {
  return {{"direction", direction},   {"kind", "wall contact"}, {"at", "the yard walls"},
          {"walls_on", "both sides"}, {"from", from},           {"to", to}};
}

/// Under 10 kN on each support, 60 kN in all, of which people are `people` kN.
assessment::Stability judged(const Json& json, double people = 0.0) {
  const record::Survey record = test::read(json);
  const auto standard = assessment::standard_for(record.standard);
  const deck::Deck resolved = deck::resolve(record, record::Reading::cautious).deck;
  const assessment::Timbers timbers = assessment::timbers(resolved, *standard);
  assessment::StabilityLoads loads;
  loads.vertical = kilonewtons(60);
  loads.people = kilonewtons(people);
  for (const deck::Support& s : resolved.supports)
    loads.reactions.push_back({s.id, s.at, kilonewtons(10), kilonewtons(10)});
  return stability(resolved, timbers, *standard, loads);
}

const Finding& sway(const assessment::Stability& s, const char* axis) {
  for (const Finding& f : s.findings) {
    if (f.check.check == std::string("sway along ") + axis) return f;
  }
  throw std::logic_error("no finding of sway");
}

double u(const Json& json, const char* axis, double people = 0.0) {
  return sway(judged(json, people), axis).check.utilisation;
}

/// A step in kN or mm whatever the standard's units; 0 if there is none.
double step(const Finding& f, const std::string& symbol) {
  for (const standards::Step& s : f.check.steps) {
    if (s.symbol == symbol) return s.unit == "lb" ? in_kilonewtons(pounds_force(s.value)) : s.value;
  }
  return 0.0;
}

bool says(const Finding& f, const std::string& words) {
  for (const standards::Step& s : f.check.steps) {
    if (s.expression.find(words) != std::string::npos) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("A wall on one side holds nothing, walls on both sides hold the deck",
          "[assessment][stability][law][!mayfail]") {
  for (const bool american : {false, true}) {
    Json json = deck(american);
    json["deck"]["braces"] = Json::array();
    for (const char* axis : {"x", "y"})
      json["deck"]["braces"].push_back(
          {{"direction", axis}, {"kind", "wall contact"}, {"at", "the garden wall"}});
    for (const char* axis : {"x", "y"}) {
      const assessment::Stability one = judged(json);
      CHECK(std::isinf(sway(one, axis).check.utilisation));
      CHECK(says(sway(one, axis), "one side only"));
      CHECK(std::ranges::any_of(one.assumptions, [](const std::string& words) {
        return words.find("one side only") != std::string::npos;
      }));
    }
    json["deck"]["braces"] =
        Json::array({walls("x", "0 ft", "16 ft"), walls("y", "0 ft", "16 ft")});
    for (const char* axis : {"x", "y"}) CHECK(u(json, axis) < 0.1);
    // One pair of walls leaves the other direction free, whatever it does against turning.
    json["deck"]["braces"] = Json::array({walls("x", "0 ft", "16 ft")});
    CHECK(std::isinf(u(json, "y")));
    // Walls that touch the deck away from the push let it swing round them.
    json["deck"]["braces"] = Json::array({walls("x", "0 ft", "2 ft"), walls("y", "0 ft", "16 ft")});
    CHECK(std::isinf(u(json, "x")));
    CHECK(says(sway(judged(json), "x"), "beside the push"));
  }
}

TEST_CASE("Walls hold against turning only along their contact",
          "[assessment][stability][law][!mayfail]") {
  // One line of braces along x: what keeps the deck from turning are the walls across it.
  for (const bool american : {false, true}) {
    Json json = deck(american);
    double before = 0.0;
    const std::pair<const char*, const char*> contacts[] = {
        {"0 ft", "16 ft"}, {"4 ft", "12 ft"}, {"7 ft", "9 ft"}, {"95.8 in", "96.2 in"}};
    for (const auto& [from, to] : contacts) {
      json["deck"]["braces"] = Json::array({brace("x", "PA", 4), walls("y", from, to)});
      const double turn = step(sway(judged(json), "x"), "turn");
      CHECK(turn >= before);
      before = turn;
    }
    CHECK(before > 1.0);  // mrad: so short a contact hardly holds
  }
}

TEST_CASE("Posts out of plumb push the deck the way they lean",
          "[assessment][stability][closed-form][!mayfail]") {
  // 15 posts of 10 kN leaning 1.8 in over 36 in, 1 in 20: 150/20 = 7.5 kN. Of that 1/200 is in the share
  // of the vertical load (EN 1993-1-1 5.3.2(3), EN 1995-1-1 5.4.4(2)), not in the push of people.
  for (const bool american : {false, true}) {
    Json json = deck(american);
    for (const char* axis : {"x", "y"}) CHECK(step(sway(judged(json), axis), "H_N") == 0.0);
    const double upright = u(json, "x");
    for (Json& row : json["deck"]["supports"]) row["post"]["lean"] = "1.8 in";
    for (const char* axis : {"x", "y"}) {
      CHECK(step(sway(judged(json), axis), "H_N") == Approx(7.5 - 150.0 / 200).epsilon(1e-9));
      CHECK(step(sway(judged(json, 200.0), axis), "H_N") == Approx(7.5).epsilon(1e-9));
    }
    CHECK(u(json, "x") > 1.2 * upright);
    // A lean of 1 in 200 is allowed for already.
    for (Json& row : json["deck"]["supports"]) row["post"]["lean"] = "0.18 in";
    CHECK(step(sway(judged(json), "x"), "H_N") == Approx(0.0).margin(1e-9));
  }
}

TEST_CASE("Bearers bolted to the sides of hinged posts push the deck across themselves",
          "[assessment][stability][closed-form][!mayfail]") {
  // 10 kN each at e = (5.5 + 3 x 1.5)/2 = 5 in from the post's axis, 36 in above the hinge: 15 x 10 x 5/36.
  for (const bool american : {false, true}) {
    Json json = deck(american);
    const double on_top = u(json, "y");
    for (Json& row : json["deck"]["supports"]) {
      row["post"]["bearer"] = "beside";
      row["post"]["bolts"] = 2;
      row["post"]["bolt_diameter"] = "0.5 in";
    }
    CHECK(step(sway(judged(json), "y"), "H_N") == Approx(150.0 * 5 / 36).epsilon(1e-9));
    CHECK(step(sway(judged(json), "x"), "H_N") == 0.0);
    CHECK(u(json, "y") > 1.5 * on_top);
    // A fixed foot takes the moment.
    for (Json& row : json["deck"]["supports"]) row["post"]["base"] = "fixed";
    CHECK(step(sway(judged(json), "y"), "H_N") == 0.0);
  }
}

TEST_CASE("Low supports topple by their lean and by what hangs beside them",
          "[assessment][stability][closed-form][!mayfail]") {
  for (const bool american : {false, true}) {
    Json json = deck(american);
    json["deck"].erase("braces");
    const auto toppling = [&] {
      const assessment::Stability s = judged(json);
      REQUIRE(s.findings.size() == 1);
      REQUIRE(s.findings[0].check.check == "toppling");
      return s.findings[0];
    };
    for (Json& row : json["deck"]["supports"]) row["post"]["height"] = "18 in";
    const double upright = toppling().check.demand;
    CHECK(toppling().check.utilisation < 1.0);
    for (Json& row : json["deck"]["supports"]) row["post"]["lean"] = "1 in";
    CHECK(toppling().check.demand == Approx(upright + 25.4 - 457.2 / 200));
    for (Json& row : json["deck"]["supports"]) {
      row["post"]["lean"] = "0 in";
      row["post"]["bearer"] = "beside";
      row["post"]["bolts"] = 2;
      row["post"]["bolt_diameter"] = "0.5 in";
    }
    CHECK(toppling().check.demand == Approx(upright + 5 * 25.4));
    CHECK(toppling().check.utilisation > 1.0);
    // Braces or walls hold such supports like tall ones.
    json["deck"]["braces"] =
        Json::array({walls("x", "0 ft", "16 ft"), walls("y", "0 ft", "16 ft")});
    CHECK(u(json, "x") < 1.0);
    CHECK(u(json, "y") < 1.0);
  }
}

TEST_CASE("A foot that is fixed down is held by its footing, no more than is stated",
          "[assessment][stability][closed-form][!mayfail]") {
  // 24 x 24 x 12 in of 22.6 kN/m3: 2.560 kN, of which 0.9 (EN 1990 Table A1.2(A)) or 0.6 (ASCE 7 2.4)
  // counts.
  for (const bool american : {false, true}) {
    Json json = deck(american);
    json["deck"]["braces"] =
        Json::array({brace("x", "PA", 4), brace("x", "PC", 4), brace("y", "PA", 2)});
    for (Json& b : json["deck"]["braces"]) b["bolts"] = 8;
    for (Json& row : json["deck"]["supports"]) row["post"]["height"] = "4.5 ft";
    const auto lifted = [&] { return sway(judged(json, 20.0), "y"); };
    const Finding loose = lifted();
    REQUIRE(loose.where.find("uplift") != std::string::npos);
    CHECK(step(loose, "R_f") == 0.0);
    const auto hold = [&](const char* how, const char* capacity) {
      for (Json& row : json["deck"]["supports"]) {
        row["post"]["held_down"] = how;
        if (capacity != nullptr) row["post"]["hold_down_capacity"] = capacity;
      }
    };
    hold("bolted", nullptr);
    CHECK(lifted().check.utilisation == loose.check.utilisation);  // nothing stated, nothing held
    hold("bolted", "1 N");
    CHECK(step(lifted(), "R_f") > 0.0);
    CHECK(step(lifted(), "R_f") < 0.001);
    CHECK(lifted().check.utilisation <= loose.check.utilisation);
    hold("cast in", "40 kN");
    const Finding held = lifted();
    CHECK(held.check.utilisation < loose.check.utilisation);
    if (held.where.find("uplift") != std::string::npos) {
      CHECK(step(held, "R_f") ==
            Approx((american ? 0.6 : 0.9) * 22.6 * std::pow(0.6096, 2) * 0.3048).epsilon(1e-9));
    }
    // How a pile resists being pulled nobody has recorded.
    for (Json& row : json["deck"]["supports"]) {
      row["footing"]["kind"] = "screw pile";
      row["footing"]["stated_capacity"] = "50 kN";
    }
    CHECK(lifted().check.utilisation == Approx(loose.check.utilisation));
  }
}

TEST_CASE("A brace written either way round is the same brace",
          "[assessment][stability][law][!mayfail]") {
  for (const bool american : {false, true}) {
    const Json json = deck(american);
    Json turned = json;
    for (Json& b : turned["deck"]["braces"]) std::swap(b["breadth"], b["depth"]);
    for (const char* axis : {"x", "y"}) {
      CHECK(std::isfinite(u(json, axis)));
      CHECK(u(turned, axis) == u(json, axis));
    }
    // Bolts that count for nothing are named where nothing holds.
    for (Json& b : turned["deck"]["braces"]) b["bolts"] = 0;
    CHECK(std::isinf(u(turned, "x")));
    CHECK(says(sway(judged(turned), "x"), "no bolts that count"));
    const std::string sentence = report::verdict_sentence(test::assess(turned));
    INFO(sentence);
    CHECK(sentence.find("no bolts that count") != std::string::npos);
  }
}

TEST_CASE("Contact that contradicts the rest of the record", "[assessment][stability][read]") {
  Json json = deck(false);
  const auto faults = [&] {
    try {
      (void)deck::read_survey(json.dump(), "survey.json");
      return std::string();
    } catch (const InputErrors& error) {
      return std::string(error.what());
    }
  };
  json["deck"]["braces"] = Json::array({walls("x", "0 ft", "16 ft")});
  CHECK(faults().empty());
  json["deck"]["braces"][0].erase("to");
  CHECK(faults().find("/deck/braces/0/to: the key \"to\" is missing") != std::string::npos);
  json["deck"]["braces"] = Json::array({walls("x", "4 ft", "2 ft")});
  CHECK(faults().find("not beyond \"from\"") != std::string::npos);
  json["deck"]["braces"] = Json::array({walls("x", "0 ft", "20 ft")});
  CHECK(faults().find("beyond the deck") != std::string::npos);
  json["deck"]["braces"] = Json::array({brace("x", "PA", 2)});
  json["deck"]["braces"][0]["walls_on"] = "both sides";
  CHECK(faults().find("of the kind \"diagonal\"") != std::string::npos);
  json["deck"]["braces"] = Json::array();
  json["deck"]["supports"][0]["post"]["hold_down_capacity"] = "5 kN";
  CHECK(faults().find("nothing holds down") != std::string::npos);
  json["deck"]["supports"][0]["post"]["held_down"] = "bolted";
  CHECK(faults().empty());
  // The house's wall where none is near.
  json["deck"]["braces"] = Json::array({walls("x", "0 ft", "16 ft")});
  json["deck"]["braces"][0]["at"] = "the House wall";
  const auto told = deck::read_survey(json.dump(), "survey.json").warnings;
  CHECK(std::ranges::any_of(told, [](const record::Warning& warning) {
    return warning.pointer == "/deck/braces/0/at" &&
           warning.text.find("/site/house_walls") != std::string::npos;
  }));
}

}  // namespace sway_held_test_file
