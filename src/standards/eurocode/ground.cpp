#include "standards/eurocode/ground.hpp"

#include "standards/eurocode/require.hpp"

#include <cmath>
#include <numbers>
#include <utility>

namespace underprop::standards::eurocode {

using std::numbers::pi;

Length effective_width(Length B, Length e) {
  require(B.value() > 0 && std::isfinite(e.value()), "effective_width: B and e");
  return max(Length(), B - 2.0 * abs(e));
}

bool is_eccentricity_excessive(Length B, Length e) {
  require(B.value() > 0 && std::isfinite(e.value()), "is_eccentricity_excessive: B and e");
  return 3.0 * abs(e) > B;
}

Length working_width(Length c, Length pad_left, Length pad_right, Length thickness) {
  require(c.value() > 0 && thickness.value() >= 0, "working_width: contact and thickness");
  require(pad_left.value() >= 0 && pad_right.value() >= 0, "working_width: pad");
  return c + min(pad_left, thickness) + min(pad_right, thickness);
}

Stress f_ctd_plain(double alpha_ct_pl, Stress f_ctk_0_05, double gamma_C) {
  require(alpha_ct_pl > 0 && f_ctk_0_05.value() > 0 && gamma_C > 0, "f_ctd_plain: arguments");
  return alpha_ct_pl / gamma_C * f_ctk_0_05;
}

double plain_footing_slope(Pressure sigma_gd, Stress f_ctd) {
  require(sigma_gd.value() >= 0 && f_ctd.value() > 0, "plain_footing_slope: pressure and strength");
  return std::sqrt(3.0 * (sigma_gd / f_ctd)) / 0.85;
}

double design_friction_angle(double phi, double gamma_phi) {
  require(phi > 0 && phi < pi / 2.0 && gamma_phi > 0, "design_friction_angle: arguments");
  return std::atan(std::tan(phi) / gamma_phi);
}

UndrainedBearing undrained_bearing(Stress c_u, Pressure q, Length B, Length L) {
  require(c_u.value() > 0 && q.value() >= 0, "undrained_bearing: c_u and q");
  require(B.value() > 0 && L.value() > 0, "undrained_bearing: effective sides must be positive");
  if (L < B) std::swap(B, L);
  UndrainedBearing result;
  result.s_c = 1.0 + 0.2 * (B / L);
  result.resistance = (pi + 2.0) * result.s_c * c_u + q;
  return result;
}

DrainedBearing drained_bearing(double phi, Stress c, Pressure q, UnitWeight gamma, Length B,
                               Length L) {
  require(phi > 0 && phi < 50.0 * pi / 180.0, "drained_bearing: 0 < phi' < 50 degrees");
  require(c.value() >= 0 && q.value() >= 0 && gamma.value() >= 0, "drained_bearing: ground");
  require(B.value() > 0 && L.value() > 0, "drained_bearing: effective sides must be positive");
  if (L < B) std::swap(B, L);
  const double tangent = std::tan(phi);
  const double passive = std::tan(pi / 4.0 + phi / 2.0);
  const double slimness = B / L;

  DrainedBearing result;
  result.N_q = std::exp(pi * tangent) * passive * passive;
  result.N_c = (result.N_q - 1.0) / tangent;
  result.N_gamma = 2.0 * (result.N_q - 1.0) * tangent;
  result.s_q = 1.0 + slimness * std::sin(phi);
  result.s_gamma = 1.0 - 0.3 * slimness;
  result.s_c = (result.s_q * result.N_q - 1.0) / (result.N_q - 1.0);
  result.resistance = result.N_c * result.s_c * c + result.N_q * result.s_q * q +
                      0.5 * result.N_gamma * result.s_gamma * (gamma * B);
  return result;
}

}  // namespace underprop::standards::eurocode
