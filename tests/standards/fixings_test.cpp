// Ledger fixings and hangers of both standards: edges, tested bands, nails by species, the wall's own
// pull and shear, little thread. By hand beside each check. Printed values: IRC Table R507.9.1.3(1),
// (2); the yield equations of NDS 12.3.1; EN 1995-1-1 Table 8.4, 8.1.4, 8.2.3, 8.7.2.
#include "support/catch.hpp"
#include "underprop/standards/standard.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace fixings_test_file {

using namespace underprop;
using namespace underprop::standards;

namespace {

const Standard& us() {
  static const auto standard = make_north_america_us();
  return *standard;
}
const Standard& ec() {
  static const auto standard = make_eurocode_uk();
  return *standard;
}

/// The combination of the longest or of a shorter duration.
Combination of(const Standard& standard, double factor) {
  for (const Combination& c : standard.combinations(Purpose::strength, {})) {
    if (std::abs(c.duration_factor - factor) < 1e-9) return c;
  }
  FAIL("no combination with the factor " << factor);
  throw std::logic_error("unreachable");
}
Combination permanent() { return of(us(), 0.9); }
Combination occupied() { return of(us(), 1.0); }
Combination lasting() { return of(ec(), 0.5); }

LedgerFixingDemand us_fixing(FastenerKind kind, double D_in, const char* species = "Hem-Fir No.2") {
  LedgerFixingDemand d;
  d.fixing = kind;
  d.diameter = inches(D_in);
  d.ledger = us().timber(species, Role::ledger, inches(1.5), inches(9.25), false);
  d.ledger_thickness = inches(1.5);
  d.ledger_depth = inches(9.25);
  d.penetration = inches(1.5);
  d.shear = pounds_force(100);
  return d;
}
LedgerFixingDemand ec_fixing(FastenerKind kind, double d_mm) {
  LedgerFixingDemand d;
  d.fixing = kind;
  d.diameter = mm(d_mm);
  d.ledger = ec().timber("C24", Role::ledger, mm(47), mm(195), false);
  d.ledger_thickness = mm(47);
  d.ledger_depth = mm(195);
  d.penetration = mm(47);
  d.shear = newtons(1000);
  return d;
}
EndDemand hanger(const Standard& standard, const Timber& wood, double breadth, double depth,
                 int nails) {
  (void)standard;
  EndDemand d;
  d.kind = EndKind::hanger;
  d.joist = d.carrier = wood;
  d.joist_breadth = mm(breadth);
  d.joist_depth = mm(depth);
  d.fasteners = nails;
  d.shear = newtons(1000);
  return d;
}
double lb(const LedgerFixingDemand& d) { return us().ledger_fixing(d, occupied()).resistance; }

double value(const Check& check, const std::string& symbol) {
  for (const Step& step : check.steps) {
    if (step.symbol == symbol) return step.value;
  }
  FAIL("no line " << symbol);
  throw std::logic_error("unreachable");
}

/// NDS Table 12.3.1A written out again, single shear, R_d 2.2; in lb, in, psi.
double least_mode(double G, double D, double l_m, double l_s, double F_es, double F_yb) {
  const double F_em = 16600.0 * std::pow(G, 1.84), R_e = F_em / F_es, R_t = l_m / l_s, R_d = 2.2;
  const double k1 =
      (std::sqrt(R_e + 2 * R_e * R_e * (1 + R_t + R_t * R_t) + R_t * R_t * R_e * R_e * R_e) -
       R_e * (1 + R_t)) /
      (1 + R_e);
  const double k2 =
      -1 + std::sqrt(2 * (1 + R_e) + 2 * F_yb * (1 + 2 * R_e) * D * D / (3 * F_em * l_m * l_m));
  const double k3 =
      -1 + std::sqrt(2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D * D / (3 * F_em * l_s * l_s));
  return std::min({D * l_m * F_em / R_d, D * l_s * F_es / R_d, k1 * D * l_s * F_es / R_d,
                   k2 * D * l_m * F_em / ((1 + 2 * R_e) * R_d),
                   k3 * D * l_s * F_em / ((2 + R_e) * R_d),
                   D * D / R_d * std::sqrt(2 * F_em * F_yb / (3 * (1 + R_e)))});
}

}  // namespace

TEST_CASE("Fixings nearer to the ledger's edges than the printed distances carry nothing",
          "[published][na]") {
  // IRC Table R507.9.1.3(2): ledger 2 in. at the top, 3/4 in. at the bottom. Ledger 2x10, 9 1/4 in.
  LedgerFixingDemand d = us_fixing(FastenerKind::bolt, 0.5);
  const auto at = [&](std::vector<double> in) {
    d.heights.clear();
    for (const double height : in) d.heights.push_back(inches(height));
    return us().ledger_fixing_counts(d) ? lb(d) : 0.0;
  };
  CHECK(at({0.75}) == Approx(710));
  CHECK(at({0.5}) == 0.0);
  CHECK(at({7.25}) == Approx(710));
  CHECK(at({7.5}) == 0.0);
  CHECK(at({9.0}) == 0.0);
  CHECK(at({2.5, 6.75}) == Approx(710));
  // One row of two counts: half the fixings hold all of it.
  CHECK(at({2.5, 8.5}) == Approx(355));
}

TEST_CASE("A ledger's fixings keep 4 d to the upper edge and 3 d to the lower, Table 8.4",
          "[published][eurocode]") {
  // M12: 48 mm from the top, 36 mm from the bottom of 195 mm.
  LedgerFixingDemand d = ec_fixing(FastenerKind::bolt, 12);
  const auto counts = [&](double height) {
    d.heights = {mm(height)};
    return ec().ledger_fixing_counts(d);
  };
  CHECK(counts(36));
  CHECK_FALSE(counts(35));
  CHECK(counts(147));
  CHECK_FALSE(counts(148));
  CHECK_FALSE(counts(190));
  // What is declared for the fixing supposes the edges too.
  d.stated_capacity = kilonewtons(5);
  CHECK_FALSE(counts(190));
  CHECK(counts(100));
}

TEST_CASE("A recorded height gives splitting its distance (8.4)", "[closed-form][eurocode]") {
  // 147 mm up in 195 mm: h_e = 48, F_90,Rk = 14 x 47 sqrt(48 / (1 - 48/195)) = 5250.6 N.
  LedgerFixingDemand d = ec_fixing(FastenerKind::bolt, 12);
  d.share = LedgerShare::alone;
  d.heights = {mm(147)};
  const double high = ec().ledger_fixing(d, lasting()).resistance;
  CHECK(high == Approx(5250.55 / 1e3 * 0.5 / 1.3).epsilon(1e-4));
  d.heights = {mm(60)};
  CHECK(ec().ledger_fixing(d, lasting()).resistance > high);
  // Of two rows the higher splits first.
  d.heights = {mm(60), mm(147)};
  CHECK(ec().ledger_fixing(d, lasting()).resistance == Approx(high));
}

TEST_CASE("A fixing thicker than the tested one is no worse, and a thinner band reads its own row",
          "[published][na]") {
  // IRC R507.9.1.3(1) by the Wisconsin code's values: 710 lb a bolt, 375 lb a lag in a 2x band; 340
  // lb in 1 1/8 in. and 290 lb in 1 in. of engineered band.
  for (const double D : {0.5, 0.625, 0.75, 1.0})
    CHECK(lb(us_fixing(FastenerKind::bolt, D)) == Approx(710));
  CHECK(lb(us_fixing(FastenerKind::lag_screw, 0.5)) == Approx(375));
  CHECK(lb(us_fixing(FastenerKind::lag_screw, 0.625)) == Approx(375));
  CHECK(us().ledger_fixing(us_fixing(FastenerKind::bolt, 0.625), permanent()).resistance ==
        Approx(639));
  LedgerFixingDemand rim = us_fixing(FastenerKind::bolt, 0.5);
  rim.penetration = inches(1.125);
  CHECK(lb(rim) == Approx(340));
  rim.penetration = inches(1.0);
  CHECK(lb(rim) == Approx(290));
  // Laminated veneer counts as the 2x band (R507.9.1.2, from memory).
  rim.band_laminated = true;
  CHECK(lb(rim) == Approx(710));
  // A lighter ledger in proportion to its bearing strength, NDS Table 12.3.3: (G / 0.42)^1.45.
  const LedgerFixingDemand cedar = us_fixing(FastenerKind::bolt, 0.5, "Western Cedars No.2");
  CHECK(lb(cedar) ==
        Approx(710 * std::pow(cedar.ledger.specific_gravity / 0.42, 1.45)).epsilon(1e-6));
}

TEST_CASE("A stated value is no worse than the tested one where the test holds", "[law][na]") {
  LedgerFixingDemand d = us_fixing(FastenerKind::bolt, 0.5);
  d.stated_capacity = pounds_force(710);
  CHECK(lb(d) == Approx(710));
  d.stated_capacity = pounds_force(300);  // somebody knows better
  CHECK(lb(d) == Approx(300));
  d.stated_capacity = pounds_force(1200);  // beyond the test: wet, NDS Table 11.3.3
  CHECK(lb(d) == Approx(840));
  LedgerFixingDemand thin = us_fixing(FastenerKind::bolt, 0.375);
  thin.stated_capacity = pounds_force(300);
  CHECK(lb(thin) == Approx(210));
}

TEST_CASE("One fixing takes no more than half as much again before its neighbours help",
          "[na][closed-form]") {
  LedgerFixingDemand d = us_fixing(FastenerKind::bolt, 0.5);
  d.share = LedgerShare::alone;
  CHECK(lb(d) == Approx(1.5 * 710));
}

TEST_CASE("A wall holds an anchor's pull and shear by its own values, not by the ledger's",
          "[closed-form][eurocode]") {
  // V = 1.36 kN at 72 mm from the wall, lever 62 mm; wall 10 kN down and 8 kN out, gamma_M 2.5:
  // 1.36 x 72/62 / 3.2 + 1.36/4 = 0.494 + 0.340 = 0.834.
  LedgerFixingDemand d = ec_fixing(FastenerKind::anchor, 12);
  d.wall = BandKind::solid_masonry;
  d.penetration.reset();
  d.stated_capacity = kilonewtons(10);
  d.stated_pull_out = kilonewtons(8);
  d.shear = kilonewtons(1.36);
  d.couple_arm = mm(72);
  d.couple_lever = mm(62);
  CHECK(ec().ledger_pull_off(d, lasting()).utilisation ==
        Approx(1.36 * 72.0 / 62.0 / 3.2 + 1.36 / 4.0).epsilon(1e-6));
  // The ledger's side stays a check of its own.
  CHECK(ec().ledger_fixing(d, lasting()).utilisation > 1.36 / 4.0);
  // Likewise in North America: 300 x 2/2 / 600 + 300/800 = 0.875.
  LedgerFixingDemand a = us_fixing(FastenerKind::anchor, 0.5);
  a.wall = BandKind::concrete;
  a.stated_capacity = pounds_force(800);
  a.stated_pull_out = pounds_force(600);
  a.shear = pounds_force(300);
  a.couple_arm = a.couple_lever = inches(2);
  CHECK(us().ledger_pull_off(a, occupied()).utilisation == Approx(0.5 + 0.375));
}

TEST_CASE("A screw with little thread holds what the thickest screw inside the clause holds",
          "[closed-form][eurocode]") {
  // 12 mm with 47 mm of thread, under 6 d: as one of 47/6 = 7.83 mm in C14,
  // 0.52 x 7.83^-0.5 x 47^-0.1 x 290^0.8 x 7.83 x 47 x 7.83/8 = 4252 N.
  LedgerFixingDemand d = ec_fixing(FastenerKind::lag_screw, 12);
  d.pull = newtons(131);
  const Check check = ec().ledger_pull_off(d, lasting());
  CHECK(value(check, "F_ax") == Approx(4252.5).epsilon(1e-4));
  CHECK(std::isfinite(check.utilisation));
  CHECK(check.utilisation < 0.2);
  // No cliff at 6 d, never less for more thread, and less than 36 mm hold nothing.
  double before = 0.0;
  for (double thread = 36; thread <= 90; thread += 1.0) {
    d.penetration = mm(thread);
    const double F = value(ec().ledger_pull_off(d, lasting()), "F_ax");
    CHECK(F >= before);
    if (before > 0.0) CHECK(F < 1.1 * before);
    before = F;
  }
  d.penetration = mm(35);
  CHECK(std::isinf(ec().ledger_pull_off(d, lasting()).utilisation));
}

TEST_CASE("A hanger's nails go by the yield equations and the species they stand in",
          "[closed-form][na]") {
  // 10d x 1 1/2 in. (0.148 in.) through 0.036 in. of plate, 1.464 in. in the wood: C_p = 1.464/1.48.
  for (const char* species : {"Western Cedars No.2", "Hem-Fir No.2", "Southern Pine No.2"}) {
    const Timber wood = us().timber(species, Role::bearer, inches(1.5), inches(9.25), false);
    const double one =
        least_mode(wood.specific_gravity, 0.148, 1.464, 0.036, 61850, 90000) * 1.464 / 1.48;
    const Check ten = us().joist_end(hanger(us(), wood, 38.1, 235, 10), permanent());
    CHECK(ten.resistance == Approx(10 * one * 0.7 * 0.9).epsilon(1e-6));
  }
  // The flat 65 lb a nail that stood here before is below all of them.
  CHECK(least_mode(0.35, 0.148, 1.464, 0.036, 61850, 90000) == Approx(83.5).epsilon(1e-3));
  CHECK(least_mode(0.55, 0.148, 1.464, 0.036, 61850, 90000) == Approx(122.9).epsilon(1e-3));
}

TEST_CASE("A 3.75 mm nail through thin plate by (8.9)", "[closed-form][eurocode]") {
  // C16: 0.4 x 0.082 x 310 x 3.75^-0.3 x 28 x 3.75 = 718.2 N; k_mod 0.5, gamma_M 1.3: 276 N.
  const Timber wood = ec().timber("C16", Role::bearer, mm(47), mm(170), false);
  const Check ten = ec().joist_end(hanger(ec(), wood, 47, 170, 10), lasting());
  CHECK(value(ten, "R_1,k") == Approx(718.15).epsilon(1e-4));
  CHECK(ten.resistance == Approx(10 * 0.71815 * 0.5 / 1.3).epsilon(1e-4));
}

TEST_CASE("A hanger without nails carries nothing, whatever is stated for it", "[law]") {
  for (const Standard* standard : {&us(), &ec()}) {
    const bool american = standard == &us();
    const Timber wood = standard->timber(american ? "Hem-Fir No.2" : "C16", Role::bearer,
                                         mm(american ? 38.1 : 47), mm(american ? 235 : 195), false);
    EndDemand d = hanger(*standard, wood, 47, 195, 0);
    d.stated_capacity = kilonewtons(8);
    CHECK_FALSE(standard->joist_end_counts(d));
    CHECK(
        standard->joist_end(d, standard->combinations(Purpose::strength, {}).front()).resistance ==
        0.0);
  }
}

TEST_CASE("What is stated with all holes nailed counts by the nails that are there", "[law]") {
  // 195 mm deep: 10 nails in the carrying piece at least; 4 of them hold 0.4 of 8 kN.
  const Timber wood = ec().timber("C16", Role::bearer, mm(47), mm(195), false);
  EndDemand d = hanger(ec(), wood, 47, 195, 4);
  d.stated_capacity = kilonewtons(8);
  d.all_holes_nailed = false;
  CHECK(ec().joist_end(d, lasting()).resistance == Approx(0.4 * 8 * 0.5 / 1.3));
  d.all_holes_nailed = true;
  CHECK(ec().joist_end(d, lasting()).resistance == Approx(8 * 0.5 / 1.3));
  d.all_holes_nailed = false;
  d.fasteners = 16;
  CHECK(ec().joist_end(d, lasting()).resistance == Approx(8 * 0.5 / 1.3));
}

TEST_CASE("All holes nailed stands as assumed, by the size of the hanger", "[law]") {
  const Timber wood = ec().timber("C16", Role::bearer, mm(47), mm(170), false);
  EndDemand d = hanger(ec(), wood, 47, 170, 0);
  d.nails_known = NailsKnown::all_holes;
  const Check check = ec().joist_end(d, lasting());
  CHECK(value(check, "nails") == 10.0);
  for (const Step& step : check.steps) {
    if (step.symbol == "nails") CHECK(step.expression.find("assumed") == 0);
  }
}

}  // namespace fixings_test_file
