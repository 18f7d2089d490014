#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/assessment/assessment.hpp"
#include "underprop/survey/read.hpp"

#include <algorithm>

using namespace underprop;
using assessment::Assessment;
using assessment::Verdict;

namespace {

Assessment assess(const test::Json& json) {
  const survey::Survey survey = survey::read_survey(json.dump(), "survey.json").survey;
  return assessment::assess(survey, *assessment::standard_for(survey.standard));
}

double utilisation(const Assessment& a, const std::string& piece, const std::string& check) {
  double u = 0.0;
  for (const assessment::Finding& f : a.cautious.findings) {
    if (f.piece.starts_with(piece) && f.check.check == check) u = std::max(u, f.check.utilisation);
  }
  return u;
}

bool fails(const Assessment& a, assessment::Kind kind) {
  return std::find(a.fails.begin(), a.fails.end(), kind) != a.fails.end();
}

}  // namespace

TEST_CASE("Ungraded joists on close pads carry a tub; the same joists over three metres do not",
          "[assessment][common-practice]") {
  const Assessment close = assess(test::platform(5));
  INFO(close.sentence);
  CHECK(close.verdict == Verdict::carries);
  const Assessment wide = assess(test::platform(2));
  INFO(wide.sentence);
  CHECK(wide.verdict == Verdict::does_not_carry);
  CHECK(fails(wide, assessment::Kind::safety));
  CHECK(fails(wide, assessment::Kind::service));
  // By hand, the joist under the middle as a simple beam of 3.0 m: tub 1550 x 9.81 / 4 = 3801 N/m2 x
  // 0.305 m = 1159 N/m over 2.0 m; M = 1159 x 2 x (2 x 3 - 2) / 8 = 1159 Nm. Own weight and boards
  // about 550 kg/m3 x (0.047 x 0.150 + 0.305 x 0.028 x 120/125) x 9.81 = 82 N/m: M = 92 Nm.
  // 1.35 x 1251 = 1689 Nm. f_m,d = 14 x 0.50 / 1.3 = 5.38 MPa, W = 47 x 150^2 / 6 = 176 250 mm3:
  // 949 Nm. 1689 / 949 = 1.78, and the boards share a little unevenly.
  CHECK(utilisation(wide, "J6", "bending") == Approx(1.78).epsilon(0.08));
}

TEST_CASE("A raised deck reads what a hand calculation with tributary areas reads",
          "[assessment][common-practice]") {
  // Figures worked by hand, ours: simple beam spans under 1224 lb/ft at C_D 1.0 (0.49, 1.1 and 2.0 in
  // bending with posts 4, 6 and 8 ft apart) and footings by tributary length (0.8, 1.2, 1.65).
  const struct {
    int post_ft;
    double bending, footing;
  } rows[] = {{4, 0.49, 0.8}, {6, 1.1, 1.2}, {8, 2.0, 1.65}};
  for (const auto& row : rows) {
    const Assessment a = assess(test::raised(row.post_ft));
    const double bending = utilisation(a, "B", "bending");
    const double footing = utilisation(a, "PB", "ground pressure");
    UNSCOPED_INFO("posts " << row.post_ft << " ft: bending " << bending << " by hand "
                           << row.bending << ", footing " << footing << " by hand " << row.footing);
    CHECK(footing == Approx(row.footing).epsilon(0.15));
    // The hand figure is that of simple spans under a load as wide as the beam. Three things make the
    // real one smaller, and the bounds here are theirs: continuity over the posts (w L2 / 10 to w L2 / 12
    // instead of w L2 / 8), a tub of 7 ft that loads only part of two 8 ft spans with a post at its
    // centre, and the joists beside it that carry past the beam.
    CHECK(bending < row.bending);
    CHECK(bending > 0.4 * row.bending);
  }
}

TEST_CASE("What nobody looked at decides, and is named", "[assessment][common-practice]") {
  test::Json json = test::platform(5);
  json["deck"]["probed"] = test::Json{{"pieces", test::Json::array()}};
  Assessment a = assess(json);
  INFO(a.sentence);
  CHECK(a.verdict == Verdict::cannot_tell);
  REQUIRE(!a.decides.empty());
  CHECK(a.decides.front().fields == std::vector<std::string>{"/deck/probed/J"});

  json = test::platform(5);
  json["loads"][0].erase("dry_mass");
  a = assess(json);
  INFO(a.sentence);
  CHECK(a.verdict != Verdict::carries);

  json = test::platform(5);
  json["site"].erase("drains");
  a = assess(json);
  INFO(a.sentence);
  CHECK(a.verdict == Verdict::cannot_tell);
  REQUIRE(!a.decides.empty());
  CHECK(a.decides.front().fields == std::vector<std::string>{"/site/drains"});
}

TEST_CASE("Surroundings outside the scope refer", "[assessment][common-practice]") {
  test::Json json = test::platform(5);
  json["site"]["retaining_walls"] = test::Json::array({{{"name", "wall"},
                                                        {"from", {"-1 m", "-0.5 m"}},
                                                        {"to", {"5 m", "-0.5 m"}},
                                                        {"height", "1.0 m"}}});
  CHECK(assess(json).verdict == Verdict::refer);
  json = test::platform(5);
  json["site"]["use"] = "rented";
  CHECK(assess(json).verdict == Verdict::refer);
  json = test::platform(5, 1200, 3000);
  CHECK(assess(json).verdict == Verdict::refer);  // more than 4,000 kg
}

TEST_CASE("A raised deck that nothing keeps from swaying does not carry",
          "[assessment][common-practice]") {
  test::Json json = test::raised(4);
  json["deck"].erase("braces");
  const Assessment a = assess(json);
  CHECK(a.verdict == Verdict::does_not_carry);
  CHECK(std::isinf(utilisation(a, "deck", "sway along x")));
}

TEST_CASE("A support whose contact nobody saw is also taken as absent",
          "[assessment][common-practice]") {
  test::Json json = test::platform(5);
  json["deck"]["supports"][0]["footing"].erase("contact");
  const Assessment unseen = assess(json);
  const Assessment seen = assess(test::platform(5));
  CHECK(unseen.verdict != Verdict::carries);
  // With one pad gone its neighbours along the joist take its share. (Where a pad stiffer than its
  // neighbours governs already, as under the middle, absence adds nothing: look for the largest rise.)
  double rise = 0.0;
  for (const assessment::Finding& f : unseen.cautious.findings) {
    if (f.check.check != "ground pressure") continue;
    rise = std::max(rise, f.check.utilisation / utilisation(seen, f.piece, "ground pressure"));
  }
  CHECK(rise > 1.1);
}
