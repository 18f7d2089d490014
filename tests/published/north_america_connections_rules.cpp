// The North American rules of connections that tests/published/north_america/*.json may name.
//
// Numbers of "given" are in inches, feet, pounds and psi, as the documents print them.
#include "published/given.hpp"
#include "published/registry.hpp"

#include "catalog/embedded.hpp"
#include "standards/north_america/actions.hpp"
#include "standards/north_america/connection.hpp"
#include "standards/north_america/dowel.hpp"
#include "standards/north_america/withdrawal.hpp"

#include <stdexcept>
#include <string>

namespace underprop::published {
namespace north_america_connections_rules_file {

namespace {

using nlohmann::json;
namespace na = standards::north_america;

Length length(const json& given, const char* key) { return inches(number(given, key)); }
Stress stress(const json& given, const char* key) { return psi(number(given, key)); }

const json& factors() {
  static const json content = data_file("north_america/factors.json");
  return content;
}

json dowel_result(const na::YieldResult& result) {
  return {{"Z", in_pounds_force(result.Z)}, {"mode", result.governing}, {"R_d", result.R_d.III_IV}};
}

}  // namespace

}  // namespace north_america_connections_rules_file

void register_north_america_connections(Registry& r) {
  using namespace north_america_connections_rules_file;
  r["nds_withdrawal_lag_screw"] = [](const json& g) {
    const LineLoad W = na::withdrawal_lag_screw(number(g, "G"), length(g, "D"));
    json result = {{"W", in_pounds_force(W * inches(1.0))}};
    if (g.contains("length")) {
      const Length thread = na::effective_thread(length(g, "length"), length(g, "thread"),
                                                 length(g, "side"), length(g, "tip"));
      result["thread"] = in_inches(thread);
      result["total"] = in_pounds_force(W * thread);
    }
    return result;
  };
  r["nds_withdrawal_nail"] = [](const json& g) {
    const LineLoad W = na::withdrawal_nail(number(g, "G"), length(g, "D"));
    return json{{"W", in_pounds_force(W * inches(1.0))},
                {"total", in_pounds_force(W * length(g, "penetration"))}};
  };
  r["nds_dowel_bearing"] = [](const json& g) {
    const double G = number(g, "G");
    json result = {{"small", in_psi(na::to_nearest_50_psi(na::dowel_bearing_small(G)))},
                   {"small_unrounded", in_psi(na::dowel_bearing_small(G))},
                   {"parallel", in_psi(na::to_nearest_50_psi(na::dowel_bearing_parallel(G)))}};
    if (g.contains("D")) {
      result["perpendicular"] =
          in_psi(na::to_nearest_50_psi(na::dowel_bearing_perpendicular(G, length(g, "D"))));
    }
    return result;
  };
  r["nds_nail_single_shear"] = [](const json& g) {
    na::DowelJoint j;
    j.D = j.nominal = length(g, "D");
    j.l_m = length(g, "l_m");
    j.l_s = length(g, "l_s");
    j.F_em = j.F_es = na::dowel_bearing_small(number(g, "G"));
    j.F_yb = stress(g, "F_yb");
    return dowel_result(na::single_shear(j));
  };
  // Lag screw through a cold-formed steel plate into timber, penetration 8D.
  r["nds_lag_screw_steel_plate"] = [](const json& g) {
    static const json fixings = data_file("north_america/fixings.json");
    const json& screw = fixings.at("lag_screws").at("sizes").at(g.at("lag").get<std::string>());
    const bool parallel = g.at("load") == "parallel";
    na::DowelJoint j;
    j.nominal = inches(screw.at("D_in"));
    j.D = inches(screw.at("root_in"));
    j.F_yb = psi(screw.at("F_yb_psi"));
    j.l_s = length(g, "plate_in");
    j.l_m = 8.0 * j.nominal;
    j.F_es = psi(fixings.at("steel_bearing_psi").at("cold_formed_grade_33"));
    j.F_em = na::to_nearest_50_psi(
        parallel ? na::dowel_bearing_parallel(number(g, "G"))
                 : na::dowel_bearing_perpendicular(number(g, "G"), j.nominal));
    j.theta_deg = parallel ? 0.0 : 90.0;
    return dowel_result(na::single_shear(j));
  };
  // Bolt or lag screw between two pieces of the same species.
  r["nds_dowel_wood_to_wood"] = [](const json& g) {
    na::DowelJoint j;
    j.nominal = length(g, "nominal");
    j.D = inches(number(g, "root", number(g, "nominal")));
    j.l_m = length(g, "l_m");
    j.l_s = length(g, "l_s");
    j.F_yb = stress(g, "F_yb");
    const bool parallel = g.at("load") == "parallel";
    j.F_em = j.F_es = na::to_nearest_50_psi(
        parallel ? na::dowel_bearing_parallel(number(g, "G"))
                 : na::dowel_bearing_perpendicular(number(g, "G"), j.nominal));
    j.theta_deg = parallel ? 0.0 : 90.0;
    return dowel_result(na::single_shear(j));
  };
  // A bolt between pieces of one species, along the grain: every mode of one or two shear planes.
  r["nds_yield_modes"] = [](const json& g) {
    na::DowelJoint j;
    j.D = j.nominal = length(g, "nominal");
    j.l_m = length(g, "l_m");
    j.l_s = length(g, "l_s");
    j.F_yb = stress(g, "F_yb");
    j.F_em = j.F_es = na::to_nearest_50_psi(na::dowel_bearing_parallel(number(g, "G")));
    const na::YieldResult result =
        g.at("shear") == "double" ? na::double_shear(j) : na::single_shear(j);
    json got = {{"Z", in_pounds_force(result.Z)}};
    for (const na::YieldMode& mode : result.modes) got[mode.name] = in_pounds_force(mode.Z);
    return got;
  };
  // A cell of the tables of bolts and lag screws: parallel, s_perp and m_perp (one piece across the
  // grain), perpendicular; the side piece of steel where its bearing strength is given.
  r["nds_table_cell"] = [](const json& g) {
    const std::string load = g.at("load");
    const bool s_across = load == "s_perp" || load == "perpendicular";
    const bool m_across = load == "m_perp" || load == "perpendicular";
    na::DowelJoint j;
    j.nominal = length(g, "nominal");
    j.D = inches(number(g, "root", number(g, "nominal")));
    j.l_m = length(g, "l_m");
    j.l_s = length(g, "l_s");
    j.F_yb = stress(g, "F_yb");
    const double G = number(g, "G");
    const auto bearing = [&](bool across) {
      return na::to_nearest_50_psi(across ? na::dowel_bearing_perpendicular(G, j.nominal)
                                          : na::dowel_bearing_parallel(G));
    };
    j.F_em = bearing(m_across);
    j.F_es = g.contains("F_es") ? stress(g, "F_es") : bearing(s_across);
    j.theta_deg = s_across || m_across ? 90.0 : 0.0;
    const bool both = g.contains("shear") && g.at("shear") == "double";
    return dowel_result(both ? na::double_shear(j) : na::single_shear(j));
  };
  // Wood screws: the root takes the place of the diameter in the yield equations.
  r["nds_wood_screw_single_shear"] = [](const json& g) {
    na::DowelJoint j;
    j.nominal = length(g, "nominal");
    j.D = length(g, "root");
    j.l_m = length(g, "l_m");
    j.l_s = length(g, "l_s");
    j.F_em = j.F_es = na::to_nearest_50_psi(na::dowel_bearing_small(number(g, "G")));
    j.F_yb = stress(g, "F_yb");
    return dowel_result(na::single_shear(j));
  };
  r["nds_withdrawal_wood_screw"] = [](const json& g) {
    const LineLoad W = na::withdrawal_wood_screw(number(g, "G"), length(g, "D"));
    return json{{"W", in_pounds_force(W * inches(1.0))}};
  };
  r["nds_pulled_and_sheared"] = [](const json& g) {
    const Force F = na::pulled_and_sheared(pounds_force(number(g, "W")),
                                           pounds_force(number(g, "Z")), number(g, "alpha_deg"));
    return json{{"Z_alpha", in_pounds_force(F)}};
  };
  r["nds_use_pulled_and_sheared"] = [](const json& g) {
    return json{{"use", na::use_pulled_and_sheared(
                            pounds_force(number(g, "W")), pounds_force(number(g, "Z")),
                            pounds_force(number(g, "T")), pounds_force(number(g, "V")))}};
  };
  r["nds_group_action"] = [](const json& g) {
    na::FastenerRow row;
    row.n = g.at("n").get<int>();
    row.s = length(g, "s");
    row.D = length(g, "D");
    row.E_m = row.E_s = stress(g, "E");
    row.A_m = number(g, "A_m") * (inches(1.0) * inches(1.0));
    row.A_s = number(g, "A_s") * (inches(1.0) * inches(1.0));
    const na::GroupAction a = na::group_action(row);
    return json{{"C_g", a.C_g}, {"u", a.u}, {"m", a.m}};
  };
  r["nds_slip_modulus"] = [](const json& g) {
    const Stiffness K = na::slip_modulus(length(g, "D"), g.at("to_steel").get<bool>());
    return json{{"lb_per_in", in_pounds_force(K * inches(1.0))}};
  };
  r["nds_load_duration"] = [](const json& g) {
    const json& table = factors().at("C_D");
    if (g.contains("table")) return table;
    const na::LoadDurations durations{table.at("permanent"), table.at("ten_years"),
                                      table.at("two_months")};
    for (const na::AsdCombination& c : na::asd_combinations(true)) {
      if (c.text != g.at("combination").get<std::string>()) continue;
      return json{{"C_D", na::load_duration_factor(c, durations, true)}};
    }
    throw std::runtime_error("no such combination");
  };
  r["nds_adjusted_connection"] = [](const json& g) {
    na::ConnectionFactors f;
    f.C_D = number(g, "C_D");
    f.C_M = number(g, "C_M");
    f.C_tn = number(g, "C_tn", 1.0);
    const Force reference = kilonewtons(number(g, "reference_kN", 1.0));
    const Force adjusted = na::adjusted_connection(reference, f);
    return json{{"multiplier", adjusted / reference}, {"kN", in_kilonewtons(adjusted)}};
  };
  // The distances at which the geometry factor reaches its least and its full value.
  r["nds_bolt_distances"] = [](const json& g) {
    const Length D = length(g, "D");
    const auto first = [D](double wanted) {
      Length distance = mm(0.0);
      while (na::geometry_factor_end(distance, D, na::EndLoading::parallel_tension) < wanted) {
        distance += mm(0.0005);
      }
      return distance;
    };
    return json{{"end_least_mm", in_mm(first(1e-9))},
                {"end_full_mm", in_mm(first(1.0))},
                {"edge_loaded_mm", in_mm(na::least_edge_distance(D, true))}};
  };
  r["nds_common_nail"] = [](const json& g) {
    return data_file("north_america/fixings.json")
        .at("nails")
        .at("common")
        .at(g.at("size").get<std::string>());
  };
  r["nds_nail_F_yb"] = [](const json& g) {
    const json nails = data_file("north_america/fixings.json").at("nails");
    const double D = number(g, "D");
    for (const json& row : nails.at("F_yb_by_D_in")) {
      if (D <= row.at("to").get<double>()) return json{{"F_yb_psi", row.at("F_yb_psi")}};
    }
    throw std::runtime_error("no such nail");
  };
  r["nds_connection_table"] = [](const json& g) {
    return g.at("table") == "wet" ? factors().at("C_M").at("connections")
                                  : factors().at("toe_nail");
  };
}

}  // namespace underprop::published
