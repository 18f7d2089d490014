#include "standards/eurocode/fastener.hpp"

#include "standards/eurocode/require.hpp"

#include <cmath>

namespace underprop::standards::eurocode {

std::optional<Stress> f_h_nail(Length d, Density rho_k, bool predrilled) {
  require(d.value() > 0 && rho_k.value() > 0, "f_h_nail: d and rho_k must be positive");
  const double diameter = in_mm(d);
  const double density = in_kg_per_m3(rho_k);
  if (diameter > 8.0 || (!predrilled && density > 500.0)) return std::nullopt;
  if (predrilled) return Stress(0.082 * (1.0 - 0.01 * diameter) * density);
  return Stress(0.082 * density * std::pow(diameter, -0.3));
}

std::optional<Stress> f_h_0_bolt(Length d, Density rho_k) {
  require(d.value() > 0 && rho_k.value() > 0, "f_h_0_bolt: d and rho_k must be positive");
  if (in_mm(d) > 30.0) return std::nullopt;
  return Stress(0.082 * (1.0 - 0.01 * in_mm(d)) * in_kg_per_m3(rho_k));
}

double k_90(Length d, bool hardwood) {
  require(d.value() > 0, "k_90: d must be positive");
  return (hardwood ? 0.90 : 1.35) + 0.015 * in_mm(d);
}

std::optional<Stress> f_h_bolt(Length d, Density rho_k, double alpha, bool hardwood) {
  const std::optional<Stress> along = f_h_0_bolt(d, rho_k);
  if (!along) return std::nullopt;
  require(std::isfinite(alpha), "f_h_bolt: alpha must be finite");
  const double sine = std::sin(alpha);
  const double cosine = std::cos(alpha);
  return *along / (k_90(d, hardwood) * sine * sine + cosine * cosine);
}

Moment M_y_Rk_round(Stress f_u, Length d) {
  require(f_u.value() > 0 && d.value() > 0, "M_y_Rk_round: f_u and d must be positive");
  return Moment(0.3 * in_megapascals(f_u) * std::pow(in_mm(d), 2.6));
}

Moment M_y_Rk_square(Stress f_u, Length d) {
  require(f_u.value() > 0 && d.value() > 0, "M_y_Rk_square: f_u and d must be positive");
  return Moment(0.45 * in_megapascals(f_u) * std::pow(in_mm(d), 2.6));
}

Length screw_d_ef(Length d_shank, Length d_root, Length smooth_shank_in_point_piece) {
  require(d_root.value() > 0 && d_shank >= d_root, "screw_d_ef: 0 < root <= shank");
  return smooth_shank_in_point_piece >= 4.0 * d_shank ? d_shank : 1.1 * d_root;
}

bool screw_follows_nail_rules(Length d_ef) { return in_mm(d_ef) <= 6.0; }

Length minimum_point_penetration(Length d, bool smooth) {
  require(d.value() > 0, "minimum_point_penetration: d must be positive");
  return (smooth ? 8.0 : 6.0) * d;
}

Length minimum_thickness_not_predrilled(Length d, Density rho_k) {
  require(d.value() > 0 && rho_k.value() > 0, "minimum_thickness_not_predrilled: arguments");
  return max(7.0 * d, mm((13.0 * in_mm(d) - 30.0) * in_kg_per_m3(rho_k) / 400.0));
}

}  // namespace underprop::standards::eurocode
