// Ledger fixings pulled out of the wall: NDS 12.2.1 and bearing under washers. In lb, in, psi.
#include "standard.hpp"

#include "underprop/standards/ledger_couple.hpp"
#include "underprop/standards/north_america/withdrawal.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

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
  Sheet sheet(CheckKind::ledger_pull_off, pounds);
  const Citation nothing{"judgement", "nothing shows that such a fixing holds a pull"};
  const bool band = d.wall == BandKind::timber_band;
  const bool holds = d.sound && d.fixing != FastenerKind::nail &&
                     (band || d.wall == BandKind::solid_masonry || d.wall == BandKind::concrete);
  Sheet down(CheckKind::ledger_fixing, pounds);
  const LedgerValue value = ledger_value(down, d);
  // The tests of the table had joists hung on the ledger. What is stated is for the load down the wall.
  const bool tested = holds && value.Z_lb > 0.0 && !value.yield && !d.stated_capacity;
  line_of_pull(sheet, d, "T", true, tested);
  if (!holds) {
    return sheet.nothing("T", "0: unsound, a nail, or a wall that holds no fixing",
                         tables_.no_capacity_source);
  }
  if (d.stated_capacity || d.stated_pull_out) {
    double R = 0.0;
    if (d.stated_pull_out) {
      R = sheet.taken("R'", "stated for the fixing, pulled out of the wall",
                      in_pounds_force(*d.stated_pull_out), "lb", Citation{});
    } else {
      sheet.taken("R_s", "stated for the fixing down the wall", in_pounds_force(*d.stated_capacity),
                  "lb", Citation{});
      sheet.taken("share",
                  "of it that counts against a pull, until the maker's pull-out figure is recorded",
                  "", tables_.pull_of_stated);
      R = sheet.line("R'", "share R_s",
                     tables_.pull_of_stated.value * in_pounds_force(*d.stated_capacity), "lb",
                     tables_.pull_of_stated.source);
    }
    const Citation& source = d.stated_pull_out ? added : tables_.pull_of_stated.source;
    if (!(d.couple_arm.value() > 0.0) || tested || !(R > 0.0))
      return sheet.finish("T", "R'", source);
    const double sheared = ledger_fixing(d, combination).utilisation;
    if (!std::isfinite(sheared)) {
      return sheet.nothing("T", "0: such a fixing carries nothing down the wall", source);
    }
    sheet.taken("u_v", "V_1 over the value down the wall, the check before", sheared, "", source);
    const double T = in_pounds_force(pull_of_couple(d.shear, d.couple_arm, d.couple_lever));
    sheet.line("T_v", "R' (T / R' + u_v)", T + R * sheared, "lb", added);
    return sheet.finish("T_v", "R'", source);
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
  const double D = in_inches(d.diameter);
  sheet.given("D", D, "in");
  // Under the washer: no load duration across the grain.
  sheet.taken("w_D", "washers", "", tables_.washer_in_D);
  sheet.taken("F_c_perp,b", "band, weakest species", "psi", tables_.band_F_c_perp);
  sheet.taken("F_c_perp,l", d.ledger.label, in_psi(d.ledger.compression_across), "psi",
              d.ledger.source);
  const double C_M = sheet.taken("C_M", "wet service", tables_.wet_dimension.factors.F_c_perp, "",
                                 tables_.wet_dimension_source);
  const double wide = tables_.washer_in_D.value * D;
  const double F = std::min(tables_.band_F_c_perp.value, in_psi(d.ledger.compression_across));
  const double washer = sheet.line(
      "R_w", "C_M min(F_c_perp,b; F_c_perp,l) pi / 4 ((w_D D)^2 - (D + 1/16)^2)",
      C_M * F * std::numbers::pi / 4.0 * std::max(0.0, wide * wide - (D + 0.0625) * (D + 0.0625)),
      "lb", nds("3.10.2"));
  if (d.fixing == FastenerKind::bolt) return sheet.finish("T", "R_w", nds("3.10.2"));

  const Screw* lag = nullptr;
  for (const Screw& screw : tables_.lags) {
    if (screw.D <= d.diameter + mm(tables_.tested_tolerance_mm.value)) lag = &screw;
  }
  if (lag == nullptr) {
    return sheet.nothing("T", "0: thinner than any lag screw", tables_.screw_source);
  }
  sheet.taken("D_lag", "next smaller lag screw", in_inches(lag->D), "in", tables_.screw_source);
  sheet.taken("G", "band, weakest species", "", tables_.band_G);
  const double p = sheet.taken("p", "thread in the wood behind the ledger, without the point",
                               d.penetration ? in_inches(*d.penetration) : tables_.band_in.value,
                               "in", d.penetration ? Citation{} : tables_.band_in.source);
  const double W =
      sheet.line("W", "1800 G^1.5 D_lag^0.75",
                 in_pounds_force(withdrawal_lag_screw(tables_.band_G.value, lag->D) * inches(1.0)),
                 "lb/in", nds("12.2.1 (12.2-1)"));
  sheet.taken("C_D", "load duration", combination.duration_factor, "", combination.source);
  sheet.taken("C_MW", "used wet", "", tables_.withdrawal_screw_wet);
  const double out =
      sheet.line("R_out", "W p C_D C_MW",
                 W * p * combination.duration_factor * tables_.withdrawal_screw_wet.value, "lb",
                 nds("11.3.1, 12.2.1"));
  const double R = sheet.line("R'", "min(R_out; R_w)", std::min(out, washer), "lb", nds("12.2.1"));
  if (!(d.couple_arm.value() > 0.0) || tested || d.shear.value() == 0.0) {
    return sheet.finish("T", "R'", nds("12.2.1 (12.2-1)"));
  }
  // Pulled and sheared at once.
  const double sheared = ledger_fixing(d, combination).utilisation;
  if (!std::isfinite(sheared)) {
    return sheet.nothing("T", "0: such a screw carries nothing down the wall", nds("12.4.1"));
  }
  const Force T = pull_of_couple(d.shear, d.couple_arm, d.couple_lever);
  sheet.taken("u_v", "V_1 over the value down the wall, the check before", sheared, "",
              nds("11.3.1"));
  sheet.line("Z'", "V_1 / u_v", in_pounds_force(d.shear) / sheared, "lb", nds("11.3.1"));
  sheet.line("F", "sqrt(T^2 + V_1^2)", std::hypot(in_pounds_force(T), in_pounds_force(d.shear)),
             "lb", nds("12.4.1"));
  const double alpha = std::atan2(T.value(), d.shear.value()) * 180.0 / std::numbers::pi;
  sheet.line("Z_alpha", "R' Z' F^2 / (R' V_1^2 + Z' T^2)",
             in_pounds_force(pulled_and_sheared(pounds_force(R), d.shear / sheared, alpha)), "lb",
             nds("12.4.1 (12.4-1)"));
  // Where Z' is far above R', Z_alpha may exceed R': the pull alone must not.
  if (T / pounds_force(R) >= use_pulled_and_sheared(pounds_force(R), d.shear / sheared, T, d.shear))
    return sheet.finish("T", "R'", nds("11.3.1, 12.2.1 (12.2-1)"));
  return sheet.finish("F", "Z_alpha", nds("12.4.1 (12.4-1)"));
}

}  // namespace underprop::standards::north_america
