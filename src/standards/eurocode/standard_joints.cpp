// Joints by EN 1995-1-1 section 8. The rope effect is nowhere counted: washers and threads are not
// seen. Resistances of joints written in kN; characteristic values in N inside.
#include "standard.hpp"

#include "underprop/standards/eurocode/axial.hpp"
#include "underprop/standards/eurocode/fastener.hpp"
#include "underprop/standards/eurocode/group.hpp"
#include "underprop/standards/eurocode/lateral.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace underprop::standards::eurocode {

namespace {

constexpr double kilo = 1e3;
constexpr double across = std::numbers::pi / 2.0;

void need_capacity(const std::optional<Force>& stated) {
  if (stated) need_not_negative(*stated, "the stated capacity must not be negative");
}

/// Loaded and unloaded edge of a bolt pulled across the grain, Table 8.4: 4d and 3d.
Length edges(Length d) {
  const Spacing s = bolt_spacing(d, across);
  return s.a_4_t + s.a_4_c;
}

}  // namespace

double EurocodeUk::joint_resistance(Sheet& sheet, double R_k, const Combination& c) const {
  const double k = k_mod(sheet, c);
  sheet.line("gamma_M", "connections", "", tables_.gamma_M_joint);
  return sheet.line("R_d", "k_mod R_k / gamma_M", k * R_k / tables_.gamma_M_joint.value / kilo,
                    "kN", ec5("2.4.3(1) (2.17)"));
}

double EurocodeUk::splitting(Sheet& sheet, Length b, Length h) const {
  const Length h_e = tables_.splitting_share.value * h;
  sheet.line("h_e", "loaded edge to the fasteners, not recorded: share of the depth", in_mm(h_e),
             "mm", tables_.splitting_share.source);
  const double F = in_newtons(F_90_Rk(b, h, h_e));
  sheet.line("F_90,Rk", "14 b sqrt(h_e / (1 - h_e/h))", F / kilo, "kN", ec5("8.1.4(3) (8.4)"));
  return F;
}

// --- ends of joists -------------------------------------------------------------------------------

bool EurocodeUk::joist_end_counts(const EndDemand& d) const {
  if (!d.sound) return false;
  switch (d.kind) {
    case EndKind::hanger:
      return d.stated_capacity ? d.stated_capacity->value() > 0.0 : d.fasteners > 0;
    case EndKind::ledger_strip:
      return !d.seat || d.seat->value() > 0.0;
    case EndKind::end_grain:
    case EndKind::skew_nails:
      return false;
  }
  throw std::invalid_argument("joist end: unknown kind");
}

Check EurocodeUk::joist_end(const EndDemand& d, const Combination& combination) const {
  need_strength(combination);
  need_timber(d.joist);
  need_not_negative(d.shear, "joist end: the shear force must not be negative");
  need(d.fasteners >= 0, "joist end: the number of fasteners must not be negative");
  need_capacity(d.stated_capacity);

  Sheet sheet("joist end", "kN");
  const double V = in_kilonewtons(d.shear);
  sheet.given("V_d", V, "kN");
  if (!d.sound) {
    return sheet.nothing(V, "0: corroded, split or loose",
                         Citation{"judgement", "an unsound fixing counts for nothing"});
  }
  switch (d.kind) {
    case EndKind::hanger: {
      if (d.stated_capacity) {
        const double R_k = in_newtons(*d.stated_capacity);
        sheet.line("R_k", "declared, all holes nailed", R_k / kilo, "kN", Citation{});
        return sheet.finish(V, joint_resistance(sheet, R_k, combination), ec5("2.4.3(1) (2.17)"));
      }
      if (d.fasteners == 0) {
        return sheet.nothing(V, "0: no nails in the supporting member", tables_.hanger_source);
      }
      const int counted = std::min(d.fasteners, tables_.hanger_most_nails);
      sheet.line("n", "nails in the supporting member that count", counted, "",
                 tables_.hanger_source);
      const double R_k = counted * tables_.hanger_nail_R_k;
      sheet.line("R_k", "n x generic thin-plate nail, hanger of unknown make", R_k / kilo, "kN",
                 tables_.hanger_source);
      return sheet.finish(V, joint_resistance(sheet, R_k, combination), tables_.hanger_source);
    }
    case EndKind::ledger_strip: {
      need_positive(d.joist_breadth, "joist end: the breadth must be positive");
      if (d.seat) need_not_negative(*d.seat, "joist end: the seat must not be negative");
      const Length seat = d.seat.value_or(mm(tables_.seat_unknown_mm.value));
      if (!d.seat) sheet.line("seat", "not recorded", "mm", tables_.seat_unknown_mm);
      if (seat.value() == 0.0) return sheet.nothing(V, "0: no seat", ec5("6.1.5(1)"));
      const double R_k = bearing_resistance(sheet, d.joist, d.joist_breadth, seat, mm(0));
      sheet.line("R_k", "k_c,90 f_c,90,k b l_ef", R_k / kilo, "kN", ec5("6.1.5(1) (6.3), (6.4)"));
      const double k = k_mod(sheet, combination);
      sheet.line("gamma_M", "solid timber", "", tables_.gamma_M);
      const double R =
          sheet.line("R_d", "k_mod R_k / gamma_M", k * R_k / tables_.gamma_M.value / kilo, "kN",
                     ec5("2.4.3(1) (2.17)"));
      return sheet.finish(V, R, ec5("6.1.5(1) (6.3)"));
    }
    case EndKind::end_grain:
      return sheet.nothing(V, "0: fasteners in end grain outdoors carry no main load",
                           tables_.end_grain_source);
    case EndKind::skew_nails:
      return sheet.nothing(
          V, "0: skew nails alone, outdoors, are no support of a main joist",
          Citation{"judgement",
                   "nails set askew through the joist's end split it and stand in its end grain, "
                   "EN 1995-1-1 8.3.1.2(4)"});
  }
  throw std::invalid_argument("joist end: unknown kind");
}

// --- ledgers --------------------------------------------------------------------------------------

bool EurocodeUk::ledger_fixing_counts(const LedgerFixingDemand& d) const {
  Sheet sheet("ledger fixing", "kN");
  return characteristic_ledger_fixing(sheet, d) > 0.0;
}

/// Characteristic resistance of one fixing in N; 0 with a line saying why.
double EurocodeUk::characteristic_ledger_fixing(Sheet& sheet, const LedgerFixingDemand& d) const {
  need_timber(d.ledger);
  need_positive(d.diameter, "ledger fixing: the diameter must be positive");
  need_positive(d.ledger_thickness, "ledger fixing: the ledger's thickness must be positive");
  need_positive(d.ledger_depth, "ledger fixing: the ledger's depth must be positive");
  need_capacity(d.stated_capacity);
  const auto none = [&sheet](const char* why, const Citation& source) {
    return sheet.line("R_k", why, 0.0, "kN", source);
  };
  const Citation judged{"judgement", "such a fixing counts for nothing until somebody proves it"};
  if (!d.sound) return none("0: corroded, split or loose", judged);
  const bool timber_band = d.wall == BandKind::timber_band;
  if (!timber_band && d.wall != BandKind::solid_masonry && d.wall != BandKind::concrete) {
    return none("0: veneer, the outer leaf of a cavity and insulation carry nothing", judged);
  }
  if (d.fixing == FastenerKind::nail) return none("0: nails do not carry a ledger", judged);
  sheet.given("d", in_mm(d.diameter), "mm");
  if (timber_band && d.stated_capacity) {
    const double R_k = in_newtons(*d.stated_capacity);
    sheet.line("R_k", "declared for this fixing in timber", R_k / kilo, "kN", Citation{});
    return R_k;
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
  const bool hardwood = tables_.row(d.ledger.name).hardwood;
  const Density band_density = kg_per_m3(tables_.band.rho_k);
  Length d_ef = d.diameter;
  Length t_2 = mm(tables_.band_mm.value);
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
    d_ef = 1.1 * tables_.root_share.value * d.diameter;
    sheet.line("root/d", "not seen, low", "", tables_.root_share);
    sheet.line("d_ef", "1.1 x root", in_mm(d_ef), "mm", ec5("8.7.1(3)"));
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
  }
  const auto embedment = [&](Density rho, bool hard) {
    return nail_rules ? f_h_nail(d_ef, rho, false) : f_h_bolt(d_ef, rho, across, hard);
  };
  const std::optional<Stress> f_h_1 = embedment(d.ledger.density, hardwood);
  const std::optional<Stress> f_h_2 = embedment(band_density, tables_.band.hardwood);
  if (!f_h_1 || !f_h_2) return none("0: outside the range of (8.15), (8.32)", ec5("8.5.1.1(2)"));

  const Citation f_h_clause =
      nail_rules ? ec5("8.3.1.1(5) (8.15)") : ec5("8.5.1.1(2) (8.31) to (8.33)");
  sheet.line("t_1", "thickness of the ledger", in_mm(d.ledger_thickness), "mm", Citation{});
  sheet.line("f_h,1,k", "ledger, across the grain", in_megapascals(*f_h_1), "MPa", f_h_clause);
  sheet.line("f_u", "low grade, make not known", f_u, "MPa", tables_.fastener_source);
  const Moment M_y = M_y_Rk_round(megapascals(f_u), d_ef);
  sheet.line("M_y,Rk", "0.3 f_u d_ef^2.6", M_y.value() / kilo, "Nm", ec5("8.5.1.1(1) (8.30)"));

  double F_v = 0.0;
  if (timber_band) {
    sheet.line("t_2", "depth in the band, not more than the thinnest usual one", in_mm(t_2), "mm",
               tables_.band_mm.source);
    sheet.line("f_h,2,k", "band, lowest class, across the grain", in_megapascals(*f_h_2), "MPa",
               f_h_clause);
    const SingleShear joint =
        timber_to_timber_single_shear({*f_h_1, *f_h_2, d.ledger_thickness, t_2, d_ef, M_y, Rope{}});
    F_v = in_newtons(joint.F_v_Rk);
    sheet.line("F_v,Rk", std::string("least of (8.6), mode ") + joint.governing, F_v / kilo, "kN",
               ec5("8.2.2(1) (8.6)"));
  } else {
    // The wall as a thin plate: no clamping of the anchor in the wall is counted on.
    const SteelSingleShear joint = steel_to_timber_single_shear(
        {*f_h_1, d.ledger_thickness, d_ef / 2.0, d_ef, M_y, Rope{}}, false);
    F_v = in_newtons(joint.thin);
    sheet.line("F_v,Rk", "timber side: min(0.4 f_h t_1 d; 1.15 sqrt(2 M_y f_h d))", F_v / kilo,
               "kN", ec5("8.2.3(3) (8.9)"));
  }
  return std::min(F_v, splitting(sheet, d.ledger_thickness, d.ledger_depth));
}

Check EurocodeUk::ledger_fixing(const LedgerFixingDemand& d, const Combination& combination) const {
  need_strength(combination);
  need_not_negative(d.shear, "ledger fixing: the shear force must not be negative");
  Sheet sheet("ledger fixing", "kN");
  const double V = in_kilonewtons(d.shear);
  sheet.given("V_d", V, "kN");
  const double R_k = characteristic_ledger_fixing(sheet, d);
  if (!(R_k > 0.0)) {
    return sheet.nothing(V, "0", Citation{"judgement", "no fixing that counts"});
  }
  double R = joint_resistance(sheet, R_k, combination);
  Citation clause = d.wall == BandKind::timber_band ? ec5("8.2.2(1) (8.6)") : ec5("8.2.3(3) (8.9)");
  if (d.wall == BandKind::timber_band && d.stated_capacity) clause = ec5("2.4.3(1) (2.17)");
  if (d.wall != BandKind::timber_band) {
    sheet.line("gamma_M,anchor", "anchor in the wall", "", tables_.anchor_gamma_M);
    const double wall =
        sheet.line("R_d,wall", "stated capacity / gamma_M,anchor",
                   in_kilonewtons(*d.stated_capacity) / tables_.anchor_gamma_M.value, "kN",
                   tables_.anchor_gamma_M.source);
    if (wall < R) {
      R = wall;
      clause = tables_.anchor_gamma_M.source;
    }
  }
  return sheet.finish(V, R, clause);
}

// --- bearer on the side of a post -----------------------------------------------------------------

Check EurocodeUk::side_bolts(const SideBoltDemand& d, const Combination& combination) const {
  need_strength(combination);
  need_timber(d.bearer);
  need_timber(d.post);
  need_positive(d.bearer_breadth, "side bolts: the bearer's breadth must be positive");
  need_positive(d.bearer_depth, "side bolts: the bearer's depth must be positive");
  need_positive(d.post_breadth, "side bolts: the post's breadth must be positive");
  need_not_negative(d.shear, "side bolts: the shear force must not be negative");
  need(d.bolts >= 0, "side bolts: the number of bolts must not be negative");

  Sheet sheet("side bolts", "kN");
  const double V = in_kilonewtons(d.shear);
  sheet.given("V_d", V, "kN");
  sheet.given("bolts", d.bolts, "");
  if (d.bolts == 0) return sheet.nothing(V, "0: no bolts", ec5("8.5.1"));
  need_positive(d.diameter, "side bolts: the diameter must be positive");
  sheet.given("d", in_mm(d.diameter), "mm");
  if (in_mm(d.diameter) < tables_.least_fastener_mm.value) {
    return sheet.nothing(V, "0: too thin to carry a bearer", tables_.least_fastener_mm.source);
  }
  // One column, in the bearer's depth: 4d and 3d to its edges, 5d along the post's grain.
  const Length room = d.bearer_depth - edges(d.diameter);
  if (room.value() < 0.0) {
    return sheet.nothing(V, "0: the bearer is not as deep as a_4,t + a_4,c = 7 d",
                         ec5("Table 8.4"));
  }
  const Length a_1 = bolt_spacing(d.diameter, 0.0).a_1;
  const int fit = static_cast<int>(std::min(1e6, std::floor(room / a_1))) + 1;
  const int n = std::min(d.bolts, fit);
  sheet.line("n", "bolts that fit one above the other: min(bolts; 1 + (h - 7 d)/(5 d))", n, "",
             ec5("Table 8.4"));
  const double n_ef =
      n == 1 ? 1.0 : n_ef_bolts(n, room / static_cast<double>(n - 1), d.diameter, 0.0);
  sheet.line("n_ef", "min(n; n^0.9 (a_1/(13 d))^0.25), a_1 = (h - 7 d)/(n - 1)", n_ef, "",
             ec5("8.5.1.1(4) (8.34)"));

  const std::optional<Stress> f_h_1 =
      f_h_bolt(d.diameter, d.bearer.density, across, tables_.row(d.bearer.name).hardwood);
  const std::optional<Stress> f_h_2 = f_h_0_bolt(d.diameter, d.post.density);
  if (!f_h_1 || !f_h_2) return sheet.nothing(V, "0: bolt above 30 mm", ec5("8.5.1.1(2)"));
  const Length t_1 = d.one_side ? d.bearer_breadth : d.bearer_breadth / 2.0;
  sheet.line("t_1", d.one_side ? "plies of the bearer" : "half of the bearer's plies on each side",
             in_mm(t_1), "mm", Citation{});
  sheet.line("t_2", "post", in_mm(d.post_breadth), "mm", Citation{});
  sheet.line("f_h,1,k", "bearer, across the grain", in_megapascals(*f_h_1), "MPa",
             ec5("8.5.1.1(2) (8.31)"));
  sheet.line("f_h,2,k", "post, along the grain", in_megapascals(*f_h_2), "MPa",
             ec5("8.5.1.1(2) (8.32)"));
  sheet.line("f_u", "lowest grade, marking not seen", tables_.bolt_f_u, "MPa",
             tables_.fastener_source);
  const Moment M_y = M_y_Rk_round(megapascals(tables_.bolt_f_u), d.diameter);
  sheet.line("M_y,Rk", "0.3 f_u d^2.6", M_y.value() / kilo, "Nm", ec5("8.5.1.1(1) (8.30)"));
  const TimberToTimber joint{*f_h_1, *f_h_2, t_1, d.post_breadth, d.diameter, M_y, Rope{}};
  double F_v = 0.0;
  if (d.one_side) {
    const SingleShear single = timber_to_timber_single_shear(joint);
    F_v = in_newtons(single.F_v_Rk);
    sheet.line("F_v,Rk", std::string("least of (8.6), mode ") + single.governing, F_v / kilo, "kN",
               ec5("8.2.2(1) (8.6)"));
  } else {
    const DoubleShear both = timber_to_timber_double_shear(joint);
    F_v = 2.0 * in_newtons(both.F_v_Rk);
    sheet.line("F_v,Rk", std::string("2 planes, least of (8.7), mode ") + both.governing,
               F_v / kilo, "kN", ec5("8.2.2(1) (8.7)"));
  }
  const double bolts_R = n_ef * F_v;
  const double split = splitting(sheet, d.bearer_breadth, d.bearer_depth);
  const double R_k = sheet.line("R_k", "min(n_ef F_v,Rk; F_90,Rk against the whole reaction)",
                                std::min(bolts_R, split) / kilo, "kN", ec5("8.1.4, 8.5.1.1(4)"));
  return sheet.finish(V, joint_resistance(sheet, R_k * kilo, combination),
                      split < bolts_R ? ec5("8.1.4(3) (8.4)")
                                      : ec5(d.one_side ? "8.2.2(1) (8.6)" : "8.2.2(1) (8.7)"));
}

// --- hold-down ------------------------------------------------------------------------------------

Check EurocodeUk::hold_down(const HoldDownDemand& d, const Combination& combination) const {
  need_strength(combination);
  need_not_negative(d.uplift, "hold-down: the uplift must not be negative");
  need_capacity(d.stated_capacity);
  Sheet sheet("hold-down", "kN");
  const double F = in_kilonewtons(d.uplift);
  sheet.given("F_ax,d", F, "kN");
  if (d.kind == HoldDownKind::nothing) {
    return sheet.nothing(F, "0: nothing holds it down",
                         Citation{"judgement", "hangers and unnamed clips hold nothing down"});
  }
  if (d.stated_capacity) {
    const double R_k = in_newtons(*d.stated_capacity);
    sheet.line("R_k", "declared", R_k / kilo, "kN", Citation{});
    return sheet.finish(F, joint_resistance(sheet, R_k, combination), ec5("2.4.3(1) (2.17)"));
  }
  need_timber(d.bearer);
  need_timber(d.joist);
  const int n = static_cast<int>(tables_.hold_down_count.value);
  switch (d.kind) {
    case HoldDownKind::nailed: {
      if (combination.duration == "permanent" || combination.duration == "long-term") {
        return sheet.nothing(F, "0: smooth nails hold no permanent or long-term pull",
                             ec5("8.3.2(1)"));
      }
      const Screw& nail = tables_.hold_down_nail;
      sheet.line("n", "skew nails, not recorded", "", tables_.hold_down_count);
      sheet.line("t_pen", "point in the lower piece, not recorded", "mm", tables_.nail_point_mm);
      sheet.line("w", "nailed wet, drying under load", "", tables_.nailed_wet);
      const Stress f_ax =
          tables_.nailed_wet.value * f_ax_k_smooth_nail(min(d.joist.density, d.bearer.density));
      sheet.line("f_ax,k", "w 20e-6 rho_k^2", in_megapascals(f_ax), "MPa",
                 ec5("8.3.2(6) (8.25), 8.3.2(8)"));
      const Length t_pen = mm(tables_.nail_point_mm.value);
      const std::optional<Force> one =
          F_ax_Rk_smooth_nail({mm(nail.d), mm(nail.head), mm(nail.length) - t_pen, t_pen, f_ax,
                               f_head_k_nail(d.joist.density)});
      if (!one) return sheet.nothing(F, "0: the nail is too short", ec5("8.3.2(7)"));
      const double R_k = n * in_newtons(*one);
      sheet.line("R_k", "n min(f_ax,k d t_pen; f_ax,k d t + f_head,k d_h^2)", R_k / kilo, "kN",
                 ec5("8.3.2(4) (8.24)"));
      return sheet.finish(F, joint_resistance(sheet, R_k, combination), ec5("8.3.2(4) (8.24)"));
    }
    case HoldDownKind::screwed: {
      const Screw& screw = tables_.hold_down_screw;
      sheet.line("n", "screws set askew, not recorded", "", tables_.hold_down_count);
      sheet.line("l_ef", "thread in the lower piece, not recorded", "mm", tables_.screw_thread_mm);
      sheet.line("a", "to the grain, not recorded", "degrees", tables_.screw_angle_deg);
      const Length d_screw = mm(screw.d), l_ef = mm(tables_.screw_thread_mm.value);
      const double alpha = tables_.screw_angle_deg.value * std::numbers::pi / 180.0;
      const std::optional<Force> thread = F_ax_Rk_screws(n, d_screw, l_ef, d.bearer.density, alpha);
      if (!thread) return sheet.nothing(F, "0: outside the range of (8.38)", ec5("8.7.2(4)"));
      const double R_thread = in_newtons(*thread);
      sheet.line("F_ax,Rk", "n^0.9 f_ax,k d l_ef k_d / (1.2 cos^2 a + sin^2 a)", R_thread / kilo,
                 "kN", ec5("8.7.2(4) (8.38)"));
      // Pull-through as of a nail's head: a declared value is not seen.
      const double R_head = in_newtons(F_head_Rk_screws(
          n, f_head_k_nail(d.joist.density), mm(screw.head), d.joist.density, d.joist.density));
      sheet.line("F_head,Rk", "n^0.9 70e-6 rho_k^2 d_h^2", R_head / kilo, "kN",
                 ec5("8.7.2(6) (8.40b), 8.3.2(6) (8.26)"));
      const double R_k = std::min(R_thread, R_head);
      return sheet.finish(F, joint_resistance(sheet, R_k, combination), ec5("8.7.2(4)"));
    }
    case HoldDownKind::strapped: {
      const double R_k = tables_.strap_nails.value * tables_.hanger_nail_R_k;
      sheet.line("n", "nails that are sure to hold, each end", "", tables_.strap_nails);
      sheet.line("R_k", "n x generic thin-plate nail, strap of unknown make", R_k / kilo, "kN",
                 tables_.hanger_source);
      return sheet.finish(F, joint_resistance(sheet, R_k, combination), tables_.hanger_source);
    }
    case HoldDownKind::nothing:
      break;
  }
  throw std::invalid_argument("hold-down: unknown kind");
}

}  // namespace underprop::standards::eurocode
