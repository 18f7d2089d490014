// The Eurocode rules of fixings pulled along their axis, in groups and in stiffness that
// tests/published/eurocode/*.json may name.
#include "published/given.hpp"
#include "published/registry.hpp"

#include "standards/eurocode/axial.hpp"
#include "standards/eurocode/fastener.hpp"
#include "standards/eurocode/group.hpp"
#include "standards/eurocode/lateral.hpp"
#include "standards/eurocode/material.hpp"

#include <cmath>
#include <numbers>
#include <string>

namespace underprop::published {
namespace eurocode_fixings_rules_file {

namespace {

using nlohmann::json;
namespace ec = standards::eurocode;

Length length(const json& given, const char* key) { return mm(number(given, key)); }
Stress stress(const json& given, const char* key) { return megapascals(number(given, key)); }
Density density(const json& given, const char* key) { return kg_per_m3(number(given, key)); }
double angle(const json& given, const char* key) {
  return number(given, key) * std::numbers::pi / 180.0;
}

void register_pull(Registry& r) {
  // A smooth nail: the sheet's symbols, with the resistance of the point alone and of the nail.
  r["smooth_nail_pull"] = [](const json& g) {
    const Density rho_k = density(g, "rho_k_kg_m3");
    ec::AxialNail nail;
    nail.d = length(g, "d_mm");
    nail.d_h = length(g, "d_h_mm");
    nail.t = length(g, "t_mm");
    nail.t_pen = length(g, "t_pen_mm");
    nail.f_ax_k = ec::f_ax_k_smooth_nail(rho_k);
    nail.f_head_k = ec::f_head_k_nail(rho_k);
    const auto F = ec::F_ax_Rk_smooth_nail(nail);
    // The head's side, (8.24b): held by the shaft in the piece under it and by the head.
    const Force head = nail.f_ax_k * (nail.d * nail.t) + nail.f_head_k * (nail.d_h * nail.d_h);
    return json{{"f_ax_k_MPa", in_megapascals(nail.f_ax_k)},
                {"f_head_k_MPa", in_megapascals(nail.f_head_k)},
                {"head_N", in_newtons(head)},
                {"F_ax_Rk_N", F ? in_newtons(*F) : 0.0}};
  };
  r["threaded_nail_pull"] = [](const json& g) {
    ec::AxialNail nail;
    nail.d = length(g, "d_mm");
    nail.d_h = length(g, "d_h_mm");
    nail.t = length(g, "t_mm");
    nail.t_pen = length(g, "t_pen_mm");
    nail.f_ax_k = stress(g, "f_ax_k_MPa");
    nail.f_head_k = stress(g, "f_head_k_MPa");
    const auto F = ec::F_ax_Rk_threaded_nail(nail);
    return json{{"F_ax_Rk_N", F ? in_newtons(*F) : 0.0}};
  };
  // (8.38), (8.39) and the pull-through of the head, (8.40b), of one screw across the grain.
  r["screw_pull"] = [](const json& g) {
    const Length d = length(g, "d_mm");
    const Length l_ef = length(g, "l_ef_mm");
    const Density rho_k = density(g, "rho_k_kg_m3");
    const auto f_ax_k = ec::f_ax_k_screw(d, l_ef, rho_k);
    const auto F = ec::F_ax_Rk_screws(1, d, l_ef, rho_k, std::numbers::pi / 2.0);
    json got{{"f_ax_k_MPa", f_ax_k ? in_megapascals(*f_ax_k) : 0.0},
             {"k_d", ec::k_d(d)},
             {"F_N", F ? in_newtons(*F) : 0.0},
             {"F_without_k_d_N", F ? in_newtons(*F) / ec::k_d(d) : 0.0}};
    if (g.contains("f_head_k_MPa")) {
      const Force head = ec::F_head_Rk_screws(1, stress(g, "f_head_k_MPa"), length(g, "d_h_mm"),
                                              kg_per_m3(350), kg_per_m3(350));
      got["head_N"] = in_newtons(head);
    }
    return got;
  };
  r["screw_k_d"] = [](const json& g) { return json{{"k_d", ec::k_d(length(g, "d_mm"))}}; };
  r["screws_together"] = [](const json& g) {
    return json{{"n_ef", ec::n_ef_axial_screws(g.at("n").get<int>())}};
  };
  // The head of a screw with the pull-through strength of a nail, then pull with shear.
  r["screw_head_as_nail"] = [](const json& g) {
    const Force head = ec::F_head_Rk_screws(1, ec::f_head_k_nail(density(g, "rho_k_kg_m3")),
                                            length(g, "d_h_mm"), kg_per_m3(350), kg_per_m3(350));
    const Force R_d = ec::design_resistance(number(g, "k_mod"), head, number(g, "gamma_M"));
    const double pull = newtons(number(g, "F_ax_N")) / R_d;
    const double shear = number(g, "F_v_N") / number(g, "F_v_Rd_N");
    return json{{"F_ax_Rd_N", in_newtons(R_d)},
                {"pull", pull},
                {"shear", shear},
                {"together", ec::combined_axial_and_lateral(pull, shear, false)}};
  };
  r["pull_with_shear"] = [](const json& g) {
    return json{{"together", ec::combined_axial_and_lateral(number(g, "pull"), number(g, "shear"),
                                                            g.at("smooth_nail").get<bool>())}};
  };
}

void register_strength(Registry& r) {
  // The factor of f_u d^2.6 in the yield moment, round and square.
  r["yield_moment"] = [](const json& g) {
    const Length d = length(g, "d_mm");
    const Stress f_u = stress(g, "f_u_MPa");
    const Moment M =
        g.at("shank") == "square" ? ec::M_y_Rk_square(f_u, d) : ec::M_y_Rk_round(f_u, d);
    const double power = std::pow(in_mm(d), 2.6) * f_u.value();
    return json{{"M_y_Nmm", M.value()}, {"factor", M.value() / power}};
  };
  r["bolt_embedment"] = [](const json& g) {
    const Length d = length(g, "d_mm");
    const Density rho_k = density(g, "rho_k_kg_m3");
    return json{{"f_h_0_MPa", in_megapascals(ec::f_h_0_bolt(d, rho_k).value())}};
  };
  // Mode (f) along and across the grain differs by the root of k_90 alone: (8.6), (8.31).
  r["k_90_from_capacities"] = [](const json& g) {
    return json{{"k_90", ec::k_90(length(g, "d_mm"), false)}};
  };
  r["screw_effective_diameter"] = [](const json& g) {
    const Length d_ef = ec::screw_d_ef(length(g, "d_mm"), length(g, "root_mm"),
                                       length(g, "smooth_in_point_piece_mm"));
    return json{{"d_ef_mm", in_mm(d_ef)},
                {"rules", ec::screw_follows_nail_rules(d_ef) ? "nails" : "bolts"}};
  };
  // Round nails between two pieces of one density with the rope effect.
  r["nails_with_rope"] = [](const json& g) {
    const Density rho_k = density(g, "rho_k_kg_m3");
    ec::TimberToTimber joint;
    joint.d = length(g, "d_mm");
    joint.t_1 = length(g, "t_1_mm");
    joint.t_2 = length(g, "t_2_mm");
    joint.f_h_1_k = joint.f_h_2_k = ec::f_h_nail(joint.d, rho_k, false).value();
    joint.M_y_Rk = ec::M_y_Rk_round(stress(g, "f_u_MPa"), joint.d);
    joint.rope = {newtons(number(g, "F_ax_Rk_N")), number(g, "share")};
    const Force F = ec::timber_to_timber_single_shear(joint).F_v_Rk;
    return json{{"f_h_MPa", in_megapascals(joint.f_h_1_k)},
                {"M_y_Nmm", joint.M_y_Rk.value()},
                {"F_v_Rk_N", in_newtons(F)},
                {"F_v_Rd_N", in_newtons(ec::design_resistance(number(g, "k_mod"), F, 1.3))}};
  };
}

void register_groups(Registry& r) {
  r["n_ef_of_bolts"] = [](const json& g) {
    return json{{"n_ef", ec::n_ef_bolts(g.at("n").get<int>(), length(g, "a_1_mm"),
                                        length(g, "d_mm"), angle(g, "alpha_deg"))}};
  };
  r["nails_in_row"] = [](const json& g) {
    const double k_ef = ec::k_ef(length(g, "a_1_mm"), length(g, "d_mm"), false).value();
    return json{{"k_ef", k_ef}, {"n_ef", ec::n_ef_nails(g.at("n").get<int>(), k_ef)}};
  };
  r["splitting"] = [](const json& g) {
    const Force F = ec::F_90_Rk(length(g, "b_mm"), length(g, "h_mm"), length(g, "h_e_mm"));
    return json{{"F_90_Rk_N", in_newtons(F)},
                {"F_90_Rd_kN", in_kilonewtons(ec::design_resistance(number(g, "k_mod"), F,
                                                                    number(g, "gamma_M")))}};
  };
  // All planes of a joint of bolts through timber and steel, which doubles the modulus (7.1(3)).
  r["bolts_slip"] = [](const json& g) {
    const Stiffness K = ec::K_ser_dowel_type(density(g, "rho_m_kg_m3"), length(g, "d_mm"));
    const double all = 2.0 * number(g, "planes");
    return json{{"K_ser_kN_per_mm", all * K.value() / 1000.0},
                {"K_u_kN_per_mm", all * ec::K_u(K).value() / 1000.0}};
  };
  r["k_mod_of_two"] = [](const json& g) {
    return json{{"k_mod", ec::k_mod_of_connection(number(g, "k_mod_1"), number(g, "k_mod_2"))}};
  };
  r["k_def_of_two"] = [](const json& g) {
    return json{{"k_def", ec::k_def_of_connection(number(g, "k_def_1"), number(g, "k_def_2"))}};
  };
  r["moduli"] = [](const json& g) {
    json got;
    if (g.contains("E_MPa")) {
      const Stress E = stress(g, "E_MPa");
      got["E_fin_MPa"] =
          in_megapascals(ec::modulus_final(E, number(g, "psi_2", 1.0), number(g, "k_def", 0.0)));
      got["E_d_MPa"] = in_megapascals(ec::modulus_design(E, number(g, "gamma_M", 1.0)));
    }
    return got;
  };
  r["slip_modulus_in_the_end"] = [](const json& g) {
    const Stiffness K = ec::slip_modulus_final(Stiffness(number(g, "K_N_mm")), number(g, "psi_2"),
                                               number(g, "k_def"));
    return json{{"K_fin_N_mm", K.value()}};
  };
}

}  // namespace

}  // namespace eurocode_fixings_rules_file

void register_eurocode_fixings(Registry& registry) {
  using namespace eurocode_fixings_rules_file;
  register_pull(registry);
  register_strength(registry);
  register_groups(registry);
}

}  // namespace underprop::published
