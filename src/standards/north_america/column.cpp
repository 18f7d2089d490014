#include "standards/north_america/column.hpp"

#include "standards/north_america/require.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace underprop::standards::north_america {

Length column_effective_length(double K_e, Length l) {
  require(K_e > 0 && l.value() > 0, "column_effective_length: K_e and l must be positive");
  return K_e * l;
}

double column_stability_factor(Stress F_cE, Stress F_c_star, double c) {
  require(F_cE.value() > 0 && F_c_star.value() > 0, "column_stability_factor: stresses");
  require(c > 0 && c <= 1, "column_stability_factor: c must lie in 0 to 1");
  const double ratio = F_cE / F_c_star;
  const double a = (1.0 + ratio) / (2.0 * c);
  return a - std::sqrt(std::max(0.0, a * a - ratio / c));
}

ColumnStability column_stability(Length l_e, Length d, Stress F_c_star, Stress E_min_prime,
                                 double c) {
  require(l_e.value() > 0 && d.value() > 0, "column_stability: lengths must be positive");
  require(F_c_star.value() > 0 && E_min_prime.value() > 0,
          "column_stability: stresses must be positive");
  ColumnStability s;
  s.slenderness = l_e / d;
  s.F_cE = 0.822 * E_min_prime / (s.slenderness * s.slenderness);
  s.ratio = s.F_cE / F_c_star;
  if (s.slenderness <= greatest_slenderness_column) {
    s.C_P = column_stability_factor(s.F_cE, F_c_star, c);
  }
  return s;
}

double built_up_stability_factor(double C_P_solid, double K_f) {
  require(C_P_solid >= 0 && C_P_solid <= 1, "built_up_stability_factor: C_P must lie in 0 to 1");
  require(K_f > 0 && K_f <= 1, "built_up_stability_factor: K_f must lie in 0 to 1");
  return K_f * C_P_solid;
}

double bending_and_tension(Stress f_t, Stress F_t_prime, Stress f_b, Stress F_b_star) {
  require(F_t_prime.value() > 0 && F_b_star.value() > 0, "bending_and_tension: resistances");
  return abs(f_t) / F_t_prime + abs(f_b) / F_b_star;
}

double bending_less_tension(Stress f_b, Stress f_t, Stress F_b_double_star) {
  require(F_b_double_star.value() > 0, "bending_less_tension: resistance");
  return std::max(0.0, (abs(f_b) - abs(f_t)) / F_b_double_star);
}

double compression_and_bending(const CompressionAndBending& x) {
  require(x.f_c.value() >= 0 && x.f_b1.value() >= 0 && x.f_b2.value() >= 0,
          "compression_and_bending: stresses must not be negative");
  require(x.F_c_prime.value() > 0 || x.f_c.value() == 0, "compression_and_bending: F_c'");
  constexpr double infinite = std::numeric_limits<double>::infinity();
  double sum = 0.0;
  if (x.f_c.value() > 0) sum = (x.f_c / x.F_c_prime) * (x.f_c / x.F_c_prime);
  if (x.f_b1.value() > 0) {
    require(x.F_b1_prime.value() > 0 && x.F_cE1.value() > 0, "compression_and_bending: axis 1");
    const double bracket = 1.0 - x.f_c / x.F_cE1;
    if (!(bracket > 0)) return infinite;
    sum += x.f_b1 / (bracket * x.F_b1_prime);
  }
  if (x.f_b2.value() > 0) {
    require(x.F_b2_prime.value() > 0 && x.F_cE2.value() > 0, "compression_and_bending: axis 2");
    double bracket = 1.0 - x.f_c / x.F_cE2;
    if (x.f_b1.value() > 0) {
      require(x.F_bE.value() > 0, "compression_and_bending: F_bE");
      bracket -= (x.f_b1 / x.F_bE) * (x.f_b1 / x.F_bE);
    }
    if (!(bracket > 0)) return infinite;
    sum += x.f_b2 / (bracket * x.F_b2_prime);
  }
  return sum;
}

}  // namespace underprop::standards::north_america
