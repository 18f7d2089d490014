#include "standards/eurocode/group.hpp"

#include "standards/eurocode/require.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace underprop::standards::eurocode {

std::optional<double> k_ef(Length a_1, Length d, bool predrilled) {
  require(a_1.value() > 0 && d.value() > 0, "k_ef: a_1 and d must be positive");
  const double spacing = a_1 / d;
  const auto between = [spacing](double s0, double k0, double s1, double k1) {
    return k0 + (k1 - k0) * (spacing - s0) / (s1 - s0);
  };
  if (spacing >= 14.0) return 1.0;
  if (spacing >= 10.0) return between(10.0, 0.85, 14.0, 1.0);
  if (spacing >= 7.0) return between(7.0, 0.7, 10.0, 0.85);
  if (spacing >= 4.0 && predrilled) return between(4.0, 0.5, 7.0, 0.7);
  return std::nullopt;
}

double n_ef_nails(int n, double k_ef) {
  require(n >= 1 && k_ef > 0 && k_ef <= 1, "n_ef_nails: n >= 1 and 0 < k_ef <= 1");
  return std::pow(n, k_ef);
}

double n_ef_bolts(int n, Length a_1, Length d, double alpha) {
  require(n >= 1 && a_1.value() > 0 && d.value() > 0, "n_ef_bolts: arguments");
  require(alpha >= 0 && alpha <= std::numbers::pi / 2.0, "n_ef_bolts: alpha from 0 to pi/2");
  const double count = n;
  if (n == 1) return count;
  const double along = std::min(count, std::pow(count, 0.9) * std::pow(a_1 / (13.0 * d), 0.25));
  return along + (count - along) * alpha / (std::numbers::pi / 2.0);
}

std::optional<Spacing> nail_spacing(Length d, Density rho_k, bool predrilled, double alpha) {
  require(d.value() > 0 && rho_k.value() > 0, "nail_spacing: d and rho_k must be positive");
  require(alpha >= 0 && alpha <= std::numbers::pi / 2.0, "nail_spacing: alpha from 0 to pi/2");
  const double sine = std::sin(alpha);
  const double cosine = std::max(0.0, std::cos(alpha));
  const bool thin = in_mm(d) < 5.0;
  const double density = in_kg_per_m3(rho_k);
  if (predrilled) {
    return Spacing{(4.0 + cosine) * d,
                   (3.0 + sine) * d,
                   (7.0 + 5.0 * cosine) * d,
                   7.0 * d,
                   (3.0 + (thin ? 2.0 : 4.0) * sine) * d,
                   3.0 * d};
  }
  if (density <= 420.0) {
    return Spacing{
        (5.0 + (thin ? 5.0 : 7.0) * cosine) * d, 5.0 * d, (10.0 + 5.0 * cosine) * d, 10.0 * d,
        (5.0 + (thin ? 2.0 : 5.0) * sine) * d,   5.0 * d};
  }
  if (density <= 500.0) {
    return Spacing{(7.0 + 8.0 * cosine) * d,
                   7.0 * d,
                   (15.0 + 5.0 * cosine) * d,
                   15.0 * d,
                   (7.0 + (thin ? 2.0 : 5.0) * sine) * d,
                   7.0 * d};
  }
  return std::nullopt;
}

Spacing bolt_spacing(Length d, double alpha) {
  require(d.value() > 0, "bolt_spacing: d must be positive");
  require(alpha >= 0 && alpha <= std::numbers::pi, "bolt_spacing: alpha from 0 to pi");
  const double sine = std::sin(alpha);
  const double cosine = std::abs(std::cos(alpha));
  return Spacing{(4.0 + cosine) * d,
                 4.0 * d,
                 max(7.0 * d, mm(80.0)),
                 std::max(4.0, 1.0 + 6.0 * sine) * d,
                 std::max(3.0, 2.0 + 2.0 * sine) * d,
                 3.0 * d};
}

AxialSpacing axial_screw_spacing(Length d) {
  require(d.value() > 0, "axial_screw_spacing: d must be positive");
  return AxialSpacing{7.0 * d, 5.0 * d, 10.0 * d, 4.0 * d};
}

Force F_90_Rk(Length b, Length h, Length h_e) {
  require(b.value() > 0 && h.value() > 0, "F_90_Rk: section must be positive");
  require(h_e.value() > 0 && h_e < h, "F_90_Rk: 0 < h_e < h");
  return Force(14.0 * in_mm(b) * std::sqrt(in_mm(h_e) / (1.0 - h_e / h)));
}

Stiffness K_ser_nail_not_predrilled(Density rho_m, Length d) {
  require(rho_m.value() > 0 && d.value() > 0, "K_ser: density and d must be positive");
  return Stiffness(std::pow(in_kg_per_m3(rho_m), 1.5) * std::pow(in_mm(d), 0.8) / 30.0);
}

Stiffness K_ser_dowel_type(Density rho_m, Length d) {
  require(rho_m.value() > 0 && d.value() > 0, "K_ser: density and d must be positive");
  return Stiffness(std::pow(in_kg_per_m3(rho_m), 1.5) * in_mm(d) / 23.0);
}

Stiffness K_u(Stiffness K_ser) { return 2.0 / 3.0 * K_ser; }

double gamma_composite(Stress E, Area A, Length s, Stiffness K, Length l) {
  require(E.value() > 0 && A.value() > 0 && s.value() > 0, "gamma_composite: layer");
  require(K.value() > 0 && l.value() > 0, "gamma_composite: K and l must be positive");
  const double flexibility = (E * A * s) / (K * l * l);
  return 1.0 / (1.0 + std::numbers::pi * std::numbers::pi * flexibility);
}

}  // namespace underprop::standards::eurocode
