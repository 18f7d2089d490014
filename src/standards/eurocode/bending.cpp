#include "standards/eurocode/bending.hpp"

#include "standards/eurocode/require.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace underprop::standards::eurocode {

Stress bending_stress(Moment M, Length b, Length h) {
  require(b.value() > 0 && h.value() > 0, "bending_stress: section must be positive");
  return 6.0 * abs(M) / (b * h * h);
}

namespace {

double table_6_1_ratio(BendingCase bending_case) {
  switch (bending_case) {
    case BendingCase::constant_moment:
      return 1.0;
    case BendingCase::uniform_load:
      return 0.9;
    case BendingCase::point_load_at_midspan:
      return 0.8;
    case BendingCase::cantilever_uniform:
      return 0.5;
    case BendingCase::cantilever_point_at_tip:
      return 0.8;
  }
  throw std::domain_error("effective_length: unknown case");
}

}  // namespace

Length effective_length(BendingCase bending_case, LoadedEdge edge, Length l, Length h) {
  require(l.value() > 0 && h.value() > 0, "effective_length: l and h must be positive");
  const Length basic = table_6_1_ratio(bending_case) * l;
  switch (edge) {
    case LoadedEdge::compression:
      return basic + 2.0 * h;
    case LoadedEdge::centre_line:
      return basic;
    case LoadedEdge::tension:
      return max(basic - 0.5 * h, 0.5 * basic);
  }
  throw std::domain_error("effective_length: unknown edge");
}

Stress sigma_m_crit(Length b, Length h, Length l_ef, Stress E_0_05) {
  require(b.value() > 0 && h.value() > 0 && l_ef.value() > 0, "sigma_m_crit: sizes");
  return 0.78 * (b * b) / (h * l_ef) * E_0_05;
}

Stress sigma_m_crit_general(Stress E_0_05, Stress G_0_05, SecondMoment I_z, SecondMoment I_tor,
                            SectionModulus W_y, Length l_ef) {
  require(E_0_05.value() > 0 && G_0_05.value() > 0, "sigma_m_crit_general: moduli");
  require(I_z.value() > 0 && I_tor.value() > 0 && W_y.value() > 0 && l_ef.value() > 0,
          "sigma_m_crit_general: sizes");
  return Stress(std::numbers::pi *
                std::sqrt(E_0_05.value() * I_z.value() * G_0_05.value() * I_tor.value()) /
                (l_ef.value() * W_y.value()));
}

double lambda_rel_m(Stress f_m_k, Stress sigma_m_crit) {
  require(f_m_k.value() > 0 && sigma_m_crit.value() > 0, "lambda_rel_m: stresses");
  return std::sqrt(f_m_k / sigma_m_crit);
}

double k_crit(double lambda_rel_m) {
  require(lambda_rel_m >= 0, "k_crit: slenderness must not be negative");
  if (lambda_rel_m <= 0.75) return 1.0;
  if (lambda_rel_m <= 1.4) return 1.56 - 0.75 * lambda_rel_m;
  return 1.0 / (lambda_rel_m * lambda_rel_m);
}

LateralStability lateral_stability(Length b, Length h, Length l_ef, Stress f_m_k, Stress E_0_05) {
  LateralStability result;
  result.sigma_m_crit = sigma_m_crit(b, h, l_ef, E_0_05);
  result.lambda_rel_m = lambda_rel_m(f_m_k, result.sigma_m_crit);
  result.k_crit = k_crit(result.lambda_rel_m);
  return result;
}

double bending_utilisation(Stress sigma_m_d, Stress f_m_d, double k_crit) {
  require(f_m_d.value() > 0 && k_crit > 0, "bending_utilisation: strength must be positive");
  return sigma_m_d / (k_crit * f_m_d);
}

double biaxial_bending_utilisation(Stress sigma_m_y_d, Stress f_m_y_d, Stress sigma_m_z_d,
                                   Stress f_m_z_d, double k_m) {
  require(f_m_y_d.value() > 0 && f_m_z_d.value() > 0, "biaxial_bending_utilisation: strength");
  const double y = sigma_m_y_d / f_m_y_d;
  const double z = sigma_m_z_d / f_m_z_d;
  return std::max(y + k_m * z, k_m * y + z);
}

}  // namespace underprop::standards::eurocode
