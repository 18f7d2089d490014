// Factors that adjust the value of a fastener, and ledger fasteners: NDS chapters 11 and 12.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::north_america {

/// Factors of NDS Table 11.3.1 (ASD) for dowel-type fasteners.
struct ConnectionFactors {
  double C_D = 1.0;      ///< load duration; NDS 11.3.2 allows no more than 1.6
  double C_M = 1.0;      ///< wet service, Table 11.3.3
  double C_t = 1.0;      ///< temperature, Table 11.3.4
  double C_g = 1.0;      ///< group action, lateral only
  double C_Delta = 1.0;  ///< geometry, lateral only
  double C_eg = 1.0;     ///< end grain
  double C_tn = 1.0;     ///< toe-nail
};
/// Z' or W' = the reference value times the applicable factors. NDS 11.3.1. C_D above 1.6 counts as
/// 1.6.
Force adjusted_connection(Force reference, const ConnectionFactors& factors);

/// Load/slip modulus of one dowel with D >= 1/4 in., gamma = 180,000 D^1.5 lb/in. wood to wood,
/// 270,000 D^1.5 wood to steel. NDS 11.3.6 (11.3-1).
Stiffness slip_modulus(Length D, bool to_steel);

/// A row of n fasteners spaced s along the load.
struct FastenerRow {
  int n = 1;
  Length s;
  Length D;
  Stress E_m, E_s;  ///< of main and side member
  Area A_m, A_s;    ///< gross sections of main member and of all side members together
  bool to_steel = false;
};
/// The lines of the group action factor, for printing.
struct GroupAction {
  double gamma_lb_per_in = 0.0;
  double u = 1.0, m = 1.0, R_EA = 1.0, C_g = 1.0;
};
/// C_g = m(1 - m^2n)/(n((1 + R_EA m^n)(1 + m) - 1 + m^2n)) (1 + R_EA)/(1 - m); 1 for one fastener
/// or D < 1/4 in. NDS 11.3.6 (11.3-1).
GroupAction group_action(const FastenerRow& row);

/// How the load acts on the end that a fastener is near.
enum class EndLoading {
  parallel_tension,      ///< towards the end, softwood: 7D for full value, 3.5D least
  parallel_compression,  ///< away from the end: 4D, 2D
  perpendicular          ///< 4D, 2D
};
/// C_Delta by end distance for D >= 1/4 in.: distance/full, 1 at most, 0 (no value) below the
/// least. NDS 12.5.1.1(a), Table 12.5.1A. Below 1/4 in. C_Delta is 1 (12.5.1.1).
double geometry_factor_end(Length distance, Length D, EndLoading loading);

/// C_Delta by spacing in a row parallel to grain for D >= 1/4 in.: spacing/4D, 1 at most, 0 below
/// 3D. NDS 12.5.1.1(c), Table 12.5.1B. Below 1/4 in. 1.
double geometry_factor_spacing(Length spacing, Length D);

/// Least edge distance for D >= 1/4 in.: 4D at a loaded edge across the grain, else 1.5D.
/// NDS Table 12.5.1C (l/D <= 6). There is no reduced value: below it the fastener has none.
Length least_edge_distance(Length D, bool loaded_edge);

/// Share of a tabulated lateral value at penetration p: 0 below `least_in_D` diameters,
/// p/(`full_in_D` D) up to full value, else 1. Lag screws 4D (without the tip) and 8D, wood screws
/// and nails 6D and 10D: NDS 12.1.4.6, 12.1.5.6, 12.1.6.5, notes of Tables 12J to 12N. A value by
/// the yield equations with p as bearing length needs only the least penetration; the share then
/// errs on the safe side.
double penetration_factor(Length p, Length D, double least_in_D, double full_in_D);

/// Allowable load of one ledger fastener: the tested allowable value times C_D, never more than the
/// tested value. The values (data) stand for 1/2 in. lags and bolts through a 2x ledger into a
/// sound wood band, wet; uniform joist reactions only. IRC R507.9.1.3, DCA 6 Table 5; NDS 2.3.2.
Force ledger_fastener_capacity(Force allowable, double C_D);

/// Spacing of ledger fasteners that each take half a joist span: allowable/(load span/2) rounded
/// down to whole inches, no more than `cap`. DCA 6 Table 5, IRC Table R507.9.1.3(1).
Length ledger_fastener_spacing(Force allowable, Length joist_span, Pressure load, Length cap);

}  // namespace underprop::standards::north_america
