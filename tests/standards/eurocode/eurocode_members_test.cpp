// Members by EN 1995-1-1: limits of validity, continuity, and the direction in which things go.
#include "standards/eurocode/bearing.hpp"
#include "standards/eurocode/bending.hpp"
#include "standards/eurocode/column.hpp"
#include "standards/eurocode/deflection.hpp"
#include "standards/eurocode/material.hpp"
#include "standards/eurocode/shear.hpp"

#include "support/catch.hpp"

#include <cmath>
#include <limits>
#include <stdexcept>

namespace eurocode_members_test_file {

using namespace underprop;
using namespace underprop::standards::eurocode;

namespace {
const double not_a_number = std::numeric_limits<double>::quiet_NaN();
bool near(double a, double b, double tolerance) { return std::abs(a - b) <= tolerance; }
}  // namespace

TEST_CASE("depth factor: none from 150 mm, none for dense timber, 1.3 at most", "[published]") {
  // EN 1995-1-1 3.2(3)
  CHECK(k_h(mm(150), kg_per_m3(350)) == 1.0);
  CHECK(k_h(mm(145), kg_per_m3(350)) > 1.0);
  CHECK(near(k_h(mm(100), kg_per_m3(350)), std::pow(1.5, 0.2), 1e-12));
  CHECK(k_h(mm(10), kg_per_m3(350)) == 1.3);
  CHECK(k_h(mm(100), kg_per_m3(750)) == 1.0);
  CHECK_THROWS_AS(k_h(mm(not_a_number), kg_per_m3(350)), std::domain_error);
}

TEST_CASE("creep divides stiffness by 3 outdoors under permanent load", "[closed-form]") {
  // EN 1995-1-1 (2.7) with k_def 2.0
  CHECK(modulus_final(megapascals(9000), 1.0, 2.0) == megapascals(3000));
  CHECK(modulus_final(megapascals(9000), 0.0, 2.0) == megapascals(9000));
  CHECK(near(k_def_of_connection(2.0, 2.0), 4.0, 1e-12));  // 2.3.2.2(3): twice
  CHECK(slip_modulus_final(Stiffness(900), 1.0, 4.0) == Stiffness(180));
  CHECK(near(k_mod_of_connection(0.5, 0.5), 0.5, 1e-12));
  CHECK(near(in_mm(final_deflection(mm(1), mm(0), 0.3, 2.0)), 3.0, 1e-12));
}

TEST_CASE("system strength needs four members and neighbours that can take over", "[published]") {
  CHECK(system_strength_factor(4, true, 1.1) == 1.1);
  CHECK(system_strength_factor(3, true, 1.1) == 1.0);
  CHECK(system_strength_factor(12, false, 1.1) == 1.0);
}

TEST_CASE("k_crit falls, with no step but the clause's own of 0.0025 at 0.75", "[law]") {
  double last = 1.0;
  for (double lambda = 0.0; lambda < 3.0; lambda += 0.001) {
    const double k = k_crit(lambda);
    CHECK(k <= last + 1e-12);
    CHECK(last - k < 0.0026);
    last = k;
  }
  CHECK_THROWS_AS(k_crit(not_a_number), std::domain_error);
}

TEST_CASE("(6.32) approximates (6.31) with G = E/16 on the safe side", "[law]") {
  // Thin rectangles: I_z = h b^3/12, I_tor = h b^3/3 (1 - 0.63 b/h), W_y = b h^2/6.
  for (double b : {38.0, 47.0, 75.0}) {
    for (double h : {145.0, 195.0, 245.0}) {
      const double I_z = h * b * b * b / 12.0;
      const double I_tor = h * b * b * b / 3.0 * (1.0 - 0.63 * b / h);
      const Stress exact =
          sigma_m_crit_general(megapascals(5400), megapascals(5400.0 / 16.0), SecondMoment(I_z),
                               SecondMoment(I_tor), SectionModulus(b * h * h / 6.0), mm(3000));
      const Stress simple = sigma_m_crit(mm(b), mm(h), mm(3000), megapascals(5400));
      INFO(b << " x " << h << ": " << exact.value() << " " << simple.value());
      CHECK(simple / exact > 0.95);
      CHECK(simple / exact < 1.25);
    }
  }
}

TEST_CASE("lateral stability lines agree with values computed by hand", "[recorded]") {
  // C16 (f_m,k 16, E_0,05 5400), uniform load on the top edge: l_ef = 0.9 l + 2h.
  const Length l_ef =
      effective_length(BendingCase::uniform_load, LoadedEdge::compression, mm(3600), mm(195));
  CHECK(l_ef == mm(3630));
  const LateralStability s =
      lateral_stability(mm(47), mm(195), l_ef, megapascals(16), megapascals(5400));
  CHECK(near(in_megapascals(s.sigma_m_crit), 13.144, 5e-4));
  CHECK(near(s.lambda_rel_m, 1.1033, 5e-5));
  CHECK(near(s.k_crit, 0.7325, 5e-5));
}

TEST_CASE("a short deep member loaded on its tension edge keeps an effective length", "[law]") {
  CHECK(effective_length(BendingCase::cantilever_uniform, LoadedEdge::tension, mm(200), mm(300)) ==
        mm(50));
}

TEST_CASE("bending about both axes counts the smaller ratio by k_m", "[closed-form]") {
  // (6.11), (6.12)
  CHECK(near(biaxial_bending_utilisation(megapascals(5), megapascals(10), megapascals(2),
                                         megapascals(10), 0.7),
             0.64, 1e-12));
  CHECK(near(biaxial_bending_utilisation(megapascals(2), megapascals(10), megapascals(5),
                                         megapascals(10), 0.7),
             0.64, 1e-12));
}

TEST_CASE("a notch on the support side weakens, more so the deeper and the longer", "[law]") {
  EndNotch notch{NotchSide::support, mm(195), mm(195), mm(50), 0.0};
  CHECK(k_v(notch, 5.0) == 1.0);
  double last = 1.0;
  for (double h_ef = 190; h_ef >= 100; h_ef -= 5) {
    notch.h_ef = mm(h_ef);
    const double k = k_v(notch, 5.0);
    CHECK(k <= last);
    EndNotch longer = notch;
    longer.x = mm(100);
    CHECK(k_v(longer, 5.0) <= k);
    EndNotch tapered = notch;
    tapered.inclination = 3.0;
    CHECK(k_v(tapered, 5.0) >= k);
    last = k;
  }
  notch.h_ef = mm(0);
  CHECK_THROWS_AS(k_v(notch, 5.0), std::domain_error);
}

TEST_CASE("notch factors agree with values computed by hand", "[recorded]") {
  const auto k = [](double h, double h_ef, double x, double i) {
    return k_v({NotchSide::support, mm(h), mm(h_ef), mm(x), i}, 5.0);
  };
  CHECK(near(k(195, 145, 50, 0), 0.5783, 5e-5));
  CHECK(near(k(220, 170, 60, 0), 0.5607, 5e-5));
  CHECK(near(k(145, 110, 40, 0), 0.6718, 5e-5));
  CHECK(near(k(195, 145, 50, 3), 0.8150, 5e-5));
}

TEST_CASE("shear near a support: only loads within the depth may be left out", "[published]") {
  // EN 1995-1-1 6.1.7(3)
  CHECK(may_be_left_out_of_shear(mm(195), mm(195)));
  CHECK_FALSE(may_be_left_out_of_shear(mm(196), mm(195)));
  CHECK(reduced_shear_uniform(newtons(1000), mm(500), mm(300), mm(100)) == newtons(0));
}

TEST_CASE("contact length grows by no more than 30 mm, a, l and l_1/2 on a side", "[published]") {
  // EN 1995-1-1 6.1.5(1)
  const BearingSide none{mm(0), mm(5000)};
  const auto right = [&none](double a, double l_1, double l) {
    return in_mm(effective_contact_length(mm(l), none, {mm(a), mm(l_1)})) - l;
  };
  CHECK(right(500, 5000, 47) == 30);
  CHECK(right(10, 5000, 47) == 10);
  CHECK(right(500, 5000, 20) == 20);
  CHECK(right(500, 40, 47) == 20);
}

TEST_CASE("k_c,90 above 1 only for solid softwood with well spaced contacts", "[published]") {
  // EN 1995-1-1 6.1.5(2) to (4)
  CHECK(k_c_90(BearingSupport::discrete, true, mm(390), mm(195)) == 1.5);
  CHECK(k_c_90(BearingSupport::continuous, true, mm(390), mm(195)) == 1.25);
  CHECK(k_c_90(BearingSupport::discrete, true, mm(389), mm(195)) == 1.0);
  CHECK(k_c_90(BearingSupport::discrete, false, mm(3900), mm(195)) == 1.0);
}

TEST_CASE("a column approaches the elastic critical stress when slender", "[closed-form]") {
  // k_c f_c,0,k tends to pi^2 E/lambda^2 from below.
  for (double l : {2000.0, 4000.0, 8000.0, 16000.0}) {
    const Buckling b = buckling(mm(l), mm(97), megapascals(17), megapascals(5400), 0.2);
    const double critical = 9.8696044 * 5400.0 / (b.lambda * b.lambda);
    CHECK(b.k_c * 17.0 < critical);
  }
  const Buckling slender = buckling(mm(40000), mm(97), megapascals(17), megapascals(5400), 0.2);
  CHECK(slender.k_c * slender.lambda_rel * slender.lambda_rel > 0.97);
  CHECK(buckling(mm(0), mm(97), megapascals(17), megapascals(5400), 0.2).k_c == 1.0);
}

TEST_CASE("column factors agree with values computed by hand", "[recorded]") {
  const Buckling b = buckling(mm(2400), mm(97), megapascals(17), megapascals(5400), 0.2);
  CHECK(near(b.lambda, 85.71, 5e-3));
  CHECK(near(b.lambda_rel, 1.5308, 5e-5));
  CHECK(near(b.k_c, 0.3661, 5e-5));
}

TEST_CASE("compression with bending adds up, squared only when stocky", "[closed-form]") {
  const StressRatios ratios{0.4, 0.3, 0.2};
  Buckling stocky;
  stocky.lambda_rel = 0.2;
  CHECK(near(compression_and_bending_utilisation(ratios, stocky, stocky, 0.7), 0.16 + 0.44, 1e-12));
  Buckling slender;
  slender.lambda_rel = 1.0;
  slender.k_c = 0.8;
  CHECK(near(compression_and_bending_utilisation(ratios, slender, stocky, 0.7), 0.5 + 0.44, 1e-12));
  CHECK(near(beam_column_utilisation(ratios, 0.75, 0.5), 0.16 + 0.8, 1e-12));
}

TEST_CASE("a mid-span point load bends a stubby span more than bending alone says",
          "[closed-form]") {
  // Span of three depths: shear adds 1.2 F l/(4 G A).
  const SpanDeflection w = deflection_midspan_point(kilonewtons(5), mm(450), mm(47), mm(145),
                                                    megapascals(8000), megapascals(500));
  CHECK(near(in_mm(w.bending),
             5000.0 * std::pow(450.0, 3) / (48.0 * 8000.0 * 47.0 * std::pow(145.0, 3) / 12.0),
             1e-9));
  CHECK(near(in_mm(w.shear), 1.2 * 5000.0 * 450.0 / (4.0 * 500.0 * 47.0 * 145.0), 1e-9));
  CHECK(w.shear > w.bending);
  CHECK(near(in_mm(w.total), in_mm(w.bending) + in_mm(w.shear), 1e-12));
}

TEST_CASE("vibration with one mode below 40 Hz reduces to 4/(m b l + 200)", "[closed-form]") {
  // (7.6) with n_40 = 1 has 0.4 + 0.6 = 1; (7.7) gives n_40 = 1 where
  // ((40/f_1)^2 - 1) (b/l)^4 (EI)_l/(EI)_b = 1.
  VibratingFloor floor{1.0e6, 0.0, 100.0, 3.0, 2.0};
  const double f_1 = 3.14159265358979 / 18.0 * std::sqrt(1.0e4);
  floor.EI_b_Nm2_per_m =
      (40.0 * 40.0 / (f_1 * f_1) - 1.0) * std::pow(2.0 / 3.0, 4) * floor.EI_l_Nm2_per_m;
  REQUIRE(floor.EI_b_Nm2_per_m < floor.EI_l_Nm2_per_m);
  const FloorVibration v = floor_vibration(floor);
  CHECK(near(v.f_1_Hz, f_1, 1e-9));
  CHECK(near(v.n_40, 1.0, 1e-9));
  CHECK(near(v.v_m_per_Ns2, 4.0 / (100.0 * 2.0 * 3.0 + 200.0), 1e-12));
  // Other n_40: v grows by 0.6 of it.
  floor.EI_b_Nm2_per_m /= 16.0;
  CHECK(near(floor_vibration(floor).v_m_per_Ns2, 4.0 * (0.4 + 1.2) / 800.0, 1e-12));
}

TEST_CASE("of a load across the depth beside a support only what lies beyond counts towards shear",
          "[closed-form]") {
  // EN 1995-1-1 6.1.7(3), h = 150 mm: a board 140 mm broad.
  CHECK(shear_share_of_spread_load(mm(-70), mm(70), mm(150)) == 0.0);
  CHECK(near(shear_share_of_spread_load(mm(80), mm(220), mm(150)), 0.5, 1e-12));
  CHECK(near(shear_share_of_spread_load(mm(115), mm(255), mm(150)), 0.75, 1e-12));
  CHECK(shear_share_of_spread_load(mm(151), mm(291), mm(150)) == 1.0);
  CHECK_THROWS_AS(shear_share_of_spread_load(mm(10), mm(10), mm(150)), std::domain_error);
}

}  // namespace eurocode_members_test_file
