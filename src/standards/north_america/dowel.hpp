// Dowel-type fasteners loaded sideways: NDS 12.3.
//
// Formulas are in inches, pounds and psi as printed and convert inside the functions.
#pragma once

#include "underprop/base/quantity.hpp"

#include <string>
#include <vector>

namespace underprop::standards::north_america {

/// F_e = 11,200 G psi, parallel to grain, D >= 1/4 in. NDS Table 12.3.3 note 2.
Stress dowel_bearing_parallel(double G);
/// F_e = 6,100 G^1.45/sqrt(D) psi, perpendicular to grain, D >= 1/4 in., D the nominal diameter.
/// NDS Table 12.3.3 note 2.
Stress dowel_bearing_perpendicular(double G, Length D);
/// F_e = 16,600 G^1.84 psi in every direction, D < 1/4 in. NDS Table 12.3.3 note 2.
Stress dowel_bearing_small(double G);
/// Dowel bearing strengths are tabulated to the nearest 50 psi. NDS Table 12.3.3.
Stress to_nearest_50_psi(Stress F_e);

/// Reduction terms R_d of NDS Table 12.3.1B for modes I, II, and III and IV.
struct ReductionTerms {
  double I = 0.0, II = 0.0, III_IV = 0.0;
};
/// D >= 1/4 in.: 4, 3.6 and 3.2 times K_theta = 1 + 0.25 theta/90. D < 1/4 in.: K_D = 2.2 up to
/// 0.17 in., else 10 D + 0.5, and times K_theta if the nominal diameter is 1/4 in. or more (note
/// 1). D is the diameter of the yield equations (root diameter where the thread is in the shear
/// plane), theta the largest angle of load to grain of any member, in degrees. NDS 12.3.1, Table
/// 12.3.1B.
ReductionTerms reduction_terms(Length D, Length nominal, double theta_deg);

/// One shear plane, or two symmetrical ones, through a dowel.
struct DowelJoint {
  Length D;        ///< diameter of the yield equations: root diameter for lag and wood screws
  Length nominal;  ///< nominal diameter
  Length l_m;      ///< bearing length in the main member
  Length l_s;      ///< bearing length in the (one) side member
  Stress F_em;     ///< dowel bearing strength of the main member
  Stress F_es;     ///< dowel bearing strength of the side member
  Stress F_yb;     ///< bending yield strength of the fastener
  double theta_deg = 0.0;  ///< largest angle of load to grain of any member
};
struct YieldMode {
  std::string name;  ///< "I_m", "I_s", "II", "III_m", "III_s", "IV"
  Force Z;
};
struct YieldResult {
  double R_e = 0.0;  ///< F_em/F_es
  double R_t = 0.0;  ///< l_m/l_s
  double k_1 = 0.0, k_2 = 0.0, k_3 = 0.0;
  ReductionTerms R_d;
  std::vector<YieldMode> modes;
  std::string governing;
  Force Z;  ///< the least; normal duration, dry: to be adjusted by NDS Table 11.3.1
};
/// Yield limit equations for single shear, six modes. NDS 12.3.1, Table 12.3.1A (12.3-1) to
/// (12.3-6).
YieldResult single_shear(const DowelJoint& joint);
/// Yield limit equations for symmetric double shear, four modes. Table 12.3.1A (12.3-7) to
/// (12.3-10).
YieldResult double_shear(const DowelJoint& joint);

}  // namespace underprop::standards::north_america
