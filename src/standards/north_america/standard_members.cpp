// Members by NDS chapters 3 and 4: bending, shear, bearing, columns, boards.
#include "standard.hpp"

#include "underprop/standards/north_america/bearing.hpp"
#include "underprop/standards/north_america/bending.hpp"
#include "underprop/standards/north_america/column.hpp"
#include "underprop/standards/north_america/section.hpp"
#include "underprop/standards/north_america/shear.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::standards::north_america {

namespace {

void factor(Sheet& sheet, const char* symbol, const char* what, double value,
            const Citation& source) {
  if (value != 1.0) sheet.line(symbol, what, value, "", source);
}

}  // namespace

const Citation& NorthAmericaUs::wet_source(const Adjusted& a) const {
  return a.timbers ? tables_.wet_timbers_source : tables_.wet_dimension_source;
}

double NorthAmericaUs::bending_lines(Sheet& sheet, const Timber& t, const Adjusted& a) const {
  const SawnLumberFactors& f = a.factors;
  sheet.line("F_b", t.label, in_psi(t.bending), "psi", t.source);
  sheet.line("C_D", "load duration", f.C_D, "", tables_.C_D_source);
  sheet.line("C_M", "wet service", f.C_M.F_b, "", wet_source(a));
  factor(sheet, "C_F", "size", f.C_F.F_b, a.timbers ? nds("4.3.6.2") : tables_.C_F_source);
  factor(sheet, "C_i", "incised", f.C_i.F_b, tables_.C_i_source);
  factor(sheet, "C_r", "members share under the boards", f.C_r, tables_.C_r.source);
  return sheet.line("F_b*", "F_b C_D C_M C_F C_i C_r", in_psi(a.values.F_b_star), "psi",
                    nds("4.3.1, Table 4.3.1"));
}

double NorthAmericaUs::shear_lines(Sheet& sheet, const Timber& t, const Adjusted& a) const {
  const SawnLumberFactors& f = a.factors;
  sheet.line("F_v", t.label, in_psi(t.shear), "psi", t.source);
  sheet.line("C_D", "load duration", f.C_D, "", tables_.C_D_source);
  sheet.line("C_M", "wet service", f.C_M.F_v, "", wet_source(a));
  factor(sheet, "C_i", "incised", f.C_i.F_v, tables_.C_i_source);
  return sheet.line("F_v'", "F_v C_D C_M C_i", in_psi(a.values.F_v_prime), "psi",
                    nds("4.3.1, Table 4.3.1"));
}

double NorthAmericaUs::compression_lines(Sheet& sheet, const Timber& t, const Adjusted& a) const {
  const SawnLumberFactors& f = a.factors;
  sheet.line("F_c", t.label, in_psi(t.compression), "psi", t.source);
  sheet.line("C_D", "load duration", f.C_D, "", tables_.C_D_source);
  sheet.line("C_M", "wet service", f.C_M.F_c, "", wet_source(a));
  factor(sheet, "C_F", "size", f.C_F.F_c, tables_.C_F_source);
  factor(sheet, "C_i", "incised", f.C_i.F_c, tables_.C_i_source);
  return sheet.line("F_c*", "F_c C_D C_M C_F C_i", in_psi(a.values.F_c_star), "psi",
                    nds("3.7.1.5, Table 4.3.1"));
}

Check NorthAmericaUs::bending(const BendingDemand& d, const Combination& combination) const {
  need_strength(combination);
  need_timber(d.timber);
  need_positive(d.breadth, "bending: the breadth must be positive");
  need_positive(d.depth, "bending: the depth must be positive");
  need_not_negative(d.moment, "bending: the moment must not be negative");
  need_not_negative(d.unbraced, "bending: the unbraced length must not be negative");

  Sheet sheet("bending", "lb ft");
  given_section(sheet, d.breadth, d.depth);
  const double M = in_pound_feet(d.moment);
  sheet.given("M", M, "lb ft");
  const Adjusted a = adjust(d.timber, combination.duration_factor, d.sharing);
  const double F_b_star = bending_lines(sheet, d.timber, a);
  sheet.line("f_b", "6 M / (b d^2)", in_psi(bending_stress(d.moment, d.breadth, d.depth)), "psi",
             nds("3.3.2.1 (3.3-2)"));

  double C_L = 1.0;
  Citation clause = nds("3.3.1");
  if (d.depth <= d.breadth) {
    sheet.line("C_L", "1: not deeper than broad", 1.0, "", nds("3.3.3.1"));
  } else if (d.edge_held && d.ends_held) {
    sheet.line("C_L", "1: compression edge held all along, ends held", 1.0, "", nds("3.3.3.3"));
  } else if (d.unbraced.value() == 0.0) {
    sheet.line("C_L", "1: no unbraced length", 1.0, "", nds("3.3.3"));
  } else {
    sheet.given("l_u", in_inches(d.unbraced), "in");
    const Length l_e = effective_length(BeamLoad::any_other, d.unbraced, d.depth);
    sheet.line("l_e", "Table 3.3.3, any other load", in_inches(l_e), "in",
               nds("Table 3.3.3, footnote 1"));
    const BeamStability s =
        beam_stability(l_e, d.breadth, d.depth, a.values.F_b_star, a.values.E_min_prime);
    sheet.line("R_B", "sqrt(l_e d / b^2)", s.R_B, "", nds("3.3.3.6 (3.3-5)"));
    if (!(s.C_L > 0.0)) return sheet.nothing(M, "0: R_B > 50", nds("3.3.3.7"));
    sheet.line("E_min'", "E_min C_M C_i", in_psi(a.values.E_min_prime), "psi", nds("Table 4.3.1"));
    sheet.line("F_bE", "1.20 E_min' / R_B^2", in_psi(s.F_bE), "psi", nds("3.3.3.8"));
    C_L =
        sheet.line("C_L", "(1 + F_bE/F_b*)/1.9 - sqrt(((1 + F_bE/F_b*)/1.9)^2 - (F_bE/F_b*)/0.95)",
                   s.C_L, "", nds("3.3.3.8 (3.3-6)"));
    clause = nds("3.3.3.8 (3.3-6)");
  }
  const double C_fu = a.factors.C_fu;
  factor(sheet, "C_fu", "flat use", C_fu, tables_.C_fu_source);
  const double F_b =
      sheet.line("F_b'", "F_b* C_L C_fu", F_b_star * C_L * C_fu, "psi", nds("4.3.1, Table 4.3.1"));
  const Moment R = psi(F_b) * section(d.breadth, d.depth).S;
  return sheet.finish(M, sheet.line("M'", "F_b' b d^2 / 6", in_pound_feet(R), "lb ft", clause),
                      clause);
}

Check NorthAmericaUs::shear(const ShearDemand& d, const Combination& combination) const {
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

  Sheet sheet(notched ? "shear at a notch" : "shear", "lb");
  given_section(sheet, d.breadth, d.depth);
  const double V = in_pounds_force(d.shear);
  sheet.given("V", V, "lb");
  const Adjusted a = adjust(d.timber, combination.duration_factor, false);
  const Stress F_v = psi(shear_lines(sheet, d.timber, a));
  if (!notched) {
    sheet.line("f_v", "3 V / (2 b d)", in_psi(shear_stress(d.shear, d.breadth, d.depth)), "psi",
               nds("3.4.2 (3.4-2)"));
    const double R =
        sheet.line("V'", "2 F_v' b d / 3", in_pounds_force(2.0 / 3.0 * F_v * d.breadth * d.depth),
                   "lb", nds("3.4.2 (3.4-2)"));
    return sheet.finish(V, R, nds("3.4.2 (3.4-2)"));
  }
  const Length left = d.depth - *d.notch_depth;
  sheet.line("d_n", "d - depth of the notch", in_inches(left), "in", nds("3.4.3.2"));
  if (!notch_allowed(NotchPlace::end, true, *d.notch_depth, d.breadth, d.depth)) {
    return sheet.nothing(V, "0: a notch deeper than d/4 at the support is not allowed",
                         nds("4.4.3.2"));
  }
  const double R =
      sheet.line("V_r'", "(2/3) F_v' b d_n (d_n/d)^2",
                 in_pounds_force(notched_shear_tension_side(F_v, d.breadth, d.depth, left)), "lb",
                 nds("3.4.3.2(a) (3.4-3)"));
  return sheet.finish(V, R, nds("3.4.3.2(a) (3.4-3)"));
}

double NorthAmericaUs::bearing_resistance(Sheet& sheet, const Timber& t, Length width,
                                          Length length, Length end_distance) const {
  sheet.given("b", in_inches(width), "in");
  sheet.line("l_b", "contact along the grain", in_inches(length), "in", Citation{});
  const Adjusted a = adjust(t, 1.0, false);
  sheet.line("F_c_perp", t.label, in_psi(t.compression_across), "psi", t.source);
  sheet.line("C_M", "wet service; no C_D across the grain", a.factors.C_M.F_c_perp, "",
             wet_source(a));
  factor(sheet, "C_i", "incised", a.factors.C_i.F_c_perp, tables_.C_i_source);
  const bool away = end_distance >= inches(tables_.C_b_end_in.value);
  const double C_b = sheet.line(
      "C_b", away ? "(l_b + 0.375)/l_b, l_b < 6 in., else 1" : "1: less than 3 in. from the end",
      away ? bearing_area_factor(length, end_distance) : 1.0, "", nds("3.10.4 (3.10-2)"));
  const Stress F = C_b * a.values.F_c_perp_prime;
  sheet.line("F_c_perp'", "F_c_perp C_M C_i C_b", in_psi(F), "psi", nds("4.3.1, Table 4.3.1"));
  return sheet.line("R'", "F_c_perp' b l_b", in_pounds_force(F * width * length), "lb",
                    nds("3.10.2"));
}

Check NorthAmericaUs::bearing(const BearingDemand& d, const Combination& combination) const {
  need_strength(combination);
  need_timber(d.timber);
  need_not_negative(d.force, "bearing: the force must not be negative");
  need_not_negative(d.width, "bearing: the width must not be negative");
  need_not_negative(d.length, "bearing: the length must not be negative");
  need_not_negative(d.end_distance, "bearing: the end distance must not be negative");
  need(d.packers >= 0, "bearing: the number of packers must not be negative");

  Sheet sheet("bearing across the grain", "lb");
  const double F = in_pounds_force(d.force);
  sheet.given("R", F, "lb");
  if (d.width.value() == 0.0 || d.length.value() == 0.0) {
    return sheet.nothing(F, "0: no contact", nds("3.10.2"));
  }
  Length length = d.length;
  if (d.packers > static_cast<int>(tables_.packers_in_full.value)) {
    sheet.given("packers", d.packers, "");
    sheet.line("share", "of the contact length under so many packers", "", tables_.packed_share);
    length = tables_.packed_share.value * length;
  }
  const double R = bearing_resistance(sheet, d.timber, d.width, length, d.end_distance);
  return sheet.finish(F, R, nds("3.10.2"));
}

Check NorthAmericaUs::column(const ColumnDemand& d, const Combination& combination) const {
  need_strength(combination);
  need_timber(d.timber);
  need_positive(d.breadth, "column: the breadth must be positive");
  need_positive(d.depth, "column: the depth must be positive");
  need_not_negative(d.height, "column: the height must not be negative");
  need_not_negative(d.axial, "column: the axial force must not be negative");
  need_not_negative(d.moment, "column: the moment must not be negative");

  Sheet sheet("column", "lb");
  given_section(sheet, d.breadth, d.depth);
  sheet.given("l", in_inches(d.height), "in");
  const double P = in_pounds_force(d.axial), M = in_pound_feet(d.moment);
  sheet.given("P", P, "lb");
  if (M > 0.0) sheet.given("M", M, "lb ft");
  const auto none = [&](const char* why, const Citation& source) {
    if (P == 0.0) sheet.unit("lb ft");
    return sheet.nothing(P > 0.0 ? P : M, why, source);
  };
  if (!d.braced && !d.base_fixed) {
    return none("0: hinged at the foot and free to sway, no buckling load", nds("Appendix G"));
  }
  const Length thin = min(d.breadth, d.depth), thick = max(d.breadth, d.depth);
  const Area area = thin * thick;
  const Adjusted a = adjust(d.timber, combination.duration_factor, false);
  const Stress F_c_star = psi(compression_lines(sheet, d.timber, a));
  double C_P = 1.0;
  std::optional<Stress> F_cE;
  if (d.height.value() > 0.0) {
    const Cited& K = d.braced ? tables_.K_e_braced : tables_.K_e_cantilever;
    sheet.line("K_e", d.braced ? "top held" : "fixed foot, top free to sway", "", K);
    const Length l_e = column_effective_length(K.value, d.height);
    const ColumnStability s =
        column_stability(l_e, thin, F_c_star, a.values.E_min_prime, tables_.column_c.value);
    sheet.line("l_e/d", "K_e l / smaller side", s.slenderness, "", nds("3.7.1.3"));
    if (!(s.C_P > 0.0)) return none("0: l_e/d > 50", nds("3.7.1.4"));
    sheet.line("E_min'", "E_min C_M C_i", in_psi(a.values.E_min_prime), "psi", nds("Table 4.3.1"));
    sheet.line("F_cE", "0.822 E_min' / (l_e/d)^2", in_psi(s.F_cE), "psi", nds("3.7.1.5"));
    C_P = s.C_P;
    F_cE = s.F_cE;
  }
  sheet.line("C_P",
             "(1 + F_cE/F_c*)/(2 c) - sqrt(((1 + F_cE/F_c*)/(2 c))^2 - (F_cE/F_c*)/c), c = 0.8",
             C_P, "", nds("3.7.1.5 (3.7-1)"));
  const Stress F_c =
      psi(sheet.line("F_c'", "F_c* C_P", in_psi(C_P * F_c_star), "psi", nds("Table 4.3.1")));
  const Stress f_c = d.axial / area;
  sheet.line("f_c", "P / (b d)", in_psi(f_c), "psi", nds("3.6.3"));
  if (d.moment.value() == 0.0) {
    const double R = sheet.line("P'", "F_c' b d", in_pounds_force(F_c * area), "lb", nds("3.6.3"));
    return sheet.finish(P, R, nds("3.7.1.5 (3.7-1)"));
  }
  if (F_cE && f_c >= *F_cE) {
    return none("0: f_c reaches F_cE, the bending grows without limit", nds("3.9.2"));
  }
  const Stress F_b = psi(bending_lines(sheet, d.timber, a));
  const Stress f_b = bending_stress(d.moment, thick, thin);
  sheet.line("f_b", "6 M / (wide side x narrow side^2)", in_psi(f_b), "psi", nds("3.3.2.1"));
  const double euler = F_cE ? f_c / *F_cE : 0.0;
  const double used =
      (f_c / F_c) * (f_c / F_c) + (f_b / F_b) * (1.0 + 0.234 * euler) / (1.0 - euler);
  sheet.line("sum of ratios",
             "(f_c/F_c')^2 + f_b (1 + 0.234 f_c/F_cE) / (F_b* (1 - f_c/F_cE)), the moment from an "
             "offset of the load",
             used, "", nds("15.4.1 (15.4-1), 3.9.2 (3.9-3)"));
  sheet.unit("");
  return sheet.finish(used, 1.0, nds("15.4.1 (15.4-1), 3.9.2 (3.9-3)"));
}

Check NorthAmericaUs::held_upright(Length breadth, Length depth, bool ends_held,
                                   bool edge_held) const {
  need_positive(breadth, "held upright: the breadth must be positive");
  need_positive(depth, "held upright: the depth must be positive");
  Sheet sheet("held upright", "");
  given_section(sheet, breadth, depth);
  // Between two nominal sizes the narrower breadth and the larger depth; beyond the tables the actual.
  double b = in_inches(breadth);
  for (const std::vector<DressedSize>* sizes : {&tables_.thicknesses, &tables_.widths}) {
    for (const DressedSize& size : *sizes) {
      if (size.dressed <= breadth + mm(1.0)) b = std::max(b, size.nominal_in);
    }
  }
  const double d = nominal_size(tables_.widths, depth).value_or(std::ceil(in_inches(depth)));
  const double ratio =
      sheet.line("d/b", "nominal depth to nominal breadth", d / b, "", nds("4.4.1.2"));
  Citation source = nds(ends_held ? "4.4.1.2(b)" : "4.4.1.2(a)");
  double limit = greatest_depth_to_breadth(ends_held ? LateralSupport::ends : LateralSupport::none);
  if (ends_held && edge_held) {
    limit = tables_.upright_both.value;
    source = tables_.upright_both.source;
  }
  sheet.line("limit",
             !ends_held  ? "largest d/b: ends not held"
             : edge_held ? "largest d/b: ends and compression edge held"
                         : "largest d/b: ends held",
             limit, "", source);
  return sheet.finish(ratio, limit, source);
}

Check NorthAmericaUs::board_point_load(const Timber& timber, Length width, Length thickness,
                                       Length span, bool continuous, Force load) const {
  need_timber(timber);
  need_positive(width, "board: the width must be positive");
  need_positive(thickness, "board: the thickness must be positive");
  need_positive(span, "board: the span must be positive");
  need_not_negative(load, "board: the load must not be negative");

  Sheet sheet("board under a concentrated load", "lb ft");
  given_section(sheet, width, thickness);
  sheet.given("l", in_inches(span), "in");
  const double P = in_pounds_force(load);
  sheet.line("P", "beside it no other load", P, "lb", tables_.loads.concentrated_source);
  // Load at mid-span; two equal spans, one loaded: 13/64 P l under the load.
  const double M = sheet.line(
      "M", continuous ? "13/64 P l, two spans" : "P l / 4, one span",
      P * in_feet(span) * (continuous ? 13.0 / 64.0 : 0.25), "lb ft",
      Citation{"beam-formulas", continuous ? "two equal spans, concentrated load at centre "
                                             "of one span"
                                           : "simple beam, concentrated load at centre"});
  const Adjusted a = adjust(timber, tables_.board_C_D, false);
  const double F_b_star = bending_lines(sheet, timber, a);
  factor(sheet, "C_fu", "flat use", a.factors.C_fu, tables_.C_fu_source);
  const Stress F_b =
      psi(sheet.line("F_b'", "F_b* C_fu", F_b_star * a.factors.C_fu, "psi", nds("Table 4.3.1")));
  const double R_M =
      sheet.line("M'", "F_b' b d^2 / 6", in_pound_feet(F_b * section(width, thickness).S), "lb ft",
                 nds("3.3.1"));
  const Stress F_v = psi(shear_lines(sheet, timber, a));
  const double R_V =
      sheet.line("V'", "2 F_v' b d / 3, against V = P beside a support",
                 in_pounds_force(2.0 / 3.0 * F_v * width * thickness), "lb", nds("3.4.2 (3.4-2)"));
  if (P * R_M > M * R_V) {
    sheet.unit("lb");
    return sheet.finish(P, R_V, nds("3.4.2 (3.4-2)"));
  }
  return sheet.finish(M, R_M, nds("3.3.1"));
}

}  // namespace underprop::standards::north_america
