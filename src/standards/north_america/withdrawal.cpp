#include "standards/north_america/withdrawal.hpp"

#include "standards/north_america/require.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace underprop::standards::north_america {

namespace {

LineLoad pounds_per_inch(double n) { return pounds_force(n) / inches(1.0); }

void require_fastener(double G, Length D) {
  require(G > 0 && G < 1.5 && D.value() > 0, "withdrawal: G and D must be positive");
}

}  // namespace

LineLoad withdrawal_lag_screw(double G, Length D) {
  require_fastener(G, D);
  return pounds_per_inch(1800.0 * std::pow(G, 1.5) * std::pow(in_inches(D), 0.75));
}

LineLoad withdrawal_wood_screw(double G, Length D) {
  require_fastener(G, D);
  return pounds_per_inch(2850.0 * G * G * in_inches(D));
}

LineLoad withdrawal_nail(double G, Length D) {
  require_fastener(G, D);
  return pounds_per_inch(1380.0 * std::pow(G, 2.5) * in_inches(D));
}

Force pulled_and_sheared(Force W, Force Z, double alpha_deg) {
  require(W.value() > 0 && Z.value() > 0, "pulled_and_sheared: the values must be positive");
  require(alpha_deg >= 0 && alpha_deg <= 90, "pulled_and_sheared: angle must lie in 0 to 90");
  const double s = std::sin(alpha_deg * std::numbers::pi / 180.0);
  const double c = std::cos(alpha_deg * std::numbers::pi / 180.0);
  return Z * (W / (W * (c * c) + Z * (s * s)));
}

double use_pulled_and_sheared(Force W, Force Z, Force T, Force V) {
  require(T.value() >= 0 && V.value() >= 0, "use_pulled_and_sheared: forces must not be negative");
  if (T.value() == 0.0 && V.value() == 0.0) return 0.0;
  const double alpha = std::atan2(T.value(), V.value()) * 180.0 / std::numbers::pi;
  const double F = std::hypot(T.value(), V.value());
  return std::max(F / pulled_and_sheared(W, Z, alpha).value(), T / W);
}

Length effective_thread(Length screw_length, Length thread_length, Length side_thickness,
                        Length tip) {
  require(screw_length.value() > 0 && thread_length.value() >= 0 && side_thickness.value() >= 0 &&
              tip.value() >= 0,
          "effective_thread: lengths must not be negative");
  return max(mm(0.0), min(screw_length - side_thickness, thread_length) - tip);
}

}  // namespace underprop::standards::north_america
