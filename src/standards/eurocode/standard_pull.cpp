// Ledger fixings pulled out of the wall, EN 1995-1-1 8.5.2 and 8.7.2. In N, mm, N/mm2.
#include "standard.hpp"

#include "underprop/standards/eurocode/axial.hpp"
#include "underprop/standards/ledger_couple.hpp"

#include <cmath>
#include <numbers>
#include <optional>

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
/// bolt's own tension on its root, which is the lower of bolt and screw.
double EurocodeUk::pulled_through(Sheet& sheet, const LedgerFixingDemand& d, const Cited& disc,
                                  const char* what, Stress f_c_90, const Citation& f_source) const {
  sheet.taken("w_d", what, "", disc);
  sheet.taken("f_c,90,k", "the weaker of ledger and band", in_megapascals(f_c_90), "N/mm2",
              f_source);
  sheet.taken("root", "share of the diameter", "", tables_.root_share);
  sheet.taken("f_u", "lowest grade, marking not seen", tables_.bolt_f_u, "N/mm2",
              tables_.fastener_source);
  const Length root = tables_.root_share.value * d.diameter;
  const Force tension(
      sheet.line("F_t", "f_u pi / 4 (root d)^2",
                 (megapascals(tables_.bolt_f_u) * (root * root)).value() * std::numbers::pi / 4.0,
                 "N", ec5("8.5.2(1)")));
  return sheet.line("F_disc", "min(F_t; 3 f_c,90,k pi / 4 ((w_d d)^2 - d^2))",
                    in_newtons(F_ax_Rk_bolt(tension, f_c_90, disc.value * d.diameter, d.diameter)),
                    "N", ec5("8.5.2(1), (2)"));
}

Check EurocodeUk::ledger_pull_off(const LedgerFixingDemand& d,
                                  const Combination& combination) const {
  need_strength(combination, most_k_mod);
  need_timber(d.ledger);
  need_valid(d);
  Sheet sheet(CheckKind::ledger_pull_off, kilonewtons);
  const Citation nothing{"judgement", "nothing shows that such a fixing holds a pull"};
  const bool band = d.wall == BandKind::timber_band;
  const bool holds = d.sound && d.fixing != FastenerKind::nail &&
                     (band || d.wall == BandKind::solid_masonry || d.wall == BandKind::concrete);
  const bool thin = in_mm(d.diameter) < tables_.least_fastener_mm.value;
  line_of_pull(sheet, d, "T_d", false, false);
  if (!holds) {
    return sheet.nothing("T_d", "0: unsound, a nail, or a wall that holds no fixing", nothing);
  }
  if (thin) {
    return sheet.nothing("T_d", "0: too thin to carry a ledger", tables_.least_fastener_mm.source);
  }
  if (d.stated_capacity || d.stated_pull_out) {
    double R_k = 0.0;
    if (d.stated_pull_out) {
      R_k = sheet.taken("R_k", "stated for the fixing, pulled out of the wall",
                        in_newtons(*d.stated_pull_out), "N", Citation{});
    } else {
      sheet.taken("R_s", "stated for the fixing down the wall", in_newtons(*d.stated_capacity), "N",
                  Citation{});
      sheet.taken("share",
                  "of it that counts against a pull, until the maker's pull-out figure is recorded",
                  "", tables_.pull_of_stated);
      R_k = sheet.line("R_k", "share R_s",
                       tables_.pull_of_stated.value * in_newtons(*d.stated_capacity), "N",
                       tables_.pull_of_stated.source);
    }
    const Citation& source = d.stated_pull_out ? added : tables_.pull_of_stated.source;
    double R_d = 0.0;
    if (band) {
      R_d = joint_resistance(sheet, R_k, combination);
    } else {
      sheet.taken("gamma_M,anchor", "anchor in the wall", "", tables_.anchor_gamma_M);
      R_d = sheet.line("R_d", "R_k / gamma_M,anchor", R_k / tables_.anchor_gamma_M.value, "N",
                       tables_.anchor_gamma_M.source);
    }
    if (!(d.couple_arm.value() > 0.0) || !(R_d > 0.0)) return sheet.finish("T_d", "R_d", source);
    const double sheared = ledger_fixing(d, combination).utilisation;
    if (!std::isfinite(sheared)) {
      return sheet.nothing("T_d", "0: such a fixing carries nothing down the wall", source);
    }
    sheet.taken("u_v", "V_1 over the resistance down the wall, the check before", sheared, "",
                source);
    const double T_d = in_newtons(pull_of_couple(d.shear, d.couple_arm, d.couple_lever));
    sheet.line("T_v", "R_d (T_d / R_d + u_v)", T_d + R_d * sheared, "N", added);
    return sheet.finish("T_v", "R_d", source);
  }
  if (!band || d.fixing == FastenerKind::anchor) {
    return sheet.nothing("T_d", "0: no resistance of the anchor in this wall is stated", nothing);
  }
  sheet.given("d", in_mm(d.diameter), "mm");
  const Stress weaker = min(d.ledger.compression_across, megapascals(tables_.band.f_c_90));
  if (d.fixing == FastenerKind::bolt) {
    const double R_k =
        pulled_through(sheet, d, tables_.washer_in_d, "washers, the least of 10.4.3(2)", weaker,
                       tables_.class_source);
    sheet.line("R_k", "F_disc", R_k, "N", ec5("8.5.2"));
    joint_resistance(sheet, R_k, combination);
    return sheet.finish("T_d", "R_d", ec5("8.5.2(1), (2)"));
  }
  const Length thread = d.penetration.value_or(mm(tables_.band_mm.value));
  sheet.taken("l_ef", "thread in the wood behind the ledger", in_mm(thread), "mm",
              d.penetration ? Citation{} : tables_.band_mm.source);
  const std::optional<Force> out =
      F_ax_Rk_screws(1, d.diameter, thread, kg_per_m3(tables_.band.rho_k), std::numbers::pi / 2);
  if (!out) {
    return sheet.nothing("T_d",
                         "0: outside 6 <= d <= 12 mm with a thread of 6 d in the wood behind the "
                         "ledger; more thread in it counts, or bolts right through with washers",
                         ec5("8.7.2(4)"));
  }
  sheet.taken("rho_k", "band, lowest class", tables_.band.rho_k, "kg/m3", tables_.class_source);
  sheet.line("F_ax", "0.52 d^(-0.5) l_ef^(-0.1) rho_k^0.8 d l_ef min(d / 8; 1)", in_newtons(*out),
             "N", ec5("8.7.2(4) (8.38) to (8.40)"));
  const double head = pulled_through(sheet, d, tables_.head_in_d, "head of the screw, low", weaker,
                                     tables_.class_source);
  const double R_k = sheet.line("R_k", "min(F_ax; F_disc)", std::min(in_newtons(*out), head), "N",
                                ec5("8.7.2(3)"));
  const double R_d = joint_resistance(sheet, R_k, combination);
  if (!(d.couple_arm.value() > 0.0)) {
    return sheet.finish("T_d", "R_d", ec5("8.7.2(3), (4)"));
  }
  // Pulled and sheared at once.
  const double sheared = ledger_fixing(d, combination).utilisation;
  if (!std::isfinite(sheared)) {
    return sheet.nothing("T_d", "0: such a screw carries nothing down the wall", ec5("8.7.3(1)"));
  }
  sheet.taken("u_v", "V_1 over the resistance down the wall, the check before", sheared, "",
              ec5("8.2.2(1)"));
  const double pulled = pull_of_couple(d.shear, d.couple_arm, d.couple_lever).value() / R_d;
  sheet.line("T_v", "R_d sqrt((T_d / R_d)^2 + u_v^2)",
             R_d * std::sqrt(combined_axial_and_lateral(pulled, sheared, false)), "N",
             ec5("8.7.3(1), 8.3.3(1) (8.28)"));
  return sheet.finish("T_v", "R_d", ec5("8.7.3(1), 8.3.3(1) (8.28)"));
}

}  // namespace underprop::standards::eurocode
