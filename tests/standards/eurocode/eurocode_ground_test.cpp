// Pads on the ground, combinations, and the Eurocode data tables.
#include "catalog/embedded.hpp"
#include "standards/eurocode/actions.hpp"
#include "standards/eurocode/fastener.hpp"
#include "standards/eurocode/ground.hpp"
#include "standards/eurocode/group.hpp"
#include "standards/eurocode/lateral.hpp"
#include "standards/half_space.hpp"

#include "support/catch.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

namespace eurocode_ground_test_file {

using namespace underprop;
using namespace underprop::standards::eurocode;
using nlohmann::json;
using standards::neighbour_flexibility;
using standards::rigid_circle_stiffness;
using standards::rigid_rectangle_stiffness;

namespace {

double degrees(double n) { return n * std::numbers::pi / 180.0; }
bool near(double a, double b, double tolerance) { return std::abs(a - b) <= tolerance; }

json table(const std::string& path) {
  for (const catalog::EmbeddedFile& file : catalog::embedded_files()) {
    if (file.path == path) return json::parse(file.text);
  }
  throw std::runtime_error("not embedded: " + path);
}

}  // namespace

TEST_CASE("eccentricity narrows the pad from both sides", "[published]") {
  CHECK(effective_width(mm(300), mm(25)) == mm(250));
  CHECK(effective_width(mm(300), mm(-25)) == mm(250));
  CHECK(effective_width(mm(300), mm(200)) == mm(0));
  CHECK_FALSE(is_eccentricity_excessive(mm(300), mm(100)));
  CHECK(is_eccentricity_excessive(mm(300), mm(101)));
}

TEST_CASE("a thin slab under a joist is mostly idle", "[closed-form]") {
  // 45 degrees: a 50 mm slab of 600 mm under a 47 mm joist works over 147 mm.
  CHECK(working_width(mm(47), mm(276.5), mm(276.5), mm(50)) == mm(147));
  CHECK(working_width(mm(47), mm(276.5), mm(0), mm(50)) == mm(97));
  CHECK(working_width(mm(47), mm(126.5), mm(126.5), mm(300)) == mm(300));
}

TEST_CASE("plain footings by EN 1992-1-1 12.9.3: a cantilever of concrete in bending",
          "[closed-form]") {
  // C20/25: f_ctk,0.05 = 1.5 MPa; with alpha 0.8 and gamma 1.5 f_ctd is 0.8 MPa.
  const Stress f_ctd = f_ctd_plain(0.8, megapascals(1.5), 1.5);
  CHECK(in_megapascals(f_ctd) == Approx(0.8));
  for (const double kPa : {10.0, 75.0, 150.0, 300.0}) {
    const double slope = plain_footing_slope(kilopascals(kPa), f_ctd);
    // The slice of 1 mm: sigma a^2/2 = f (0.85 h)^2/6.
    const double a = 100.0, h = slope * a;
    const double bending = kPa * 1e-3 * a * a / 2.0;
    const double resistance = 0.8 * (0.85 * h) * (0.85 * h) / 6.0;
    CHECK(bending == Approx(resistance));
  }
  // Where the spread at 45 degrees ends: 0.24 f_ctd = 193 kPa of design pressure.
  CHECK(plain_footing_slope(kilopascals(192.0), f_ctd) < 1.0);
  CHECK(plain_footing_slope(kilopascals(194.0), f_ctd) > 1.0);
  CHECK_THROWS_AS(plain_footing_slope(kilopascals(-1.0), f_ctd), std::domain_error);
  CHECK_THROWS_AS(f_ctd_plain(0.8, megapascals(0.0), 1.5), std::domain_error);
}

TEST_CASE("small pads laid on sand carry little by Annex D", "[recorded]") {
  // Ultimate, 300 mm square, 17 kN/m3, no cohesion: on the surface, and 150 mm down.
  const auto q_ult = [](double phi, double depth_mm) {
    const UnitWeight gamma = kilonewtons_per_m3(17);
    return in_kilopascals(
        drained_bearing(degrees(phi), Stress(), gamma * mm(depth_mm), gamma, mm(300), mm(300))
            .resistance);
  };
  CHECK(near(q_ult(28, 0), 26, 0.5));
  CHECK(near(q_ult(32, 0), 49, 0.5));
  CHECK(near(q_ult(28, 150), 81, 0.5));
  CHECK(near(q_ult(35, 150), 214, 0.5));
}

TEST_CASE("bearing resistance grows with depth and shrinks under water", "[law]") {
  const UnitWeight dry = kilonewtons_per_m3(17);
  const UnitWeight wet = kilonewtons_per_m3(8);
  const auto R = [](Pressure q, UnitWeight gamma, double B, double L) {
    return drained_bearing(degrees(30), Stress(), q, gamma, mm(B), mm(L)).resistance;
  };
  CHECK(R(kilopascals(2), dry, 300, 300) > R(kilopascals(1), dry, 300, 300));
  CHECK(R(kilopascals(1), dry, 300, 300) > R(kilopascals(1), wet, 300, 300));
  CHECK(R(kilopascals(1), dry, 300, 600) == R(kilopascals(1), dry, 600, 300));
  CHECK_THROWS_AS(R(kilopascals(-1), dry, 300, 300), std::domain_error);
  CHECK_THROWS_AS(drained_bearing(0.0, Stress(), Pressure(), dry, mm(300), mm(300)),
                  std::domain_error);
}

TEST_CASE("cohesion of long footings: pi + 2", "[closed-form]") {
  const UndrainedBearing u = undrained_bearing(kilopascals(40), Pressure(), mm(300), mm(3e9));
  CHECK(near(in_kilopascals(u.resistance) / 40.0, 5.14159, 1e-4));
}

TEST_CASE("the design friction angle is below the characteristic one", "[published]") {
  // tan phi'/1.25: 30 degrees becomes 24.8 degrees
  CHECK(near(design_friction_angle(degrees(30), 1.25), degrees(24.79), degrees(0.005)));
  CHECK(near(design_friction_angle(degrees(30), 1.0), degrees(30), 1e-12));
}

TEST_CASE("a square footing is nearly as stiff as the circle of equal area", "[law]") {
  const double square = rigid_rectangle_stiffness(mm(300), mm(300), megapascals(10), 0.3).value();
  const double diameter = 300.0 * std::sqrt(4.0 / std::numbers::pi);
  const double circle = rigid_circle_stiffness(mm(diameter), megapascals(10), 0.3).value();
  CHECK(near(square / circle, 1.0, 0.02));
  CHECK(rigid_rectangle_stiffness(mm(300), mm(600), megapascals(10), 0.3).value() > square);
}

TEST_CASE("far from a rigid circle the ground settles as under a point load", "[closed-form]") {
  // Exact: w(r) = (2/pi) w_0 asin(a/r), which tends to P (1 - nu^2)/(pi E r).
  const double a = 150.0;
  const Stress E = megapascals(10);
  const double own = 1.0 / rigid_circle_stiffness(mm(2.0 * a), E, 0.3).value();
  for (double r : {300.0, 600.0, 1200.0}) {
    const double exact = 2.0 / std::numbers::pi * own * std::asin(a / r);
    const double ours = neighbour_flexibility(mm(r), E, 0.3).value();
    CHECK(ours < exact);
    CHECK(ours > 0.95 * exact);
  }
}

TEST_CASE("combinations put each factor in its place", "[published]") {
  // EN 1990 (6.10), (6.10a), (6.10b), (6.14b), (6.15b), (6.16b)
  const PartialFactors gamma{1.35, 1.0, 1.5, 0.925};
  CHECK(design_effect(combination_6_10(gamma, 0.7), 10.0, 2.0, 1.0) == 13.5 + 3.0 + 1.5 * 0.7);
  CHECK(near(combination_6_10a(gamma, 0.7, 0.5).Q_leading, 1.05, 1e-12));
  CHECK(near(combination_6_10b(gamma, 0.7).G_sup, 1.24875, 1e-12));
  CHECK(combination_characteristic(0.7).G_sup == 1.0);
  CHECK(combination_frequent(0.5, 0.3).Q_leading == 0.5);
  CHECK(combination_quasi_permanent(0.3, 0.3).Q_leading == 0.3);
}

TEST_CASE("strength classes keep the relations of EN 338 between their values", "[published]") {
  // EN 338 and EN 384: E_0,05 = 0.67 E (softwood), 0.84 E (hardwood); E_90 = E/30, E/15; G = E/16.
  const json classes = table("eurocode/timber.json").at("classes");
  REQUIRE(classes.size() >= 11);
  for (const auto& [name, c] : classes.items()) {
    INFO(name);
    const double E = c.at("E_0_mean").get<double>();
    const bool hardwood = c.at("hardwood").get<bool>();
    CHECK(near(c.at("E_0_05").get<double>(), (hardwood ? 0.84 : 0.67) * E, 51.0));
    CHECK(near(c.at("E_90_mean").get<double>(), E / (hardwood ? 15.0 : 30.0), 6.0));
    CHECK(near(c.at("G_mean").get<double>(), E / 16.0, 11.0));
    CHECK(c.at("rho_k").get<double>() < c.at("rho_mean").get<double>());
    CHECK(near(c.at("f_m_k").get<double>(), std::stod(name.substr(1)), 1e-12));
  }
}

TEST_CASE("generic hangers claim no more than their nails by (8.9)", "[published]") {
  const json fixings = table("eurocode/fixings.json");
  const json& hanger = fixings.at("generic_hanger");
  const json& nail = fixings.at("nails").at(hanger.at("nail").get<std::string>());
  const json weakest = table("eurocode/timber.json").at("classes").at("C14");
  SteelToTimber joint;
  joint.d = mm(nail.at("d_mm").get<double>());
  joint.f_h_k = f_h_nail(joint.d, kg_per_m3(weakest.at("rho_k").get<double>()), false).value();
  joint.t_1 = mm(hanger.at("nail_length_in_timber_mm").get<double>());
  joint.plate = mm(hanger.at("plate_mm").get<double>());
  joint.M_y_Rk = M_y_Rk_square(megapascals(nail.at("f_u_MPa").get<double>()), joint.d);
  const double per_nail = in_newtons(steel_to_timber_single_shear(joint, true).F_v_Rk);
  const double claimed = hanger.at("characteristic_per_header_nail_N").get<double>();
  CHECK(claimed <= per_nail);
  CHECK(claimed > 0.5 * per_nail);
  for (const auto& [count, kN] : hanger.at("characteristic_kN_by_header_nails").items()) {
    CHECK(near(kN.get<double>(), std::stod(count) * claimed / 1000.0, 1e-9));
  }
}

TEST_CASE("presumed pressures: cautious <= likely <= favourable, surface <= bedded", "[law]") {
  const json soils = table("eurocode/ground.json").at("soils");
  for (const char* name :
       {"unknown", "topsoil", "soft clay", "firm clay", "stiff clay", "loose sand",
        "medium dense sand", "dense sand", "gravel", "rock", "peat", "fill"}) {
    INFO(name);
    const json& soil = soils.at(name);
    if (soil.contains("refer")) continue;
    const json& presumed = soil.at("presumed_kPa");
    for (const char* bedding : {"surface", "bedded"}) {
      const json& p = presumed.at(bedding);
      CHECK(p.at("cautious") <= p.at("likely"));
      CHECK(p.at("likely") <= p.at("favourable"));
    }
    for (const char* bound : {"cautious", "likely", "favourable"}) {
      CHECK(presumed.at("surface").at(bound) <= presumed.at("bedded").at(bound));
    }
    CHECK(soil.at("modulus_MPa").at("soft") < soil.at("modulus_MPa").at("stiff"));
    CHECK(soil.at("poisson") <= 0.5);
  }
}

}  // namespace eurocode_ground_test_file
