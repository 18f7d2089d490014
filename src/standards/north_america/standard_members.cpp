// Members by NDS chapters 3 and 4: bending, shear, bearing, columns, boards.
#include "standard.hpp"
#include "standards/shared.hpp"

#include "standards/north_america/bearing.hpp"
#include "standards/north_america/bending.hpp"
#include "standards/north_america/column.hpp"
#include "standards/north_america/shear.hpp"

#include <algorithm>
#include <cmath>
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
  sheet.taken("F_b", t.label, t.bending, t.source);
  const std::string formula = factor_lines(
      sheet, "F_b",
      {{"C_D", "load duration", f.C_D, tables_.C_D_source, true},
       {"C_M", "wet service", f.C_M.F_b, wet_source(a), true},
       {"C_F", a.below_tables ? "1: thinner than the 2 in. the tables begin with" : "size",
        f.C_F.F_b, a.timbers ? nds("4.3.6.2") : tables_.C_F_source, a.below_tables},
       {"C_i", "incised", f.C_i.F_b, tables_.C_i_source, false},
       {"C_r", "members share under the boards", f.C_r, tables_.C_r.source, false}});
  return sheet.line("F_b*", formula, "psi", nds("4.3.1, Table 4.3.1"));
}

double NorthAmericaUs::shear_lines(Sheet& sheet, const Timber& t, const Adjusted& a) const {
  const SawnLumberFactors& f = a.factors;
  sheet.taken("F_v", t.label, t.shear, t.source);
  const std::string formula =
      factor_lines(sheet, "F_v",
                   {{"C_D", "load duration", f.C_D, tables_.C_D_source, true},
                    {"C_M", "wet service", f.C_M.F_v, wet_source(a), true},
                    {"C_i", "incised", f.C_i.F_v, tables_.C_i_source, false}});
  return sheet.line("F_v'", formula, "psi", nds("4.3.1, Table 4.3.1"));
}

double NorthAmericaUs::compression_lines(Sheet& sheet, const Timber& t, const Adjusted& a) const {
  const SawnLumberFactors& f = a.factors;
  sheet.taken("F_c", t.label, t.compression, t.source);
  const std::string formula =
      factor_lines(sheet, "F_c",
                   {{"C_D", "load duration", f.C_D, tables_.C_D_source, true},
                    {"C_M", "wet service", f.C_M.F_c, wet_source(a), true},
                    {"C_F", "size", f.C_F.F_c, tables_.C_F_source, false},
                    {"C_i", "incised", f.C_i.F_c, tables_.C_i_source, false}});
  return sheet.line("F_c*", formula, "psi", nds("3.7.1.5, Table 4.3.1"));
}

void NorthAmericaUs::stability_modulus_lines(Sheet& sheet, const Timber& t,
                                             const Adjusted& a) const {
  const SawnLumberFactors& f = a.factors;
  sheet.taken("E_min", t.label, t.E_low, t.source);
  const std::string formula =
      factor_lines(sheet, "E_min",
                   {{"C_ME", "wet service, on the modulus", f.C_M.E_min, wet_source(a), false},
                    {"C_iE", "incised, on the modulus", f.C_i.E_min, tables_.C_i_source, false}});
  sheet.line("E_min'", formula, "psi", nds("Table 4.3.1"));
}

Check NorthAmericaUs::bending(const BendingDemand& d, const Combination& combination) const {
  need_strength(combination, most_C_D);
  need_timber(d.timber);
  need_valid(d);

  Sheet sheet(CheckKind::bending, pound_feet, Units::lb_in);
  given_section(sheet, d.breadth, d.depth);
  sheet.given("M", d.moment);
  if (!d.refused.empty()) return sheet.nothing("M", "0: " + d.refused, nds("4.4.3"));
  const Adjusted a = adjust(d.timber, combination.duration_factor, d.sharing);
  bending_lines(sheet, d.timber, a);
  sheet.line("f_b", "6 M / (b d^2)", "psi", nds("3.3.2.1 (3.3-2)"));

  Citation clause = nds("3.3.1");
  if (d.depth <= d.breadth) {
    sheet.taken("C_L", "1: not deeper than broad", 1.0, "", nds("3.3.3.1"));
  } else if (d.edge_held && d.ends_held) {
    sheet.taken("C_L", "1: compression edge held all along, ends held", 1.0, "", nds("3.3.3.3"));
  } else if (d.unbraced.value() == 0.0) {
    sheet.taken("C_L", "1: no unbraced length", 1.0, "", nds("3.3.3"));
  } else {
    sheet.given("l_u", d.unbraced);
    const double slim = d.unbraced / d.depth;
    sheet.line("l_e",
               slim < 7.0     ? "2.06 l_u, l_u/d below 7"
               : slim <= 14.3 ? "1.63 l_u + 3 d, l_u/d from 7 to 14.3"
                              : "1.84 l_u, l_u/d above 14.3",
               "in", nds("Table 3.3.3, footnote 1"));
    if (sheet.line("R_B", "sqrt(l_e d / b^2)", "", nds("3.3.3.6 (3.3-5)")) >
        greatest_slenderness_bending) {
      return sheet.nothing("M", "0: R_B > 50", nds("3.3.3.7"));
    }
    stability_modulus_lines(sheet, d.timber, a);
    sheet.line("F_bE", "1.20 E_min' / R_B^2", "psi", nds("3.3.3.8"));
    clause = nds("3.3.3.8 (3.3-6)");
    sheet.line("C_L", "(1 + F_bE/F_b*) / 1.9 - sqrt(((1 + F_bE/F_b*) / 1.9)^2 - F_bE/F_b*/0.95)",
               "", clause);
  }
  const std::string formula = factor_lines(
      sheet, "F_b* C_L", {{"C_fu", "flat use", a.factors.C_fu, tables_.C_fu_source, false}});
  sheet.line("F_b'", formula, "psi", nds("4.3.1, Table 4.3.1"));
  sheet.line("M'", "F_b' b d^2 / 6", "lb in", clause);
  return sheet.finish("M", "M'", clause);
}

Check NorthAmericaUs::shear(const ShearDemand& d, const Combination& combination) const {
  need_strength(combination, most_C_D);
  need_timber(d.timber);
  need_valid(d);
  const bool notched = is_notched(d);

  Sheet sheet(notched ? CheckKind::shear_at_notch : CheckKind::shear, pounds, Units::lb_in);
  given_section(sheet, d.breadth, d.depth);
  if (d.without_near_loads)
    sheet.taken("V",
                "loads on top within d of the face of a support underneath by x/d (3.4.3.1(a))",
                d.shear, nds("3.4.3.1(a)"));
  else
    sheet.given("V", d.shear);
  if (!d.refused.empty()) return sheet.nothing("V", "0: " + d.refused, nds("4.4.3"));
  shear_lines(sheet, d.timber, adjust(d.timber, combination.duration_factor, false));
  if (!notched && d.lost) {
    sheet.given("t", *d.lost);
    sheet.line("d_n", "d - t", "in", nds("3.2.3, 3.1.2"));
    sheet.line("f_v", "3 V / (2 b d_n)", "psi", nds("3.4.2 (3.4-2)"));
    sheet.line("V'", "2 F_v' b d_n / 3", "lb", nds("3.4.2 (3.4-2)"));
    return sheet.finish("V", "V'", nds("3.4.2 (3.4-2), 3.1.2"));
  }
  if (!notched) {
    sheet.line("f_v", "3 V / (2 b d)", "psi", nds("3.4.2 (3.4-2)"));
    sheet.line("V'", "2 F_v' b d / 3", "lb", nds("3.4.2 (3.4-2)"));
    return sheet.finish("V", "V'", nds("3.4.2 (3.4-2)"));
  }
  sheet.given("t_n", *d.notch_depth);
  sheet.line("d_n", "d - t_n", "in", nds("3.4.3.2"));
  if (!notch_allowed(NotchPlace::end, true, *d.notch_depth, d.breadth, d.depth)) {
    return sheet.nothing("V", "0: a notch deeper than d/4 at the support is not allowed",
                         nds("4.4.3.2"));
  }
  sheet.line("V_r'", "2/3 F_v' b d_n (d_n/d)^2", "lb", nds("3.4.3.2(a) (3.4-3)"));
  return sheet.finish("V", "V_r'", nds("3.4.3.2(a) (3.4-3)"));
}

/// Resistance across the grain, line R'; the sheet has the contact's length as l_b.
double NorthAmericaUs::bearing_resistance(Sheet& sheet, const BearingDemand& d,
                                          Length length) const {
  const Timber& t = d.timber;
  sheet.given("b", d.width);
  sheet.given("a", d.end_distance);
  const Adjusted a = adjust(t, 1.0, false);
  sheet.taken("F_c_perp", t.label, t.compression_across, t.source);
  // NDS 3.10.4: only short contacts away from the member's end are helped by the wood beside them.
  const bool away = d.end_distance >= inches(tables_.C_b_end_in.value);
  sheet.line_or_one(
      !away || bearing_area_factor(length, d.end_distance) == 1.0, "C_b", "(l_b + 0.375) / l_b",
      away ? "1: the contact is 6 in. long or more" : "1: less than 3 in. from the member's end",
      nds("3.10.4 (3.10-2)"));
  const std::string formula = factor_lines(
      sheet, "F_c_perp",
      {{"C_M", "wet service; no C_D across the grain", a.factors.C_M.F_c_perp, wet_source(a), true},
       {"C_i", "incised", a.factors.C_i.F_c_perp, tables_.C_i_source, false}});
  sheet.line("F_c_perp'", formula + " C_b", "psi", nds("4.3.1, Table 4.3.1"));
  return sheet.line("R'", "F_c_perp' b l_b", "lb", nds("3.10.2"));
}

Check NorthAmericaUs::bearing(const BearingDemand& d, const Combination& combination) const {
  need_strength(combination, most_C_D);
  need_timber(d.timber);
  need_valid(d);

  Sheet sheet(CheckKind::bearing, pounds, Units::lb_in);
  sheet.given("R", d.force);
  if (d.width.value() == 0.0 || d.length.value() == 0.0) {
    return sheet.nothing("R", "0: no contact", nds("3.10.2"));
  }
  const Length length =
      contact_line(sheet, d, "l_b", tables_.packers_in_full, tables_.packed_share);
  bearing_resistance(sheet, d, length);
  return sheet.finish("R", "R'", nds("3.10.2"));
}

Check NorthAmericaUs::column(const ColumnDemand& d, const Combination& combination) const {
  need_strength(combination, most_C_D);
  need_timber(d.timber);
  need_valid(d);

  Sheet sheet(CheckKind::column, pounds, Units::lb_in);
  given_section(sheet, d.breadth, d.depth);
  sheet.given("l", d.height);
  sheet.given("P", d.axial);
  const bool bent = d.moment.value() > 0.0;
  if (bent) sheet.given("M", d.moment);
  const auto none = [&](const char* why, const Citation& source) {
    const bool moment_alone = bent && d.axial.value() == 0.0;
    if (moment_alone) sheet.shown(pound_feet);
    return sheet.nothing(moment_alone ? "M" : "P", why, source);
  };
  if (!d.braced && !d.base_fixed) {
    return none("0: hinged at the foot and free to sway, no buckling load", nds("Appendix G"));
  }
  sheet.line("s", "min(b; d), the smaller side", "in", nds("3.7.1.3"));
  const Adjusted a = adjust(d.timber, combination.duration_factor, false);
  compression_lines(sheet, d.timber, a);
  const bool tall = d.height.value() > 0.0;
  if (tall) {
    sheet.taken("K_e", d.braced ? "top held" : "fixed foot, top free to sway", "",
                d.braced ? tables_.K_e_braced : tables_.K_e_cantilever);
    if (sheet.line("slenderness", "K_e l / s", "", nds("3.7.1.3")) > greatest_slenderness_column) {
      return none("0: l_e/d > 50", nds("3.7.1.4"));
    }
    stability_modulus_lines(sheet, d.timber, a);
    sheet.line("F_cE", "0.822 E_min' / slenderness^2", "psi", nds("3.7.1.5"));
    sheet.taken("c", "sawn lumber", "", tables_.column_c);
    sheet.line("C_P", "(1 + F_cE/F_c*) / (2 c) - sqrt(((1 + F_cE/F_c*) / (2 c))^2 - F_cE/F_c*/c)",
               "", nds("3.7.1.5 (3.7-1)"));
  } else {
    sheet.taken("C_P", "1: no height", 1.0, "", nds("3.7.1.1"));
  }
  sheet.line("F_c'", "F_c* C_P", "psi", nds("Table 4.3.1"));
  const double f_c = sheet.line("f_c", "P / (b d)", "psi", nds("3.6.3"));
  if (!bent) {
    sheet.line("P'", "F_c' b d", "lb", nds("3.6.3"));
    return sheet.finish("P", "P'", nds("3.7.1.5 (3.7-1)"));
  }
  if (tall && f_c >= sheet.last("F_cE").value) {
    return none("0: f_c reaches F_cE, the bending grows without limit", nds("3.9.2"));
  }
  bending_lines(sheet, d.timber, a);
  sheet.line("f_b", "6 M / (max(b; d) s^2)", "psi", nds("3.3.2.1"));
  const Citation clause = nds("15.4.1 (15.4-1), 3.9.2 (3.9-3)");
  sheet.line("sum",
             tall ? "(f_c/F_c')^2 + f_b (1 + 0.234 f_c/F_cE) / (F_b* (1 - f_c/F_cE)), the moment "
                    "from an offset of the load"
                  : "(f_c/F_c')^2 + f_b/F_b*",
             "", clause);
  sheet.shown(plain);
  return sum_or_alone(sheet, "f_c / F_c'", nds("3.6.3, 3.7.1.5 (3.7-1)"), clause);
}

std::string NorthAmericaUs::not_allowed(const Weakening& w) const {
  switch (w.kind) {
    case WeakKind::hole:
      if (w.lost > tables_.hole_share.value * w.depth)
        return "a hole of more than a third of the depth is not allowed";
      return {};
    case WeakKind::notch_below:
    case WeakKind::notch_above: {
      // A notch at the end has its own limit in shear (4.4.3.2).
      if (w.at_support) return {};
      const NotchPlace place = w.middle_third ? NotchPlace::middle_third : NotchPlace::outer_third;
      if (notch_allowed(place, w.kind == WeakKind::notch_below, w.lost, w.breadth, w.depth))
        return {};
      return w.middle_third ? "no notch is allowed in the middle third of a span"
                            : "so deep a notch is not allowed in the outer thirds of a span";
    }
    case WeakKind::none:
    case WeakKind::split:
      break;
  }
  return {};
}

double NorthAmericaUs::shear_share(Length from, Length to, Length depth) const {
  return shear_share_of_spread_load(from, to, depth);
}

Check NorthAmericaUs::held_upright(Length breadth, Length depth, bool ends_held,
                                   bool edge_held) const {
  need_positive(breadth, "held upright: the breadth must be positive");
  need_positive(depth, "held upright: the depth must be positive");
  Sheet sheet(CheckKind::held_upright, plain, Units::lb_in);
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
  sheet.line("ratio", "d_nom / b_nom", "", nds("4.4.1.2"));
  if (ends_held && edge_held) {
    return upright(sheet, "d/b", tables_.upright_both.value, true, true,
                   tables_.upright_both.source);
  }
  return upright(sheet, "d/b",
                 greatest_depth_to_breadth(ends_held ? LateralSupport::ends : LateralSupport::none),
                 ends_held, false, nds(ends_held ? "4.4.1.2(b)" : "4.4.1.2(a)"));
}

/// Bending and shear of one board under P with the moment M, both on the sheet.
Check NorthAmericaUs::board_strength(Sheet& sheet, const Timber& timber) const {
  const double M = sheet.last("M").value, P = sheet.last("P").value;
  const Adjusted a = adjust(timber, tables_.board_C_D, false);
  bending_lines(sheet, timber, a);
  const std::string formula = factor_lines(
      sheet, "F_b*", {{"C_fu", "flat use", a.factors.C_fu, tables_.C_fu_source, false}});
  sheet.line("F_b'", formula, "psi", nds("Table 4.3.1"));
  const double R_M = sheet.line("M'", "F_b' b d^2 / 6", "lb in", nds("3.3.1"));
  shear_lines(sheet, timber, a);
  const double R_V = sheet.line("V'", "2 F_v' b d / 3, against V = P beside a support", "lb",
                                nds("3.4.2 (3.4-2)"));
  if (P * R_M > M * R_V) {
    sheet.shown(pounds);
    return sheet.finish("P", "V'", nds("3.4.2 (3.4-2)"));
  }
  return sheet.finish("M", "M'", nds("3.3.1"));
}

Check NorthAmericaUs::board_point_load(const Timber& timber, Length width, Length thickness,
                                       Length span, bool continuous, Force load) const {
  need_timber(timber);
  need_valid_board(width, thickness, span, load);

  if (is_below_tables(width, thickness) &&
      thickness + mm(1.0) >= inches(tables_.board_least_in.value)) {
    // No strength is tabulated for 5/4 boards; the code gives the joist spacing they may have.
    Sheet sheet(CheckKind::board_point_load, {"in", 1.0}, Units::lb_in);
    sheet.given("t", thickness);
    sheet.taken("s", "spacing of the joists", span, Citation{});
    sheet.taken("s_max", "most for 5/4 boards across the joists", "in", tables_.board_span_in);
    return sheet.finish("s", "s_max", tables_.board_span_in.source);
  }
  Sheet sheet(CheckKind::board_point_load, pound_feet, Units::lb_in);
  given_section(sheet, width, thickness);
  sheet.given("l", span);
  sheet.taken("P", "beside it no other load", load, tables_.loads.concentrated_source);
  // Load at mid-span; two equal spans, one loaded: 13/64 P l under the load.
  sheet.line("M", continuous ? "13/64 P l, two spans" : "P l / 4, one span", "lb in",
             Citation{"beam-formulas", continuous ? "two equal spans, concentrated load at centre "
                                                    "of one span"
                                                  : "simple beam, concentrated load at centre"});
  return board_strength(sheet, timber);
}

Check NorthAmericaUs::board_overhang(const Timber& timber, Length width, Length thickness,
                                     Length overhang, Force load) const {
  need_timber(timber);
  need_valid_board(width, thickness, overhang, load);

  if (is_below_tables(width, thickness) &&
      thickness + mm(1.0) >= inches(tables_.board_least_in.value)) {
    // No strength is tabulated for 5/4 boards: what the code lets one span says what moment it bears.
    Sheet sheet(CheckKind::board_overhang, {"in", 1.0}, Units::lb_in);
    sheet.given("t", thickness);
    sheet.given("a", overhang);
    sheet.taken("s_max", "most for 5/4 boards across the joists", "in", tables_.board_span_in);
    const Citation source{"beam-formulas",
                          "P a of a cantilever equal to 13/64 P s of two equal spans, one loaded "
                          "at its centre"};
    sheet.line("a_max", "13/64 s_max", "in", source);
    return sheet.finish("a", "a_max", source);
  }
  Sheet sheet(CheckKind::board_overhang, pound_feet, Units::lb_in);
  given_section(sheet, width, thickness);
  sheet.given("a", overhang);
  sheet.taken("P", "beside it no other load", load, tables_.loads.concentrated_source);
  sheet.line("M", "P a, at its end", "lb in",
             Citation{"beam-formulas", "cantilever, concentrated load at the free end"});
  return board_strength(sheet, timber);
}

}  // namespace underprop::standards::north_america
