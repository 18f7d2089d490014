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

namespace {

Json cut(Json survey, const char* defect, const char* from, const char* to, const char* size,
         const char* face) {
  Json condition{{"defect", defect}, {"piece", "J4"}, {"from", from}, {"to", to}, {"size", size}};
  if (*face != 0) condition["face"] = face;
  survey["deck"]["condition"] = Json::array({condition});
  return survey;
}

const assessment::Finding* finding(const assessment::DeckAssessment& found, const std::string& id) {
  for (const auto& f : found.findings) {
    if (f.id == id) return &f;
  }
  return nullptr;
}

double line(const assessment::Finding* f, const std::string& symbol) {
  if (f == nullptr) return std::nan("");
  for (const auto& step : f->check.steps) {
    if (step.symbol == symbol) return step.value;
  }
  return std::nan("");
}

}  // namespace

TEST_CASE("a notched end is judged with the distance from the reaction to its corner",
          "[assessment][closed-form]") {
  // Joists begin at 0, the first bearer's middle is at 200 mm: a notch to 250 mm has x = 50 mm, one to
  // 350 mm has x = 150 mm. EN 1995-1-1 (6.62), 145 mm deep, 36 mm cut: a = 109/145 = 0.7517.
  const auto at_notch = [](const char* to) {
    return judged(cut(garden_deck(), "notch", "0 mm", to, "36 mm", "underside"));
  };
  const auto k_v = [](double x) {
    const double h = 145.0, a = 109.0 / 145.0;
    return 5.0 /
           (std::sqrt(h) * (std::sqrt(a * (1.0 - a)) + 0.8 * x / h * std::sqrt(1.0 / a - a * a)));
  };
  const auto near = at_notch("250 mm"), far = at_notch("350 mm");
  const auto* near_shear = finding(near, "J4/shear");
  const auto* far_shear = finding(far, "J4/shear");
  CHECK(line(near_shear, "x") == Approx(50.0));
  CHECK(line(near_shear, "k_v") == Approx(k_v(50.0)));
  CHECK(line(far_shear, "k_v") == Approx(k_v(150.0)));
  REQUIRE(near_shear != nullptr);
  REQUIRE(far_shear != nullptr);
  CHECK(far_shear->check.utilisation > near_shear->check.utilisation);
  CHECK(near_shear->check.utilisation > worst(judged(garden_deck()), "J4", "shear"));
}

TEST_CASE("a notch at the support does not weaken bending at mid-span", "[assessment][law]") {
  const double whole = worst(judged(garden_deck()), "J4", "bending");
  const auto notched = judged(cut(garden_deck(), "notch", "0 mm", "250 mm", "36 mm", "underside"));
  CHECK(worst(notched, "J4", "bending") == Approx(whole));
  // In the middle it does: (145/109)^2 of it, and a little less for the size factor of the depth left.
  const auto middle = judged(cut(garden_deck(), "notch", "1.1 m", "1.3 m", "36 mm", "underside"));
  const double size = std::pow(145.0 / 109.0, 0.2);
  CHECK(worst(middle, "J4", "bending") ==
        Approx(whole * std::pow(145.0 / 109.0, 2) / size).epsilon(1e-6));
}

TEST_CASE("holes and notches on top leave a net section in shear and bending",
          "[assessment][closed-form]") {
  // 500 mm from the first bearer's middle, 300 mm long: the shear there is what the check says, the
  // depth left 145 - 30 = 115 mm: V_R = f_v,d k_cr 47 x 115 / 1.5.
  const auto holed = judged(cut(garden_deck(), "hole", "0.7 m", "0.7 m", "30 mm", ""));
  const auto* shear = finding(holed, "J4/shear");
  REQUIRE(shear != nullptr);
  // The shear beside the support may still govern; the hole can only add.
  CHECK(shear->check.utilisation >= worst(judged(garden_deck()), "J4", "shear") * (1.0 - 1e-9));
  const auto top = judged(cut(garden_deck(), "notch", "150 mm", "300 mm", "60 mm", "top"));
  const auto* at_top = finding(top, "J4/shear");
  CHECK(line(at_top, "h_ef") == Approx(85.0));
  CHECK(at_top->check.resistance ==
        Approx(line(at_top, "f_v,d") * 0.67 * 47.0 * 85.0 / 1.5 / 1000.0));
}

TEST_CASE("a large hole near a support has no capacity", "[assessment][law]") {
  // 60 of 145 mm, 200 mm from the bearer's face: more than a quarter of the depth within two depths.
  const auto near = judged(cut(garden_deck(), "hole", "450 mm", "450 mm", "60 mm", ""));
  CHECK(std::isinf(worst(near, "J4", "shear")));
  const auto small = judged(cut(garden_deck(), "hole", "450 mm", "450 mm", "12 mm", ""));
  CHECK(small.safety <= 1.0);
}

TEST_CASE("shear does not jump as a joist moves past the depth beside a support",
          "[assessment][law]") {
  // EN 1995-1-1 6.1.7(3): the load of a joist within the bearer's depth of a support's face is left out.
  // As the supports move along by 5 mm no step is larger than a tenth, and the way covers the change.
  double before = 0.0, least = 1e9, most = 0.0;
  for (int off = 0; off <= 120; off += 5) {
    Json survey = garden_deck();
    for (Json& row : survey["deck"]["supports"]) {
      Json places = Json::array();
      for (const int at : {100, 850, 1600, 2350}) {
        const bool inner = at == 850 || at == 1600;
        places.push_back(std::to_string(inner ? (at == 850 ? at + off : at - off) : at) + " mm");
      }
      row["positions"] = places;
    }
    const double u = worst(judged(survey), "B1", "shear");
    least = std::min(least, u);
    most = std::max(most, u);
    if (before > 0.0) {
      INFO(off << " mm: " << before << " to " << u);
      CHECK(std::abs(u - before) <= 0.12 * std::max(u, before));
    }
    before = u;
  }
  CHECK(most > least);
}

TEST_CASE("joists that share are stronger by k_sys, and not beside a heavy load",
          "[assessment][law]") {
  Json light = garden_deck();
  light["loads"][0]["dry_mass"] = "60 kg";
  Json heavy = garden_deck();
  heavy["loads"][0]["dry_mass"] = "500 kg";
  const auto shared = judged(light), alone = judged(heavy);
  CHECK(line(finding(shared, "J4/bending"), "k_sys") == Approx(1.1));
  CHECK(std::isnan(line(finding(alone, "J4/bending"), "k_sys")));
}

TEST_CASE("a small pot's level is told over places that show one", "[assessment][law]") {
  Json survey = garden_deck();
  survey["loads"][0]["width"] = "0.3 m";
  survey["loads"][0]["length"] = "0.3 m";
  survey["loads"][0]["dry_mass"] = "40 kg";
  for (const char* x : {"0.6 m", "1.0 m", "1.22 m", "1.4 m"}) {
    survey["loads"][0]["at"] = {x, "0.9 m"};
    double u = 0.0;
    for (const auto& f : judged(survey).findings) {
      if (f.check.check == "level in the long run") u = f.check.utilisation;
    }
    INFO(x);
    CHECK(u < 1.0);
  }
}

TEST_CASE("nails that would be pulled out are never worse than none", "[assessment][law]") {
  // Joists run 900 mm beyond the second bearer, and people stand there: the other ends lift.
  const auto safety = [](const char* fixed) {
    Json survey = garden_deck();
    Json& deck = survey["deck"];
    deck["bearers"][1]["position"] = "1.5 m";
    for (Json& bearer : deck["bearers"]) bearer["joists_held_down"] = fixed;
    survey["loads"][0]["at"] = {"1.224 m", "0.8 m"};
    return judged(survey);
  };
  const auto nailed = safety("nailed"), nothing = safety("nothing");
  for (const auto& f : nailed.findings) {
    INFO(f.id);
    if (nothing.mechanism) break;
    if (f.check.check == "hold-down") CHECK_FALSE(standards::fails(f.check.utilisation));
  }
}

}  // namespace timber_pieces_test_file
