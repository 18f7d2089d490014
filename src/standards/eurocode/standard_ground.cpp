// Footings: characteristic loads against presumed (service) pressures, EN 1997-1 Annex D for sand.
#include "standard.hpp"

#include "underprop/standards/eurocode/ground.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

namespace underprop::standards::eurocode {

namespace {

constexpr Shown kilonewtons{"kN", 1.0}, kilopascals_shown{"kPa", 1.0};

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
  sheet.taken("phi'", soil.name, sand.phi_deg, "degrees", sand.source);
  const double weight = d.waterlogged ? sand.submerged_kN_m3 : sand.moist_kN_m3;
  sheet.taken("gamma'", d.waterlogged ? "submerged" : "moist", weight, "kN/m3", sand.source);
  const UnitWeight gamma = kilonewtons_per_m3(weight);
  const Pressure beside = gamma * mm(credited_depth_mm);
  sheet.taken("D", "depth that counts, of the underside", credited_depth_mm / 1e3, "m", Citation{});
  sheet.line("q'", "gamma' D", in_kilopascals(beside), "kPa", ec7("Annex D.4"));
  sheet.line("W", "min(B'; L')", in_metres(min(B, L)), "m", ec7("Annex D.4"));
  sheet.line("ratio", "min(B'; L') / max(B'; L')", min(B, L) / max(B, L), "", ec7("Annex D.4"));
  const double phi = sand.phi_deg * std::numbers::pi / 180.0;
  double least = 0.0;
  bool first = true;
  for (const GroundFactors* factors : {&tables_.c1, &tables_.c2}) {
    // The symbols of the two combinations carry their number.
    const std::string n = first ? "1" : "2";
    const auto named = [&n](const char* stem) { return stem + n; };
    const double phi_d = design_friction_angle(phi, factors->phi);
    const Stress c = kilopascals(sand.c_kPa / factors->c);
    const DrainedBearing bearing = drained_bearing(phi_d, c, beside, gamma, B, L);
    const double R = in_kilopascals(bearing.resistance);
    const Citation annex = ec7("Annex D.4 (D.2), 2.4.7.3.4.2");
    sheet.taken(named("gamma_phi").c_str(), "combination C" + n, factors->phi, "", annex);
    sheet.taken(named("gamma_Q").c_str(), "combination C" + n, factors->Q, "", annex);
    sheet.line(named("t_phi").c_str(), "tan(phi') / gamma_phi" + n + ", tan of the design angle",
               std::tan(phi_d), "", annex);
    const std::string t = "t_phi" + n;
    sheet.line(named("N_q").c_str(), "exp(pi " + t + ") (" + t + " + sqrt(1 + " + t + "^2))^2",
               bearing.N_q, "", annex);
    sheet.line(named("N_gamma").c_str(), "2 (N_q" + n + " - 1) " + t, bearing.N_gamma, "", annex);
    sheet.line(named("s_q").c_str(), "1 + ratio " + t + " / sqrt(1 + " + t + "^2)", bearing.s_q, "",
               annex);
    sheet.line(named("s_gamma").c_str(), "1 - 0.3 ratio", bearing.s_gamma, "", annex);
    std::string resistance =
        "q' N_q" + n + " s_q" + n + " + 0.5 gamma' W N_gamma" + n + " s_gamma" + n;
    if (sand.c_kPa > 0.0) {
      sheet.taken(named("c_d").c_str(), "cohesion, its factor taken off", sand.c_kPa / factors->c,
                  "kPa", annex);
      resistance += " + c_d" + n + " (s_q" + n + " N_q" + n + " - 1) / " + t;
    }
    sheet.line(named("R_C").c_str(), resistance, R, "kPa", annex);
    const double net = std::max(0.0, R / factors->Q - in_kilopascals(beside));
    least = first ? net : std::min(least, net);
    first = false;
  }
  return sheet.line(
      "q_D", "max(0; min(R_C1 / gamma_Q1; R_C2 / gamma_Q2) - q'), all load taken as variable",
      least, "kPa", ec7("2.4.7.3.4.2"));
}

/// How far a plain pad of that thickness spreads what stands on it: at 45 degrees, less where the ground
/// can press harder than the concrete can bend (EN 1992-1-1 12.9.3). The pressure taken is what the
/// ground may carry, all load as variable: while the pad passes, the real one is not above it; and a
/// wider spread that the real one would allow passes no pad that this one does not (the projection
/// times the root of the pressure only grows with the projection).
Length EurocodeUk::spread_of_plain_concrete(Sheet& sheet, Length thickness, double allowed_kPa,
                                            const std::string& allowed) const {
  const Citation clause{"en1992-1-1", "12.9.3(1) (12.13)"};
  sheet.taken("f_ctk", "concrete of unknown mix", "N/mm2", tables_.f_ctk_MPa);
  sheet.taken("alpha_ct,pl", "plain concrete", "", tables_.alpha_ct_pl);
  sheet.taken("gamma_C", "concrete", "", tables_.gamma_C);
  const Stress f_ctd = f_ctd_plain(tables_.alpha_ct_pl.value, megapascals(tables_.f_ctk_MPa.value),
                                   tables_.gamma_C.value);
  sheet.line("f_ctd", "1000 alpha_ct,pl f_ctk / gamma_C", in_kilopascals(f_ctd), "kPa",
             Citation{"en1992-1-1", "12.3.1(2) (12.1)"});
  sheet.taken("gamma_F", "all load taken as variable", tables_.c1.Q, "", ec7("2.4.7.3.4.2"));
  const Pressure sigma_gd = kilopascals(
      sheet.line("sigma_gd", "gamma_F " + allowed, tables_.c1.Q * allowed_kPa, "kPa", clause));
  const double slope =
      sheet.line("slope", "sqrt(3 sigma_gd / f_ctd) / 0.85, least thickness to projection",
                 plain_footing_slope(sigma_gd, f_ctd), "", clause);
  const Length spread = thickness / std::max(1.0, slope);
  sheet.line("s", "t / max(1; slope), spread on each side", in_metres(spread), "m", clause);
  return spread;
}

Check EurocodeUk::ground(const GroundDemand& d, const Combination& combination) const {
  need(combination.purpose == Purpose::ground,
       "presumed pressures go with characteristic loads and with nothing else");
  need_valid(d);
  const double F = in_kilonewtons(d.load + d.post_weight);
  const auto given_load = [&](Sheet& sheet) {
    if (d.post_weight.value() == 0.0) {
      sheet.given("F_k", F, "kN");
      return;
    }
    sheet.given("R_k", in_kilonewtons(d.load), "kN");
    sheet.taken("W_p", "weight of the post", in_kilonewtons(d.post_weight), "kN", Citation{});
    sheet.line("F_k", "R_k + W_p", F, "kN", ec7("6.5.2"));
  };
  if (d.type == FootingType::screw_pile) {
    Sheet sheet(CheckKind::ground, kilonewtons);
    given_load(sheet);
    const Citation source{"judgement",
                          "a screw pile carries what its installer's torque sheet says"};
    if (!d.stated_capacity || d.stated_capacity->value() == 0.0) {
      return sheet.nothing("F_k", "0: no torque sheet, no capacity", source);
    }
    sheet.taken("R_s", "working capacity stated by the installer",
                in_kilonewtons(*d.stated_capacity), "kN", source);
    return sheet.finish("F_k", "R_s", source);
  }
  const auto outlook = static_cast<std::size_t>(d.outlook);

  Sheet sheet(CheckKind::ground, kilopascals_shown);
  given_load(sheet);
  sheet.given("B", in_metres(d.width), "m");
  sheet.given("L", in_metres(d.length), "m");
  sheet.given("t", in_metres(d.thickness), "m");
  sheet.given("e", in_metres(abs(d.offset)), "m");
  sheet.given("b_c", in_metres(d.contact_width), "m");
  sheet.given("l_c", in_metres(d.contact_length), "m");

  // Own weight over the whole base, less the soil that it displaces.
  sheet.taken("gamma_c", "plain concrete", "kN/m3", tables_.concrete_kN_m3);
  sheet.taken("gamma_s", "displaced soil", "kN/m3", tables_.displaced_soil_kN_m3);
  const Length sunk = min(d.depth, d.thickness);
  sheet.taken("t_s", "part of t below ground", in_metres(sunk), "m", Citation{});
  const double own =
      sheet.line("q_own", "max(0; gamma_c t - gamma_s t_s)",
                 std::max(0.0, tables_.concrete_kN_m3.value * in_metres(d.thickness) -
                                   tables_.displaced_soil_kN_m3.value * in_metres(sunk)),
                 "kPa", tables_.concrete_kN_m3.source);
  const auto whole = [&] {
    sheet.line("q", "F_k / (B L) + q_own", F / (in_metres(d.width) * in_metres(d.length)) + own,
               "kPa", ec7("6.5.2"));
  };
  if (is_eccentricity_excessive(d.width, d.offset)) {
    whole();
    return sheet.nothing("q", "0: e > B/3, the load leaves the footing's middle", ec7("6.5.4(1)"));
  }
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
  std::string governing = "q_presumed";
  double allowed =
      sheet.taken("q_presumed", from->name + (bedded ? ", bedded" : ", on the surface"), presumed,
                  "kPa", from->source);
  Citation clause = from->source;
  if (d.waterlogged && softened_by_water(d.soil)) {
    sheet.taken("w", "water stands in the ground", "", tables_.wet_factor);
    allowed = sheet.line("q_wet", "w q_presumed", tables_.wet_factor.value * allowed, "kPa",
                         tables_.wet_factor.source);
    governing = "q_wet";
  }

  const bool spreads = d.spreads && d.thickness.value() > 0.0;
  const Length spread =
      spreads ? spread_of_plain_concrete(sheet, d.thickness, allowed, governing) : mm(0);
  const std::string idle = d.spreads ? "" : ", cracked";
  const Length B = min(d.contact_width + 2.0 * spread, effective_width(d.width, d.offset));
  const Length L = min(d.contact_length + 2.0 * spread, d.length);
  const Citation effective = ec7("Annex D.2; spread by EN 1992-1-1 12.9.3");
  sheet.line("B'", spreads ? "min(b_c + 2 s; B - 2 e)" : "min(b_c; B - 2 e)" + idle, in_metres(B),
             "m", effective);
  sheet.line("L'", spreads ? "min(l_c + 2 s; L)" : "min(l_c; L)" + idle, in_metres(L), "m",
             effective);
  if (!(B.value() > 0.0) || !(L.value() > 0.0)) {
    whole();
    return sheet.nothing("q", "0: no area works", ec7("Annex D.2"));
  }
  sheet.line("q", "F_k / (B' L') + q_own", F / (in_metres(B) * in_metres(L)) + own, "kPa",
             ec7("6.5.2"));
  if (soil.annex_d) {
    const double sand = allowable_on_sand(sheet, soil, d, B, L, in_topsoil ? 0.0 : in_mm(d.depth));
    if (sand < allowed) {
      governing = "q_D";
      clause = ec7("Annex D.4 (D.2)");
    }
  }
  return sheet.finish("q", governing, clause);
}

}  // namespace underprop::standards::eurocode
