// Frames whose contacts open, against closed forms.
#include "solver/frames.hpp"
#include "support/catch.hpp"

#include <cmath>

namespace contact_frames_test_file {

using namespace frames;

namespace {

constexpr double L = 3000.0;
constexpr double w = 2.5;
constexpr double P = 4000.0;

Approx near(double value) { return Approx(value).epsilon(1e-9).margin(1e-9); }

/// A rigid plate on nodes that do not move, through springs k: rows at the given x, two per row.
Builder plate_on_rows(const std::vector<double>& rows, double k, double load, double e) {
  Builder b;
  Plate p{"shell", 0.0, 0.0, {}};
  for (const double x : rows) {
    for (const double y : {-300.0, 300.0}) {
      const int n = b.node(x, y);
      b.support(n);
      p.contacts.push_back({n, k, 0.0});
    }
  }
  b.frame.plates.push_back(p);
  // A force down at x = e is a force down at the reference point and My = e P (My = -x Fz).
  b.loads.nodal.push_back({-1, 0, -load, 0.0, e * load});
  return b;
}

}  // namespace

TEST_CASE("A beam on a middle spring shares the load by stiffness", "[closed-form]") {
  const double k = 900.0;
  Builder b;
  const auto n = b.beam({0.0, L / 2, L});
  b.support(n[0]);
  b.support(n[2]);
  b.support(n[1], k);
  b.uniform(0, w);
  b.uniform(1, w);
  const double R = 5 * w * std::pow(L, 4) / (384 * EI) / (std::pow(L, 3) / (48 * EI) + 1 / k);
  CHECK(Solved(b).response.supports[2] == near(R));
}

TEST_CASE("Two crossing beams share a load at the crossing by stiffness", "[closed-form]") {
  const double kc = 3000.0;  // the link between them
  Builder b;
  const auto x = b.beam({-L / 2, 0.0, L / 2});
  const int a = b.node(0.0, -L), c = b.node(0.0, 0.0), d = b.node(0.0, L);
  b.member(a, c);
  b.member(c, d);
  for (const int n : {x[0], x[2], a, d}) b.support(n);
  b.link(c, x[1], kc);  // the beam along y lies on the beam along x
  b.at_node(c, -P);
  const double k1 = 48 * EI / std::pow(2 * L, 3);
  const double k2 = 1 / (std::pow(L, 3) / (48 * EI) + 1 / kc);
  const Solved s(b);
  CHECK(s.response.links[0] == near(P * k2 / (k1 + k2)));
  CHECK(s.response.displacements[static_cast<std::size_t>(c)].w == near(-P / (k1 + k2)));
  CHECK(s.response.displacements[static_cast<std::size_t>(c)].ty == 0.0);  // idle
}

TEST_CASE("A rigid two-way link carries what equilibrium asks", "[closed-form]") {
  Builder b;
  const auto x = b.beam({-L / 2, 0.0, L / 2});
  const int a = b.node(0.0, -L), c = b.node(0.0, 0.0), d = b.node(0.0, L);
  b.member(a, c);
  b.member(c, d);
  for (const int n : {x[0], x[2], a, d}) b.support(n);
  b.link(c, x[1]);
  b.at_node(c, -P);
  const Solved s(b);
  CHECK(s.response.links[0] == near(P * 8.0 / 9.0));  // stiffnesses 8 : 1
  CHECK(s.response.supports[0] == near(P * 4.0 / 9.0));
  CHECK(s.response.supports[2] == near(P * 0.5 / 9.0));
}

TEST_CASE("A prop with a gap takes what the closed gap leaves", "[closed-form]") {
  const double d0 = 5 * w * std::pow(L, 4) / (384 * EI);
  for (const double share : {-0.4, 0.0, 0.3, 0.9, 1.2}) {
    Builder b;
    const auto n = b.beam({0.0, L / 2, L});
    b.support(n[0]);
    b.support(n[2]);
    b.one_way(n[1], rigid, share * d0);
    b.uniform(0, w);
    b.uniform(1, w);
    const Solved s(b);
    const double R = share < 1 ? 5 * w * L / 8 * (1 - share) : 0.0;
    CHECK(s.response.supports[2] == near(R));
    CHECK(s.response.displacements[1].w == near(share < 1 ? -share * d0 : -d0));
    CHECK(s.response.something_lifts == (share > 1));
    // The same prop, not rigid: one more flexibility in series.
    const double k = 5000.0;
    b.frame.supports[2].k_w = k;
    const double flexible = (d0 - share * d0) / (std::pow(L, 3) / (48 * EI) + 1 / k);
    CHECK(Solved(b).response.supports[2] == near(std::max(0.0, flexible)));
  }
}

TEST_CASE("Gaps are not multiplied by load factors", "[closed-form]") {
  const double d0 = 5 * w * std::pow(L, 4) / (384 * EI);
  Builder b;
  const auto n = b.beam({0.0, L / 2, L});
  b.support(n[0]);
  b.support(n[2]);
  b.one_way(n[1], rigid, 0.6 * d0);
  b.uniform(0, w);
  b.uniform(1, w);
  const Analysis a(b.frame, {b.loads});
  for (const double factor : {0.5, 1.0, 2.0}) {
    const std::vector<CaseFactor> c{{0, factor}};
    CHECK(a.solve(c).supports[2] == near(std::max(0.0, 5 * w * L / 8 * (factor - 0.6))));
  }
}

TEST_CASE("The far end of a beam on three one-way supports lifts off", "[closed-form]") {
  for (const double k : {800.0, 3e4, static_cast<double>(rigid)}) {
    Builder b;
    const auto n = b.beam({0.0, L, 2 * L});
    for (const int i : n) b.one_way(i, k);
    b.uniform(0, w);
    const Solved s(b);
    REQUIRE_FALSE(s.response.mechanism.has_value());
    // Two-way, the far support would pull (wL/16 on rigid supports); open, the span is simple.
    CHECK(s.response.supports[0] == near(w * L / 2));
    CHECK(s.response.supports[1] == near(w * L / 2));
    CHECK(s.response.supports[2] == 0.0);
    const double settles = std::isinf(k) ? 0.0 : w * L / 2 / k;
    CHECK(s.response.displacements[2].w == near(w * std::pow(L, 4) / (24 * EI) - settles));
    CHECK(s.response.something_lifts);
    CHECK(s.forces(1).Mmax == near(0.0).margin(1e-6 * w * L * L));
  }
}

TEST_CASE("An overhang that tips the beam is a mechanism that names the piece", "[closed-form]") {
  for (const double k : {2e4, static_cast<double>(rigid)}) {
    Builder b;
    const auto n = b.beam({0.0, L, 1.4 * L});
    b.one_way(n[0], k);
    b.one_way(n[1], k);
    for (Member& m : b.frame.members) m.piece = "joist 7";
    b.at_node(n[2], -P);
    const Solved s(b);
    REQUIRE(s.response.mechanism.has_value());
    CHECK(s.response.mechanism->find("joist 7") != std::string::npos);
    // Dead load that outweighs it holds the beam: wL^2/2 > P 0.4L + 0.08 wL^2.
    const double need = 0.4 * P / (0.5 * L);
    b.uniform(0, 1.01 * need);
    CHECK_FALSE(Solved(b).response.mechanism.has_value());
    CHECK(Solved(b).response.supports[0] == near(1.01 * need * L / 2 - 0.4 * P));
    b.loads.line.clear();
    b.uniform(0, 0.99 * need);
    CHECK(Solved(b).response.mechanism.has_value());
  }
}

TEST_CASE("A frame that is loose from the start reports the piece in every solve",
          "[closed-form]") {
  Builder b;
  const auto held = b.beam({0.0, L});
  b.support(held[0]);
  b.support(held[1]);
  const auto loose = b.beam({0.0, L}, 600.0);
  b.support(loose[0]);
  b.frame.members[0].piece = "bearer 1";
  b.frame.members[1].piece = "bearer 2";
  b.uniform(0, w);
  const Analysis a(b.frame, {b.loads});
  for (int k = 0; k < 2; ++k) {
    const Response r = a.solve(std::vector<CaseFactor>{{0, 1.0}});
    REQUIRE(r.mechanism.has_value());
    CHECK(r.mechanism->find("bearer 2") != std::string::npos);
    CHECK(r.displacements.empty());
  }
}

TEST_CASE("A very soft frame is not taken for a mechanism", "[closed-form]") {
  // A long cantilever of stubby members: tip stiffness 3EI/L^3, member stiffness 12EI/h^3.
  Builder b;
  std::vector<double> x{0.0};
  for (int k = 0; k < 200; ++k) x.push_back(x.back() + 15.0);
  const auto n = b.beam(x);
  b.support(n[0], rigid, 0.0, rigid);
  b.at_node(n.back(), -1.0);
  const Solved s(b);
  REQUIRE_FALSE(s.response.mechanism.has_value());
  CHECK(s.response.displacements.back().w == Approx(-std::pow(3000.0, 3) / (3 * EI)).epsilon(1e-5));
}

TEST_CASE("A piece that can roll is a mechanism until something holds it", "[closed-form]") {
  Builder b;
  const auto n = std::vector<int>{b.node(0.0), b.node(L)};
  b.member(n[0], n[1], EI, rigid, 1e9);
  b.support(n[0]);
  b.support(n[1]);
  b.uniform(0, w);
  CHECK(Solved(b).response.mechanism.has_value());
  b.frame.supports[0].k_tx = 1e6;
  CHECK_FALSE(Solved(b).response.mechanism.has_value());
}

TEST_CASE("A moment that nothing resists is no equilibrium", "[closed-form]") {
  Builder b;
  const auto n = b.beam({0.0, L});
  b.support(n[0]);
  b.support(n[1]);
  b.at_node(n[0], 0.0, 1e5, 0.0);  // about x: the beam has no torsional stiffness
  CHECK(Solved(b).response.mechanism.has_value());
}

TEST_CASE("Rounding in coordinates makes no hinge", "[closed-form]") {
  Builder b;
  const auto n = b.beam({0.0, L / 2, L});
  b.frame.nodes[1].y = 4e-13;
  b.support(n[0]);
  b.support(n[2]);
  b.at_node(n[1], -P);
  const Solved s(b);
  REQUIRE_FALSE(s.response.mechanism.has_value());
  CHECK(s.forces(0).Mj == near(P * L / 4));
}

TEST_CASE("An idle direction at an angle in plan is left out and reported as none",
          "[closed-form]") {
  const double c = 0.8, s = 0.6;
  Builder b;
  const int a = b.node(0.0, 0.0), m = b.node(c * L / 2, s * L / 2), e = b.node(c * L, s * L);
  b.member(a, m);
  b.member(m, e);
  b.support(a);
  b.support(e);
  b.point(0, P, L / 2);
  const Solved r(b);
  REQUIRE_FALSE(r.response.mechanism.has_value());
  CHECK(r.response.displacements[1].w == near(-P * L * L * L / (48 * EI)));
  // End rotation PL^2/16EI about the horizontal normal, no turn about the axis.
  const Displacement& d = r.response.displacements[0];
  CHECK(c * d.tx + s * d.ty == near(0.0).margin(1e-15));
  CHECK(s * d.tx - c * d.ty == near(-P * L * L / (16 * EI)));
}

TEST_CASE("A rigid plate on three rows of springs lifts its far row", "[closed-form]") {
  const double a = 500.0, k = 2000.0;
  for (const double e : {0.0, 200.0, 330.0, 340.0, 450.0}) {
    const Solved s(plate_on_rows({-a, 0.0, a}, k, P, e));
    REQUIRE_FALSE(s.response.mechanism.has_value());
    const auto& N = s.response.plates[0].contacts;
    const auto row = [&](std::size_t i) { return N[2 * i] + N[2 * i + 1]; };
    if (e < 2 * a / 3) {
      for (std::size_t i = 0; i < 3; ++i) {
        const double x = a * (static_cast<double>(i) - 1.0);
        CHECK(row(i) == near(P / 3 + P * e * x / (2 * a * a)));
      }
      CHECK_FALSE(s.response.something_lifts);
    } else {
      CHECK(N[0] == 0.0);
      CHECK(N[1] == 0.0);
      CHECK(row(1) == near(P * (a - e) / a));
      CHECK(row(2) == near(P * e / a));
      CHECK(s.response.something_lifts);
      // Tilt about y: the loaded side goes down, dw/dx = -ty.
      const double tilt = (row(2) - row(1)) / (2 * k) / a;
      CHECK(s.response.plates[0].ty == near(tilt));
    }
  }
}

TEST_CASE("A rigid footing with a load beyond its middle third presses a triangle",
          "[closed-form]") {
  // Width B, load at B/4 from the middle: contact over 3 (B/2 - e), edge pressure
  // 2P / (3 (B/2 - e)) per length, the classic middle-third result.
  const double B = 1200.0, e = 300.0;
  const int rows = 240;
  std::vector<double> x;
  for (int i = 0; i < rows; ++i) x.push_back(-B / 2 + B * (i + 0.5) / rows);
  const Solved s(plate_on_rows(x, 50.0, P, e));
  REQUIRE_FALSE(s.response.mechanism.has_value());
  const auto& N = s.response.plates[0].contacts;
  int pressed = 0;
  for (std::size_t i = 0; i < N.size(); i += 2) pressed += N[i] > 0 ? 1 : 0;
  CHECK(pressed * B / rows == Approx(3 * (B / 2 - e)).epsilon(0.01));
  const double edge = 2 * P / (3 * (B / 2 - e));
  CHECK((N[N.size() - 2] + N[N.size() - 1]) / (B / rows) == Approx(edge).epsilon(0.01));
}

TEST_CASE("A plate that no load presses down, or beyond its edge, is a mechanism",
          "[closed-form]") {
  const double a = 500.0;
  for (const auto& [load, e] : {std::pair{0.0, 0.0}, {P, 1.01 * a}, {P, a}, {-P, 0.0}}) {
    const Solved s(plate_on_rows({-a, 0.0, a}, 2000.0, load, e));
    REQUIRE(s.response.mechanism.has_value());
    CHECK(s.response.mechanism->find("shell") != std::string::npos);
  }
}

TEST_CASE("Rigid contacts in excess press in equilibrium", "[closed-form]") {
  const Solved s(plate_on_rows({-500.0, 0.0, 500.0}, rigid, P, 100.0));
  REQUIRE_FALSE(s.response.mechanism.has_value());
  double sum = 0.0, moment = 0.0;
  const auto& N = s.response.plates[0].contacts;
  for (std::size_t i = 0; i < N.size(); ++i) {
    CHECK(N[i] >= 0.0);
    sum += N[i];
    moment += N[i] * s.analysis.frame().nodes[i].x;
  }
  CHECK(sum == near(P));
  CHECK(moment == near(100.0 * P));
  CHECK(s.response.plates[0].w == near(0.0));
}

TEST_CASE("Wedges that contradict rigid supports are no equilibrium", "[closed-form]") {
  Builder b;
  const auto n = b.beam({0.0, L});
  const int top = b.node(L, 0.0);
  b.support(n[0]);
  b.support(n[1]);
  b.support(top);
  b.link(top, n[1], rigid, true, -2.0);
  b.uniform(0, w);
  CHECK(Solved(b).response.mechanism.has_value());
}

TEST_CASE("A frame without any freedom is solved", "[closed-form]") {
  Builder b;
  const auto n = b.beam({0.0, L});
  b.support(n[0], rigid, rigid, rigid);
  b.support(n[1], rigid, rigid, rigid);
  b.uniform(0, w);
  CHECK(Solved(b).forces(0).Mi == near(-w * L * L / 12));
  // One-way contact that cannot be pressed, beside the rigid supports: touching, without force.
  b.one_way(n[0], 1e4);
  const Solved s(b);
  REQUIRE_FALSE(s.response.mechanism.has_value());
  CHECK(s.response.supports[0] == near(w * L / 2));
  CHECK(s.response.supports[2] == 0.0);
}

TEST_CASE("What is not a model is refused", "[law]") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  Builder good;
  const auto n = good.beam({0.0, L / 2, L});
  good.support(n[0]);
  good.support(n[2]);
  good.uniform(0, w);
  const auto refused = [](const Builder& b) {
    CHECK_THROWS_AS(Analysis(b.frame, {b.loads}), InvalidFrame);
  };
  CHECK_NOTHROW(Analysis(good.frame, {good.loads}));
  const auto with = [&](auto&& change) {
    Builder b = good;
    change(b);
    refused(b);
  };
  with([](Builder& b) { b.frame.nodes.clear(); });
  with([&](Builder& b) { b.frame.nodes[0].x = nan; });
  with([](Builder& b) { b.frame.nodes[1].x = 0.0; });
  with([](Builder& b) { b.frame.members[0].i = 9; });
  with([](Builder& b) { b.frame.members[0].EI = 0.0; });
  with([&](Builder& b) { b.frame.members[0].EI = nan; });
  with([](Builder& b) { b.frame.members[0].kGA = 0.0; });
  with([](Builder& b) { b.frame.members[0].GJ = -1.0; });
  with([](Builder& b) { b.frame.members[0].end_j.bending = -1.0; });
  with([](Builder& b) { b.frame.supports[0].node = -1; });
  with([&](Builder& b) { b.frame.supports[0].k_w = nan; });
  with([](Builder& b) { b.frame.supports[0].gap = 1.0; });
  with([](Builder& b) { b.link(0, 2); });
  with([](Builder& b) { b.loads.line[0].b = 2 * L; });
  with([](Builder& b) { b.loads.line[0].a = b.loads.line[0].b; });
  with([&](Builder& b) { b.loads.line[0].q1 = nan; });
  with([](Builder& b) { b.point(5, P, 0.0); });
  with([](Builder& b) { b.point(0, P, -1.0); });
  with([](Builder& b) { b.loads.nodal.push_back({-1, 0, -P, 0.0, 0.0}); });
  with([&](Builder& b) {  // contacts on one line
    b.frame.plates.push_back({"p", 0, 0, {{n[0], 1e3, 0}, {n[1], 1e3, 0}, {n[2], 1e3, 0}}});
  });
  const Analysis a(good.frame, {good.loads});
  CHECK_THROWS_AS(a.solve(std::vector<CaseFactor>{{3, 1.0}}), InvalidFrame);
  CHECK_THROWS_AS(a.solve(std::vector<CaseFactor>{{0, nan}}), InvalidFrame);
  const std::vector<CaseFactor> one{{0, 1.0}};
  CHECK_THROWS_AS(a.solve(one, std::vector<SupportChange>{{7, 1.0, {}}}), InvalidFrame);
  CHECK_THROWS_AS(a.solve(one, std::vector<SupportChange>{{0, 1.0, {}}}), InvalidFrame);
}

}  // namespace contact_frames_test_file
