// What joists, bearers and boards of small decks are told, each with its arithmetic by hand. The decks
// are invented.
#include "support/catch.hpp"
#include "support/decks.hpp"

#include <cmath>
#include <limits>
#include <string>

namespace timber_pieces_test_file {

using namespace underprop;
using test::Json;

namespace {

/// Seven joists 47 x 145 C24 at 400 mm on two bearers 2.0 m apart, screwed down, on eight pads 400 mm
/// square; 28 mm boards; a planter of 300 kg, one metre square, in the middle.
Json garden_deck() {
  Json survey = test::platform(2);
  Json& deck = survey["deck"];
  deck["outline"] =
      Json::array({{"0 m", "0 m"}, {"2.448 m", "0 m"}, {"2.448 m", "2.4 m"}, {"0 m", "2.4 m"}});
  deck["height"] = "318 mm";
  deck["boards"]["timber"] = "C24";
  Json& joists = deck["joists"][0];
  joists["first"] = "24 mm";
  joists["spacing"] = "400 mm";
  joists["count"] = 7;
  joists["timber"] = "C24";
  joists["depth"] = "145 mm";
  deck.erase("rims");
  Json pads = deck["supports"][0];
  pads["positions"] = {"100 mm", "850 mm", "1600 mm", "2350 mm"};
  pads["bearing_length"] = "100 mm";
  pads["footing"]["width"] = "400 mm";
  pads["footing"]["length"] = "400 mm";
  pads["footing"]["thickness"] = "300 mm";
  pads["footing"]["depth"] = "300 mm";
  deck["bearers"] = Json::array();
  deck["supports"] = Json::array();
  for (const auto& [name, position] : {std::pair{"B1", "200 mm"}, std::pair{"B2", "2.2 m"}}) {
    deck["bearers"].push_back({{"name", name},
                               {"direction", "x"},
                               {"position", position},
                               {"timber", "C24"},
                               {"incised", false},
                               {"plies", 2},
                               {"ply_breadth", "47 mm"},
                               {"depth", "145 mm"},
                               {"plies_fixed_together", true},
                               {"joists", "on top"},
                               {"joists_held_down", "screwed"}});
    Json row = pads;
    row["name"] = std::string("P") + name;
    row["under"] = name;
    deck["supports"].push_back(row);
  }
  Json& load = survey["loads"][0];
  load["name"] = "planter";
  load["kind"] = "planter";
  load["width"] = "1.0 m";
  load["length"] = "1.0 m";
  load["at"] = {"1.224 m", "1.2 m"};
  load["dry_mass"] = "300 kg";
  load["contents"] = "0 l";
  return survey;
}

assessment::DeckAssessment judged(const Json& survey) {
  const deck::Deck deck = deck::resolve(test::read(survey), record::Reading::cautious).deck;
  return assessment::assess_deck(deck, *assessment::standard_for(deck.standard), {});
}

double worst(const assessment::DeckAssessment& found, const std::string& piece,
             const std::string& check) {
  double u = 0.0;
  for (const auto& f : found.findings) {
    if (f.piece == piece && f.check.check == check) u = std::max(u, f.check.utilisation);
  }
  return u;
}

}  // namespace

TEST_CASE("a board's end beyond the last joist bears a person or fails",
          "[assessment][closed-form]") {
  // The first joist 424 mm in: the boards' ends are free for 424 mm. By hand, C24 120 x 28 mm:
  // M = 1.5 x 1.4 kN x 0.424 m = 0.890 kNm; f_m,d = 0.7 x 1.3 x 24 / 1.3 = 16.8 N/mm2;
  // M_R = 16.8 x 120 x 28^2 / 6 = 0.2634 kNm; 3.38.
  Json survey = garden_deck();
  survey["deck"]["joists"][0]["first"] = "424 mm";
  survey["deck"]["joists"][0]["count"] = 6;
  survey["loads"][0]["at"] = {"0.7 m", "1.2 m"};
  const auto found = judged(survey);
  CHECK(worst(found, "boards", "one person on the end of a board") ==
        Approx(1.5 * 1.4 * 0.424 / (16.8 * 120 * 28 * 28 / 6e6)));
  // 24 mm beyond a joist's middle is the joist's own half breadth: no free end.
  CHECK(worst(judged(garden_deck()), "boards", "one person on the end of a board") < 0.25);
}

TEST_CASE("a decayed piece that the load reaches never carries, wherever it is soft",
          "[assessment][law]") {
  const auto with = [](const char* piece, const char* from, const char* to) {
    Json survey = garden_deck();
    survey["deck"]["condition"] = Json::array({{{"defect", "decay"},
                                                {"piece", piece},
                                                {"from", from},
                                                {"to", to},
                                                {"size", "20 mm"},
                                                {"face", "top"}}});
    return judged(survey);
  };
  CHECK(judged(garden_deck()).safety <= 1.0);
  const double none = std::numeric_limits<double>::infinity();
  CHECK(worst(with("J4", "1.1 m", "1.2 m"), "J4", "decay") == none);
  // At its very end, behind the bearer: it runs on.
  CHECK(worst(with("J4", "2.35 m", "2.4 m"), "J4", "decay") == none);
  CHECK(worst(with("B1", "1.2 m", "1.25 m"), "B1", "decay") == none);
  // A second joist of full length beside it carries in its place.
  Json survey = garden_deck();
  survey["deck"]["condition"] = Json::array({{{"defect", "decay"},
                                              {"piece", "J4"},
                                              {"from", "1.1 m"},
                                              {"to", "1.2 m"},
                                              {"size", "20 mm"},
                                              {"face", "top"}}});
  survey["deck"]["sisters"] = Json::array({{{"joist", "J4"},
                                            {"timber", "C24"},
                                            {"incised", false},
                                            {"breadth", "47 mm"},
                                            {"depth", "145 mm"}}});
  CHECK(worst(judged(survey), "J4", "decay") == 0.0);
}

TEST_CASE("screws into every bearer hold joists of ordinary depth upright, not tall ones",
          "[assessment][law]") {
  // 145/47 = 3.1, 195/47 = 4.15: held. 245/47 = 5.2 rolls about its screws. Nothing fixed: not held.
  const auto ratio = [](const char* depth, const char* fixed) {
    Json survey = garden_deck();
    survey["deck"]["joists"][0]["depth"] = depth;
    for (Json& bearer : survey["deck"]["bearers"]) bearer["joists_held_down"] = fixed;
    survey["deck"]["height"] = std::string(depth) == "145 mm"   ? "318 mm"
                               : std::string(depth) == "195 mm" ? "368 mm"
                                                                : "418 mm";
    const auto found = judged(survey);
    double u = 0.0;
    for (const auto& f : found.findings) {
      if (f.check.check == "held upright" && f.piece.starts_with("J"))
        u = std::max(u, f.check.utilisation);
    }
    return u;
  };
  CHECK(ratio("145 mm", "screwed") == Approx(145.0 / 47.0 / 5.0));
  CHECK(ratio("195 mm", "nailed") == Approx(195.0 / 47.0 / 5.0));
  CHECK(ratio("245 mm", "screwed") > 1.0);
  CHECK(ratio("145 mm", "nothing") > 1.0);
}

}  // namespace timber_pieces_test_file
