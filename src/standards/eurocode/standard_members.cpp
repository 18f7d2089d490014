// Members by EN 1995-1-1: bending, shear, bearing, columns, boards.
#include "standard.hpp"

#include "underprop/standards/eurocode/bearing.hpp"
#include "underprop/standards/eurocode/bending.hpp"
#include "underprop/standards/eurocode/column.hpp"
#include "underprop/standards/eurocode/material.hpp"
#include "underprop/standards/eurocode/shear.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

namespace underprop::standards::eurocode {

namespace {

constexpr Shown kilonewtons{"kN", 1e3}, kilonewton_metres{"kNm", 1e6}, plain{"", 1.0};

void given_section(Sheet& sheet, Length breadth, Length depth) {
  sheet.given("b", in_mm(breadth), "mm");
  sheet.given("h", in_mm(depth), "mm");
}

double depth_factor(Sheet& sheet, const char* side, Length depth, Density density) {
  return sheet.line_or_one(
      "k_h", "min((150/" + std::string(side) + ")^0.2; 1.3)",
      "1: " + std::string(side) + " is 150 mm or more, or the timber is above 700 kg/m3",
      k_h(depth, density), ec5("3.2(3) (3.1)"));
}

/// (6.32) is for softwood; hardwood takes the general (6.31) with G_0,05 = E_0,05/ratio.
double critical_stress(Sheet& sheet, const Timber& timber, Length b, Length h, Length l_ef,
                       bool hardwood, const Cited& E_to_G) {
  sheet.taken("E_0,05", timber.label, in_megapascals(timber.E_low), "N/mm2", timber.source);
  if (!hardwood) {
    return sheet.line("sigma_m,crit", "0.78 b^2 E_0,05 / (h l_ef)",
                      in_megapascals(sigma_m_crit(b, h, l_ef, timber.E_low)), "N/mm2",
                      ec5("6.3.3(2) (6.32)"));
  }
  const double narrow = std::min(in_mm(b), in_mm(h)), wide = std::max(in_mm(b), in_mm(h));
  sheet.taken("r", "E_0,05 to G_0,05", "", E_to_G);
  sheet.line("G_0,05", "E_0,05 / r", in_megapascals(timber.E_low) / E_to_G.value, "N/mm2",
             E_to_G.source);
  const SecondMoment I_z(sheet.line("I_z", "h b^3 / 12", in_mm(h) * std::pow(in_mm(b), 3) / 12.0,
                                    "mm4", ec5("6.3.3(2)")));
  const SecondMoment I_tor(sheet.line(
      "I_tor", "max(b; h) min(b; h)^3 / 3 (1 - 0.63 min(b; h) / max(b; h))",
      wide * std::pow(narrow, 3) / 3.0 * (1.0 - 0.63 * narrow / wide), "mm4", ec5("6.3.3(2)")));
  return sheet.line("sigma_m,crit", "pi sqrt(E_0,05 I_z G_0,05 I_tor) / (l_ef b h^2 / 6)",
                    in_megapascals(sigma_m_crit_general(timber.E_low, timber.E_low / E_to_G.value,
                                                        I_z, I_tor, b * h * h / 6.0, l_ef)),
                    "N/mm2", ec5("6.3.3(2) (6.31)"));
}

/// Whether the contact's surroundings earn more than k_c,90 = 1: 6.1.5(3), (4).
double across_factor(Sheet& sheet, const std::optional<Length>& clear, Length depth,
                     bool softwood) {
  if (!clear || depth.value() <= 0.0) {
    return sheet.taken("k_c,90", "1: loaded all along, or right above it, as far as is known", 1.0,
                       "", ec5("6.1.5(2)"));
  }
  sheet.given("l_1", in_mm(*clear), "mm");
  sheet.given("h", in_mm(depth), "mm");
  const double k = k_c_90(BearingSupport::discrete, softwood, *clear, depth);
  const char* why = !softwood ? "1: not softwood"
                    : k > 1.0 ? "softwood on discrete supports, l_1 at least 2 h"
                              : "1: l_1 is less than 2 h";
  return sheet.taken("k_c,90", why, k, "", ec5(k > 1.0 ? "6.1.5(4)" : "6.1.5(2)"));
}

}  // namespace

double EurocodeUk::strength(Sheet& sheet, const char* symbol, const char* reference, Stress f_k,
                            const Timber& timber, const std::string& factors,
                            double product) const {
  const double value =
      sheet.taken(reference, timber.label, in_megapascals(f_k), "N/mm2", timber.source);
  sheet.taken("gamma_M", "solid timber", "", tables_.gamma_M);
  return sheet.line(symbol, factors + " " + reference + " / gamma_M",
                    product * value / tables_.gamma_M.value, "N/mm2", ec5("2.4.1(1) (2.14)"));
}

Check EurocodeUk::bending(const BendingDemand& d, const Combination& combination) const {
  need_strength(combination, most_k_mod);
  need_timber(d.timber);
  need_valid(d);

  Sheet sheet(CheckKind::bending, kilonewton_metres);
  given_section(sheet, d.breadth, d.depth);
  sheet.given("M_d", d.moment.value(), "N mm");
  const double k = k_mod(sheet, combination);
  const double kh = depth_factor(sheet, "h", d.depth, d.timber.density);
  double k_sys = 1.0;
  if (d.sharing) k_sys = sheet.taken("k_sys", "members share under the boards", "", tables_.k_sys);
  const double f_m_d = strength(sheet, "f_m,d", "f_m,k", d.timber.bending, d.timber,
                                d.sharing ? "k_mod k_h k_sys" : "k_mod k_h", k * kh * k_sys);
  sheet.line("sigma_m,d", "6 M_d / (b h^2)",
             in_megapascals(bending_stress(d.moment, d.breadth, d.depth)), "N/mm2",
             ec5("6.1.6(1)"));
  double kcrit = 1.0;
  if (d.edge_held && d.ends_held) {
    sheet.taken("k_crit", "1: compression edge held all along, supports held against torsion", 1.0,
                "", ec5("6.3.3(5)"));
  } else {
    Length l = d.unbraced;
    sheet.given("l", in_mm(l), "mm");
    if (!d.ends_held) {
      sheet.taken("c", "factor on l: the ends are not held upright", "",
                  tables_.length_ends_not_held);
      l = tables_.length_ends_not_held.value * l;
    }
    // Table 6.1, the most cautious row (constant moment, 1.0), load on the compression edge.
    const Length l_ef = l + 2.0 * d.depth;
    sheet.line("l_ef", d.ends_held ? "1.0 l + 2 h" : "1.0 c l + 2 h", in_mm(l_ef), "mm",
               ec5("6.3.3(3), Table 6.1"));
    const bool hardwood = tables_.row(d.timber.name).hardwood;
    const double critical =
        critical_stress(sheet, d.timber, d.breadth, d.depth, l_ef, hardwood, tables_.E_to_G);
    const double relative = sheet.line("lambda_rel,m", "sqrt(f_m,k / sigma_m,crit)",
                                       lambda_rel_m(d.timber.bending, megapascals(critical)), "",
                                       ec5("6.3.3(2) (6.30)"));
    kcrit = sheet.line_or_one(
        "k_crit", relative <= 1.4 ? "1.56 - 0.75 lambda_rel,m" : "1 / lambda_rel,m^2",
        "1: lambda_rel,m is not above 0.75", k_crit(relative), ec5("6.3.3(4) (6.34)"));
  }
  const double W = (d.breadth * d.depth * d.depth).value() / 6.0;
  sheet.line("M_R,d", "k_crit f_m,d b h^2 / 6", kcrit * f_m_d * W, "N mm", ec5("6.3.3(3) (6.33)"));
  return sheet.finish("M_d", "M_R,d", ec5(kcrit < 1.0 ? "6.3.3(3) (6.33)" : "6.1.6(1) (6.11)"));
}

Check EurocodeUk::shear(const ShearDemand& d, const Combination& combination) const {
  need_strength(combination, most_k_mod);
  need_timber(d.timber);
  need_valid(d);
  const bool notched = is_notched(d);

  Sheet sheet(notched ? CheckKind::shear_at_notch : CheckKind::shear, kilonewtons);
  given_section(sheet, d.breadth, d.depth);
  sheet.given("V_d", in_newtons(d.shear), "N");
  const double k = k_mod(sheet, combination);
  const double f_v_d = strength(sheet, "f_v,d", "f_v,k", d.timber.shear, d.timber, "k_mod", k);
  sheet.taken("k_cr", "cracks", "", tables_.k_cr);
  const Length effective = b_ef(d.breadth, tables_.k_cr.value);
  sheet.line("b_ef", "k_cr b", in_mm(effective), "mm", ec5("6.1.7(2) (6.13a)"));
  if (!notched) {
    sheet.line("tau_d", "1.5 V_d / (b_ef h)",
               in_megapascals(shear_stress(d.shear, effective, d.depth)), "N/mm2", ec5("6.1.7(1)"));
    sheet.line("V_R,d", "f_v,d b_ef h / 1.5", f_v_d * (effective * d.depth).value() / 1.5, "N",
               ec5("6.1.7(1) (6.13)"));
    return sheet.finish("V_d", "V_R,d", ec5("6.1.7(1) (6.13)"));
  }
  const Length left = d.depth - *d.notch_depth;
  sheet.given("t_n", in_mm(*d.notch_depth), "mm");
  sheet.line("h_ef", "h - t_n", in_mm(left), "mm", ec5("6.5.2(1)"));
  sheet.given("x", in_mm(d.notch_distance), "mm");
  sheet.taken("k_n", "solid timber", "", tables_.k_n);
  sheet.line("a", "h_ef / h", left / d.depth, "", ec5("6.5.2(2)"));
  const double kv = sheet.line(
      "k_v",
      "min(1; k_n / (sqrt(h) (sqrt(a (1 - a)) + 0.8 x / h sqrt(1 / a - a^2)))), without taper",
      k_v({NotchSide::support, d.depth, left, d.notch_distance, 0.0}, tables_.k_n.value), "",
      ec5("6.5.2(2) (6.62)"));
  sheet.line("tau_d", "1.5 V_d / (b_ef h_ef)",
             in_megapascals(notched_shear_stress(d.shear, effective, left)), "N/mm2",
             ec5("6.5.2(2) (6.60)"));
  sheet.line("V_R,d", "k_v f_v,d b_ef h_ef / 1.5", kv * f_v_d * (effective * left).value() / 1.5,
             "N", ec5("6.5.2(2) (6.60)"));
  return sheet.finish("V_d", "V_R,d", ec5("6.5.2(2) (6.60)"));
}

/// Characteristic resistance across the grain in N, with its lines; the last is R_90,k.
double EurocodeUk::bearing_resistance(Sheet& sheet, const BearingDemand& d, Length length) const {
  sheet.given("b", in_mm(d.width), "mm");
  sheet.given("a", in_mm(d.end_distance), "mm");
  const Length far = mm(1e6);  // no other contact on this face is recorded
  const Length l_ef = effective_contact_length(length, {d.end_distance, far}, {far, far});
  const bool softwood = !tables_.row(d.timber.name).hardwood;
  const double k_c = across_factor(sheet, d.clear_to_next, d.depth, softwood);
  sheet.line("l_ef", "l + min(30; a; l) + min(30; l)", in_mm(l_ef), "mm", ec5("6.1.5(1)"));
  sheet.taken("f_c,90,k", d.timber.label, in_megapascals(d.timber.compression_across), "N/mm2",
              d.timber.source);
  return sheet.line(
      "R_90,k", "k_c,90 f_c,90,k b l_ef",
      bearing_resistance_characteristic(k_c, d.timber.compression_across, d.width, l_ef).value(),
      "N", ec5("6.1.5(1) (6.3), (6.4)"));
}

Check EurocodeUk::bearing(const BearingDemand& d, const Combination& combination) const {
  need_strength(combination, most_k_mod);
  need_timber(d.timber);
  need_valid(d);

  Sheet sheet(CheckKind::bearing, kilonewtons);
  sheet.given("F_d", in_newtons(d.force), "N");
  if (d.width.value() == 0.0 || d.length.value() == 0.0) {
    return sheet.nothing("F_d", "0: no contact", ec5("6.1.5(1)"));
  }
  Length length = d.length;
  if (d.packers > static_cast<int>(tables_.packers_in_full.value)) {
    sheet.given("packers", d.packers, "");
    sheet.given("c", in_mm(d.length), "mm");
    sheet.taken("share", "of the contact under more packers than count in full", "",
                tables_.packed_share);
    length = tables_.packed_share.value * length;
    sheet.line("l", "share c", in_mm(length), "mm", tables_.packed_share.source);
  } else {
    sheet.given("l", in_mm(length), "mm");
  }
  const double R_k = bearing_resistance(sheet, d, length);
  const double k = k_mod(sheet, combination);
  sheet.taken("gamma_M", "solid timber", "", tables_.gamma_M);
  sheet.line("R_90,d", "k_mod R_90,k / gamma_M", k * R_k / tables_.gamma_M.value, "N",
             ec5("2.4.1(1) (2.14)"));
  return sheet.finish("F_d", "R_90,d", ec5("6.1.5(1) (6.3)"));
}

Check EurocodeUk::column(const ColumnDemand& d, const Combination& combination) const {
  need_strength(combination, most_k_mod);
  need_timber(d.timber);
  need_valid(d);

  Sheet sheet(CheckKind::column, kilonewtons);
  given_section(sheet, d.breadth, d.depth);
  sheet.given("L", in_mm(d.height), "mm");
  sheet.given("N_d", in_newtons(d.axial), "N");
  const bool bent = d.moment.value() > 0.0;
  if (bent) sheet.given("M_d", d.moment.value(), "N mm");
  if (!d.braced && !d.base_fixed) {
    const bool moment_alone = bent && d.axial.value() == 0.0;
    if (moment_alone) sheet.shown(kilonewton_metres);
    return sheet.nothing(moment_alone ? "M_d" : "N_d",
                         "0: hinged at the foot and free to sway, no buckling load",
                         ec5("6.3.2(1)"));
  }
  const Cited& K = d.braced ? tables_.length_braced : tables_.length_cantilever;
  sheet.taken("K", d.braced ? "top held" : "fixed foot, top free to sway", "", K);
  const Length l_ef = K.value * d.height;
  sheet.line("l_ef", "K L", in_mm(l_ef), "mm", ec5("6.3.2(1)"));
  const Length thin = min(d.breadth, d.depth), thick = max(d.breadth, d.depth);
  sheet.line("s", "min(b; h), the smaller side", in_mm(thin), "mm", ec5("6.3.2(1)"));
  sheet.taken("beta_c", "solid timber", "", tables_.beta_c);
  const double beta = tables_.beta_c.value;
  const Buckling weak = buckling(l_ef, thin, d.timber.compression, d.timber.E_low, beta);
  const Buckling strong = buckling(l_ef, thick, d.timber.compression, d.timber.E_low, beta);
  const double k = k_mod(sheet, combination);
  const double f_c_d =
      strength(sheet, "f_c,0,d", "f_c,0,k", d.timber.compression, d.timber, "k_mod", k);
  sheet.taken("E_0,05", d.timber.label, in_megapascals(d.timber.E_low), "N/mm2", d.timber.source);
  sheet.line("lambda", "l_ef sqrt(12) / s", weak.lambda, "", ec5("6.3.2(1)"));
  sheet.line("lambda_rel", "lambda / pi sqrt(f_c,0,k / E_0,05)", weak.lambda_rel, "",
             ec5("6.3.2(1) (6.21), (6.22)"));
  if (weak.k_c < 1.0) {
    sheet.line("k", "0.5 (1 + beta_c (lambda_rel - 0.3) + lambda_rel^2)", weak.k, "",
               ec5("6.3.2(3) (6.27), (6.28)"));
  }
  sheet.line_or_one("k_c", "1 / (k + sqrt(k^2 - lambda_rel^2))", "1: lambda_rel is not above 0.3",
                    weak.k_c, ec5("6.3.2(3) (6.25), (6.26)"));
  const double area = (d.breadth * d.depth).value();
  const double sigma_c = sheet.line("sigma_c,0,d", "N_d / (b h)", in_newtons(d.axial) / area,
                                    "N/mm2", ec5("6.1.4(1)"));
  if (!bent) {
    sheet.line("N_R,d", "k_c f_c,0,d b h", weak.k_c * f_c_d * area, "N",
               ec5("6.3.2(3) (6.23), (6.24)"));
    return sheet.finish("N_d", "N_R,d", ec5("6.3.2(3) (6.24)"));
  }
  sheet.shown(plain);
  const double kh = depth_factor(sheet, "s", thin, d.timber.density);
  const double f_m_d =
      strength(sheet, "f_m,d", "f_m,k", d.timber.bending, d.timber, "k_mod k_h", k * kh);
  const double sigma_m =
      sheet.line("sigma_m,d", "6 M_d / (max(b; h) s^2)",
                 in_megapascals(bending_stress(d.moment, thick, thin)), "N/mm2", ec5("6.1.6(1)"));
  const StressRatios ratios{sigma_c / f_c_d, 0.0, sigma_m / f_m_d};
  const double together =
      compression_and_bending_utilisation(ratios, strong, weak, tables_.k_m.value);
  const bool stocky = strong.lambda_rel <= 0.3 && weak.lambda_rel <= 0.3;
  const Citation clause = ec5(stocky ? "6.2.4(1) (6.20)" : "6.3.2(3) (6.24)");
  sheet.line("sum",
             stocky ? "(sigma_c,0,d / f_c,0,d)^2 + sigma_m,d / f_m,d"
                    : "sigma_c,0,d / (k_c f_c,0,d) + sigma_m,d / f_m,d",
             together, "", clause);
  if (!stocky) {
    sheet.taken("limit", "of the sum", 1.0, "", clause);
    return sheet.finish("sum", "limit", clause);
  }
  // (6.20) squares the axial ratio: a little bending would make a straight post better. The axial
  // check of 6.1.4, which holds of every member in compression, stands beside it.
  const Citation axial_clause = ec5("6.1.4(1) (6.2)");
  const double alone =
      sheet.line("alone", "sigma_c,0,d / f_c,0,d", ratios.compression, "", axial_clause);
  const Citation& governing = alone > together ? axial_clause : clause;
  sheet.line("used", "max(sum; alone)", std::max(alone, together), "", governing);
  sheet.taken("limit", "of both", 1.0, "", governing);
  return sheet.finish("used", "limit", governing);
}

Check EurocodeUk::held_upright(Length breadth, Length depth, bool ends_held, bool edge_held) const {
  need_positive(breadth, "held upright: the breadth must be positive");
  need_positive(depth, "held upright: the depth must be positive");
  Sheet sheet(CheckKind::held_upright, plain);
  given_section(sheet, breadth, depth);
  const double limit = !ends_held  ? tables_.slender_unheld
                       : edge_held ? tables_.slender_both
                                   : tables_.slender_ends;
  const char* how = !ends_held  ? "largest h/b: ends not held"
                    : edge_held ? "largest h/b: ends and compression edge held"
                                : "largest h/b: ends held";
  sheet.line("ratio", "h / b", depth / breadth, "", tables_.slender_source);
  sheet.taken("limit", how, limit, "", tables_.slender_source);
  return sheet.finish("ratio", "limit", tables_.slender_source);
}

Check EurocodeUk::board_point_load(const Timber& timber, Length width, Length thickness,
                                   Length span, bool continuous, Force load) const {
  need_timber(timber);
  need_valid_board(width, thickness, span, load);

  Sheet sheet(CheckKind::board_point_load, kilonewton_metres);
  given_section(sheet, width, thickness);
  sheet.given("l", in_mm(span), "mm");
  sheet.given("P_k", in_newtons(load), "N");
  sheet.taken("gamma_Q", "unfavourable", tables_.str.Q, "", tables_.str_source);
  const double P =
      sheet.line("P_d", "gamma_Q P_k", tables_.str.Q * in_newtons(load), "N", tables_.str_source);
  // Load at mid-span; two equal spans, one loaded: 13/64 P l under the load.
  const double M = sheet.line(
      "M_d", continuous ? "13/64 P_d l, two spans" : "P_d l / 4, one span",
      P * in_mm(span) * (continuous ? 13.0 / 64.0 : 0.25), "N mm",
      Citation{"beam-formulas",
               continuous
                   ? "continuous beam, two equal spans, concentrated load at centre of one span"
                   : "simple beam, concentrated load at centre"});
  const double k = sheet.taken("k_mod", "service class 3, short-term", tables_.k_mod.brief, "",
                               tables_.k_mod_source);
  const double kh = depth_factor(sheet, "h", thickness, timber.density);
  const double f_m_d =
      strength(sheet, "f_m,d", "f_m,k", timber.bending, timber, "k_mod k_h", k * kh);
  const double M_R =
      sheet.line("M_R,d", "f_m,d b h^2 / 6", f_m_d * (width * thickness * thickness).value() / 6.0,
                 "N mm", ec5("6.1.6(1) (6.11)"));
  const double f_v_d = strength(sheet, "f_v,d", "f_v,k", timber.shear, timber, "k_mod", k);
  sheet.taken("k_cr", "cracks", "", tables_.k_cr);
  const double V_R = sheet.line("V_R,d", "f_v,d k_cr b h / 1.5, against V_d = P_d beside a support",
                                f_v_d * (b_ef(width, tables_.k_cr.value) * thickness).value() / 1.5,
                                "N", ec5("6.1.7(1) (6.13)"));
  if (P * M_R > M * V_R) {
    sheet.shown(kilonewtons);
    return sheet.finish("P_d", "V_R,d", ec5("6.1.7(1) (6.13)"));
  }
  return sheet.finish("M_d", "M_R,d", ec5("6.1.6(1) (6.11)"));
}

}  // namespace underprop::standards::eurocode
