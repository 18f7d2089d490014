// Ledger fixings pulled out of the wall, EN 1995-1-1 8.5.2 and 8.7.2. In N, mm, N/mm2.
#include "standard.hpp"
#include "standards/shared.hpp"

#include "standards/eurocode/axial.hpp"

namespace underprop::standards::eurocode {

namespace {

constexpr Shown kilonewtons{"kN", 1e3};

/// Pulled and sheared at once.
const Citation added{
    "judgement",
    "shares of pull and shear added up to 1: anchors in concrete are allowed 1.2 in "
    "all (EN 1992-4 7.2.3, from memory), for others nobody states a sum"};

}  // namespace

/// What the head or a washer of `disc` presses on: 3 f_c,90,k on its net area, 8.5.2(2); and the
/// bolt's own tension on its root, which is the lower of bolt and screw. Line F_disc.
void EurocodeUk::pulled_through(Sheet& sheet, const LedgerFixingDemand& d, const Cited& disc,
                                const char* what) const {
  const Stress weaker = min(d.ledger.compression_across, megapascals(tables_.band.f_c_90));
  sheet.taken("w_d", what, "", disc);
  sheet.taken("f_c,90,k", "the weaker of ledger and band", weaker, tables_.class_source);
  sheet.taken("root", "share of the diameter", "", tables_.root_share);
  sheet.taken("f_u", "lowest grade, marking not seen", tables_.bolt_f_u, "N/mm2",
              tables_.fastener_source);
  sheet.line("F_t", "f_u pi / 4 (root d)^2", "N", ec5("8.5.2(1)"));
  sheet.line("F_disc", "min(F_t; 3 f_c,90,k pi / 4 ((w_d d)^2 - d^2))", "N", ec5("8.5.2(1), (2)"));
}

Check EurocodeUk::ledger_pull_off(const LedgerFixingDemand& d,
                                  const Combination& combination) const {
  need_strength(combination, most_k_mod);
  need_timber(d.ledger);
  need_valid(d);
  Sheet sheet(CheckKind::ledger_pull_off, kilonewtons);
  const Citation nothing{"judgement", "nothing shows that such a fixing holds a pull"};
  const bool band = d.wall == BandKind::timber_band;
  // What is declared in timber is declared for ledgers, joists hung on their face; an anchor's figures
  // in a wall are for the anchor alone.
  const bool thin = in_mm(d.diameter) < tables_.least_fastener_mm.value;
  const bool declared = band && !thin && d.stated_capacity && ledger_fixing_counts(d);
  line_of_pull(sheet, d, "T_d", declared);
  if (!may_hold_pull(d)) {
    return sheet.nothing("T_d", "0: unsound, a nail, or a wall that holds no fixing", nothing);
  }
  if (thin) {
    return sheet.nothing("T_d", "0: too thin to carry a ledger", tables_.least_fastener_mm.source);
  }
  const bool couple = d.couple_arm.value() > 0.0 && !declared;
  if (d.stated_capacity || d.stated_pull_out) {
    const Citation source = stated_pull_line(sheet, d, "R_k", tables_.pull_of_stated, added);
    double R_d = 0.0;
    if (band) {
      R_d = joint_resistance(sheet, combination);
    } else {
      sheet.taken("gamma_M,anchor", "anchor in the wall", "", tables_.anchor_gamma_M);
      R_d = sheet.line("R_d", "R_k / gamma_M,anchor", "N", tables_.anchor_gamma_M.source);
    }
    if (!couple || !(R_d > 0.0)) return sheet.finish("T_d", "R_d", source);
    if (!d.stated_capacity) {
      return sheet.nothing("T_d", "0: nothing is stated for the load down the wall", nothing);
    }
    if (band) {
      return pulled_and_sheared(sheet, ledger_fixing(d, combination).utilisation,
                                {"T_d", "R_d", "resistance", "fixing", "R_d (T_d / R_d + u_v)",
                                 source, source, added, source});
    }
    // The wall's own share only: the ledger's side is another failure, checked beside this one.
    const double wall = d.stated_capacity->value() / tables_.anchor_gamma_M.value;
    return pulled_and_sheared(sheet, d.shear.value() / wall,
                              {"T_d", "R_d", "resistance", "anchor in its wall",
                               "R_d (T_d / R_d + u_v)", source, source, added, source});
  }
  if (!band || d.fixing == FastenerKind::anchor) {
    return sheet.nothing("T_d", "0: no resistance of the anchor in this wall is stated", nothing);
  }
  sheet.given("d", d.diameter);
  if (d.fixing == FastenerKind::bolt) {
    pulled_through(sheet, d, tables_.washer_in_d, "washers, the least of 10.4.3(2)");
    sheet.line("R_k", "F_disc", "N", ec5("8.5.2"));
    joint_resistance(sheet, combination);
    return sheet.finish("T_d", "R_d", ec5("8.5.2(1), (2)"));
  }
  const Length thread = d.penetration.value_or(mm(tables_.band_mm.value));
  sheet.taken("l_ef", "thread in the wood behind the ledger", thread,
              d.penetration ? Citation{} : tables_.band_mm.source);
  // Less thread than 6 d, or thicker than 12 mm, is outside the clause: such a screw holds no less
  // than the thickest one that is inside it.
  const Length counted = min(min(d.diameter, mm(12.0)), thread / 6.0);
  if (!f_ax_k_screw(counted, max(thread, 6.0 * counted), kg_per_m3(tables_.band.rho_k))) {
    return sheet.nothing("T_d",
                         "0: less than 36 mm of thread in the wood behind the ledger; more thread "
                         "in it counts, or bolts right through with washers",
                         ec5("8.7.2(4)"));
  }
  sheet.taken("rho_k", "band, lowest class", tables_.band.rho_k, "kg/m3", tables_.class_source);
  sheet.line("d_w", "min(d; 12; l_ef / 6), the thickest screw inside 8.7.2(4) with that thread",
             "mm",
             counted < d.diameter ? Citation{"judgement",
                                             "a thicker thread holds no less than a thinner one of "
                                             "the same length, EN 1995-1-1 8.7.2(4)"}
                                  : ec5("8.7.2(4)"));
  sheet.line("F_ax", "0.52 d_w^(-0.5) l_ef^(-0.1) rho_k^0.8 d_w l_ef min(d_w / 8; 1)", "N",
             ec5("8.7.2(4) (8.38) to (8.40)"));
  pulled_through(sheet, d, tables_.head_in_d, "head of the screw, low");
  sheet.line("R_k", "min(F_ax; F_disc)", "N", ec5("8.7.2(3)"));
  joint_resistance(sheet, combination);
  if (!couple) return sheet.finish("T_d", "R_d", ec5("8.7.2(3), (4)"));
  const Citation squares = ec5("8.7.3(1), 8.3.3(1) (8.28)");
  return pulled_and_sheared(sheet, ledger_fixing(d, combination).utilisation,
                            {"T_d", "R_d", "resistance", "screw", "R_d sqrt((T_d / R_d)^2 + u_v^2)",
                             ec5("8.7.3(1)"), ec5("8.2.2(1)"), squares, squares});
}

}  // namespace underprop::standards::eurocode
