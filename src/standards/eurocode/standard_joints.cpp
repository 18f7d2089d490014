// Joints by EN 1995-1-1 section 8. The rope effect is nowhere counted: washers and threads are not
// seen. The lines are in N, mm, N/mm2.
#include "standard.hpp"
#include "standards/shared.hpp"

#include "standards/eurocode/axial.hpp"
#include "standards/eurocode/fastener.hpp"
#include "standards/eurocode/group.hpp"
#include "standards/eurocode/lateral.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>

namespace underprop::standards::eurocode {

namespace {

constexpr Shown kilonewtons{"kN", 1e3};
constexpr double across = std::numbers::pi / 2.0;

const Citation& unsound() {
  static const Citation source{"judgement", "an unsound fixing counts for nothing"};
  return source;
}

/// Loaded and unloaded edge of a bolt pulled across the grain, Table 8.4: 4d and 3d.
Length edges(Length d) {
  const Spacing s = bolt_spacing(d, across);
  return s.a_4_t + s.a_4_c;
}

/// The governing mode of (8.6) or (8.7) written out, with beta = f_h,2,k / f_h,1,k.
std::string mode_formula(char mode) {
  switch (mode) {
    case 'a':
    case 'g':
      return "f_h,1,k t_1 d_ef";
    case 'b':
      return "f_h,2,k t_2 d_ef";
    case 'h':
      return "0.5 f_h,2,k t_2 d_ef";
    case 'c':
      return "f_h,1,k t_1 d_ef / (1 + beta) (sqrt(beta + 2 beta^2 (1 + t_2 / t_1 + (t_2 / t_1)^2) "
             "+ beta^3 (t_2 / t_1)^2) - beta (1 + t_2 / t_1))";
    case 'd':
    case 'j':
      return "1.05 f_h,1,k t_1 d_ef / (2 + beta) (sqrt(2 beta (1 + beta) + 4 beta (2 + beta) "
             "M_y,Rk / (f_h,1,k d_ef t_1^2)) - beta)";
    case 'e':
      return "1.05 f_h,1,k t_2 d_ef / (1 + 2 beta) (sqrt(2 beta^2 (1 + beta) + 4 beta (1 + 2 beta) "
             "M_y,Rk / (f_h,1,k d_ef t_2^2)) - beta)";
    default:
      return "1.15 sqrt(2 beta / (1 + beta)) sqrt(2 M_y,Rk f_h,1,k d_ef)";
  }
}

/// One shear plane through two pieces of timber, (8.6); the sheet holds t_1, t_2, d_ef, the
/// embedment strengths and M_y,Rk.
void single_shear_plane(Sheet& sheet, const TimberToTimber& joint) {
  sheet.line("beta", "f_h,2,k / f_h,1,k", "", ec5("8.2.2(1) (8.8)"));
  const char mode = timber_to_timber_single_shear(joint).governing;
  sheet.line("F_v,Rk", mode_formula(mode) + ", least of (8.6): mode " + mode, "N",
             ec5("8.2.2(1) (8.6)"));
}

/// Embedment strength of piece `index` with its formula; nothing outside the clause's range.
std::optional<Stress> embedment(Sheet& sheet, const char* index, const char* piece, Length d_ef,
                                Density rho, bool hardwood, bool nail_rules) {
  const std::optional<Stress> f_h =
      nail_rules ? f_h_nail(d_ef, rho, false) : f_h_bolt(d_ef, rho, across, hardwood);
  if (!f_h) return f_h;
  const std::string rho_symbol = std::string("rho_k,") + index;
  sheet.given(rho_symbol.c_str(), in_kg_per_m3(rho), "kg/m3");
  std::string formula;
  if (nail_rules) {
    formula = "0.082 " + rho_symbol + " d_ef^(-0.3)";
  } else {
    formula = "0.082 (1 - 0.01 d_ef) " + rho_symbol +
              (hardwood ? " / (0.90 + 0.015 d_ef)" : " / (1.35 + 0.015 d_ef)");
  }
  return megapascals(sheet.line(
      std::string("f_h,") + index + ",k", formula + ", " + piece + ", across the grain", "N/mm2",
      nail_rules ? ec5("8.3.1.1(5) (8.15)") : ec5("8.5.1.1(2) (8.31) to (8.33)")));
}

Moment yield_moment(Sheet& sheet, double f_u, const Citation& from, const char* what) {
  sheet.taken("f_u", what, f_u, "N/mm2", from);
  return Moment(sheet.line("M_y,Rk", "0.3 f_u d_ef^2.6", "N mm", ec5("8.5.1.1(1) (8.30)")));
}

}  // namespace

double EurocodeUk::joint_resistance(Sheet& sheet, const Combination& c) const {
  k_mod(sheet, c);
  sheet.taken("gamma_M", "connections", "", tables_.gamma_M_joint);
  return sheet.line("R_d", "k_mod R_k / gamma_M", "N", ec5("2.4.3(1) (2.17)"));
}

double EurocodeUk::splitting(Sheet& sheet, const Timber& timber, const char* b,
                             std::optional<Length> h_e) const {
  if (h_e) {
    sheet.taken("h_e", "of the highest row, from the loaded upper edge", *h_e, ec5("8.1.4(3)"));
  } else {
    sheet.taken("share", "of the depth to the farthest fastener: their place is not recorded", "",
                tables_.splitting_share);
    sheet.line("h_e", "share h, from the loaded edge", "mm", tables_.splitting_share.source);
  }
  const bool hardwood = tables_.row(timber.name).hardwood;
  return sheet.line("F_90,Rk",
                    "14 " + std::string(b) + " sqrt(h_e / (1 - h_e / h))" +
                        (hardwood ? ", the value of softwood, which is the weaker" : ""),
                    "N", ec5("8.1.4(3) (8.4)"));
}

// --- ends of joists -------------------------------------------------------------------------------

bool EurocodeUk::joist_end_counts(const EndDemand& d) const {
  if (!d.sound) return false;
  switch (d.kind) {
    case EndKind::hanger:
      return (d.fasteners > 0 || d.nails_known == NailsKnown::all_holes) &&
             (!d.stated_capacity || d.stated_capacity->value() > 0.0);
    case EndKind::ledger_strip:
      return strip_is_fixed(d) && (!d.seat || d.seat->value() > 0.0);
    case EndKind::resting:
      return !d.seat || d.seat->value() > 0.0;
    case EndKind::end_grain:
    case EndKind::skew_nails:
      return false;
  }
  throw std::invalid_argument("joist end: unknown kind");
}

/// Characteristic lateral resistance of one nail of a hanger of unknown make in the carrying piece,
/// line R_1,k; in N.
double EurocodeUk::hanger_nail_value(Sheet& sheet, const Timber& carrier) const {
  const Screw& nail = tables_.hanger_nail;
  const Length d_ef = mm(nail.d);
  sheet.taken("d_ef", "hanger nail, not measured: the usual one", nail.d, "mm",
              tables_.fastener_source);
  const auto f_h_1 = embedment(sheet, "1", "carrying piece", d_ef, carrier.density, false, true);
  if (!f_h_1) {
    return sheet.taken("R_1,k", "0: outside the range of (8.15)", 0.0, "N", ec5("8.3.1.1(2)"));
  }
  sheet.taken("t_1", "length of the nail in the timber", "mm", tables_.hanger_nail_in_timber_mm);
  sheet.taken("f_u", "least of nails", nail.f_u, "N/mm2", tables_.fastener_source);
  sheet.line("M_y,Rk", "0.45 f_u d_ef^2.6, square", "N mm", ec5("8.3.1.1(4) (8.14)"));
  return sheet.line("R_1,k",
                    "min(0.4 f_h,1,k t_1 d_ef; 1.15 sqrt(2 M_y,Rk f_h,1,k d_ef)), thin plate", "N",
                    ec5("8.2.3(3) (8.9)"));
}

double EurocodeUk::ledger_strip_nails(Sheet& sheet, const EndDemand& d) const {
  if (d.stated_capacity) {
    return sheet.taken("R_strip,k", "declared for the strip", *d.stated_capacity, Citation{});
  }
  const Screw& nail = tables_.strip_nail;
  const Length d_ef = mm(nail.d), t_1 = mm(tables_.strip_mm.value);
  const Density density = d.carrier.density;
  sheet.taken("d_ef", "nails of the strip, not recorded: usual ones", nail.d, "mm",
              tables_.fastener_source);
  sheet.taken("t_1", "thickness of the strip, not recorded", "mm", tables_.strip_mm);
  sheet.taken("L", "length of the nails", nail.length, "mm", tables_.fastener_source);
  sheet.given("t_c", d.carrier_breadth);
  const Length t_2 = min(mm(nail.length) - t_1, d.carrier_breadth);
  if (t_2 < minimum_point_penetration(d_ef, true)) {
    sheet.taken("R_strip,k", "0: the nails reach less than 8 d into the piece behind", 0.0, "N",
                ec5("8.3.1.2(1)"));
    return 0.0;
  }
  sheet.line("t_2", "min(L - t_1; t_c)", "mm", ec5("8.3.1.1(1)"));
  // The strip is no better timber than what it is nailed to.
  const auto f_h_1 = embedment(sheet, "1", "strip", d_ef, density, false, true);
  const auto f_h_2 = embedment(sheet, "2", "piece behind", d_ef, density, false, true);
  if (!f_h_1 || !f_h_2 || t_1 < minimum_thickness_not_predrilled(d_ef, density)) {
    sheet.taken("R_strip,k", "0: such nails want predrilled holes in this timber", 0.0, "N",
                ec5("8.3.1.1(2), 8.3.1.2(6)"));
    return 0.0;
  }
  const Moment M_y = yield_moment(sheet, nail.f_u, tables_.fastener_source, "round nails");
  single_shear_plane(sheet, {*f_h_1, *f_h_2, t_1, t_2, d_ef, M_y, Rope{}});
  sheet.given("n", d.fasteners, "");
  return sheet.line("R_strip,k", "n F_v,Rk, the nails below one joist", "N", ec5("8.1.2(4)"));
}

Check EurocodeUk::joist_end(const EndDemand& d, const Combination& combination) const {
  need_strength(combination, most_k_mod);
  need_timber(d.joist);
  need_valid(d);

  Sheet sheet(CheckKind::joist_end, kilonewtons);
  sheet.given("V_d", d.shear);
  if (!d.sound) return sheet.nothing("V_d", "0: corroded, split or loose", unsound());
  switch (d.kind) {
    case EndKind::hanger: {
      const Citation& source = tables_.hanger.source;
      if (d.fasteners == 0 && d.nails_known != NailsKnown::all_holes) {
        return sheet.nothing("V_d", "0: no nails in the supporting member", source);
      }
      if (d.stated_capacity) {
        if (!(stated_hanger_lines(sheet, d, "R_k", tables_.hanger) > 0.0))
          return sheet.finish("V_d", "R_k", ec5("2.4.3(1) (2.17)"));
        joint_resistance(sheet, combination);
        return sheet.finish("V_d", "R_d", ec5("2.4.3(1) (2.17)"));
      }
      need_timber(d.carrier);
      hanger_nails_line(sheet, d, tables_.hanger);
      hanger_counted_line(sheet, tables_.hanger);
      if (!(hanger_nail_value(sheet, d.carrier) > 0.0)) return sheet.finish("V_d", "R_1,k", source);
      sheet.line("R_k", "n R_1,k", "N", ec5("8.2.3(3), 8.1.2(4)"));
      joint_resistance(sheet, combination);
      return sheet.finish("V_d", "R_d", ec5("8.2.3(3) (8.9)"));
    }
    case EndKind::ledger_strip:
    case EndKind::resting: {
      if (d.seat && d.seat->value() == 0.0) {
        return sheet.nothing("V_d", "0: no seat", ec5("6.1.5(1)"));
      }
      const BearingDemand seat = bearing_on_seat(sheet, d, "l", mm(tables_.seat_unknown_mm.value),
                                                 tables_.seat_unknown_mm.source);
      const double R_90 = bearing_resistance(sheet, seat, combination);
      if (d.kind == EndKind::resting) return sheet.finish("V_d", "R_90,d", ec5("6.1.5(1) (6.3)"));
      if (!strip_is_fixed(d)) {
        return sheet.nothing("V_d", "0: no nails hold the strip", ec5("8.3.1.1"));
      }
      need_timber(d.carrier);
      if (!(ledger_strip_nails(sheet, d) > 0.0)) {
        return sheet.nothing("V_d", "0: as above", ec5("8.3.1"));
      }
      sheet.taken("gamma_M", "connections", "", tables_.gamma_M_joint);
      const double R_strip =
          sheet.line("R_strip,d", "k_mod R_strip,k / gamma_M", "N", ec5("2.4.3(1) (2.17)"));
      return R_strip < R_90 ? sheet.finish("V_d", "R_strip,d", ec5("8.2.2(1) (8.6)"))
                            : sheet.finish("V_d", "R_90,d", ec5("6.1.5(1) (6.3)"));
    }
    case EndKind::end_grain:
      return sheet.nothing("V_d", "0: fasteners in end grain outdoors carry no main load",
                           tables_.end_grain_source);
    case EndKind::skew_nails:
      return sheet.nothing(
          "V_d", "0: skew nails alone, outdoors, are no support of a main joist",
          Citation{"judgement",
                   "nails set askew through the joist's end split it and stand in its end grain, "
                   "EN 1995-1-1 8.3.1.2(4)"});
  }
  throw std::invalid_argument("joist end: unknown kind");
}

// --- ledgers --------------------------------------------------------------------------------------

bool EurocodeUk::ledger_fixing_counts(const LedgerFixingDemand& d) const {
  Sheet sheet(CheckKind::ledger_fixing, kilonewtons);
  return characteristic_ledger_fixing(sheet, d) > 0.0;
}

/// Characteristic resistance of one fixing in N, line R_k; 0 with a line saying why.
double EurocodeUk::characteristic_ledger_fixing(Sheet& sheet, const LedgerFixingDemand& d) const {
  need_timber(d.ledger);
  need_valid(d);
  const auto none = [&sheet](const char* why, const Citation& source) {
    return sheet.taken("R_k", why, 0.0, "N", source);
  };
  const Citation judged{"judgement", "such a fixing counts for nothing until somebody proves it"};
  if (!d.sound) return none("0: corroded, split or loose", judged);
  const bool timber_band = d.wall == BandKind::timber_band;
  if (!timber_band && d.wall != BandKind::solid_masonry && d.wall != BandKind::concrete) {
    return none("0: veneer, the outer leaf of a cavity and insulation carry nothing", judged);
  }
  if (d.fixing == FastenerKind::nail) return none("0: nails do not carry a ledger", judged);
  sheet.given("d", d.diameter);
  const Spacing edge = bolt_spacing(d.diameter, across);
  const double rows = rows_in_place(sheet, d, edge.a_4_t, edge.a_4_c, mm(0.5), ec5("Table 8.4"));
  if (rows == 0.0) {
    return none("0: no row of fixings keeps 4 d to the upper edge and 3 d to the lower",
                ec5("8.5.1.1(3), Table 8.4"));
  }
  const std::string of_rows = rows == 1.0 ? "" : "rows ";
  if (timber_band && d.stated_capacity) {
    sheet.taken("R_1,k", "declared for this fixing in timber", *d.stated_capacity, Citation{});
    return sheet.line("R_k", of_rows + "R_1,k", "N", ec5("2.4.3(1)"));
  }
  if (!timber_band && (!d.stated_capacity || d.stated_capacity->value() == 0.0)) {
    return none("0: no assessment of the anchor for this wall is stated", judged);
  }
  if (timber_band && d.fixing == FastenerKind::anchor) {
    return none("0: a wall anchor in timber, nothing stated", judged);
  }
  if (in_mm(d.diameter) < tables_.least_fastener_mm.value) {
    return none("0: too thin to carry a ledger", tables_.least_fastener_mm.source);
  }
  if (d.ledger_depth < edges(d.diameter)) {
    return none("0: the ledger is not as deep as a_4,t + a_4,c = 7 d", ec5("Table 8.4"));
  }

  const bool screwed = d.fixing == FastenerKind::lag_screw || d.fixing == FastenerKind::screw;
  Length d_ef = d.diameter;
  Length t_2 = d.penetration.value_or(mm(tables_.band_mm.value));
  double f_u = tables_.bolt_f_u;
  bool nail_rules = false;
  if (screwed) {
    const Screw* usual = nullptr;
    for (const Screw& screw : tables_.screws) {
      if (screw.d <= in_mm(d.diameter)) usual = &screw;
    }
    if (usual == nullptr) return none("0: thinner than any usual structural screw", judged);
    f_u = usual->f_u;
    // The smooth shank's reach is not seen: 1.1 times the root.
    sheet.taken("root", "share of the diameter, not seen, low", "", tables_.root_share);
    d_ef = mm(sheet.line("d_ef", "1.1 root d", "mm", ec5("8.7.1(3)")));
    nail_rules = screw_follows_nail_rules(d_ef);
    if (timber_band) {
      const Length reach = mm(usual->length) - d.ledger_thickness;
      t_2 = min(t_2, reach);
      const double least = nail_rules ? minimum_point_penetration(d_ef, false) / d_ef
                                      : tables_.screw_penetration.value;
      if (t_2.value() <= 0.0 || t_2 < least * d_ef) {
        return none("0: a usual screw of this diameter does not reach far enough into the band",
                    ec5("8.3.1.2(2), 8.7.1"));
      }
    }
    const Length thickness_least = minimum_thickness_not_predrilled(d_ef, d.ledger.density);
    if (nail_rules && d.ledger_thickness < thickness_least) {
      return none("0: the ledger is too thin for such screws without predrilling",
                  ec5("8.3.1.2(6) (8.18)"));
    }
  } else {
    sheet.line("d_ef", "d", "mm", ec5("8.5.1.1"));
  }
  sheet.taken("t_1", "thickness of the ledger", d.ledger_thickness, Citation{});
  const auto f_h_1 = embedment(sheet, "1", "ledger", d_ef, d.ledger.density,
                               tables_.row(d.ledger.name).hardwood, nail_rules);
  if (!f_h_1) return none("0: outside the range of (8.15), (8.32)", ec5("8.5.1.1(2)"));

  std::optional<Stress> f_h_2;
  if (timber_band) {
    sheet.taken("t_2",
                d.penetration ? "depth in the wood behind the ledger"
                              : "depth in the band, not more than the thinnest usual one",
                t_2, d.penetration ? Citation{} : tables_.band_mm.source);
    f_h_2 = embedment(sheet, "2", "band of the lowest class", d_ef, kg_per_m3(tables_.band.rho_k),
                      tables_.band.hardwood, nail_rules);
    if (!f_h_2) return none("0: outside the range of (8.15), (8.32)", ec5("8.5.1.1(2)"));
  }
  const Moment M_y = yield_moment(sheet, f_u, tables_.fastener_source, "low grade, make not known");
  if (timber_band) {
    single_shear_plane(sheet, {*f_h_1, *f_h_2, d.ledger_thickness, t_2, d_ef, M_y, Rope{}});
  } else {
    // The wall as a thin plate: no clamping of the anchor in the wall is counted on.
    sheet.line("F_v,Rk",
               "min(0.4 f_h,1,k t_1 d_ef; 1.15 sqrt(2 M_y,Rk f_h,1,k d_ef)), the timber's side",
               "N", ec5("8.2.3(3) (8.9)"));
  }
  if (d.share == LedgerShare::neighbours) {
    return sheet.line("R_k", of_rows + "F_v,Rk", "N", ec5("8.2.2(1)"));
  }
  sheet.given("h", d.ledger_depth);
  // Not less than a_4,t: rows nearer to the edge do not count.
  std::optional<Length> h_e;
  for (const Length height : d.heights) {
    const Length from_top = d.ledger_depth - height;
    if (from_top + mm(0.5) >= edge.a_4_t) h_e = h_e ? min(*h_e, from_top) : from_top;
  }
  splitting(sheet, d.ledger, "t_1", h_e);
  return sheet.line("R_k",
                    of_rows + (d.share == LedgerShare::alone ? "F_90,Rk" : "min(F_v,Rk; F_90,Rk)"),
                    "N", ec5("8.1.4, 8.2.2(1)"));
}

Check EurocodeUk::ledger_fixing(const LedgerFixingDemand& d, const Combination& combination) const {
  need_strength(combination, most_k_mod);
  Sheet sheet(CheckKind::ledger_fixing, kilonewtons);
  line_of_shear(sheet, d, "V_d");
  if (!(characteristic_ledger_fixing(sheet, d) > 0.0)) {
    return sheet.finish("V_d", "R_k", Citation{"judgement", "no fixing that counts"});
  }
  const double R = joint_resistance(sheet, combination);
  if (d.wall == BandKind::timber_band && d.stated_capacity && d.share == LedgerShare::alone) {
    sheet.taken("most", "of its value that one fixing takes before its neighbours help", "",
                tables_.most_of_one);
    sheet.line("R_one,d", "most R_d", "N", tables_.most_of_one.source);
    return sheet.finish("V_d", "R_one,d", tables_.most_of_one.source);
  }
  Citation clause = d.wall == BandKind::timber_band ? ec5("8.2.2(1) (8.6)") : ec5("8.2.3(3) (8.9)");
  if (d.wall == BandKind::timber_band && d.stated_capacity) clause = ec5("2.4.3(1) (2.17)");
  if (d.share == LedgerShare::alone) clause = ec5("8.1.4(3) (8.4)");
  if (d.wall != BandKind::timber_band && d.share != LedgerShare::neighbours) {
    sheet.taken("R_wall,k", "stated for the anchor in this wall", *d.stated_capacity, Citation{});
    sheet.taken("gamma_M,anchor", "anchor in the wall", "", tables_.anchor_gamma_M);
    const double wall =
        sheet.line("R_wall,d", "R_wall,k / gamma_M,anchor", "N", tables_.anchor_gamma_M.source);
    if (wall < R) return sheet.finish("V_d", "R_wall,d", tables_.anchor_gamma_M.source);
  }
  return sheet.finish("V_d", "R_d", clause);
}

// --- bearer on the side of a post -----------------------------------------------------------------

Check EurocodeUk::side_bolts(const SideBoltDemand& d, const Combination& combination) const {
  need_strength(combination, most_k_mod);
  need_timber(d.bearer);
  need_timber(d.post);
  need_valid(d);

  Sheet sheet(CheckKind::side_bolts, kilonewtons);
  sheet.given("V_d", d.shear);
  sheet.given("bolts", d.bolts, "");
  if (d.bolts == 0) return sheet.nothing("V_d", "0: no bolts", ec5("8.5.1"));
  sheet.given("d_ef", d.diameter);
  sheet.given("h", d.bearer_depth);
  if (in_mm(d.diameter) < tables_.least_fastener_mm.value) {
    return sheet.nothing("V_d", "0: too thin to carry a bearer", tables_.least_fastener_mm.source);
  }
  if (d.end_distance) {
    sheet.taken("a_3", "from the post's axis to the bearer's end", *d.end_distance, Citation{});
    const Length least =
        mm(sheet.line("a_3,min", "max(7 d_ef; 80)", "mm", ec5("Table 8.4, a_3,t")));
    if (*d.end_distance + mm(0.5) < least) {
      return sheet.nothing("V_d", "0: the bearer ends too close beside the bolts",
                           ec5("8.5.1.1(3), Table 8.4"));
    }
  }
  // One column, in the bearer's depth: 4d and 3d to its edges, 5d along the post's grain.
  const Length room = d.bearer_depth - edges(d.diameter);
  if (room.value() < 0.0) {
    return sheet.nothing("V_d", "0: the bearer is not as deep as a_4,t + a_4,c = 7 d",
                         ec5("Table 8.4"));
  }
  const Length a_1 = bolt_spacing(d.diameter, 0.0).a_1;
  const int fit = static_cast<int>(std::min(1e6, std::floor(room / a_1))) + 1;
  sheet.taken("n_fit", "bolts that fit one above the other: 4 d and 3 d to the edges, 5 d between",
              fit, "", ec5("Table 8.4"));
  if (sheet.line("n", "min(bolts; n_fit)", "", ec5("Table 8.4")) > 1.0) {
    sheet.line("a_1", "(h - 7 d_ef) / (n - 1)", "mm", ec5("Table 8.4"));
    sheet.line("n_ef", "min(n; n^0.9 (a_1 / (13 d_ef))^0.25)", "", ec5("8.5.1.1(4) (8.34)"));
  } else {
    sheet.taken("n_ef", "1: a single bolt", 1.0, "", ec5("8.5.1.1(4)"));
  }
  sheet.given("b", d.bearer_breadth);
  const Length t_1 = mm(sheet.line(
      "t_1", d.one_side ? "b, plies of the bearer" : "b / 2, half of the plies on each side", "mm",
      ec5("8.2.2(1)")));
  sheet.taken("t_2", "post", d.post_breadth, Citation{});
  const auto f_h_1 = embedment(sheet, "1", "bearer", d.diameter, d.bearer.density,
                               tables_.row(d.bearer.name).hardwood, false);
  if (!f_h_1) return sheet.nothing("V_d", "0: bolt above 30 mm", ec5("8.5.1.1(2)"));
  sheet.given("rho_k,2", in_kg_per_m3(d.post.density), "kg/m3");
  const Stress f_h_2 =
      megapascals(sheet.line("f_h,2,k", "0.082 (1 - 0.01 d_ef) rho_k,2, post, along the grain",
                             "N/mm2", ec5("8.5.1.1(2) (8.32)")));
  const Moment M_y = yield_moment(sheet, tables_.bolt_f_u, tables_.fastener_source,
                                  "lowest grade, marking not seen");
  const TimberToTimber joint{*f_h_1, f_h_2, t_1, d.post_breadth, d.diameter, M_y, Rope{}};
  if (d.one_side) {
    single_shear_plane(sheet, joint);
  } else {
    sheet.line("beta", "f_h,2,k / f_h,1,k", "", ec5("8.2.2(1) (8.8)"));
    const char mode = timber_to_timber_double_shear(joint).governing;
    sheet.line("F_v,Rk", "2 (" + mode_formula(mode) + "), two planes, least of (8.7): mode " + mode,
               "N", ec5("8.2.2(1) (8.7)"));
  }
  const double split = splitting(sheet, d.bearer, "b");
  const double R_k =
      sheet.line("R_k", "min(n_ef F_v,Rk; F_90,Rk), the splitting against the whole reaction", "N",
                 ec5("8.1.4, 8.5.1.1(4)"));
  joint_resistance(sheet, combination);
  return sheet.finish(
      "V_d", "R_d",
      split <= R_k ? ec5("8.1.4(3) (8.4)") : ec5(d.one_side ? "8.2.2(1) (8.6)" : "8.2.2(1) (8.7)"));
}

// --- hold-down ------------------------------------------------------------------------------------

Check EurocodeUk::hold_down(const HoldDownDemand& d, const Combination& combination) const {
  need_strength(combination, most_k_mod);
  need_valid(d);
  Sheet sheet(CheckKind::hold_down, kilonewtons);
  sheet.given("F_ax,d", d.uplift);
  if (d.kind == HoldDownKind::nothing) {
    return sheet.nothing("F_ax,d", "0: nothing holds it down",
                         Citation{"judgement", "hangers and unnamed clips hold nothing down"});
  }
  if (d.stated_capacity) {
    sheet.taken("R_k", "declared", *d.stated_capacity, Citation{});
    joint_resistance(sheet, combination);
    return sheet.finish("F_ax,d", "R_d", ec5("2.4.3(1) (2.17)"));
  }
  need_timber(d.bearer);
  need_timber(d.joist);
  if (d.kind == HoldDownKind::strapped) {
    const Citation& source = tables_.hanger_source;
    sheet.taken("n", "nails that are sure to hold, each end", "", tables_.strap_nails);
    sheet.taken("R_1,k", "one generic nail through thin plate", tables_.hanger_nail_R_k, "N",
                source);
    sheet.line("R_k", "n R_1,k, strap of unknown make", "N", source);
    joint_resistance(sheet, combination);
    return sheet.finish("F_ax,d", "R_d", source);
  }
  const bool nailed = d.kind == HoldDownKind::nailed;
  need(nailed || d.kind == HoldDownKind::screwed, "hold-down: unknown kind");
  if (nailed && (combination.duration == "permanent" || combination.duration == "long-term")) {
    return sheet.nothing("F_ax,d", "0: smooth nails hold no permanent or long-term pull",
                         ec5("8.3.2(1)"));
  }
  const auto one = [&](const Screw& fixing, const char* count, const char* what) {
    sheet.taken("n", count, "", tables_.hold_down_count);
    sheet.taken("d", what, fixing.d, "mm", tables_.fastener_source);
    sheet.taken("d_h", "its head", fixing.head, "mm", tables_.fastener_source);
  };
  const auto densities = [&] {
    sheet.given("rho_k,1", in_kg_per_m3(d.joist.density), "kg/m3");
    sheet.given("rho_k,2", in_kg_per_m3(d.bearer.density), "kg/m3");
  };
  const auto pull_through = [&] {
    sheet.line("f_head,k", "0.000070 rho_k,1^2", "N/mm2", ec5("8.3.2(6) (8.26)"));
  };
  if (nailed) {
    const Screw& nail = tables_.hold_down_nail;
    one(nail, "skew nails, not recorded", "nail, not recorded");
    sheet.taken("L", "its length", nail.length, "mm", tables_.fastener_source);
    const double t_pen =
        sheet.taken("t_pen", "point in the lower piece, not recorded", "mm", tables_.nail_point_mm);
    sheet.line("t", "L - t_pen, below the head", "mm", ec5("8.3.2(4)"));
    sheet.taken("w", "nailed wet, drying under load", "", tables_.nailed_wet);
    densities();
    sheet.line("f_ax,k", "w 0.000020 min(rho_k,1; rho_k,2)^2", "N/mm2",
               ec5("8.3.2(6) (8.25), 8.3.2(8)"));
    pull_through();
    if (t_pen < 8.0 * nail.d)
      return sheet.nothing("F_ax,d", "0: the nail is too short", ec5("8.3.2(7)"));
    sheet.line(
        "R_k",
        std::string("n min(f_ax,k d t_pen; f_ax,k d t + f_head,k d_h^2)") +
            (t_pen >= 12.0 * nail.d ? "" : " (t_pen / (4 d) - 2), less than 12 d in the wood"),
        "N", ec5("8.3.2(4) (8.24), 8.3.2(7)"));
    joint_resistance(sheet, combination);
    return sheet.finish("F_ax,d", "R_d", ec5("8.3.2(4) (8.24)"));
  }
  const Screw& screw = tables_.hold_down_screw;
  one(screw, "screws set askew, not recorded", "screw, not recorded");
  sheet.taken("l_ef", "thread in the lower piece, not recorded", "mm", tables_.screw_thread_mm);
  sheet.taken("alpha", "to the grain, not recorded", "degrees", tables_.screw_angle_deg);
  densities();
  if (!F_ax_Rk_screws(1, mm(screw.d), mm(tables_.screw_thread_mm.value), d.bearer.density,
                      tables_.screw_angle_deg.value * std::numbers::pi / 180.0)) {
    return sheet.nothing("F_ax,d", "0: outside the range of (8.38)", ec5("8.7.2(4)"));
  }
  sheet.line("f_ax,k", "0.52 d^(-0.5) l_ef^(-0.1) rho_k,2^0.8", "N/mm2", ec5("8.7.2(4) (8.39)"));
  sheet.line("k_d", "min(d / 8; 1)", "", ec5("8.7.2(4) (8.40)"));
  sheet.line("F_ax,Rk", "n^0.9 f_ax,k d l_ef k_d / (1.2 cos(alpha)^2 + sin(alpha)^2)", "N",
             ec5("8.7.2(4) (8.38), (8.41)"));
  // Pull-through as of a nail's head: a declared value is not seen.
  pull_through();
  sheet.line("F_head,Rk", "n^0.9 f_head,k d_h^2", "N", ec5("8.7.2(6) (8.40b)"));
  sheet.line("R_k", "min(F_ax,Rk; F_head,Rk)", "N", ec5("8.7.2(3)"));
  joint_resistance(sheet, combination);
  return sheet.finish("F_ax,d", "R_d", ec5("8.7.2(4)"));
}

}  // namespace underprop::standards::eurocode
