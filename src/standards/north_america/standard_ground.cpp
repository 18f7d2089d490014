// Footings: service loads against presumed pressures, IRC R401.4 and R403.1. In psf.
#include "standard.hpp"

#include "underprop/standards/north_america/ground.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::standards::north_america {

Check NorthAmericaUs::ground(const GroundDemand& d, const Combination& combination) const {
  need(combination.purpose == Purpose::ground,
       "presumed pressures go with service loads and with nothing else");
  need_not_negative(d.load, "ground: the load must not be negative");
  need_capacity(d.stated_capacity);
  const double P = in_pounds_force(d.load);
  if (d.type == FootingType::screw_pile) {
    Sheet sheet("ground", "lb");
    sheet.given("P", P, "lb");
    const Citation source{"judgement",
                          "a screw pile carries what its installer's torque sheet says"};
    if (!d.stated_capacity || d.stated_capacity->value() == 0.0) {
      return sheet.nothing(P, "0: no torque sheet, no capacity", source);
    }
    const double R = sheet.line("R", "allowable load stated by the installer",
                                in_pounds_force(*d.stated_capacity), "lb", source);
    return sheet.finish(P, R, source);
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

  Sheet sheet("ground", "psf");
  sheet.given("P", P, "lb");
  sheet.given("B", in_inches(d.width), "in");
  sheet.given("L", in_inches(d.length), "in");
  sheet.given("t", in_inches(d.thickness), "in");
  const Length e = abs(d.offset);
  sheet.given("e", in_inches(e), "in");

  const double own =
      sheet.line("q_own", "150 lb/ft3 t", tables_.concrete_pcf.value * in_feet(d.thickness), "psf",
                 tables_.concrete_pcf.source);
  const double whole = P / (in_feet(d.width) * in_feet(d.length)) + own;
  if (e > d.width / 3.0) {
    return sheet.nothing(whole, "0: e > B/3, the load leaves the footing's middle",
                         Citation{"judgement", "a load so far off the centre tips the footing"});
  }
  const Length spread = d.spreads ? d.thickness : mm(0);
  const Length B = min(d.contact_width + 2.0 * spread, d.width - 2.0 * e);
  const Length L = min(d.contact_length + 2.0 * spread, d.length);
  const Citation projection{"irc", "R403.1.1, projection no more than the thickness"};
  sheet.line("B'", d.spreads ? "min(contact + 2 t; B - 2 e)" : "min(contact; B - 2 e), cracked",
             in_inches(B), "in", projection);
  sheet.line("L'", d.spreads ? "min(contact + 2 t; L)" : "min(contact; L), cracked", in_inches(L),
             "in", projection);
  if (!(B.value() > 0.0) || !(L.value() > 0.0)) {
    return sheet.nothing(whole, "0: no area works", projection);
  }
  const double q = sheet.line("q", "P / (B' L') + q_own", P / (in_feet(B) * in_feet(L)) + own,
                              "psf", Citation{"irc", "R403.1"});

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
  sheet.line("q_presumed", from->name + (bedded ? ", bedded" : ", on the surface"), presumed, "psf",
             from->source);
  Citation governing = from->source;
  double allowed = presumed;
  if (!rock) {
    const double reference = tables_.reference_width_in.value;
    const Length narrow = min(B, L);
    if (narrow < inches(reference)) {
      sheet.line("narrow", "working width / 12 in.", in_inches(narrow) / reference, "",
                 tables_.reference_width_in.source);
    }
    if (!bedded) {
      sheet.line("q_surface", "no more than this on the surface",
                 tables_.surface_limit_psf[outlook], "psf", tables_.surface_limit_source);
    }
    allowed = in_psf(allowable_bearing(psf(presumed), narrow, inches(reference), bedded,
                                       psf(tables_.surface_limit_psf[outlook])));
    if (d.waterlogged) {
      sheet.line("w", "water stands in the ground", "", tables_.wet_factor);
      allowed *= tables_.wet_factor.value;
    }
    if (allowed < presumed) sheet.line("q_a", "with the reductions", allowed, "psf", governing);
  }
  return sheet.finish(q, allowed, governing);
}

}  // namespace underprop::standards::north_america
