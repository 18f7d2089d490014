// Joints and ground of the Eurocode behind the Standard interface. The hand calculations are written out beside each check from
// the clauses of EN 1995-1-1 and EN 1997-1 (strengths: EN 338:2016; k_mod 0.50, 0.65 and 0.70 of
// Table 3.1, service class 3; gamma_M 1.3).
#include "underprop/standards/standard.hpp"

#include "support/catch.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <stdexcept>

namespace standard_joints_test_file {

using namespace underprop;
using namespace underprop::standards;
using loads::Nature;

namespace {

const Standard& ec() {
  static const std::unique_ptr<Standard> standard = make_eurocode_uk();
  return *standard;
}
Combination combination(const std::string& id, Purpose purpose = Purpose::strength,
                        Circumstances circumstances = {}) {
  for (const Combination& each : ec().combinations(purpose, circumstances)) {
    if (each.id == id) return each;
  }
  throw std::logic_error("no combination " + id);
}
Combination permanent() { return combination("6.10 G"); }
Combination medium() { return combination("6.10 G+Q"); }
Timber wood(const std::string& name) {
  return ec().timber(name, Role::joist, mm(47), mm(145), false);
}
double value(const Check& check, const std::string& symbol) {
  for (const Step& step : check.steps) {
    if (step.symbol == symbol) return step.value;
  }
  throw std::logic_error("no line " + symbol);
}
/// What holds for every check: finite lines, utilisation from demand and resistance.
void sound(const Check& check) {
  CHECK(!check.steps.empty());
  CHECK(!check.source.key.empty());
  for (const Step& step : check.steps) CHECK(std::isfinite(step.value));
  if (check.resistance > 0) {
    CHECK(check.utilisation == Approx(check.demand / check.resistance));
  } else {
    CHECK(check.utilisation == (check.demand > 0 ? std::numeric_limits<double>::infinity() : 0.0));
  }
}

GroundDemand pad() {
  GroundDemand d;
  d.load = kilonewtons(2);
  d.width = d.length = mm(450);
  d.thickness = mm(150);
  d.contact_width = d.contact_length = mm(150);
  d.depth = mm(150);
  return d;
}

}  // namespace

// --- joints ---------------------------------------------------------------------------------------

TEST_CASE("joist ends: hangers count, end grain and skew nails do not", "[published]") {
  EndDemand d;
  d.joist = d.carrier = wood("C16");
  d.joist_breadth = mm(47);
  d.joist_depth = mm(145);
  d.shear = kilonewtons(1.5);
  d.fasteners = 6;
  // Generic hanger, nails by (8.9) in C16: 6 x 718.15 N x 0.65/1.3 = 2.154 kN; beyond 12 nails no more.
  const Check check = ec().joist_end(d, medium());
  sound(check);
  CHECK(check.resistance == Approx(2.15445).epsilon(1e-4));
  d.fasteners = 20;
  CHECK(ec().joist_end(d, permanent()).resistance ==
        Approx(12 * 0.71815 * 0.5 / 1.3).epsilon(1e-4));
  d.stated_capacity = kilonewtons(10);  // declared: 10 x 0.65/1.3
  CHECK(ec().joist_end(d, medium()).resistance == Approx(5.0));
  CHECK(ec().joist_end_counts(d));
  d.sound = false;
  CHECK(!ec().joist_end_counts(d));
  CHECK(ec().joist_end(d, medium()).resistance == 0.0);
  d.sound = true;
  d.stated_capacity.reset();
  for (const EndKind kind : {EndKind::end_grain, EndKind::skew_nails}) {
    d.kind = kind;  // EN 1995-1-1 8.3.1.2(4)
    CHECK(!ec().joist_end_counts(d));
    const Check none = ec().joist_end(d, medium());
    sound(none);
    CHECK(none.resistance == 0.0);
  }
  d.kind = EndKind::resting;  // 0.65 x 2.2 x 47 x (40 + 30)/1.3 = 3.619 kN
  d.seat = mm(40);
  CHECK(ec().joist_end_counts(d));
  CHECK(ec().joist_end(d, medium()).resistance == Approx(3.619));
  d.kind = EndKind::hanger;
  d.fasteners = 0;
  CHECK(!ec().joist_end_counts(d));
}

TEST_CASE("a ledger strip is as good as its seat and the nails below the joist",
          "[eurocode][closed-form]") {
  // Round nails 4 x 100 through 38 mm into 45 mm of C16: f_h = 0.082 x 310 x 4^-0.3 = 16.77, M_y =
  // 0.3 x 600 x 4^2.6 = 6616 N mm, mode (d): 1.05 x 2549/3 (sqrt(4 + 0.8196) - 1) = 1066.5 N.
  EndDemand d;
  d.kind = EndKind::ledger_strip;
  d.joist = d.carrier = wood("C16");
  d.joist_breadth = mm(47);
  d.joist_depth = mm(145);
  d.carrier_breadth = mm(45);
  d.shear = kilonewtons(1);
  d.seat = mm(40);
  d.fasteners = 3;  // 0.65 x 3 x 1066.5/1.3 = 1.600 kN, less than the seat's 3.619 kN
  const Check three = ec().joist_end(d, medium());
  sound(three);
  CHECK(three.resistance == Approx(1.600).epsilon(1e-3));
  CHECK(three.source.where == "8.2.2(1) (8.6)");
  d.fasteners = 8;  // 4.27 kN: the seat governs
  CHECK(ec().joist_end(d, medium()).resistance == Approx(3.619));
  d.fasteners = 0;
  CHECK(!ec().joist_end_counts(d));
  CHECK(ec().joist_end(d, medium()).resistance == 0.0);
  d.stated_capacity = kilonewtons(2);  // 0.65 x 2/1.3
  CHECK(ec().joist_end_counts(d));
  CHECK(ec().joist_end(d, medium()).resistance == Approx(1.0));
  // Less than 8 d behind the strip holds nothing: EN 1995-1-1 8.3.1.2(1).
  d.stated_capacity.reset();
  d.fasteners = 3;
  d.carrier_breadth = mm(31);
  CHECK(ec().joist_end(d, medium()).resistance == 0.0);
}

TEST_CASE("ledger fixings: (8.6) in a timber band, nothing where the wall is not proved",
          "[published]") {
  LedgerFixingDemand d;
  d.ledger = wood("C16");
  d.diameter = mm(12);
  d.ledger_thickness = mm(45);
  d.ledger_depth = mm(170);
  d.shear = kilonewtons(1);
  // M12 4.6 across the grain: f_h,1 = 0.082 x 0.88 x 310/1.53 = 14.62, f_h,2 (C14) 13.68 MPa,
  // M_y = 76 745 N mm, t 45 and 45: mode c 3164 N governs; x 0.50/1.3 = 1.2170 kN.
  const Check bolt = ec().ledger_fixing(d, permanent());
  sound(bolt);
  CHECK(bolt.resistance == Approx(1.2170274));
  CHECK(ec().ledger_fixing_counts(d));
  // Lag screw 10: d_ef = 1.1 x 6.2 = 6.82, mode c 2006 N; 0.7716 kN.
  d.fixing = FastenerKind::lag_screw;
  d.diameter = mm(10);
  CHECK(ec().ledger_fixing(d, permanent()).resistance == Approx(0.7715758));
  d.diameter = mm(5);
  CHECK(!ec().ledger_fixing_counts(d));
  d.diameter = mm(12);
  d.fixing = FastenerKind::nail;
  CHECK(!ec().ledger_fixing_counts(d));

  d.fixing = FastenerKind::anchor;
  for (const BandKind wall : {BandKind::solid_masonry, BandKind::concrete}) {
    d.wall = wall;
    d.stated_capacity.reset();
    CHECK(!ec().ledger_fixing_counts(d));
    // Timber side (8.9): 0.4 x 14.62 x 45 x 12 = 3158 N, 1.2146 kN; wall side 6/2.5 = 2.4 kN.
    d.stated_capacity = kilonewtons(6);
    CHECK(ec().ledger_fixing(d, permanent()).resistance == Approx(1.2146389));
    d.stated_capacity = kilonewtons(2);
    CHECK(ec().ledger_fixing(d, permanent()).resistance == Approx(0.8));
    d.stated_capacity = kilonewtons(0);
    CHECK(!ec().ledger_fixing_counts(d));
  }
  for (const BandKind wall :
       {BandKind::veneer, BandKind::cavity_outer_leaf, BandKind::insulation}) {
    d.wall = wall;
    d.stated_capacity = kilonewtons(10);
    CHECK(!ec().ledger_fixing_counts(d));
    const Check none = ec().ledger_fixing(d, medium());
    sound(none);
    CHECK(none.resistance == 0.0);
  }
  d.wall = BandKind::timber_band;
  d.sound = false;
  CHECK(!ec().ledger_fixing_counts(d));
  d.sound = true;
  d.stated_capacity.reset();
  d.fixing = FastenerKind::bolt;
  d.ledger_depth = mm(80);  // less than 7 d = 84
  CHECK(!ec().ledger_fixing_counts(d));
}

TEST_CASE("bolts through a bearer beside a post: (8.6), (8.7), (8.34), (8.4)", "[published]") {
  SideBoltDemand d;
  d.bearer = wood("C16");
  d.post = wood("C24");
  d.bearer_breadth = mm(94);
  d.bearer_depth = mm(220);
  d.post_breadth = mm(100);
  d.bolts = 3;
  d.diameter = mm(12);
  d.shear = kilonewtons(5);
  // f_h,1 = 14.62 (across), f_h,2 = 25.26 MPa (along): mode f 6716.6 N; a_1 = (220 - 84)/2 = 68,
  // n_ef = 3^0.9 (68/156)^0.25 = 2.1840; 14 669 N < F_90,Rk 19 519 N; x 0.65/1.3 = 7.3346 kN.
  const Check single = ec().side_bolts(d, medium());
  sound(single);
  CHECK(value(single, "n_ef") == Approx(2.1840129));
  CHECK(single.resistance == Approx(7.3345967));
  // More bolts than fit count no more.
  d.bolts = 8;
  CHECK(ec().side_bolts(d, medium()).resistance == Approx(7.3345967));
  // On both sides, 47 mm each: mode j 4839.6 N, 2 planes x 2.184 = 21 140 N > F_90,Rk: 9.7597 kN.
  d.one_side = false;
  const Check both = ec().side_bolts(d, medium());
  CHECK(both.resistance == Approx(9.7597172));
  CHECK(both.source.where.find("8.4") != std::string::npos);
  d.bolts = 0;
  CHECK(ec().side_bolts(d, medium()).resistance == 0.0);
  d.bolts = 2;
  d.bearer_depth = mm(70);
  sound(ec().side_bolts(d, medium()));
  CHECK(ec().side_bolts(d, medium()).resistance == 0.0);
}

TEST_CASE("hold-down: 8.3.2, 8.7.2", "[published]") {
  HoldDownDemand d;
  d.joist = d.bearer = wood("C14");
  d.uplift = newtons(200);
  const Combination pull = combination("EQU 0.9 G+Q", Purpose::uplift);
  CHECK(ec().hold_down(d, pull).resistance == 0.0);
  // Two 4 mm smooth nails, 50 mm: f_ax = 2/3 x 20e-6 x 290^2 = 1.121; 224.3 N each x 2 x 0.5.
  d.kind = HoldDownKind::nailed;
  CHECK(ec().hold_down(d, pull).resistance == Approx(0.2242667).epsilon(1e-4));
  CHECK(ec().hold_down(d, combination("EQU 1.1 G", Purpose::uplift)).resistance == 0.0);
  // Two 6 mm screws: heads 2^0.9 x 70e-6 x 290^2 x 11.5^2 = 1452.8 N, less than the thread's 4183 N.
  d.kind = HoldDownKind::screwed;
  CHECK(ec().hold_down(d, pull).resistance == Approx(0.7264182));
  d.kind = HoldDownKind::strapped;  // two nails of 600 N
  CHECK(ec().hold_down(d, pull).resistance == Approx(0.6));
  d.stated_capacity = kilonewtons(4);
  CHECK(ec().hold_down(d, pull).resistance == Approx(2.0));
  sound(ec().hold_down(d, pull));
}

TEST_CASE("slip moduli: Table 7.1", "[published]") {
  // Bolt: 420^1.5 x 12/23 = 4490.8 N/mm in C24 (rho_mean 420).
  CHECK(ec().bolt_slip(mm(12), wood("C24")).value() == Approx(std::pow(420, 1.5) * 12 / 23));
  const double one = ec().hanger_slip(1, wood("C16")).value();
  CHECK(one > 500);
  CHECK(one < 1200);
  CHECK(ec().hanger_slip(8, wood("C16")).value() == Approx(8 * one));
  CHECK(ec().hanger_slip(0, wood("C16")).value() == 0.0);
}

// --- ground ---------------------------------------------------------------------------------------

TEST_CASE("ground: presumed pressures on the working area", "[published]") {
  const Combination service = combination("characteristic", Purpose::ground);
  // Unknown ground, bedded 150: 50 kPa. B' = min(150 + 300; 450) = 450; own 24 x 0.15 - 16 x 0.15
  // = 1.2 kPa; q = 2/0.2025 + 1.2 = 11.0765 kPa.
  GroundDemand d = pad();
  const Check check = ec().ground(d, service);
  sound(check);
  CHECK(check.demand == Approx(11.0765432));
  CHECK(check.resistance == 50.0);
  // The post's own weight stands on the footing too.
  d.post_weight = kilonewtons(0.2);
  CHECK(ec().ground(d, service).demand == Approx(2.2 / 0.2025 + 1.2));
  d.post_weight = Force(0.0);
  d.outlook = Outlook::favourable;
  CHECK(ec().ground(d, service).resistance == 100.0);
  // EN 1992-1-1 12.9.3: under 1.5 x 100 kPa plain concrete of 0.6 x 1.1/1.5 = 0.44 MPa asks for a
  // thickness of sqrt(3 x 150/440)/0.85 = 1.18977 projections: 150/1.18977 = 126.07 mm, not 150.
  CHECK(value(ec().ground(d, service), "s") == Approx(0.1260748));
  CHECK(ec().ground(d, service).demand == Approx(2 / (0.4021497 * 0.4021497) + 1.2));
  d.outlook = Outlook::cautious;
  d.depth = mm(100);  // counts as on the surface; 24 x 0.15 - 16 x 0.10 = 2.0
  CHECK(ec().ground(d, service).resistance == 25.0);
  CHECK(ec().ground(d, service).demand == Approx(2 / 0.2025 + 2.0));
  d = pad();
  d.below_topsoil = false;
  CHECK(ec().ground(d, service).resistance == 25.0);
  d = pad();
  d.waterlogged = true;
  CHECK(ec().ground(d, service).resistance == 25.0);
  d = pad();
  d.spreads = false;  // 150 x 150 works
  CHECK(ec().ground(d, service).demand == Approx(2 / 0.0225 + 1.2));
  d = pad();
  d.offset = mm(50);  // B' = 450 - 100, L' = 450
  CHECK(ec().ground(d, service).demand == Approx(2 / (0.35 * 0.45) + 1.2));
  d.offset = mm(-50);
  CHECK(ec().ground(d, service).demand == Approx(2 / (0.35 * 0.45) + 1.2));
  d.offset = mm(151);  // e > B/3
  sound(ec().ground(d, service));
  CHECK(ec().ground(d, service).resistance == 0.0);
}

TEST_CASE("ground: small pads on sand, EN 1997-1 Annex D by design approach 1", "[published]") {
  const Combination service = combination("characteristic", Purpose::ground);
  // 300 mm square on loose sand, phi' 28, on the surface: R = 26.04 (C1), 11.69 kPa (C2);
  // min(26.04/1.5; 11.69/1.3) = 8.994 kPa, less than the presumed 25.
  GroundDemand d = pad();
  d.soil = SoilKind::loose_sand;
  d.width = d.length = mm(300);
  d.depth = mm(0);
  const Check loose = ec().ground(d, service);
  sound(loose);
  CHECK(value(loose, "R_C1") == Approx(26.0431144));
  CHECK(value(loose, "R_C2") == Approx(11.6926246));
  CHECK(loose.resistance == Approx(8.9943266));
  // 150 mm down, medium dense, phi' 32: 139.89 and 67.13; 67.13/1.3 - 2.55 = 49.088.
  d.soil = SoilKind::medium_sand;
  d.depth = mm(150);
  CHECK(ec().ground(d, service).resistance == Approx(49.0883331));
  d.waterlogged = true;  // 8 kN/m3: 23.100, less than half of the presumed 100
  CHECK(ec().ground(d, service).resistance == Approx(23.1003921));
  // 450 mm square, 450 down, dense, phi' 36: 200.7 kPa, so the presumed 150 governs.
  d = pad();
  d.soil = SoilKind::dense_sand;
  d.depth = mm(450);
  CHECK(ec().ground(d, service).resistance == 150.0);
}

TEST_CASE("ground: screw piles and faults of the caller", "[law]") {
  const Combination service = combination("characteristic", Purpose::ground);
  GroundDemand d;
  d.type = FootingType::screw_pile;
  d.load = kilonewtons(8);
  sound(ec().ground(d, service));
  CHECK(ec().ground(d, service).resistance == 0.0);
  d.stated_capacity = kilonewtons(20);
  CHECK(ec().ground(d, service).utilisation == Approx(0.4));
  CHECK_THROWS_AS(ec().ground(pad(), permanent()), std::invalid_argument);
  CHECK_THROWS_AS(ec().ground(pad(), ec().combinations(Purpose::service_now, {}).front()),
                  std::invalid_argument);
  d = pad();
  d.width = mm(0);
  CHECK_THROWS_AS(ec().ground(d, service), std::invalid_argument);
}

TEST_CASE("moduli, limits and loads come from the tables", "[published]") {
  const GroundModuli clay = ec().moduli(SoilKind::firm_clay);
  CHECK(clay.soft == megapascals(20));
  CHECK(clay.stiff == megapascals(40));
  CHECK(clay.soft < clay.middle);
  CHECK(clay.middle < clay.stiff);
  CHECK(clay.poisson == 0.5);
  CHECK(ec().limits().deflection_now == 0);
  CHECK(ec().limits().deflection_long == 150);
  CHECK(ec().limits().comfort_long == 250);
  CHECK(ec().limits().cantilever_long == 75);
  CHECK(ec().limits().tilt == 150);
  CHECK(ec().limits().post_sway_height == 600);
  CHECK(in_kilopascals(ec().loads(mm(601)).imposed) == Approx(2.5));
  CHECK(in_kilopascals(ec().loads(mm(600)).imposed) == Approx(1.5));
  CHECK(in_newtons(ec().loads(mm(600)).concentrated) == Approx(1400));
  CHECK(ec().loads(mm(0)).person == kilograms(91));
  CHECK(ec().loads(mm(0)).sway_share_of_vertical == 0.025);
  CHECK(ec().loads(mm(0)).sway_share_of_people == 0.1);
}

TEST_CASE("more bolts never carry less", "[law]") {
  SideBoltDemand d;
  d.bearer = d.post = wood("C16");
  d.bearer_breadth = mm(47);
  d.bearer_depth = mm(300);
  d.post_breadth = mm(95);
  d.diameter = mm(10);
  d.shear = kilonewtons(1);
  double before = 0.0;
  for (d.bolts = 1; d.bolts <= 8; ++d.bolts) {
    const double carried = ec().side_bolts(d, medium()).resistance;
    CHECK(carried >= before);
    before = carried;
  }
}

}  // namespace standard_joints_test_file
