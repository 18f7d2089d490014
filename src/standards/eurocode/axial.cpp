#include "standards/eurocode/axial.hpp"

#include "standards/eurocode/require.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace underprop::standards::eurocode {

namespace {

constexpr double thirty_degrees = std::numbers::pi / 6.0;

bool too_flat(double alpha) {
  require(alpha >= 0 && alpha <= std::numbers::pi / 2.0, "screws: alpha from 0 to pi/2");
  return alpha < thirty_degrees - 1e-12;
}

double grain_angle_divisor(double alpha) {
  const double sine = std::sin(alpha);
  const double cosine = std::cos(alpha);
  return 1.2 * cosine * cosine + sine * sine;
}

void check(const AxialNail& nail) {
  require(nail.d.value() > 0 && nail.d_h.value() >= 0, "axial nail: diameters");
  require(nail.t.value() >= 0 && nail.t_pen.value() >= 0, "axial nail: lengths");
  require(nail.f_ax_k.value() >= 0 && nail.f_head_k.value() >= 0, "axial nail: strengths");
}

}  // namespace

Stress f_ax_k_smooth_nail(Density rho_k) {
  require(rho_k.value() > 0, "f_ax_k_smooth_nail: density must be positive");
  return Stress(20e-6 * in_kg_per_m3(rho_k) * in_kg_per_m3(rho_k));
}

Stress f_head_k_nail(Density rho_k) {
  require(rho_k.value() > 0, "f_head_k_nail: density must be positive");
  return Stress(70e-6 * in_kg_per_m3(rho_k) * in_kg_per_m3(rho_k));
}

std::optional<Force> F_ax_Rk_smooth_nail(const AxialNail& nail) {
  check(nail);
  const double depth = nail.t_pen / nail.d;
  if (depth < 8.0) return std::nullopt;
  const Stress f_ax_k = nail.f_ax_k * std::min(1.0, depth / 4.0 - 2.0);
  return min(f_ax_k * (nail.d * nail.t_pen),
             f_ax_k * (nail.d * nail.t) + nail.f_head_k * (nail.d_h * nail.d_h));
}

std::optional<Force> F_ax_Rk_threaded_nail(const AxialNail& nail) {
  check(nail);
  const double depth = nail.t_pen / nail.d;
  if (depth < 6.0) return std::nullopt;
  const Stress f_ax_k = nail.f_ax_k * std::min(1.0, depth / 2.0 - 3.0);
  return min(f_ax_k * (nail.d * nail.t_pen), nail.f_head_k * (nail.d_h * nail.d_h));
}

std::optional<Stress> f_ax_k_screw(Length d, Length l_ef, Density rho_k) {
  require(d.value() > 0 && l_ef.value() > 0 && rho_k.value() > 0, "f_ax_k_screw: arguments");
  if (in_mm(d) < 6.0 || in_mm(d) > 12.0 || l_ef < 6.0 * d) return std::nullopt;
  return Stress(0.52 * std::pow(in_mm(d), -0.5) * std::pow(in_mm(l_ef), -0.1) *
                std::pow(in_kg_per_m3(rho_k), 0.8));
}

double k_d(Length d) {
  require(d.value() > 0, "k_d: d must be positive");
  return std::min(in_mm(d) / 8.0, 1.0);
}

double n_ef_axial_screws(int n) {
  require(n >= 1, "n_ef_axial_screws: n >= 1");
  return std::pow(n, 0.9);
}

std::optional<Force> F_ax_Rk_screws(int n, Length d, Length l_ef, Density rho_k, double alpha) {
  const std::optional<Stress> f_ax_k = f_ax_k_screw(d, l_ef, rho_k);
  if (!f_ax_k || too_flat(alpha)) return std::nullopt;
  return n_ef_axial_screws(n) * *f_ax_k * (d * l_ef) * k_d(d) / grain_angle_divisor(alpha);
}

std::optional<Force> F_ax_Rk_declared_screws(int n, Stress f_ax_k, Length d, Length l_ef,
                                             Density rho_k, Density rho_a, double alpha) {
  require(f_ax_k.value() > 0 && d.value() > 0 && l_ef.value() > 0, "declared screws: screw");
  require(rho_k.value() > 0 && rho_a.value() > 0, "declared screws: densities");
  if (too_flat(alpha) || l_ef < 6.0 * d) return std::nullopt;
  return n_ef_axial_screws(n) * f_ax_k * (d * l_ef) / grain_angle_divisor(alpha) *
         std::pow(rho_k / rho_a, 0.8);
}

Force F_head_Rk_screws(int n, Stress f_head_k, Length d_h, Density rho_k, Density rho_a) {
  require(f_head_k.value() > 0 && d_h.value() > 0, "head pull-through: screw");
  require(rho_k.value() > 0 && rho_a.value() > 0, "head pull-through: densities");
  return n_ef_axial_screws(n) * f_head_k * (d_h * d_h) * std::pow(rho_k / rho_a, 0.8);
}

Force F_ax_Rk_bolt(Force tension_Rk, Stress f_c_90_k, Length washer_diameter,
                   Length hole_diameter) {
  require(tension_Rk.value() >= 0 && f_c_90_k.value() > 0, "F_ax_Rk_bolt: strengths");
  require(hole_diameter.value() >= 0 && washer_diameter >= hole_diameter, "F_ax_Rk_bolt: washer");
  const Area net =
      std::numbers::pi / 4.0 * (washer_diameter * washer_diameter - hole_diameter * hole_diameter);
  return min(tension_Rk, 3.0 * f_c_90_k * net);
}

double combined_axial_and_lateral(double axial_ratio, double lateral_ratio, bool smooth_nail) {
  require(axial_ratio >= 0 && lateral_ratio >= 0, "combined: ratios must not be negative");
  if (smooth_nail) return axial_ratio + lateral_ratio;
  return axial_ratio * axial_ratio + lateral_ratio * lateral_ratio;
}

}  // namespace underprop::standards::eurocode
