// Handbook beams. Formulas: American Wood Council, Design Aid No. 6, "Beam Design Formulas with
// Shear and Moment Diagrams" (simple, overhanging, two- and three-span beams); the same figures stand
// in every steel and timber manual. Shear-flexible values: S. Timoshenko, Strength of Materials I,
// chapter on the influence of shear on deflection. Down is negative here, so deflections change sign.
#include "solver/frames.hpp"
#include "support/catch.hpp"

#include <cmath>

namespace beam_formulas_test_file {

using namespace frames;

namespace {

constexpr double L = 3000.0;
constexpr double w = 2.5;  // N/mm
constexpr double P = 4000.0;

Approx near(double value) { return Approx(value).epsilon(1e-9).margin(1e-9); }
/// Three printed digits.
Approx printed(double value, double last_digit) {
  return Approx(value).epsilon(0.0).margin(0.5001 * last_digit);
}

}  // namespace

TEST_CASE("A simple beam under a uniform load agrees with the handbook", "[closed-form]") {
  Builder b;
  const auto n = b.beam({0.0, L});
  b.support(n[0]);
  b.support(n[1]);
  b.uniform(0, w);
  const Solved s(b);
  CHECK(s.response.supports[0] == near(w * L / 2));
  CHECK(s.response.supports[1] == near(w * L / 2));
  const MemberForces f = s.forces(0);
  CHECK(f.Vi == near(w * L / 2));
  CHECK(f.Vj == near(-w * L / 2));
  CHECK(f.Mmax == near(w * L * L / 8));
  CHECK(f.Vmax == near(w * L / 2));
  CHECK(s.M(0, L / 2) == near(w * L * L / 8));
  CHECK(s.w(0, L / 2) == near(-5 * w * std::pow(L, 4) / (384 * EI)));
  CHECK(s.response.displacements[0].ty == near(w * std::pow(L, 3) / (24 * EI)));
  CHECK_FALSE(s.response.something_lifts);
}

TEST_CASE("A simple beam under a point load agrees with the handbook", "[closed-form]") {
  const double a = 0.3 * L;
  const double bb = L - a;
  for (const bool split : {false, true}) {  // the load within one member, or at a node
    Builder b;
    const auto n = split ? b.beam({0.0, a, L}) : b.beam({0.0, L});
    b.support(n.front());
    b.support(n.back());
    b.point(0, P, a);
    const Solved s(b);
    CHECK(s.response.supports[0] == near(P * bb / L));
    CHECK(s.response.supports[1] == near(P * a / L));
    CHECK(s.forces(0).Mmax == near(P * a * bb / L));
    CHECK(s.M(0, a / 2) == near(P * bb / L * a / 2));
    CHECK(s.w(0, a) == near(-P * a * a * bb * bb / (3 * EI * L)));
    if (split) {
      CHECK(s.forces(0).Vj == near(P * bb / L - P));  // a load at an end counts in that end's V
      CHECK(s.V(0, a) == near(P * bb / L - P));
    }
  }
}

TEST_CASE("A simple beam under a partial uniform load agrees with the handbook", "[closed-form]") {
  const double a = 500.0, len = 900.0, c = L - a - len;
  Builder b;
  const auto n = b.beam({0.0, L});
  b.support(n[0]);
  b.support(n[1]);
  b.loads.line.push_back({0, -w, -w, a, a + len});
  const Solved s(b);
  const double R1 = w * len * (2 * c + len) / (2 * L);
  CHECK(s.response.supports[0] == near(R1));
  CHECK(s.response.supports[1] == near(w * len * (2 * a + len) / (2 * L)));
  CHECK(s.forces(0).Mmax == near(R1 * (a + R1 / (2 * w))));
}

TEST_CASE("A simple beam under a triangular load agrees with the handbook", "[closed-form]") {
  // Load increasing uniformly to one end, total W = wL/2: M = 2WL/(9 sqrt 3) at L/sqrt 3,
  // deflection 0.01304 WL^3/EI at 0.5193 L.
  Builder b;
  const auto n = b.beam({0.0, L});
  b.support(n[0]);
  b.support(n[1]);
  b.loads.line.push_back({0, 0.0, -w, 0.0, L});
  const Solved s(b);
  const double W = w * L / 2;
  CHECK(s.response.supports[0] == near(W / 3));
  CHECK(s.response.supports[1] == near(2 * W / 3));
  CHECK(s.forces(0).Mmax == near(2 * W * L / (9 * std::sqrt(3.0))));
  CHECK(-s.w(0, 0.5193 * L) * EI / (W * std::pow(L, 3)) == printed(0.01304, 0.00001));
}

TEST_CASE("An overhanging beam agrees with the handbook", "[closed-form]") {
  const double a = 1100.0;
  const auto make = [&](bool on_span, bool on_overhang, bool tip) {
    Builder b;
    const auto n = b.beam({0.0, L, L + a});
    b.support(n[0]);
    b.support(n[1]);
    if (on_span) b.uniform(0, w);
    if (on_overhang) b.uniform(1, w);
    if (tip) b.point(1, P, a);
    return Solved(b);
  };
  {
    const Solved s = make(true, true, false);
    CHECK(s.response.supports[0] == near(w * (L * L - a * a) / (2 * L)));
    CHECK(s.response.supports[1] == near(w * (L + a) * (L + a) / (2 * L)));
    CHECK(s.forces(0).Mj == near(-w * a * a / 2));
    CHECK(s.forces(1).Mi == near(-w * a * a / 2));
    CHECK(s.M(0, L / 2 * (1 - a * a / (L * L))) ==
          near(w * std::pow(L + a, 2) * std::pow(L - a, 2) / (8 * L * L)));
    CHECK(s.w(1, a) == near(-w * a * (4 * a * a * L - L * L * L + 3 * a * a * a) / (24 * EI)));
  }
  {
    const Solved s = make(false, true, false);
    CHECK(s.response.supports[0] == near(-w * a * a / (2 * L)));
    CHECK(s.response.supports[1] == near(w * a * (2 * L + a) / (2 * L)));
    CHECK(s.w(1, a) == near(-w * a * a * a * (4 * L + 3 * a) / (24 * EI)));
  }
  {
    const Solved s = make(false, false, true);
    CHECK(s.response.supports[0] == near(-P * a / L));
    CHECK(s.forces(0).Mj == near(-P * a));
    CHECK(s.forces(1).Vj == near(0.0).margin(P));  // the load at the free end counts there
    CHECK(s.w(1, a) == near(-P * a * a * (L + a) / (3 * EI)));
    CHECK(s.w(0, L / std::sqrt(3.0)) * EI / (P * a * L * L) == printed(0.06415, 0.00001));
  }
}

TEST_CASE("Two equal spans agree with the handbook", "[closed-form]") {
  const auto make = [&](bool first, bool second, bool point) {
    Builder b;
    const auto n = b.beam({0.0, L, 2 * L});
    for (const int k : n) b.support(k);
    if (first) b.uniform(0, w);
    if (second) b.uniform(1, w);
    if (point) b.point(0, P, L / 2);
    return Solved(b);
  };
  {
    const Solved s = make(true, true, false);
    CHECK(s.response.supports[0] == near(3 * w * L / 8));
    CHECK(s.response.supports[1] == near(10 * w * L / 8));
    CHECK(s.forces(0).Mj == near(-w * L * L / 8));
    CHECK(s.M(0, 3 * L / 8) == near(9 * w * L * L / 128));
    CHECK(s.forces(0).Vmax == near(5 * w * L / 8));
    // The tables cut the last digit (also wL^4/185EI = 0.005405).
    CHECK(-s.w(0, 0.4215 * L) * EI / (w * std::pow(L, 4)) == printed(0.00541, 0.00002));
  }
  {
    const Solved s = make(true, false, false);
    CHECK(s.response.supports[0] == near(7 * w * L / 16));
    CHECK(s.response.supports[1] == near(5 * w * L / 8));
    CHECK(s.response.supports[2] == near(-w * L / 16));
    CHECK(s.forces(0).Mmax == near(49 * w * L * L / 512));
    CHECK(s.forces(1).Mi == near(-w * L * L / 16));
  }
  {
    const Solved s = make(false, false, true);
    CHECK(s.response.supports[0] == near(13 * P / 32));
    CHECK(s.response.supports[1] == near(11 * P / 16));
    CHECK(s.response.supports[2] == near(-3 * P / 32));
    CHECK(s.forces(0).Mmax == near(13 * P * L / 64));
    CHECK(s.forces(1).Mi == near(-3 * P * L / 32));
  }
}

TEST_CASE("Two unequal spans agree with the handbook", "[closed-form]") {
  const double a = 2000.0, c = 3500.0;
  Builder b;
  const auto n = b.beam({0.0, a, a + c});
  for (const int k : n) b.support(k);
  b.uniform(0, w);
  b.uniform(1, w);
  const Solved s(b);
  const double M = w * (a * a * a + c * c * c) / (8 * (a + c));
  CHECK(s.forces(0).Mj == near(-M));
  CHECK(s.response.supports[0] == near(w * a / 2 - M / a));
  CHECK(s.response.supports[2] == near(w * c / 2 - M / c));
}

TEST_CASE("Three equal spans agree with the handbook", "[closed-form]") {
  const auto make = [&](const std::vector<int>& loaded) {
    Builder b;
    const auto n = b.beam({0.0, L, 2 * L, 3 * L});
    for (const int k : n) b.support(k);
    for (const int m : loaded) b.uniform(m, w);
    return Solved(b);
  };
  const double q = w * L;
  {
    const Solved s = make({0, 1, 2});
    CHECK(s.response.supports[0] == near(0.4 * q));
    CHECK(s.response.supports[1] == near(1.1 * q));
    CHECK(s.forces(0).Mmax == near(0.1 * q * L));
    CHECK(s.M(0, 0.4 * L) == near(0.08 * q * L));
    CHECK(s.M(1, 0.5 * L) == near(0.025 * q * L));
    CHECK(-s.w(0, 0.446 * L) * EI / (q * L * L * L) == printed(0.0069, 0.0001));
  }
  {
    const Solved s = make({0, 1});
    CHECK(s.response.supports[0] / q == printed(0.383, 0.001));
    CHECK(s.response.supports[1] / q == printed(1.2, 0.001));
    CHECK(s.response.supports[2] / q == printed(0.45, 0.001));
    CHECK(s.response.supports[3] / q == printed(-0.033, 0.001));
    CHECK(s.forces(1).Mi / (q * L) == printed(-0.1167, 0.0001));
    CHECK(s.M(0, 0.383333 * L) / (q * L) == printed(0.0735, 0.0001));
  }
  {
    const Solved s = make({0, 2});
    CHECK(s.response.supports[0] / q == printed(0.45, 0.001));
    CHECK(s.response.supports[1] / q == printed(0.55, 0.001));
    CHECK(s.M(1, L / 2) / (q * L) == printed(-0.05, 0.0001));
    CHECK(s.forces(0).Mmax / (q * L) == printed(0.1013, 0.0001));
    CHECK(-s.w(0, 0.479 * L) * EI / (q * L * L * L) == printed(0.0099, 0.0001));
  }
}

TEST_CASE("Cantilever, fixed and propped beams agree with the handbook", "[closed-form]") {
  {
    Builder b;
    const auto n = b.beam({0.0, L});
    b.support(n[0], rigid, 0.0, rigid);
    b.uniform(0, w);
    b.point(0, P, L);
    const Solved s(b);
    CHECK(s.forces(0).Mi == near(-w * L * L / 2 - P * L));
    CHECK(s.w(0, L) == near(-w * std::pow(L, 4) / (8 * EI) - P * std::pow(L, 3) / (3 * EI)));
  }
  {
    Builder b;
    const auto n = b.beam({0.0, L});
    b.support(n[0], rigid, 0.0, rigid);
    b.support(n[1], rigid, 0.0, rigid);
    b.uniform(0, w);
    const Solved s(b);
    CHECK(s.forces(0).Mi == near(-w * L * L / 12));
    CHECK(s.forces(0).Mj == near(-w * L * L / 12));
    CHECK(s.M(0, L / 2) == near(w * L * L / 24));
    CHECK(s.w(0, L / 2) == near(-w * std::pow(L, 4) / (384 * EI)));
  }
  {
    Builder b;  // fixed at one end, simply supported at the other, point load at the middle
    const auto n = b.beam({0.0, L});
    b.support(n[0]);
    b.support(n[1], rigid, 0.0, rigid);
    b.point(0, P, L / 2);
    const Solved s(b);
    CHECK(s.response.supports[0] == near(5 * P / 16));
    CHECK(s.forces(0).Mj == near(-3 * P * L / 16));
  }
}

TEST_CASE("A shear-flexible beam deflects by bending and by shear", "[closed-form]") {
  const double kGA = 2.0e6;
  for (const int parts : {1, 2, 6}) {
    Builder b;
    std::vector<double> x;
    for (int k = 0; k <= parts; ++k) x.push_back(L * k / parts);
    const auto n = b.beam(x, 0.0, kGA);
    b.support(n.front());
    b.support(n.back());
    for (int m = 0; m < parts; ++m) b.uniform(m, w);
    const Solved s(b);
    const int mid = parts / 2;
    const double at = L / 2 - L * mid / parts;
    // Simple beam: 5wL^4/384EI + wL^2/(8 kGA).
    CHECK(s.w(mid, at) == near(-5 * w * std::pow(L, 4) / (384 * EI) - w * L * L / (8 * kGA)));
  }
  // Cantilever with a tip load: PL^3/3EI + PL/kGA.
  Builder c;
  const auto n = c.beam({0.0, L / 3, L}, 0.0, kGA);
  c.support(n[0], rigid, 0.0, rigid);
  c.at_node(n[2], -P);
  CHECK(Solved(c).response.displacements[2].w == near(-P * L * L * L / (3 * EI) - P * L / kGA));
  // Two spans: the force method with the flexibilities of the two lines above and, for the middle
  // reaction R, (2L)^3/48EI + 2L/4kGA.
  Builder t;
  const auto m = t.beam({0.0, L, 2 * L}, 0.0, kGA);
  for (const int k : m) t.support(k);
  t.uniform(0, w);
  t.uniform(1, w);
  const double load = 5 * w * std::pow(2 * L, 4) / (384 * EI) + w * 4 * L * L / (8 * kGA);
  const double unit = std::pow(2 * L, 3) / (48 * EI) + 2 * L / (4 * kGA);
  CHECK(Solved(t).response.supports[1] == near(load / unit));
}

TEST_CASE("End springs and releases reach their limits and the value between", "[closed-form]") {
  // Uniform load, equal springs k at both rigidly held ends: M_end = wL^2/12 / (1 + 2EI/(kL)),
  // because the end rotation of the simple beam wL^3/24EI = M L/2EI + M/k.
  const auto end_moment = [&](double k) {
    Builder b;
    const auto n = b.beam({0.0, L});
    b.support(n[0], rigid, 0.0, rigid);
    b.support(n[1], rigid, 0.0, rigid);
    b.frame.members[0].end_i.bending = k;
    b.frame.members[0].end_j.bending = k;
    b.uniform(0, w);
    const Solved s(b);
    CHECK(s.w(0, L / 2) ==
          near(-5 * w * std::pow(L, 4) / (384 * EI) - s.forces(0).Mi * L * L / (8 * EI)));
    return -s.forces(0).Mi;
  };
  CHECK(end_moment(rigid) == near(w * L * L / 12));
  CHECK(end_moment(0.0) == near(0.0));
  for (const double k : {1e6, 3e8, 1e12}) {
    CHECK(end_moment(k) == near(w * L * L / 12 / (1 + 2 * EI / (k * L))));
  }
}

TEST_CASE("Torque, twist and torsional springs", "[closed-form]") {
  const double GJ = 5.0e10, k = 8.0e7, T = 3.0e5;
  Builder b;
  const auto n = std::vector<int>{b.node(0.0), b.node(L)};
  b.member(n[0], n[1], EI, rigid, GJ);
  b.support(n[0], rigid, rigid, rigid);
  b.at_node(n[1], 0.0, T, 0.0);
  CHECK(Solved(b).response.displacements[1].tx == near(T * L / GJ));
  CHECK(Solved(b).forces(0).T == near(T));
  b.frame.members[0].end_i.torsion = k;
  CHECK(Solved(b).response.displacements[1].tx == near(T * L / GJ + T / k));
  CHECK(Solved(b).forces(0).T == near(T));
}

}  // namespace beam_formulas_test_file
