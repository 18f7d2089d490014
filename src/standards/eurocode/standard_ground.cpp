// Footings: characteristic loads against presumed (service) pressures, EN 1997-1 Annex D for sand.
#include "standard.hpp"

#include "underprop/standards/eurocode/ground.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace underprop::standards::eurocode {

namespace {

/// Where water stands, every soil but rock is halved: BS 8004 says so of granular soil, and clay in
/// a wet hole softens (judgement).
bool softened_by_water(SoilKind kind) { return kind != SoilKind::rock; }

}  // namespace

/// Net service pressure on sand by both combinations of design approach 1. How the load divides
/// into G and Q is not known here, so all of it takes the factor of Q: R/1.5 with the ground
/// unfactored (C1), R/1.3 with tan(phi')/1.25 (C2); less the soil that lay there.
double EurocodeUk::allowable_on_sand(Sheet& sheet, const Soil& soil, const GroundDemand& d,
                                     Length B, Length L, double credited_depth_mm) const {
  const AnnexD& sand = *soil.annex_d;
  sheet.line("phi'", soil.name, sand.phi_deg, "degrees", sand.source);
  const double weight = d.waterlogged ? sand.submerged_kN_m3 : sand.moist_kN_m3;
  sheet.line("gamma'", d.waterlogged ? "submerged" : "moist", weight, "kN/m3", sand.source);
  const UnitWeight gamma = kilonewtons_per_m3(weight);
  const Pressure beside = gamma * mm(credited_depth_mm);
  const double phi = sand.phi_deg * std::numbers::pi / 180.0;
  double least = 0.0;
  bool first = true;
  for (const GroundFactors* factors : {&tables_.c1, &tables_.c2}) {
    const double phi_d = design_friction_angle(phi, factors->phi);
    const Stress c = kilopascals(sand.c_kPa / factors->c);
    const double R = in_kilopascals(drained_bearing(phi_d, c, beside, gamma, B, L).resistance);
    sheet.line(
        first ? "R_C1" : "R_C2",
        first ? "q' N_q s_q + 0.5 gamma' B' N_gamma s_gamma" : "the same with tan phi' / gamma_phi",
        R, "kPa", ec7("Annex D.4 (D.2), 2.4.7.3.4.2"));
    const double net = std::max(0.0, R / factors->Q - in_kilopascals(beside));
    least = first ? net : std::min(least, net);
    first = false;
  }
  return sheet.line(
      "q_D", "min(R_C1 / gamma_Q,C1; R_C2 / gamma_Q,C2) - gamma' depth, all load taken as variable",
      least, "kPa", ec7("2.4.7.3.4.2"));
}

Check EurocodeUk::ground(const GroundDemand& d, const Combination& combination) const {
  need(combination.purpose == Purpose::ground,
       "presumed pressures go with characteristic loads and with nothing else");
  need_not_negative(d.load, "ground: the load must not be negative");
  if (d.stated_capacity) {
    need_not_negative(*d.stated_capacity, "ground: the stated capacity must not be negative");
  }
  const double F = in_kilonewtons(d.load);
  if (d.type == FootingType::screw_pile) {
    Sheet sheet("ground", "kN");
    sheet.given("F_k", F, "kN");
    const Citation source{"judgement",
                          "a screw pile carries what its installer's torque sheet says"};
    if (!d.stated_capacity || d.stated_capacity->value() == 0.0) {
      return sheet.nothing(F, "0: no torque sheet, no capacity", source);
    }
    const double R = sheet.line("R", "working capacity stated by the installer",
                                in_kilonewtons(*d.stated_capacity), "kN", source);
    return sheet.finish(F, R, source);
  }
  need_positive(d.width, "ground: the footing's width must be positive");
  need_positive(d.length, "ground: the footing's length must be positive");
  need_not_negative(d.thickness, "ground: the thickness must not be negative");
  need_not_negative(d.contact_width, "ground: the contact must not be negative");
  need_not_negative(d.contact_length, "ground: the contact must not be negative");
  need_not_negative(d.depth, "ground: the depth must not be negative");
  need(std::isfinite(d.offset.value()), "ground: the offset must be a number");
  const auto outlook = static_cast<std::size_t>(d.outlook);
  need(outlook < 3, "ground: unknown outlook");

  Sheet sheet("ground", "kPa");
  sheet.given("F_k", F, "kN");
  sheet.given("B", in_mm(d.width), "mm");
  sheet.given("L", in_mm(d.length), "mm");
  sheet.given("t", in_mm(d.thickness), "mm");
  sheet.given("e", in_mm(abs(d.offset)), "mm");

  // Own weight over the whole base, less the soil that it displaces.
  sheet.line("gamma_concrete", "plain", "kN/m3", tables_.concrete_kN_m3);
  sheet.line("gamma_soil", "displaced", "kN/m3", tables_.displaced_soil_kN_m3);
  const Length sunk = min(d.depth, d.thickness);
  const double own =
      sheet.line("q_own", "gamma_concrete t - gamma_soil x the part of t below ground",
                 std::max(0.0, tables_.concrete_kN_m3.value * in_metres(d.thickness) -
                                   tables_.displaced_soil_kN_m3.value * in_metres(sunk)),
                 "kPa", tables_.concrete_kN_m3.source);
  const double whole = F / (in_metres(d.width) * in_metres(d.length));
  if (is_eccentricity_excessive(d.width, d.offset)) {
    return sheet.nothing(whole + own, "0: e > B/3, the load leaves the footing's middle",
                         ec7("6.5.4(1)"));
  }
  const Length spread = d.spreads ? d.thickness : mm(0);
  const Length B = min(d.contact_width + 2.0 * spread, effective_width(d.width, d.offset));
  const Length L = min(d.contact_length + 2.0 * spread, d.length);
  sheet.line("B'", d.spreads ? "min(contact + 2 t; B - 2 e)" : "min(contact; B - 2 e), cracked",
             in_mm(B), "mm", ec7("Annex D.2; spread at 45 degrees"));
  sheet.line("L'", d.spreads ? "min(contact + 2 t; L)" : "min(contact; L), cracked", in_mm(L), "mm",
             ec7("Annex D.2; spread at 45 degrees"));
  if (!(B.value() > 0.0) || !(L.value() > 0.0)) {
    return sheet.nothing(whole + own, "0: no area works", ec7("Annex D.2"));
  }
  const double q = sheet.line("q", "F_k / (B' L') + q_own", F / (in_metres(B) * in_metres(L)) + own,
                              "kPa", ec7("6.5.2"));

  // In topsoil the depth does not count and the topsoil's value caps the soil's.
  const Soil& soil = tables_.soil(d.soil);
  const Soil& topsoil = tables_.soil(SoilKind::topsoil);
  const bool in_topsoil = !d.below_topsoil && d.soil != SoilKind::rock;
  const bool bedded = !in_topsoil && soil.bedded_from_mm && in_mm(d.depth) >= *soil.bedded_from_mm;
  double presumed = (bedded ? soil.bedded_kPa : soil.surface_kPa)[outlook];
  const Soil* from = &soil;
  if (in_topsoil && topsoil.surface_kPa[outlook] < presumed) {
    presumed = topsoil.surface_kPa[outlook];
    from = &topsoil;
  }
  double allowed = sheet.line("q_presumed", from->name + (bedded ? ", bedded" : ", on the surface"),
                              presumed, "kPa", from->source);
  Citation governing = from->source;
  if (d.waterlogged && softened_by_water(d.soil)) {
    sheet.line("w", "water stands in the ground", "", tables_.wet_factor);
    allowed = sheet.line("q_wet", "w q_presumed", tables_.wet_factor.value * allowed, "kPa",
                         tables_.wet_factor.source);
  }
  if (soil.annex_d) {
    const double sand = allowable_on_sand(sheet, soil, d, B, L, in_topsoil ? 0.0 : in_mm(d.depth));
    if (sand < allowed) {
      allowed = sand;
      governing = ec7("Annex D.4 (D.2)");
    }
  }
  return sheet.finish(q, allowed, governing);
}

}  // namespace underprop::standards::eurocode
