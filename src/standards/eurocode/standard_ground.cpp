// Footings: characteristic loads against presumed (service) pressures, EN 1997-1 Annex D for sand.
#include "standard.hpp"
#include "standards/shared.hpp"

#include "standards/eurocode/ground.hpp"

#include <string>

namespace underprop::standards::eurocode {

namespace {

/// Where water stands, every soil but rock is halved: BS 8004 says so of granular soil, and clay in
/// a wet hole softens (judgement).
bool softened_by_water(SoilKind kind) { return kind != SoilKind::rock; }

}  // namespace

/// Net service pressure on sand by both combinations of design approach 1, line q_D. How the load
/// divides into G and Q is not known here, so all of it takes the factor of Q: R/1.5 with the ground
/// unfactored (C1), R/1.3 with tan(phi')/1.25 (C2); less the soil that lay there.
double EurocodeUk::allowable_on_sand(Sheet& sheet, const std::string& name, const AnnexD& sand,
                                     bool waterlogged, Length depth) const {
  const Citation annex = ec7("Annex D.4 (D.2), 2.4.7.3.4.2");
  sheet.taken("phi'", name, sand.phi_deg, "degrees", sand.source);
  sheet.taken("gamma'", waterlogged ? "submerged" : "moist",
              waterlogged ? sand.submerged_kN_m3 : sand.moist_kN_m3, "kN/m3", sand.source);
  sheet.taken("D", "depth that counts, of the underside", depth, Citation{});
  sheet.line("q'", "gamma' D", "kPa", ec7("Annex D.4"));
  sheet.line("W", "min(B'; L')", "m", ec7("Annex D.4"));
  sheet.line("ratio", "min(B'; L') / max(B'; L')", "", ec7("Annex D.4"));
  for (const auto& [n, factors] :
       {std::pair<std::string, const GroundFactors&>{"1", tables_.c1}, {"2", tables_.c2}}) {
    // The symbols of the two combinations carry their number.
    const std::string t = "t_phi" + n;
    sheet.taken(("gamma_phi" + n).c_str(), "combination C" + n, factors.phi, "", annex);
    sheet.taken(("gamma_Q" + n).c_str(), "combination C" + n, factors.Q, "", annex);
    sheet.line(t, "tan(phi') / gamma_phi" + n + ", tan of the design angle", "", annex);
    sheet.line("N_q" + n, "exp(pi " + t + ") (" + t + " + sqrt(1 + " + t + "^2))^2", "", annex);
    sheet.line("N_gamma" + n, "2 (N_q" + n + " - 1) " + t, "", annex);
    sheet.line("s_q" + n, "1 + ratio " + t + " / sqrt(1 + " + t + "^2)", "", annex);
    sheet.line("s_gamma" + n, "1 - 0.3 ratio", "", annex);
    std::string resistance =
        "q' N_q" + n + " s_q" + n + " + 0.5 gamma' W N_gamma" + n + " s_gamma" + n;
    if (sand.c_kPa > 0.0) {
      sheet.taken(("c_d" + n).c_str(), "cohesion, its factor taken off", sand.c_kPa / factors.c,
                  "kPa", annex);
      resistance += " + c_d" + n + " (s_q" + n + " N_q" + n + " - 1) / " + t;
    }
    sheet.line("R_C" + n, resistance, "kPa", annex);
  }
  return sheet.line(
      "q_D", "max(0; min(R_C1 / gamma_Q1; R_C2 / gamma_Q2) - q'), all load taken as variable",
      "kPa", ec7("2.4.7.3.4.2"));
}

/// Net service pressure on clay, undrained, by both combinations of design approach 1, line q_U: R/1.5 with
/// c_u (C1), R/1.3 with c_u/1.4 (C2), all load as variable. Measured c_u: besides a third of the
/// characteristic resistance, so that no settlement need be proved (6.6.2(16)). Level base, no inclination.
double EurocodeUk::allowable_on_clay(Sheet& sheet, const GroundDemand& d,
                                     const std::optional<Undrained>& by_hand) const {
  const Citation annex = ec7("Annex D.3 (D.1), 2.4.7.3.4.2");
  if (d.shear_strength) {
    sheet.taken("c_u", "measured", *d.shear_strength, Citation{});
  } else {
    sheet.taken("c_u", "by its consistency in the hand", by_hand->c_u_kPa, "kPa", by_hand->source);
  }
  sheet.taken("D", "depth of the underside", d.depth, Citation{});
  sheet.line("s_c", "1 + 0.2 min(B'; L') / max(B'; L')", "", ec7("Annex D.3"));
  for (const auto& [n, factors] :
       {std::pair<std::string, const GroundFactors&>{"1", tables_.c1}, {"2", tables_.c2}}) {
    sheet.taken(("gamma_cu" + n).c_str(), "combination C" + n, factors.cu, "", annex);
    sheet.taken(("gamma_Q" + n).c_str(), "combination C" + n, factors.Q, "", annex);
    sheet.line("R_C" + n, "(pi + 2) s_c c_u / gamma_cu" + n + " + gamma_s D", "kPa", annex);
  }
  std::string least = "R_C1 / gamma_Q1; R_C2 / gamma_Q2";
  if (d.shear_strength) {
    sheet.line("R_u3", "((pi + 2) s_c c_u + gamma_s D) / 3, no settlement to prove", "kPa",
               ec7("6.6.2(16)"));
    least += "; R_u3";
  }
  return sheet.line("q_U", "max(0; min(" + least + ") - gamma_s D)", "kPa", annex);
}

/// How far a plain pad of thickness t spreads what stands on it, line s: as far as the concrete can bend
/// under what the ground can press (EN 1992-1-1 12.9.3), which may be flatter than 45 degrees. The pressure taken is what
/// the ground may carry, all load as variable: while the pad passes, the real one is not above it; and
/// a wider spread that the real one would allow passes no pad that this one does not (the projection
/// times the root of the pressure only grows with the projection).
void EurocodeUk::spread_of_plain_concrete(Sheet& sheet, const std::string& allowed) const {
  const Citation clause{"en1992-1-1", "12.9.3(1) (12.13)"};
  sheet.taken("f_ctk", "concrete of unknown mix", "N/mm2", tables_.f_ctk_MPa);
  sheet.taken("alpha_ct,pl", "plain concrete", "", tables_.alpha_ct_pl);
  sheet.taken("gamma_C", "concrete", "", tables_.gamma_C);
  sheet.line("f_ctd", "1000 alpha_ct,pl f_ctk / gamma_C", "kPa",
             Citation{"en1992-1-1", "12.3.1(2) (12.1)"});
  sheet.taken("gamma_F", "all load taken as variable", tables_.c1.Q, "", ec7("2.4.7.3.4.2"));
  sheet.line("sigma_gd", "gamma_F " + allowed, "kPa", clause);
  sheet.line("slope", "sqrt(3 sigma_gd / f_ctd) / 0.85, least thickness to projection", "", clause);
  sheet.line("s", "t / slope, spread on each side", "m", clause);
}

Check EurocodeUk::ground(const GroundDemand& d, const Combination& combination) const {
  need(combination.purpose == Purpose::ground,
       "presumed pressures go with characteristic loads and with nothing else");
  need_valid(d);
  const FootingWords words{
      "F_k",        "R_k",           "working capacity stated by the installer",
      ec7("6.5.2"), ec7("6.5.4(1)"), ec7("Annex D.2; spread by EN 1992-1-1 12.9.3")};
  if (d.type == FootingType::screw_pile) return screw_pile(d, words, {"kN", 1.0}, Units::kN_m);

  Sheet sheet(CheckKind::ground, {"kPa", 1.0}, Units::kN_m);
  footing_given(sheet, d, words);
  // Own weight over the whole base, less the soil that it displaces.
  sheet.taken("gamma_c", "plain concrete", "kN/m3", tables_.concrete_kN_m3);
  sheet.taken("gamma_s", "displaced soil", "kN/m3", tables_.displaced_soil_kN_m3);
  sheet.taken("t_s", "part of t below ground", min(d.depth, d.thickness), Citation{});
  sheet.line("q_own", "max(0; gamma_c t - gamma_s t_s)", "kPa", tables_.concrete_kN_m3.source);
  if (is_eccentricity_excessive(d.width, d.offset)) {
    return footing_fails(sheet, words, "0: e > B/3, the load leaves the footing's middle",
                         words.off_centre);
  }
  const Soil& soil = tables_.soil(d.soil);
  const std::optional<Length>& bedded_from = tables_.extra(d.soil).bedded_from;
  const Presumed presumed = presumed_line(sheet, d, soil, tables_.soil(SoilKind::topsoil),
                                          bedded_from && d.depth >= *bedded_from);
  double allowed = presumed.pressure;
  std::string governing = "q_presumed";
  Citation clause = presumed.from->source;
  if (presumed.stated) clause = ec7("6.5.2.4, stated for this ground");
  if (d.waterlogged && softened_by_water(d.soil) && !presumed.stated) {
    sheet.taken("w", "water stands in the ground", "", tables_.wet_factor);
    allowed = sheet.line("q_wet", "w q_presumed", "kPa", tables_.wet_factor.source);
    governing = "q_wet";
  }
  // Known clay that lies open to no water carries by its strength, up to what is presumed of it bedded;
  // measured clay by its strength.
  const std::optional<Undrained>& by_hand = tables_.extra(d.soil).undrained;
  const bool by_strength = !presumed.in_topsoil && !presumed.stated &&
                           (d.shear_strength || (by_hand && !d.waterlogged && !presumed.bedded));
  const bool spreads = d.spreads && d.thickness.value() > 0.0;
  std::string most = governing;
  if (by_strength && d.shear_strength) {
    sheet.taken("c_u,0", "measured", *d.shear_strength, Citation{});
    most = sheet.line("q_most", "1.2 (pi + 2) c_u,0 / 3, at most", "kPa", ec7("Annex D.3")) > 0.0
               ? "q_most"
               : governing;
  } else if (by_strength) {
    sheet.taken("q_bedded", soil.name + ", bedded",
                soil.bedded[static_cast<std::size_t>(d.outlook)], "kPa", soil.source);
    most = "q_bedded";
  }
  if (spreads) spread_of_plain_concrete(sheet, most);
  if (!working_area_lines(sheet, d, words, spreads)) {
    return footing_fails(sheet, words, "0: no area works", ec7("Annex D.2"));
  }
  if (const std::optional<AnnexD>& sand = tables_.extra(d.soil).annex_d;
      sand && !presumed.stated && !by_strength) {
    const Length counts = presumed.in_topsoil ? mm(0) : d.depth;
    if (allowable_on_sand(sheet, soil.name, *sand, d.waterlogged, counts) < allowed) {
      governing = "q_D";
      clause = ec7("Annex D.4 (D.2)");
    }
  }
  if (by_strength) {
    allowable_on_clay(sheet, d, by_hand);
    clause = ec7("Annex D.3 (D.1)");
    if (d.shear_strength) return sheet.finish("q", "q_U", clause);
    sheet.line("q_a", "max(" + governing + "; min(q_U; q_bedded))", "kPa", clause);
    governing = "q_a";
  }
  return sheet.finish("q", governing, clause);
}

}  // namespace underprop::standards::eurocode
