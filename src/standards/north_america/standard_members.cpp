// Members by NDS chapters 3 and 4: bending, shear, bearing, columns, boards.
#include "standard.hpp"

#include "underprop/standards/north_america/bearing.hpp"
#include "underprop/standards/north_america/bending.hpp"
#include "underprop/standards/north_america/column.hpp"
#include "underprop/standards/north_america/section.hpp"
#include "underprop/standards/north_america/shear.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

namespace underprop::standards::north_america {

namespace {

constexpr Shown pounds{"lb", 1.0}, pound_feet{"lb ft", 12.0}, plain{"", 1.0};

}  // namespace

const Citation& NorthAmericaUs::wet_source(const Adjusted& a) const {
  return a.timbers ? tables_.wet_timbers_source : tables_.wet_dimension_source;
}

/// The factors that are not 1 as lines of their own; returns the product's formula.
std::string NorthAmericaUs::factor_lines(Sheet& sheet, const std::string& reference,
                                         const std::vector<Factor>& factors) const {
  std::string formula = reference;
  for (const Factor& f : factors) {
    if (f.value == 1.0 && !f.always) continue;
    sheet.taken(f.symbol, f.what, f.value, "", f.source);
    formula += std::string(" ") + f.symbol;
  }
  return formula;
}

double NorthAmericaUs::bending_lines(Sheet& sheet, const Timber& t, const Adjusted& a) const {
  const SawnLumberFactors& f = a.factors;
  sheet.taken("F_b", t.label, in_psi(t.bending), "psi", t.source);
  const std::string formula = factor_lines(
      sheet, "F_b",
      {{"C_D", "load duration", f.C_D, tables_.C_D_source, true},
       {"C_M", "wet service", f.C_M.F_b, wet_source(a), true},
       {"C_F", a.below_tables ? "1: thinner than the 2 in. the tables begin with" : "size",
        f.C_F.F_b, a.timbers ? nds("4.3.6.2") : tables_.C_F_source, a.below_tables},
       {"C_i", "incised", f.C_i.F_b, tables_.C_i_source, false},
       {"C_r", "members share under the boards", f.C_r, tables_.C_r.source, false}});
  return sheet.line("F_b*", formula, in_psi(a.values.F_b_star), "psi", nds("4.3.1, Table 4.3.1"));
}

double NorthAmericaUs::shear_lines(Sheet& sheet, const Timber& t, const Adjusted& a) const {
  const SawnLumberFactors& f = a.factors;
  sheet.taken("F_v", t.label, in_psi(t.shear), "psi", t.source);
  const std::string formula =
      factor_lines(sheet, "F_v",
                   {{"C_D", "load duration", f.C_D, tables_.C_D_source, true},
                    {"C_M", "wet service", f.C_M.F_v, wet_source(a), true},
                    {"C_i", "incised", f.C_i.F_v, tables_.C_i_source, false}});
  return sheet.line("F_v'", formula, in_psi(a.values.F_v_prime), "psi", nds("4.3.1, Table 4.3.1"));
}

double NorthAmericaUs::compression_lines(Sheet& sheet, const Timber& t, const Adjusted& a) const {
  const SawnLumberFactors& f = a.factors;
  sheet.taken("F_c", t.label, in_psi(t.compression), "psi", t.source);
  const std::string formula =
      factor_lines(sheet, "F_c",
                   {{"C_D", "load duration", f.C_D, tables_.C_D_source, true},
                    {"C_M", "wet service", f.C_M.F_c, wet_source(a), true},
                    {"C_F", "size", f.C_F.F_c, tables_.C_F_source, false},
                    {"C_i", "incised", f.C_i.F_c, tables_.C_i_source, false}});
  return sheet.line("F_c*", formula, in_psi(a.values.F_c_star), "psi", nds("3.7.1.5, Table 4.3.1"));
}

double NorthAmericaUs::stability_modulus_lines(Sheet& sheet, const Timber& t,
                                               const Adjusted& a) const {
  const SawnLumberFactors& f = a.factors;
  sheet.taken("E_min", t.label, in_psi(t.E_low), "psi", t.source);
  const std::string formula =
      factor_lines(sheet, "E_min",
                   {{"C_ME", "wet service, on the modulus", f.C_M.E_min, wet_source(a), false},
                    {"C_iE", "incised, on the modulus", f.C_i.E_min, tables_.C_i_source, false}});
  return sheet.line("E_min'", formula, in_psi(a.values.E_min_prime), "psi", nds("Table 4.3.1"));
}

Check NorthAmericaUs::bending(const BendingDemand& d, const Combination& combination) const {
  need_strength(combination, most_C_D);
  need_timber(d.timber);
  need_valid(d);

  Sheet sheet(CheckKind::bending, pound_feet);
  given_section(sheet, d.breadth, d.depth);
  sheet.given("M", in_pound_inches(d.moment), "lb in");
  const Adjusted a = adjust(d.timber, combination.duration_factor, d.sharing);
  const double F_b_star = bending_lines(sheet, d.timber, a);
  sheet.line("f_b", "6 M / (b d^2)", in_psi(bending_stress(d.moment, d.breadth, d.depth)), "psi",
             nds("3.3.2.1 (3.3-2)"));

  double C_L = 1.0;
  Citation clause = nds("3.3.1");
  if (d.depth <= d.breadth) {
    sheet.taken("C_L", "1: not deeper than broad", 1.0, "", nds("3.3.3.1"));
  } else if (d.edge_held && d.ends_held) {
    sheet.taken("C_L", "1: compression edge held all along, ends held", 1.0, "", nds("3.3.3.3"));
  } else if (d.unbraced.value() == 0.0) {
    sheet.taken("C_L", "1: no unbraced length", 1.0, "", nds("3.3.3"));
  } else {
    sheet.given("l_u", in_inches(d.unbraced), "in");
    const Length l_e = effective_length(BeamLoad::any_other, d.unbraced, d.depth);
    const double slim = d.unbraced / d.depth;
    sheet.line("l_e",
               slim < 7.0     ? "2.06 l_u, l_u/d below 7"
               : slim <= 14.3 ? "1.63 l_u + 3 d, l_u/d from 7 to 14.3"
                              : "1.84 l_u, l_u/d above 14.3",
               in_inches(l_e), "in", nds("Table 3.3.3, footnote 1"));
    const BeamStability s =
        beam_stability(l_e, d.breadth, d.depth, a.values.F_b_star, a.values.E_min_prime);
    sheet.line("R_B", "sqrt(l_e d / b^2)", s.R_B, "", nds("3.3.3.6 (3.3-5)"));
    if (!(s.C_L > 0.0)) return sheet.nothing("M", "0: R_B > 50", nds("3.3.3.7"));
    stability_modulus_lines(sheet, d.timber, a);
    sheet.line("F_bE", "1.20 E_min' / R_B^2", in_psi(s.F_bE), "psi", nds("3.3.3.8"));
    C_L = sheet.line("C_L",
                     "(1 + F_bE/F_b*) / 1.9 - sqrt(((1 + F_bE/F_b*) / 1.9)^2 - F_bE/F_b*/0.95)",
                     s.C_L, "", nds("3.3.3.8 (3.3-6)"));
    clause = nds("3.3.3.8 (3.3-6)");
  }
  const double C_fu = a.factors.C_fu;
  const std::string formula =
      factor_lines(sheet, "F_b* C_L", {{"C_fu", "flat use", C_fu, tables_.C_fu_source, false}});
  const double F_b =
      sheet.line("F_b'", formula, F_b_star * C_L * C_fu, "psi", nds("4.3.1, Table 4.3.1"));
  const Moment R = psi(F_b) * section(d.breadth, d.depth).S;
  sheet.line("M'", "F_b' b d^2 / 6", in_pound_inches(R), "lb in", clause);
  return sheet.finish("M", "M'", clause);
}

Check NorthAmericaUs::shear(const ShearDemand& d, const Combination& combination) const {
  need_strength(combination, most_C_D);
  need_timber(d.timber);
  need_valid(d);
  const bool notched = is_notched(d);

  Sheet sheet(notched ? CheckKind::shear_at_notch : CheckKind::shear, pounds);
  given_section(sheet, d.breadth, d.depth);
  sheet.given("V", in_pounds_force(d.shear), "lb");
  const Adjusted a = adjust(d.timber, combination.duration_factor, false);
  const Stress F_v = psi(shear_lines(sheet, d.timber, a));
  if (!notched) {
    sheet.line("f_v", "3 V / (2 b d)", in_psi(shear_stress(d.shear, d.breadth, d.depth)), "psi",
               nds("3.4.2 (3.4-2)"));
    sheet.line("V'", "2 F_v' b d / 3", in_pounds_force(2.0 / 3.0 * F_v * d.breadth * d.depth), "lb",
               nds("3.4.2 (3.4-2)"));
    return sheet.finish("V", "V'", nds("3.4.2 (3.4-2)"));
  }
  const Length left = d.depth - *d.notch_depth;
  sheet.given("t_n", in_inches(*d.notch_depth), "in");
  sheet.line("d_n", "d - t_n", in_inches(left), "in", nds("3.4.3.2"));
  if (!notch_allowed(NotchPlace::end, true, *d.notch_depth, d.breadth, d.depth)) {
    return sheet.nothing("V", "0: a notch deeper than d/4 at the support is not allowed",
                         nds("4.4.3.2"));
  }
  sheet.line("V_r'", "2/3 F_v' b d_n (d_n/d)^2",
             in_pounds_force(notched_shear_tension_side(F_v, d.breadth, d.depth, left)), "lb",
             nds("3.4.3.2(a) (3.4-3)"));
  return sheet.finish("V", "V_r'", nds("3.4.3.2(a) (3.4-3)"));
}

double NorthAmericaUs::bearing_resistance(Sheet& sheet, const BearingDemand& d,
                                          Length length) const {
  const Timber& t = d.timber;
  sheet.given("b", in_inches(d.width), "in");
  sheet.given("a", in_inches(d.end_distance), "in");
  const Adjusted a = adjust(t, 1.0, false);
  sheet.taken("F_c_perp", t.label, in_psi(t.compression_across), "psi", t.source);
  // NDS 3.10.4: only short contacts away from the member's end are helped by the wood beside them.
  const bool away = d.end_distance >= inches(tables_.C_b_end_in.value);
  const double C_b = away ? bearing_area_factor(length, d.end_distance) : 1.0;
  const Citation clause = nds("3.10.4 (3.10-2)");
  sheet.line_or_one(
      "C_b", "(l_b + 0.375) / l_b",
      away ? "1: the contact is 6 in. long or more" : "1: less than 3 in. from the member's end",
      C_b, clause);
  const std::string formula = factor_lines(
      sheet, "F_c_perp",
      {{"C_M", "wet service; no C_D across the grain", a.factors.C_M.F_c_perp, wet_source(a), true},
       {"C_i", "incised", a.factors.C_i.F_c_perp, tables_.C_i_source, false}});
  const Stress F = C_b * a.values.F_c_perp_prime;
  sheet.line("F_c_perp'", formula + " C_b", in_psi(F), "psi", nds("4.3.1, Table 4.3.1"));
  return sheet.line("R'", "F_c_perp' b l_b", in_pounds_force(F * d.width * length), "lb",
                    nds("3.10.2"));
}

Check NorthAmericaUs::bearing(const BearingDemand& d, const Combination& combination) const {
  need_strength(combination, most_C_D);
  need_timber(d.timber);
  need_valid(d);

  Sheet sheet(CheckKind::bearing, pounds);
  sheet.given("R", in_pounds_force(d.force), "lb");
  if (d.width.value() == 0.0 || d.length.value() == 0.0) {
    return sheet.nothing("R", "0: no contact", nds("3.10.2"));
  }
  Length length = d.length;
  if (d.packers > static_cast<int>(tables_.packers_in_full.value)) {
    sheet.given("packers", d.packers, "");
    sheet.given("c", in_inches(d.length), "in");
    sheet.taken("share", "of the contact under more packers than count in full", "",
                tables_.packed_share);
    length = tables_.packed_share.value * length;
    sheet.line("l_b", "share c", in_inches(length), "in", tables_.packed_share.source);
  } else {
    sheet.given("l_b", in_inches(length), "in");
  }
  bearing_resistance(sheet, d, length);
  return sheet.finish("R", "R'", nds("3.10.2"));
}

Check NorthAmericaUs::column(const ColumnDemand& d, const Combination& combination) const {
  need_strength(combination, most_C_D);
  need_timber(d.timber);
  need_valid(d);

  Sheet sheet(CheckKind::column, pounds);
  given_section(sheet, d.breadth, d.depth);
  sheet.given("l", in_inches(d.height), "in");
  sheet.given("P", in_pounds_force(d.axial), "lb");
  const bool bent = d.moment.value() > 0.0;
  if (bent) sheet.given("M", in_pound_inches(d.moment), "lb in");
  const auto none = [&](const char* why, const Citation& source) {
    const bool moment_alone = bent && d.axial.value() == 0.0;
    if (moment_alone) sheet.shown(pound_feet);
    return sheet.nothing(moment_alone ? "M" : "P", why, source);
  };
  if (!d.braced && !d.base_fixed) {
    return none("0: hinged at the foot and free to sway, no buckling load", nds("Appendix G"));
  }
  const Length thin = min(d.breadth, d.depth), thick = max(d.breadth, d.depth);
  const Area area = thin * thick;
  sheet.line("s", "min(b; d), the smaller side", in_inches(thin), "in", nds("3.7.1.3"));
  const Adjusted a = adjust(d.timber, combination.duration_factor, false);
  const Stress F_c_star = psi(compression_lines(sheet, d.timber, a));
  double C_P = 1.0;
  std::optional<Stress> F_cE;
  if (d.height.value() > 0.0) {
    const Cited& K = d.braced ? tables_.K_e_braced : tables_.K_e_cantilever;
    sheet.taken("K_e", d.braced ? "top held" : "fixed foot, top free to sway", "", K);
    const Length l_e = column_effective_length(K.value, d.height);
    const ColumnStability s =
        column_stability(l_e, thin, F_c_star, a.values.E_min_prime, tables_.column_c.value);
    sheet.line("slenderness", "K_e l / s", s.slenderness, "", nds("3.7.1.3"));
    if (!(s.C_P > 0.0)) return none("0: l_e/d > 50", nds("3.7.1.4"));
    stability_modulus_lines(sheet, d.timber, a);
    sheet.line("F_cE", "0.822 E_min' / slenderness^2", in_psi(s.F_cE), "psi", nds("3.7.1.5"));
    sheet.taken("c", "sawn lumber", "", tables_.column_c);
    C_P = sheet.line("C_P",
                     "(1 + F_cE/F_c*) / (2 c) - sqrt(((1 + F_cE/F_c*) / (2 c))^2 - F_cE/F_c*/c)",
                     s.C_P, "", nds("3.7.1.5 (3.7-1)"));
    F_cE = s.F_cE;
  } else {
    sheet.taken("C_P", "1: no height", 1.0, "", nds("3.7.1.1"));
  }
  const Stress F_c =
      psi(sheet.line("F_c'", "F_c* C_P", in_psi(C_P * F_c_star), "psi", nds("Table 4.3.1")));
  const Stress f_c = d.axial / area;
  sheet.line("f_c", "P / (b d)", in_psi(f_c), "psi", nds("3.6.3"));
  if (!bent) {
    sheet.line("P'", "F_c' b d", in_pounds_force(F_c * area), "lb", nds("3.6.3"));
    return sheet.finish("P", "P'", nds("3.7.1.5 (3.7-1)"));
  }
  if (F_cE && f_c >= *F_cE) {
    return none("0: f_c reaches F_cE, the bending grows without limit", nds("3.9.2"));
  }
  const Stress F_b = psi(bending_lines(sheet, d.timber, a));
  const Stress f_b = bending_stress(d.moment, thick, thin);
  sheet.line("f_b", "6 M / (max(b; d) s^2)", in_psi(f_b), "psi", nds("3.3.2.1"));
  const double euler = F_cE ? f_c / *F_cE : 0.0;
  const double together =
      (f_c / F_c) * (f_c / F_c) + (f_b / F_b) * (1.0 + 0.234 * euler) / (1.0 - euler);
  const Citation clause = nds("15.4.1 (15.4-1), 3.9.2 (3.9-3)");
  sheet.line("sum",
             F_cE ? "(f_c/F_c')^2 + f_b (1 + 0.234 f_c/F_cE) / (F_b* (1 - f_c/F_cE)), the moment "
                    "from an offset of the load"
                  : "(f_c/F_c')^2 + f_b/F_b*",
             together, "", clause);
  // (3.9-3) squares the axial ratio: a little bending would make a straight post better. The check of
  // 3.6.3 stands beside it as it does without bending.
  const Citation axial_clause = nds("3.6.3, 3.7.1.5 (3.7-1)");
  const double alone = sheet.line("alone", "f_c / F_c'", f_c / F_c, "", axial_clause);
  const Citation& governing = alone > together ? axial_clause : clause;
  sheet.line("used", "max(sum; alone)", std::max(alone, together), "", governing);
  sheet.taken("limit", "of both", 1.0, "", governing);
  sheet.shown(plain);
  return sheet.finish("used", "limit", governing);
}

Check NorthAmericaUs::held_upright(Length breadth, Length depth, bool ends_held,
                                   bool edge_held) const {
  need_positive(breadth, "held upright: the breadth must be positive");
  need_positive(depth, "held upright: the depth must be positive");
  Sheet sheet(CheckKind::held_upright, plain);
  // Between two nominal sizes the narrower breadth and the larger depth; beyond the tables the actual.
  double b = in_inches(breadth);
  for (const std::vector<DressedSize>* sizes : {&tables_.thicknesses, &tables_.widths}) {
    for (const DressedSize& size : *sizes) {
      if (size.dressed <= breadth + mm(1.0)) b = std::max(b, size.nominal_in);
    }
  }
  const double d = nominal_size(tables_.widths, depth).value_or(std::ceil(in_inches(depth)));
  sheet.taken("b_nom", "nominal breadth", b, "in", nds("4.4.1.2"));
  sheet.taken("d_nom", "nominal depth", d, "in", nds("4.4.1.2"));
  sheet.line("ratio", "d_nom / b_nom", d / b, "", nds("4.4.1.2"));
  Citation source = nds(ends_held ? "4.4.1.2(b)" : "4.4.1.2(a)");
  double limit = greatest_depth_to_breadth(ends_held ? LateralSupport::ends : LateralSupport::none);
  if (ends_held && edge_held) {
    limit = tables_.upright_both.value;
    source = tables_.upright_both.source;
  }
  sheet.taken("limit",
              !ends_held  ? "largest d/b: ends not held"
              : edge_held ? "largest d/b: ends and compression edge held"
                          : "largest d/b: ends held",
              limit, "", source);
  return sheet.finish("ratio", "limit", source);
}

Check NorthAmericaUs::board_point_load(const Timber& timber, Length width, Length thickness,
                                       Length span, bool continuous, Force load) const {
  need_timber(timber);
  need_valid_board(width, thickness, span, load);

  if (is_below_tables(width, thickness) &&
      thickness + mm(1.0) >= inches(tables_.board_least_in.value)) {
    // No strength is tabulated for 5/4 boards; the code gives the joist spacing they may have.
    Sheet sheet(CheckKind::board_point_load, {"in", 1.0});
    sheet.given("t", in_inches(thickness), "in");
    sheet.taken("s", "spacing of the joists", in_inches(span), "in", Citation{});
    sheet.taken("s_max", "most for 5/4 boards across the joists", "in", tables_.board_span_in);
    return sheet.finish("s", "s_max", tables_.board_span_in.source);
  }
  Sheet sheet(CheckKind::board_point_load, pound_feet);
  given_section(sheet, width, thickness);
  sheet.given("l", in_inches(span), "in");
  const double P = sheet.taken("P", "beside it no other load", in_pounds_force(load), "lb",
                               tables_.loads.concentrated_source);
  // Load at mid-span; two equal spans, one loaded: 13/64 P l under the load.
  const double M = sheet.line(
      "M", continuous ? "13/64 P l, two spans" : "P l / 4, one span",
      P * in_inches(span) * (continuous ? 13.0 / 64.0 : 0.25), "lb in",
      Citation{"beam-formulas", continuous ? "two equal spans, concentrated load at centre "
                                             "of one span"
                                           : "simple beam, concentrated load at centre"});
  const Adjusted a = adjust(timber, tables_.board_C_D, false);
  const double F_b_star = bending_lines(sheet, timber, a);
  const std::string formula = factor_lines(
      sheet, "F_b*", {{"C_fu", "flat use", a.factors.C_fu, tables_.C_fu_source, false}});
  const Stress F_b =
      psi(sheet.line("F_b'", formula, F_b_star * a.factors.C_fu, "psi", nds("Table 4.3.1")));
  const double R_M =
      sheet.line("M'", "F_b' b d^2 / 6", in_pound_inches(F_b * section(width, thickness).S),
                 "lb in", nds("3.3.1"));
  const Stress F_v = psi(shear_lines(sheet, timber, a));
  const double R_V =
      sheet.line("V'", "2 F_v' b d / 3, against V = P beside a support",
                 in_pounds_force(2.0 / 3.0 * F_v * width * thickness), "lb", nds("3.4.2 (3.4-2)"));
  if (P * R_M > M * R_V) {
    sheet.shown(pounds);
    return sheet.finish("P", "V'", nds("3.4.2 (3.4-2)"));
  }
  return sheet.finish("M", "M'", nds("3.3.1"));
}

}  // namespace underprop::standards::north_america
