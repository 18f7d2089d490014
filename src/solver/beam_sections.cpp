// Internal forces between the ends of a member: statics only.
#include "solver/beam_element.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::solver {

SectionForces section_forces(const EndForces& ends, const SpanLoads& loads, double at) {
  SectionForces s{ends.Mi + ends.Vi * at, ends.Vi};
  for (const PointLoad& p : loads.point) {
    if (p.a > at) continue;
    s.V += p.P;
    s.M += p.P * (at - p.a);
  }
  for (const LineLoad& q : loads.line) {
    if (q.a >= at) continue;
    const double x = std::min(at, q.b);
    const double length = x - q.a;
    const double slope = (q.q2 - q.q1) / (q.b - q.a);
    const double V = q.q1 * length + 0.5 * slope * length * length;
    s.V += V;
    // About x first, then carried on to `at`.
    s.M += q.q1 * length * length / 2.0 + slope * length * length * length / 6.0 + V * (at - x);
  }
  return s;
}

Extremes extremes(double L, const EndForces& ends, const SpanLoads& loads) {
  Extremes out{std::max(std::abs(ends.Mi), std::abs(ends.Mj)),
               std::max(std::abs(ends.Vi), std::abs(ends.Vj))};
  if (loads.line.empty() && loads.point.empty()) return out;

  if (loads.point.empty() && std::all_of(loads.line.begin(), loads.line.end(), [L](const auto& q) {
        return q.a == 0.0 && q.b == L && q.q1 == q.q2;
      })) {
    // The common case, uniform over the whole member: V = 0 at -Vi/q.
    double q = 0.0;
    for (const LineLoad& l : loads.line) q += l.q1;
    const double s = -ends.Vi / q;
    if (s > 0.0 && s < L) out.M = std::max(out.M, std::abs(ends.Mi + 0.5 * ends.Vi * s));
    return out;
  }

  std::vector<double> stations{0.0, L};
  for (const PointLoad& p : loads.point) stations.push_back(p.a);
  for (const LineLoad& q : loads.line) {
    stations.push_back(q.a);
    stations.push_back(q.b);
  }
  std::sort(stations.begin(), stations.end());
  stations.erase(std::unique(stations.begin(), stations.end()), stations.end());

  double M = ends.Mi;
  double V = ends.Vi;
  for (std::size_t n = 0; n + 1 < stations.size(); ++n) {
    const double from = stations[n];
    const double h = stations[n + 1] - from;
    for (const PointLoad& p : loads.point) {
      if (p.a == from) V += p.P;
    }
    double q = 0.0;  // at `from`
    double r = 0.0;  // dq/dx'
    for (const LineLoad& line : loads.line) {
      if (line.a > from || line.b < stations[n + 1]) continue;
      const double slope = (line.q2 - line.q1) / (line.b - line.a);
      q += line.q1 + slope * (from - line.a);
      r += slope;
    }
    const auto shear = [&](double s) { return V + s * (q + s * r / 2.0); };
    const auto moment = [&](double s) { return M + s * (V + s * (q / 2.0 + s * r / 6.0)); };
    const auto look_at_M = [&](double s) {
      if (s > 0.0 && s < h) out.M = std::max(out.M, std::abs(moment(s)));
    };
    out.V = std::max({out.V, std::abs(V), std::abs(shear(h))});
    out.M = std::max({out.M, std::abs(M), std::abs(moment(h))});
    if (r != 0.0) {
      const double s = -q / r;
      if (s > 0.0 && s < h) out.V = std::max(out.V, std::abs(shear(s)));
    }
    // V(s) = 0: r/2 s^2 + q s + V = 0, in the form that loses no digits and needs no r != 0.
    const double discriminant = q * q - 2.0 * r * V;
    if (discriminant >= 0.0) {
      const double t = -(q + std::copysign(std::sqrt(discriminant), q));
      if (r != 0.0) look_at_M(t / r);
      if (t != 0.0) look_at_M(2.0 * V / t);
    }
    const double M_next = moment(h);
    V = shear(h);
    M = M_next;
  }
  return out;
}

}  // namespace underprop::solver
