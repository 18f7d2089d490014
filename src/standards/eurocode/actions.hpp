// Combinations of actions as factors: EN 1990 6.4.3, 6.5.3 and Annex A1.
//
// The numbers (gamma, psi, xi) are data of a National Annex; these functions say where each goes.
#pragma once

namespace underprop::standards::eurocode {

/// Partial factors of one set of EN 1990 Table A1.2.
struct PartialFactors {
  double G_sup = 1.0;  ///< permanent, unfavourable
  double G_inf = 1.0;  ///< permanent, favourable
  double Q = 1.0;      ///< variable, unfavourable (favourable ones are left out)
  double xi = 1.0;     ///< reduction of unfavourable permanent actions, (6.10b)
};

/// Factors on the characteristic values in one combination.
struct ActionFactors {
  double G_sup = 0.0;           ///< on unfavourable permanent actions
  double G_inf = 0.0;           ///< on favourable permanent actions
  double Q_leading = 0.0;       ///< on the leading variable action
  double Q_accompanying = 0.0;  ///< on one accompanying variable action (with its own psi)
};

/// gamma_G G "+" gamma_Q Q_1 "+" gamma_Q psi_0 Q_i. EN 1990 6.4.3.2(3), (6.10). With the EQU set of
/// Table A1.2(A) it is the combination for static equilibrium; with set C of Table A1.2(C) the
/// second combination of design approach 1 for ground.
ActionFactors combination_6_10(const PartialFactors& gamma, double psi_0_accompanying);

/// gamma_G G "+" gamma_Q psi_0 Q_1 "+" gamma_Q psi_0 Q_i. EN 1990 6.4.3.2(3), (6.10a).
ActionFactors combination_6_10a(const PartialFactors& gamma, double psi_0_leading,
                                double psi_0_accompanying);

/// xi gamma_G G "+" gamma_Q Q_1 "+" gamma_Q psi_0 Q_i. EN 1990 6.4.3.2(3), (6.10b).
ActionFactors combination_6_10b(const PartialFactors& gamma, double psi_0_accompanying);

/// G "+" Q_1 "+" psi_0 Q_i. EN 1990 6.5.3(2)a, (6.14b): immediate deflection, presumed pressures.
ActionFactors combination_characteristic(double psi_0_accompanying);

/// G "+" psi_1 Q_1 "+" psi_2 Q_i. EN 1990 6.5.3(2)b, (6.15b).
ActionFactors combination_frequent(double psi_1_leading, double psi_2_accompanying);

/// G "+" psi_2 Q. EN 1990 6.5.3(2)c, (6.16b): long-term effects.
ActionFactors combination_quasi_permanent(double psi_2_leading, double psi_2_accompanying);

/// G_sup G + Q_leading Q_1 + Q_accompanying Q_i for effects or loads that all act unfavourably.
double design_effect(const ActionFactors& factors, double G, double Q_leading,
                     double Q_accompanying);

}  // namespace underprop::standards::eurocode
