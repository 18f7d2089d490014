// Ends of joists, ledger fixings, side bolts and hold-downs by NDS chapters 11 and 12. In lb.
//
// Nothing is seen of how a stated value was found, so it is taken as an allowable load at normal
// duration, dry: C_D below 1 and C_M reduce it, and a short load never raises it.
#include "standard.hpp"

#include "underprop/standards/north_america/connection.hpp"
#include "underprop/standards/north_america/shear.hpp"
#include "underprop/standards/north_america/withdrawal.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace underprop::standards::north_america {

namespace {

const Citation& unsound() {
  static const Citation source{"judgement", "an unsound fixing counts for nothing"};
  return source;
}

}  // namespace

double NorthAmericaUs::joint_resistance(Sheet& sheet, double Z_lb, const Combination& combination,
                                        double C_M, double most_C_D, const Citation& wet) const {
  ConnectionFactors f;
  f.C_D = sheet.line("C_D", most_C_D <= 1.0 ? "load duration, not above 1" : "load duration",
                     std::min(combination.duration_factor, most_C_D), "", tables_.C_D_source);
  f.C_M = sheet.line("C_M", C_M == 1.0 ? "wet as tested" : "wet service", C_M, "", wet);
  return sheet.line("Z'", "Z C_D C_M", in_pounds_force(adjusted_connection(pounds_force(Z_lb), f)),
                    "lb", nds("11.3.1, Table 11.3.1"));
}

// --- ends of joists -------------------------------------------------------------------------------

bool NorthAmericaUs::joist_end_counts(const EndDemand& d) const {
  if (!d.sound) return false;
  switch (d.kind) {
    case EndKind::hanger:
      return d.stated_capacity ? d.stated_capacity->value() > 0.0
                               : d.fasteners >= tables_.hanger_least_nails;
    case EndKind::ledger_strip:
      return !d.seat || d.seat->value() > 0.0;
    case EndKind::end_grain:
      return false;
    case EndKind::skew_nails:
      return d.fasteners >= tables_.toe_least;
  }
  throw std::invalid_argument("joist end: unknown kind");
}

/// Lateral value of one toe-nail, dry, normal duration.
Force NorthAmericaUs::toe_nail_value(Sheet& sheet, const Timber& joist,
                                     const Timber& carrier) const {
  const Nail& nail = tables_.toe_nail;
  DowelJoint j;
  j.D = j.nominal = nail.D;
  sheet.line("D", "nails not recorded: the smallest in use", in_inches(nail.D), "in",
             tables_.nail_source);
  j.l_s = tables_.toe_side_share * nail.length;
  sheet.line("l_s", "L/3", in_inches(j.l_s), "in", tables_.toe_source);
  const double cosine = std::cos(tables_.toe_angle_deg * std::numbers::pi / 180.0);
  j.l_m = cosine * nail.length - j.l_s;
  sheet.line("p", "L cos 30 - L/3", in_inches(j.l_m), "in", tables_.toe_source);
  j.F_em = dowel_bearing_small(carrier.specific_gravity);
  j.F_es = dowel_bearing_small(joist.specific_gravity);
  j.F_yb = nail.F_yb;
  const YieldResult y = single_shear(j);
  const double C_p = penetration_factor(j.l_m, nail.D, tables_.nail_least_D, tables_.nail_full_D);
  sheet.line("C_p", "p / (10 D), at most 1", C_p, "", tables_.penetration_source);
  sheet.line("Z", "least of the yield equations, mode " + y.governing, in_pounds_force(y.Z), "lb",
             nds("12.3.1, Table 12.3.1A"));
  sheet.line("C_tn", "toe-nail", "", tables_.toe_lateral);
  return C_p * tables_.toe_lateral.value * y.Z;
}

Check NorthAmericaUs::joist_end(const EndDemand& d, const Combination& combination) const {
  need_strength(combination);
  need_timber(d.joist);
  need_not_negative(d.shear, "joist end: the shear force must not be negative");
  need(d.fasteners >= 0, "joist end: the number of fasteners must not be negative");
  need_capacity(d.stated_capacity);

  Sheet sheet("joist end", "lb");
  const double V = in_pounds_force(d.shear);
  sheet.given("V", V, "lb");
  if (!d.sound) return sheet.nothing(V, "0: corroded, split or loose", unsound());
  switch (d.kind) {
    case EndKind::hanger: {
      double Z = 0.0;
      Citation source = tables_.hanger_source;
      if (d.stated_capacity) {
        Z = sheet.line("Z", "stated allowable load, all holes nailed",
                       in_pounds_force(*d.stated_capacity), "lb", Citation{});
        source = nds("11.3.1");
      } else {
        if (d.fasteners < tables_.hanger_least_nails) {
          return sheet.nothing(V, "0: too few nails in the supporting member", source);
        }
        const int counted = std::min(d.fasteners, tables_.hanger_most_nails);
        sheet.line("n", "nails in the supporting member that count", counted, "", source);
        Z = sheet.line("Z", "n x generic thin-plate nail, hanger of unknown make",
                       counted * tables_.hanger_nail_lb, "lb", source);
      }
      const double R = joint_resistance(sheet, Z, combination, tables_.lateral_wet.value, 1.0,
                                        tables_.lateral_wet.source);
      return sheet.finish(V, R, source);
    }
    case EndKind::ledger_strip: {
      need_positive(d.joist_breadth, "joist end: the breadth must be positive");
      if (d.seat) need_not_negative(*d.seat, "joist end: the seat must not be negative");
      const Length seat = d.seat.value_or(inches(tables_.seat_unknown_in.value));
      if (!d.seat) sheet.line("seat", "not recorded", "in", tables_.seat_unknown_in);
      if (seat.value() == 0.0) return sheet.nothing(V, "0: no seat", nds("3.10.2"));
      const double R = bearing_resistance(sheet, d.joist, d.joist_breadth, seat, mm(0));
      return sheet.finish(V, R, nds("3.10.2"));
    }
    case EndKind::end_grain:
      return sheet.nothing(
          V,
          "0: C_eg = 0.67 on the lateral value of nails and screws in end grain is for people and "
          "the "
          "deck's own weight; the lasting share of the load may not hang on them",
          Citation{
              "judgement",
              "NDS 12.5.2 allows C_eg = 0.67; no part of a load that stays for years is hung on "
              "end grain outdoors, and the end cannot carry one share and not the other"});
    case EndKind::skew_nails: {
      if (d.fasteners < tables_.toe_least) {
        return sheet.nothing(V, "0: fewer than three toe-nails", tables_.toe_source);
      }
      need_timber(d.carrier);
      sheet.line("n", "toe-nails", d.fasteners, "", Citation{});
      const double one = in_pounds_force(toe_nail_value(sheet, d.joist, d.carrier));
      const double Z = sheet.line("n Z", "n C_p C_tn Z", d.fasteners * one, "lb", nds("12.5.4"));
      const double R = joint_resistance(sheet, Z, combination, tables_.lateral_wet.value, 1.6,
                                        tables_.lateral_wet.source);
      return sheet.finish(V, R, nds("12.3.1, 12.5.4"));
    }
  }
  throw std::invalid_argument("joist end: unknown kind");
}

// --- ledgers --------------------------------------------------------------------------------------

bool NorthAmericaUs::ledger_fixing_counts(const LedgerFixingDemand& d) const {
  Sheet sheet("ledger fixing", "lb");
  return ledger_value(sheet, d).Z_lb > 0.0;
}

/// 0 with a line saying why; else the value of one fixing at normal duration.
NorthAmericaUs::LedgerValue NorthAmericaUs::ledger_value(Sheet& sheet,
                                                         const LedgerFixingDemand& d) const {
  need_timber(d.ledger);
  need_positive(d.diameter, "ledger fixing: the diameter must be positive");
  need_positive(d.ledger_thickness, "ledger fixing: the ledger's thickness must be positive");
  need_positive(d.ledger_depth, "ledger fixing: the ledger's depth must be positive");
  need_capacity(d.stated_capacity);
  const auto none = [&sheet](const char* why, const Citation& source) {
    sheet.line("Z", why, 0.0, "lb", source);
    return LedgerValue{0.0, 1.0, false, source};
  };
  const Citation judged{"judgement", "such a fixing counts for nothing until somebody proves it"};
  if (!d.sound) return none("0: corroded, split or loose", unsound());
  const bool band = d.wall == BandKind::timber_band;
  if (!band && d.wall != BandKind::solid_masonry && d.wall != BandKind::concrete) {
    return none("0: veneer, the outer leaf of a cavity and insulation carry nothing",
                tables_.no_capacity_source);
  }
  if (d.fixing == FastenerKind::nail) {
    return none("0: nails do not carry a ledger", tables_.no_capacity_source);
  }
  const double D_in = in_inches(d.diameter);
  sheet.given("D", D_in, "in");
  if (band && d.stated_capacity) {
    const double Z = sheet.line("Z", "stated allowable load in timber",
                                in_pounds_force(*d.stated_capacity), "lb", Citation{});
    return {Z, tables_.lateral_wet.value, false, nds("11.3.1")};
  }
  if (!band && !d.stated_capacity) {
    return none("0: no allowable load of the anchor in this wall is stated", judged);
  }
  if (band && d.fixing == FastenerKind::anchor) {
    return none("0: a wall anchor in timber, nothing stated", judged);
  }
  if (band && d.fixing == FastenerKind::screw) {
    return none("0: a screw of unknown make, nothing stated", judged);
  }
  const bool lag = d.fixing == FastenerKind::lag_screw;
  if (band && std::abs(in_mm(d.diameter) - in_mm(inches(tables_.tested_D_in))) <=
                  tables_.tested_tolerance_mm.value) {
    const bool as_tested =
        d.ledger.specific_gravity >= tables_.tested_least_G.value &&
        std::abs(in_mm(d.ledger_thickness - inches(tables_.tested_thickness_in.value))) <= 2.0;
    if (as_tested) {
      if (d.ledger_depth < inches(tables_.ledger_edges_in)) {
        return none("0: the ledger is too shallow for the edge distances",
                    tables_.ledger_edges_source);
      }
      const Cited& tested = lag ? tables_.tested_lag_lb : tables_.tested_bolt_lb;
      sheet.line("Z",
                 lag ? "tested 1/2 in. lag screw, 2x ledger, 2x band"
                     : "tested 1/2 in. bolt, 2x ledger, 2x band",
                 "lb", tested);
      return {tested.value, 1.0, false, tested.source};
    }
  }

  // Anything else through timber by the yield equations, both members across the grain.
  if (d.diameter < inches(tables_.bolt_least_in.value)) {
    return none("0: thinner than any bolt or lag screw", tables_.bolt_least_in.source);
  }
  const Length edges =
      least_edge_distance(d.diameter, true) + least_edge_distance(d.diameter, false);
  if (d.ledger_depth < edges) {
    return none("0: the ledger is not as deep as 4 D + 1.5 D", nds("Table 12.5.1C"));
  }
  DowelJoint j;
  j.D = j.nominal = d.diameter;
  j.F_yb = tables_.bolt_F_yb;
  Citation fastener = tables_.bolt_source;
  const bool screwed = lag || d.fixing == FastenerKind::screw;
  if (screwed) {
    const Screw* found = nullptr;
    for (const Screw& screw : tables_.lags) {
      if (screw.D <= d.diameter + mm(tables_.tested_tolerance_mm.value)) found = &screw;
    }
    if (found == nullptr) return none("0: thinner than any lag screw", tables_.screw_source);
    j.nominal = found->D;
    j.D = found->root;
    j.F_yb = found->F_yb;
    fastener = tables_.screw_source;
    sheet.line("D_r", "root of the next smaller lag screw", in_inches(j.D), "in", fastener);
  }
  j.theta_deg = 90.0;
  j.l_s = d.ledger_thickness;
  sheet.line("l_s", "thickness of the ledger", in_inches(j.l_s), "in", Citation{});
  j.F_es = to_nearest_50_psi(dowel_bearing_perpendicular(d.ledger.specific_gravity, j.nominal));
  sheet.line("F_es", "ledger, 6100 G^1.45 / sqrt(D)", in_psi(j.F_es), "psi", nds("Table 12.3.3"));
  double C_p = 1.0;
  if (band) {
    j.l_m = inches(tables_.band_in.value);
    sheet.line("l_m", "band", "in", tables_.band_in);
    j.F_em = to_nearest_50_psi(dowel_bearing_perpendicular(tables_.band_G.value, j.nominal));
    sheet.line("F_em", "band, weakest species", in_psi(j.F_em), "psi", tables_.band_G.source);
    if (screwed) {
      C_p = penetration_factor(j.l_m, j.nominal, tables_.lag_least_D, tables_.lag_full_D);
      sheet.line("C_p", "l_m / (8 D), at most 1; 0 below 4 D", C_p, "", tables_.penetration_source);
      if (C_p == 0.0) return none("0: the band is thinner than 4 D", tables_.penetration_source);
    }
  } else {
    j.l_m = tables_.wall_embedment.value * d.diameter;
    sheet.line("l_m", "10 D: the wall's own failure is in the stated value", in_inches(j.l_m), "in",
               tables_.wall_embedment.source);
    j.F_em = psi(tables_.concrete_psi.value);
    sheet.line("F_em", "wall", "psi", tables_.concrete_psi);
  }
  sheet.line("F_yb", "fastener", in_psi(j.F_yb), "psi", fastener);
  const YieldResult y = single_shear(j);
  const double Z = sheet.line("Z", "least of the yield equations, mode " + y.governing,
                              C_p * in_pounds_force(y.Z), "lb", nds("12.3.1, Table 12.3.1A"));
  return {Z, tables_.lateral_wet.value, true, nds("12.3.1, Table 12.3.1A")};
}

Check NorthAmericaUs::ledger_fixing(const LedgerFixingDemand& d,
                                    const Combination& combination) const {
  need_strength(combination);
  need_not_negative(d.shear, "ledger fixing: the shear force must not be negative");
  Sheet sheet("ledger fixing", "lb");
  const double V = in_pounds_force(d.shear);
  sheet.given("V", V, "lb");
  const LedgerValue one = ledger_value(sheet, d);
  if (!(one.Z_lb > 0.0)) return sheet.finish(V, 0.0, one.source);
  double R = joint_resistance(sheet, one.Z_lb, combination, one.C_M, one.yield ? 1.6 : 1.0,
                              one.C_M == 1.0 ? one.source : tables_.lateral_wet.source);
  Citation clause = one.source;
  if (d.wall != BandKind::timber_band) {
    const double wall = sheet.line("Z_wall", "allowable load of the anchor stated for the wall",
                                   in_pounds_force(*d.stated_capacity), "lb", Citation{});
    if (wall < R) {
      R = wall;
      clause = Citation{"judgement", "an anchor in a wall carries what is stated for it"};
    }
  }
  return sheet.finish(V, R, clause);
}

// --- bearer on the side of a post -----------------------------------------------------------------

Check NorthAmericaUs::side_bolts(const SideBoltDemand& d, const Combination& combination) const {
  need_strength(combination);
  need_timber(d.bearer);
  need_timber(d.post);
  need_positive(d.bearer_breadth, "side bolts: the bearer's breadth must be positive");
  need_positive(d.bearer_depth, "side bolts: the bearer's depth must be positive");
  need_positive(d.post_breadth, "side bolts: the post's breadth must be positive");
  need_not_negative(d.shear, "side bolts: the shear force must not be negative");
  need(d.bolts >= 0, "side bolts: the number of bolts must not be negative");

  Sheet sheet("side bolts", "lb");
  const double V = in_pounds_force(d.shear);
  sheet.given("V", V, "lb");
  sheet.given("bolts", d.bolts, "");
  if (d.bolts == 0) return sheet.nothing(V, "0: no bolts", nds("12.1.3"));
  need_positive(d.diameter, "side bolts: the diameter must be positive");
  const Length D = d.diameter;
  sheet.given("D", in_inches(D), "in");
  if (D < inches(tables_.bolt_least_in.value)) {
    return sheet.nothing(V, "0: thinner than any bolt in timber", tables_.bolt_least_in.source);
  }
  // One column in the bearer's depth: 4 D and 1.5 D to its edges, 4 D between.
  const Length room = d.bearer_depth - least_edge_distance(D, true) - least_edge_distance(D, false);
  if (room.value() < 0.0) {
    return sheet.nothing(V, "0: the bearer is not as deep as 4 D + 1.5 D", nds("Table 12.5.1C"));
  }
  const Length s = 4.0 * D;
  const int fit = static_cast<int>(std::min(1e6, std::floor(room / s + 1e-9))) + 1;
  const int n = std::min(d.bolts, fit);
  sheet.line("n", "bolts that fit one above the other: min(bolts; 1 + (d - 5.5 D)/(4 D))", n, "",
             nds("Tables 12.5.1B, 12.5.1C"));
  sheet.line("C_Delta", "1: edges and spacing in full; 4 D to the ends is not recorded",
             geometry_factor_spacing(s, D), "", nds("12.5.1"));
  const Adjusted bearer = adjust(d.bearer, combination.duration_factor, false);
  const Adjusted post = adjust(d.post, combination.duration_factor, false);
  const GroupAction group =
      group_action({n, s, D, post.values.E_prime, bearer.values.E_prime,
                    d.post.breadth * d.post.depth, d.bearer_breadth * s, false});
  sheet.line("C_g", "group action, rows 4 D apart", group.C_g, "", nds("11.3.6 (11.3-1)"));

  DowelJoint j;
  j.D = j.nominal = D;
  j.l_m = d.post_breadth;
  j.l_s = d.one_side ? d.bearer_breadth : d.bearer_breadth / 2.0;
  sheet.line("l_s", d.one_side ? "plies of the bearer" : "half of the bearer's plies on each side",
             in_inches(j.l_s), "in", Citation{});
  sheet.line("l_m", "post", in_inches(j.l_m), "in", Citation{});
  j.F_es = to_nearest_50_psi(dowel_bearing_perpendicular(d.bearer.specific_gravity, D));
  j.F_em = to_nearest_50_psi(dowel_bearing_parallel(d.post.specific_gravity));
  sheet.line("F_es", "bearer, across the grain, 6100 G^1.45 / sqrt(D)", in_psi(j.F_es), "psi",
             nds("Table 12.3.3"));
  sheet.line("F_em", "post, along the grain, 11200 G", in_psi(j.F_em), "psi", nds("Table 12.3.3"));
  j.F_yb = tables_.bolt_F_yb;
  sheet.line("F_yb", "bolts", in_psi(j.F_yb), "psi", tables_.bolt_source);
  j.theta_deg = 90.0;
  const YieldResult y = d.one_side ? single_shear(j) : double_shear(j);
  const double Z = in_pounds_force(y.Z);
  sheet.line("Z", "least of the yield equations, mode " + y.governing, Z, "lb",
             nds("12.3.1, Table 12.3.1A"));
  const double group_Z = sheet.line("n C_g Z", "the group", n * group.C_g * Z, "lb", nds("11.3.6"));
  const double bolts = joint_resistance(sheet, group_Z, combination, tables_.lateral_wet.value, 1.6,
                                        tables_.lateral_wet.source);

  // Splitting of the bearer at the lowest bolt, against the whole reaction.
  const Length d_e = min(d.bearer_depth, tables_.bolt_group_centre.value * d.bearer_depth +
                                             0.5 * static_cast<double>(n - 1) * s);
  sheet.line("d_e", "to the lowest bolt, the group at mid-depth", in_inches(d_e), "in",
             tables_.bolt_group_centre.source);
  const Stress F_v = psi(shear_lines(sheet, d.bearer, bearer));
  const double split = sheet.line(
      "V_r'", "(2/3) F_v' b d_e (d_e/d)^2: the bearer's end may be nearer than 5 d",
      in_pounds_force(shear_at_connection(F_v, d.bearer_breadth, d.bearer_depth, d_e, mm(0))), "lb",
      nds("3.4.3.3(a) (3.4-6)"));
  return split < bolts ? sheet.finish(V, split, nds("3.4.3.3(a) (3.4-6)"))
                       : sheet.finish(V, bolts, nds("12.3.1, Table 12.3.1A"));
}

// --- hold-down ------------------------------------------------------------------------------------

Check NorthAmericaUs::hold_down(const HoldDownDemand& d, const Combination& combination) const {
  need_strength(combination);
  need_not_negative(d.uplift, "hold-down: the uplift must not be negative");
  need_capacity(d.stated_capacity);
  Sheet sheet("hold-down", "lb");
  const double F = in_pounds_force(d.uplift);
  sheet.given("F", F, "lb");
  if (d.kind == HoldDownKind::nothing) {
    return sheet.nothing(F, "0: nothing holds it down",
                         Citation{"judgement", "hangers and unnamed clips hold nothing down"});
  }
  if (d.stated_capacity) {
    const double stated = sheet.line("W_stated", "stated allowable load",
                                     in_pounds_force(*d.stated_capacity), "lb", Citation{});
    sheet.line("C_D,stated", "duration it is taken to be stated for", "",
               tables_.hold_down_stated_C_D);
    const double normal =
        sheet.line("Z", "W_stated / C_D,stated", stated / tables_.hold_down_stated_C_D.value, "lb",
                   tables_.hold_down_stated_C_D.source);
    const double R = joint_resistance(sheet, normal, combination, tables_.lateral_wet.value, 1.6,
                                      tables_.lateral_wet.source);
    return sheet.finish(F, R, nds("11.3.1"));
  }
  if (d.kind == HoldDownKind::strapped) {
    return sheet.nothing(F, "0: a strap of unknown make, nothing stated",
                         Citation{"judgement", "a strap holds what is stated for it"});
  }
  need_timber(d.bearer);
  const double G = d.bearer.specific_gravity;
  const double n =
      sheet.line("n", "toe-nails or screws, not recorded", "", tables_.hold_down_count);
  switch (d.kind) {
    case HoldDownKind::nailed: {
      const Nail& nail = tables_.hold_down_nail;
      const double cosine = std::cos(tables_.toe_angle_deg * std::numbers::pi / 180.0);
      const Length p = cosine * nail.length - tables_.toe_side_share * nail.length;
      sheet.line("p", "L cos 30 - L/3, nail not recorded: the smallest in use", in_inches(p), "in",
                 tables_.toe_source);
      const LineLoad W = withdrawal_nail(G, nail.D);
      sheet.line("W", "1380 G^2.5 D per inch", in_pounds_force(W * inches(1.0)), "lb/in",
                 nds("12.2.3 (12.2-3)"));
      sheet.line("C_tn", "toe-nail in withdrawal", "", tables_.toe_withdrawal);
      const double Z = sheet.line("n W p C_tn", "both",
                                  n * in_pounds_force(W * p) * tables_.toe_withdrawal.value, "lb",
                                  nds("12.2.3, 12.5.4"));
      const double R = joint_resistance(sheet, Z, combination, tables_.withdrawal_nail_wet.value,
                                        1.6, tables_.withdrawal_nail_wet.source);
      return sheet.finish(F, R, nds("12.2.3 (12.2-3)"));
    }
    case HoldDownKind::screwed: {
      const LineLoad W = withdrawal_wood_screw(G, tables_.hold_down_screw.D);
      sheet.line("W", "2850 G^2 D per inch, the thinnest in use", in_pounds_force(W * inches(1.0)),
                 "lb/in", nds("12.2.2 (12.2-2)"));
      sheet.line("p", "thread in the lower piece", "in", tables_.hold_down_thread_in);
      sheet.line("askew", "set askew", "", tables_.hold_down_askew);
      const double Z =
          sheet.line("n W p", "both, askew",
                     n * tables_.hold_down_askew.value *
                         in_pounds_force(W * inches(tables_.hold_down_thread_in.value)),
                     "lb", nds("12.2.2"));
      const double R = joint_resistance(sheet, Z, combination, tables_.withdrawal_screw_wet.value,
                                        1.6, tables_.withdrawal_screw_wet.source);
      return sheet.finish(F, R, nds("12.2.2 (12.2-2)"));
    }
    case HoldDownKind::nothing:
    case HoldDownKind::strapped:
      break;
  }
  throw std::invalid_argument("hold-down: unknown kind");
}

}  // namespace underprop::standards::north_america
