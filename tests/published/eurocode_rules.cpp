// The Eurocode rules that tests/published/eurocode/*.json may name.
#include "published/given.hpp"
#include "published/registry.hpp"

#include "catalog/embedded.hpp"
#include "standards/eurocode/actions.hpp"
#include "standards/eurocode/axial.hpp"
#include "standards/eurocode/bearing.hpp"
#include "standards/eurocode/bending.hpp"
#include "standards/eurocode/column.hpp"
#include "standards/eurocode/deflection.hpp"
#include "standards/eurocode/fastener.hpp"
#include "standards/eurocode/ground.hpp"
#include "standards/eurocode/group.hpp"
#include "standards/eurocode/lateral.hpp"
#include "standards/eurocode/material.hpp"
#include "standards/eurocode/shear.hpp"
#include "standards/half_space.hpp"
#include "standards/ledger_couple.hpp"

#include <numbers>
#include <stdexcept>
#include <string>

namespace underprop::published {
namespace eurocode_rules_file {

namespace {

using nlohmann::json;
namespace ec = standards::eurocode;

Length length(const json& given, const char* key) { return mm(number(given, key)); }
Stress stress(const json& given, const char* key) { return megapascals(number(given, key)); }
Density density(const json& given, const char* key) { return kg_per_m3(number(given, key)); }
double angle(const json& given, const char* key) {
  return number(given, key) * std::numbers::pi / 180.0;
}

json en338_class(const json& given) {
  for (const catalog::EmbeddedFile& file : catalog::embedded_files()) {
    if (file.path == "eurocode/timber.json") {
      return json::parse(file.text).at("classes").at(given.at("class").get<std::string>());
    }
  }
  throw std::runtime_error("eurocode/timber.json is not embedded");
}

// A set of partial factors of data/eurocode/factors.json.
json partial_factor_set(const json& given) {
  for (const catalog::EmbeddedFile& file : catalog::embedded_files()) {
    if (file.path == "eurocode/factors.json") {
      return json::parse(file.text).at("partial_factors").at(given.at("set").get<std::string>());
    }
  }
  throw std::runtime_error("eurocode/factors.json is not embedded");
}

json factors_of(const char* table, const json& given) {
  for (const catalog::EmbeddedFile& file : catalog::embedded_files()) {
    if (file.path == "eurocode/factors.json") {
      const json data = json::parse(file.text).at(table);
      return data.at("service_class").at(given.at("service_class").get<std::string>());
    }
  }
  throw std::runtime_error("eurocode/factors.json is not embedded");
}

void register_members(Registry& r) {
  r["en338_class"] = en338_class;
  r["k_mod_table"] = [](const json& g) { return factors_of("k_mod", g); };
  r["k_def_table"] = [](const json& g) { return json{{"k_def", factors_of("k_def", g)}}; };
  r["k_h"] = [](const json& g) {
    return json{{"k_h", ec::k_h(length(g, "h_mm"), density(g, "rho_k_kg_m3"))}};
  };
  r["design_strength"] = [](const json& g) {
    const Stress X_d =
        ec::design_strength(number(g, "k_mod"), stress(g, "X_k_MPa"), number(g, "gamma_M"));
    return json{{"X_d_MPa", in_megapascals(X_d)}};
  };
  // A simple span under uniform load: combination (6.10), moment, stresses, strengths.
  r["simple_span"] = [](const json& g) {
    ec::PartialFactors gamma;
    gamma.G_sup = number(g, "gamma_G");
    gamma.Q = number(g, "gamma_Q");
    const double area_load = ec::design_effect(ec::combination_6_10(gamma, 0.0),
                                               number(g, "G_kN_m2"), number(g, "Q_kN_m2"), 0.0);
    const LineLoad q(area_load * number(g, "spacing_mm") / 1000.0);
    const Length l = length(g, "l_mm");
    const Length b = length(g, "b_mm");
    const Length h = length(g, "h_mm");
    const Moment M = q * (l * l) / 8.0;
    const Force V = 0.5 * (q * l);
    const Stress sigma = ec::bending_stress(M, b, h);
    const Stress tau = ec::shear_stress(V, ec::b_ef(b, number(g, "k_cr", 1.0)), h);
    const Stress f_m_d =
        ec::system_strength_factor(4, true, number(g, "k_sys", 1.0)) * number(g, "k_h", 1.0) *
        ec::design_strength(number(g, "k_mod"), stress(g, "f_m_k_MPa"), number(g, "gamma_M"));
    json got{{"E_d_kN_m2", area_load},
             {"M_d_kNm", M.value() * 1e-6},
             {"V_d_kN", in_kilonewtons(V)},
             {"sigma_m_d_MPa", in_megapascals(sigma)},
             {"tau_d_MPa", in_megapascals(tau)},
             {"f_m_d_MPa", in_megapascals(f_m_d)},
             {"utilisation", ec::bending_utilisation(sigma, f_m_d, 1.0)}};
    if (g.contains("f_v_k_MPa")) {
      got["f_v_d_MPa"] = in_megapascals(
          ec::design_strength(number(g, "k_mod"), stress(g, "f_v_k_MPa"), number(g, "gamma_M")));
    }
    return got;
  };
  r["bending_stress"] = [](const json& g) {
    const LineLoad q(number(g, "q_kN_m"));
    const Length l = length(g, "l_mm");
    const Moment M = q * (l * l) / 8.0;
    const Stress sigma = ec::bending_stress(M, length(g, "b_mm"), length(g, "h_mm"));
    return json{{"M_d_kNm", M.value() * 1e-6}, {"sigma_m_d_MPa", in_megapascals(sigma)}};
  };
  r["shear_stress"] = [](const json& g) {
    const Length b_ef = ec::b_ef(length(g, "b_mm"), number(g, "k_cr"));
    const Stress tau = ec::shear_stress(newtons(number(g, "V_N")), b_ef, length(g, "h_mm"));
    return json{{"tau_MPa", in_megapascals(tau)}};
  };
  r["reduced_shear_uniform"] = [](const json& g) {
    const LineLoad q(number(g, "q_kN_m"));
    const Force V = 0.5 * (q * length(g, "l_mm"));
    const Force V_red = ec::reduced_shear_uniform(V, length(g, "l_mm"), length(g, "h_mm"),
                                                  length(g, "l_support_mm"));
    const Length b = length(g, "b_mm");
    const Length h = length(g, "h_mm");
    return json{{"V_kN", in_kilonewtons(V)},
                {"tau_MPa", in_megapascals(ec::shear_stress(V, b, h))},
                {"V_red_kN", in_kilonewtons(V_red)},
                {"tau_red_MPa", in_megapascals(ec::shear_stress(V_red, b, h))}};
  };
  r["notched_end"] = [](const json& g) {
    const ec::EndNotch notch{
        g.at("side") == "support" ? ec::NotchSide::support : ec::NotchSide::opposite,
        length(g, "h_mm"), length(g, "h_ef_mm"), length(g, "x_mm"), number(g, "i")};
    const double k_v = ec::k_v(notch, number(g, "k_n"));
    json got{{"alpha", notch.h_ef / notch.h}, {"k_v", k_v}};
    if (g.contains("V_N")) {
      const Stress tau = ec::notched_shear_stress(
          newtons(number(g, "V_N")), ec::b_ef(length(g, "b_mm"), number(g, "k_cr")), notch.h_ef);
      got["tau_MPa"] = in_megapascals(tau);
      got["utilisation"] = tau / (k_v * stress(g, "f_v_d_MPa"));
    }
    return got;
  };
  r["load_near_support"] = [](const json& g) {
    const bool out = ec::may_be_left_out_of_shear(length(g, "from_edge_mm"), length(g, "h_mm"));
    return json{{"left_out", out ? "yes" : "no"}};
  };
  r["effective_length"] = [](const json& g) {
    const std::string which = g.at("case").get<std::string>();
    const std::string edge = g.at("edge").get<std::string>();
    const auto bending_case =
        which == "constant moment"      ? ec::BendingCase::constant_moment
        : which == "uniform"            ? ec::BendingCase::uniform_load
        : which == "point at mid-span"  ? ec::BendingCase::point_load_at_midspan
        : which == "cantilever uniform" ? ec::BendingCase::cantilever_uniform
                                        : ec::BendingCase::cantilever_point_at_tip;
    const auto loaded_edge = edge == "compression" ? ec::LoadedEdge::compression
                             : edge == "tension"   ? ec::LoadedEdge::tension
                                                   : ec::LoadedEdge::centre_line;
    return json{{"l_ef_mm", in_mm(ec::effective_length(bending_case, loaded_edge, length(g, "l_mm"),
                                                       length(g, "h_mm")))}};
  };
  r["sigma_m_crit"] = [](const json& g) {
    return json{{"sigma_m_crit_MPa",
                 in_megapascals(ec::sigma_m_crit(length(g, "b_mm"), length(g, "h_mm"),
                                                 length(g, "l_ef_mm"), stress(g, "E_0_05_MPa")))}};
  };
  r["k_crit"] = [](const json& g) {
    const double lambda = ec::lambda_rel_m(stress(g, "f_m_k_MPa"), stress(g, "sigma_m_crit_MPa"));
    return json{{"lambda_rel_m", lambda},
                {"k_crit", ec::k_crit(lambda)},
                {"k_crit_f_m_d_MPa", ec::k_crit(lambda) * number(g, "f_m_d_MPa", 0.0)}};
  };
  // From the section to the utilisation in bending, the load where "edge" says.
  r["lateral_stability"] = [](const json& g) {
    const auto bending_case = g.at("case") == "uniform" ? ec::BendingCase::uniform_load
                                                        : ec::BendingCase::point_load_at_midspan;
    const Length l_ef = ec::effective_length(bending_case, ec::LoadedEdge::compression,
                                             length(g, "l_mm"), length(g, "h_mm"));
    const ec::LateralStability s =
        ec::lateral_stability(length(g, "b_mm"), length(g, "h_mm"), l_ef, stress(g, "f_m_k_MPa"),
                              stress(g, "E_0_05_MPa"));
    return json{{"sigma_m_crit_MPa", in_megapascals(s.sigma_m_crit)},
                {"lambda_rel_m", s.lambda_rel_m},
                {"utilisation", ec::bending_utilisation(stress(g, "sigma_MPa"),
                                                        stress(g, "f_m_d_MPa"), s.k_crit)}};
  };
  // (6.31) of a thin rectangle, I_tor = h b^3/3, as the factor of b^2 E/(h l_ef).
  r["sigma_m_crit_factor"] = [](const json& g) {
    const double b = 10.0, h = 100.0, l = 1000.0;
    const Stress E = stress(g, "E_0_05_MPa");
    const Stress sigma = ec::sigma_m_crit_general(
        E, stress(g, "G_0_05_MPa"), SecondMoment(h * b * b * b / 12.0),
        SecondMoment(h * b * b * b / 3.0), SectionModulus(b * h * h / 6.0), mm(l));
    return json{{"factor", sigma / E * (h * l) / (b * b)}};
  };
  r["biaxial_bending"] = [](const json& g) {
    return json{{"utilisation", ec::biaxial_bending_utilisation(
                                    stress(g, "sigma_y_MPa"), stress(g, "f_y_MPa"),
                                    stress(g, "sigma_z_MPa"), stress(g, "f_z_MPa"), 0.7)}};
  };
  r["beam_column"] = [](const json& g) {
    ec::StressRatios ratios;
    ratios.bending_y = number(g, "bending");
    ratios.compression = number(g, "compression");
    return json{{"utilisation", ec::beam_column_utilisation(ratios, 1.0, 1.0)}};
  };
  // Compression and bending about both axes, held at the ends only: (6.23) and (6.24).
  r["column_with_bending"] = [](const json& g) {
    const Length l = length(g, "l_mm");
    const auto about = [&](const char* side) {
      return ec::buckling(l, length(g, side), stress(g, "f_c_0_k_MPa"), stress(g, "E_0_05_MPa"),
                          number(g, "beta_c"));
    };
    const ec::Buckling y = about("h_mm"), z = about("b_mm");
    const ec::StressRatios ratios{number(g, "compression"), number(g, "bending_y"),
                                  number(g, "bending_z")};
    return json{{"k_c_y", y.k_c},
                {"k_c_z", z.k_c},
                {"utilisation", ec::compression_and_bending_utilisation(ratios, y, z, 0.7)}};
  };
  r["buckling"] = [](const json& g) {
    const ec::Buckling weak =
        ec::buckling(length(g, "l_ef_mm"), length(g, "side_mm"), stress(g, "f_c_0_k_MPa"),
                     stress(g, "E_0_05_MPa"), number(g, "beta_c"));
    json got{
        {"lambda", weak.lambda}, {"lambda_rel", weak.lambda_rel}, {"k", weak.k}, {"k_c", weak.k_c}};
    if (g.contains("N_kN")) {
      const Stress sigma =
          kilonewtons(number(g, "N_kN")) / (length(g, "side_mm") * length(g, "other_side_mm"));
      const Stress f_c_0_d =
          ec::design_strength(number(g, "k_mod"), stress(g, "f_c_0_k_MPa"), number(g, "gamma_M"));
      ec::StressRatios ratios;
      ratios.compression = sigma / f_c_0_d;
      got["sigma_c_0_d_MPa"] = in_megapascals(sigma);
      got["f_c_0_d_MPa"] = in_megapascals(f_c_0_d);
      got["utilisation"] = ec::compression_and_bending_utilisation(ratios, weak, weak, 0.7);
    }
    return got;
  };
  r["k_c_90"] = [](const json& g) {
    const auto support = g.at("support") == "continuous" ? ec::BearingSupport::continuous
                                                         : ec::BearingSupport::discrete;
    return json{{"k_c_90", ec::k_c_90(support, g.at("softwood").get<bool>(), length(g, "l_1_mm"),
                                      length(g, "h_mm"))}};
  };
  r["bearing"] = [](const json& g) {
    const ec::BearingSide left{length(g, "a_left_mm"), mm(1e6)};
    const ec::BearingSide right{length(g, "a_right_mm"), mm(1e6)};
    const Length l_ef = ec::effective_contact_length(length(g, "l_mm"), left, right);
    const Length b = length(g, "b_mm");
    const Force F_Rk = ec::bearing_resistance_characteristic(number(g, "k_c_90"),
                                                             stress(g, "f_c_90_k_MPa"), b, l_ef);
    return json{{"l_ef_mm", in_mm(l_ef)},
                {"A_ef_mm2", (b * l_ef).value()},
                {"F_c_90_Rk_kN", in_kilonewtons(F_Rk)},
                {"sigma_c_90_MPa",
                 in_megapascals(ec::bearing_stress(kilonewtons(number(g, "F_kN", 0.0)), b, l_ef))}};
  };
}

void register_service(Registry& r) {
  r["deflection_uniform"] = [](const json& g) {
    const ec::SpanDeflection w =
        ec::deflection_uniform(LineLoad(number(g, "q_kN_m")), length(g, "l_mm"), length(g, "b_mm"),
                               length(g, "h_mm"), stress(g, "E_MPa"), stress(g, "G_MPa"));
    return json{{"w_mm", in_mm(w.total)}};
  };
  // A load at mid-span, bending alone: the printed value leaves shear out.
  r["deflection_midspan"] = [](const json& g) {
    const ec::SpanDeflection w = ec::deflection_midspan_point(
        newtons(number(g, "F_lb") * 4.4482216152605), mm(25.4 * number(g, "l_in")),
        mm(25.4 * number(g, "b_in")), mm(25.4 * number(g, "h_in")),
        megapascals(number(g, "E_psi") * 0.00689475729316836), megapascals(1.0));
    return json{{"w_in", in_mm(w.bending) / 25.4}};
  };
  // Variable load with creep, bending only, as the printed sheet has it.
  r["final_deflection"] = [](const json& g) {
    const ec::SpanDeflection w =
        ec::deflection_uniform(LineLoad(number(g, "q_kN_m")), length(g, "l_mm"), length(g, "b_mm"),
                               length(g, "h_mm"), stress(g, "E_MPa"), megapascals(1.0));
    return json{{"w_fin_mm", in_mm(ec::final_deflection(mm(0.0), w.bending, number(g, "psi_2"),
                                                        number(g, "k_def")))}};
  };
  r["creep_deflection"] = [](const json& g) {
    const auto w = [&g](const char* area_load) {
      return ec::deflection_uniform(LineLoad(number(g, area_load) * number(g, "spacing_mm") / 1e3),
                                    length(g, "l_mm"), length(g, "b_mm"), length(g, "h_mm"),
                                    stress(g, "E_MPa"), stress(g, "G_MPa"))
          .total;
    };
    return json{
        {"w_creep_mm", in_mm(ec::creep_deflection(w("G_kN_m2"), w("Q_kN_m2"), number(g, "psi_2"),
                                                  number(g, "k_def")))}};
  };
  r["floor_vibration"] = [](const json& g) {
    const ec::FloorVibration v =
        ec::floor_vibration({number(g, "EI_l_Nm2_m"), number(g, "EI_b_Nm2_m"), number(g, "m_kg_m2"),
                             number(g, "l_m"), number(g, "b_m")});
    return json{{"f_1_Hz", v.f_1_Hz}, {"n_40", v.n_40}, {"v_m_Ns2", v.v_m_per_Ns2}};
  };
  r["partial_factor_set"] = partial_factor_set;
  r["characteristic"] = [](const json& g) {
    return json{{"E", ec::design_effect(ec::combination_characteristic(0.0), number(g, "G"),
                                        number(g, "Q"), 0.0)}};
  };
  r["sls_factors"] = [](const json& g) {
    const ec::ActionFactors f =
        g.at("expression") == "frequent"
            ? ec::combination_frequent(number(g, "psi_1"), number(g, "psi_2"))
            : ec::combination_quasi_permanent(number(g, "psi_2"), number(g, "psi_2"));
    return json{{"G", f.G_sup}, {"Q_leading", f.Q_leading}, {"Q_accompanying", f.Q_accompanying}};
  };
  r["combination"] = [](const json& g) {
    const ec::PartialFactors gamma{number(g, "gamma_G"), 1.0, number(g, "gamma_Q"),
                                   number(g, "xi", 1.0)};
    const std::string which = g.at("expression").get<std::string>();
    const double psi_0 = number(g, "psi_0", 0.0);
    const ec::ActionFactors f = which == "6.10a"   ? ec::combination_6_10a(gamma, psi_0, psi_0)
                                : which == "6.10b" ? ec::combination_6_10b(gamma, psi_0)
                                                   : ec::combination_6_10(gamma, psi_0);
    return json{{"G", f.G_sup},
                {"Q_leading", f.Q_leading},
                {"Q_accompanying", f.Q_accompanying},
                {"E_d_N", ec::design_effect(f, number(g, "G_N", 0.0), number(g, "Q_N", 0.0), 0.0)}};
  };
}

void register_connections(Registry& r) {
  // Mode (f) of (8.6), no rope effect, pieces thick enough for it: kN per shear plane.
  r["timber_to_timber_mode_f"] = [](const json& g) {
    const Length d = length(g, "d_mm");
    const Density rho_k = density(g, "rho_k_kg_m3");
    ec::TimberToTimber joint;
    joint.f_h_1_k = ec::f_h_bolt(d, rho_k, angle(g, "alpha_1_deg"), false).value();
    joint.f_h_2_k = ec::f_h_bolt(d, rho_k, angle(g, "alpha_2_deg"), false).value();
    joint.t_1 = joint.t_2 = 100.0 * d;
    joint.d = d;
    joint.M_y_Rk = ec::M_y_Rk_round(stress(g, "f_u_MPa"), d);
    const ec::SingleShear single = ec::timber_to_timber_single_shear(joint);
    const ec::DoubleShear both = ec::timber_to_timber_double_shear(joint);
    return json{{"F_v_Rk_kN", in_kilonewtons(single.F_v_Rk)},
                {"governing", std::string(1, single.governing)},
                {"double_F_v_Rk_kN", in_kilonewtons(both.F_v_Rk)}};
  };
  r["steel_to_timber_hinges"] = [](const json& g) {
    const Length d = length(g, "d_mm");
    ec::SteelToTimber joint;
    joint.f_h_k = ec::f_h_bolt(d, density(g, "rho_k_kg_m3"), angle(g, "alpha_deg"), false).value();
    joint.t_1 = 100.0 * d;
    joint.d = d;
    joint.plate = g.at("plate") == "thick" ? d : 0.5 * d;
    joint.M_y_Rk = ec::M_y_Rk_round(stress(g, "f_u_MPa"), d);
    return json{
        {"F_v_Rk_kN", in_kilonewtons(ec::steel_to_timber_single_shear(joint, true).F_v_Rk)}};
  };
  r["F_90_Rd"] = [](const json& g) {
    const Force F_90_Rk = ec::F_90_Rk(length(g, "b_mm"), length(g, "h_mm"), length(g, "h_e_mm"));
    return json{{"F_90_Rd_N", in_newtons(ec::design_resistance(number(g, "k_mod"), F_90_Rk,
                                                               number(g, "gamma_M")))}};
  };
  r["declared_screw_withdrawal"] = [](const json& g) {
    const auto F = [&g](int n) {
      return ec::F_ax_Rk_declared_screws(n, stress(g, "f_ax_k_MPa"), length(g, "d_mm"),
                                         length(g, "l_ef_mm"), kg_per_m3(350), kg_per_m3(350),
                                         angle(g, "alpha_deg"))
          .value();
    };
    const Force R_d =
        ec::design_resistance(number(g, "k_mod"), F(g.at("n").get<int>()), number(g, "gamma_M"));
    return json{{"one_R_k_kN", in_kilonewtons(F(1))}, {"R_d_kN", in_kilonewtons(R_d)}};
  };
  r["slip_and_composite"] = [](const json& g) {
    const Stiffness K = ec::K_ser_nail_not_predrilled(density(g, "rho_m_kg_m3"), length(g, "d_mm"));
    const double gamma = ec::gamma_composite(stress(g, "E_MPa"), Area(number(g, "A_mm2")),
                                             length(g, "s_mm"), K, length(g, "l_mm"));
    return json{{"K_ser_N_mm", K.value()}, {"gamma", gamma}};
  };
  r["bolt_spacing"] = [](const json& g) {
    const ec::Spacing s = ec::bolt_spacing(length(g, "d_mm"), angle(g, "alpha_deg"));
    return json{{"a_1_mm", in_mm(s.a_1)},     {"a_2_mm", in_mm(s.a_2)},
                {"a_3_t_mm", in_mm(s.a_3_t)}, {"a_3_c_mm", in_mm(s.a_3_c)},
                {"a_4_t_mm", in_mm(s.a_4_t)}, {"a_4_c_mm", in_mm(s.a_4_c)}};
  };
  r["nail_spacing_in_d"] = [](const json& g) {
    const Length d = length(g, "d_mm");
    const ec::Spacing s = ec::nail_spacing(d, density(g, "rho_k_kg_m3"),
                                           g.at("predrilled").get<bool>(), angle(g, "alpha_deg"))
                              .value();
    return json{{"a_1", s.a_1 / d},     {"a_2", s.a_2 / d},     {"a_3_t", s.a_3_t / d},
                {"a_3_c", s.a_3_c / d}, {"a_4_t", s.a_4_t / d}, {"a_4_c", s.a_4_c / d}};
  };
  r["axial_screw_spacing_in_d"] = [](const json& g) {
    const Length d = length(g, "d_mm");
    const ec::AxialSpacing s = ec::axial_screw_spacing(d);
    return json{
        {"a_1", s.a_1 / d}, {"a_2", s.a_2 / d}, {"a_1_CG", s.a_1_CG / d}, {"a_2_CG", s.a_2_CG / d}};
  };
  r["k_ef"] = [](const json& g) {
    const auto k_ef = ec::k_ef(number(g, "a_1_in_d") * mm(3.0), mm(3.0), g.at("predrilled"));
    if (!k_ef) return json{{"k_ef", nullptr}};
    return json{{"k_ef", *k_ef}};
  };
}

// Fasteners one by one and in rows.
void register_fasteners(Registry& r) {
  // (8.6) without the rope effect, not predrilled.
  r["nails_between_two_timbers"] = [](const json& g) {
    ec::TimberToTimber joint;
    joint.d = length(g, "d_mm");
    joint.t_1 = length(g, "t_1_mm");
    joint.t_2 = length(g, "t_2_mm");
    joint.f_h_1_k = ec::f_h_nail(joint.d, density(g, "rho_1_kg_m3"), false).value();
    joint.f_h_2_k = ec::f_h_nail(joint.d, density(g, "rho_2_kg_m3"), false).value();
    joint.M_y_Rk = ec::M_y_Rk_round(stress(g, "f_u_MPa"), joint.d);
    const ec::SingleShear s = ec::timber_to_timber_single_shear(joint);
    return json{{"f_h_1_MPa", in_megapascals(joint.f_h_1_k)},
                {"f_h_2_MPa", in_megapascals(joint.f_h_2_k)},
                {"M_y_Nmm", joint.M_y_Rk.value()},
                {"a_kN", in_kilonewtons(s.a)},
                {"b_kN", in_kilonewtons(s.b)},
                {"c_kN", in_kilonewtons(s.c)},
                {"d_kN", in_kilonewtons(s.d)},
                {"e_kN", in_kilonewtons(s.e)},
                {"f_kN", in_kilonewtons(s.f)},
                {"governing", std::string(1, s.governing)}};
  };
  r["row_of_nails"] = [](const json& g) {
    const double n_ef = ec::n_ef_nails(g.at("n").get<int>(), number(g, "k_ef"));
    const Force R_d = ec::design_resistance(
        number(g, "k_mod"), n_ef * kilonewtons(number(g, "F_v_Rk_kN")), number(g, "gamma_M"));
    return json{{"n_ef", n_ef}, {"R_d_kN", in_kilonewtons(R_d)}};
  };
  r["n_ef_at_spacing"] = [](const json& g) {
    const Length d = mm(8.0);
    const double k_ef = ec::k_ef(number(g, "a_1_in_d") * d, d, g.at("predrilled")).value();
    return json{{"n_ef", ec::n_ef_nails(g.at("n").get<int>(), k_ef)}};
  };
  r["screw_diameter"] = [](const json& g) {
    const Length d = length(g, "d_mm");
    const Length d_ef =
        ec::screw_d_ef(d, length(g, "root_mm"), length(g, "smooth_in_point_piece_mm"));
    return json{{"d_ef_mm", in_mm(d_ef)},
                {"t_pen_min_mm", in_mm(ec::minimum_point_penetration(d, false))}};
  };
  r["nail_thickness"] = [](const json& g) {
    const Length d = length(g, "d_mm");
    const Density rho_k = density(g, "rho_k_kg_m3");
    const bool smooth = g.contains("smooth") && g.at("smooth").get<bool>();
    const ec::Spacing along = ec::nail_spacing(d, rho_k, false, 0.0).value();
    return json{{"t_min_in_d", ec::minimum_thickness_not_predrilled(d, rho_k) / d},
                {"t_pen_min_mm", in_mm(ec::minimum_point_penetration(d, smooth))},
                {"two_edges_mm", in_mm(2.0 * along.a_4_c)}};
  };
  r["bolt_pull"] = [](const json& g) {
    const Force bolt = stress(g, "f_u_MPa") * Area(number(g, "A_t_mm2"));
    const Force F = ec::F_ax_Rk_bolt(bolt, stress(g, "f_c_90_k_MPa"), length(g, "washer_mm"),
                                     length(g, "d_mm") + mm(1.0));
    return json{{"bolt_kN", in_kilonewtons(bolt)}, {"F_ax_Rk_kN", in_kilonewtons(F)}};
  };
  r["design_resistance"] = [](const json& g) {
    const Force R_k = number(g, "n") * kilonewtons(number(g, "R_k_kN"));
    return json{{"R_d_kN", in_kilonewtons(ec::design_resistance(number(g, "k_mod"), R_k,
                                                                number(g, "gamma_M")))}};
  };
}

void register_ground(Registry& r) {
  // Design effects of a pad under both sets of design approach 1, from the sets themselves.
  r["design_approach_1"] = [](const json& g) {
    const json set = partial_factor_set(g);
    const ec::PartialFactors gamma{set.at("G_sup"), set.at("G_inf"), set.at("Q"), 1.0};
    const double V = ec::design_effect(ec::combination_6_10(gamma, 0.0), number(g, "G_kN"),
                                       number(g, "Q_kN"), 0.0);
    const double phi_d = ec::design_friction_angle(angle(g, "phi_k_deg"), set.at("phi"));
    return json{{"V_d_kN", V}, {"phi_d_deg", phi_d * 180.0 / std::numbers::pi}};
  };
  r["eccentricity"] = [](const json& g) {
    const bool excessive = ec::is_eccentricity_excessive(length(g, "B_mm"), length(g, "e_mm"));
    return json{{"excessive", excessive ? "yes" : "no"}};
  };
  r["plain_concrete"] = [](const json& g) {
    return json{
        {"f_ctd_MPa", in_megapascals(ec::f_ctd_plain(number(g, "alpha"), stress(g, "f_ctk_MPa"),
                                                     number(g, "gamma_C")))}};
  };
  // The greatest projection of a plain footing of the thickness h.
  r["plain_footing"] = [](const json& g) {
    const double slope =
        ec::plain_footing_slope(kilopascals(number(g, "sigma_kPa")), stress(g, "f_ctd_MPa"));
    const Length h = length(g, "h_mm");
    const Length c = mm(100.0), side = mm(2000.0);
    return json{{"a_max_mm", in_mm(h) / slope},
                {"working_projection_mm", 0.5 * in_mm(ec::working_width(c, side, side, h) - c)}};
  };
  r["drained_bearing"] = [](const json& g) {
    const ec::DrainedBearing d = ec::drained_bearing(
        angle(g, "phi_deg"), kilopascals(number(g, "c_kPa", 0.0)),
        kilopascals(number(g, "q_kPa", 0.0)), ec::kilonewtons_per_m3(number(g, "gamma_kN_m3", 0.0)),
        length(g, "B_mm"), length(g, "L_mm"));
    return json{{"N_q", d.N_q},
                {"N_c", d.N_c},
                {"N_gamma", d.N_gamma},
                {"s_q", d.s_q},
                {"s_gamma", d.s_gamma},
                {"s_c", d.s_c},
                {"resistance_kPa", in_kilopascals(d.resistance)}};
  };
  r["undrained_bearing"] = [](const json& g) {
    const Length B = ec::effective_width(length(g, "B_mm"), length(g, "e_B_mm"));
    const Length L = ec::effective_width(length(g, "L_mm"), length(g, "e_L_mm"));
    const ec::UndrainedBearing u = ec::undrained_bearing(
        kilopascals(number(g, "c_u_kPa")), kilopascals(number(g, "q_kPa", 0.0)), B, L);
    return json{
        {"B_mm", in_mm(B)}, {"s_c", u.s_c}, {"resistance_kPa", in_kilopascals(u.resistance)}};
  };
  // I_s of s = q B (1 - nu^2) I_s/E, from the stiffness: I_s = E A/(K B (1 - nu^2)).
  r["rigid_circle_factor"] = [](const json& g) {
    const double nu = 0.3;
    const Stress E = megapascals(10.0);
    const double D = number(g, "D_mm");
    const double K = standards::rigid_circle_stiffness(mm(D), E, nu).value();
    return json{{"I_s", E.value() * D * std::numbers::pi / 4.0 / (K * (1.0 - nu * nu))}};
  };
  r["rigid_settlement_factor"] = [](const json& g) {
    const double nu = 0.3;
    const Stress E = megapascals(10.0);
    const double ratio = number(g, "L_over_B");
    const double K = standards::rigid_rectangle_stiffness(mm(1.0), mm(ratio), E, nu).value();
    return json{{"I_s", E.value() * ratio / (K * (1.0 - nu * nu))}};
  };
  r["couple_of_hung_joists"] = [](const json& g) {
    const Force T =
        standards::pull_of_couple(newtons(number(g, "V_N")), length(g, "a_mm"), length(g, "z_mm"));
    return json{{"T_N", in_newtons(T)}};
  };
  r["lever_of_ledger_fixings"] = [](const json& g) {
    std::vector<Length> rows;
    for (const json& row : g.at("rows_mm")) rows.push_back(mm(row.get<double>()));
    return json{{"z_mm", in_mm(standards::lever_of_rows(rows))}};
  };
  r["least_lever_of_ledger_fixings"] = [](const json& g) {
    return json{{"z_mm", in_mm(standards::least_lever_of_two_rows(length(g, "mean_mm")))}};
  };
  r["neighbour"] = [](const json& g) {
    const auto flexibility =
        standards::neighbour_flexibility(length(g, "r_mm"), stress(g, "E_MPa"), number(g, "nu"));
    return json{{"flexibility_mm_per_kN", flexibility.value() * 1000.0}};
  };
}

}  // namespace

}  // namespace eurocode_rules_file

void register_eurocode_rules(Registry& registry) {
  using namespace eurocode_rules_file;
  register_members(registry);
  register_service(registry);
  register_connections(registry);
  register_fasteners(registry);
  register_ground(registry);
  register_eurocode_fixings(registry);
}

}  // namespace underprop::published
