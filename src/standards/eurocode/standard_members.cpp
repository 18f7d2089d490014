// Members by EN 1995-1-1: bending, shear, bearing, columns, boards.
#include "standard.hpp"
#include "standards/shared.hpp"

#include "standards/eurocode/bearing.hpp"
#include "standards/eurocode/shear.hpp"

#include <optional>
#include <string>

namespace underprop::standards::eurocode {

namespace {

constexpr Shown kilonewtons{"kN", 1e3}, kilonewton_metres{"kNm", 1e6}, plain{"", 1.0};

void given_section(Sheet& sheet, Length breadth, Length depth) {
  sheet.given("b", breadth);
  sheet.given("h", depth);
}

void depth_factor(Sheet& sheet, const std::string& side, Length depth, Density density) {
  sheet.line_or_one(
      depth >= mm(150) || density > kg_per_m3(700), "k_h", "min((150/" + side + ")^0.2; 1.3)",
      "1: " + side + " is 150 mm or more, or the timber is above 700 kg/m3", ec5("3.2(3) (3.1)"));
}

/// (6.32) is for softwood; hardwood takes the general (6.31) with G_0,05 = E_0,05/ratio.
void critical_stress(Sheet& sheet, const Timber& timber, bool hardwood, const Cited& E_to_G) {
  sheet.taken("E_0,05", timber.label, timber.E_low, timber.source);
  if (!hardwood) {
    sheet.line("sigma_m,crit", "0.78 b^2 E_0,05 / (h l_ef)", "N/mm2", ec5("6.3.3(2) (6.32)"));
    return;
  }
  sheet.taken("r", "E_0,05 to G_0,05", "", E_to_G);
  sheet.line("G_0,05", "E_0,05 / r", "N/mm2", E_to_G.source);
  sheet.line("I_z", "h b^3 / 12", "mm4", ec5("6.3.3(2)"));
  sheet.line("I_tor", "max(b; h) min(b; h)^3 / 3 (1 - 0.63 min(b; h) / max(b; h))", "mm4",
             ec5("6.3.3(2)"));
  sheet.line("sigma_m,crit", "pi sqrt(E_0,05 I_z G_0,05 I_tor) / (l_ef b h^2 / 6)", "N/mm2",
             ec5("6.3.3(2) (6.31)"));
}

/// Whether the contact's surroundings earn more than k_c,90 = 1: 6.1.5(3), (4).
void across_factor(Sheet& sheet, const std::optional<Length>& clear, Length depth, bool softwood) {
  if (!clear || depth.value() <= 0.0) {
    sheet.taken("k_c,90", "1: loaded all along, or right above it, as far as is known", 1.0, "",
                ec5("6.1.5(2)"));
    return;
  }
  sheet.given("l_1", *clear);
  sheet.given("h", depth);
  const double k = k_c_90(BearingSupport::discrete, softwood, *clear, depth);
  const char* why = !softwood ? "1: not softwood"
                    : k > 1.0 ? "softwood on discrete supports, l_1 at least 2 h"
                              : "1: l_1 is less than 2 h";
  sheet.taken("k_c,90", why, k, "", ec5(k > 1.0 ? "6.1.5(4)" : "6.1.5(2)"));
}

}  // namespace

void EurocodeUk::strength(Sheet& sheet, const char* symbol, const char* reference, Stress f_k,
                          const Timber& timber, const std::string& factors) const {
  sheet.taken(reference, timber.label, f_k, timber.source);
  sheet.taken("gamma_M", "solid timber", "", tables_.gamma_M);
  sheet.line(symbol, factors + " " + reference + " / gamma_M", "N/mm2", ec5("2.4.1(1) (2.14)"));
}

Check EurocodeUk::bending(const BendingDemand& d, const Combination& combination) const {
  need_strength(combination, most_k_mod);
  need_timber(d.timber);
  need_valid(d);

  Sheet sheet(CheckKind::bending, kilonewton_metres);
  given_section(sheet, d.breadth, d.depth);
  sheet.given("M_d", d.moment);
  if (!d.refused.empty()) return sheet.nothing("M_d", "0: " + d.refused, tables_.holes_source);
  k_mod(sheet, combination);
  depth_factor(sheet, "h", d.depth, d.timber.density);
  if (d.sharing) sheet.taken("k_sys", "members share under the boards", "", tables_.k_sys);
  strength(sheet, "f_m,d", "f_m,k", d.timber.bending, d.timber,
           d.sharing ? "k_mod k_h k_sys" : "k_mod k_h");
  sheet.line("sigma_m,d", "6 M_d / (b h^2)", "N/mm2", ec5("6.1.6(1)"));
  double kcrit = 1.0;
  if (d.edge_held && d.ends_held) {
    sheet.taken("k_crit", "1: compression edge held all along, supports held against torsion", 1.0,
                "", ec5("6.3.3(5)"));
  } else {
    sheet.given("l", d.unbraced);
    if (!d.ends_held) {
      sheet.taken("c", "factor on l: the ends are not held upright", "",
                  tables_.length_ends_not_held);
    }
    // Table 6.1, the most cautious row (constant moment, 1.0), load on the compression edge.
    sheet.line("l_ef", d.ends_held ? "1.0 l + 2 h" : "1.0 c l + 2 h", "mm",
               ec5("6.3.3(3), Table 6.1"));
    critical_stress(sheet, d.timber, tables_.row(d.timber.name).hardwood, tables_.E_to_G);
    const double relative =
        sheet.line("lambda_rel,m", "sqrt(f_m,k / sigma_m,crit)", "", ec5("6.3.3(2) (6.30)"));
    kcrit = sheet.line_or_one(relative <= 0.75, "k_crit",
                              relative <= 1.4 ? "1.56 - 0.75 lambda_rel,m" : "1 / lambda_rel,m^2",
                              "1: lambda_rel,m is not above 0.75", ec5("6.3.3(4) (6.34)"));
  }
  sheet.line("M_R,d", "k_crit f_m,d b h^2 / 6", "N mm", ec5("6.3.3(3) (6.33)"));
  return sheet.finish("M_d", "M_R,d", ec5(kcrit < 1.0 ? "6.3.3(3) (6.33)" : "6.1.6(1) (6.11)"));
}

Check EurocodeUk::shear(const ShearDemand& d, const Combination& combination) const {
  need_strength(combination, most_k_mod);
  need_timber(d.timber);
  need_valid(d);
  const bool notched = is_notched(d);

  Sheet sheet(notched ? CheckKind::shear_at_notch : CheckKind::shear, kilonewtons);
  given_section(sheet, d.breadth, d.depth);
  if (d.without_near_loads)
    sheet.taken("V_d",
                "without loads on top within h of the face of a support underneath (6.1.7(3))",
                in_newtons(d.shear), "N", ec5("6.1.7(3)"));
  else
    sheet.given("V_d", d.shear);
  if (!d.refused.empty()) return sheet.nothing("V_d", "0: " + d.refused, tables_.holes_source);
  k_mod(sheet, combination);
  strength(sheet, "f_v,d", "f_v,k", d.timber.shear, d.timber, "k_mod");
  sheet.taken("k_cr", "cracks", "", tables_.k_cr);
  sheet.line("b_ef", "k_cr b", "mm", ec5("6.1.7(2) (6.13a)"));
  if (!notched && d.lost) {
    sheet.given("t", *d.lost);
    sheet.line("h_ef", "h - t", "mm", ec5("6.5.2(2)"));
    sheet.line("tau_d", "1.5 V_d / (b_ef h_ef)", "N/mm2", ec5("6.5.2(2) (6.60), k_v = 1"));
    sheet.line("V_R,d", "f_v,d b_ef h_ef / 1.5", "N", ec5("6.5.2(2) (6.60), k_v = 1"));
    return sheet.finish("V_d", "V_R,d", ec5("6.5.2(2) (6.60), k_v = 1"));
  }
  if (!notched) {
    sheet.line("tau_d", "1.5 V_d / (b_ef h)", "N/mm2", ec5("6.1.7(1)"));
    sheet.line("V_R,d", "f_v,d b_ef h / 1.5", "N", ec5("6.1.7(1) (6.13)"));
    return sheet.finish("V_d", "V_R,d", ec5("6.1.7(1) (6.13)"));
  }
  sheet.given("t_n", *d.notch_depth);
  sheet.line("h_ef", "h - t_n", "mm", ec5("6.5.2(1)"));
  sheet.given("x", d.notch_distance);
  sheet.taken("k_n", "solid timber", "", tables_.k_n);
  sheet.line("a", "h_ef / h", "", ec5("6.5.2(2)"));
  sheet.line("k_v",
             "min(1; k_n / (sqrt(h) (sqrt(a (1 - a)) + 0.8 x / h sqrt(1 / a - a^2)))), without "
             "taper",
             "", ec5("6.5.2(2) (6.62)"));
  sheet.line("tau_d", "1.5 V_d / (b_ef h_ef)", "N/mm2", ec5("6.5.2(2) (6.60)"));
  sheet.line("V_R,d", "k_v f_v,d b_ef h_ef / 1.5", "N", ec5("6.5.2(2) (6.60)"));
  return sheet.finish("V_d", "V_R,d", ec5("6.5.2(2) (6.60)"));
}

/// Resistance across the grain, lines R_90,k and R_90,d; the sheet has the contact's length as l.
double EurocodeUk::bearing_resistance(Sheet& sheet, const BearingDemand& d,
                                      const Combination& combination) const {
  sheet.given("b", d.width);
  sheet.given("a", d.end_distance);
  across_factor(sheet, d.clear_to_next, d.depth, !tables_.row(d.timber.name).hardwood);
  // No other contact on this face is recorded.
  sheet.line("l_ef", "l + min(30; a; l) + min(30; l)", "mm", ec5("6.1.5(1)"));
  sheet.taken("f_c,90,k", d.timber.label, d.timber.compression_across, d.timber.source);
  sheet.line("R_90,k", "k_c,90 f_c,90,k b l_ef", "N", ec5("6.1.5(1) (6.3), (6.4)"));
  k_mod(sheet, combination);
  sheet.taken("gamma_M", "solid timber", "", tables_.gamma_M);
  return sheet.line("R_90,d", "k_mod R_90,k / gamma_M", "N", ec5("2.4.1(1) (2.14)"));
}

Check EurocodeUk::bearing(const BearingDemand& d, const Combination& combination) const {
  need_strength(combination, most_k_mod);
  need_timber(d.timber);
  need_valid(d);

  Sheet sheet(CheckKind::bearing, kilonewtons);
  sheet.given("F_d", d.force);
  if (d.width.value() == 0.0 || d.length.value() == 0.0) {
    return sheet.nothing("F_d", "0: no contact", ec5("6.1.5(1)"));
  }
  contact_line(sheet, d, "l", tables_.packers_in_full, tables_.packed_share);
  bearing_resistance(sheet, d, combination);
  return sheet.finish("F_d", "R_90,d", ec5("6.1.5(1) (6.3)"));
}

Check EurocodeUk::column(const ColumnDemand& d, const Combination& combination) const {
  need_strength(combination, most_k_mod);
  need_timber(d.timber);
  need_valid(d);

  Sheet sheet(CheckKind::column, kilonewtons);
  given_section(sheet, d.breadth, d.depth);
  sheet.given("L", d.height);
  sheet.given("N_d", d.axial);
  const bool bent = d.moment.value() > 0.0;
  if (bent) sheet.given("M_d", d.moment);
  if (!d.braced && !d.base_fixed) {
    const bool moment_alone = bent && d.axial.value() == 0.0;
    if (moment_alone) sheet.shown(kilonewton_metres);
    return sheet.nothing(moment_alone ? "M_d" : "N_d",
                         "0: hinged at the foot and free to sway, no buckling load",
                         ec5("6.3.2(1)"));
  }
  sheet.taken("K", d.braced ? "top held" : "fixed foot, top free to sway", "",
              d.braced ? tables_.length_braced : tables_.length_cantilever);
  sheet.line("l_ef", "K L", "mm", ec5("6.3.2(1)"));
  sheet.line("s", "min(b; h), the smaller side", "mm", ec5("6.3.2(1)"));
  sheet.taken("beta_c", "solid timber", "", tables_.beta_c);
  k_mod(sheet, combination);
  strength(sheet, "f_c,0,d", "f_c,0,k", d.timber.compression, d.timber, "k_mod");
  sheet.taken("E_0,05", d.timber.label, d.timber.E_low, d.timber.source);
  sheet.line("lambda", "l_ef sqrt(12) / s", "", ec5("6.3.2(1)"));
  // Buckling about the weak axis governs: it is the more slender, and the moment is put about it.
  const double relative = sheet.line("lambda_rel", "lambda / pi sqrt(f_c,0,k / E_0,05)", "",
                                     ec5("6.3.2(1) (6.21), (6.22)"));
  const bool stocky = relative <= 0.3;
  if (!stocky) {
    sheet.line("k", "0.5 (1 + beta_c (lambda_rel - 0.3) + lambda_rel^2)", "",
               ec5("6.3.2(3) (6.27), (6.28)"));
  }
  sheet.line_or_one(stocky, "k_c", "1 / (k + sqrt(k^2 - lambda_rel^2))",
                    "1: lambda_rel is not above 0.3", ec5("6.3.2(3) (6.25), (6.26)"));
  sheet.line("sigma_c,0,d", "N_d / (b h)", "N/mm2", ec5("6.1.4(1)"));
  if (!bent) {
    sheet.line("N_R,d", "k_c f_c,0,d b h", "N", ec5("6.3.2(3) (6.23), (6.24)"));
    return sheet.finish("N_d", "N_R,d", ec5("6.3.2(3) (6.24)"));
  }
  sheet.shown(plain);
  depth_factor(sheet, "s", min(d.breadth, d.depth), d.timber.density);
  strength(sheet, "f_m,d", "f_m,k", d.timber.bending, d.timber, "k_mod k_h");
  sheet.line("sigma_m,d", "6 M_d / (max(b; h) s^2)", "N/mm2", ec5("6.1.6(1)"));
  const Citation clause = ec5(stocky ? "6.2.4(1) (6.20)" : "6.3.2(3) (6.24)");
  sheet.line("sum",
             stocky ? "(sigma_c,0,d / f_c,0,d)^2 + sigma_m,d / f_m,d"
                    : "sigma_c,0,d / (k_c f_c,0,d) + sigma_m,d / f_m,d",
             "", clause);
  if (stocky) return sum_or_alone(sheet, "sigma_c,0,d / f_c,0,d", ec5("6.1.4(1) (6.2)"), clause);
  sheet.taken("limit", "of the sum", 1.0, "", clause);
  return sheet.finish("sum", "limit", clause);
}

std::string EurocodeUk::not_allowed(const Weakening& w) const {
  if (w.kind != WeakKind::hole || w.lost <= tables_.hole_share * w.depth ||
      w.from_support >= tables_.hole_clear_depths * w.depth)
    return {};
  return "no rule allows so large a hole so near to a support";
}

double EurocodeUk::shear_share(Length from, Length to, Length depth) const {
  return shear_share_of_spread_load(from, to, depth);
}

Check EurocodeUk::held_upright(Length breadth, Length depth, bool ends_held, bool edge_held) const {
  need_positive(breadth, "held upright: the breadth must be positive");
  need_positive(depth, "held upright: the depth must be positive");
  Sheet sheet(CheckKind::held_upright, plain);
  given_section(sheet, breadth, depth);
  sheet.line("ratio", "h / b", "", tables_.slender_source);
  const double limit = !ends_held  ? tables_.slender_unheld
                       : edge_held ? tables_.slender_both
                                   : tables_.slender_ends;
  return upright(sheet, "h/b", limit, ends_held, edge_held, tables_.slender_source);
}

/// Bending and shear of one board under P_d with the moment M_d, both on the sheet.
Check EurocodeUk::board_strength(Sheet& sheet, const Timber& timber, Length thickness) const {
  sheet.taken("k_mod", "service class 3, short-term", tables_.k_mod.brief, "",
              tables_.k_mod_source);
  depth_factor(sheet, "h", thickness, timber.density);
  strength(sheet, "f_m,d", "f_m,k", timber.bending, timber, "k_mod k_h");
  const double M = sheet.last("M_d").value, P = sheet.last("P_d").value;
  const double M_R = sheet.line("M_R,d", "f_m,d b h^2 / 6", "N mm", ec5("6.1.6(1) (6.11)"));
  strength(sheet, "f_v,d", "f_v,k", timber.shear, timber, "k_mod");
  sheet.taken("k_cr", "cracks", "", tables_.k_cr);
  const double V_R = sheet.line("V_R,d", "f_v,d k_cr b h / 1.5, against V_d = P_d beside a support",
                                "N", ec5("6.1.7(1) (6.13)"));
  if (P * M_R > M * V_R) {
    sheet.shown(kilonewtons);
    return sheet.finish("P_d", "V_R,d", ec5("6.1.7(1) (6.13)"));
  }
  return sheet.finish("M_d", "M_R,d", ec5("6.1.6(1) (6.11)"));
}

Check EurocodeUk::board_point_load(const Timber& timber, Length width, Length thickness,
                                   Length span, bool continuous, Force load) const {
  need_timber(timber);
  need_valid_board(width, thickness, span, load);

  Sheet sheet(CheckKind::board_point_load, kilonewton_metres);
  given_section(sheet, width, thickness);
  sheet.given("l", span);
  sheet.given("P_k", load);
  sheet.taken("gamma_Q", "unfavourable", tables_.str.Q, "", tables_.str_source);
  sheet.line("P_d", "gamma_Q P_k", "N", tables_.str_source);
  // Load at mid-span; two equal spans, one loaded: 13/64 P l under the load.
  sheet.line(
      "M_d", continuous ? "13/64 P_d l, two spans" : "P_d l / 4, one span", "N mm",
      Citation{"beam-formulas",
               continuous
                   ? "continuous beam, two equal spans, concentrated load at centre of one span"
                   : "simple beam, concentrated load at centre"});
  return board_strength(sheet, timber, thickness);
}

Check EurocodeUk::board_overhang(const Timber& timber, Length width, Length thickness,
                                 Length overhang, Force load) const {
  need_timber(timber);
  need_valid_board(width, thickness, overhang, load);

  Sheet sheet(CheckKind::board_overhang, kilonewton_metres);
  given_section(sheet, width, thickness);
  sheet.given("a", overhang);
  sheet.given("P_k", load);
  sheet.taken("gamma_Q", "unfavourable", tables_.str.Q, "", tables_.str_source);
  sheet.line("P_d", "gamma_Q P_k", "N", tables_.str_source);
  sheet.line("M_d", "P_d a, at its end", "N mm",
             Citation{"beam-formulas", "cantilever, concentrated load at the free end"});
  return board_strength(sheet, timber, thickness);
}

}  // namespace underprop::standards::eurocode
