// Members by the NDS against closed forms, limits and laws. Published values: tests/published.
#include "support/catch.hpp"

#include "standards/north_america/bearing.hpp"
#include "standards/north_america/bending.hpp"
#include "standards/north_america/column.hpp"
#include "standards/north_america/deflection.hpp"
#include "standards/north_america/material.hpp"
#include "standards/north_america/section.hpp"
#include "standards/north_america/shear.hpp"

#include <cmath>
#include <limits>
#include <stdexcept>
#include <vector>

namespace north_america_members_test_file {

namespace na = underprop::standards::north_america;
using namespace underprop;

TEST_CASE("effective lengths follow NDS Table 3.3.3", "[published]") {
  // The table's coefficients, read; l_u/d below and above 7.
  const Length d = inches(10.0);
  const auto l_e = [&](na::BeamLoad load, double l_u) {
    return in_inches(na::effective_length(load, inches(l_u), d));
  };
  CHECK(l_e(na::BeamLoad::uniform, 60) == Approx(2.06 * 60));
  CHECK(l_e(na::BeamLoad::uniform, 80) == Approx(1.63 * 80 + 30));
  CHECK(l_e(na::BeamLoad::centre_point_not_held, 60) == Approx(1.80 * 60));
  CHECK(l_e(na::BeamLoad::centre_point_not_held, 80) == Approx(1.37 * 80 + 30));
  CHECK(l_e(na::BeamLoad::centre_point_held, 80) == Approx(1.11 * 80));
  CHECK(l_e(na::BeamLoad::two_third_points_held, 80) == Approx(1.68 * 80));
  CHECK(l_e(na::BeamLoad::three_quarter_points_held, 80) == Approx(1.54 * 80));
  CHECK(l_e(na::BeamLoad::four_fifth_points_held, 80) == Approx(1.68 * 80));
  CHECK(l_e(na::BeamLoad::equal_end_moments, 80) == Approx(1.84 * 80));
  CHECK(l_e(na::BeamLoad::cantilever_uniform, 60) == Approx(1.33 * 60));
  CHECK(l_e(na::BeamLoad::cantilever_uniform, 80) == Approx(0.90 * 80 + 30));
  CHECK(l_e(na::BeamLoad::cantilever_point_at_end, 60) == Approx(1.87 * 60));
  CHECK(l_e(na::BeamLoad::cantilever_point_at_end, 80) == Approx(1.44 * 80 + 30));
  CHECK(l_e(na::BeamLoad::any_other, 60) == Approx(2.06 * 60));
  CHECK(l_e(na::BeamLoad::any_other, 80) == Approx(1.63 * 80 + 30));
  CHECK(l_e(na::BeamLoad::any_other, 150) == Approx(1.84 * 150));
}

TEST_CASE("beam stability falls with length and never exceeds 1", "[law]") {
  double before = 1.0;
  for (double l = 1.0; l < 400.0; l += 3.0) {
    const na::BeamStability s =
        na::beam_stability(na::effective_length(na::BeamLoad::any_other, inches(l), inches(9.25)),
                           inches(1.5), inches(9.25), psi(1000.0), psi(470000.0));
    CHECK(s.C_L <= before + 1e-3);  // the table's rules jump a little at l_u/d = 7 and 14.3
    CHECK(s.C_L >= 0.0);
    before = s.C_L;
  }
}

TEST_CASE("a beam more slender than 50 has no capacity, a flat one is stable", "[law]") {
  const na::BeamStability slender =
      na::beam_stability(inches(800.0), inches(1.5), inches(11.25), psi(1000.0), psi(470000.0));
  CHECK(slender.R_B > 50.0);
  CHECK(slender.C_L == 0.0);
  const na::BeamStability flat =
      na::beam_stability(inches(800.0), inches(5.5), inches(5.5), psi(1000.0), psi(470000.0));
  CHECK(flat.C_L == 1.0);
}

TEST_CASE("C_L solves the quadratic it is the root of", "[closed-form]") {
  // (F_b* - C F_b*)(F_bE - C F_b*) = 0.05/0.95 ... in the form C^2 - 2aC + ratio/0.95 = 0.
  const na::BeamStability s =
      na::beam_stability(inches(200.0), inches(1.5), inches(9.25), psi(900.0), psi(510000.0));
  const double a = (1.0 + s.ratio) / 1.9;
  CHECK(s.C_L * s.C_L - 2.0 * a * s.C_L + s.ratio / 0.95 == Approx(0.0).margin(1e-12));
}

TEST_CASE("depth-to-breadth rules end at 7", "[law]") {
  CHECK(na::lateral_support_needed(7.1) == na::LateralSupport::beyond);
  CHECK(na::lateral_support_needed(4.1) == na::LateralSupport::ends_and_edge);
  CHECK_THROWS_AS(na::lateral_support_needed(0.0), std::domain_error);
}

TEST_CASE("a slender column tends to Euler, a stocky one to crushing", "[closed-form]") {
  const Stress F_c = psi(1300.0);
  const Stress E = psi(470000.0);
  const na::ColumnStability stocky = na::column_stability(inches(1.0), inches(5.5), F_c, E);
  CHECK(stocky.C_P == Approx(1.0).epsilon(0.01));
  const na::ColumnStability slender = na::column_stability(inches(174.3), inches(3.5), F_c, E);
  CHECK(slender.slenderness == Approx(49.8));
  CHECK(in_psi(slender.F_cE) == Approx(0.822 * 470000.0 / (49.8 * 49.8)));
  CHECK(slender.C_P < slender.ratio);
  CHECK(slender.C_P > 0.95 * slender.ratio);
  CHECK(na::column_stability(inches(175.1), inches(3.5), F_c, E).C_P == 0.0);
}

TEST_CASE("compression and bending is infinite at the Euler stress", "[law]") {
  na::CompressionAndBending x;
  x.f_c = psi(500.0);
  x.F_c_prime = psi(800.0);
  x.F_cE1 = psi(500.0);
  x.f_b1 = psi(1.0);
  x.F_b1_prime = psi(1000.0);
  CHECK(std::isinf(na::compression_and_bending(x)));
  x.F_cE1 = psi(1000.0);
  CHECK(na::compression_and_bending(x) == Approx(0.625 * 0.625 + 1.0 / (1000.0 * 0.5)));
  x.f_b1 = psi(0.0);
  CHECK(na::compression_and_bending(x) == Approx(0.625 * 0.625));
}

TEST_CASE("shear, notches and connections agree where they meet", "[law]") {
  const Stress F_v = psi(145.5);
  const Length b = inches(1.5);
  const Length d = inches(9.25);
  const Force whole = na::notched_shear_tension_side(F_v, b, d, d);
  CHECK(na::shear_stress(whole, b, d).value() == Approx(F_v.value()));
  CHECK(na::notched_shear_compression_side(F_v, b, d, d, mm(0.0)).value() == Approx(whole.value()));
  CHECK(na::shear_at_connection(F_v, b, d, d, 5.0 * d).value() == Approx(whole.value()));
  // A quarter taken off the tension side leaves 0.75^3.
  CHECK(na::notched_shear_tension_side(F_v, b, d, 0.75 * d) / whole == Approx(0.421875));
  CHECK(na::shear_at_connection(F_v, b, d, 0.75 * d, 4.0 * d) / whole == Approx(0.421875));
  CHECK(na::shear_at_connection(F_v, b, d, 0.75 * d, 5.0 * d) / whole == Approx(0.75));
  // On the compression side reaching d_n beyond the support only d_n is left.
  CHECK(na::notched_shear_compression_side(F_v, b, d, 0.75 * d, 0.75 * d) / whole == Approx(0.75));
  CHECK(na::notched_shear_compression_side(F_v, b, d, 0.75 * d, 2.0 * d) / whole == Approx(0.75));
}

TEST_CASE("loads near a support count as NDS 3.4.3.1 says", "[closed-form]") {
  const Length d = inches(10.0);
  CHECK(na::shear_share_of_point_load(inches(4.0), d) == Approx(0.4));
  CHECK(na::shear_share_of_point_load(inches(40.0), d) == 1.0);
  // Spread from the face to d: the mean of x/d is a half; over the support nothing counts.
  CHECK(na::shear_share_of_spread_load(mm(0.0), d, d) == Approx(0.5));
  CHECK(na::shear_share_of_spread_load(-1.0 * d, mm(0.0), d) == Approx(0.0));
  CHECK(na::shear_share_of_spread_load(0.5 * d, 1.5 * d, d) == Approx(0.375 + 0.5));
  CHECK(na::shear_share_of_spread_load(2.0 * d, 3.0 * d, d) == Approx(1.0));
  const LineLoad w = pounds_force(10.0) / inches(1.0);
  CHECK(in_pounds_force(na::shear_of_uniform_load(w, inches(100.0), d)) == Approx(400.0));
  CHECK(na::shear_of_uniform_load(w, inches(15.0), d).value() == 0.0);
}

TEST_CASE("bearing area factor counts only inside a member", "[law]") {
  CHECK(na::bearing_area_factor(inches(1.5), inches(3.0)) == Approx(1.25));
  CHECK(na::bearing_area_factor(inches(1.5), inches(2.9)) == 1.0);
  CHECK(na::bearing_area_factor(inches(6.0), inches(12.0)) == 1.0);
}

TEST_CASE("the angle formula passes through both directions", "[closed-form]") {
  const Stress along = psi(1300.0);
  const Stress across = psi(405.0);
  CHECK(in_psi(na::at_angle_to_grain(along, across, 0.0)) == Approx(1300.0));
  CHECK(in_psi(na::at_angle_to_grain(along, across, 90.0)) == Approx(405.0));
  CHECK(in_psi(na::at_angle_to_grain(along, across, 45.0)) ==
        Approx(2.0 * 1300.0 * 405.0 / (1300.0 + 405.0)));
}

TEST_CASE("long-term deflection counts creep once", "[closed-form]") {
  CHECK(in_mm(na::long_term_deflection(2.0, mm(3.0), mm(1.0))) == Approx(7.0));
  // An overhang as long as the span: P a^2 (2a)/(3EI) = 2 P a^3/(3EI).
  const SecondMoment I(1e8);
  const Stress E(10000.0);
  CHECK(in_mm(na::deflection_overhang_tip(newtons(1000.0), metres(1.0), metres(1.0), E, I)) ==
        Approx(2.0 * 1000.0 * 1e9 / (3.0 * 1e12)));
}

namespace {

na::ReferenceValues some_values() {
  return {psi(900.0), psi(575.0), psi(180.0), psi(625.0), psi(1350.0), psi(1.6e6), psi(580000.0)};
}

}  // namespace

TEST_CASE("every factor acts on the values of NDS Table 4.3.1 and on no others", "[law]") {
  na::SawnLumberFactors f;
  f.C_D = 0.9;
  na::AdjustedValues v = na::adjusted_values(some_values(), f);
  CHECK(in_psi(v.F_b_prime) == Approx(810.0));
  CHECK(in_psi(v.F_t_prime) == Approx(517.5));
  CHECK(in_psi(v.F_v_prime) == Approx(162.0));
  CHECK(in_psi(v.F_c_prime) == Approx(1215.0));
  CHECK(in_psi(v.F_c_perp_prime) == Approx(625.0));
  CHECK(in_psi(v.E_prime) == Approx(1.6e6));
  CHECK(in_psi(v.E_min_prime) == Approx(580000.0));
  CHECK(v.applied.size() == 4);

  f = {};
  f.C_L = 0.5;
  f.C_fu = 1.1;
  f.C_r = 1.15;
  f.C_P = 0.25;
  f.C_b = 1.25;
  v = na::adjusted_values(some_values(), f);
  CHECK(in_psi(v.F_b_star) == Approx(900.0 * 1.15));
  CHECK(in_psi(v.F_b_prime) == Approx(900.0 * 1.15 * 1.1 * 0.5));
  CHECK(in_psi(v.F_c_star) == Approx(1350.0));
  CHECK(in_psi(v.F_c_prime) == Approx(1350.0 * 0.25));
  CHECK(in_psi(v.F_c_perp_prime) == Approx(625.0 * 1.25));
  CHECK(in_psi(v.F_v_prime) == Approx(180.0));
  CHECK(v.applied.size() == 5);
}

TEST_CASE("wet bending is reduced only where F_b C_F exceeds its limit", "[published]") {
  // NDS Supplement Table 4A; confirmed by the Douglas Fir-Larch 2x6 spans of DCA 6 Table 2.
  na::WetServiceRow row;
  row.factors = {0.85, 1.0, 0.97, 0.67, 0.8, 0.9, 0.9};
  row.F_b_limit = psi(1150.0);
  row.F_c_limit = psi(750.0);
  CHECK(na::wet_service_factors(row, some_values(), {1.3, 1.3, 1.1}).F_b == 0.85);
  CHECK(na::wet_service_factors(row, some_values(), {1.2, 1.2, 1.05}).F_b == 1.0);
  CHECK(na::wet_service_factors(row, some_values(), {1.2, 1.2, 1.05}).F_c == 0.8);
  row.F_b_limit = psi(0.0);
  CHECK(na::wet_service_factors(row, some_values(), {1.0, 1.0, 1.0}).F_b == 0.85);
}

TEST_CASE("size lookups choose the cautious row between two sizes", "[law]") {
  const std::vector<na::SizeFactorRow> rows = {
      {4, 1.5, 1.5, 1.5, 1.15}, {6, 1.3, 1.3, 1.3, 1.1}, {8, 1.2, 1.3, 1.2, 1.05}};
  CHECK(na::size_factors(rows, 6, 2).F_b == 1.3);
  CHECK(na::size_factors(rows, 7, 2).F_b == 1.2);
  CHECK(na::size_factors(rows, 8, 4).F_b == 1.3);
  CHECK(na::size_factors(rows, 16, 2).F_b == 1.2);
  const std::vector<na::DressedSize> sizes = {{6, inches(5.5)}, {8, inches(7.25)}};
  CHECK(na::nominal_size(sizes, inches(5.5)) == 6.0);
  CHECK(na::nominal_size(sizes, inches(5.52)) == 6.0);
  CHECK(na::nominal_size(sizes, inches(6.0)) == 8.0);
  CHECK_FALSE(na::nominal_size(sizes, inches(9.0)).has_value());
  const std::vector<na::FlatUseRow> flat = {{4, 1.1, 1.0}, {6, 1.15, 1.05}};
  CHECK(na::flat_use_factor(flat, 2, 2) == 1.0);
  CHECK(na::flat_use_factor(flat, 5, 2) == 1.1);
  CHECK(na::flat_use_factor(flat, 8, 4) == 1.05);
  CHECK(na::size_factor_timber(inches(11.5)) == 1.0);
  CHECK(na::size_factor_timber(inches(15.5)) == Approx(std::pow(12.0 / 15.5, 1.0 / 9.0)));
  CHECK(na::repetitive_member_factor(1.15, 3, inches(24.0), 2) == 1.15);
  CHECK(na::repetitive_member_factor(1.15, 2, inches(16.0), 2) == 1.0);
  CHECK(na::repetitive_member_factor(1.15, 5, inches(25.0), 2) == 1.0);
  CHECK(na::repetitive_member_factor(1.15, 5, inches(16.0), 5) == 1.0);
}

TEST_CASE("members refuse arguments without meaning", "[law]") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(na::section(mm(0.0), mm(100.0)), std::domain_error);
  CHECK_THROWS_AS(na::section(mm(nan), mm(100.0)), std::domain_error);
  CHECK_THROWS_AS(na::effective_length(na::BeamLoad::uniform, mm(nan), mm(1.0)), std::domain_error);
  CHECK_THROWS_AS(na::column_stability(mm(1.0), mm(1.0), Stress(nan), Stress(1.0)),
                  std::domain_error);
  CHECK_THROWS_AS(na::column_stability_factor(Stress(1.0), Stress(1.0), 1.2), std::domain_error);
  CHECK_THROWS_AS(na::notched_shear_tension_side(Stress(1.0), mm(1.0), mm(1.0), mm(2.0)),
                  std::domain_error);
  CHECK_THROWS_AS(na::bearing_area_factor(mm(0.0), mm(100.0)), std::domain_error);
  CHECK_THROWS_AS(na::at_angle_to_grain(Stress(1.0), Stress(1.0), 91.0), std::domain_error);
  CHECK_THROWS_AS(na::long_term_deflection(0.5, mm(1.0), mm(1.0)), std::domain_error);
  na::SawnLumberFactors f;
  f.C_D = nan;
  CHECK_THROWS_AS(na::adjusted_values(some_values(), f), std::domain_error);
}

}  // namespace north_america_members_test_file
