// Connections by EN 1995-1-1 section 8: ranges, limits, and the laws between the modes.
#include "standards/eurocode/axial.hpp"
#include "standards/eurocode/fastener.hpp"
#include "standards/eurocode/group.hpp"
#include "standards/eurocode/lateral.hpp"

#include "support/catch.hpp"

#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>
#include <utility>

namespace eurocode_connections_test_file {

using namespace underprop;
using namespace underprop::standards::eurocode;

namespace {

constexpr double right_angle = std::numbers::pi / 2.0;
const Density C16 = kg_per_m3(310);

bool near(double a, double b, double tolerance) { return std::abs(a - b) <= tolerance; }

TimberToTimber bolt_m12(double t_1, double t_2) {
  TimberToTimber joint;
  joint.d = mm(12);
  joint.f_h_1_k = f_h_bolt(joint.d, C16, right_angle, false).value();
  joint.f_h_2_k = f_h_bolt(joint.d, C16, 0.0, false).value();
  joint.t_1 = mm(t_1);
  joint.t_2 = mm(t_2);
  joint.M_y_Rk = M_y_Rk_round(megapascals(400), joint.d);
  return joint;
}

}  // namespace

TEST_CASE("fasteners outside a clause's range have no capacity by it", "[published]") {
  CHECK_FALSE(f_h_nail(mm(8.5), C16, true));
  CHECK_FALSE(f_h_nail(mm(4), kg_per_m3(530), false));  // 8.3.1.1(2): predrill above 500
  CHECK(f_h_nail(mm(4), kg_per_m3(530), true));
  CHECK_FALSE(f_h_0_bolt(mm(31), C16));
  CHECK_FALSE(f_h_bolt(mm(31), C16, 0.0, false));
  CHECK_FALSE(f_ax_k_screw(mm(5), mm(50), C16));            // d < 6
  CHECK_FALSE(f_ax_k_screw(mm(14), mm(90), C16));           // d > 12
  CHECK_FALSE(f_ax_k_screw(mm(8), mm(47), C16));            // l_ef < 6d
  CHECK_FALSE(F_ax_Rk_screws(1, mm(8), mm(60), C16, 0.4));  // flatter than 30 degrees
  CHECK(F_ax_Rk_screws(1, mm(8), mm(60), C16, std::numbers::pi / 6.0));
  CHECK_FALSE(nail_spacing(mm(4), kg_per_m3(530), false, 0.0));
}

TEST_CASE("screws: shank where it reaches 4d into the point piece, else the root", "[published]") {
  CHECK(screw_d_ef(mm(6), mm(3.7), mm(24)) == mm(6));
  CHECK(near(in_mm(screw_d_ef(mm(6), mm(3.7), mm(23))), 4.07, 1e-12));
  CHECK(screw_follows_nail_rules(mm(6)));
  CHECK_FALSE(screw_follows_nail_rules(mm(6.1)));
  CHECK(minimum_point_penetration(mm(4), true) == mm(32));
  CHECK(minimum_point_penetration(mm(4), false) == mm(24));
  CHECK(minimum_thickness_not_predrilled(mm(4), C16) == mm(28));
  CHECK(near(in_mm(minimum_thickness_not_predrilled(mm(6), kg_per_m3(420))), 50.4, 1e-9));
}

TEST_CASE("across the grain wood embeds less, more so the thicker the bolt", "[law]") {
  const double along = f_h_bolt(mm(12), C16, 0.0, false)->value();
  const double half = f_h_bolt(mm(12), C16, right_angle / 2.0, false)->value();
  const double across = f_h_bolt(mm(12), C16, right_angle, false)->value();
  CHECK(along > half);
  CHECK(half > across);
  CHECK(near(along / across, 1.35 + 0.015 * 12.0, 1e-12));
  CHECK(k_90(mm(12), true) < k_90(mm(12), false));
}

TEST_CASE("the smallest mode governs, whatever the thicknesses", "[law]") {
  for (double t_1 : {20.0, 47.0, 97.0, 300.0}) {
    for (double t_2 : {20.0, 47.0, 97.0, 300.0}) {
      const SingleShear s = timber_to_timber_single_shear(bolt_m12(t_1, t_2));
      for (Force mode : {s.a, s.b, s.c, s.d, s.e, s.f}) {
        CHECK(mode.value() > 0);
        CHECK(s.F_v_Rk <= mode);
      }
      const DoubleShear both = timber_to_timber_double_shear(bolt_m12(t_1, t_2));
      for (Force mode : {both.g, both.h, both.j, both.k}) CHECK(both.F_v_Rk <= mode);
      // Thicker pieces never weaken.
      CHECK(timber_to_timber_single_shear(bolt_m12(t_1 + 10, t_2)).F_v_Rk >= s.F_v_Rk);
      CHECK(timber_to_timber_single_shear(bolt_m12(t_1, t_2 + 10)).F_v_Rk >= s.F_v_Rk);
    }
  }
}

TEST_CASE("the joint does not care which piece is called 1", "[law]") {
  // Modes a/b and d/e change places; c and f are symmetric.
  const TimberToTimber joint = bolt_m12(47, 97);
  TimberToTimber turned = joint;
  std::swap(turned.f_h_1_k, turned.f_h_2_k);
  std::swap(turned.t_1, turned.t_2);
  const SingleShear s = timber_to_timber_single_shear(joint);
  const SingleShear t = timber_to_timber_single_shear(turned);
  CHECK(near(s.a.value(), t.b.value(), 1e-6));
  CHECK(near(s.c.value(), t.c.value(), 1e-6));
  CHECK(near(s.d.value(), t.e.value(), 1e-6));
  CHECK(near(s.e.value(), t.d.value(), 1e-6));
  CHECK(near(s.f.value(), t.f.value(), 1e-6));
}

TEST_CASE("equal pieces: mode (c) is (sqrt 2 - 1) of mode (a)", "[closed-form]") {
  // beta = 1, t_1 = t_2 in (8.6)(c): [sqrt(1 + 6 + 1) - 2]/2.
  TimberToTimber joint = bolt_m12(60, 60);
  joint.f_h_2_k = joint.f_h_1_k;
  const SingleShear s = timber_to_timber_single_shear(joint);
  CHECK(near(s.c / s.a, std::numbers::sqrt2 - 1.0, 1e-12));
}

TEST_CASE("the rope effect is a quarter of the pull, up to its share", "[published]") {
  // 8.2.2(2)
  TimberToTimber joint = bolt_m12(47, 97);
  const SingleShear bare = timber_to_timber_single_shear(joint);
  joint.rope = {newtons(400), 0.25};
  const SingleShear little = timber_to_timber_single_shear(joint);
  CHECK(near(little.f.value() - bare.f.value(), 100.0, 1e-9));
  CHECK(little.a == bare.a);
  joint.rope.F_ax_Rk = newtons(1e9);
  const SingleShear capped = timber_to_timber_single_shear(joint);
  CHECK(near(capped.f / bare.f, 1.25, 1e-12));
  CHECK(near(capped.d / bare.d, 1.25, 1e-12));
}

TEST_CASE("steel plates: thin below half the diameter, linear up to thick", "[published]") {
  // 8.2.3(1)
  SteelToTimber joint;
  joint.d = mm(12);
  joint.f_h_k = f_h_bolt(joint.d, C16, 0.0, false).value();
  joint.t_1 = mm(47);
  joint.M_y_Rk = M_y_Rk_round(megapascals(400), joint.d);
  joint.plate = mm(3);
  const SteelSingleShear thin = steel_to_timber_single_shear(joint, true);
  CHECK(thin.F_v_Rk == thin.thin);
  joint.plate = mm(12);
  const SteelSingleShear thick = steel_to_timber_single_shear(joint, true);
  CHECK(thick.F_v_Rk == thick.thick);
  CHECK(thick.F_v_Rk > thin.F_v_Rk);
  joint.plate = mm(9);
  const SteelSingleShear between = steel_to_timber_single_shear(joint, true);
  CHECK(near(between.F_v_Rk.value(), 0.5 * (thin.thin.value() + thin.thick.value()), 1e-9));
  CHECK(steel_to_timber_single_shear(joint, false).F_v_Rk == thin.thin);
}

TEST_CASE("a row of bolts counts less than its number along the grain", "[published]") {
  // (8.34), (8.35)
  CHECK(n_ef_bolts(1, mm(1), mm(12), 0.0) == 1.0);
  CHECK(near(n_ef_bolts(4, mm(60), mm(12), 0.0), std::pow(4.0, 0.9) * std::pow(60.0 / 156.0, 0.25),
             1e-12));
  CHECK(n_ef_bolts(4, mm(60), mm(12), right_angle) == 4.0);
  CHECK(n_ef_bolts(2, mm(5000), mm(12), 0.0) == 2.0);
  CHECK(near(n_ef_nails(3, 0.7), std::pow(3.0, 0.7), 1e-12));
}

TEST_CASE("screw withdrawal agrees with values computed by hand", "[recorded]") {
  CHECK(near(f_ax_k_screw(mm(6), mm(50), C16)->value(), 14.129, 5e-4));
  CHECK(near(F_ax_Rk_screws(1, mm(6), mm(50), C16, right_angle)->value(), 3179.1, 0.05));
  CHECK(near(F_ax_Rk_screws(1, mm(8), mm(60), C16, right_angle)->value(), 5767.3, 0.05));
  CHECK(near(F_ax_Rk_screws(1, mm(10), mm(80), C16, right_angle)->value(), 8353.6, 0.05));
}

TEST_CASE("short nails lose their pull step by step, then all of it", "[published]") {
  // 8.3.2(7)
  AxialNail nail;
  nail.d = mm(3);
  nail.d_h = mm(7);
  nail.t = mm(28);
  nail.f_ax_k = f_ax_k_smooth_nail(C16);
  nail.f_head_k = f_head_k_nail(C16);
  nail.t_pen = mm(36);
  CHECK(near(F_ax_Rk_smooth_nail(nail)->value(), 20e-6 * 310 * 310 * 3 * 36, 1e-9));
  nail.t_pen = mm(30);
  CHECK(near(F_ax_Rk_smooth_nail(nail)->value(), 0.5 * 20e-6 * 310 * 310 * 3 * 30, 1e-9));
  nail.t_pen = mm(24);
  CHECK(F_ax_Rk_smooth_nail(nail)->value() == 0.0);
  nail.t_pen = mm(23);
  CHECK_FALSE(F_ax_Rk_smooth_nail(nail));
  CHECK(F_ax_Rk_threaded_nail(nail));
  nail.t_pen = mm(17);
  CHECK_FALSE(F_ax_Rk_threaded_nail(nail));
}

TEST_CASE("pull and shear together: squares, but a sum for smooth nails", "[published]") {
  // (8.27), (8.28)
  CHECK(near(combined_axial_and_lateral(0.6, 0.8, false), 1.0, 1e-12));
  CHECK(near(combined_axial_and_lateral(0.6, 0.8, true), 1.4, 1e-12));
}

TEST_CASE("a bolt's pull ends at its washer", "[closed-form]") {
  // 8.5.2(2): 3 f_c,90,k on the net area
  const Force limited = F_ax_Rk_bolt(kilonewtons(30), megapascals(2.2), mm(36), mm(13));
  CHECK(near(limited.value(), 3.0 * 2.2 * std::numbers::pi / 4.0 * (36.0 * 36.0 - 13.0 * 13.0),
             1e-6));
  CHECK(F_ax_Rk_bolt(kilonewtons(1), megapascals(2.2), mm(36), mm(13)) == kilonewtons(1));
}

TEST_CASE("splitting needs wood beyond the fasteners", "[law]") {
  CHECK(F_90_Rk(mm(47), mm(195), mm(150)) > F_90_Rk(mm(47), mm(195), mm(80)));
  CHECK_THROWS_AS(F_90_Rk(mm(47), mm(195), mm(195)), std::domain_error);
}

TEST_CASE("slip moduli: dowel types are stiffer, ultimate is two thirds", "[published]") {
  // Table 7.1, (2.1)
  const Density rho_m = kg_per_m3(370);
  CHECK(near(K_ser_dowel_type(rho_m, mm(12)).value(), std::pow(370.0, 1.5) * 12.0 / 23.0, 1e-9));
  CHECK(K_ser_dowel_type(rho_m, mm(4)) > K_ser_nail_not_predrilled(rho_m, mm(4)));
  CHECK(near(K_u(Stiffness(900)).value(), 600.0, 1e-9));
}

TEST_CASE("arguments without meaning are refused, not computed", "[law]") {
  const double not_a_number = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(f_h_nail(mm(not_a_number), C16, true), std::domain_error);
  CHECK_THROWS_AS(k_ef(mm(0), mm(4), true), std::domain_error);
  CHECK_THROWS_AS(n_ef_bolts(0, mm(60), mm(12), 0.0), std::domain_error);
  TimberToTimber joint = bolt_m12(47, 97);
  joint.rope.share = 1.5;
  CHECK_THROWS_AS(timber_to_timber_single_shear(joint), std::domain_error);
}

TEST_CASE("embedment and yield of a 3 mm nail, by hand from the clauses", "[recorded]") {
  // 0.082 x 350 x 3^-0.3; 0.082 x 0.97 x 350; 0.45 x 600 x 3^2.6 and 0.3 x 600 x 3^2.6
  CHECK(near(f_h_nail(mm(3), kg_per_m3(350), false)->value(), 20.642, 5e-4));
  CHECK(near(f_h_nail(mm(3), kg_per_m3(350), true)->value(), 27.839, 5e-4));
  CHECK(near(M_y_Rk_square(megapascals(600), mm(3)).value() /
                 M_y_Rk_round(megapascals(600), mm(3)).value(),
             1.5, 1e-12));
  CHECK(near(M_y_Rk_round(megapascals(600), mm(3)).value(), 3131.755, 0.001));
}

TEST_CASE("pull of a threaded nail: penetration, its reduction, and the head", "[published]") {
  // (8.23), (8.26), 8.3.2(7)
  AxialNail nail;
  nail.d = mm(4);
  nail.d_h = mm(8);
  nail.f_ax_k = megapascals(5);
  nail.f_head_k = f_head_k_nail(C16);
  nail.t_pen = mm(40);
  CHECK(near(F_ax_Rk_threaded_nail(nail)->value(), 70e-6 * 310 * 310 * 64, 1e-9));
  nail.f_head_k = megapascals(1000);
  CHECK(near(F_ax_Rk_threaded_nail(nail)->value(), 5.0 * 4 * 40, 1e-9));
  nail.t_pen = mm(28);  // 7d: half
  CHECK(near(F_ax_Rk_threaded_nail(nail)->value(), 0.5 * 5.0 * 4 * 28, 1e-9));
}

TEST_CASE("screws at 30 degrees to the grain hold 1/1.15 of those across it", "[closed-form]") {
  // 1.2 cos^2 30 + sin^2 30 = 1.15
  const auto F = [](double alpha) { return F_ax_Rk_screws(2, mm(8), mm(60), C16, alpha).value(); };
  CHECK(near(F(right_angle) / F(std::numbers::pi / 6.0), 1.15, 1e-12));
  const Force head = F_head_Rk_screws(1, megapascals(10), mm(12), C16, C16);
  CHECK(near(head.value(), 1440.0, 1e-9));
  CHECK(F_head_Rk_screws(1, megapascals(10), mm(12), C16, kg_per_m3(350)) < head);
}

TEST_CASE("a middle piece is crushed by both planes: half of its single-shear mode",
          "[closed-form]") {
  const TimberToTimber joint = bolt_m12(47, 97);
  CHECK(near(2.0 * timber_to_timber_double_shear(joint).h.value(),
             timber_to_timber_single_shear(joint).b.value(), 1e-9));
  CHECK(timber_to_timber_double_shear(joint).j == timber_to_timber_single_shear(joint).d);
}

TEST_CASE("one hinge at a thick plate is in equilibrium", "[closed-form]") {
  // Crushing +f_h over x and -f_h over the rest of t: M_y = f_h d (x^2 - t^2/2), F = f_h d (2x - t).
  SteelToTimber joint;
  joint.d = mm(12);
  joint.f_h_k = megapascals(20);
  joint.t_1 = mm(60);
  joint.plate = mm(12);
  for (double x : {45.0, 48.0, 55.0}) {
    joint.M_y_Rk = Moment(20.0 * 12.0 * (x * x - 60.0 * 60.0 / 2.0));
    const SteelSingleShear s = steel_to_timber_single_shear(joint, true);
    CHECK(near(s.d.value(), 20.0 * 12.0 * (2.0 * x - 60.0), 1e-6));
    CHECK(near(s.c.value(), 20.0 * 12.0 * 60.0, 1e-9));
    CHECK(near(s.a.value(), 0.4 * 20.0 * 12.0 * 60.0, 1e-9));  // (8.9)(a)
  }
}

}  // namespace eurocode_connections_test_file
