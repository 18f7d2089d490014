// Joists beside a wall's face pull the ledger's fixings: how far, by which rows, and what holds them. The
// decks are invented; the levers are worked by hand (statics).
#include "../../src/assessment/sway.hpp"
#include "../../src/planner/options.hpp"
#include "standards/ledger_couple.hpp"
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/works/work.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace ledger_test_file {

using namespace underprop;
using test::Json;

namespace {

/// A ledger 47 x 150 mm at the house in place of one bearer, the joists hung on it or resting.
Json with_ledger(const char* wall, const char* fixing, const char* diameter, bool hung = true) {
  Json json = test::hung_platform("hanger");
  Json& deck = json["deck"];
  deck["bearers"].erase(0);
  deck["supports"].erase(0);
  if (!hung) deck["joists"][0]["start"] = {{"held", "resting"}, {"seat", "47 mm"}, {"sound", true}};
  deck["ledgers"] = Json::array({{{"name", "L"},
                                  {"direction", "x"},
                                  {"position", "0 m"},
                                  {"from", "0 m"},
                                  {"to", "3.35 m"},
                                  {"timber", "C24"},
                                  {"incised", false},
                                  {"breadth", "47 mm"},
                                  {"depth", "150 mm"},
                                  {"fixed_to", wall},
                                  {"fixing", fixing},
                                  {"fixing_diameter", diameter},
                                  {"fixing_spacing", "200 mm"},
                                  {"penetration", "45 mm"},
                                  {"sound", true}}});
  return json;
}

const assessment::Finding& pulled(const assessment::Assessment& a) {
  for (const auto* list : {&a.shown.findings, &a.shown.ordinary_use}) {
    for (const assessment::Finding& f : *list) {
      if (f.piece == "L" && f.check.check == "ledger fixing, pulled") return f;
    }
  }
  FAIL("the ledger's fixings are not checked for a pull");
  throw std::logic_error("unreachable");
}

double step(const assessment::Finding& f, const std::string& symbol) {
  for (const standards::Step& s : f.check.steps) {
    if (s.symbol == symbol) return s.value;
  }
  FAIL("no line " << symbol);
  throw std::logic_error("unreachable");
}

}  // namespace

TEST_CASE("The lever of a ledger's fixings is that of its rows, or the least of two",
          "[assessment][closed-form]") {
  // The wall presses 15 mm over the lower edge, a tenth of 150 mm.
  Json json = with_ledger("timber band", "bolt", "12 mm");
  const assessment::Finding unknown = pulled(test::assess(json));
  CHECK(step(unknown, "a") == Approx(47.0 + 25.0));
  CHECK(step(unknown, "z") == Approx(2.0 * (std::sqrt(2.0) - 1.0) * 60.0));
  CHECK(step(unknown, "T_d") ==
        Approx(step(unknown, "V_1") * step(unknown, "a") / step(unknown, "z")));
  json["deck"]["ledgers"][0]["fixing_heights"] = {"75 mm"};
  CHECK(step(pulled(test::assess(json)), "z") == Approx(60.0));
  // (30^2 + 90^2)/(2 x 90); a low row alone is worst.
  json["deck"]["ledgers"][0]["fixing_heights"] = {"45 mm", "105 mm"};
  CHECK(step(pulled(test::assess(json)), "z") == Approx(50.0));
  json["deck"]["ledgers"][0]["fixing_heights"] = {"45 mm"};
  const assessment::Finding low = pulled(test::assess(json));
  CHECK(step(low, "z") == Approx(30.0));
  CHECK(low.check.utilisation > unknown.check.utilisation);
}

TEST_CASE("No two rows about the middle of a ledger have less lever than is taken for unknown ones",
          "[standards][law]") {
  const double least = standards::least_lever_of_two_rows(mm(80)).value();
  double found = 1e9;
  for (int apart = 0; apart <= 80; ++apart) {
    const std::vector<Length> rows{mm(80.0 - apart), mm(80.0 + apart)};
    found = std::min(found, standards::lever_of_rows(rows).value());
  }
  CHECK(found >= least);
  CHECK(found == Approx(least).epsilon(1e-3));
}

TEST_CASE("Joists that rest on a ledger pull its fixings by half its breadth",
          "[assessment][closed-form]") {
  const assessment::Finding f =
      pulled(test::assess(with_ledger("timber band", "bolt", "12 mm", false)));
  CHECK(step(f, "a") == Approx(23.5));
  CHECK(f.check.demand > 0.0);
}

TEST_CASE("How much wood behind a ledger its screws grip is a fact that resolves it",
          "[assessment][verdict]") {
  Json json = with_ledger("timber band", "lag screw", "10 mm");
  // EN 1995-1-1 8.7.2(4): 6 d = 60 mm of thread; with 45 mm as a screw of 7.5 mm; under 36 mm nothing.
  const double little = pulled(test::assess(json)).check.utilisation;
  CHECK(std::isfinite(little));
  json["deck"]["ledgers"][0]["penetration"] = "70 mm";
  CHECK(pulled(test::assess(json)).check.utilisation < little);
  json["deck"]["ledgers"][0]["penetration"] = "35 mm";
  CHECK(std::isinf(pulled(test::assess(json)).check.utilisation));
  json["deck"]["ledgers"][0].erase("penetration");
  const assessment::Assessment open = test::assess(json);
  CHECK(std::any_of(open.unknowns.begin(), open.unknowns.end(), [](const auto& u) {
    return u.field == "/deck/ledgers/0/penetration" && u.swing > 0.0;
  }));
}

TEST_CASE("A stated pull-out figure counts as it stands, and adds to the shear",
          "[assessment][verdict]") {
  Json json = with_ledger("concrete", "anchor", "12 mm");
  json["deck"]["ledgers"][0].erase("penetration");
  json["deck"]["ledgers"][0]["stated_capacity"] = "8 kN";
  const assessment::Assessment without = test::assess(json);
  // 0 stands for no figure.
  Json none = json;
  none["deck"]["ledgers"][0]["stated_pull_out"] = "0 kN";
  const assessment::Finding half = pulled(test::assess(none));
  CHECK(step(half, "R_k") == Approx(4000.0));
  CHECK(std::any_of(without.unknowns.begin(), without.unknowns.end(),
                    [](const auto& u) { return u.field == "/deck/ledgers/0/stated_pull_out"; }));
  json["deck"]["ledgers"][0]["stated_pull_out"] = "9 kN";
  const assessment::Finding told = pulled(test::assess(json));
  CHECK(step(told, "R_k") == Approx(9000.0));
  CHECK(step(told, "R_d") == Approx(9000.0 / 2.5));
  CHECK(told.check.utilisation ==
        Approx(step(told, "T_d") / step(told, "R_d") + step(told, "u_v")));
  CHECK(told.check.utilisation < half.check.utilisation);
}

TEST_CASE("What a fixing has left is never more than pull and shear together leave",
          "[assessment][law]") {
  for (const bool linear : {false, true}) {
    for (double u_v = 0.0; u_v <= 1.0; u_v += 0.1) {
      for (double u_t = 0.0; u_t <= 1.0; u_t += 0.1) {
        const assessment::Left left = assessment::left_beside(u_v, u_t, linear);
        for (double part = 0.0; part <= 1.0; part += 0.05) {
          // Used to the full as the sway check adds them, beside a couple: V_i/R_i + T_i/R_ax,i = 1.
          const double v = std::hypot(u_v, part * left.shear), t = u_t + (1.0 - part) * left.pull;
          if (left.shear == 0.0 || left.pull == 0.0) continue;
          INFO(linear << ", " << u_v << " down, " << u_t << " out, part " << part);
          CHECK((linear ? v + t : std::hypot(v, t)) <= 1.0 + 1e-9);
        }
      }
    }
  }
  CHECK(assessment::left_beside(0.6, 0.0, false).shear == Approx(0.8));
  CHECK(assessment::left_beside(0.6, 0.5, false).pull == Approx(0.3));
}

TEST_CASE("Bolts through the wood behind a ledger answer to fixings that are pulled out",
          "[planner][works]") {
  const Json json = with_ledger("timber band", "lag screw", "10 mm");
  const record::Survey survey = test::read(json);
  const auto offered = [](const record::Survey& s) {
    const planner::Candidates candidates(s);
    planner::Failure failure;
    failure.piece = "L";
    failure.check = "ledger fixing, pulled";
    std::vector<works::Work> bolts;
    for (const planner::WorkSet& set : candidates.answers(failure, {})) {
      for (const works::Work& work : set) {
        if (work.measure == works::Measure::ledger_bolts) bolts.push_back(work);
      }
    }
    return bolts;
  };
  const std::vector<works::Work> bolts = offered(survey);
  REQUIRE(bolts.size() == 1);
  const std::vector<works::Work> forms = planner::Candidates(survey).forms(bolts[0]);
  REQUIRE(forms.size() >= 2);
  const record::Survey after = works::apply(survey, bolts[0]);
  const record::Ledger& ledger = after.deck.ledgers[0];
  CHECK(ledger.fixing.value() == record::FixingKind::bolt);
  CHECK(in_mm(ledger.fixing_diameter.value()) == Approx(12.0));
  CHECK(ledger.fixing_spacing.value() == bolts[0].bolt_spacing);
  CHECK(ledger.fixing_heights == std::vector<Length>{mm(75)});
  // No two bolts further apart than is written down, none within 7 d of an end.
  for (std::size_t k = 0; k < bolts[0].places.size(); ++k) {
    const Length x = bolts[0].places[k].x;
    CHECK((x >= mm(84) && x <= mm(3350 - 84)));
    if (k > 0) CHECK(x - bolts[0].places[k - 1].x <= bolts[0].bolt_spacing + mm(1));
  }
  const assessment::Finding f = pulled(test::assess(after));
  CHECK(step(f, "z") == Approx(60.0));
  CHECK(std::isfinite(f.check.utilisation));
  const assessment::Finding closer = pulled(test::assess(works::apply(survey, forms.front())));
  REQUIRE(forms.front().bolt_spacing < bolts[0].bolt_spacing);
  CHECK(closer.check.utilisation < f.check.utilisation);
  CHECK(closer.check.utilisation < 1.0);
  // Nothing of the sort where no wood is recorded behind it, where it is forbidden, or done already.
  CHECK(offered(test::read(with_ledger("solid masonry", "anchor", "10 mm"))).empty());
  record::Survey forbidden = survey;
  forbidden.allow.ledger_bolts = false;
  CHECK(offered(forbidden).empty());
  record::Survey dense = after;
  dense.deck.ledgers[0].fixing_spacing = mm(150);
  CHECK(offered(dense).empty());
  CHECK_THROWS_AS(works::apply(test::read(with_ledger("concrete", "anchor", "10 mm")), bolts[0]),
                  std::invalid_argument);
  // What is told says that the back must be reached.
  const auto steps = works::order_of_work({bolts[0]}, survey);
  CHECK(std::any_of(steps.begin(), steps.end(), [](const works::BuildStep& s) {
    return s.text.find("behind ledger L can be reached, bolt it through") != std::string::npos &&
           !s.cautions.empty() && s.cautions[0].find("can be reached") != std::string::npos;
  }));
}

}  // namespace ledger_test_file
