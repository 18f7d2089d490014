// Members by EN 1995-1-1: bending, shear, bearing, columns, boards.
#include "standard.hpp"

#include "underprop/standards/eurocode/bearing.hpp"
#include "underprop/standards/eurocode/bending.hpp"
#include "underprop/standards/eurocode/column.hpp"
#include "underprop/standards/eurocode/material.hpp"
#include "underprop/standards/eurocode/shear.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::standards::eurocode {

namespace {

constexpr double kilo = 1e3, mega = 1e6;

void given_section(Sheet& sheet, Length breadth, Length depth) {
  sheet.given("b", in_mm(breadth), "mm");
  sheet.given("h", in_mm(depth), "mm");
}

/// (6.32) is for softwood; hardwood takes the general (6.31) with G_0,05 = E_0,05/ratio.
Stress critical_stress(const Timber& timber, Length b, Length h, Length l_ef, bool hardwood,
                       double E_to_G) {
  if (!hardwood) return sigma_m_crit(b, h, l_ef, timber.E_low);
  const double narrow = std::min(in_mm(b), in_mm(h)), wide = std::max(in_mm(b), in_mm(h));
  const SecondMoment I_z(in_mm(h) * std::pow(in_mm(b), 3) / 12.0);
  const SecondMoment I_tor(wide * std::pow(narrow, 3) / 3.0 * (1.0 - 0.63 * narrow / wide));
  return sigma_m_crit_general(timber.E_low, timber.E_low / E_to_G, I_z, I_tor, b * h * h / 6.0,
                              l_ef);
}

}  // namespace

Check EurocodeUk::bending(const BendingDemand& d, const Combination& combination) const {
  need_strength(combination);
  need_timber(d.timber);
  need_positive(d.breadth, "bending: the breadth must be positive");
  need_positive(d.depth, "bending: the depth must be positive");
  need_not_negative(d.moment, "bending: the moment must not be negative");
  need_not_negative(d.unbraced, "bending: the unbraced length must not be negative");

  Sheet sheet("bending", "kNm");
  given_section(sheet, d.breadth, d.depth);
  const double M = d.moment.value() / mega;
  sheet.given("M_d", M, "kNm");
  const double f_m_k =
      sheet.line("f_m,k", d.timber.label, in_megapascals(d.timber.bending), "MPa", d.timber.source);
  const double k = k_mod(sheet, combination);
  const double kh = sheet.line("k_h", "min((150/h)^0.2; 1.3) for h < 150 mm, else 1",
                               k_h(d.depth, d.timber.density), "", ec5("3.2(3) (3.1)"));
  const double k_sys =
      d.sharing ? sheet.line("k_sys", "members share under the boards", "", tables_.k_sys) : 1.0;
  sheet.line("gamma_M", "solid timber", "", tables_.gamma_M);
  const double f_m_d = sheet.line(
      "f_m,d", d.sharing ? "k_mod k_h k_sys f_m,k / gamma_M" : "k_mod k_h f_m,k / gamma_M",
      k * kh * k_sys * f_m_k / tables_.gamma_M.value, "MPa", ec5("2.4.1(1) (2.14)"));
  sheet.line("sigma_m,d", "6 M_d / (b h^2)",
             in_megapascals(bending_stress(d.moment, d.breadth, d.depth)), "MPa", ec5("6.1.6(1)"));
  double kcrit = 1.0;
  if (d.edge_held && d.ends_held) {
    sheet.line("k_crit", "1: compression edge held all along, supports held against torsion", 1.0,
               "", ec5("6.3.3(5)"));
  } else {
    Length l = d.unbraced;
    sheet.given("l", in_mm(l), "mm");
    if (!d.ends_held) {
      sheet.line("c", "factor on l: the ends are not held upright", "",
                 tables_.length_ends_not_held);
      l = tables_.length_ends_not_held.value * l;
    }
    // Table 6.1, the most cautious row (constant moment, 1.0), load on the compression edge.
    const Length l_ef = l + 2.0 * d.depth;
    sheet.line("l_ef", d.ends_held ? "1.0 l + 2 h" : "1.0 c l + 2 h", in_mm(l_ef), "mm",
               ec5("6.3.3(3), Table 6.1"));
    const bool hardwood = tables_.row(d.timber.name).hardwood;
    const Stress critical =
        critical_stress(d.timber, d.breadth, d.depth, l_ef, hardwood, tables_.E_to_G.value);
    sheet.line(
        "sigma_m,crit",
        hardwood ? "pi sqrt(E_0,05 I_z G_0,05 I_tor) / (l_ef W_y)" : "0.78 b^2 E_0,05 / (h l_ef)",
        in_megapascals(critical), "MPa", ec5(hardwood ? "6.3.3(2) (6.31)" : "6.3.3(2) (6.32)"));
    const double relative =
        sheet.line("lambda_rel,m", "sqrt(f_m,k / sigma_m,crit)",
                   lambda_rel_m(d.timber.bending, critical), "", ec5("6.3.3(2) (6.30)"));
    kcrit = sheet.line("k_crit",
                       relative <= 0.75  ? "1 for lambda_rel,m <= 0.75"
                       : relative <= 1.4 ? "1.56 - 0.75 lambda_rel,m"
                                         : "1 / lambda_rel,m^2",
                       k_crit(relative), "", ec5("6.3.3(4) (6.34)"));
  }
  const double W = (d.breadth * d.depth * d.depth).value() / 6.0;
  const double M_R = sheet.line("M_R,d", "k_crit f_m,d b h^2 / 6", kcrit * f_m_d * W / mega, "kNm",
                                ec5("6.3.3(3) (6.33)"));
  return sheet.finish(M, M_R, ec5(kcrit < 1.0 ? "6.3.3(3) (6.33)" : "6.1.6(1) (6.11)"));
}

Check EurocodeUk::shear(const ShearDemand& d, const Combination& combination) const {
  need_strength(combination);
  need_timber(d.timber);
  need_positive(d.breadth, "shear: the breadth must be positive");
  need_positive(d.depth, "shear: the depth must be positive");
  need_not_negative(d.shear, "shear: the shear force must not be negative");
  const bool notched = d.notch_depth && d.notch_depth->value() != 0.0;
  if (notched) {
    need_positive(*d.notch_depth, "shear: the notch's depth must not be negative");
    need(*d.notch_depth < d.depth, "shear: the notch is as deep as the member");
    need_not_negative(d.notch_distance, "shear: the notch's distance must not be negative");
  }

  Sheet sheet(notched ? "shear at a notch" : "shear", "kN");
  given_section(sheet, d.breadth, d.depth);
  const double V = in_kilonewtons(d.shear);
  sheet.given("V_d", V, "kN");
  const double f_v_k =
      sheet.line("f_v,k", d.timber.label, in_megapascals(d.timber.shear), "MPa", d.timber.source);
  const double k = k_mod(sheet, combination);
  sheet.line("gamma_M", "solid timber", "", tables_.gamma_M);
  const double f_v_d = sheet.line("f_v,d", "k_mod f_v,k / gamma_M",
                                  k * f_v_k / tables_.gamma_M.value, "MPa", ec5("2.4.1(1) (2.14)"));
  sheet.line("k_cr", "cracks", "", tables_.k_cr);
  const Length effective = b_ef(d.breadth, tables_.k_cr.value);
  sheet.line("b_ef", "k_cr b", in_mm(effective), "mm", ec5("6.1.7(2) (6.13a)"));
  if (!notched) {
    sheet.line("tau_d", "1.5 V_d / (b_ef h)",
               in_megapascals(shear_stress(d.shear, effective, d.depth)), "MPa", ec5("6.1.7(1)"));
    const double V_R = sheet.line("V_R,d", "f_v,d b_ef h / 1.5",
                                  f_v_d * (effective * d.depth).value() / 1.5 / kilo, "kN",
                                  ec5("6.1.7(1) (6.13)"));
    return sheet.finish(V, V_R, ec5("6.1.7(1) (6.13)"));
  }
  const Length left = d.depth - *d.notch_depth;
  sheet.line("h_ef", "h - depth of the notch", in_mm(left), "mm", ec5("6.5.2(1)"));
  sheet.given("x", in_mm(d.notch_distance), "mm");
  sheet.line("k_n", "solid timber", "", tables_.k_n);
  const double kv = sheet.line(
      "k_v",
      "min(1; k_n / [sqrt h (sqrt(a (1 - a)) + 0.8 (x/h) sqrt(1/a - a^2))]), a = h_ef/h, no taper",
      k_v({NotchSide::support, d.depth, left, d.notch_distance, 0.0}, tables_.k_n.value), "",
      ec5("6.5.2(2) (6.62)"));
  sheet.line("tau_d", "1.5 V_d / (b_ef h_ef)",
             in_megapascals(notched_shear_stress(d.shear, effective, left)), "MPa",
             ec5("6.5.2(2) (6.60)"));
  const double V_R = sheet.line("V_R,d", "k_v f_v,d b_ef h_ef / 1.5",
                                kv * f_v_d * (effective * left).value() / 1.5 / kilo, "kN",
                                ec5("6.5.2(2) (6.60)"));
  return sheet.finish(V, V_R, ec5("6.5.2(2) (6.60)"));
}

/// Characteristic resistance across the grain in N, with its lines.
double EurocodeUk::bearing_resistance(Sheet& sheet, const Timber& timber, Length width,
                                      Length length, Length end_distance) const {
  sheet.given("b", in_mm(width), "mm");
  sheet.line("l", "contact along the grain", in_mm(length), "mm", Citation{});
  const Length far = mm(1e6);  // no other contact on this face is recorded
  const Length l_ef = effective_contact_length(length, {end_distance, far}, {far, far});
  sheet.line("l_ef", "l + min(30; a; l) at the end + min(30; l) inwards", in_mm(l_ef), "mm",
             ec5("6.1.5(1)"));
  sheet.line("f_c,90,k", timber.label, in_megapascals(timber.compression_across), "MPa",
             timber.source);
  sheet.line("k_c,90", "1: the clear distance to the next contact is not recorded", 1.0, "",
             ec5("6.1.5(2)"));
  return bearing_resistance_characteristic(1.0, timber.compression_across, width, l_ef).value();
}

Check EurocodeUk::bearing(const BearingDemand& d, const Combination& combination) const {
  need_strength(combination);
  need_timber(d.timber);
  need_not_negative(d.force, "bearing: the force must not be negative");
  need_not_negative(d.width, "bearing: the width must not be negative");
  need_not_negative(d.length, "bearing: the length must not be negative");
  need_not_negative(d.end_distance, "bearing: the end distance must not be negative");
  need(d.packers >= 0, "bearing: the number of packers must not be negative");

  Sheet sheet("bearing across the grain", "kN");
  const double F = in_kilonewtons(d.force);
  sheet.given("F_d", F, "kN");
  if (d.width.value() == 0.0 || d.length.value() == 0.0) {
    return sheet.nothing(F, "0: no contact", ec5("6.1.5(1)"));
  }
  Length length = d.length;
  if (d.packers > static_cast<int>(tables_.packers_in_full.value)) {
    sheet.given("packers", d.packers, "");
    sheet.line("share", "of the contact length under so many packers", "", tables_.packed_share);
    length = tables_.packed_share.value * length;
  }
  sheet.given("a", in_mm(d.end_distance), "mm");
  const double R_k = bearing_resistance(sheet, d.timber, d.width, length, d.end_distance);
  const double k = k_mod(sheet, combination);
  sheet.line("gamma_M", "solid timber", "", tables_.gamma_M);
  const double R =
      sheet.line("R_d", "k_mod k_c,90 f_c,90,k b l_ef / gamma_M",
                 k * R_k / tables_.gamma_M.value / kilo, "kN", ec5("6.1.5(1) (6.3), (6.4)"));
  return sheet.finish(F, R, ec5("6.1.5(1) (6.3)"));
}

Check EurocodeUk::column(const ColumnDemand& d, const Combination& combination) const {
  need_strength(combination);
  need_timber(d.timber);
  need_positive(d.breadth, "column: the breadth must be positive");
  need_positive(d.depth, "column: the depth must be positive");
  need_not_negative(d.height, "column: the height must not be negative");
  need_not_negative(d.axial, "column: the axial force must not be negative");
  need_not_negative(d.moment, "column: the moment must not be negative");

  Sheet sheet("column", "kN");
  given_section(sheet, d.breadth, d.depth);
  sheet.given("L", in_mm(d.height), "mm");
  const double N = in_kilonewtons(d.axial), M = d.moment.value() / mega;
  sheet.given("N_d", N, "kN");
  if (!d.braced && !d.base_fixed) {
    sheet.given("M_d", M, "kNm");
    if (N == 0.0 && M > 0.0) sheet.unit("kNm");
    return sheet.nothing(N > 0.0 ? N : M,
                         "0: hinged at the foot and free to sway, no buckling load",
                         ec5("6.3.2(1)"));
  }
  const Cited& K = d.braced ? tables_.length_braced : tables_.length_cantilever;
  sheet.line("K", d.braced ? "top held" : "fixed foot, top free to sway", "", K);
  const Length l_ef = K.value * d.height;
  sheet.line("l_ef", "K L", in_mm(l_ef), "mm", ec5("6.3.2(1)"));
  const Length thin = min(d.breadth, d.depth), thick = max(d.breadth, d.depth);
  const double beta = sheet.line("beta_c", "solid timber", "", tables_.beta_c);
  const Buckling weak = buckling(l_ef, thin, d.timber.compression, d.timber.E_low, beta);
  const Buckling strong = buckling(l_ef, thick, d.timber.compression, d.timber.E_low, beta);
  sheet.line("lambda", "l_ef sqrt(12) / smaller side", weak.lambda, "", ec5("6.3.2(1)"));
  sheet.line("lambda_rel", "(lambda/pi) sqrt(f_c,0,k / E_0,05)", weak.lambda_rel, "",
             ec5("6.3.2(1) (6.21), (6.22)"));
  sheet.line(
      "k_c",
      "1 / (k + sqrt(k^2 - lambda_rel^2)), k = 0.5 (1 + beta_c (lambda_rel - 0.3) + lambda_rel^2)",
      weak.k_c, "", ec5("6.3.2(3) (6.25) to (6.28)"));
  sheet.line("f_c,0,k", d.timber.label, in_megapascals(d.timber.compression), "MPa",
             d.timber.source);
  const double k = k_mod(sheet, combination);
  sheet.line("gamma_M", "solid timber", "", tables_.gamma_M);
  const double gamma = tables_.gamma_M.value;
  const double f_c_d =
      sheet.line("f_c,0,d", "k_mod f_c,0,k / gamma_M",
                 k * in_megapascals(d.timber.compression) / gamma, "MPa", ec5("2.4.1(1) (2.14)"));
  const double area = (d.breadth * d.depth).value();
  const double sigma_c =
      sheet.line("sigma_c,0,d", "N_d / (b h)", in_newtons(d.axial) / area, "MPa", ec5("6.1.4(1)"));
  if (d.moment.value() == 0.0) {
    const double N_R = sheet.line("N_R,d", "k_c f_c,0,d b h", weak.k_c * f_c_d * area / kilo, "kN",
                                  ec5("6.3.2(3) (6.23), (6.24)"));
    return sheet.finish(N, N_R, ec5("6.3.2(3) (6.24)"));
  }
  sheet.unit("");
  sheet.given("M_d", M, "kNm");
  const double f_m_d =
      sheet.line("f_m,d", "k_mod k_h f_m,k / gamma_M, k_h of the smaller side",
                 k * k_h(thin, d.timber.density) * in_megapascals(d.timber.bending) / gamma, "MPa",
                 ec5("2.4.1(1) (2.14), 3.2(3)"));
  const double sigma_m =
      sheet.line("sigma_m,d", "6 M_d / (wide side x narrow side^2)",
                 in_megapascals(bending_stress(d.moment, thick, thin)), "MPa", ec5("6.1.6(1)"));
  const StressRatios ratios{sigma_c / f_c_d, 0.0, sigma_m / f_m_d};
  const double used = compression_and_bending_utilisation(ratios, strong, weak, tables_.k_m.value);
  const bool stocky = strong.lambda_rel <= 0.3 && weak.lambda_rel <= 0.3;
  const Citation clause = ec5(stocky ? "6.2.4(1) (6.20)" : "6.3.2(3) (6.24)");
  sheet.line("sum of ratios",
             stocky ? "(sigma_c,0,d / f_c,0,d)^2 + sigma_m,d / f_m,d"
                    : "sigma_c,0,d / (k_c f_c,0,d) + sigma_m,d / f_m,d",
             used, "", clause);
  return sheet.finish(used, 1.0, clause);
}

Check EurocodeUk::held_upright(Length breadth, Length depth, bool ends_held, bool edge_held) const {
  need_positive(breadth, "held upright: the breadth must be positive");
  need_positive(depth, "held upright: the depth must be positive");
  Sheet sheet("held upright", "");
  given_section(sheet, breadth, depth);
  const double limit = !ends_held  ? tables_.slender_unheld
                       : edge_held ? tables_.slender_both
                                   : tables_.slender_ends;
  const char* how = !ends_held  ? "largest h/b: ends not held"
                    : edge_held ? "largest h/b: ends and compression edge held"
                                : "largest h/b: ends held";
  const double ratio = sheet.line("h/b", "depth to breadth", depth / breadth, "", Citation{});
  sheet.line("limit", how, limit, "", tables_.slender_source);
  return sheet.finish(ratio, limit, tables_.slender_source);
}

Check EurocodeUk::board_point_load(const Timber& timber, Length width, Length thickness,
                                   Length span, bool continuous, Force load) const {
  need_timber(timber);
  need_positive(width, "board: the width must be positive");
  need_positive(thickness, "board: the thickness must be positive");
  need_positive(span, "board: the span must be positive");
  need_not_negative(load, "board: the load must not be negative");

  Sheet sheet("board under a concentrated load", "kNm");
  given_section(sheet, width, thickness);
  sheet.given("l", in_mm(span), "mm");
  sheet.given("P_k", in_kilonewtons(load), "kN");
  const double P = sheet.line("P_d", "gamma_Q P_k", tables_.str.Q * in_kilonewtons(load), "kN",
                              tables_.str_source);
  // Load at mid-span; two equal spans, one loaded: 13/64 P l under the load.
  const double M = sheet.line(
      "M_d", continuous ? "13/64 P_d l, two spans" : "P_d l / 4, one span",
      P * in_metres(span) * (continuous ? 13.0 / 64.0 : 0.25), "kNm",
      Citation{"beam-formulas",
               continuous
                   ? "continuous beam, two equal spans, concentrated load at centre of one span"
                   : "simple beam, concentrated load at centre"});
  const double k = sheet.line("k_mod", "service class 3, short-term", tables_.k_mod.brief, "",
                              tables_.k_mod_source);
  const double kh = sheet.line("k_h", "min((150/h)^0.2; 1.3) for h < 150 mm, else 1",
                               k_h(thickness, timber.density), "", ec5("3.2(3) (3.1)"));
  sheet.line("gamma_M", "solid timber", "", tables_.gamma_M);
  const double f_m_d = sheet.line("f_m,d", "k_mod k_h f_m,k / gamma_M, " + timber.label,
                                  k * kh * in_megapascals(timber.bending) / tables_.gamma_M.value,
                                  "MPa", ec5("2.4.1(1) (2.14)"));
  const double M_R = sheet.line("M_R,d", "f_m,d b h^2 / 6",
                                f_m_d * (width * thickness * thickness).value() / 6.0 / mega, "kNm",
                                ec5("6.1.6(1) (6.11)"));
  const double f_v_d = sheet.line("f_v,d", "k_mod f_v,k / gamma_M",
                                  k * in_megapascals(timber.shear) / tables_.gamma_M.value, "MPa",
                                  ec5("2.4.1(1) (2.14)"));
  const double V_R =
      sheet.line("V_R,d", "f_v,d k_cr b h / 1.5, against V_d = P_d beside a support",
                 f_v_d * (b_ef(width, tables_.k_cr.value) * thickness).value() / 1.5 / kilo, "kN",
                 ec5("6.1.7(1) (6.13)"));
  if (P * M_R > M * V_R) {
    sheet.unit("kN");
    return sheet.finish(P, V_R, ec5("6.1.7(1) (6.13)"));
  }
  return sheet.finish(M, M_R, ec5("6.1.6(1) (6.11)"));
}

}  // namespace underprop::standards::eurocode
