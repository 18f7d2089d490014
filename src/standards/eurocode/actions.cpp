#include "standards/eurocode/actions.hpp"

namespace underprop::standards::eurocode {

ActionFactors combination_6_10(const PartialFactors& gamma, double psi_0_accompanying) {
  return {gamma.G_sup, gamma.G_inf, gamma.Q, gamma.Q * psi_0_accompanying};
}

ActionFactors combination_6_10a(const PartialFactors& gamma, double psi_0_leading,
                                double psi_0_accompanying) {
  return {gamma.G_sup, gamma.G_inf, gamma.Q * psi_0_leading, gamma.Q * psi_0_accompanying};
}

ActionFactors combination_6_10b(const PartialFactors& gamma, double psi_0_accompanying) {
  return {gamma.xi * gamma.G_sup, gamma.G_inf, gamma.Q, gamma.Q * psi_0_accompanying};
}

ActionFactors combination_characteristic(double psi_0_accompanying) {
  return {1.0, 1.0, 1.0, psi_0_accompanying};
}

ActionFactors combination_frequent(double psi_1_leading, double psi_2_accompanying) {
  return {1.0, 1.0, psi_1_leading, psi_2_accompanying};
}

ActionFactors combination_quasi_permanent(double psi_2_leading, double psi_2_accompanying) {
  return {1.0, 1.0, psi_2_leading, psi_2_accompanying};
}

double design_effect(const ActionFactors& factors, double G, double Q_leading,
                     double Q_accompanying) {
  return factors.G_sup * G + factors.Q_leading * Q_leading +
         factors.Q_accompanying * Q_accompanying;
}

}  // namespace underprop::standards::eurocode
