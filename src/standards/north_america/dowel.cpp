#include "standards/north_america/dowel.hpp"

#include "standards/north_america/require.hpp"

#include <cmath>
#include <utility>

namespace underprop::standards::north_america {

namespace {

void require_gravity(double G) {
  require(G > 0 && G < 1.5, "specific gravity must lie in 0 to 1.5");
}

}  // namespace

Stress dowel_bearing_parallel(double G) {
  require_gravity(G);
  return psi(11200.0 * G);
}

Stress dowel_bearing_perpendicular(double G, Length D) {
  require_gravity(G);
  require(D.value() > 0, "dowel_bearing_perpendicular: D must be positive");
  return psi(6100.0 * std::pow(G, 1.45) / std::sqrt(in_inches(D)));
}

Stress dowel_bearing_small(double G) {
  require_gravity(G);
  return psi(16600.0 * std::pow(G, 1.84));
}

Stress to_nearest_50_psi(Stress F_e) { return psi(50.0 * std::round(in_psi(F_e) / 50.0)); }

ReductionTerms reduction_terms(Length D, Length nominal, double theta_deg) {
  require(D.value() > 0 && nominal >= D, "reduction_terms: 0 < D <= nominal diameter");
  require(theta_deg >= 0 && theta_deg <= 90, "reduction_terms: angle must lie in 0 to 90");
  const double K_theta = 1.0 + 0.25 * theta_deg / 90.0;
  if (D >= inches(0.25)) return {4.0 * K_theta, 3.6 * K_theta, 3.2 * K_theta};
  double K_D = D <= inches(0.17) ? 2.2 : 10.0 * in_inches(D) + 0.5;
  if (nominal >= inches(0.25)) K_D *= K_theta;
  return {K_D, K_D, K_D};
}

namespace {

/// The ratios and coefficients common to both arrangements; modes are not yet filled in.
YieldResult coefficients(const DowelJoint& j) {
  require(j.l_m.value() > 0 && j.l_s.value() > 0, "dowel joint: bearing lengths must be positive");
  require(j.F_em.value() > 0 && j.F_es.value() > 0 && j.F_yb.value() > 0,
          "dowel joint: strengths must be positive");
  YieldResult r;
  r.R_d = reduction_terms(j.D, j.nominal, j.theta_deg);
  r.R_e = j.F_em / j.F_es;
  r.R_t = j.l_m / j.l_s;
  const double R_e = r.R_e;
  const double R_t = r.R_t;
  r.k_1 =
      (std::sqrt(R_e + 2.0 * R_e * R_e * (1.0 + R_t + R_t * R_t) + R_t * R_t * R_e * R_e * R_e) -
       R_e * (1.0 + R_t)) /
      (1.0 + R_e);
  const double main = j.F_yb / j.F_em * ((j.D / j.l_m) * (j.D / j.l_m));
  const double side = j.F_yb / j.F_em * ((j.D / j.l_s) * (j.D / j.l_s));
  r.k_2 = -1.0 + std::sqrt(2.0 * (1.0 + R_e) + 2.0 * (1.0 + 2.0 * R_e) * main / 3.0);
  r.k_3 = -1.0 + std::sqrt(2.0 * (1.0 + R_e) / R_e + 2.0 * (2.0 + R_e) * side / 3.0);
  return r;
}

Force mode_III_s(const DowelJoint& j, const YieldResult& r) {
  return r.k_3 * (j.D * j.l_s * j.F_em) / ((2.0 + r.R_e) * r.R_d.III_IV);
}

Force mode_IV(const DowelJoint& j, const YieldResult& r) {
  const double root = std::sqrt(2.0 * j.F_em.value() * j.F_yb.value() / (3.0 * (1.0 + r.R_e)));
  return j.D * j.D * Stress(root) / r.R_d.III_IV;
}

YieldResult with_governing(YieldResult r) {
  r.Z = r.modes.front().Z;
  r.governing = r.modes.front().name;
  for (const YieldMode& mode : r.modes) {
    if (mode.Z < r.Z) {
      r.Z = mode.Z;
      r.governing = mode.name;
    }
  }
  return r;
}

}  // namespace

YieldResult single_shear(const DowelJoint& j) {
  YieldResult r = coefficients(j);
  r.modes = {
      {"I_m", j.D * j.l_m * j.F_em / r.R_d.I},
      {"I_s", j.D * j.l_s * j.F_es / r.R_d.I},
      {"II", r.k_1 * (j.D * j.l_s * j.F_es) / r.R_d.II},
      {"III_m", r.k_2 * (j.D * j.l_m * j.F_em) / ((1.0 + 2.0 * r.R_e) * r.R_d.III_IV)},
      {"III_s", mode_III_s(j, r)},
      {"IV", mode_IV(j, r)},
  };
  return with_governing(std::move(r));
}

YieldResult double_shear(const DowelJoint& j) {
  YieldResult r = coefficients(j);
  r.modes = {
      {"I_m", j.D * j.l_m * j.F_em / r.R_d.I},
      {"I_s", 2.0 * (j.D * j.l_s * j.F_es) / r.R_d.I},
      {"III_s", 2.0 * mode_III_s(j, r)},
      {"IV", 2.0 * mode_IV(j, r)},
  };
  return with_governing(std::move(r));
}

}  // namespace underprop::standards::north_america
