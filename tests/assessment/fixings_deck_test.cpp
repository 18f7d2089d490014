// Decks that show what hangers' nails, the heights of a ledger's fixings and the wood behind it do to the
// answer. The decks are invented.
#include "support/catch.hpp"
#include "support/decks.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace fixings_deck_test_file {

using namespace underprop;
using test::Json;

namespace {

/// A platform whose joists hang on a ledger of 47 x 195 mm, M12 through a timber band every 300 mm.
Json on_ledger() {
  Json json = test::hung_platform("hanger");
  Json& deck = json["deck"];
  deck["bearers"].erase(0);
  deck["supports"].erase(0);
  deck["ledgers"] = Json::array({{{"name", "L"},
                                  {"direction", "x"},
                                  {"position", "0 m"},
                                  {"from", "0 m"},
                                  {"to", "3.35 m"},
                                  {"timber", "C24"},
                                  {"incised", false},
                                  {"breadth", "47 mm"},
                                  {"depth", "195 mm"},
                                  {"fixed_to", "timber band"},
                                  {"fixing", "bolt"},
                                  {"fixing_diameter", "12 mm"},
                                  {"fixing_spacing", "300 mm"},
                                  {"fixing_heights", {"60 mm", "130 mm"}},
                                  {"penetration", "47 mm"},
                                  {"band_condition", "sound and flashed"},
                                  {"sound", true}}});
  return json;
}

const assessment::Finding* finding(const assessment::Assessment& a, const std::string& piece,
                                   const std::string& check) {
  for (const auto* list : {&a.shown.findings, &a.shown.ordinary_use}) {
    for (const assessment::Finding& f : *list) {
      if (f.piece.rfind(piece, 0) == 0 && f.check.check == check) return &f;
    }
  }
  return nullptr;
}

bool open(const assessment::Assessment& a, const std::string& field) {
  return std::any_of(a.unknowns.begin(), a.unknowns.end(),
                     [&](const auto& u) { return u.field == field; });
}

std::string expression(const assessment::Finding& f, const std::string& symbol) {
  for (const standards::Step& s : f.check.steps) {
    if (s.symbol == symbol) return s.expression;
  }
  return {};
}

}  // namespace

TEST_CASE("A ledger whose bolts stand in its upper edge holds nothing up",
          "[assessment][verdict]") {
  Json json = on_ledger();
  const assessment::Assessment good = test::assess(json);
  REQUIRE(finding(good, "L", "ledger fixing") != nullptr);
  CHECK(std::isfinite(finding(good, "L", "ledger fixing")->check.utilisation));
  CHECK(expression(*finding(good, "L", "ledger fixing"), "V_d").find("mean") != std::string::npos);
  json["deck"]["ledgers"][0]["fixing_heights"] = {"190 mm"};  // 5 mm below the top, 4 d = 48
  CHECK(test::assess(json).verdict == assessment::Verdict::does_not_carry);
}

TEST_CASE("Hangers of which all nails were counted are read as half to all of them in the ledger",
          "[assessment][verdict]") {
  Json json = on_ledger();
  Json& end = json["deck"]["joists"][0]["start"];
  end.erase("nails_in_carrier");
  end["nails"] = 10;
  json["deck"]["joists"][0]["end"] = end;
  const assessment::Assessment old = test::assess(json);
  CHECK(open(old, "/deck/joists/0/start/nails_in_carrier"));
  const auto* half = finding(old, "J", "end connection");
  REQUIRE(half != nullptr);
  CHECK(expression(*half, "nails").find("assumed") == 0);
  end.erase("nails");
  end["nails_in_carrier"] = 5;
  json["deck"]["joists"][0]["end"] = end;
  const assessment::Assessment five = test::assess(json);
  CHECK_FALSE(open(five, "/deck/joists/0/start/nails_in_carrier"));
  // Not shown as given: but never better than the half.
  CHECK(finding(five, "J", "end connection")->check.utilisation >=
        half->check.utilisation * (1.0 - 1e-9));
}

TEST_CASE(
    "All holes nailed is an answer, shown as assumed; no nails carry nothing whatever is stated",
    "[assessment][verdict]") {
  Json json = on_ledger();
  Json& end = json["deck"]["joists"][0]["start"];
  end.erase("nails_in_carrier");
  end["all_holes_nailed"] = true;
  json["deck"]["joists"][0]["end"] = end;
  const assessment::Assessment all = test::assess(json);
  CHECK_FALSE(open(all, "/deck/joists/0/start/nails_in_carrier"));
  const auto* f = finding(all, "J", "end connection");
  REQUIRE(f != nullptr);
  CHECK(expression(*f, "nails").find("assumed") == 0);
  end.erase("all_holes_nailed");
  end["nails_in_carrier"] = 0;
  end["stated_capacity"] = "8 kN";
  CHECK(test::assess(json).verdict == assessment::Verdict::does_not_carry);
}

TEST_CASE("The wood behind a ledger must have been seen, and soft wood is not judged",
          "[assessment][verdict]") {
  Json json = on_ledger();
  Json& ledger = json["deck"]["ledgers"][0];
  const auto missing = [](const assessment::Assessment& a) {
    return std::any_of(a.must_see.begin(), a.must_see.end(), [](const auto& item) {
      return item.sight == assessment::Sight::ledger_band && !item.recorded;
    });
  };
  CHECK_FALSE(missing(test::assess(json)));
  ledger.erase("band_condition");
  // Whoever measured its thickness saw it.
  CHECK_FALSE(missing(test::assess(json)));
  ledger.erase("penetration");
  const assessment::Assessment unseen = test::assess(json);
  CHECK(missing(unseen));
  CHECK(unseen.verdict != assessment::Verdict::carries);
  ledger["band_condition"] = "soft";
  CHECK(test::assess(json).verdict == assessment::Verdict::refer);
}

}  // namespace fixings_deck_test_file
