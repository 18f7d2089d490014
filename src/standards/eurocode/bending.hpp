// Bending with lateral torsional stability: EN 1995-1-1 6.1.6 and 6.3.3.
//
// Units: N mm, mm, MPa. Arguments without meaning throw std::domain_error.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::eurocode {

/// sigma_m = 6 M/(b h^2) of a rectangle bent about its strong axis.
Stress bending_stress(Moment M, Length b, Length h);

/// The rows of EN 1995-1-1 Table 6.1. "Cantilever" rows hold for a member fixed at one end.
enum class BendingCase {
  constant_moment,         ///< l_ef/l = 1.0
  uniform_load,            ///< 0.9
  point_load_at_midspan,   ///< 0.8
  cantilever_uniform,      ///< 0.5
  cantilever_point_at_tip  ///< 0.8
};

/// Where the load acts over the depth: on the compression edge, at the centre line, or on the
/// tension edge.
enum class LoadedEdge { compression, centre_line, tension };

/// Effective length for lateral torsional buckling. EN 1995-1-1 6.3.3(3), Table 6.1: the ratio
/// l_ef/l times the distance l between points held sideways, plus 2h for a load on the compression
/// edge, minus 0.5h for one on the tension edge. Valid for members whose supports hold them against
/// torsion. The deduction is never taken as more than half of the ratio times l (ours, so that a
/// short deep member keeps a positive length).
Length effective_length(BendingCase bending_case, LoadedEdge edge, Length l, Length h);

/// Critical bending stress of solid rectangular softwood, 0.78 b^2 E_0,05/(h l_ef).
/// EN 1995-1-1 6.3.3(2), (6.32).
Stress sigma_m_crit(Length b, Length h, Length l_ef, Stress E_0_05);

/// Critical bending stress of any section bent about its strong axis,
/// pi sqrt(E_0,05 I_z G_0,05 I_tor)/(l_ef W_y). EN 1995-1-1 6.3.3(2), (6.31).
Stress sigma_m_crit_general(Stress E_0_05, Stress G_0_05, SecondMoment I_z, SecondMoment I_tor,
                            SectionModulus W_y, Length l_ef);

/// Relative slenderness for bending, sqrt(f_m,k/sigma_m,crit). EN 1995-1-1 6.3.3(2), (6.30).
double lambda_rel_m(Stress f_m_k, Stress sigma_m_crit);

/// Factor for the strength lost to lateral buckling. EN 1995-1-1 6.3.3(4), (6.34): 1 up to 0.75,
/// 1.56 - 0.75 lambda up to 1.4, 1/lambda^2 beyond. A member whose compression edge is held over
/// its whole length and whose supports are held against torsion has 1 (6.3.3(5)).
double k_crit(double lambda_rel_m);

/// The three lines of the lateral stability of a softwood rectangle, for printing.
struct LateralStability {
  Stress sigma_m_crit;        ///< (6.32)
  double lambda_rel_m = 0.0;  ///< (6.30)
  double k_crit = 1.0;        ///< (6.34)
};
LateralStability lateral_stability(Length b, Length h, Length l_ef, Stress f_m_k, Stress E_0_05);

/// sigma_m,d/(k_crit f_m,d). EN 1995-1-1 6.3.3(3), (6.33). k_h and k_sys belong to f_m,d.
double bending_utilisation(Stress sigma_m_d, Stress f_m_d, double k_crit);

/// The larger of (6.11) and (6.12) for bending about both axes, rectangular section: each stress
/// ratio in turn whole, the other times k_m. EN 1995-1-1 6.1.6(1) and (2). `k_m` is data (0.7).
double biaxial_bending_utilisation(Stress sigma_m_y_d, Stress f_m_y_d, Stress sigma_m_z_d,
                                   Stress f_m_z_d, double k_m);

}  // namespace underprop::standards::eurocode
