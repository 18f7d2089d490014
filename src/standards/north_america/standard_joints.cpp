// Ends of joists, ledger fixings, side bolts and hold-downs by NDS chapters 11 and 12. In lb, in, psi.
//
// Nothing is seen of how a stated value was found, so it is taken as an allowable load at normal
// duration, dry: C_D below 1 and C_M reduce it, and a short load never raises it.
#include "standard.hpp"
#include "standards/shared.hpp"

#include "standards/north_america/connection.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

namespace underprop::standards::north_america {

namespace {

constexpr Shown pounds{"lb", 1.0};

const Citation& unsound() {
  static const Citation source{"judgement", "an unsound fixing counts for nothing"};
  return source;
}

/// The governing mode of Table 12.3.1A written out.
std::string mode_formula(const std::string& mode) {
  if (mode == "I_m") return "D l_m F_em / R_d";
  if (mode == "I_s") return "D l_s F_es / R_d";
  if (mode == "II") return "k_1 D l_s F_es / R_d";
  if (mode == "III_m") return "k_2 D l_m F_em / ((1 + 2 R_e) R_d)";
  if (mode == "III_s") return "k_3 D l_s F_em / ((2 + R_e) R_d)";
  return "D^2 / R_d sqrt(2 F_em F_yb / (3 (1 + R_e)))";
}

Citation yield_clause() { return nds("12.3.1, Table 12.3.1A"); }

}  // namespace

double NorthAmericaUs::yield_lines(Sheet& sheet, const DowelJoint& j, bool two_planes) {
  const std::string mode = (two_planes ? double_shear(j) : single_shear(j)).governing;
  sheet.taken("F_yb", "bending yield strength of the fastener", j.F_yb, nds("12.3.6; Table I1"));
  sheet.line("R_e", "F_em / F_es", "", yield_clause());
  const bool large = j.D >= inches(0.25), angled = large || j.nominal >= inches(0.25);
  if (angled) sheet.given("theta", j.theta_deg, "degrees");
  std::string R_d = j.D <= inches(0.17) ? "2.2" : "(10 D + 0.5)";
  if (large) R_d = mode == "I_m" || mode == "I_s" ? "4" : mode == "II" ? "3.6" : "3.2";
  sheet.line("R_d", R_d + (angled ? " (1 + 0.25 theta / 90)" : ""), "", nds("Table 12.3.1B"));
  if (mode == "II") {
    sheet.line("R_t", "l_m / l_s", "", yield_clause());
    sheet.line("k_1",
               "(sqrt(R_e + 2 R_e^2 (1 + R_t + R_t^2) + R_t^2 R_e^3) - R_e (1 + R_t)) / (1 + R_e)",
               "", yield_clause());
  }
  if (mode == "III_m") {
    sheet.line("k_2", "-1 + sqrt(2 (1 + R_e) + 2 F_yb (1 + 2 R_e) D^2 / (3 F_em l_m^2))", "",
               yield_clause());
  }
  if (mode == "III_s") {
    sheet.line("k_3", "-1 + sqrt(2 (1 + R_e) / R_e + 2 F_yb (2 + R_e) D^2 / (3 F_em l_s^2))", "",
               yield_clause());
  }
  const bool doubled = two_planes && mode != "I_m";
  return sheet.line("Z",
                    (doubled ? "2 (" + mode_formula(mode) + ")" : mode_formula(mode)) +
                        ", least of the yield equations: mode " + mode,
                    "lb", yield_clause());
}

double NorthAmericaUs::joint_resistance(Sheet& sheet, const std::string& of,
                                        const Combination& combination, double C_M,
                                        double greatest_C_D, const Citation& wet) const {
  sheet.taken("C_D", greatest_C_D <= 1.0 ? "load duration, not above 1" : "load duration",
              std::min(combination.duration_factor, greatest_C_D), "", tables_.C_D_source);
  sheet.taken("C_M", C_M == 1.0 ? "wet as tested" : "wet service", C_M, "", wet);
  return sheet.line("Z'", of + " C_D C_M", "lb", nds("11.3.1, Table 11.3.1"));
}

/// Bearing strength across the grain of a large dowel in wood of the specific gravity `G`, a line of
/// the sheet like the diameter `D`.
Stress NorthAmericaUs::dowel_bearing_line(Sheet& sheet, const char* symbol, const std::string& G,
                                          const std::string& D, const std::string& remark) {
  return psi(sheet.line(symbol, "50 round(6100 " + G + "^1.45 / sqrt(" + D + ") / 50)" + remark,
                        "psi", nds("Table 12.3.3")));
}

/// The largest lag screw of the tables that is no thicker; nothing: none is.
const Screw* NorthAmericaUs::lag_screw(Length diameter) const {
  const Screw* found = nullptr;
  for (const Screw& screw : tables_.lags) {
    if (screw.D <= diameter + mm(tables_.tested_tolerance_mm.value)) found = &screw;
  }
  return found;
}

/// The share of a lateral value at penetration l_m, line C_p, and that share; 0 below the least.
double NorthAmericaUs::penetration_lines(Sheet& sheet, Length l_m, Length D, double least,
                                         double full, const char* D_symbol) const {
  const double C_p = penetration_factor(max(l_m, mm(0)), D, least, full);
  if (!(C_p > 0.0)) return 0.0;
  sheet.taken("full", "diameters of penetration for the full value", full, "",
              tables_.penetration_source);
  return sheet.line("C_p", std::string("min(1; l_m / (full ") + D_symbol + "))", "",
                    tables_.penetration_source);
}

// --- ends of joists -------------------------------------------------------------------------------

bool NorthAmericaUs::joist_end_counts(const EndDemand& d) const {
  if (!d.sound) return false;
  switch (d.kind) {
    case EndKind::hanger:
      if (d.fasteners == 0 && d.nails_known != NailsKnown::all_holes) return false;
      if (d.stated_capacity) return d.stated_capacity->value() > 0.0;
      return (d.nails_known == NailsKnown::all_holes ? hanger_holes(tables_.hanger, d.joist_depth)
                                                     : d.fasteners) >= tables_.hanger_least_nails;
    case EndKind::ledger_strip:
      return strip_is_fixed(d) && (!d.seat || d.seat->value() > 0.0);
    case EndKind::resting:
      return !d.seat || d.seat->value() > 0.0;
    case EndKind::end_grain:
      return false;
    case EndKind::skew_nails:
      return d.fasteners >= tables_.toe_least;
  }
  throw std::invalid_argument("joist end: unknown kind");
}

/// Lateral value of one toe-nail, dry, normal duration, line Z_1; in lb.
double NorthAmericaUs::toe_nail_value(Sheet& sheet, const Timber& joist,
                                      const Timber& carrier) const {
  const Nail& nail = tables_.toe_nail;
  DowelJoint j;
  j.D = j.nominal = nail.D;
  sheet.taken("D", "nails not recorded: the smallest in use", nail.D, tables_.nail_source);
  sheet.taken("L", "their length", nail.length, tables_.nail_source);
  sheet.taken("share", "of the length in the side member", tables_.toe_side_share, "",
              tables_.toe_source);
  j.l_s = inches(sheet.line("l_s", "share L", "in", tables_.toe_source));
  sheet.taken("angle", "of the nail to the grain", tables_.toe_angle_deg, "degrees",
              tables_.toe_source);
  j.l_m = inches(sheet.line("l_m", "L cos(angle) - l_s", "in", tables_.toe_source));
  sheet.taken("G_m", carrier.label, carrier.specific_gravity, "", carrier.source);
  sheet.taken("G_s", joist.label, joist.specific_gravity, "", joist.source);
  j.F_em = psi(sheet.line("F_em", "16600 G_m^1.84", "psi", nds("Table 12.3.3")));
  j.F_es = psi(sheet.line("F_es", "16600 G_s^1.84", "psi", nds("Table 12.3.3")));
  j.F_yb = nail.F_yb;
  if (penetration_lines(sheet, j.l_m, nail.D, tables_.nail_least_D, tables_.nail_full_D, "D") ==
      0.0) {
    sheet.taken("C_p", "0: less than the least penetration", 0.0, "", tables_.penetration_source);
  }
  yield_lines(sheet, j, false);
  sheet.taken("C_tn", "toe-nail", "", tables_.toe_lateral);
  return sheet.line("Z_1", "C_p C_tn Z", "lb", nds("12.5.4"));
}

/// Lateral value of one nail of a hanger of unknown make in the carrying piece, dry, normal duration,
/// line Z_1; in lb.
double NorthAmericaUs::hanger_nail_value(Sheet& sheet, const Timber& carrier) const {
  const Nail& nail = tables_.hanger_nail;
  DowelJoint j;
  j.D = j.nominal = nail.D;
  j.F_yb = nail.F_yb;
  sheet.taken("D", "hanger nail, not measured: the thinner usual one", nail.D,
              tables_.hanger.source);
  sheet.taken("L", "its length", nail.length, tables_.hanger.source);
  sheet.taken("l_s", "plate of the hanger", "in", tables_.hanger_plate_in);
  j.l_s = inches(tables_.hanger_plate_in.value);
  j.l_m = inches(sheet.line("l_m", "L - l_s", "in", nds("12.3.5")));
  sheet.taken("G_m", carrier.label, carrier.specific_gravity, "", carrier.source);
  j.F_em = psi(sheet.line("F_em", "16600 G_m^1.84", "psi", nds("Table 12.3.3")));
  j.F_es = psi(sheet.taken("F_es", "thin plate", "psi", tables_.plate_psi));
  penetration_lines(sheet, j.l_m, nail.D, tables_.nail_least_D, tables_.nail_full_D, "D");
  yield_lines(sheet, j, false);
  return sheet.line("Z_1", "C_p Z", "lb", nds("12.3.1"));
}

double NorthAmericaUs::ledger_strip_nails(Sheet& sheet, const EndDemand& d) const {
  if (d.stated_capacity) {
    return sheet.taken("Z_strip", "stated allowable load of the strip", *d.stated_capacity,
                       Citation{});
  }
  const Nail& nail = tables_.strip_nail;
  DowelJoint j;
  j.D = j.nominal = nail.D;
  j.F_yb = nail.F_yb;
  j.l_s = inches(tables_.strip_in.value);
  sheet.taken("D", "nails of the strip, not recorded: those the code names", nail.D,
              tables_.nail_source);
  sheet.taken("L", "their length", nail.length, tables_.nail_source);
  sheet.taken("l_s", "thickness of the strip, not recorded", "in", tables_.strip_in);
  sheet.given("t_c", d.carrier_breadth);
  j.l_m = min(nail.length - j.l_s, d.carrier_breadth);
  if (penetration_factor(max(j.l_m, mm(0)), nail.D, tables_.nail_least_D, tables_.nail_full_D) ==
      0.0) {
    return sheet.taken("Z_strip", "0: the nails reach too little into the piece behind", 0.0, "lb",
                       tables_.penetration_source);
  }
  sheet.line("l_m", "min(L - l_s; t_c)", "in", nds("12.1.6"));
  penetration_lines(sheet, j.l_m, nail.D, tables_.nail_least_D, tables_.nail_full_D, "D");
  // The strip is no better timber than what it is nailed to.
  sheet.taken("G", d.carrier.label, d.carrier.specific_gravity, "", d.carrier.source);
  j.F_em = psi(sheet.line("F_em", "16600 G^1.84", "psi", nds("Table 12.3.3")));
  j.F_es = psi(sheet.line("F_es", "F_em", "psi", nds("Table 12.3.3")));
  yield_lines(sheet, j, false);
  sheet.given("n", d.fasteners, "");
  return sheet.line("Z_strip", "n C_p Z, the nails below one joist", "lb", nds("12.3.1"));
}

Check NorthAmericaUs::joist_end(const EndDemand& d, const Combination& combination) const {
  need_strength(combination, most_C_D);
  need_timber(d.joist);
  need_valid(d);

  Sheet sheet(CheckKind::joist_end, pounds, Units::lb_in);
  sheet.given("V", d.shear);
  if (!d.sound) return sheet.nothing("V", "0: corroded, split or loose", unsound());
  const auto wet = [&](const char* of, double greatest_C_D) {
    return joint_resistance(sheet, of, combination, tables_.lateral_wet.value, greatest_C_D,
                            tables_.lateral_wet.source);
  };
  switch (d.kind) {
    case EndKind::hanger: {
      const Citation& source = tables_.hanger.source;
      if (d.fasteners == 0 && d.nails_known != NailsKnown::all_holes) {
        return sheet.nothing("V", "0: no nails in the supporting member", source);
      }
      if (d.stated_capacity) {
        if (!(stated_hanger_lines(sheet, d, "Z", tables_.hanger) > 0.0))
          return sheet.finish("V", "Z", nds("11.3.1"));
        wet("Z", 1.0);
        return sheet.finish("V", "Z'", nds("11.3.1"));
      }
      if (hanger_nails_line(sheet, d, tables_.hanger) < tables_.hanger_least_nails) {
        return sheet.nothing("V", "0: too few nails in the supporting member", source);
      }
      hanger_counted_line(sheet, tables_.hanger);
      need_timber(d.carrier);
      hanger_nail_value(sheet, d.carrier);
      sheet.line("Z_n", "n Z_1", "lb", nds("12.3.1"));
      wet("Z_n", 1.0);
      return sheet.finish("V", "Z'", nds("12.3.1, 11.3.1"));
    }
    case EndKind::ledger_strip:
    case EndKind::resting: {
      if (d.seat && d.seat->value() == 0.0) return sheet.nothing("V", "0: no seat", nds("3.10.2"));
      const BearingDemand seat = bearing_on_seat(
          sheet, d, "l_b", inches(tables_.seat_unknown_in.value), tables_.seat_unknown_in.source);
      const double R = bearing_resistance(sheet, seat, seat.length);
      if (d.kind == EndKind::resting) return sheet.finish("V", "R'", nds("3.10.2"));
      if (!strip_is_fixed(d)) {
        return sheet.nothing("V", "0: no nails hold the strip", nds("12.1.6"));
      }
      need_timber(d.carrier);
      if (!(ledger_strip_nails(sheet, d) > 0.0)) return sheet.finish("V", "Z_strip", nds("12.1.6"));
      return wet("Z_strip", 1.6) < R ? sheet.finish("V", "Z'", yield_clause())
                                     : sheet.finish("V", "R'", nds("3.10.2"));
    }
    case EndKind::end_grain:
      return sheet.nothing(
          "V",
          "0: C_eg = 0.67 on the lateral value of nails and screws in end grain is for people and "
          "the "
          "deck's own weight; the lasting share of the load may not hang on them",
          Citation{
              "judgement",
              "NDS 12.5.2 allows C_eg = 0.67; no part of a load that stays for years is hung on "
              "end grain outdoors, and the end cannot carry one share and not the other"});
    case EndKind::skew_nails: {
      if (d.fasteners < tables_.toe_least) {
        return sheet.nothing("V", "0: fewer than three toe-nails", tables_.toe_source);
      }
      need_timber(d.carrier);
      sheet.taken("n", "toe-nails", d.fasteners, "", Citation{});
      if (!(toe_nail_value(sheet, d.joist, d.carrier) > 0.0)) {
        return sheet.finish("V", "Z_1", tables_.penetration_source);
      }
      sheet.line("Z_n", "n Z_1", "lb", nds("12.5.4"));
      wet("Z_n", 1.6);
      return sheet.finish("V", "Z'", nds("12.3.1, 12.5.4"));
    }
  }
  throw std::invalid_argument("joist end: unknown kind");
}

// --- ledgers --------------------------------------------------------------------------------------

bool NorthAmericaUs::ledger_fixing_counts(const LedgerFixingDemand& d) const {
  Sheet sheet(CheckKind::ledger_fixing, pounds, Units::lb_in);
  return ledger_value(sheet, d).Z_lb > 0.0;
}

/// 0 with a line saying why; else the value of one fixing at normal duration. The line is Z, or
/// C_p Z where the penetration is not full.
NorthAmericaUs::LedgerValue NorthAmericaUs::ledger_value(Sheet& sheet,
                                                         const LedgerFixingDemand& d) const {
  need_timber(d.ledger);
  need_valid(d);
  const auto none = [&sheet](const char* why, const Citation& source) {
    sheet.taken("Z", why, 0.0, "lb", source);
    return LedgerValue{"Z", 0.0, 1.0, false, source};
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
  sheet.given("D_nom", d.diameter);
  const bool lag = d.fixing == FastenerKind::lag_screw;
  const Cited* tested = band ? tested_value(d) : nullptr;
  // Edges: those of the tests for a value that is not above theirs; else by diameters.
  const double rows =
      tested != nullptr
          ? rows_in_place(sheet, d, inches(tables_.ledger_top_in), inches(tables_.ledger_bottom_in),
                          mm(tables_.tested_tolerance_mm.value), tables_.ledger_edges_source)
          : rows_in_place(sheet, d, least_edge_distance(d.diameter, true),
                          least_edge_distance(d.diameter, false),
                          mm(tables_.tested_tolerance_mm.value), nds("Table 12.5.1C"));
  if (rows == 0.0) {
    return none("0: no row of fixings keeps the distances to the ledger's edges",
                tested != nullptr ? tables_.ledger_edges_source : nds("Table 12.5.1C"));
  }
  const auto of_rows = [&](LedgerValue value) {
    if (rows == 1.0) return value;
    value.symbol = "rows " + value.symbol;
    value.Z_lb *= rows;
    return value;
  };
  if (band && d.stated_capacity) {
    const double stated =
        sheet.taken("Z_stated", "stated allowable load in timber", *d.stated_capacity, Citation{});
    if (tested == nullptr) {
      return of_rows({"Z_stated", stated, tables_.lateral_wet.value, false, nds("11.3.1")});
    }
    // As tested, wet: the statement is no worse there than the test, up to the test's value.
    sheet.taken("Z_tested", lag ? "tested lag screw, wet" : "tested bolt, wet", "lb", *tested);
    sheet.taken("C_M,dry", "wet service, on what is stated beyond it", "", tables_.lateral_wet);
    const double Z = sheet.line("Z", "max(min(Z_stated; Z_tested); C_M,dry Z_stated)", "lb",
                                {"judgement", "a stated value is no worse than the tested one"});
    return of_rows({"Z", Z, 1.0, false, tested->source});
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
  if (tested != nullptr) {
    if (d.ledger_depth < inches(tables_.ledger_top_in + tables_.ledger_bottom_in)) {
      return none("0: the ledger is too shallow for the edge distances",
                  tables_.ledger_edges_source);
    }
    sheet.taken("Z",
                lag ? "tested 1/2 in. lag screw, 2x ledger, this band"
                    : "tested 1/2 in. bolt, 2x ledger, this band",
                "lb", *tested);
    if (d.ledger.specific_gravity >= tables_.tested_least_G.value) {
      return of_rows({"Z", tested->value, 1.0, false, tested->source});
    }
    sheet.taken("G", d.ledger.label, d.ledger.specific_gravity, "", d.ledger.source);
    sheet.taken("G_tested", "lightest ledger the tested values are taken for", "",
                tables_.tested_least_G);
    const double Z =
        sheet.line("Z_G", "Z (G / G_tested)^1.45", "lb",
                   {"judgement",
                    "a lighter ledger in proportion to its dowel bearing strength, NDS "
                    "Table 12.3.3"});
    return of_rows({"Z_G", Z, 1.0, false, tested->source});
  }

  // Anything else through timber by the yield equations, both members across the grain.
  if (d.diameter < inches(tables_.bolt_least_in.value)) {
    return none("0: thinner than any bolt or lag screw", tables_.bolt_least_in.source);
  }
  if (d.diameter > inches(tables_.bolt_most_in.value)) {
    return none("0: thicker than the bolts the equations hold for", tables_.bolt_most_in.source);
  }
  const Length edges =
      least_edge_distance(d.diameter, true) + least_edge_distance(d.diameter, false);
  if (d.ledger_depth < edges) {
    return none("0: the ledger is not as deep as 4 D + 1.5 D", nds("Table 12.5.1C"));
  }
  DowelJoint j;
  j.D = j.nominal = d.diameter;
  j.F_yb = tables_.bolt_F_yb;
  const bool screwed = lag || d.fixing == FastenerKind::screw;
  if (screwed) {
    const Screw* found = lag_screw(d.diameter);
    if (found == nullptr) return none("0: thinner than any lag screw", tables_.screw_source);
    j.nominal = found->D;
    j.D = found->root;
    j.F_yb = found->F_yb;
    sheet.taken("D_lag", "next smaller lag screw", j.nominal, tables_.screw_source);
    sheet.taken("D", "its root", j.D, tables_.screw_source);
  } else {
    sheet.taken("D_lag", "the bolt", j.nominal, Citation{});
    sheet.line("D", "D_nom", "in", tables_.bolt_source);
  }
  sheet.taken("G_s", d.ledger.label, d.ledger.specific_gravity, "", d.ledger.source);
  j.theta_deg = 90.0;
  j.l_s = d.ledger_thickness;
  sheet.taken("l_s", "thickness of the ledger", j.l_s, Citation{});
  j.F_es = dowel_bearing_line(sheet, "F_es", "G_s", "D_lag", "");
  double C_p = 1.0;
  if (band) {
    j.l_m = d.penetration.value_or(inches(tables_.band_in.value));
    sheet.taken("l_m", "depth in the wood behind the ledger", j.l_m,
                d.penetration ? Citation{} : tables_.band_in.source);
    sheet.taken("G_m", "band, weakest species", "", tables_.band_G);
    j.F_em = dowel_bearing_line(sheet, "F_em", "G_m", "D_lag", "");
    if (screwed) {
      C_p = penetration_lines(sheet, j.l_m, j.nominal, tables_.lag_least_D, tables_.lag_full_D,
                              "D_lag");
      if (C_p == 0.0) return none("0: the band is thinner than 4 D", tables_.penetration_source);
    }
  } else {
    sheet.taken("hold", "in the wall, in diameters: its own failure is in the stated value", "",
                tables_.wall_embedment);
    j.l_m = inches(sheet.line("l_m", "hold D_nom", "in", tables_.wall_embedment.source));
    j.F_em = psi(sheet.taken("F_em", "wall", "psi", tables_.concrete_psi));
  }
  double Z = yield_lines(sheet, j, false);
  if (C_p == 1.0) return of_rows({"Z", Z, tables_.lateral_wet.value, true, yield_clause()});
  Z = sheet.line("C_p Z", "C_p Z", "lb", nds("12.3.1"));
  return of_rows({"C_p Z", Z, tables_.lateral_wet.value, true, yield_clause()});
}

/// The table's value for a fixing through a 2x ledger into this band: a bolt or lag screw as thick as
/// the tested ones or thicker. Nothing: no row.
const Cited* NorthAmericaUs::tested_value(const LedgerFixingDemand& d) const {
  const bool lag = d.fixing == FastenerKind::lag_screw;
  const Length off = mm(tables_.tested_tolerance_mm.value);
  if (!lag && d.fixing != FastenerKind::bolt) return nullptr;
  if (d.diameter + off < inches(tables_.tested_D_in)) return nullptr;
  if (d.diameter > inches(tables_.bolt_most_in.value)) return nullptr;
  if (std::abs(in_mm(d.ledger_thickness - inches(tables_.tested_thickness_in.value))) > 2.0)
    return nullptr;
  for (const TestedBand& row : tables_.tested_bands) {
    if (row.laminated && !d.band_laminated) continue;
    if (!d.penetration || *d.penetration + off >= inches(row.least_in))
      return lag ? &row.lag_lb : &row.bolt_lb;
  }
  return nullptr;
}

Check NorthAmericaUs::ledger_fixing(const LedgerFixingDemand& d,
                                    const Combination& combination) const {
  need_strength(combination, most_C_D);
  Sheet sheet(CheckKind::ledger_fixing, pounds, Units::lb_in);
  line_of_shear(sheet, d, "V");
  const LedgerValue one = ledger_value(sheet, d);
  if (!(one.Z_lb > 0.0)) return sheet.finish("V", one.symbol, one.source);
  const double R = joint_resistance(sheet, one.symbol, combination, one.C_M, one.yield ? 1.6 : 1.0,
                                    one.C_M == 1.0 ? one.source : tables_.lateral_wet.source);
  const bool alone = d.share == LedgerShare::alone;
  if (d.wall == BandKind::timber_band && alone) {
    sheet.taken("most", "of its value that one fixing takes before its neighbours help", "",
                tables_.most_of_one);
    sheet.line("Z_one", "most Z'", "lb", tables_.most_of_one.source);
    return sheet.finish("V", "Z_one", tables_.most_of_one.source);
  }
  if (d.wall != BandKind::timber_band && d.share != LedgerShare::neighbours) {
    const double wall = sheet.taken("Z_wall", "allowable load of the anchor stated for the wall",
                                    *d.stated_capacity, Citation{});
    if (wall < R || alone) {
      return sheet.finish("V", "Z_wall",
                          {"judgement", "an anchor in a wall carries what is stated for it"});
    }
  }
  return sheet.finish("V", "Z'", one.source);
}

// --- bearer on the side of a post -----------------------------------------------------------------

Check NorthAmericaUs::side_bolts(const SideBoltDemand& d, const Combination& combination) const {
  need_strength(combination, most_C_D);
  need_timber(d.bearer);
  need_timber(d.post);
  need_valid(d);

  Sheet sheet(CheckKind::side_bolts, pounds, Units::lb_in);
  sheet.given("V", d.shear);
  sheet.given("bolts", d.bolts, "");
  if (d.bolts == 0) return sheet.nothing("V", "0: no bolts", nds("12.1.3"));
  const Length D = d.diameter;
  sheet.given("D", D);
  sheet.given("d", d.bearer_depth);
  sheet.given("b", d.bearer_breadth);
  if (D < inches(tables_.bolt_least_in.value)) {
    return sheet.nothing("V", "0: thinner than any bolt in timber", tables_.bolt_least_in.source);
  }
  if (D > inches(tables_.bolt_most_in.value)) {
    return sheet.nothing("V", "0: thicker than the bolts the equations hold for",
                         tables_.bolt_most_in.source);
  }
  // One column in the bearer's depth: 4 D and 1.5 D to its edges, 4 D between.
  const Length room = d.bearer_depth - least_edge_distance(D, true) - least_edge_distance(D, false);
  if (room.value() < 0.0) {
    return sheet.nothing("V", "0: the bearer is not as deep as 4 D + 1.5 D", nds("Table 12.5.1C"));
  }
  const Length s = 4.0 * D;
  const int fit = static_cast<int>(std::min(1e6, std::floor(room / s + 1e-9))) + 1;
  const int n = std::min(d.bolts, fit);
  sheet.taken("n_fit",
              "bolts that fit one above the other: 4 D and 1.5 D to the edges, 4 D between", fit,
              "", nds("Tables 12.5.1B, 12.5.1C"));
  sheet.line("n", "min(bolts; n_fit)", "", nds("Tables 12.5.1B, 12.5.1C"));
  double C_Delta = geometry_factor_spacing(s, D);
  if (d.end_distance) {
    sheet.taken("a", "from the post's axis to the bearer's end", *d.end_distance, Citation{});
    const double end = geometry_factor_end(*d.end_distance, D, EndLoading::perpendicular);
    if (end == 0.0) {
      return sheet.nothing("V", "0: the bearer ends less than 2 D beside the bolts",
                           nds("12.5.1.1(a), Table 12.5.1A"));
    }
    C_Delta = std::min(C_Delta, end);
  }
  sheet.line_or_one(C_Delta == 1.0, "C_Delta", "a / (4 D)",
                    d.end_distance ? "1: edges, spacing and 4 D to the end in full"
                                   : "1: edges and spacing in full, no end near",
                    nds("12.5.1.1(a), Table 12.5.1A"));
  const Stress E_m = elastic(d.post, Term::now).E, E_s = elastic(d.bearer, Term::now).E;
  const Area A_m = d.post.breadth * d.post.depth, A_s = d.bearer_breadth * s;
  if (group_action({n, s, D, E_m, E_s, A_m, A_s, false}).C_g < 1.0) {
    sheet.taken("EA_m", "E' A of the post", E_m * A_m, nds("11.3.6"));
    sheet.taken("EA_s", "E' A of the bearer, 4 D along the row", E_s * A_s, nds("11.3.6"));
    sheet.line("gamma", "180000 D^1.5", "lb/in", nds("11.3.6"));
    sheet.line("u", "1 + gamma 4 D / 2 (1 / EA_m + 1 / EA_s)", "", nds("11.3.6"));
    sheet.line("m", "u - sqrt(u^2 - 1)", "", nds("11.3.6"));
    sheet.line("R_EA", "min(EA_s / EA_m; EA_m / EA_s)", "", nds("11.3.6"));
    sheet.line("C_g",
               "m (1 - m^(2 n)) / (n ((1 + R_EA m^n) (1 + m) - 1 + m^(2 n))) (1 + R_EA) / (1 - m)",
               "", nds("11.3.6 (11.3-1)"));
  } else {
    sheet.taken("C_g", "1: no loss by group action", 1.0, "", nds("11.3.6"));
  }

  DowelJoint j;
  j.D = j.nominal = D;
  j.l_m = d.post_breadth;
  j.l_s = inches(sheet.line(
      "l_s", d.one_side ? "b, plies of the bearer" : "b / 2, half of the plies on each side", "in",
      nds("12.3.5")));
  sheet.taken("l_m", "post", j.l_m, Citation{});
  sheet.taken("G_s", d.bearer.label, d.bearer.specific_gravity, "", d.bearer.source);
  sheet.taken("G_m", d.post.label, d.post.specific_gravity, "", d.post.source);
  j.F_es = dowel_bearing_line(sheet, "F_es", "G_s", "D", ", bearer, across the grain");
  j.F_em = psi(sheet.line("F_em", "50 round(11200 G_m / 50), post, along the grain", "psi",
                          nds("Table 12.3.3")));
  j.F_yb = tables_.bolt_F_yb;
  j.theta_deg = 90.0;
  yield_lines(sheet, j, !d.one_side);
  sheet.line("Z_n", "n C_g C_Delta Z, the group", "lb", nds("11.3.6, 12.5.1"));
  const double bolts = joint_resistance(sheet, "Z_n", combination, tables_.lateral_wet.value, 1.6,
                                        tables_.lateral_wet.source);

  // Splitting of the bearer at the lowest bolt, against the whole reaction.
  sheet.taken("centre", "of the group, share of the depth, not recorded", "",
              tables_.bolt_group_centre);
  sheet.line("d_e", "min(d; centre d + 0.5 (n - 1) 4 D), to the lowest bolt", "in",
             tables_.bolt_group_centre.source);
  shear_lines(sheet, d.bearer, adjust(d.bearer, combination.duration_factor, false));
  const double split =
      sheet.line("V_r'", "2/3 F_v' b d_e (d_e/d)^2, the bearer's end may be nearer than 5 d", "lb",
                 nds("3.4.3.3(a) (3.4-6)"));
  return split < bolts ? sheet.finish("V", "V_r'", nds("3.4.3.3(a) (3.4-6)"))
                       : sheet.finish("V", "Z'", yield_clause());
}

// --- hold-down ------------------------------------------------------------------------------------

Check NorthAmericaUs::hold_down(const HoldDownDemand& d, const Combination& combination) const {
  need_strength(combination, most_C_D);
  need_valid(d);
  Sheet sheet(CheckKind::hold_down, pounds, Units::lb_in);
  sheet.given("F", d.uplift);
  if (d.kind == HoldDownKind::nothing) {
    return sheet.nothing("F", "0: nothing holds it down",
                         Citation{"judgement", "hangers and unnamed clips hold nothing down"});
  }
  if (d.stated_capacity) {
    sheet.taken("W_stated", "stated allowable load", *d.stated_capacity, Citation{});
    sheet.taken("C_D,stated", "duration it is taken to be stated for", "",
                tables_.hold_down_stated_C_D);
    sheet.line("Z", "W_stated / C_D,stated", "lb", tables_.hold_down_stated_C_D.source);
    joint_resistance(sheet, "Z", combination, tables_.lateral_wet.value, 1.6,
                     tables_.lateral_wet.source);
    return sheet.finish("F", "Z'", nds("11.3.1"));
  }
  if (d.kind == HoldDownKind::strapped) {
    return sheet.nothing("F", "0: a strap of unknown make, nothing stated",
                         Citation{"judgement", "a strap holds what is stated for it"});
  }
  need_timber(d.bearer);
  sheet.taken("G", d.bearer.label, d.bearer.specific_gravity, "", d.bearer.source);
  sheet.taken("n", "toe-nails or screws, not recorded", "", tables_.hold_down_count);
  if (d.kind == HoldDownKind::nailed) {
    const Nail& nail = tables_.hold_down_nail;
    sheet.taken("D", "nail not recorded: the smallest in use", nail.D, tables_.nail_source);
    sheet.taken("L", "its length", nail.length, tables_.nail_source);
    sheet.taken("angle", "of the nail to the grain", tables_.toe_angle_deg, "degrees",
                tables_.toe_source);
    sheet.taken("share", "of the length in the side member", tables_.toe_side_share, "",
                tables_.toe_source);
    sheet.line("p", "L cos(angle) - share L", "in", tables_.toe_source);
    sheet.line("W", "1380 G^2.5 D, per inch", "lb/in", nds("12.2.3 (12.2-3)"));
    sheet.taken("C_tn", "toe-nail in withdrawal", "", tables_.toe_withdrawal);
    sheet.line("W_n", "n W p C_tn", "lb", nds("12.2.3, 12.5.4"));
    joint_resistance(sheet, "W_n", combination, tables_.withdrawal_nail_wet.value, 1.6,
                     tables_.withdrawal_nail_wet.source);
    return sheet.finish("F", "Z'", nds("12.2.3 (12.2-3)"));
  }
  need(d.kind == HoldDownKind::screwed, "hold-down: unknown kind");
  sheet.taken("D", "the thinnest screw in use", tables_.hold_down_screw.D, tables_.screw_source);
  sheet.line("W", "2850 G^2 D, per inch", "lb/in", nds("12.2.2 (12.2-2)"));
  sheet.taken("p", "thread in the lower piece", "in", tables_.hold_down_thread_in);
  sheet.taken("askew", "set askew", "", tables_.hold_down_askew);
  sheet.line("W_n", "n W p askew", "lb", nds("12.2.2"));
  joint_resistance(sheet, "W_n", combination, tables_.withdrawal_screw_wet.value, 1.6,
                   tables_.withdrawal_screw_wet.source);
  return sheet.finish("F", "Z'", nds("12.2.2 (12.2-2)"));
}

}  // namespace underprop::standards::north_america
