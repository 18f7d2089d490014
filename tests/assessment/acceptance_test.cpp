// Two decks beside figures worked by hand. Decks and figures are ours; common practice, no source.
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/report/sentences.hpp"

#include <algorithm>
#include <cstdio>

namespace acceptance_test_file {

using namespace underprop;
using assessment::Assessment;
using assessment::Kind;
using assessment::Verdict;
using test::utilisation;

namespace {

bool fails(const Assessment& a, Kind kind) {
  return std::find(a.fails.begin(), a.fails.end(), kind) != a.fails.end();
}

/// lb/ft on the middle beam at x ft: 5,060 lb on 7 x 7 ft with its middle at `tub` ft, six people of
/// 200 lb in its half towards `side` (-1 or +1), 40 psf on the rest of the deck, and the timber.
/// `share`: of what lies within 3.5 ft of the beam, the part that the beam carries.
double middle_beam_load(double x, double tub, int side, double share) {
  // Boards 1.5 in. with 1/8 in. gaps 4.2 psf, joists 3.3 psf, over 8 ft; the beam itself 10 lb/ft.
  const double timber = 7.5 * 8.0 + 10.0, imposed = 40.0;
  if (std::abs(x - tub) > 3.5) return timber + 8.0 * imposed;
  const double people = (x - tub) * side > 0.0 ? 1200.0 / (3.5 * 7.0) : 0.0;
  const double near = 7.0 * share;  // ft of deck that the beam carries of the tub's 7 ft
  return timber + near * (5060.0 / 49.0 + people) + (8.0 - near) * imposed;
}

/// Largest moment in lb ft over simple spans of `span` ft along 16 ft, by statics alone.
double simple_span_moment(double span, double tub, double share) {
  double largest = 0.0;
  for (const int side : {-1, 1}) {
    for (double from = 0.0; from < 16.0; from += span) {
      const double to = std::min(16.0, from + span);
      const int parts = 4000;
      const double dx = (to - from) / parts;
      double shear = 0.0, moment = 0.0;
      for (int k = 0; k < parts; ++k) {
        const double x = from + (k + 0.5) * dx;
        shear += middle_beam_load(x, tub, side, share) * dx * (to - x) / (to - from);
      }
      for (int k = 0; k < parts; ++k) {
        moment += shear * dx;
        shear -= middle_beam_load(from + (k + 0.5) * dx, tub, side, share) * dx;
        largest = std::max(largest, moment);
      }
    }
  }
  return largest;
}

}  // namespace

TEST_CASE("Ungraded joists on close pads carry a tub; the same joists over three metres do not",
          "[assessment][common-practice]") {
  const Assessment close = test::assess(test::platform(5));
  INFO(report::verdict_sentence(close));
  CHECK(close.verdict == Verdict::carries);
  CHECK(close.fails.empty());
  const Assessment wide = test::assess(test::platform(2));
  INFO(report::verdict_sentence(wide));
  CHECK(wide.verdict == Verdict::does_not_carry);
  CHECK(fails(wide, Kind::safety));
  CHECK(fails(wide, Kind::service));
  // By hand, the joist under the middle as a simple beam of 3.0 m: tub 1550 x 9.81 / 4 = 3801 N/m2 x
  // 0.305 m = 1159 N/m over 2.0 m; M = 1159 x 2 x (2 x 3 - 2) / 8 = 1159 Nm. Own weight and boards
  // about 550 kg/m3 x (0.047 x 0.150 + 0.305 x 0.028 x 120/125) x 9.81 = 82 N/m: M = 92 Nm.
  // 1.35 x 1251 = 1689 Nm. f_m,d = 14 x 0.50 / 1.3 = 5.38 MPa, W = 47 x 150^2 / 6 = 176 250 mm3:
  // 949 Nm. 1689 / 949 = 1.78, and the boards share a little unevenly.
  CHECK(utilisation(wide, "J6", "bending") == Approx(1.78).epsilon(0.08));
}

TEST_CASE("Footings of a raised deck read what tributary areas read",
          "[assessment][common-practice]") {
  // By tributary length of the middle beam: 0.8, 1.2 and 1.65 with posts 4, 6 and 8 ft apart. The tub's
  // 5,060 lb are shell and water; its six people come on top of them.
  for (const auto& [post_ft, by_hand] :
       {std::pair{4, 0.8}, std::pair{6, 1.2}, std::pair{8, 1.65}}) {
    test::Json json = test::raised(post_ft);
    json["site"]["snow_load"] = "0 psf";  // people alone; snow that nobody asked for is open
    const Assessment a = test::assess(json);
    const double footing = utilisation(a, "PB", "ground pressure");
    INFO("posts " << post_ft << " ft: " << footing << ", by hand " << by_hand);
    CHECK(footing == Approx(by_hand).epsilon(0.15));
    CHECK(a.verdict == (post_ft == 4 ? Verdict::carries : Verdict::does_not_carry));
  }
}

TEST_CASE("The middle beam of a raised deck bends as statics says",
          "[assessment][common-practice][!mayfail]") {
  // A rough hand figure takes simple spans under 1,224 lb/ft all along (8 ft of tub, people and
  // timber): w L2 / 8 = 2448, 5508 and 9792 lb ft, or 0.49, 1.1 and 2.0. It is an upper bound: the tub
  // is 7 ft long and 7 ft wide, and joists of 8 ft bring (8 - 3.5 / 2) / 8 = 0.78 of their half of it to
  // the middle beam. Here the deck is cut into simple spans and that load counted where it stands.
  // Joists through over a middle beam that does not give would bring 1 - a2 (4 L - a) / (8 L3) =
  // 0.915 (a = 3.5 ft, L = 8 ft: a beam fixed at one end, propped at the other): more than this one.
  // Below the statics the deck may stay: boards spread to joists beside, and a beam that bends
  // under the tub leaves more to the outer two.
  const struct {
    int post_ft, tub_ft;
    double rough;
  } rows[] = {{4, 8, 0.49}, {6, 8, 1.1}, {6, 9, 1.1}, {8, 8, 2.0}, {8, 12, 2.0}};
  for (const auto& row : rows) {
    const Assessment a = test::assess(test::raised_in_simple_spans(row.post_ft, row.tub_ft));
    double moment = 0.0, resistance = 0.0;
    for (const assessment::Finding& f : a.shown.findings) {
      if (f.id != "B/bending") continue;
      REQUIRE(f.check.unit == "lb ft");
      moment = f.check.demand;
      resistance = f.check.resistance;
    }
    REQUIRE(resistance > 0.0);
    const double lapped = simple_span_moment(row.post_ft, row.tub_ft, 1.0 - 3.5 / 16.0);
    const double through = simple_span_moment(row.post_ft, row.tub_ft, 0.915);
    const double whole = utilisation(test::assess(test::raised(row.post_ft)), "B", "bending");
    std::printf(
        "middle beam, posts %d ft, tub at %2d ft: simple spans %.3f, statics %.3f to %.3f, rough "
        "figure %.2f; beam in one piece, tub at 8 ft %.3f\n",
        row.post_ft, row.tub_ft, moment / resistance, lapped / resistance, through / resistance,
        row.rough, whole);
    INFO("posts " << row.post_ft << " ft, tub at " << row.tub_ft << " ft: " << moment
                  << " lb ft, statics " << lapped << " to " << through);
    CHECK(moment == Approx(lapped).epsilon(0.15));
    CHECK(moment < through);
    CHECK(moment / resistance < row.rough);
    // By hand: 3-2x10 Hem-Fir No.2, 850 psi x 1.1 (C_F) = 935 psi, under 1,150 psi so C_M is 1.0;
    // S = 3 x 21.39 in3: 5,000 lb ft.
    CHECK(resistance == Approx(5000.0).epsilon(0.02));
    // In one piece over its posts it stays below the rough figure too.
    CHECK(whole < row.rough);
    CHECK(whole > 0.4 * row.rough);
  }
}

}  // namespace acceptance_test_file
