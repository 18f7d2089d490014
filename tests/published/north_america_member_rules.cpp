// More North American rules that tests/published/north_america/*.json may name: shear near supports
// and at notches, the tables of factors, deflection, and plain footings.
//
// Numbers of "given" are in inches, feet, pounds and psi, as the documents print them.
#include "published/given.hpp"
#include "published/registry.hpp"

#include "catalog/embedded.hpp"
#include "standards/north_america/actions.hpp"
#include "standards/north_america/bearing.hpp"
#include "standards/north_america/bending.hpp"
#include "standards/north_america/column.hpp"
#include "standards/north_america/connection.hpp"
#include "standards/north_america/deflection.hpp"
#include "standards/north_america/dowel.hpp"
#include "standards/north_america/ground.hpp"
#include "standards/north_america/material.hpp"
#include "standards/north_america/section.hpp"
#include "standards/north_america/shear.hpp"

#include <cstddef>
#include <stdexcept>
#include <string>
#include <vector>

namespace underprop::published {
namespace north_america_member_rules_file {

namespace {

using nlohmann::json;
namespace na = standards::north_america;

Length length(const json& given, const char* key) { return inches(number(given, key)); }
Stress stress(const json& given, const char* key) { return psi(number(given, key)); }
Force force(const json& given, const char* key) { return pounds_force(number(given, key)); }

const json& factors() {
  static const json content = data_file("north_america/factors.json");
  return content;
}
const json& sizes() {
  static const json content = data_file("north_america/sizes.json");
  return content;
}

void register_shear(Registry& r) {
  r["nds_shear_near_support"] = [](const json& g) {
    const Length b = length(g, "b"), d = length(g, "d");
    const LineLoad w = pounds_force(number(g, "w_plf")) / feet(1.0);
    const Force V = na::shear_of_uniform_load(w, feet(number(g, "span_ft")), d);
    return json{{"V", in_pounds_force(V)}, {"f_v", in_psi(na::shear_stress(V, b, d))}};
  };
  r["nds_point_load_near_support"] = [](const json& g) {
    return json{{"share", na::shear_share_of_point_load(length(g, "x"), length(g, "d"))}};
  };
  r["nds_end_notch"] = [](const json& g) {
    const Stress F_v = stress(g, "F_v_prime");
    const Length b = length(g, "b"), d = length(g, "d"), d_n = length(g, "d_n");
    const Force V = g.at("side") == "tension"
                        ? na::notched_shear_tension_side(F_v, b, d, d_n)
                        : na::notched_shear_compression_side(F_v, b, d, d_n, length(g, "e"));
    return json{{"V_r", in_pounds_force(V)}};
  };
  r["nds_shear_at_connection"] = [](const json& g) {
    const Force V = na::shear_at_connection(stress(g, "F_v_prime"), length(g, "b"), length(g, "d"),
                                            length(g, "d_e"), length(g, "fastener_to_end"));
    return json{{"V_r", in_pounds_force(V)}};
  };
}

void register_members(Registry& r) {
  r["nds_slenderness"] = [](const json& g) {
    const Length l_e =
        na::effective_length(na::BeamLoad::any_other, length(g, "l_u"), length(g, "d"));
    const double R_B = na::slenderness_ratio_bending(l_e, length(g, "b"), length(g, "d"));
    const Stress F_b_star = stress(g, "F_b_star");
    const na::BeamStability s =
        na::beam_stability(l_e, length(g, "b"), length(g, "d"), F_b_star, stress(g, "E_min"));
    return json{{"l_e", in_inches(l_e)}, {"R_B", R_B}, {"F_bE", in_psi(s.F_bE)}, {"C_L", s.C_L}};
  };
  r["nds_column_length"] = [](const json& g) {
    const Length l_e = na::column_effective_length(number(g, "K_e"), length(g, "l"));
    return json{{"l_e", in_inches(l_e)}, {"l_e_over_d", l_e / length(g, "d")}};
  };
  r["nds_bending_less_tension"] = [](const json& g) {
    return json{{"ratio", na::bending_less_tension(stress(g, "f_b"), stress(g, "f_t"),
                                                   stress(g, "F_b_double_star"))}};
  };
  r["nds_depth_to_breadth"] = [](const json& g) {
    const na::LateralSupport supports[] = {
        na::LateralSupport::none, na::LateralSupport::ends, na::LateralSupport::ends_and_edge,
        na::LateralSupport::ends_edge_and_blocking, na::LateralSupport::ends_and_both_edges};
    const auto row = g.at("row").get<std::size_t>();
    return json{{"d_over_b", na::greatest_depth_to_breadth(supports[row])}};
  };
  r["nds_at_angle"] = [](const json& g) {
    return json{
        {"F", in_psi(na::at_angle_to_grain(stress(g, "parallel"), stress(g, "perpendicular"),
                                           number(g, "theta_deg")))}};
  };
  r["nds_bearing"] = [](const json& g) {
    return json{
        {"f_c_perp", in_psi(na::bearing_stress(force(g, "R"), length(g, "b"), length(g, "l_b")))}};
  };
  r["nds_creep"] = [](const json& g) {
    const json& K_cr = factors().at("K_cr");
    const Length total =
        na::long_term_deflection(K_cr.at(g.at("lumber").get<std::string>()).get<double>(),
                                 length(g, "dead"), length(g, "live"));
    return json{{"total", in_inches(total)}};
  };
  // The tip of an overhang, in units of P a^2 (l + a)/(E I).
  r["nds_overhang_tip"] = [](const json& g) {
    const Length a = length(g, "a"), l = length(g, "l");
    const Stress E = psi(1e6);
    const SecondMoment I = na::section(inches(2.0), inches(6.0)).I;
    const Length tip = na::deflection_overhang_tip(pounds_force(100.0), a, l, E, I);
    return json{{"times_3", 3.0 * (tip / ((pounds_force(100.0) * (a * a)) * (l + a) / (E * I)))}};
  };
  r["asd_uplift"] = [](const json& g) {
    for (const na::AsdCombination& c : na::asd_uplift_combinations()) {
      if (c.text == g.at("text").get<std::string>()) return json{{"D", c.D}, {"F", c.F}};
    }
    throw std::runtime_error("no such combination");
  };
}

void register_factors(Registry& r) {
  r["nds_nominal_size"] = [](const json& g) {
    std::vector<na::DressedSize> rows;
    for (const char* nominal : {"2", "3", "4", "5", "6", "8", "10", "12", "14", "16"}) {
      rows.push_back({std::stod(nominal),
                      inches(sizes().at("dry_width").at("values").at(nominal).get<double>())});
    }
    return json{{"nominal", na::nominal_size(rows, length(g, "actual")).value_or(0.0)}};
  };
  r["nds_size_factor_timber"] = [](const json& g) {
    return json{{"C_F", na::size_factor_timber(mm(number(g, "d_mm")))}};
  };
  r["nds_size_factors"] = [](const json& g) {
    std::vector<na::SizeFactorRow> rows;
    for (const json& row : factors().at("C_F").at("rows")) {
      rows.push_back({row.at("nominal_width"), row.at("F_b_2_3"), row.at("F_b_4"), row.at("F_t"),
                      row.at("F_c")});
    }
    const na::SizeFactors C_F = na::size_factors(rows, number(g, "width"), number(g, "thickness"));
    return json{{"F_b", C_F.F_b}, {"F_t", C_F.F_t}, {"F_c", C_F.F_c}};
  };
  r["nds_flat_use_factor"] = [](const json& g) {
    std::vector<na::FlatUseRow> rows;
    for (const json& row : factors().at("C_fu").at("rows")) {
      rows.push_back({row.at("nominal_width"), row.at("thick_2_3"), row.at("thick_4")});
    }
    return json{{"C_fu", na::flat_use_factor(rows, number(g, "width"), number(g, "thickness"))}};
  };
  r["nds_factor_table"] = [](const json& g) {
    return factors().at(g.at("table").get<std::string>());
  };
  r["nds_bearing_area"] = [](const json& g) {
    return json{{"C_b", na::bearing_area_factor(length(g, "l_b"), inches(3.0))}};
  };
  r["nds_reduction_terms"] = [](const json& g) {
    const na::ReductionTerms R =
        na::reduction_terms(length(g, "D"), length(g, "nominal"), number(g, "theta_deg"));
    return json{{"I", R.I}, {"II", R.II}, {"III_IV", R.III_IV}};
  };
  r["nds_spacing_factor"] = [](const json& g) {
    return json{{"C_Delta", na::geometry_factor_spacing(mm(number(g, "s_mm")), length(g, "D"))}};
  };
  r["nds_penetration"] = [](const json& g) {
    const json& row = factors().at("penetration_in_D").at(g.at("fixing").get<std::string>());
    const Length D = length(g, "D");
    const double least = row.at("least"), full = row.at("full");
    const double share = na::penetration_factor(length(g, "p"), D, least, full);
    return json{{"least_in", least * in_inches(D)}, {"share", share}};
  };
}

void register_footings(Registry& r) {
  // A ledger's row of fixings at the normal duration: the tested value stands.
  r["ledger_fastener"] = [](const json& g) {
    const Force F = na::ledger_fastener_capacity(force(g, "allowable_lb"), number(g, "C_D"));
    const Length spacing = na::ledger_fastener_spacing(F, feet(number(g, "joist_span_ft")),
                                                       psf(number(g, "load_psf")), inches(36.0));
    return json{{"spacing_in", in_inches(spacing)}};
  };
  // A printed footing carries its load and its own weight on the pressure it was sized for, and is
  // as thick as it projects.
  r["footing_as_printed"] = [](const json& g) {
    const Length round = length(g, "round_in"), contact = length(g, "post_in");
    const Length thickness = length(g, "thickness_in");
    const Force P =
        psf(50.0) * (0.75 * feet(number(g, "joist_span_ft"))) * feet(number(g, "beam_span_ft"));
    const auto carries = [&](Length square) {
      const Pressure q =
          na::footing_pressure(P, square * square, thickness, na::pounds_per_cubic_foot(150.0));
      return q <= na::allowable_bearing(psf(1500.0), square, inches(12.0), true, psf(1500.0));
    };
    const auto allowed = [&](Length t) { return na::projection_allowed(round, contact, t); };
    const Length square = length(g, "square_in");
    return json{{"working_in", in_inches(na::working_side(round, contact, thickness))},
                {"carries", carries(square) ? "yes" : "no"},
                {"an_inch_narrower_carries", carries(square - inches(1.0)) ? "yes" : "no"},
                {"thickness_allowed", allowed(thickness) ? "yes" : "no"},
                {"an_inch_thinner_allowed", allowed(thickness - inches(1.0)) ? "yes" : "no"}};
  };
  // The moment at the greatest projection is the strength of the section.
  r["plain_concrete_strength"] = [](const json& g) {
    const Pressure w_u = psf(number(g, "w_u_psf", 2000.0));
    const Length a = na::plain_concrete_projection(length(g, "t"), length(g, "cast_on_soil"),
                                                   stress(g, "f_c"), number(g, "phi"), w_u);
    return json{{"M_ft_lb_per_ft", (w_u * a * a / 2.0) / pounds_force(1.0)}};
  };
}

}  // namespace

}  // namespace north_america_member_rules_file

void register_north_america_members(Registry& registry) {
  using namespace north_america_member_rules_file;
  register_shear(registry);
  register_members(registry);
  register_factors(registry);
  register_footings(registry);
}

}  // namespace underprop::published
