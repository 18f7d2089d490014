// Connections, combinations and ground by the NDS, ASCE 7 and IRC. Published values:
// tests/published.
#include "support/catch.hpp"

#include "standards/north_america/actions.hpp"
#include "standards/north_america/connection.hpp"
#include "standards/north_america/dowel.hpp"
#include "standards/north_america/ground.hpp"
#include "standards/north_america/withdrawal.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace north_america_connections_test_file {

namespace na = underprop::standards::north_america;
using namespace underprop;

namespace {

na::DowelJoint half_inch_bolt() {
  na::DowelJoint j;
  j.D = j.nominal = inches(0.5);
  j.l_m = inches(3.5);
  j.l_s = inches(1.5);
  j.F_em = j.F_es = psi(5600.0);
  j.F_yb = psi(45000.0);
  return j;
}

Force mode(const na::YieldResult& r, const std::string& name) {
  for (const na::YieldMode& m : r.modes) {
    if (m.name == name) return m.Z;
  }
  throw std::runtime_error("no such mode: " + name);
}

}  // namespace

TEST_CASE("a very long and stiff-wooded joint yields in mode IV", "[closed-form]") {
  na::DowelJoint j = half_inch_bolt();
  j.l_m = j.l_s = inches(40.0);
  const na::YieldResult r = na::single_shear(j);
  CHECK(r.governing == "IV");
  // D^2/R_d sqrt(2 F_em F_yb/(3 (1 + 1))), R_d = 3.2
  CHECK(in_pounds_force(r.Z) == Approx(0.25 / 3.2 * std::sqrt(5600.0 * 45000.0 / 3.0)));
  CHECK(na::double_shear(j).Z / r.Z == Approx(2.0));
}

TEST_CASE("an endlessly strong bolt leaves the bearing modes", "[closed-form]") {
  na::DowelJoint j = half_inch_bolt();
  j.F_yb = psi(1e12);
  const na::YieldResult r = na::single_shear(j);
  CHECK(r.governing == "II");
  // Equal members: k_1 = sqrt(2) - 1 at R_e = R_t = 1.
  j.l_m = j.l_s;
  CHECK(na::single_shear(j).k_1 == Approx(std::sqrt(2.0) - 1.0));
  CHECK(in_pounds_force(mode(r, "I_m")) == Approx(0.5 * 3.5 * 5600.0 / 4.0));
  CHECK(in_pounds_force(mode(r, "I_s")) == Approx(0.5 * 1.5 * 5600.0 / 4.0));
  const na::YieldResult both = na::double_shear(j);
  CHECK(in_pounds_force(mode(both, "I_m")) == Approx(0.5 * 1.5 * 5600.0 / 4.0));
  CHECK(in_pounds_force(mode(both, "I_s")) == Approx(2.0 * 0.5 * 1.5 * 5600.0 / 4.0));
}

TEST_CASE("modes III mirror each other when the members change places", "[law]") {
  na::DowelJoint j = half_inch_bolt();
  j.F_es = psi(3150.0);
  na::DowelJoint swapped = j;
  std::swap(swapped.l_m, swapped.l_s);
  std::swap(swapped.F_em, swapped.F_es);
  const na::YieldResult a = na::single_shear(j);
  const na::YieldResult b = na::single_shear(swapped);
  CHECK(mode(a, "III_m").value() == Approx(mode(b, "III_s").value()));
  CHECK(mode(a, "III_s").value() == Approx(mode(b, "III_m").value()));
  CHECK(mode(a, "II").value() == Approx(mode(b, "II").value()));
  CHECK(mode(a, "IV").value() == Approx(mode(b, "IV").value()));
}

TEST_CASE("reduction terms follow NDS Table 12.3.1B", "[published]") {
  // Read in an open copy.
  const na::ReductionTerms large = na::reduction_terms(inches(0.5), inches(0.5), 90.0);
  CHECK(large.I == Approx(5.0));
  CHECK(large.II == Approx(4.5));
  CHECK(large.III_IV == Approx(4.0));
  CHECK(na::reduction_terms(inches(0.131), inches(0.131), 90.0).I == Approx(2.2));
  CHECK(na::reduction_terms(inches(0.2), inches(0.2), 90.0).I == Approx(2.5));
  // A 1/4 in. lag screw: root below, nominal not below 1/4 in.
  CHECK(na::reduction_terms(inches(0.173), inches(0.25), 90.0).I == Approx(2.23 * 1.25));
}

TEST_CASE("withdrawal counts only thread in the main member", "[closed-form]") {
  CHECK(in_inches(na::effective_thread(inches(4.0), inches(2.5), inches(1.5), inches(0.25))) ==
        Approx(2.25));
  CHECK(in_inches(na::effective_thread(inches(6.0), inches(3.5), inches(1.5), inches(0.25))) ==
        Approx(3.25));
  CHECK(na::effective_thread(inches(1.5), inches(1.0), inches(1.5), inches(0.25)).value() == 0.0);
  // 2,850 G^2 D: read. #10 screw in G = 0.5.
  CHECK(in_pounds_force(na::withdrawal_wood_screw(0.5, inches(0.19)) * inches(1.0)) ==
        Approx(2850.0 * 0.25 * 0.19));
}

TEST_CASE("a connection takes every factor once and C_D up to 1.6", "[law]") {
  na::ConnectionFactors f;
  f.C_D = 0.9;
  f.C_M = 0.7;
  f.C_Delta = 0.5;
  f.C_eg = 0.67;
  f.C_tn = 0.83;
  CHECK(in_pounds_force(na::adjusted_connection(pounds_force(100.0), f)) ==
        Approx(100.0 * 0.9 * 0.7 * 0.5 * 0.67 * 0.83));
  f = {};
  f.C_D = 2.0;
  CHECK(in_pounds_force(na::adjusted_connection(pounds_force(100.0), f)) == Approx(160.0));
}

TEST_CASE("the group action factor of two fasteners equals its direct solution", "[closed-form]") {
  // Two springs gamma between two bars over one space: equal bars share evenly, C_g = 1.
  na::FastenerRow row;
  row.n = 2;
  row.s = inches(4.0);
  row.D = inches(0.5);
  row.E_m = row.E_s = psi(1.3e6);
  row.A_m = row.A_s = inches(1.5) * inches(9.25);
  const na::GroupAction even = na::group_action(row);
  CHECK(even.gamma_lb_per_in == Approx(180000.0 * std::pow(0.5, 1.5)));
  CHECK(even.R_EA == Approx(1.0));
  CHECK(even.C_g == Approx(1.0).epsilon(1e-9));

  // Unequal bars: the first fastener takes F1 of F1 + F2 = 1. Over the space one bar carries F2 (or
  // F1), the other F1 (or F2): slip difference (F1 - F2)/gamma = s (F1/EA_big_side - F2/EA_other).
  row.A_s = inches(1.5) * inches(3.5);
  const na::GroupAction uneven = na::group_action(row);
  const double EA_m = 1.3e6 * 1.5 * 9.25;
  const double EA_s = 1.3e6 * 1.5 * 3.5;
  const double g = uneven.gamma_lb_per_in * 4.0;
  // F1 carried off before the space by the stiff bar; F2 = 1 - F1.
  // (F1 - F2)/gamma = s (F2/EA_s - F1/EA_m)  ->  F1 (2 + g/EA_m + g/EA_s) = 1 + g/EA_s
  const double F1 = (1.0 + g / EA_s) / (2.0 + g / EA_m + g / EA_s);
  CHECK(uneven.C_g == Approx(1.0 / (2.0 * std::max(F1, 1.0 - F1))).epsilon(1e-9));

  row.n = 1;
  CHECK(na::group_action(row).C_g == 1.0);
  row.n = 6;
  row.D = inches(0.2);
  CHECK(na::group_action(row).C_g == 1.0);
}

TEST_CASE("group action falls as a row grows", "[law]") {
  na::FastenerRow row;
  row.s = inches(4.0);
  row.D = inches(0.75);
  row.E_m = row.E_s = psi(1.3e6);
  row.A_m = inches(1.5) * inches(7.25);
  row.A_s = inches(1.5) * inches(3.5);
  double before = 1.0;
  for (row.n = 2; row.n <= 12; ++row.n) {
    const double C_g = na::group_action(row).C_g;
    CHECK(C_g < before);
    CHECK(C_g > 0.0);
    before = C_g;
  }
}

TEST_CASE("geometry factors follow NDS Tables 12.5.1A to C", "[published]") {
  // From memory of the tables.
  const Length D = inches(0.5);
  using na::EndLoading;
  CHECK(na::geometry_factor_end(inches(3.5), D, EndLoading::parallel_tension) == 1.0);
  CHECK(na::geometry_factor_end(inches(1.75), D, EndLoading::parallel_tension) == Approx(0.5));
  CHECK(na::geometry_factor_end(inches(1.7), D, EndLoading::parallel_tension) == 0.0);
  CHECK(na::geometry_factor_end(inches(2.0), D, EndLoading::perpendicular) == 1.0);
  CHECK(na::geometry_factor_end(inches(0.9), D, EndLoading::parallel_compression) == 0.0);
  CHECK(na::geometry_factor_end(inches(0.0), inches(0.148), EndLoading::perpendicular) == 1.0);
  CHECK(na::geometry_factor_spacing(inches(2.0), D) == 1.0);
  CHECK(na::geometry_factor_spacing(inches(1.5), D) == Approx(0.75));
  CHECK(na::geometry_factor_spacing(inches(1.4), D) == 0.0);
  CHECK(in_inches(na::least_edge_distance(D, true)) == Approx(2.0));
  CHECK(in_inches(na::least_edge_distance(D, false)) == Approx(0.75));
  CHECK(na::penetration_factor(inches(2.0), D, 4, 8) == Approx(0.5));
  CHECK(na::penetration_factor(inches(1.9), D, 4, 8) == 0.0);
  CHECK(na::penetration_factor(inches(9.0), D, 4, 8) == 1.0);
}

TEST_CASE("a ledger fastener never counts for more than was tested", "[law]") {
  CHECK(in_pounds_force(na::ledger_fastener_capacity(pounds_force(375.0), 0.9)) == Approx(337.5));
  CHECK(in_pounds_force(na::ledger_fastener_capacity(pounds_force(375.0), 1.15)) == Approx(375.0));
}

TEST_CASE("water goes with the dead load and never holds down", "[law]") {
  for (const bool snow : {false, true}) {
    const auto combinations = na::asd_combinations(snow);
    CHECK(combinations.size() == (snow ? 4u : 2u));
    for (const na::AsdCombination& c : combinations) {
      CHECK(c.D == 1.0);
      CHECK(c.F == c.D);
      CHECK((c.S == 0.0 || snow));
    }
  }
  for (const na::AsdCombination& c : na::asd_uplift_combinations()) {
    CHECK(c.D == 0.6);
    CHECK(c.F == 0.0);
  }
}

TEST_CASE("a combination takes the duration of its shortest load", "[published]") {
  // NDS 2.3.2 and its Table 2.3.2, read.
  const na::LoadDurations d{0.9, 1.0, 1.15};
  const auto c = na::asd_combinations(true);
  CHECK(na::load_duration_factor(c[0], d, true) == 0.9);
  CHECK(na::load_duration_factor(c[0], d, false) == 1.0);
  CHECK(na::load_duration_factor(c[1], d, true) == 1.0);
  CHECK(na::load_duration_factor(c[2], d, true) == 1.15);
  CHECK(na::load_duration_factor(c[3], d, true) == 1.15);
  CHECK(na::load_duration_factor(na::asd_uplift_combinations()[0], d, false) == 0.9);
}

TEST_CASE("narrow and shallow pads get less than the presumed value", "[law]") {
  const Pressure q = psf(1500.0);
  const auto allowed = [&](double width, bool bedded) {
    return in_psf(na::allowable_bearing(q, inches(width), inches(12.0), bedded, psf(500.0)));
  };
  CHECK(allowed(12.0, true) == Approx(1500.0));
  CHECK(allowed(24.0, true) == Approx(1500.0));
  CHECK(allowed(8.0, true) == Approx(1000.0));
  CHECK(allowed(12.0, false) == Approx(500.0));
  CHECK(allowed(3.0, false) == Approx(375.0));
}

TEST_CASE("a thin slab works only near what stands on it", "[closed-form]") {
  // IRC R403.1.1, read: projection not more than the thickness, 6 in. at least.
  CHECK(in_inches(na::working_side(inches(24.0), inches(5.5), inches(6.0))) == Approx(17.5));
  CHECK(in_inches(na::working_side(inches(12.0), inches(5.5), inches(6.0))) == Approx(12.0));
  CHECK(na::projection_allowed(inches(17.5), inches(5.5), inches(6.0)));
  CHECK_FALSE(na::projection_allowed(inches(18.0), inches(5.5), inches(6.0)));
  CHECK_FALSE(na::projection_allowed(inches(12.0), inches(5.5), inches(5.0)));
  // The area by footing_area brings the pressure just to the limit.
  const auto concrete = na::pounds_per_cubic_foot(150.0);
  const Area area = na::footing_area(pounds_force(6000.0), psf(1500.0), concrete, inches(10.0));
  CHECK(in_psf(na::footing_pressure(pounds_force(6000.0), area, inches(10.0), concrete)) ==
        Approx(1500.0));
  CHECK(in_psf(concrete * feet(1.0)) == Approx(150.0));
}

TEST_CASE("connections and ground refuse arguments without meaning", "[law]") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  na::DowelJoint j = half_inch_bolt();
  j.l_s = mm(0.0);
  CHECK_THROWS_AS(na::single_shear(j), std::domain_error);
  j = half_inch_bolt();
  j.F_yb = Stress(nan);
  CHECK_THROWS_AS(na::double_shear(j), std::domain_error);
  CHECK_THROWS_AS(na::reduction_terms(inches(0.5), inches(0.4), 0.0), std::domain_error);
  CHECK_THROWS_AS(na::dowel_bearing_parallel(nan), std::domain_error);
  CHECK_THROWS_AS(na::withdrawal_nail(0.5, mm(nan)), std::domain_error);
  CHECK_THROWS_AS(na::ledger_fastener_capacity(pounds_force(1.0), nan), std::domain_error);
  CHECK_THROWS_AS(na::footing_area(pounds_force(1.0), psf(100.0), na::pounds_per_cubic_foot(150.0),
                                   inches(10.0)),
                  std::domain_error);
  CHECK_THROWS_AS(na::working_side(mm(nan), mm(1.0), mm(1.0)), std::domain_error);
}

}  // namespace north_america_connections_test_file
