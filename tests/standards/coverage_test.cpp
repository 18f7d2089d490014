// Which checks each kind of piece gets: one deck that has every kind, judged under both standards.
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "support/formula.hpp"
#include "underprop/assessment/assessment.hpp"

#include <map>
#include <memory>
#include <set>
#include <string>

namespace coverage_test_file {

using namespace underprop;

namespace {

using test::Json;
using Checks = std::set<std::string>;

struct Words {
  const char* standard;
  const char* joist;
  const char* post;
};
const Words words[] = {{"eurocode-uk", "C24", "C24"},
                       {"north-america-us", "Hem-Fir No.2", "Hem-Fir No.1"}};

/// Invented: a ledger with joists in hangers (J) and on a ledger strip (K), a bearer bolted to the
/// side of its posts (A), one on top of posts with the joists held down (B), a wall (W), a sister, a
/// notch, boards, a rim.
Json deck_of_everything(const Words& w) {
  Json site = test::recorded_site();
  if (std::string(w.standard) == "north-america-us") site["seismic_category"] = "B";
  site["frost_depth"] = "900 mm";
  const auto joists = [&](const char* name, const char* first, const Json& start) {
    return Json{{"name", name},      {"direction", "y"},
                {"first", first},    {"spacing", "400 mm"},
                {"count", 6},        {"timber", w.joist},
                {"incised", false},  {"breadth", "45 mm"},
                {"depth", "195 mm"}, {"over_bearers", "continuous"},
                {"start", start},    {"end", {{"held", "free"}}}};
  };
  const auto bearer = [&](const char* name, const char* position) {
    return Json{{"name", name},
                {"direction", "x"},
                {"position", position},
                {"from", "0 m"},
                {"to", "4.8 m"},
                {"timber", w.joist},
                {"incised", false},
                {"plies", 2},
                {"ply_breadth", "45 mm"},
                {"depth", "235 mm"},
                {"plies_fixed_together", true},
                {"joists", "on top"},
                {"joists_held_down", "screwed"}};
  };
  const auto support = [&](const char* name, const char* under, const char* side) {
    Json post{{"timber", w.post},   {"incised", false}, {"breadth", "140 mm"}, {"depth", "140 mm"},
              {"height", "700 mm"}, {"bearer", side},   {"base", "pinned"},    {"lean", "0 mm"}};
    post["bolts"] = 2;
    post["bolt_diameter"] = "12 mm";
    return Json{{"name", name},
                {"under", under},
                {"positions", {"300 mm", "2400 mm", "4500 mm"}},
                {"packers", 1},
                {"post", post},
                {"footing",
                 {{"kind", "cast pad"},
                  {"width", "500 mm"},
                  {"length", "500 mm"},
                  {"thickness", "250 mm"},
                  {"depth", "600 mm"},
                  {"offset", "0 mm"},
                  {"contact", "tight"},
                  {"below_topsoil", true}}}};
  };
  Json survey;
  survey["format"] = "underprop-survey/1";
  survey["name"] = "every kind of piece";
  survey["recorded_on"] = "2026-05-01";
  survey["standard"] = w.standard;
  survey["site"] = site;
  survey["deck"] = {
      {"outline",
       Json::array({{"0 m", "0 m"}, {"4.8 m", "0 m"}, {"4.8 m", "4.8 m"}, {"0 m", "4.8 m"}})},
      {"height", "1.1 m"},
      {"boards",
       {{"material", "softwood"},
        {"timber", w.joist},
        {"width", "140 mm"},
        {"thickness", "35 mm"},
        {"gap", "5 mm"},
        {"direction", "x"},
        {"joints", "staggered"}}},
      {"joists",
       {joists("J", "300 mm",
               {{"held", "hanger"}, {"nails_in_carrier", 8}, {"sound", true}, {"seat", "45 mm"}}),
        joists("K", "2700 mm",
               {{"held", "ledger strip"}, {"nails", 4}, {"sound", true}, {"seat", "38 mm"}})}},
      {"bearers", {bearer("A", "1.8 m"), bearer("B", "4.2 m")}},
      {"rims", Json::array({{{"name", "R"},
                             {"at_start", false},
                             {"joists", "J"},
                             {"breadth", "45 mm"},
                             {"depth", "195 mm"},
                             {"fixed", "cleats"}}})},
      {"ledgers", Json::array({{{"name", "L"},
                                {"direction", "x"},
                                {"position", "0 m"},
                                {"from", "0 m"},
                                {"to", "4.8 m"},
                                {"timber", w.joist},
                                {"incised", false},
                                {"breadth", "45 mm"},
                                {"depth", "195 mm"},
                                {"fixed_to", "timber band"},
                                {"fixing", "bolt"},
                                {"fixing_diameter", "12 mm"},
                                {"fixing_spacing", "400 mm"},
                                {"sound", true}}})},
      {"supports", {support("P", "A", "beside"), support("Q", "B", "on top")}},
      {"walls", Json::array({{{"name", "W"},
                              {"from", {"0 m", "3.0 m"}},
                              {"to", {"4.8 m", "3.0 m"}},
                              {"width", "100 mm"},
                              {"strip_width", "300 mm"},
                              {"depth", "400 mm"},
                              {"contact", "tight"}}})},
      {"sisters", Json::array({{{"joist", "J3"},
                                {"timber", w.joist},
                                {"incised", false},
                                {"breadth", "45 mm"},
                                {"depth", "195 mm"}}})},
      {"probed", "all"}};
  survey["loads"] = Json::array({{{"name", "tub"},
                                  {"kind", "tub"},
                                  {"shape", "rectangle"},
                                  {"width", "2.0 m"},
                                  {"length", "2.0 m"},
                                  {"height", "900 mm"},
                                  {"at", {"2.4 m", "1.9 m"}},
                                  {"dry_mass", "300 kg"},
                                  {"contents", "1200 l"},
                                  {"people", 4},
                                  {"base", "full"}}});
  return survey;
}

std::string kind_of(const std::string& piece) {
  if (piece.ends_with("sister")) return "sister";
  if (piece == "boards" || piece == "deck" || piece == "tub") return piece;
  switch (piece.front()) {
    case 'J':
      return "joist in hangers";
    case 'K':
      return "joist on a ledger strip";
    case 'A':
      return "bearer beside posts";
    case 'B':
      return "bearer on posts";
    case 'L':
      return "ledger";
    case 'P':
    case 'Q':
      return "support";
    case 'W':
      return "wall";
    default:
      return piece;
  }
}

}  // namespace

TEST_CASE("every kind of piece gets its checks under both standards", "[standards][law]") {
  // What passing loads do at once has a limit only where a standard sets one (IRC Table R301.7).
  const auto with_service = [&](Checks checks) {
    checks.insert("deflection in the long run");
    return checks;
  };
  // The least that each must have; what depends on the standard's numbers (a gap that opens, a
  // uplift that occurs) may come on top.
  const std::map<std::string, Checks> least{
      {"joist in hangers", with_service({"bending", "shear", "bearing across the grain",
                                         "end connection", "held upright"})},
      {"joist on a ledger strip",
       with_service({"bending", "shear", "bearing across the grain", "end connection"})},
      {"sister", {"bending", "shear"}},
      {"bearer beside posts", with_service({"bending", "shear", "bearing across the grain",
                                            "bolts to the side of a post", "held upright"})},
      {"bearer on posts",
       with_service({"bending", "shear", "bearing across the grain", "held upright"})},
      {"ledger", {"bending", "shear", "ledger fixing", "ledger fixing, pulled"}},
      {"support", {"post, buckling", "ground pressure", "frost depth"}},
      {"wall", {"ground pressure"}},
      {"boards", {"bending", "shear", "one person on one board"}},
      {"deck", {"sway along x", "sway along y"}},
      {"tub", {"level in the long run"}}};
  std::map<std::string, std::map<std::string, Checks>> seen;
  for (const Words& w : words) {
    const deck::ReadResult read = deck::read_survey(deck_of_everything(w).dump(), "everything");
    const deck::Deck deck = deck::resolve(read.survey, record::Reading::cautious).deck;
    const auto standard = assessment::standard_for(read.survey.standard);
    const assessment::DeckAssessment result = assessment::assess_deck(deck, *standard);
    REQUIRE_FALSE(result.mechanism);
    for (const auto* list : {&result.findings, &result.ordinary_use}) {
      for (const assessment::Finding& finding : *list) {
        seen[w.standard][kind_of(finding.piece)].insert(finding.check.check);
        INFO(w.standard << ", " << finding.id);
        CHECK(test::faults_of(finding.check).empty());
        const std::set<std::string> units =
            standard->us_customary()
                ? std::set<std::string>{"lb", "lb ft", "psf", "in", "in/ft", ""}
                : std::set<std::string>{"kN", "kNm", "kPa", "mm", "mm/m", ""};
        CHECK(units.contains(finding.check.unit));
      }
    }
  }
  for (const Words& w : words) {
    for (const auto& [kind, checks] : least) {
      for (const std::string& check : checks) {
        INFO(w.standard << ": " << kind << " lacks " << check);
        CHECK(seen[w.standard][kind].contains(check));
        if (check != "deflection in the long run") continue;
        CHECK(seen[w.standard][kind].contains("deflection at once") ==
              (w.standard == std::string("north-america-us")));
      }
    }
    for (const auto& [kind, checks] : seen[w.standard]) {
      INFO(w.standard << ": " << kind << " is a kind of piece that this test does not know");
      CHECK(least.contains(kind));
    }
  }
}

}  // namespace coverage_test_file
