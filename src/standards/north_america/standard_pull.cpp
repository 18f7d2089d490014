// Ledger fixings pulled out of the wall: NDS 12.2.1 and bearing under washers. In lb, in, psi.
#include "standard.hpp"
#include "standards/shared.hpp"

#include <cmath>

namespace underprop::standards::north_america {

namespace {

constexpr Shown pounds{"lb", 1.0};

/// Pulled and sheared at once.
const Citation added{
    "judgement",
    "shares of pull and shear added up to 1: anchors in concrete are allowed 1.2 in "
    "all (ACI 318 17.8.3, from memory), for others nobody states a sum"};

}  // namespace

Check NorthAmericaUs::ledger_pull_off(const LedgerFixingDemand& d,
                                      const Combination& combination) const {
  need_strength(combination, most_C_D);
  need_timber(d.ledger);
  need_valid(d);
  Sheet sheet(CheckKind::ledger_pull_off, pounds, Units::lb_in);
  const Citation nothing{"judgement", "nothing shows that such a fixing holds a pull"};
  const bool band = d.wall == BandKind::timber_band;
  const bool holds = may_hold_pull(d);
  Sheet down(CheckKind::ledger_fixing, pounds, Units::lb_in);
  const LedgerValue value = ledger_value(down, d);
  // The tests of the table had joists hung on the ledger, and what is stated in timber is stated for
  // ledgers; an anchor's figures in a wall are for the anchor alone.
  const bool tested = holds && band && value.Z_lb > 0.0 && !value.yield;
  const bool couple = d.couple_arm.value() > 0.0 && !tested;
  line_of_pull(sheet, d, "T", tested);
  if (!holds) {
    return sheet.nothing("T", "0: unsound, a nail, or a wall that holds no fixing",
                         tables_.no_capacity_source);
  }
  if (d.stated_capacity || d.stated_pull_out) {
    const Citation source = stated_pull_line(sheet, d, "R'", tables_.pull_of_stated, added);
    if (!couple || !(sheet.last("R'").value > 0.0)) return sheet.finish("T", "R'", source);
    if (!d.stated_capacity) {
      return sheet.nothing("T", "0: nothing is stated for the load down the wall", nothing);
    }
    // The wall's own share only: the ledger's side is another failure, checked beside this one.
    return pulled_and_sheared(sheet, d.shear / *d.stated_capacity,
                              {"T", "R'", "value", "anchor in its wall", "R' (T / R' + u_v)",
                               source, source, added, source});
  }
  if (!band || d.fixing == FastenerKind::anchor || d.fixing == FastenerKind::screw) {
    return sheet.nothing("T", "0: no allowable load of this fixing is stated", nothing);
  }
  if (d.diameter < inches(tables_.bolt_least_in.value)) {
    return sheet.nothing("T", "0: thinner than any bolt or lag screw",
                         tables_.bolt_least_in.source);
  }
  if (d.diameter > inches(tables_.bolt_most_in.value)) {
    return sheet.nothing("T", "0: thicker than the fixings the rules hold for",
                         tables_.bolt_most_in.source);
  }
  sheet.given("D", d.diameter);
  // Under the washer: no load duration across the grain.
  sheet.taken("w_D", "washers", "", tables_.washer_in_D);
  sheet.taken("F_c_perp,b", "band, weakest species", "psi", tables_.band_F_c_perp);
  sheet.taken("F_c_perp,l", d.ledger.label, d.ledger.compression_across, d.ledger.source);
  sheet.taken("C_M", "wet service", tables_.wet_dimension.factors.F_c_perp, "",
              tables_.wet_dimension_source);
  sheet.line("R_w", "C_M min(F_c_perp,b; F_c_perp,l) pi / 4 ((w_D D)^2 - (D + 1/16)^2)", "lb",
             nds("3.10.2"));
  if (d.fixing == FastenerKind::bolt) return sheet.finish("T", "R_w", nds("3.10.2"));

  const Screw* lag = lag_screw(d.diameter);
  if (lag == nullptr) {
    return sheet.nothing("T", "0: thinner than any lag screw", tables_.screw_source);
  }
  sheet.taken("D_lag", "next smaller lag screw", lag->D, tables_.screw_source);
  sheet.taken("G", "band, weakest species", "", tables_.band_G);
  sheet.taken("p", "thread in the wood behind the ledger, without the point",
              d.penetration.value_or(inches(tables_.band_in.value)),
              d.penetration ? Citation{} : tables_.band_in.source);
  sheet.line("W", "1800 G^1.5 D_lag^0.75", "lb/in", nds("12.2.1 (12.2-1)"));
  sheet.taken("C_D", "load duration", combination.duration_factor, "", combination.source);
  sheet.taken("C_MW", "used wet", "", tables_.withdrawal_screw_wet);
  sheet.line("R_out", "W p C_D C_MW", "lb", nds("11.3.1, 12.2.1"));
  const double R = sheet.line("R'", "min(R_out; R_w)", "lb", nds("12.2.1"));
  if (!couple || d.shear.value() == 0.0) {
    return sheet.finish("T", "R'", nds("12.2.1 (12.2-1)"));
  }
  // Pulled and sheared at once.
  const double sheared = ledger_fixing(d, combination).utilisation;
  if (!std::isfinite(sheared)) {
    return sheet.nothing("T", "0: such a screw carries nothing down the wall", nds("12.4.1"));
  }
  sheet.taken("u_v", "V_1 over the value down the wall, the check before", sheared, "",
              nds("11.3.1"));
  sheet.line("Z'", "V_1 / u_v", "lb", nds("11.3.1"));
  const double F = sheet.line("F", "sqrt(T^2 + V_1^2)", "lb", nds("12.4.1"));
  const double Z_alpha =
      sheet.line("Z_alpha", "R' Z' F^2 / (R' V_1^2 + Z' T^2)", "lb", nds("12.4.1 (12.4-1)"));
  // Where Z' is far above R', Z_alpha may exceed R': the pull alone must not.
  if (sheet.last("T").value / R >= F / Z_alpha) {
    return sheet.finish("T", "R'", nds("11.3.1, 12.2.1 (12.2-1)"));
  }
  return sheet.finish("F", "Z_alpha", nds("12.4.1 (12.4-1)"));
}

}  // namespace underprop::standards::north_america
