// Footings: service loads against presumed pressures, IRC R401.4 and R403.1. In psf.
#include "standard.hpp"

#include "underprop/standards/north_america/ground.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace underprop::standards::north_america {

namespace {

constexpr Shown pounds{"lb", 1.0}, pounds_per_square_foot{"psf", 1.0};

}  // namespace

/// How far a plain footing spreads what stands on it: no further than its thickness (IRC R403.1.1),
/// nor than it can bend with 2 in. of its thickness left out (ACI 318 14.5) under what the ground may
/// carry, all of it as live load. While the footing passes the real pressure is not above that; and a
/// wider spread that the real one would allow passes no footing that this one does not.
Length NorthAmericaUs::spread_of_plain_concrete(Sheet& sheet, Length thickness,
                                                double presumed_psf) const {
  const Citation aci{"aci318", "14.5.1.7, 14.5.2.1"};
  sheet.taken("f_c'", "concrete of unknown mix", "psi", tables_.footing_psi);
  sheet.taken("phi", "plain concrete", "", tables_.plain_phi);
  sheet.taken("t_0", "left out where concrete is cast on soil",
              in_feet(inches(tables_.cast_on_soil_in.value)), "ft", tables_.cast_on_soil_in.source);
  sheet.taken("gamma_L", "all load taken as live", "", tables_.plain_load_factor);
  const Length bent = plain_concrete_projection(
      thickness, inches(tables_.cast_on_soil_in.value), psi(tables_.footing_psi.value),
      tables_.plain_phi.value, tables_.plain_load_factor.value * psf(presumed_psf));
  sheet.line("s_bent",
             "max(0; t - t_0) sqrt(144 phi 5 sqrt(f_c') / (3 gamma_L q_presumed)), projection that "
             "plain concrete bends under",
             in_feet(bent), "ft", aci);
  const Length spread = min(thickness, bent);
  sheet.line("s", "min(t; s_bent), spread on each side", in_feet(spread), "ft",
             Citation{"irc", "R403.1.1, projection no more than the thickness"});
  return spread;
}

Check NorthAmericaUs::ground(const GroundDemand& d, const Combination& combination) const {
  need(combination.purpose == Purpose::ground,
       "presumed pressures go with service loads and with nothing else");
  need_valid(d);
  const double P = in_pounds_force(d.load + d.post_weight);
  const auto given_load = [&](Sheet& sheet) {
    if (d.post_weight.value() == 0.0) {
      sheet.given("P", P, "lb");
      return;
    }
    sheet.given("R", in_pounds_force(d.load), "lb");
    sheet.taken("W_p", "weight of the post", in_pounds_force(d.post_weight), "lb", Citation{});
    sheet.line("P", "R + W_p", P, "lb", Citation{"irc", "R403.1"});
  };
  if (d.type == FootingType::screw_pile) {
    Sheet sheet(CheckKind::ground, pounds);
    given_load(sheet);
    const Citation source{"judgement",
                          "a screw pile carries what its installer's torque sheet says"};
    if (!d.stated_capacity || d.stated_capacity->value() == 0.0) {
      return sheet.nothing("P", "0: no torque sheet, no capacity", source);
    }
    sheet.taken("R_s", "allowable load stated by the installer",
                in_pounds_force(*d.stated_capacity), "lb", source);
    return sheet.finish("P", "R_s", source);
  }
  const auto outlook = static_cast<std::size_t>(d.outlook);

  Sheet sheet(CheckKind::ground, pounds_per_square_foot);
  given_load(sheet);
  sheet.given("B", in_feet(d.width), "ft");
  sheet.given("L", in_feet(d.length), "ft");
  sheet.given("t", in_feet(d.thickness), "ft");
  const Length e = abs(d.offset);
  sheet.given("e", in_feet(e), "ft");
  sheet.given("b_c", in_feet(d.contact_width), "ft");
  sheet.given("l_c", in_feet(d.contact_length), "ft");

  sheet.taken("gamma_c", "concrete", "lb/ft3", tables_.concrete_pcf);
  const double own =
      sheet.line("q_own", "gamma_c t", tables_.concrete_pcf.value * in_feet(d.thickness), "psf",
                 tables_.concrete_pcf.source);
  const auto whole = [&] {
    sheet.line("q", "P / (B L) + q_own", P / (in_feet(d.width) * in_feet(d.length)) + own, "psf",
               Citation{"irc", "R403.1"});
  };
  if (e > d.width / 3.0) {
    whole();
    return sheet.nothing("q", "0: e > B/3, the load leaves the footing's middle",
                         Citation{"judgement", "a load so far off the centre tips the footing"});
  }
  // In topsoil the depth does not count and the topsoil's value caps the soil's.
  const Soil& soil = tables_.soil(d.soil);
  const Soil& topsoil = tables_.soil(SoilKind::topsoil);
  const bool rock = d.soil == SoilKind::rock;
  const bool in_topsoil = !d.below_topsoil && !rock;
  const bool bedded =
      rock || (!in_topsoil && d.depth + mm(1.0) >= inches(tables_.bedded_from_in.value));
  double presumed = (bedded ? soil.bedded_psf : soil.surface_psf)[outlook];
  const Soil* from = &soil;
  if (in_topsoil && topsoil.surface_psf[outlook] < presumed) {
    presumed = topsoil.surface_psf[outlook];
    from = &topsoil;
  }
  sheet.taken("q_presumed", from->name + (bedded ? ", bedded" : ", on the surface"), presumed,
              "psf", from->source);

  const bool spreads = d.spreads && d.thickness.value() > 0.0;
  const Length spread = spreads ? spread_of_plain_concrete(sheet, d.thickness, presumed) : mm(0);
  const std::string idle = d.spreads ? "" : ", cracked";
  const Length B = min(d.contact_width + 2.0 * spread, d.width - 2.0 * e);
  const Length L = min(d.contact_length + 2.0 * spread, d.length);
  const Citation projection{"irc", "R403.1.1, projection no more than the thickness"};
  sheet.line("B'", spreads ? "min(b_c + 2 s; B - 2 e)" : "min(b_c; B - 2 e)" + idle, in_feet(B),
             "ft", projection);
  sheet.line("L'", spreads ? "min(l_c + 2 s; L)" : "min(l_c; L)" + idle, in_feet(L), "ft",
             projection);
  if (!(B.value() > 0.0) || !(L.value() > 0.0)) {
    whole();
    return sheet.nothing("q", "0: no area works", projection);
  }
  sheet.line("q", "P / (B' L') + q_own", P / (in_feet(B) * in_feet(L)) + own, "psf",
             Citation{"irc", "R403.1"});

  if (rock) return sheet.finish("q", "q_presumed", from->source);

  const Length reference = inches(tables_.reference_width_in.value), narrow = min(B, L);
  std::string formula = "q_presumed";
  if (narrow < reference) {
    sheet.taken("W", "working width for the full value", in_feet(reference), "ft",
                tables_.reference_width_in.source);
    sheet.line("narrow", "min(B'; L') / W", narrow / reference, "",
               tables_.reference_width_in.source);
    formula += " narrow";
  }
  if (!bedded) {
    sheet.taken("q_surface", "no more than this on the surface", tables_.surface_limit_psf[outlook],
                "psf", tables_.surface_limit_source);
    formula = "min(" + formula + "; q_surface)";
  }
  double allowed = in_psf(allowable_bearing(psf(presumed), narrow, reference, bedded,
                                            psf(tables_.surface_limit_psf[outlook])));
  if (d.waterlogged) {
    sheet.taken("w", "water stands in the ground", "", tables_.wet_factor);
    allowed *= tables_.wet_factor.value;
    formula = "w " + formula;
  }
  if (formula == "q_presumed") return sheet.finish("q", "q_presumed", from->source);
  sheet.line("q_a", formula, allowed, "psf", from->source);
  return sheet.finish("q", "q_a", from->source);
}

}  // namespace underprop::standards::north_america
