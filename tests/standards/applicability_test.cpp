// Outside its range of validity a rule gives no capacity or passes to a stated simpler rule; it never
// extrapolates. Each case stands on both sides of a limit that the clause names.
#include "support/catch.hpp"
#include "underprop/standards/standard.hpp"

#include <memory>
#include <string>

using namespace underprop;
using namespace underprop::standards;

namespace {

const Standard& ec() {
  static const std::unique_ptr<Standard> standard = make_eurocode_uk();
  return *standard;
}
const Standard& us() {
  static const std::unique_ptr<Standard> standard = make_north_america_us();
  return *standard;
}
Combination lasting(const Standard& standard) {
  return standard.combinations(Purpose::strength, {}).front();
}
double value(const Check& check, const std::string& symbol) {
  for (const Step& step : check.steps) {
    if (step.symbol == symbol) return step.value;
  }
  throw std::logic_error("no line " + symbol);
}
Timber c24() { return ec().timber("C24", Role::bearer, mm(95), mm(195), false); }
Timber hem_fir() {
  return us().timber("Hem-Fir No.2", Role::bearer, inches(3), inches(9.25), false);
}

BearingDemand on_post(const Timber& timber) {
  BearingDemand d;
  d.timber = timber;
  d.force = kilonewtons(10);
  d.width = mm(95);
  d.length = mm(95);
  d.end_distance = mm(600);
  d.depth = mm(195);
  return d;
}

}  // namespace

TEST_CASE("k_c,90 is above 1 only with softwood, a known clear distance and l_1 of 2 h or more",
          "[standards][eurocode]") {
  // EN 1995-1-1 6.1.5(4): 1.5 on discrete supports; 6.1.5(2): otherwise 1.
  BearingDemand d = on_post(c24());
  const auto k = [&] { return value(ec().bearing(d, lasting(ec())), "k_c,90"); };
  CHECK(k() == 1.0);  // not recorded: a board's load may lie right over the support
  d.clear_to_next = mm(389);
  CHECK(k() == 1.0);
  d.clear_to_next = mm(390);
  CHECK(k() == 1.5);
  // 0.5 x 1.5 x 2.5 x 95 x (95 + 2 x 30)/1.3 N.
  CHECK(ec().bearing(d, lasting(ec())).resistance ==
        Approx(0.5 * 1.5 * 2.5 * 95 * 155 / 1.3 / 1000));
  d.depth = mm(0);  // not known
  CHECK(k() == 1.0);
  d = on_post(ec().timber("D30", Role::bearer, mm(95), mm(195), false));
  d.clear_to_next = mm(900);
  CHECK(k() == 1.0);
}

TEST_CASE("a contact is lengthened by no more than 30 mm, its own length and the way to the end",
          "[standards][eurocode]") {
  // EN 1995-1-1 6.1.5(1).
  BearingDemand d = on_post(c24());
  const auto l_ef = [&] { return value(ec().bearing(d, lasting(ec())), "l_ef"); };
  CHECK(l_ef() == 95 + 60);
  d.end_distance = mm(10);
  CHECK(l_ef() == 95 + 40);
  d.end_distance = mm(0);
  CHECK(l_ef() == 95 + 30);
  d.length = mm(20);
  CHECK(l_ef() == 20 + 20);
  // What presses on the other face takes nothing from it: l_1 of (1) lies between contacts of one face.
  d.length = mm(95);
  d.end_distance = mm(600);
  d.clear_to_next = mm(0);
  CHECK(l_ef() == 95 + 60);
}

TEST_CASE("C_b helps only short contacts away from the end (NDS 3.10.4)",
          "[standards][north-america]") {
  BearingDemand d = on_post(hem_fir());
  const auto C_b = [&] { return value(us().bearing(d, lasting(us())), "C_b"); };
  d.length = inches(3.5);
  CHECK(C_b() == Approx(3.875 / 3.5));
  d.end_distance = inches(2.9);
  CHECK(C_b() == 1.0);
  d.end_distance = inches(20);
  d.length = inches(6);
  CHECK(C_b() == 1.0);
}

TEST_CASE("more than two packers halve the contact under both standards", "[standards]") {
  for (const Standard* standard : {&ec(), &us()}) {
    BearingDemand d = on_post(standard == &ec() ? c24() : hem_fir());
    d.end_distance = mm(0);
    d.length = mm(160);
    const double full = standard->bearing(d, lasting(*standard)).resistance;
    d.packers = 2;
    CHECK(standard->bearing(d, lasting(*standard)).resistance == full);
    d.packers = 3;
    const double halved = standard->bearing(d, lasting(*standard)).resistance;
    d.packers = 0;
    d.length = mm(80);
    CHECK(halved == Approx(standard->bearing(d, lasting(*standard)).resistance));
    CHECK(halved < full);
  }
}

TEST_CASE("fixings outside the range of their clauses carry nothing", "[standards]") {
  LedgerFixingDemand d;
  d.ledger_thickness = mm(45);
  d.ledger_depth = mm(235);
  d.shear = kilonewtons(1);
  SECTION("Eurocode") {
    d.ledger = c24();
    const auto R = [&](FastenerKind kind, double diameter) {
      d.fixing = kind;
      d.diameter = mm(diameter);
      return ec().ledger_fixing(d, lasting(ec())).resistance;
    };
    CHECK(R(FastenerKind::screw, 5.9) == 0.0);  // thinner than a structural screw
    CHECK(R(FastenerKind::screw, 8.0) > 0.0);
    CHECK(R(FastenerKind::bolt, 12.0) > 0.0);
    CHECK(R(FastenerKind::bolt, 31.0) == 0.0);  // EN 1995-1-1 8.5.1.1(2): up to 30 mm
    CHECK(R(FastenerKind::nail, 6.0) == 0.0);
    d.ledger_depth = mm(83);  // Table 8.4: 4 d + 3 d = 84 mm
    CHECK(R(FastenerKind::bolt, 12.0) == 0.0);
    d.ledger_depth = mm(84);
    CHECK(R(FastenerKind::bolt, 12.0) > 0.0);
    // 8.3.1.2(6): a thinner piece splits under such screws unless predrilled; 7 d_ef = 38.2 mm.
    d.ledger_thickness = mm(38);
    CHECK(R(FastenerKind::screw, 8.0) == 0.0);
    d.ledger_thickness = mm(39);
    CHECK(R(FastenerKind::screw, 8.0) > 0.0);
  }
  SECTION("North America") {
    d.ledger = hem_fir();
    const auto R = [&](FastenerKind kind, double diameter_in) {
      d.fixing = kind;
      d.diameter = inches(diameter_in);
      return us().ledger_fixing(d, lasting(us())).resistance;
    };
    CHECK(R(FastenerKind::bolt, 0.24) == 0.0);
    CHECK(R(FastenerKind::bolt, 0.375) > 0.0);
    CHECK(R(FastenerKind::bolt, 1.0) > 0.0);
    CHECK(R(FastenerKind::bolt, 1.01) == 0.0);  // NDS 12.1.3: up to 1 in.
    CHECK(R(FastenerKind::nail, 0.375) == 0.0);
    CHECK(R(FastenerKind::screw, 0.375) == 0.0);
    SideBoltDemand side;
    side.bearer = side.post = hem_fir();
    side.bearer_breadth = side.post_breadth = inches(3);
    side.bearer_depth = inches(9.25);
    side.bolts = 2;
    side.shear = kilonewtons(1);
    side.diameter = inches(1.0);
    CHECK(us().side_bolts(side, lasting(us())).resistance > 0.0);
    side.diameter = inches(1.01);
    CHECK(us().side_bolts(side, lasting(us())).resistance == 0.0);
  }
}

TEST_CASE("members too slender for their rule carry nothing", "[standards]") {
  ColumnDemand post;
  post.timber = us().timber("Hem-Fir No.2", Role::post, inches(3.5), inches(3.5), false);
  post.breadth = post.depth = inches(3.5);
  post.axial = kilonewtons(1);
  post.height = inches(3.5 * 49.9);
  CHECK(us().column(post, lasting(us())).resistance > 0.0);
  post.height = inches(3.5 * 50.1);  // NDS 3.7.1.4
  CHECK(us().column(post, lasting(us())).resistance == 0.0);

  BendingDemand joist;
  joist.timber = us().timber("Hem-Fir No.2", Role::joist, inches(1.5), inches(9.25), false);
  joist.breadth = inches(1.5);
  joist.depth = inches(9.25);
  joist.moment = Moment(1e6);
  joist.unbraced = feet(20);
  CHECK(us().bending(joist, lasting(us())).resistance > 0.0);
  joist.unbraced = feet(40);  // R_B = sqrt(1.84 x 480 x 9.25)/1.5 = 60: NDS 3.3.3.7
  CHECK(us().bending(joist, lasting(us())).resistance == 0.0);

  // A notch deeper than a quarter of the depth: NDS 4.4.3.2.
  ShearDemand shear;
  shear.timber = joist.timber;
  shear.breadth = joist.breadth;
  shear.depth = joist.depth;
  shear.shear = kilonewtons(1);
  shear.notch_depth = inches(9.25 * 0.249);
  CHECK(us().shear(shear, lasting(us())).resistance > 0.0);
  shear.notch_depth = inches(9.25 * 0.26);
  CHECK(us().shear(shear, lasting(us())).resistance == 0.0);
}
