#include "standards/north_america/deflection.hpp"

#include "standards/north_america/require.hpp"

namespace underprop::standards::north_america {

namespace {

void require_beam(Length l, Stress E_prime, SecondMoment I) {
  require(l.value() > 0 && E_prime.value() > 0 && I.value() > 0,
          "deflection: span, modulus and second moment must be positive");
}

}  // namespace

Length long_term_deflection(double K_cr, Length Delta_LT, Length Delta_ST) {
  require(K_cr >= 1, "long_term_deflection: K_cr must be 1 or more");
  return K_cr * Delta_LT + Delta_ST;
}

Length deflection_uniform(LineLoad w, Length l, Stress E_prime, SecondMoment I) {
  require_beam(l, E_prime, I);
  return 5.0 * w * (l * l * l * l) / (384.0 * (E_prime * I));
}

Length deflection_centre_point(Force P, Length l, Stress E_prime, SecondMoment I) {
  require_beam(l, E_prime, I);
  return P * (l * l * l) / (48.0 * (E_prime * I));
}

Length deflection_overhang_tip(Force P, Length a, Length l, Stress E_prime, SecondMoment I) {
  require_beam(l, E_prime, I);
  require(a.value() >= 0, "deflection_overhang_tip: a must not be negative");
  return P * (a * a * (l + a)) / (3.0 * (E_prime * I));
}

}  // namespace underprop::standards::north_america
