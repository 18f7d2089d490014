// Footings: service loads against presumed pressures, IRC R401.4 and R403.1. In psf.
#include "standard.hpp"
#include "standards/shared.hpp"

#include <algorithm>
#include <string>

namespace underprop::standards::north_america {

/// How far a plain footing of thickness t spreads what stands on it, line s: no further than its
/// thickness (IRC R403.1.1), nor than it can bend with 2 in. of its thickness left out (ACI 318 14.5)
/// under what the ground may carry, all of it as live load. While the footing passes the real pressure
/// is not above that; and a wider spread that the real one would allow passes no footing that this one
/// does not.
void NorthAmericaUs::spread_of_plain_concrete(Sheet& sheet) const {
  sheet.taken("f_c'", "concrete of unknown mix", "psi", tables_.footing_psi);
  sheet.taken("phi", "plain concrete", "", tables_.plain_phi);
  sheet.taken("t_0", "left out where concrete is cast on soil",
              inches(tables_.cast_on_soil_in.value), tables_.cast_on_soil_in.source);
  sheet.taken("gamma_L", "all load taken as live", "", tables_.plain_load_factor);
  sheet.line("s_bent",
             "max(0; t - t_0) sqrt(144 phi 5 sqrt(f_c') / (3 gamma_L q_presumed)), projection that "
             "plain concrete bends under",
             "ft", Citation{"aci318", "14.5.1.7, 14.5.2.1"});
  sheet.line("s", "min(t; s_bent), spread on each side", "ft",
             Citation{"irc", "R403.1.1, projection no more than the thickness"});
}

Check NorthAmericaUs::ground(const GroundDemand& d, const Combination& combination) const {
  need(combination.purpose == Purpose::ground,
       "presumed pressures go with service loads and with nothing else");
  need_valid(d);
  const FootingWords words{"P",
                           "R",
                           "allowable load stated by the installer",
                           {"irc", "R403.1"},
                           {"judgement", "a load so far off the centre tips the footing"},
                           {"irc", "R403.1.1, projection no more than the thickness"}};
  if (d.type == FootingType::screw_pile) return screw_pile(d, words, {"lb", 1.0}, Units::lb_ft);

  Sheet sheet(CheckKind::ground, {"psf", 1.0}, Units::lb_ft);
  footing_given(sheet, d, words);
  sheet.taken("gamma_c", "concrete", "lb/ft3", tables_.concrete_pcf);
  sheet.line("q_own", "gamma_c t", "psf", tables_.concrete_pcf.source);
  if (abs(d.offset) > d.width / 3.0) {
    return footing_fails(sheet, words, "0: e > B/3, the load leaves the footing's middle",
                         words.off_centre);
  }
  const bool rock = d.soil == SoilKind::rock;
  const Presumed presumed =
      presumed_line(sheet, d, tables_.soil(d.soil), tables_.soil(SoilKind::topsoil),
                    rock || d.depth + mm(1.0) >= inches(tables_.bedded_from_in.value));
  const Citation& source = presumed.from->source;
  const bool spreads = d.spreads && d.thickness.value() > 0.0;
  if (spreads) spread_of_plain_concrete(sheet);
  if (!working_area_lines(sheet, d, words, spreads)) {
    return footing_fails(sheet, words, "0: no area works", words.area);
  }
  if (presumed.stated)
    return sheet.finish("q", "q_presumed", {"irc", "R401.4.1: tested ground, instead of presumed"});
  if (rock) return sheet.finish("q", "q_presumed", source);

  std::string formula = "q_presumed";
  const Length reference = inches(tables_.reference_width_in.value);
  if (std::min(sheet.last("B'").value, sheet.last("L'").value) < sheet.in(reference)) {
    const Citation& width = tables_.reference_width_in.source;
    sheet.taken("W", "working width for the full value", reference, width);
    sheet.line("narrow", "min(B'; L') / W", "", width);
    formula += " narrow";
  }
  if (!presumed.bedded) {
    sheet.taken("q_surface", "no more than this on the surface",
                tables_.surface_limit_psf[static_cast<std::size_t>(d.outlook)], "psf",
                tables_.surface_limit_source);
    formula = "min(" + formula + "; q_surface)";
  }
  if (d.waterlogged) {
    sheet.taken("w", "water stands in the ground", "", tables_.wet_factor);
    formula = "w " + formula;
  }
  if (formula == "q_presumed") return sheet.finish("q", "q_presumed", source);
  sheet.line("q_a", formula, "psf", source);
  return sheet.finish("q", "q_a", source);
}

}  // namespace underprop::standards::north_america
