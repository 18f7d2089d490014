// Which verdict the findings and the open facts lead to. Decks are invented; common practice, no source.
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/report/sentences.hpp"

#include <algorithm>
#include <limits>

namespace verdict_test_file {

using namespace underprop;
using assessment::Assessment;
using assessment::Finding;
using assessment::Kind;
using assessment::Verdict;
using test::Json;
using test::utilisation;

namespace {

/// Joists of that depth on three rows of pads, 1.5 m apart.
Json shallow(const std::string& depth) {
  Json json = test::platform(3);
  json["deck"]["joists"][0]["depth"] = depth;
  for (Json& rim : json["deck"]["rims"]) rim["depth"] = depth;
  return json;
}

}  // namespace

TEST_CASE("Joists that nobody probed cannot be told to carry", "[assessment][verdict][!mayfail]") {
  Json json = test::platform(5);
  REQUIRE(test::assess(json).verdict == Verdict::carries);
  json["deck"]["probed"] = Json{{"pieces", Json::array()}};
  const Assessment a = test::assess(json);
  INFO(report::verdict_sentence(a));
  CHECK(a.verdict == Verdict::cannot_tell);
  REQUIRE(!a.decides.empty());
  CHECK(a.decides.front().fields == std::vector<std::string>{"/deck/probed/J"});
  CHECK(report::verdict_sentence(a).find("whether joists J are sound") != std::string::npos);
  const auto item = std::find_if(a.must_see.begin(), a.must_see.end(),
                                 [](const auto& m) { return m.field == "/deck/probed/J"; });
  REQUIRE(item != a.must_see.end());
  CHECK_FALSE(item->recorded);
}

TEST_CASE("A mass or a drain that nobody looked for keeps a deck from carrying",
          "[assessment][verdict]") {
  Json json = test::platform(5);
  json["loads"][0].erase("dry_mass");
  CHECK(test::assess(json).verdict != Verdict::carries);
  json = test::platform(5);
  json["site"].erase("drains");
  const Assessment a = test::assess(json);
  INFO(report::verdict_sentence(a));
  CHECK(a.verdict == Verdict::cannot_tell);
  REQUIRE(!a.decides.empty());
  CHECK(a.decides.front().fields == std::vector<std::string>{"/site/drains"});
}

TEST_CASE("A timber class that decides is named, and recording it resolves the verdict as promised",
          "[assessment][verdict][!mayfail]") {
  Json json = shallow("122 mm");
  json["deck"]["joists"][0].erase("timber");
  const Assessment open = test::assess(json);
  INFO(report::verdict_sentence(open));
  CHECK(open.verdict == Verdict::cannot_tell);
  REQUIRE(open.decides.size() == 1);
  CHECK(open.decides.front().fields == std::vector<std::string>{"/deck/joists/0/timber"});
  REQUIRE(open.decides.front().passes_if.size() == 1);
  const std::string needed = open.decides.front().passes_if.front();
  CHECK(report::verdict_sentence(open).find(needed + " or better") != std::string::npos);
  json["deck"]["joists"][0]["timber"] = needed;
  CHECK(test::assess(json).verdict == Verdict::carries);
  // The class below it does not: what was called needed is needed.
  CHECK(needed == "C16");
  json["deck"]["joists"][0]["timber"] = "C14";
  CHECK(test::assess(json).verdict == Verdict::does_not_carry);
}

TEST_CASE("An unknown that changes nothing does not decide", "[assessment][verdict][!mayfail]") {
  Json json = test::platform(5);
  json["deck"]["joists"][0].erase("timber");
  const Assessment a = test::assess(json);
  INFO(report::verdict_sentence(a));
  CHECK(a.verdict == Verdict::carries);
  CHECK(a.decides.empty());
  CHECK(std::any_of(a.unknowns.begin(), a.unknowns.end(),
                    [](const auto& u) { return u.field == "/deck/joists/0/timber"; }));
}

TEST_CASE("Surroundings outside the scope refer, with a reason", "[assessment][verdict]") {
  const auto refers = [](const Json& json) {
    const Assessment a = test::assess(json);
    INFO(report::verdict_sentence(a));
    CHECK(a.verdict == Verdict::refer);
    CHECK_FALSE(a.refer_reasons.empty());
  };
  Json json = test::platform(5);
  json["site"]["retaining_walls"] = Json::array({{{"name", "wall"},
                                                  {"from", {"-1 m", "-0.5 m"}},
                                                  {"to", {"5 m", "-0.5 m"}},
                                                  {"height", "1.0 m"}}});
  refers(json);
  // The same wall far away is no reason.
  json["site"]["retaining_walls"][0]["from"][1] = "-20 m";
  json["site"]["retaining_walls"][0]["to"][1] = "-20 m";
  CHECK(test::assess(json).verdict == Verdict::carries);
  json = test::platform(5);
  json["site"]["use"] = "rented";
  refers(json);
  refers(test::platform(5, 1200, 3000));  // more than 4,000 kg
}

TEST_CASE("Nails along the grain alone hold no joist under the Eurocode", "[assessment][verdict]") {
  // EN 1995-1-1, 8.3.1.2(4) and 8.3.2(3): nails in end grain carry no main load: the joist counts
  // as held by nothing.
  const Assessment hanger = test::assess(test::hung_platform("hanger"));
  INFO(report::verdict_sentence(hanger));
  CHECK_FALSE(hanger.shown.mechanism.has_value());
  REQUIRE(hanger.utilisation.has_value());
  const Assessment nailed = test::assess(test::hung_platform("end grain"));
  INFO(report::verdict_sentence(nailed));
  CHECK(nailed.verdict == Verdict::does_not_carry);
  REQUIRE(nailed.shown.mechanism.has_value());
  CHECK(nailed.shown.mechanism->find("J1") != std::string::npos);
  CHECK_FALSE(nailed.utilisation.has_value());
  CHECK(nailed.fails == std::vector<Kind>{Kind::safety});
}

TEST_CASE("A raised deck that nothing keeps from swaying does not carry",
          "[assessment][verdict][!mayfail]") {
  Json json = test::raised(4);
  json["deck"].erase("braces");
  const Assessment a = test::assess(json);
  CHECK(a.verdict == Verdict::does_not_carry);
  CHECK(std::isinf(utilisation(a, "deck", "sway along x")));
}

TEST_CASE("A support whose contact nobody saw is also taken as absent",
          "[assessment][verdict][!mayfail]") {
  Json json = test::platform(5);
  json["deck"]["supports"][0]["footing"].erase("contact");
  const Assessment unseen = test::assess(json);
  const Assessment seen = test::assess(test::platform(5));
  CHECK(unseen.verdict != Verdict::carries);
  const auto absent = [](const Finding& f) { return f.bound.find("absent") != std::string::npos; };
  CHECK(std::any_of(unseen.shown.findings.begin(), unseen.shown.findings.end(), absent));
  CHECK(std::none_of(seen.shown.findings.begin(), seen.shown.findings.end(), absent));
  // With one pad gone its neighbours along the joist take its share. (Where a pad stiffer than its
  // neighbours governs already, as under the middle, absence adds nothing: look for the largest rise.)
  double rise = 0.0;
  for (const Finding& f : unseen.shown.findings) {
    if (f.check.check != "ground pressure") continue;
    rise = std::max(rise, f.check.utilisation / utilisation(seen, f.piece, "ground pressure"));
  }
  CHECK(rise > 1.1);
}

TEST_CASE("Strong joists that move too far fail in service alone", "[assessment][verdict]") {
  // C30 over 3.0 m: 30/14 of the bending strength of C14 that fails by 1.85, on strips of ground large
  // enough, but only 12/7 of the stiffness of joists that move 3.4 times too far.
  Json json = test::platform(2);
  json["deck"]["joists"][0]["timber"] = "C30";
  Json& footing = json["deck"]["supports"][0]["footing"];
  footing["length"] = "900 mm";
  footing["thickness"] = "450 mm";
  footing["depth"] = "450 mm";
  json["deck"]["supports"][0]["bearing_length"] = "140 mm";
  const Assessment a = test::assess(json);
  INFO(report::verdict_sentence(a));
  CHECK(a.verdict == Verdict::does_not_carry);
  CHECK(a.fails == std::vector<Kind>{Kind::service});
  REQUIRE(a.utilisation.has_value());
  CHECK(*a.utilisation <= 1.0);
  REQUIRE(a.utilisation_service.has_value());
  CHECK(*a.utilisation_service > 1.0);
}

TEST_CASE("An end that counts for nothing is named, with what was to hold it and why",
          "[assessment][verdict]") {
  const Assessment nailed = test::assess(test::hung_platform("end grain"));
  REQUIRE(nailed.shown.mechanism.has_value());
  INFO(*nailed.shown.mechanism);
  CHECK(nailed.shown.mechanism->find("what holds its start counts for nothing") !=
        std::string::npos);
  CHECK(nailed.shown.mechanism->find("end grain") != std::string::npos);
}

TEST_CASE("What a fixing carries in a wall is a fact to be found out",
          "[assessment][verdict][!mayfail]") {
  // EN 1995-1-1 has no value for a wall of masonry: only a declared one counts.
  Json json = test::hung_platform("hanger");
  // The bearer at one end becomes a ledger on a brick wall.
  json["deck"]["bearers"].erase(0);
  json["deck"]["supports"].erase(0);
  json["deck"]["ledgers"] = Json::array({{{"name", "L"},
                                          {"direction", "x"},
                                          {"position", "0 m"},
                                          {"from", "0 m"},
                                          {"to", "3.35 m"},
                                          {"timber", "C24"},
                                          {"breadth", "47 mm"},
                                          {"depth", "150 mm"},
                                          {"fixed_to", "solid masonry"},
                                          {"fixing", "anchor"},
                                          {"fixing_diameter", "12 mm"},
                                          {"fixing_spacing", "300 mm"},
                                          {"sound", true}}});
  Json& ledger = json["deck"]["ledgers"][0];
  const Assessment a = test::assess(json);
  INFO(report::verdict_sentence(a));
  CHECK(a.verdict != Verdict::carries);
  REQUIRE(a.shown.mechanism.has_value());
  INFO(*a.shown.mechanism);
  CHECK(a.shown.mechanism->find("whose fixings count for nothing") != std::string::npos);
  CHECK(a.shown.mechanism->find("stated") != std::string::npos);
  const auto open = std::find_if(a.unknowns.begin(), a.unknowns.end(), [](const auto& u) {
    return u.field == "/deck/ledgers/0/stated_capacity";
  });
  REQUIRE(open != a.unknowns.end());
  CHECK(open->what == "what one fixing of the ledger carries in its wall");
  CHECK(open->cautious == "0 kN");
  CHECK(open->swing > 0.0);
  // A figure resolves it, and a better one is never worse.
  double before = std::numeric_limits<double>::infinity();
  for (const char* stated : {"1 kN", "3 kN", "12 kN"}) {
    ledger["stated_capacity"] = stated;
    const Assessment told = test::assess(json);
    INFO(stated << ": " << report::verdict_sentence(told));
    CHECK_FALSE(told.shown.mechanism.has_value());
    CHECK(told.shown.safety <= before + 1e-9);
    before = told.shown.safety;
  }
}

TEST_CASE("People are told of facts in words, the file of places", "[assessment][verdict]") {
  Json json = test::platform(3);
  json["deck"]["joists"][0].erase("timber");
  json["deck"]["probed"] = Json{{"pieces", Json::array()}};
  const Assessment a = test::assess(json);
  INFO(report::verdict_sentence(a));
  CHECK(report::verdict_sentence(a).find("/deck") == std::string::npos);
  for (const auto& unknown : a.unknowns) {
    CHECK_FALSE(unknown.what.empty());
    CHECK(unknown.what.find('/') == std::string::npos);
    CHECK(unknown.field.starts_with("/"));
  }
  for (const auto& set : a.decides) {
    CHECK(set.passes_if.size() == set.fields.size());
    for (const std::string& fact : report::facts_of(a, set))
      CHECK(fact.find("/deck") == std::string::npos);
  }
}

TEST_CASE("Where nobody has looked yet, the first things to look at are named and no verdict",
          "[assessment][verdict][!mayfail]") {
  Json json = test::platform(3);
  json["deck"]["probed"] = Json{{"pieces", Json::array()}};
  json["deck"]["joists"][0].erase("timber");
  json["deck"]["joists"][0].erase("start");
  json["deck"]["joists"][0].erase("end");
  for (Json& group : json["deck"]["supports"]) group["footing"].erase("contact");
  json["loads"][0].erase("dry_mass");
  const Assessment a = test::assess(json);
  INFO(report::verdict_sentence(a));
  CHECK(a.verdict == Verdict::cannot_tell);
  CHECK(report::verdict_sentence(a).find("Look at these first") != std::string::npos);
  CHECK(report::verdict_sentence(a).find("at both ends") != std::string::npos);
  CHECK(report::verdict_sentence(a).find("screwdriver") != std::string::npos);
}

TEST_CASE("A seismic category that nobody asked for is an open fact of a raised deck",
          "[assessment][verdict][!mayfail]") {
  Json json = test::raised(4);
  const Verdict recorded = test::assess(json).verdict;
  REQUIRE(recorded != Verdict::refer);
  json["site"].erase("seismic_category");
  const Assessment open = test::assess(json);
  INFO(report::verdict_sentence(open));
  CHECK(open.verdict == (recorded == Verdict::carries ? Verdict::cannot_tell : recorded));
  CHECK(std::any_of(open.unknowns.begin(), open.unknowns.end(),
                    [](const auto& u) { return u.field == "/site/seismic_category"; }));
  if (open.verdict == Verdict::cannot_tell) {
    REQUIRE(!open.decides.empty());
    CHECK(open.decides.front().fields == std::vector<std::string>{"/site/seismic_category"});
  }
  json["site"]["seismic_category"] = "D0";
  CHECK(test::assess(json).verdict == Verdict::refer);
}

TEST_CASE("A recorded load of people below the standard's does not make a deck safer",
          "[assessment][verdict]") {
  Json json = test::platform(5);
  const Assessment standard = test::assess(json);
  json["site"]["imposed_load"] = "0.05 kN/m2";
  json["site"]["concentrated_load"] = "0.1 kN";
  const Assessment less = test::assess(json);
  CHECK(less.shown.safety == standard.shown.safety);
  CHECK(less.assumptions.size() == standard.assumptions.size() + 2);
  json["site"]["imposed_load"] = "4 kN/m2";
  CHECK(utilisation(test::assess(json), "J1", "bending") > utilisation(standard, "J1", "bending"));
}

TEST_CASE("A tall light load on a raised deck refers: its wind is not modelled",
          "[assessment][verdict]") {
  Json json = test::raised(4);
  json["loads"][0]["kind"] = "sauna";
  json["loads"][0]["height"] = "43 in";
  json["loads"][0]["dry_mass"] = "1100 lb";
  json["loads"][0].erase("contents");
  json["loads"][0].erase("water_depth");
  const Assessment a = test::assess(json);
  INFO(report::verdict_sentence(a));
  CHECK(a.verdict == Verdict::refer);
  json["loads"][0]["height"] = "18 in";
  CHECK(test::assess(json).verdict != Verdict::refer);
}

}  // namespace verdict_test_file
