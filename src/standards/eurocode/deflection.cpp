#include "standards/eurocode/deflection.hpp"

#include "standards/eurocode/require.hpp"

#include <cmath>
#include <numbers>

namespace underprop::standards::eurocode {

namespace {

constexpr double shear_coefficient = 1.2;  // of a rectangle

struct Rigidity {
  double EI = 0.0;  // N mm2
  double GA = 0.0;  // N
};

Rigidity rectangle(Length b, Length h, Stress E, Stress G) {
  require(b.value() > 0 && h.value() > 0, "deflection: section must be positive");
  require(E.value() > 0 && G.value() > 0, "deflection: moduli must be positive");
  const double depth = in_mm(h);
  return {in_megapascals(E) * in_mm(b) * depth * depth * depth / 12.0,
          in_megapascals(G) * in_mm(b) * depth};
}

}  // namespace

SpanDeflection deflection_uniform(LineLoad q, Length l, Length b, Length h, Stress E, Stress G) {
  require(l.value() > 0, "deflection: span must be positive");
  const Rigidity r = rectangle(b, h, E, G);
  const double span = in_mm(l);
  const Length bending = mm(5.0 * q.value() * std::pow(span, 4) / (384.0 * r.EI));
  const Length shear = mm(shear_coefficient * q.value() * span * span / (8.0 * r.GA));
  return {bending, shear, bending + shear};
}

SpanDeflection deflection_midspan_point(Force F, Length l, Length b, Length h, Stress E, Stress G) {
  require(l.value() > 0, "deflection: span must be positive");
  const Rigidity r = rectangle(b, h, E, G);
  const double span = in_mm(l);
  const Length bending = mm(in_newtons(F) * std::pow(span, 3) / (48.0 * r.EI));
  const Length shear = mm(shear_coefficient * in_newtons(F) * span / (4.0 * r.GA));
  return {bending, shear, bending + shear};
}

Length final_deflection(Length w_inst_G, Length w_inst_Q, double psi_2, double k_def) {
  return w_inst_G + w_inst_Q + creep_deflection(w_inst_G, w_inst_Q, psi_2, k_def);
}

Length creep_deflection(Length w_inst_G, Length w_inst_Q, double psi_2, double k_def) {
  require(psi_2 >= 0 && k_def >= 0, "creep: factors must not be negative");
  return k_def * (w_inst_G + psi_2 * w_inst_Q);
}

FloorVibration floor_vibration(const VibratingFloor& floor) {
  require(floor.EI_l_Nm2_per_m > floor.EI_b_Nm2_per_m && floor.EI_b_Nm2_per_m > 0,
          "floor_vibration: (EI)_l > (EI)_b > 0");
  require(floor.mass_kg_per_m2 > 0 && floor.span_m > 0 && floor.width_m > 0,
          "floor_vibration: mass and sizes must be positive");
  FloorVibration result;
  result.f_1_Hz = std::numbers::pi / (2.0 * floor.span_m * floor.span_m) *
                  std::sqrt(floor.EI_l_Nm2_per_m / floor.mass_kg_per_m2);
  if (result.f_1_Hz > 40.0) return result;
  const double frequency = 40.0 / result.f_1_Hz;
  result.n_40 = std::pow((frequency * frequency - 1.0) * std::pow(floor.width_m / floor.span_m, 4) *
                             floor.EI_l_Nm2_per_m / floor.EI_b_Nm2_per_m,
                         0.25);
  result.v_m_per_Ns2 = 4.0 * (0.4 + 0.6 * result.n_40) /
                       (floor.mass_kg_per_m2 * floor.width_m * floor.span_m + 200.0);
  return result;
}

}  // namespace underprop::standards::eurocode
