// The Eurocode behind the Standard interface. The hand calculations are written out beside each check from
// the clauses of EN 1995-1-1 and EN 1997-1 (strengths: EN 338:2016; k_mod 0.50, 0.65 and 0.70 of
// Table 3.1, service class 3; gamma_M 1.3).
#include "underprop/standards/standard.hpp"

#include "support/catch.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <stdexcept>

namespace standard_test_file {

namespace eurocode_standard_test_file {

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

BendingDemand bend(const std::string& name = "C16") {
  BendingDemand d;
  d.timber = wood(name);
  d.breadth = mm(47);
  d.depth = mm(145);
  d.moment = Moment(0.9e6);
  d.unbraced = mm(2400);
  d.edge_held = d.ends_held = true;
  return d;
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

// --- combinations ---------------------------------------------------------------------------------

TEST_CASE("strength combinations: EN 1990 (6.10) with the k_mod of the shortest action",
          "[published]") {
  const auto all = ec().combinations(Purpose::strength, {});
  REQUIRE(all.size() == 2);
  CHECK(all[0].id == "6.10 G");
  CHECK(all[0].text == "1.35 G");
  CHECK(all[0].duration_factor == 0.50);
  CHECK(at(all[0].factors, Nature::contents) == 1.35);
  CHECK(at(all[0].factors, Nature::people) == 0.0);
  CHECK(all[1].id == "6.10 G+Q");
  CHECK(all[1].text == "1.35 G + 1.5 Q");
  CHECK(all[1].duration_factor == 0.65);
  CHECK(at(all[1].factors, Nature::people) == 1.5);
  CHECK(at(all[1].factors, Nature::imposed) == 1.5);

  const Combination led = combination("6.10 G+Q+S", Purpose::strength, {true, true});
  CHECK(led.text == "1.35 G + 1.5 Q + 0.75 S");
  CHECK(led.duration_factor == 0.70);
  CHECK(combination("6.10 G+S+Q", Purpose::strength, {true, true}).text ==
        "1.35 G + 1.05 Q + 1.5 S");
}

TEST_CASE("contents that come and go: 1.5 with long-term, never 1.35 with long-term",
          "[published]") {
  for (const bool snow : {false, true}) {
    for (const Combination& c : ec().combinations(Purpose::strength, {false, snow})) {
      const double factor = at(c.factors, Nature::contents);
      CHECK((factor == 0.0 || factor == 1.5));
      if (factor == 0.0) CHECK(c.duration_factor == 0.50);
    }
    for (const Combination& c : ec().combinations(Purpose::strength, {true, snow})) {
      CHECK(at(c.factors, Nature::contents) == 1.35);
      CHECK(c.duration_factor != 0.55);
    }
  }
  const Combination water = combination("6.10 G+W", Purpose::strength, {false, false});
  CHECK(water.duration_factor == 0.55);
  CHECK(water.text == "1.35 G + 1.5 W");
  CHECK(combination("6.10 G+W+Q", Purpose::strength, {false, false}).duration_factor == 0.65);
}

TEST_CASE("uplift: water never stabilises", "[published]") {
  const auto all = ec().combinations(Purpose::uplift, {});
  CHECK(at(all.front().factors, Nature::self_weight) == 0.9);
  CHECK(at(all.front().factors, Nature::dry) == 0.9);
  CHECK(at(all.front().factors, Nature::contents) == 0.0);
  CHECK(at(all.front().factors, Nature::imposed) == 1.5);
  for (const Combination& c : all) {
    CHECK(at(c.factors, Nature::self_weight) == 0.9);
    CHECK(at(c.factors, Nature::snow) == 0.0);
  }
}

TEST_CASE("service and ground: characteristic values and nothing else", "[published]") {
  const Combination now = ec().combinations(Purpose::service_now, {}).front();
  CHECK(at(now.factors, Nature::people) == 1.0);
  const Combination later = ec().combinations(Purpose::service_long, {}).front();
  CHECK(at(later.factors, Nature::people) == 0.3);
  CHECK(at(later.factors, Nature::contents) == 1.0);
  for (const bool water : {false, true}) {
    for (const Combination& c : ec().combinations(Purpose::ground, {water, true})) {
      for (const double factor : c.factors) CHECK(factor <= 1.0);
      CHECK(at(c.factors, Nature::contents) == 1.0);
    }
  }
  CHECK(combination("characteristic", Purpose::ground).text == "1 G + 1 Q");
  CHECK(combination("characteristic G", Purpose::ground).text == "1 G");
}

TEST_CASE("ids of combinations are unique within the standard", "[law]") {
  for (const Circumstances c : {Circumstances{true, true}, Circumstances{false, true}}) {
    std::set<std::string> ids;
    std::size_t count = 0;
    for (const Purpose p : {Purpose::strength, Purpose::uplift, Purpose::service_now,
                            Purpose::service_long, Purpose::ground}) {
      for (const Combination& each : ec().combinations(p, c)) {
        ids.insert(each.id);
        ++count;
      }
    }
    CHECK(ids.size() == count);
  }
}

// --- timber ---------------------------------------------------------------------------------------

TEST_CASE("timber by EN 338:2016, creep by EN 1995-1-1 (2.7)", "[published]") {
  const Timber c24 = wood("C24");
  CHECK(c24.bending == megapascals(24));
  CHECK(c24.shear == megapascals(4.0));  // the 2016 value, to be used with k_cr
  CHECK(in_kg_per_m3(c24.density) == Approx(350));
  CHECK(ec().elastic(c24, Term::now).E == megapascals(11000));
  CHECK(in_megapascals(ec().elastic(c24, Term::long_term).E) == Approx(11000.0 / 3));  // k_def 2.0
  CHECK(in_megapascals(ec().elastic(c24, Term::long_term).G) == Approx(230));
  CHECK(ec().E_across(c24) == megapascals(370));
  CHECK(ec().timber_names().front() == "C14");
  for (const std::string& name : ec().timber_names()) CHECK(wood(name).label == name);
  try {
    (void)wood("C17");
    FAIL("C17 was accepted");
  } catch (const std::out_of_range& error) {
    CHECK(std::string(error.what()).find("C16") != std::string::npos);
  }
  CHECK_THROWS_AS(ec().timber("C16", Role::joist, mm(0), mm(145), false), std::invalid_argument);
}

// --- members --------------------------------------------------------------------------------------

TEST_CASE("bending, held: 6.1.6", "[published]") {
  // k_h = (150/145)^0.2 = 1.0068; f_m,d = 0.50 x 1.0068 x 16/1.3 = 6.1957 MPa;
  // W = 47 x 145^2/6 = 164 696 mm3; M_R,d = 1.02041 kNm; 0.9/1.02041 = 0.882.
  const Check check = ec().bending(bend(), permanent());
  sound(check);
  CHECK(check.unit == "kNm");
  CHECK(check.resistance == Approx(1.0204081));
  CHECK(check.utilisation == Approx(0.882));
  CHECK(value(check, "f_m,d") == Approx(6.1957129));
  CHECK(value(check, "k_crit") == 1.0);

  BendingDemand shared = bend();
  shared.sharing = true;  // k_sys 1.1
  CHECK(ec().bending(shared, permanent()).resistance == Approx(1.1 * 1.0204081));
}

TEST_CASE("bending, not held: 6.3.3", "[published]") {
  BendingDemand d = bend();
  d.edge_held = false;
  // l_ef = 2400 + 2 x 145 = 2690; sigma_crit = 0.78 x 47^2 x 5400/(145 x 2690) = 23.854;
  // lambda = sqrt(16/23.854) = 0.8190; k_crit = 1.56 - 0.75 x 0.8190 = 0.94576.
  const Check held_at_ends = ec().bending(d, permanent());
  sound(held_at_ends);
  CHECK(value(held_at_ends, "sigma_m,crit") == Approx(23.8541418));
  CHECK(value(held_at_ends, "k_crit") == Approx(0.9457582));
  CHECK(held_at_ends.resistance == Approx(0.9650593));
  d.ends_held = false;  // l_ef = 1.4 x 2400 + 290 = 3650; k_crit = 0.84450
  CHECK(value(ec().bending(d, permanent()), "k_crit") == Approx(0.8445));
  d.edge_held = true;  // boards on top do not hold an end that may roll
  CHECK(value(ec().bending(d, permanent()), "k_crit") == Approx(0.8445));

  // C24 38 x 235, l = 4000: lambda 1.7392, k_crit = 1/lambda^2 = 0.33060; M_R,d = 1.38757 kNm.
  BendingDemand slim = bend("C24");
  slim.breadth = mm(38);
  slim.depth = mm(235);
  slim.unbraced = mm(4000);
  slim.edge_held = false;
  const Check check = ec().bending(slim, medium());
  CHECK(value(check, "k_crit") == Approx(0.3306031));
  CHECK(check.resistance == Approx(1.3875742));
}

TEST_CASE("bending of hardwood goes by (6.31), close to (6.32) where E/G = 16", "[law]") {
  // For a thin rectangle with G = E/16: pi sqrt(1/16 (1 - 0.63 b/h)) = 0.785 sqrt(1 - 0.63 b/h).
  BendingDemand d = bend("D30");
  d.edge_held = false;
  const double general = value(ec().bending(d, permanent()), "sigma_m,crit");
  const double simple = 0.78 * 47 * 47 * 9200 / (145.0 * 2690);
  CHECK(general == Approx(simple * 0.7853982 / 0.78 * std::sqrt(1 - 0.63 * 47 / 145)));
}

TEST_CASE("shear and a notch: 6.1.7, 6.5.2", "[published]") {
  ShearDemand d;
  d.timber = wood("C16");
  d.breadth = mm(47);
  d.depth = mm(145);
  d.shear = kilonewtons(2);
  // f_v,d = 0.65 x 3.2/1.3 = 1.6; b_ef = 0.67 x 47; V_R,d = 1.6 x 31.49 x 145/1.5 = 4.8705 kN.
  const Check plain = ec().shear(d, medium());
  sound(plain);
  CHECK(plain.resistance == Approx(4.8704533));
  // 35 mm notch, corner 50 mm from the reaction: a = 110/145, k_v = 0.62379,
  // V_R,d = 0.62379 x 1.6 x 31.49 x 110/1.5 = 2.3048 kN.
  d.notch_depth = mm(35);
  d.notch_distance = mm(50);
  const Check notched = ec().shear(d, medium());
  sound(notched);
  CHECK(value(notched, "k_v") == Approx(0.6237886));
  CHECK(notched.resistance == Approx(2.3047906));
  d.notch_depth = mm(0);
  CHECK(ec().shear(d, medium()).resistance == Approx(4.8704533));
  d.notch_depth = mm(145);
  CHECK_THROWS_AS(ec().shear(d, medium()), std::invalid_argument);
}

TEST_CASE("bearing across the grain: 6.1.5", "[published]") {
  BearingDemand d;
  d.timber = wood("C16");
  d.force = kilonewtons(4);
  d.width = mm(47);
  d.length = mm(100);
  d.depth = mm(145);
  // At the very end: l_ef = 100 + 30; R_d = 0.50 x 2.2 x 47 x 130/1.3 = 5.17 kN.
  const Check check = ec().bearing(d, permanent());
  sound(check);
  CHECK(check.resistance == Approx(5.17));
  d.end_distance = mm(20);  // l_ef = 150
  CHECK(ec().bearing(d, permanent()).resistance == Approx(5.9653846));
  d.end_distance = mm(0);
  d.packers = 2;
  CHECK(ec().bearing(d, permanent()).resistance == Approx(5.17));
  d.packers = 3;  // 50 + 30
  CHECK(ec().bearing(d, permanent()).resistance == Approx(3.1815385));
  // Calcul de structures en bois (2008): C18, service class 3, permanent: f_c,90,d = 0.846 MPa.
  d.packers = 0;
  d.timber = wood("C18");
  CHECK(ec().bearing(d, permanent()).resistance * 1e3 / (47 * 130) == Approx(0.846).epsilon(1e-3));
  d.length = mm(0);
  const Check gone = ec().bearing(d, permanent());
  sound(gone);
  CHECK(gone.resistance == 0.0);
}

TEST_CASE("column: 6.3.2", "[published]") {
  ColumnDemand d;
  d.timber = wood("C24");
  d.breadth = d.depth = mm(100);
  d.height = mm(2400);
  d.axial = kilonewtons(20);
  // lambda = 83.14, lambda_rel = 1.4098, k_c = 0.42172; f_c,0,d = 10.5; N_R,d = 44.281 kN.
  const Check pinned = ec().column(d, medium());
  sound(pinned);
  CHECK(value(pinned, "k_c") == Approx(0.4217197));
  CHECK(pinned.resistance == Approx(44.2805688));

  // With 0.5 kNm: 2.0/(0.42172 x 10.5) + 3.0/(0.65 x 1.0845 x 24/1.3) = 0.68219, (6.24).
  d.moment = Moment(0.5e6);
  const Check bent = ec().column(d, medium());
  sound(bent);
  CHECK(bent.utilisation == Approx(0.6821924));
  CHECK(bent.resistance == 1.0);

  d.moment = Moment(0);
  d.braced = false;  // free to sway on a hinge: no buckling load
  const Check loose = ec().column(d, medium());
  sound(loose);
  CHECK(loose.resistance == 0.0);
  d.base_fixed = true;  // cantilever, K = 2.1: k_c = 0.10683, N_R,d = 11.218 kN
  CHECK(ec().column(d, medium()).resistance == Approx(11.2175812));
}

TEST_CASE("stocky column: 6.2.4 squares the axial term", "[published]") {
  ColumnDemand d;
  d.timber = wood("C24");
  d.breadth = d.depth = mm(200);
  d.height = mm(500);
  d.axial = kilonewtons(100);
  d.moment = Moment(4e6);
  // lambda_rel = 0.147; (2.5/10.5)^2 + 3.0/12.0 = 0.30669.
  const Check check = ec().column(d, medium());
  CHECK(check.utilisation == Approx(0.3066893));
}

TEST_CASE("held upright: depth to breadth by BS 5268-2 Table 19", "[published]") {
  // From memory: 2 nothing held, 3 ends, 5 ends and edge. 145/47 = 3.085.
  CHECK(ec().held_upright(mm(47), mm(145), false, false).utilisation == Approx(145.0 / 47 / 2));
  CHECK(ec().held_upright(mm(47), mm(145), false, true).utilisation == Approx(145.0 / 47 / 2));
  CHECK(ec().held_upright(mm(47), mm(145), true, false).utilisation == Approx(145.0 / 47 / 3));
  CHECK(ec().held_upright(mm(47), mm(145), true, true).utilisation == Approx(145.0 / 47 / 5));
}

TEST_CASE("board under 1.4 kN, C16 120 x 28 at 400 mm", "[published]") {
  // k_h = 1.3; f_m,d = 0.70 x 1.3 x 16/1.3 = 11.2; M_R,d = 11.2 x 120 x 28^2/6 = 0.175616 kNm;
  // one span: 1.5 x 1.4 x 0.4/4 = 0.21; two spans: 13/64 x 2.1 x 0.4 = 0.170625 kNm.
  const Timber c16 = ec().timber("C16", Role::board, mm(120), mm(28), false);
  const Check single =
      ec().board_point_load(c16, mm(120), mm(28), mm(400), false, kilonewtons(1.4));
  sound(single);
  CHECK(single.demand == Approx(0.21));
  CHECK(single.resistance == Approx(0.175616));
  CHECK(ec().board_point_load(c16, mm(120), mm(28), mm(400), true, kilonewtons(1.4)).utilisation ==
        Approx(0.170625 / 0.175616));
  // Over a short span shear governs: 2.1/2.5860.
  const Check shear = ec().board_point_load(c16, mm(120), mm(28), mm(100), true, kilonewtons(1.4));
  CHECK(shear.unit == "kN");
  CHECK(shear.resistance == Approx(2.5859938));
}

TEST_CASE("a board's free end under 1.4 kN, C16 120 x 28, 150 mm beyond the joist",
          "[closed-form]") {
  // The board of above: M_R,d = 0.175616 kNm; at the end of a cantilever 1.5 x 1.4 x 0.15 = 0.315.
  const Timber c16 = ec().timber("C16", Role::board, mm(120), mm(28), false);
  const Check end = ec().board_overhang(c16, mm(120), mm(28), mm(150), kilonewtons(1.4));
  sound(end);
  CHECK(end.demand == Approx(0.315));
  CHECK(end.utilisation == Approx(0.315 / 0.175616));
  CHECK(ec().board_overhang(c16, mm(120), mm(28), mm(40), kilonewtons(1.4)).unit == "kN");
}

// --- laws -----------------------------------------------------------------------------------------

TEST_CASE("weaker class, longer load, smaller section: never a lower utilisation", "[law]") {
  const std::vector<std::string> softwood = {"C14", "C16", "C18", "C20",
                                             "C22", "C24", "C27", "C30"};
  const Combination slow = permanent(), quick = medium();
  for (const bool held : {true, false}) {
    double before = std::numeric_limits<double>::infinity();
    for (const std::string& name : softwood) {
      BendingDemand d = bend(name);
      d.edge_held = d.ends_held = held;
      const double used = ec().bending(d, slow).utilisation;
      CHECK(used <= before);
      CHECK(ec().bending(d, quick).utilisation < used);
      BendingDemand narrow = d, shallow = d, longer = d;
      narrow.breadth = mm(44);
      shallow.depth = mm(120);
      longer.unbraced = mm(3600);
      CHECK(ec().bending(narrow, slow).utilisation > used);
      CHECK(ec().bending(shallow, slow).utilisation > used);
      CHECK(ec().bending(longer, slow).utilisation >= used);
      before = used;
    }
  }
  double before = std::numeric_limits<double>::infinity();
  for (const std::string& name : softwood) {
    ColumnDemand d;
    d.timber = wood(name);
    d.breadth = d.depth = mm(95);
    d.height = mm(1800);
    d.axial = kilonewtons(15);
    d.moment = Moment(0.1e6);
    const double used = ec().column(d, slow).utilisation;
    CHECK(used <= before);
    before = used;
    ColumnDemand taller = d, thinner = d;
    taller.height = mm(2200);
    thinner.breadth = mm(70);
    CHECK(ec().column(taller, slow).utilisation > used);
    CHECK(ec().column(thinner, slow).utilisation > used);
  }
}

TEST_CASE("no load, no utilisation; nonsense is refused, never answered", "[law]") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double inf = std::numeric_limits<double>::infinity();
  BendingDemand d = bend();
  d.moment = Moment(0);
  CHECK(ec().bending(d, permanent()).utilisation == 0.0);
  for (const double wrong : {nan, inf, -1.0}) {
    d = bend();
    d.moment = Moment(wrong);
    CHECK_THROWS_AS(ec().bending(d, permanent()), std::invalid_argument);
    d = bend();
    d.depth = mm(wrong);
    CHECK_THROWS_AS(ec().bending(d, permanent()), std::invalid_argument);
    d = bend();
    d.unbraced = mm(wrong);
    CHECK_THROWS_AS(ec().bending(d, permanent()), std::invalid_argument);
    BearingDemand b;
    b.timber = wood("C16");
    b.width = b.length = mm(47);
    b.force = Force(wrong);
    CHECK_THROWS_AS(ec().bearing(b, permanent()), std::invalid_argument);
    GroundDemand g = pad();
    g.load = Force(wrong);
    CHECK_THROWS_AS(ec().ground(g, combination("characteristic", Purpose::ground)),
                    std::invalid_argument);
    CHECK_THROWS_AS(ec().bolt_slip(mm(wrong), wood("C16")), std::invalid_argument);
  }
  CHECK_THROWS_AS(ec().loads(mm(nan)), std::invalid_argument);
  CHECK_THROWS_AS(ec().bending(bend(), combination("characteristic", Purpose::ground)),
                  std::invalid_argument);
  BendingDemand blank = bend();
  blank.timber = Timber{};
  CHECK_THROWS_AS(ec().bending(blank, permanent()), std::invalid_argument);
}

}  // namespace eurocode_standard_test_file

}  // namespace standard_test_file
