#include "solver/beam_element.hpp"

#include <cmath>

namespace underprop::solver {

namespace {

/// Three-point Gauss-Legendre quadrature, exact up to degree 5.
template <class F>
double integral(double a, double b, F&& f) {
  const double mid = 0.5 * (a + b);
  const double half = 0.5 * (b - a);
  const double s = half * std::sqrt(0.6);
  return half / 9.0 * (5.0 * f(mid - s) + 8.0 * f(mid) + 5.0 * f(mid + s));
}

struct Basic {
  double e_i, e_j, twist;
};

Basic basic_deformations(const BeamElement& b, const EndVector& u) {
  const double chord = (u[3] - u[0]) / b.L;
  return {b.cy * u[1] - b.cx * u[2] - chord, b.cy * u[4] - b.cx * u[5] - chord,
          b.cx * (u[4] - u[1]) + b.cy * (u[5] - u[2])};
}

/// End forces (acting on the member, global directions) in equilibrium with m_i, m_j and the torque.
EndVector transposed(const BeamElement& b, double m_i, double m_j, double torque) {
  const double v = (m_i + m_j) / b.L;
  return {v,  b.cy * m_i - b.cx * torque, -b.cx * m_i - b.cy * torque,
          -v, b.cy * m_j + b.cx * torque, -b.cx * m_j + b.cy * torque};
}

/// 1/k, with "released" (no finite flexibility) told apart.
struct EndFlexibility {
  double value;
  bool released;
};

EndFlexibility flexibility(double k) {
  const double f = 1.0 / k;  // 0 for a rigid joint
  return {f, !std::isfinite(f)};
}

double load_at(const LineLoad& q, double x) {
  return q.q1 + (q.q2 - q.q1) * (x - q.a) / (q.b - q.a);
}

/// Deflection at x of a simple beam times EI, for P = 1 (up) at a: handbook, concentrated load at
/// any point (AWC Design Aid No. 6, figure "simple beam, concentrated load at any point").
double unit_deflection_EI(double L, double a, double x) {
  if (x > a) {
    a = L - a;
    x = L - x;
  }
  const double b = L - a;
  return b * x * (L * L - b * b - x * x) / (6.0 * L);
}

/// Moment at x of a simple beam for P = 1 (up) at a.
double unit_moment(double L, double a, double x) {
  return x <= a ? -(L - a) * x / L : -a * (L - x) / L;
}

}  // namespace

BeamElement beam_element(const Member& member, const Node& i, const Node& j) {
  BeamElement b;
  const double dx = j.x - i.x;
  const double dy = j.y - i.y;
  b.L = std::hypot(dx, dy);
  b.cx = dx / b.L;
  b.cy = dy / b.L;
  b.EI = member.EI;
  b.kGA = member.kGA;

  const double f = b.L / (6.0 * b.EI);
  const double s = 1.0 / (b.kGA * b.L);
  const EndFlexibility r_i = flexibility(member.end_i.bending);
  const EndFlexibility r_j = flexibility(member.end_j.bending);
  if (r_i.released && !r_j.released) {
    b.k_jj = 1.0 / (2.0 * f + s + r_j.value);
  } else if (!r_i.released && r_j.released) {
    b.k_ii = 1.0 / (2.0 * f + s + r_i.value);
  } else if (!r_i.released && !r_j.released) {
    // The determinant multiplied out: no term is subtracted, so none is lost.
    const double det =
        3.0 * f * f + 6.0 * f * s + (2.0 * f + s) * (r_i.value + r_j.value) + r_i.value * r_j.value;
    b.k_ii = (2.0 * f + s + r_j.value) / det;
    b.k_jj = (2.0 * f + s + r_i.value) / det;
    b.k_ij = (f - s) / det;
  }

  const EndFlexibility t_i = flexibility(member.end_i.torsion);
  const EndFlexibility t_j = flexibility(member.end_j.torsion);
  if (member.GJ > 0.0 && !t_i.released && !t_j.released) {
    b.k_t = 1.0 / (b.L / member.GJ + t_i.value + t_j.value);
  }
  return b;
}

EndVector stiffness_times(const BeamElement& b, const EndVector& u) {
  const Basic d = basic_deformations(b, u);
  return transposed(b, b.k_ii * d.e_i + b.k_ij * d.e_j, b.k_ij * d.e_i + b.k_jj * d.e_j,
                    b.k_t * d.twist);
}

std::array<EndVector, 6> stiffness(const BeamElement& b) {
  std::array<EndVector, 6> k{};
  for (std::size_t c = 0; c < 6; ++c) {
    EndVector unit{};
    unit[c] = 1.0;
    const EndVector column = stiffness_times(b, unit);
    for (std::size_t r = 0; r < 6; ++r) k[r][c] = column[r];
  }
  return k;
}

double twice_energy(const BeamElement& b, const EndVector& u) {
  const Basic d = basic_deformations(b, u);
  double e = b.k_t * d.twist * d.twist;
  if (b.k_ii > 0.0) {  // completed square: k_jj - k_ij^2 / k_ii >= 0
    const double s = d.e_i + b.k_ij / b.k_ii * d.e_j;
    e += b.k_ii * s * s + (b.k_jj - b.k_ij * b.k_ij / b.k_ii) * d.e_j * d.e_j;
  } else {
    e += b.k_jj * d.e_j * d.e_j;
  }
  return e;
}

void LoadEffect::add(const LoadEffect& other, double factor) {
  e_i += factor * other.e_i;
  e_j += factor * other.e_j;
  F_i += factor * other.F_i;
  F_j += factor * other.F_j;
}

LoadEffect point_load_effect(const BeamElement& element, double P, double a) {
  // End slopes of the simple beam, concentrated load at any point.
  const double L = element.L;
  const double b = L - a;
  const double c = P * a * b / (6.0 * L * element.EI);
  return {c * (L + b), -c * (L + a), P * b / L, P * a / L};
}

LoadEffect line_load_effect(const BeamElement& element, double q1, double q2, double a, double b) {
  // The point load integrated; the integrand has degree 4 at most, so the quadrature is exact.
  const double L = element.L;
  const LineLoad q{-1, q1, q2, a, b};
  const auto sum = [&](auto&& term) {
    return integral(a, b, [&](double x) { return load_at(q, x) * term(x); });
  };
  const double c = 1.0 / (6.0 * L * element.EI);
  return {c * sum([L](double x) { return x * (L - x) * (2.0 * L - x); }),
          -c * sum([L](double x) { return x * (L - x) * (L + x); }),
          sum([L](double x) { return 1.0 - x / L; }), sum([L](double x) { return x / L; })};
}

EndVector equivalent_nodal_loads(const BeamElement& b, const LoadEffect& load) {
  EndVector f = transposed(b, b.k_ii * load.e_i + b.k_ij * load.e_j,
                           b.k_ij * load.e_i + b.k_jj * load.e_j, 0.0);
  f[0] += load.F_i;
  f[3] += load.F_j;
  return f;
}

EndForces end_forces(const BeamElement& b, const EndVector& u, const LoadEffect& load) {
  const Basic d = basic_deformations(b, u);
  const double e_i = d.e_i - load.e_i;
  const double e_j = d.e_j - load.e_j;
  EndForces f;
  f.Mi = -(b.k_ii * e_i + b.k_ij * e_j);
  f.Mj = b.k_ij * e_i + b.k_jj * e_j;
  const double v = (f.Mj - f.Mi) / b.L;
  f.Vi = v - load.F_i;
  f.Vj = v + load.F_j;
  f.T = b.k_t * d.twist;
  return f;
}

double deflection_at(const BeamElement& b, double w_i, double w_j, const EndForces& ends,
                     const SpanLoads& loads, double at) {
  const double L = b.L;
  const double t = at / L;
  // Chord, then the end moments: EI w'' = Mi (1 - t) + Mj t, 0 at both ends. The uniform shear of
  // the end moments turns the chord only.
  double EI_w =
      L * L / 6.0 * (ends.Mi * t * (1.0 - t) * (t - 2.0) - ends.Mj * t * (1.0 - t) * (1.0 + t));
  double M = 0.0;  // of the loads on the simple beam; the deflection by shear strain is -M/kGA
  for (const PointLoad& p : loads.point) {
    EI_w += p.P * unit_deflection_EI(L, p.a, at);
    M += p.P * unit_moment(L, p.a, at);
  }
  for (const LineLoad& q : loads.line) {
    const double x = std::min(std::max(at, q.a), q.b);
    const auto deflect = [&](double s) { return load_at(q, s) * unit_deflection_EI(L, s, at); };
    const auto moment = [&](double s) { return load_at(q, s) * unit_moment(L, s, at); };
    EI_w += integral(q.a, x, deflect) + integral(x, q.b, deflect);
    M += integral(q.a, x, moment) + integral(x, q.b, moment);
  }
  return w_i + (w_j - w_i) * t + EI_w / b.EI - M / b.kGA;
}

}  // namespace underprop::solver
