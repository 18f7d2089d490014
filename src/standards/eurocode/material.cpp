#include "standards/eurocode/material.hpp"

#include "standards/eurocode/require.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::standards::eurocode {

double k_h(Length h, Density rho_k) {
  require(h.value() > 0, "k_h: depth must be positive");
  require(rho_k.value() > 0, "k_h: density must be positive");
  if (in_mm(h) >= 150.0 || in_kg_per_m3(rho_k) > 700.0) return 1.0;
  return std::min(std::pow(150.0 / in_mm(h), 0.2), 1.3);
}

Stress design_strength(double k_mod, Stress X_k, double gamma_M) {
  require(k_mod > 0 && gamma_M > 0, "design_strength: factors must be positive");
  return k_mod * X_k / gamma_M;
}

Force design_resistance(double k_mod, Force R_k, double gamma_M) {
  require(k_mod > 0 && gamma_M > 0, "design_resistance: factors must be positive");
  return k_mod * R_k / gamma_M;
}

double k_mod_of_connection(double k_mod_1, double k_mod_2) {
  require(k_mod_1 > 0 && k_mod_2 > 0, "k_mod_of_connection: factors must be positive");
  return std::sqrt(k_mod_1 * k_mod_2);
}

double k_def_of_connection(double k_def_1, double k_def_2) {
  require(k_def_1 >= 0 && k_def_2 >= 0, "k_def_of_connection: factors must not be negative");
  return 2.0 * std::sqrt(k_def_1 * k_def_2);
}

Stress modulus_final(Stress E_mean, double psi_2, double k_def) {
  require(psi_2 >= 0 && k_def >= 0, "modulus_final: factors must not be negative");
  return E_mean / (1.0 + psi_2 * k_def);
}

Stiffness slip_modulus_final(Stiffness K, double psi_2, double k_def) {
  require(psi_2 >= 0 && k_def >= 0, "slip_modulus_final: factors must not be negative");
  return K / (1.0 + psi_2 * k_def);
}

Stress modulus_design(Stress E_mean, double gamma_M) {
  require(gamma_M > 0, "modulus_design: gamma_M must be positive");
  return E_mean / gamma_M;
}

double system_strength_factor(int similar_members, bool neighbours_can_take_over, double k_sys) {
  require(k_sys >= 1.0, "system_strength_factor: k_sys must be at least 1");
  return similar_members >= 4 && neighbours_can_take_over ? k_sys : 1.0;
}

}  // namespace underprop::standards::eurocode
