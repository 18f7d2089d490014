// Decks of the shapes that occur: each is assessed, with reactions that balance the load and the load on
// the pieces below it, or is refused or referred with the reason. The decks are invented; sizes are
// common practice, no source.
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/assessment/assessment.hpp"
#include "underprop/assessment/exported.hpp"
#include "underprop/base/input_error.hpp"
#include "underprop/record/format.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace shapes_test_file {

using namespace underprop;
using test::Json;

namespace {

Json joists(const char* name, const Json& positions) {
  return {{"name", name},
          {"direction", "y"},
          {"positions", positions},
          {"timber", "C24"},
          {"incised", false},
          {"breadth", "47 mm"},
          {"depth", "170 mm"},
          {"over_bearers", "continuous"},
          {"start", {{"held", "free"}}},
          {"end", {{"held", "free"}}}};
}
Json bearer(const char* name, const char* position) {
  return {{"name", name},
          {"direction", "x"},
          {"position", position},
          {"timber", "C24"},
          {"incised", false},
          {"plies", 2},
          {"ply_breadth", "47 mm"},
          {"depth", "170 mm"},
          {"plies_fixed_together", true},
          {"joists", "on top"},
          {"joists_held_down", "strapped"},
          {"hold_down_capacity", "3 kN"}};
}
Json pads(const char* name, const char* under, const Json& positions) {
  return {{"name", name},
          {"under", under},
          {"positions", positions},
          {"packers", 0},
          {"footing",
           {{"kind", "cast pad"},
            {"width", "400 mm"},
            {"length", "400 mm"},
            {"thickness", "200 mm"},
            {"depth", "450 mm"},
            {"offset", "0 mm"},
            {"contact", "tight"},
            {"below_topsoil", true}}}};
}
Json tub(const char* x, const char* y) {
  return {{"name", "tub"},    {"kind", "tub"},        {"shape", "rectangle"},
          {"width", "1.2 m"}, {"length", "1.2 m"},    {"height", "300 mm"},
          {"at", {x, y}},     {"dry_mass", "100 kg"}, {"contents", "500 l"},
          {"people", 2},      {"base", "full"}};
}

/// 3.6 x 3 m, joists every 400 mm over two bearers on four pads each; the tub in the middle.
Json plain() {
  Json survey;
  survey["format"] = "underprop-survey/1";
  survey["name"] = "invented deck";
  survey["recorded_on"] = "2026-05-01";
  survey["standard"] = "eurocode-uk";
  survey["site"] = test::recorded_site();
  const Json row = {"200 mm", "1.2 m", "2.4 m", "3.4 m"};
  survey["deck"] = {
      {"outline",
       Json::array({{"0 m", "0 m"}, {"3.6 m", "0 m"}, {"3.6 m", "3 m"}, {"0 m", "3 m"}})},
      {"height", "550 mm"},
      {"boards",
       {{"material", "softwood"},
        {"timber", "C16"},
        {"width", "145 mm"},
        {"thickness", "28 mm"},
        {"gap", "5 mm"},
        {"direction", "x"},
        {"joints", "none"}}},
      {"joists", Json::array({joists("J", {"200 mm", "600 mm", "1 m", "1.4 m", "1.8 m", "2.2 m",
                                           "2.6 m", "3 m", "3.4 m"})})},
      {"bearers", Json::array({bearer("A", "400 mm"), bearer("B", "2.6 m")})},
      {"supports", Json::array({pads("PA", "A", row), pads("PB", "B", row)})},
      {"blocking", Json::array({{{"name", "KA"}, {"joists", "J"}, {"position", "400 mm"}},
                                {{"name", "KB"}, {"joists", "J"}, {"position", "2.6 m"}}})},
      {"probed", "all"}};
  survey["loads"] = Json::array({tub("1.8 m", "1.5 m")});
  return survey;
}

/// The pieces that the load reaches, after every check of balance and of finite numbers.
std::set<std::string> assessed(const Json& json) {
  const record::Survey survey = test::read(json);
  const auto standard = assessment::standard_for(survey.standard);
  const assessment::ExportedModels exported = assessment::exported_models(survey, *standard);
  INFO(exported.why);
  CHECK(exported.why.empty());
  CHECK_FALSE(exported.models.empty());
  for (const assessment::ExportedModel& model : exported.models) {
    for (const assessment::ExportedCombination& combination : model.combinations) {
      REQUIRE_FALSE(combination.response.mechanism);
      double down = 0.0, up = 0.0;
      for (const solver::CaseFactor& factor : combination.factors) {
        const solver::LoadCase& load_case = model.cases[static_cast<std::size_t>(factor.load_case)];
        double sum = 0.0;
        for (const auto& load : load_case.nodal) sum -= load.Fz;
        for (const auto& load : load_case.line)
          sum -= 0.5 * (load.q1 + load.q2) * (load.b - load.a);
        for (const auto& load : load_case.point) sum -= load.P;
        down += factor.factor * sum;
      }
      for (const double reaction : combination.response.supports) up += reaction;
      CHECK(up == Approx(down).epsilon(1e-6));
      // The new load at least, 600 kg and nothing else; less of it in the long run and against uplift.
      const bool less = model.bound.rfind("service", 0) == 0 ||
                        combination.id.rfind("uplift", 0) == 0 ||
                        model.stage.rfind("before the works", 0) == 0;
      CHECK(down > (less ? 0.3 : 1.0) * 5880.0);
    }
  }
  assessment::Options few;
  few.extent = assessment::Extent::screening;
  const deck::Deck deck = deck::resolve(survey, record::Reading::cautious).deck;
  const assessment::DeckAssessment found = assessment::assess_deck(deck, *standard, few);
  for (const std::string& reason : found.refer_reasons) INFO(reason);
  CHECK(found.refer_reasons.empty());
  CHECK_FALSE(found.mechanism);
  CHECK(found.safety > 0.05);
  CHECK(found.safety < 20.0);
  for (const auto& reaction : found.reactions) CHECK(reaction.characteristic.value() >= 0.0);
  return {found.loaded_pieces.begin(), found.loaded_pieces.end()};
}

std::string refused(const Json& json) {
  try {
    (void)test::read(json);
  } catch (const InputErrors& errors) {
    return errors.what();
  }
  return "";
}

/// Why the deck refers or is loose, in one text.
std::string referred(const Json& json) {
  const record::Survey survey = test::read(json);
  assessment::Options few;
  few.extent = assessment::Extent::screening;
  const assessment::DeckAssessment found =
      assessment::assess_deck(deck::resolve(survey, record::Reading::cautious).deck,
                              *assessment::standard_for(survey.standard), few);
  std::string text = found.mechanism.value_or("");
  for (const std::string& reason : found.refer_reasons) text += reason + "\n";
  return text;
}

}  // namespace

TEST_CASE("The plain deck: the load is on the joists below it and on their bearers",
          "[assessment][law]") {
  const std::set<std::string> loaded = assessed(plain());
  for (const char* piece : {"J4", "J5", "J6", "A", "B"}) CHECK(loaded.contains(piece));
}

TEST_CASE("An L: joists of two lengths, the load on the long ones or on the short ones",
          "[assessment][law]") {
  Json json = plain();
  json["deck"]["outline"] = Json::array({{"0 m", "0 m"},
                                         {"3.6 m", "0 m"},
                                         {"3.6 m", "1.6 m"},
                                         {"2 m", "1.6 m"},
                                         {"2 m", "3 m"},
                                         {"0 m", "3 m"}});
  json["deck"]["bearers"].push_back(bearer("C", "1.4 m"));
  json["deck"]["bearers"][2]["from"] = "2 m";
  json["deck"]["bearers"][1]["to"] = "2 m";
  json["deck"]["supports"][1]["positions"] = {"200 mm", "1 m", "1.9 m"};
  json["deck"]["supports"].push_back(pads("PC", "C", {"2.2 m", "3.4 m"}));
  json["loads"][0] = tub("1 m", "1.5 m");
  std::set<std::string> loaded = assessed(json);
  CHECK(loaded.contains("J3"));
  CHECK(loaded.contains("B"));
  CHECK_FALSE(loaded.contains("J8"));
  json["loads"][0] = tub("2.7 m", "900 mm");
  loaded = assessed(json);
  CHECK(loaded.contains("J7"));
  CHECK(loaded.contains("C"));
  CHECK_FALSE(loaded.contains("J2"));
}

TEST_CASE("A cut corner shortens the joists that it crosses", "[assessment][law]") {
  Json json = plain();
  json["deck"]["outline"] = Json::array(
      {{"0 m", "0 m"}, {"3.6 m", "0 m"}, {"3.6 m", "2.7 m"}, {"3.3 m", "3 m"}, {"0 m", "3 m"}});
  const deck::Deck deck = deck::resolve(test::read(json), record::Reading::cautious).deck;
  CHECK(deck.joists.back().to == mm(2900));
  CHECK(assessed(json).contains("J5"));
}

TEST_CASE("An angled end: every joist has its own length", "[assessment][law]") {
  Json json = plain();
  json["deck"]["outline"] =
      Json::array({{"0 m", "0 m"}, {"3.6 m", "0 m"}, {"3.6 m", "2.8 m"}, {"0 m", "3.4 m"}});
  const deck::Deck deck = deck::resolve(test::read(json), record::Reading::cautious).deck;
  for (std::size_t j = 1; j < deck.joists.size(); ++j) {
    CHECK(deck.joists[j].to < deck.joists[j - 1].to);
  }
  CHECK(assessed(json).contains("J5"));
}

TEST_CASE("Joists at unequal spacing: the lonely one carries more", "[assessment][law]") {
  const auto worst = [](const Json& json) {
    assessment::Options few;
    few.extent = assessment::Extent::screening;
    const record::Survey survey = test::read(json);
    const assessment::DeckAssessment found =
        assessment::assess_deck(deck::resolve(survey, record::Reading::cautious).deck,
                                *assessment::standard_for(survey.standard), few);
    std::map<std::string, double> bending;
    for (const assessment::Finding& f : found.findings) {
      if (f.check.check == "bending") bending[f.piece] = f.check.utilisation;
    }
    return bending;
  };
  Json json = plain();
  json["deck"]["joists"] = Json::array({joists(
      "J", {"200 mm", "700 mm", "1 m", "1.2 m", "1.8 m", "2.35 m", "2.5 m", "3 m", "3.4 m"})});
  assessed(json);
  CHECK(worst(json).at("J5") > worst(plain()).at("J5"));
}

TEST_CASE("A doubled joist, as two joists side by side, carries more and each less",
          "[assessment][law]") {
  Json json = plain();
  json["deck"]["joists"] =
      Json::array({joists("J", {"200 mm", "600 mm", "1 m", "1.4 m", "1.776 m", "1.824 m", "2.2 m",
                                "2.6 m", "3 m", "3.4 m"})});
  const std::set<std::string> loaded = assessed(json);
  CHECK(loaded.contains("J5"));
  CHECK(loaded.contains("J6"));
}

TEST_CASE("A stair opening cuts the outline; joists on either side of it are pieces of their own",
          "[assessment][law]") {
  Json json = plain();
  // 0.6 m wide, from the front edge to 1 m back.
  json["deck"]["outline"] = Json::array({{"0 m", "0 m"},
                                         {"1.9 m", "0 m"},
                                         {"1.9 m", "1 m"},
                                         {"2.5 m", "1 m"},
                                         {"2.5 m", "0 m"},
                                         {"3.6 m", "0 m"},
                                         {"3.6 m", "3 m"},
                                         {"0 m", "3 m"}});
  json["deck"]["bearers"][0]["to"] = "1.9 m";
  json["deck"]["bearers"].push_back(bearer("E", "400 mm"));
  json["deck"]["bearers"][2]["from"] = "2.5 m";
  json["deck"]["supports"][0]["positions"] = {"200 mm", "1.2 m"};
  json["deck"]["supports"].push_back(pads("PE", "E", {"2.7 m", "3.4 m"}));
  json["loads"][0] = tub("1.8 m", "1.8 m");
  // J6 at 2.2 m starts behind the opening: over B alone it would rock.
  CHECK(referred(json).find("J6") != std::string::npos);
  Json trimmed = json;
  trimmed["deck"]["bearers"].push_back(bearer("C", "1.1 m"));
  trimmed["deck"]["bearers"][3]["from"] = "1.7 m";
  trimmed["deck"]["bearers"][3]["to"] = "2.7 m";
  trimmed["deck"]["supports"].push_back(pads("PC", "C", {"1.9 m", "2.5 m"}));
  trimmed["deck"]["blocking"].push_back({{"name", "KC"}, {"joists", "J"}, {"position", "1.1 m"}});
  CHECK(assessed(trimmed).contains("J5"));
}

TEST_CASE("A deck round a post or tree: joists end at a hole between two groups",
          "[assessment][law]") {
  Json json = plain();
  json["deck"]["joists"] =
      Json::array({joists("J", {"200 mm", "600 mm", "1 m", "1.4 m", "1.8 m", "2.2 m", "2.6 m"}),
                   joists("K", Json::array({"3 m"})), joists("M", Json::array({"3 m"})),
                   joists("N", Json::array({"3.4 m"}))});
  json["deck"]["joists"][1]["to"] = "1.2 m";
  json["deck"]["joists"][2]["from"] = "1.8 m";
  json["deck"]["bearers"].push_back(bearer("C", "1.1 m"));
  json["deck"]["bearers"].push_back(bearer("D", "1.9 m"));
  for (const std::size_t b : {std::size_t{2}, std::size_t{3}}) {
    json["deck"]["bearers"][b]["from"] = "2.4 m";
    json["deck"]["bearers"][b]["to"] = "3.6 m";
  }
  json["deck"]["supports"].push_back(pads("PC", "C", {"2.6 m", "3.4 m"}));
  json["deck"]["supports"].push_back(pads("PD", "D", {"2.6 m", "3.4 m"}));
  json["deck"]["obstacles"] = Json::array(
      {{{"name", "tree"},
        {"outline",
         Json::array(
             {{"2.8 m", "1.3 m"}, {"3.2 m", "1.3 m"}, {"3.2 m", "1.7 m"}, {"2.8 m", "1.7 m"}})}}});
  CHECK(assessed(json).contains("J4"));
}

TEST_CASE("Bearers at three lines, and overhangs on two sides", "[assessment][law]") {
  Json json = plain();
  json["deck"]["bearers"].push_back(bearer("C", "1.5 m"));
  json["deck"]["supports"].push_back(pads("PC", "C", {"200 mm", "1.2 m", "2.4 m", "3.4 m"}));
  std::set<std::string> loaded = assessed(json);
  for (const char* piece : {"A", "B", "C", "PC2", "PC3"}) CHECK(loaded.contains(piece));
  // Bearers that stop 0.6 m short of both edges, joists that pass them by 0.4 m, the load near a corner.
  Json overhang = plain();
  overhang["deck"]["supports"][0]["positions"] = {"700 mm", "2.9 m"};
  overhang["deck"]["supports"][1]["positions"] = {"700 mm", "2.9 m"};
  overhang["loads"][0] = tub("650 mm", "650 mm");
  CHECK(assessed(overhang).contains("PA1"));
}

TEST_CASE("Boards laid at an angle count as thinner boards laid square",
          "[assessment][closed-form]") {
  Json json = plain();
  json["deck"]["boards"]["angle_deg"] = 45;
  json["deck"]["boards"]["stated_span"] = "500 mm";
  const deck::Deck deck = deck::resolve(test::read(json), record::Reading::cautious).deck;
  // Stiffness goes with cos^4 45 = 1/4: a board of 0.25^(1/3) of the thickness.
  CHECK(deck.boards.thickness.value() == Approx(28.0 * std::cbrt(0.25)));
  CHECK(deck.boards.stated_span->value() == Approx(500.0 * std::sqrt(0.5)));
  CHECK(assessed(json).contains("J5"));
  json["deck"]["boards"]["direction"] = "y";
  CHECK(refused(json).find("boards that run across the joists") != std::string::npos);
}

TEST_CASE("Pads off the line of their bearer: their offset is pressed on, and far off refers",
          "[assessment][law]") {
  const auto ground = [](const char* offset) {
    Json json = plain();
    json["deck"]["supports"][1]["footing"]["offset"] = offset;
    assessment::Options few;
    few.extent = assessment::Extent::screening;
    const record::Survey survey = test::read(json);
    const auto found =
        assessment::assess_deck(deck::resolve(survey, record::Reading::cautious).deck,
                                *assessment::standard_for(survey.standard), few);
    double worst = 0.0;
    for (const auto& f : found.findings) {
      if (f.check.check == "ground pressure" && f.piece.starts_with("PB")) {
        worst = std::max(worst, f.check.utilisation);
      }
    }
    return std::pair(worst, found.refer_reasons.size());
  };
  CHECK(ground("60 mm").first > ground("0 mm").first);
  CHECK((ground("180 mm").second > 0 || ground("180 mm").first > 1.0));
}

TEST_CASE("Mixed heights: short and tall posts and a wall under one deck", "[assessment][law]") {
  Json json = plain();
  // On ground that slopes under it: the rows' pads stand as far over and under the ground at the edge.
  json["deck"]["height"] = "690 mm";
  const auto post = [](const char* height) {
    return Json{{"timber", "C24"},  {"incised", false},   {"breadth", "95 mm"}, {"depth", "95 mm"},
                {"height", height}, {"bearer", "on top"}, {"base", "pinned"},   {"lean", "0 mm"}};
  };
  json["deck"]["supports"][0]["post"] = post("150 mm");
  json["deck"]["supports"][1]["post"] = post("500 mm");
  json["deck"]["walls"] = Json::array({{{"name", "W"},
                                        {"from", {"0 m", "1.5 m"}},
                                        {"to", {"3.6 m", "1.5 m"}},
                                        {"width", "200 mm"},
                                        {"strip_width", "400 mm"},
                                        {"depth", "450 mm"},
                                        {"contact", "tight"}}});
  json["deck"]["braces"] = Json::array();
  const std::set<std::string> loaded = assessed(json);
  CHECK(loaded.contains("W"));
}

TEST_CASE("Several things stand on one deck at once, each with its own contact",
          "[assessment][law]") {
  Json json = plain();
  json["loads"] = Json::array(
      {{{"kind", "planter"},
        {"shape", "rectangle"},
        {"width", "500 mm"},
        {"length", "2 m"},
        {"at", {"400 mm", "1.5 m"}},
        {"height", "250 mm"},
        {"dry_mass", "60 kg"},
        {"contents", "350 l"},
        {"base", "full"}},
       {{"kind", "stove"},
        {"shape", "circle"},
        {"diameter", "600 mm"},
        {"at", {"1.4 m", "1 m"}},
        {"height", "500 mm"},
        {"dry_mass", "150 kg"},
        {"base", "feet"},
        {"feet", Json::array({{"200 mm", "0 mm"}, {"-120 mm", "180 mm"}, {"-120 mm", "-180 mm"}})},
        {"foot_size", "60 mm"}},
       {{"kind", "piano"},
        {"shape", "rectangle"},
        {"width", "1.5 m"},
        {"length", "600 mm"},
        {"at", {"2.6 m", "2.2 m"}},
        {"height", "600 mm"},
        {"dry_mass", "230 kg"}},
       {{"kind", "statue"},
        {"shape", "rectangle"},
        {"width", "500 mm"},
        {"length", "500 mm"},
        {"at", {"2.6 m", "1 m"}},
        {"height", "700 mm"},
        {"dry_mass", "220 kg"},
        {"base", "full"}}});
  const std::set<std::string> loaded = assessed(json);
  for (const char* piece : {"J1", "J3", "J6", "J7", "J8", "A", "B"}) CHECK(loaded.contains(piece));
}

}  // namespace shapes_test_file
