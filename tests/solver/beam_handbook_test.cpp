// More handbook beams: those that beam_formulas_test.cpp leaves out. Sources, by their short names:
//   AWC      American Wood Council, Design Aid No. 6, Beam Design Formulas with Shear and Moment
//            Diagrams (2007); figure titles are quoted
//   Roark    W. C. Young and R. G. Budynas, Roark's Formulas for Stress and Strain, 7th ed. 2002,
//            tables 8.1 (beams) and 10.1 (torsion)
//   Hetenyi  M. Hetenyi, Beams on Elastic Foundation (1946), sections 9 (infinite), 13 (finite beam)
//   Timoshenko  S. Timoshenko, Strength of Materials, part I, 3rd ed. 1955: three moments, shear
// Down is negative here, so deflections change sign.
#include "solver/frames.hpp"
#include "support/catch.hpp"

#include <cmath>

namespace beam_handbook_test_file {

using namespace frames;

namespace {

constexpr double L = 3000.0;
constexpr double w = 2.5;  // N/mm
constexpr double P = 4000.0;

Approx near(double value) { return Approx(value).epsilon(1e-9).margin(1e-9); }

struct Span {
  double length, load;
};

/// A continuous beam of constant EI on rigid supports, uniform load per span: support moments (sagging
/// positive) by the theorem of three moments (Timoshenko),
///   M_(k-1) l_k + 2 M_k (l_k + l_(k+1)) + M_(k+1) l_(k+1) = -(w_k l_k^3 + w_(k+1) l_(k+1)^3)/4.
std::vector<double> three_moments(const std::vector<Span>& spans) {
  const std::size_t inner = spans.size() - 1;
  std::vector<double> diagonal, rhs, upper, out(spans.size() + 1, 0.0);
  for (std::size_t k = 0; k < inner; ++k) {
    const auto cube = [](const Span& s) { return s.load * s.length * s.length * s.length; };
    diagonal.push_back(2 * (spans[k].length + spans[k + 1].length));
    upper.push_back(spans[k + 1].length);
    rhs.push_back(-(cube(spans[k]) + cube(spans[k + 1])) / 4);
  }
  for (std::size_t k = 1; k < inner; ++k) {  // elimination of a tridiagonal matrix
    const double f = upper[k - 1] / diagonal[k - 1];
    diagonal[k] -= f * upper[k - 1];
    rhs[k] -= f * rhs[k - 1];
  }
  for (std::size_t k = inner; k-- > 0;) {
    out[k + 1] = (rhs[k] - (k + 1 < inner ? upper[k] * out[k + 2] : 0.0)) / diagonal[k];
  }
  return out;
}

}  // namespace

TEST_CASE("Simple beams under two point loads and a symmetric triangle agree with the handbook",
          "[closed-form]") {
  const double a = 800.0;
  {
    Builder b;  // AWC "two equal concentrated loads symmetrically placed"
    const auto n = b.beam({0.0, L});
    b.support(n[0]);
    b.support(n[1]);
    b.point(0, P, a);
    b.point(0, P, L - a);
    const Solved s(b);
    CHECK(s.forces(0).Mmax == near(P * a));
    CHECK(s.M(0, L / 2) == near(P * a));
    CHECK(s.w(0, L / 2) == near(-P * a * (3 * L * L - 4 * a * a) / (24 * EI)));
    CHECK(s.w(0, a) == near(-P * a * (3 * L * a - 3 * a * a - a * a) / (6 * EI)));
  }
  {
    Builder b;  // AWC "two unequal concentrated loads unsymmetrically placed"
    const double c = 500.0, P2 = 1.7 * P;
    const auto n = b.beam({0.0, L});
    b.support(n[0]);
    b.support(n[1]);
    b.point(0, P, a);
    b.point(0, P2, L - c);
    const Solved s(b);
    CHECK(s.response.supports[0] == near((P * (L - a) + P2 * c) / L));
    CHECK(s.response.supports[1] == near((P * a + P2 * (L - c)) / L));
    CHECK(s.M(0, a) == near(s.response.supports[0] * a));
    CHECK(s.M(0, L - c) == near(s.response.supports[1] * c));
  }
  {
    Builder b;  // AWC "load increasing uniformly to center": M = WL/6, deflection WL^3/60EI
    const auto n = b.beam({0.0, L});
    b.support(n[0]);
    b.support(n[1]);
    b.loads.line.push_back({0, 0.0, -w, 0.0, L / 2});
    b.loads.line.push_back({0, -w, 0.0, L / 2, L});
    const Solved s(b);
    const double W = w * L / 2;
    CHECK(s.forces(0).Mmax == near(W * L / 6));
    CHECK(s.w(0, L / 2) == near(-W * L * L * L / (60 * EI)));
  }
}

TEST_CASE("A simple beam under a uniform load at one end deflects as the handbook says",
          "[closed-form]") {
  // AWC "uniform load partially distributed at one end", length a from the left:
  // x < a: wx (a^2 (2L - a)^2 - 2 a x^2 (2L - a) + L x^3) / 24 EI L, x > a: w a^2 (L - x) (4xL - 2x^2
  // - a^2) / 24 EI L; R1 = wa (2L - a)/2L, R2 = wa^2/2L, M = R1^2/2w.
  const double a = 1300.0;
  Builder b;
  const auto n = b.beam({0.0, L});
  b.support(n[0]);
  b.support(n[1]);
  b.loads.line.push_back({0, -w, -w, 0.0, a});
  const Solved s(b);
  CHECK(s.response.supports[0] == near(w * a * (2 * L - a) / (2 * L)));
  CHECK(s.response.supports[1] == near(w * a * a / (2 * L)));
  CHECK(s.forces(0).Mmax == near(std::pow(s.response.supports[0], 2) / (2 * w)));
  for (const double x : {300.0, 900.0, 1300.0}) {
    CHECK(s.w(0, x) ==
          near(-w * x *
               (a * a * std::pow(2 * L - a, 2) - 2 * a * x * x * (2 * L - a) + L * x * x * x) /
               (24 * EI * L)));
  }
  for (const double x : {1300.0, 2000.0, 2900.0}) {
    CHECK(s.w(0, x) ==
          near(-w * a * a * (L - x) * (4 * x * L - 2 * x * x - a * a) / (24 * EI * L)));
  }
}

TEST_CASE("Fixed beams agree with the handbook", "[closed-form]") {
  const double a = 1100.0, c = L - a;
  {
    Builder b;  // AWC "beam fixed at both ends, concentrated load at any point"
    const auto n = b.beam({0.0, L});
    b.support(n[0], rigid, 0.0, rigid);
    b.support(n[1], rigid, 0.0, rigid);
    b.point(0, P, a);
    const Solved s(b);
    CHECK(s.response.supports[0] == near(P * c * c * (3 * a + c) / (L * L * L)));
    CHECK(s.forces(0).Mi == near(-P * a * c * c / (L * L)));
    CHECK(s.forces(0).Mj == near(-P * a * a * c / (L * L)));
    CHECK(s.M(0, a) == near(2 * P * a * a * c * c / (L * L * L)));
    CHECK(s.w(0, a) == near(-P * std::pow(a * c, 3) / (3 * EI * L * L * L)));
    const double x = 700.0;
    CHECK(s.w(0, x) ==
          near(-P * c * c * x * x * (3 * a * L - 3 * a * x - c * x) / (6 * EI * L * L * L)));
  }
  {
    Builder b;  // Roark 8.1, case 2d: ends fixed, load rising from 0 at the left: wL^2/30, wL^2/20
    const auto n = b.beam({0.0, L});
    b.support(n[0], rigid, 0.0, rigid);
    b.support(n[1], rigid, 0.0, rigid);
    b.loads.line.push_back({0, 0.0, -w, 0.0, L});
    const Solved s(b);
    CHECK(s.forces(0).Mi == near(-w * L * L / 30));
    CHECK(s.forces(0).Mj == near(-w * L * L / 20));
    CHECK(s.response.supports[0] == near(3 * w * L / 20));
    CHECK(s.response.supports[1] == near(7 * w * L / 20));
  }
}

TEST_CASE("Propped beams agree with the handbook", "[closed-form]") {
  {
    Builder b;  // AWC "beam fixed at one end, supported at other, uniformly distributed load"
    const auto n = b.beam({0.0, L});
    b.support(n[0]);
    b.support(n[1], rigid, 0.0, rigid);
    b.uniform(0, w);
    const Solved s(b);
    CHECK(s.response.supports[0] == near(3 * w * L / 8));
    CHECK(s.response.supports[1] == near(5 * w * L / 8));
    CHECK(s.forces(0).Mj == near(-w * L * L / 8));
    CHECK(s.M(0, 3 * L / 8) == near(9 * w * L * L / 128));
    for (const double x : {500.0, 1264.5, 2500.0}) {
      CHECK(s.w(0, x) == near(-w * x * (L * L * L - 3 * L * x * x + 2 * x * x * x) / (48 * EI)));
    }
  }
  {
    Builder b;  // the same, "concentrated load at any point", a from the supported end
    const double a = 1100.0, c = L - a;
    const auto n = b.beam({0.0, L});
    b.support(n[0]);
    b.support(n[1], rigid, 0.0, rigid);
    b.point(0, P, a);
    const Solved s(b);
    CHECK(s.response.supports[0] == near(P * c * c * (a + 2 * L) / (2 * L * L * L)));
    CHECK(s.forces(0).Mj == near(-P * a * c * (a + L) / (2 * L * L)));
    CHECK(s.w(0, a) == near(-P * a * a * c * c * c * (3 * L + a) / (12 * EI * L * L * L)));
  }
  {
    Builder b;  // AWC "cantilever beam, concentrated load at any point", b from the fixed end
    const double bb = 1900.0;
    const auto n = b.beam({0.0, L});
    b.support(n[1], rigid, 0.0, rigid);
    b.point(0, P, L - bb);
    const Solved s(b);
    CHECK(s.forces(0).Mj == near(-P * bb));
    CHECK(s.w(0, 0.0) == near(-P * bb * bb * (3 * L - bb) / (6 * EI)));
    CHECK(s.w(0, L - bb) == near(-P * bb * bb * bb / (3 * EI)));
  }
}

TEST_CASE("Beams that hang over both supports agree with the handbook", "[closed-form]") {
  // AWC "beam overhanging both supports, unequal overhangs, uniformly distributed load".
  const double a = 700.0, c = 1100.0;
  Builder b;
  const auto n = b.beam({0.0, a, a + L, a + L + c});
  b.support(n[1]);
  b.support(n[2]);
  for (int m = 0; m < 3; ++m) b.uniform(m, w);
  const Solved s(b);
  const double all = a + L + c;
  CHECK(s.response.supports[0] == near(w * all * (all - 2 * c) / (2 * L)));
  CHECK(s.response.supports[1] == near(w * all * (all - 2 * a) / (2 * L)));
  CHECK(s.forces(1).Mi == near(-w * a * a / 2));
  CHECK(s.forces(1).Mj == near(-w * c * c / 2));
  const double at = s.response.supports[0] / w - a;  // of the largest moment, from the support
  CHECK(s.M(1, at) == near(s.response.supports[0] * (s.response.supports[0] / (2 * w) - a)));
}

TEST_CASE("Continuous beams of two to five unequal spans satisfy the theorem of three moments",
          "[closed-form]") {
  const std::vector<std::vector<Span>> beams{
      {{2400, 2.5}, {3100, 0.0}},
      {{2400, 0.0}, {3100, 4.0}},
      {{1800, 1.0}, {3300, 2.0}, {2700, 3.0}},
      {{1800, 0.0}, {3300, 2.0}, {2700, 0.0}},
      {{2000, 2.5}, {900, 0.0}, {3000, 2.5}, {1500, 1.5}},
      {{2000, 0.0}, {2000, 2.5}, {2000, 0.0}, {2000, 2.5}, {2000, 0.0}}};
  for (const auto& spans : beams) {
    Builder b;
    std::vector<double> x{0.0};
    for (const Span& s : spans) x.push_back(x.back() + s.length);
    const auto n = b.beam(x);
    for (const int k : n) b.support(k);
    for (std::size_t m = 0; m < spans.size(); ++m) {
      if (spans[m].load > 0.0) b.uniform(static_cast<int>(m), spans[m].load);
    }
    const Solved s(b);
    const auto M = three_moments(spans);
    for (std::size_t m = 0; m < spans.size(); ++m) {
      CHECK(s.forces(static_cast<int>(m)).Mi == near(M[m]).margin(1e-3));
      CHECK(s.forces(static_cast<int>(m)).Mj == near(M[m + 1]).margin(1e-3));
      const auto [l, q] = spans[m];
      CHECK(s.w(static_cast<int>(m), l / 2) ==
            near(-5 * q * std::pow(l, 4) / (384 * EI) - (M[m] + M[m + 1]) * l * l / (16 * EI)));
    }
  }
}

TEST_CASE("A point load in the middle of three equal spans agrees with the handbook",
          "[closed-form]") {
  // Three moments with a point load in mid-span (term 3Pl^2/8 for each neighbour): middle span loaded,
  // M = -3PL/40 at both inner supports; end span loaded, M1 = -PL/10, M2 = +PL/40.
  for (const int loaded : {0, 1}) {
    Builder b;
    const auto n = b.beam({0.0, L, 2 * L, 3 * L});
    for (const int k : n) b.support(k);
    b.point(loaded, P, L / 2);
    const Solved s(b);
    CHECK(s.forces(1).Mi == near(loaded == 1 ? -3 * P * L / 40 : -P * L / 10));
    CHECK(s.forces(1).Mj == near(loaded == 1 ? -3 * P * L / 40 : P * L / 40));
    CHECK(s.response.supports[0] == near(loaded == 1 ? -3 * P / 40 : 2 * P / 5));
    CHECK(s.response.supports[3] == near(loaded == 1 ? -3 * P / 40 : P / 40));
  }
}

TEST_CASE("A support that settles bends a continuous beam by the three-moment theorem",
          "[closed-form]") {
  // Two equal spans, the middle support lower by d: M = +3EI d/L^2, by a one-way support with a gap
  // below a load that keeps it pressed: M = -wL^2/8 + 3EI d/L^2 (Timoshenko).
  for (const double d : {0.0, 0.7, -0.4}) {
    Builder b;
    const auto n = b.beam({0.0, L, 2 * L});
    b.support(n[0]);
    b.support(n[2]);
    b.one_way(n[1], rigid, d);
    b.uniform(0, w);
    b.uniform(1, w);
    const Solved s(b);
    CHECK(s.forces(0).Mj == near(-w * L * L / 8 + 3 * EI * d / (L * L)));
    CHECK(s.response.displacements[1].w == near(-d));
  }
}

TEST_CASE("Shear-flexible beams with fixed ends, a prop and an overhang", "[closed-form]") {
  const double kGA = 8.0e5;
  const double Phi = 12 * EI / (kGA * L * L);  // Przemieniecki's shear parameter
  {
    Builder b;  // fixed at both ends, load in the middle: PL^3/192EI + PL/4kGA, moments PL/8
    const auto n = b.beam({0.0, L}, 0.0, kGA);
    b.support(n[0], rigid, 0.0, rigid);
    b.support(n[1], rigid, 0.0, rigid);
    b.point(0, P, L / 2);
    const Solved s(b);
    CHECK(s.forces(0).Mi == near(-P * L / 8));
    CHECK(s.w(0, L / 2) == near(-P * L * L * L / (192 * EI) - P * L / (4 * kGA)));
  }
  {
    Builder b;  // fixed, one end lowered by a force: 12EI/L^3(1 + Phi) (Przemieniecki, section 5.6)
    const auto n = b.beam({0.0, L}, 0.0, kGA);
    b.support(n[0], rigid, 0.0, rigid);
    b.support(n[1], 0.0, 0.0, rigid);
    b.at_node(n[1], -P);
    CHECK(Solved(b).response.displacements[1].w == near(-P * L * L * L * (1 + Phi) / (12 * EI)));
  }
  {
    Builder b;  // fixed and propped, uniform: force method, R = (L^4/8EI + L^2/2kGA) w /
                // (L^3/3EI + L/kGA)
    const auto n = b.beam({0.0, L}, 0.0, kGA);
    b.support(n[0], rigid, 0.0, rigid);
    b.support(n[1]);
    b.uniform(0, w);
    CHECK(Solved(b).response.supports[1] ==
          near(w * (std::pow(L, 4) / (8 * EI) + L * L / (2 * kGA)) /
               (L * L * L / (3 * EI) + L / kGA)));
  }
  {
    Builder
        b;  // overhang a, load at its tip: Pa^2(L + a)/3EI + (Pa/kGA)(1 + a/L), unit load theorem
    const double a = 900.0;
    const auto n = b.beam({0.0, L, L + a}, 0.0, kGA);
    b.support(n[0]);
    b.support(n[1]);
    b.point(1, P, a);
    CHECK(Solved(b).w(1, a) == near(-P * a * a * (L + a) / (3 * EI) - P * a / kGA * (1 + a / L)));
  }
}

TEST_CASE("Beams on an elastic foundation converge with the square of the spring spacing",
          "[closed-form]") {
  // Free ends, load in the middle (Hetenyi, section 13): with lambda = (k/4EI)^(1/4),
  //   y = (P lambda/2k) (cosh lL + cos lL + 2)/(sinh lL + sin lL) under the load,
  //   M = (P/4 lambda) (cosh lL - cos lL)/(sinh lL + sin lL).
  const double length = 6000.0, k = 0.8;  // N/mm per mm
  const double l = std::pow(k / (4 * EI), 0.25);
  const double lL = l * length;
  const double below = std::sinh(lL) + std::sin(lL);
  const double y = P * l / (2 * k) * (std::cosh(lL) + std::cos(lL) + 2) / below;
  const double M = P / (4 * l) * (std::cosh(lL) - std::cos(lL)) / below;
  std::vector<double> off_y, off_M;
  for (const int parts : {8, 16, 32, 64, 128}) {
    Builder b;
    std::vector<double> x;
    for (int p = 0; p <= parts; ++p) x.push_back(length * p / parts);
    const auto n = b.beam(x);
    for (int p = 0; p <= parts; ++p) {
      const double tributary = length / parts * (p == 0 || p == parts ? 0.5 : 1.0);
      b.support(n[static_cast<std::size_t>(p)], k * tributary);
    }
    const int mid = parts / 2;
    b.at_node(n[static_cast<std::size_t>(mid)], -P);
    const Solved s(b);
    off_y.push_back(std::abs(s.response.displacements[static_cast<std::size_t>(mid)].w + y) / y);
    off_M.push_back(std::abs(s.forces(mid).Mi - M) / M);
  }
  for (std::size_t r = 1; r < off_y.size(); ++r) {
    INFO("spacing halved " << r << " times");
    CHECK(std::log2(off_y[r - 1] / off_y[r]) == Approx(2.0).margin(0.1));
    CHECK(std::log2(off_M[r - 1] / off_M[r]) == Approx(2.0).margin(0.1));
  }
  CHECK(off_y.back() < 1e-4);
  CHECK(off_M.back() < 1e-3);
}

TEST_CASE("A long beam on one-way springs lifts where the elastic foundation would pull",
          "[closed-form]") {
  // Infinite beam (Hetenyi, section 9): y = (P lambda/2k) e^-lx (cos lx + sin lx), negative from
  // lx = 3 pi/4 on: two-way springs pull there, one-way springs open, and the beam sinks deeper.
  const double k = 0.8, length = 16000.0;
  const int parts = 160;
  const double l = std::pow(k / (4 * EI), 0.25);
  const auto solve = [&](bool one_way) {
    Builder b;
    std::vector<double> x;
    for (int p = 0; p <= parts; ++p) x.push_back(length * p / parts);
    const auto n = b.beam(x);
    for (const int at : n) {
      if (one_way) {
        b.one_way(at, k * length / parts);
      } else {
        b.support(at, k * length / parts);
      }
    }
    b.at_node(n[parts / 2], -P);
    b.at_node(n[0], -1.0);  // a trace of load on the far ends, so that they do not float
    b.at_node(n[parts], -1.0);
    return Solved(b);
  };
  const Solved two = solve(false);
  CHECK(two.response.displacements[parts / 2].w == Approx(-P * l / (2 * k)).epsilon(2e-3));
  double pulls = 0.0;
  for (const double R : two.response.supports) pulls = std::min(pulls, R);
  CHECK(pulls < 0.0);
  const Solved one = solve(true);
  REQUIRE_FALSE(one.response.mechanism.has_value());
  CHECK(one.response.something_lifts);
  for (const double R : one.response.supports) CHECK(R >= 0.0);
  CHECK(one.response.displacements[parts / 2].w < two.response.displacements[parts / 2].w);
}

TEST_CASE("Torsion of a shaft fixed at both ends divides by length", "[closed-form]") {
  // Roark 10.1: a torque T at a from the left of a shaft fixed at both ends: T b/L left, T a/L right,
  // twist T a b/(GJ L).
  const double GJ = 5.0e10, T = 3.0e5, a = 1100.0, c = L - a;
  Builder b;
  const auto n = std::vector<int>{b.node(0.0), b.node(a), b.node(L)};
  b.member(n[0], n[1], EI, rigid, GJ);
  b.member(n[1], n[2], EI, rigid, GJ);
  b.support(n[0], rigid, rigid, rigid);
  b.support(n[2], rigid, rigid, rigid);
  b.at_node(n[1], 0.0, T, 0.0);
  const Solved s(b);
  CHECK(s.response.displacements[1].tx == near(T * a * c / (GJ * L)));
  CHECK(s.forces(0).T == near(T * c / L));
  CHECK(s.forces(1).T == near(-T * a / L));
}

TEST_CASE("A bent cantilever in plan turns bending into torsion", "[closed-form]") {
  // Unit load theorem: arm a along x from the clamp, then c along y, P at the tip:
  // P a^3/3EI + P c^3/3EI + P c^2 a/GJ (S. Timoshenko and D. H. Young, Theory of Structures).
  const double GJ = 7.0e10, a = 2000.0, c = 900.0;
  Builder b;
  const int clamp = b.node(0.0), corner = b.node(a), tip = b.node(a, c);
  b.member(clamp, corner, EI, rigid, GJ);
  b.member(corner, tip, EI, rigid, GJ);
  b.support(clamp, rigid, rigid, rigid);
  b.at_node(tip, -P);
  const Solved s(b);
  CHECK(s.response.displacements[2].w ==
        near(-P * a * a * a / (3 * EI) - P * c * c * c / (3 * EI) - P * c * c * a / GJ));
  CHECK(std::abs(s.forces(0).T) == near(P * c));
}

TEST_CASE("Two crossing beams of any stiffness share a load", "[closed-form]") {
  // Equal deflection at the crossing: P_1/(48 EI_1/L_1^3) = P_2/(48 EI_2/L_2^3).
  for (const double ratio : {0.25, 1.0, 3.0}) {
    const double L2 = 2000.0;
    Builder b;
    const auto n = b.beam({0.0, L / 2, L});
    const int i = b.node(L / 2, -L2 / 2), j = b.node(L / 2, L2 / 2), middle = b.node(L / 2);
    b.member(i, middle, ratio * EI);
    b.member(middle, j, ratio * EI);
    for (const int k : {n[0], n[2], i, j}) b.support(k);
    b.link(n[1], middle);
    b.at_node(n[1], -P);
    const Solved s(b);
    const double k1 = 48 * EI / std::pow(L, 3), k2 = 48 * ratio * EI / std::pow(L2, 3);
    CHECK(s.response.links[0] == near(P * k2 / (k1 + k2)));
    CHECK(s.forces(0).Mj == near(P * k1 / (k1 + k2) * L / 4));
    CHECK(s.forces(2).Mj == near(P * k2 / (k1 + k2) * L2 / 4));
  }
}

}  // namespace beam_handbook_test_file
