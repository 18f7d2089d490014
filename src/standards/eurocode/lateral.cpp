#include "standards/eurocode/lateral.hpp"

#include "standards/eurocode/require.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace underprop::standards::eurocode {

namespace {

Force with_rope(double johansen_part, const Rope& rope) {
  return Force(johansen_part +
               std::min(in_newtons(rope.F_ax_Rk) / 4.0, rope.share * johansen_part));
}

void check(const Rope& rope) {
  require(rope.F_ax_Rk.value() >= 0 && rope.share >= 0 && rope.share <= 1, "rope: F_ax and share");
}

void check(const TimberToTimber& joint) {
  require(joint.f_h_1_k.value() > 0 && joint.f_h_2_k.value() > 0, "joint: f_h must be positive");
  require(joint.t_1.value() > 0 && joint.t_2.value() > 0 && joint.d.value() > 0, "joint: sizes");
  require(joint.M_y_Rk.value() > 0, "joint: M_y must be positive");
  check(joint.rope);
}

// Index of the smallest of `modes`; the first one on a tie.
template <std::size_t N>
std::size_t smallest(const Force (&modes)[N]) {
  return static_cast<std::size_t>(
      std::distance(std::begin(modes), std::min_element(std::begin(modes), std::end(modes))));
}

// Modes (d) and (j), and (e): one hinge in the piece that is not crushed over its whole length.
double one_hinge_in_2(double f_h_1, double t, double d, double beta, double M_y) {
  const double root =
      std::sqrt(2.0 * beta * (1.0 + beta) + 4.0 * beta * (2.0 + beta) * M_y / (f_h_1 * d * t * t));
  return 1.05 * f_h_1 * t * d / (2.0 + beta) * (root - beta);
}

double one_hinge_in_1(double f_h_1, double t, double d, double beta, double M_y) {
  const double root = std::sqrt(2.0 * beta * beta * (1.0 + beta) +
                                4.0 * beta * (1.0 + 2.0 * beta) * M_y / (f_h_1 * d * t * t));
  return 1.05 * f_h_1 * t * d / (1.0 + 2.0 * beta) * (root - beta);
}

double two_hinges(double f_h_1, double d, double beta, double M_y) {
  return 1.15 * std::sqrt(2.0 * beta / (1.0 + beta)) * std::sqrt(2.0 * M_y * f_h_1 * d);
}

}  // namespace

SingleShear timber_to_timber_single_shear(const TimberToTimber& joint) {
  check(joint);
  const double f_h_1 = in_megapascals(joint.f_h_1_k);
  const double t_1 = in_mm(joint.t_1);
  const double t_2 = in_mm(joint.t_2);
  const double d = in_mm(joint.d);
  const double M_y = joint.M_y_Rk.value();
  const double beta = joint.f_h_2_k / joint.f_h_1_k;
  const double ratio = t_2 / t_1;

  SingleShear result;
  result.a = Force(f_h_1 * t_1 * d);
  result.b = joint.f_h_2_k * (joint.t_2 * joint.d);
  const double rotation = std::sqrt(beta + 2.0 * beta * beta * (1.0 + ratio + ratio * ratio) +
                                    beta * beta * beta * ratio * ratio) -
                          beta * (1.0 + ratio);
  result.c = with_rope(f_h_1 * t_1 * d / (1.0 + beta) * rotation, joint.rope);
  result.d = with_rope(one_hinge_in_2(f_h_1, t_1, d, beta, M_y), joint.rope);
  result.e = with_rope(one_hinge_in_1(f_h_1, t_2, d, beta, M_y), joint.rope);
  result.f = with_rope(two_hinges(f_h_1, d, beta, M_y), joint.rope);

  const Force modes[] = {result.a, result.b, result.c, result.d, result.e, result.f};
  const std::size_t governing = smallest(modes);
  result.F_v_Rk = modes[governing];
  result.governing = "abcdef"[governing];
  return result;
}

DoubleShear timber_to_timber_double_shear(const TimberToTimber& joint) {
  check(joint);
  const double f_h_1 = in_megapascals(joint.f_h_1_k);
  const double t_1 = in_mm(joint.t_1);
  const double d = in_mm(joint.d);
  const double M_y = joint.M_y_Rk.value();
  const double beta = joint.f_h_2_k / joint.f_h_1_k;

  DoubleShear result;
  result.g = Force(f_h_1 * t_1 * d);
  result.h = 0.5 * joint.f_h_2_k * (joint.t_2 * joint.d);
  result.j = with_rope(one_hinge_in_2(f_h_1, t_1, d, beta, M_y), joint.rope);
  result.k = with_rope(two_hinges(f_h_1, d, beta, M_y), joint.rope);

  const Force modes[] = {result.g, result.h, result.j, result.k};
  const std::size_t governing = smallest(modes);
  result.F_v_Rk = modes[governing];
  result.governing = "ghjk"[governing];
  return result;
}

SteelSingleShear steel_to_timber_single_shear(const SteelToTimber& joint, bool close_fit) {
  require(joint.f_h_k.value() > 0 && joint.M_y_Rk.value() > 0, "steel joint: f_h and M_y");
  require(joint.t_1.value() > 0 && joint.plate.value() > 0 && joint.d.value() > 0,
          "steel joint: sizes");
  check(joint.rope);
  const double f_h = in_megapascals(joint.f_h_k);
  const double t_1 = in_mm(joint.t_1);
  const double d = in_mm(joint.d);
  const double M_y = joint.M_y_Rk.value();
  const double crushing = f_h * t_1 * d;

  SteelSingleShear result;
  result.a = Force(0.4 * crushing);
  result.b = with_rope(1.15 * std::sqrt(2.0 * M_y * f_h * d), joint.rope);
  result.c = Force(crushing);
  result.d =
      with_rope(crushing * (std::sqrt(2.0 + 4.0 * M_y / (f_h * d * t_1 * t_1)) - 1.0), joint.rope);
  result.e = with_rope(2.3 * std::sqrt(M_y * f_h * d), joint.rope);
  result.thin = min(result.a, result.b);
  result.thick = min(result.c, min(result.d, result.e));

  const double thickness = close_fit ? joint.plate / joint.d : 0.0;
  const double share = std::clamp((thickness - 0.5) / 0.5, 0.0, 1.0);
  result.F_v_Rk = result.thin + share * (result.thick - result.thin);
  return result;
}

}  // namespace underprop::standards::eurocode
