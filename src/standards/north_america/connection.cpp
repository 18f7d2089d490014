#include "standards/north_america/connection.hpp"

#include "standards/north_america/require.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::standards::north_america {

namespace {

/// Up to this diameter neither group action nor geometry reduces a dowel: NDS 11.3.6.1, 12.5.1.1.
bool small(Length D) { return D < inches(0.25); }

}  // namespace

Force adjusted_connection(Force reference, const ConnectionFactors& f) {
  require(reference.value() >= 0, "adjusted_connection: the value must not be negative");
  for (const double factor : {f.C_D, f.C_M, f.C_t, f.C_g, f.C_Delta, f.C_eg, f.C_tn}) {
    require(factor >= 0 && std::isfinite(factor), "adjusted_connection: meaningless factor");
  }
  const double C_D = std::min(f.C_D, 1.6);
  return C_D * f.C_M * f.C_t * f.C_g * f.C_Delta * f.C_eg * f.C_tn * reference;
}

Stiffness slip_modulus(Length D, bool to_steel) {
  require(D.value() > 0, "slip_modulus: D must be positive");
  const double per_inch = (to_steel ? 270000.0 : 180000.0) * std::pow(in_inches(D), 1.5);
  return pounds_force(per_inch) / inches(1.0);
}

GroupAction group_action(const FastenerRow& row) {
  require(row.n >= 1, "group_action: n must be 1 or more");
  require(row.D.value() > 0, "group_action: D must be positive");
  GroupAction g;
  g.gamma_lb_per_in = in_pounds_force(slip_modulus(row.D, row.to_steel) * inches(1.0));
  if (row.n == 1 || small(row.D)) return g;
  const Force EA_m = row.E_m * row.A_m;
  const Force EA_s = row.E_s * row.A_s;
  require(row.s.value() > 0 && EA_m.value() > 0 && EA_s.value() > 0,
          "group_action: spacing and stiffness must be positive");
  const Stiffness gamma = slip_modulus(row.D, row.to_steel);
  g.u = 1.0 + gamma * (0.5 * row.s) * (1.0 / EA_m + 1.0 / EA_s);
  g.m = g.u - std::sqrt(g.u * g.u - 1.0);
  g.R_EA = std::min(EA_s / EA_m, EA_m / EA_s);
  const double n = row.n;
  const double m_n = std::pow(g.m, n);
  const double below = n * ((1.0 + g.R_EA * m_n) * (1.0 + g.m) - 1.0 + m_n * m_n);
  g.C_g = g.m * (1.0 - m_n * m_n) / below * (1.0 + g.R_EA) / (1.0 - g.m);
  g.C_g = std::min(g.C_g, 1.0);
  return g;
}

double geometry_factor_end(Length distance, Length D, EndLoading loading) {
  require(D.value() > 0 && distance.value() >= 0, "geometry_factor_end: lengths");
  if (small(D)) return 1.0;
  const Length full = (loading == EndLoading::parallel_tension ? 7.0 : 4.0) * D;
  if (distance < 0.5 * full) return 0.0;
  return std::min(1.0, distance / full);
}

double geometry_factor_spacing(Length spacing, Length D) {
  require(D.value() > 0 && spacing.value() >= 0, "geometry_factor_spacing: lengths");
  if (small(D)) return 1.0;
  if (spacing < 3.0 * D) return 0.0;
  return std::min(1.0, spacing / (4.0 * D));
}

Length least_edge_distance(Length D, bool loaded_edge) {
  require(D.value() > 0, "least_edge_distance: D must be positive");
  return (loaded_edge ? 4.0 : 1.5) * D;
}

double penetration_factor(Length p, Length D, double least_in_D, double full_in_D) {
  require(p.value() >= 0 && D.value() > 0, "penetration_factor: lengths");
  require(least_in_D > 0 && full_in_D >= least_in_D, "penetration_factor: limits");
  const double in_D = p / D;
  if (in_D < least_in_D) return 0.0;
  return std::min(1.0, in_D / full_in_D);
}

Force ledger_fastener_capacity(Force allowable, double C_D) {
  require(allowable.value() >= 0 && C_D > 0, "ledger_fastener_capacity: meaningless argument");
  return std::min(1.0, C_D) * allowable;
}

Length ledger_fastener_spacing(Force allowable, Length joist_span, Pressure load, Length cap) {
  require(allowable.value() >= 0 && joist_span.value() > 0 && load.value() > 0 && cap.value() > 0,
          "ledger_fastener_spacing: meaningless argument");
  const Length exact = allowable / (load * (0.5 * joist_span));
  // A hair of tolerance, so that 18.000 computed as 17.9999999 stays 18.
  return min(cap, inches(std::floor(in_inches(exact) + 1e-9)));
}

}  // namespace underprop::standards::north_america
