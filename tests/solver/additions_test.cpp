// Supports and members added to the one factorisation, against handbook values and against a frame
// built with them.
#include "oracle/dense_random.hpp"
#include "solver/frames.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace additions_test_file {

using namespace frames;
using oracle::random_grillage;
using oracle::RandomCase;

namespace {

constexpr double L = 3000.0;
constexpr double w = 2.5;
const std::vector<CaseFactor> once{{0, 1.0}};

Approx near(double value) { return Approx(value).epsilon(1e-9).margin(1e-9); }

Builder simple_beam() {
  Builder b;
  const auto n = b.beam({0.0, L / 2, L});
  b.support(n[0]);
  b.support(n[2]);
  b.uniform(0, w);
  b.uniform(1, w);
  return b;
}

Member between(int i, int j, double stiffness, double kGA = rigid, double GJ = 0.0) {
  Member m;
  m.id = "new";
  m.piece = "new piece";
  m.i = i;
  m.j = j;
  m.EI = stiffness;
  m.kGA = kGA;
  m.GJ = GJ;
  return m;
}

/// The largest difference over the largest value.
double apart(const std::vector<double>& a, const std::vector<double>& b, double scale) {
  REQUIRE(a.size() == b.size());
  double off = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) off = std::max(off, std::abs(a[i] - b[i]));
  return scale > 0.0 ? off / scale : off;
}

double largest(const std::vector<double>& v) {
  double most = 0.0;
  for (const double x : v) most = std::max(most, std::abs(x));
  return most;
}

}  // namespace

TEST_CASE("A prop added under a simple beam carries what the handbook says", "[closed-form]") {
  // AWC Design Aid No. 6, two equal spans: the middle reaction of a rigid prop is 10/8 w L/2; of a
  // spring k, the deflection 5wL^4/384EI is shared by stiffness 48EI/L^3 to k.
  const Builder b = simple_beam();
  const Analysis a(b.frame, {b.loads});
  const double free = 5 * w * std::pow(L, 4) / (384 * EI);
  const double beam = 48 * EI / std::pow(L, 3);
  for (const double k : {10.0, 900.0, 1e6}) {
    for (const bool one_way : {false, true}) {
      const Response r = a.solve(once, {}, {{{1, k, 0.0, one_way}}, {}});
      CHECK(r.added_supports.at(0) == near(free / (1 / k + 1 / beam)));
      CHECK(r.displacements[1].w == near(-r.added_supports[0] / k));
      CHECK(r.supports[0] + r.supports[1] + r.added_supports[0] == near(w * L));
    }
  }
  // With a gap that the beam closes, and one that it does not.
  const Response closes = a.solve(once, {}, {{{1, 900.0, 0.4 * free, true}}, {}});
  CHECK(closes.added_supports.at(0) == near(0.6 * free / (1 / 900.0 + 1 / beam)));
  const Response open = a.solve(once, {}, {{{1, 900.0, 1.1 * free, true}}, {}});
  CHECK(open.added_supports.at(0) == 0.0);
  CHECK(open.something_lifts);
  CHECK(open.displacements[1].w == near(-free));
  // A rigid prop in the limit: 5wL/8 of the whole length L.
  const Response stiff = a.solve(once, {}, {{{1, 1e9, 0.0, true}}, {}});
  CHECK(stiff.added_supports.at(0) == Approx(5 * w * L / 8).epsilon(1e-6));
}

TEST_CASE("A sister of the same section halves the deflection and takes half the moment",
          "[closed-form]") {
  Builder b;
  const auto n = b.beam({0.0, L / 2, L});
  b.support(n[0]);
  b.support(n[2]);
  b.at_node(n[1], -4000.0);
  const Analysis a(b.frame, {b.loads});
  const double alone = 4000.0 * std::pow(L, 3) / (48 * EI);
  CHECK(a.solve(once).displacements[1].w == near(-alone));
  for (const double share : {1.0, 3.0}) {
    const Response r =
        a.solve(once, {}, {{}, {between(0, 1, share * EI), between(1, 2, share * EI)}});
    CHECK(r.displacements[1].w == near(-alone / (1 + share)));
    REQUIRE(r.added_members.size() == 2);
    const double M = 4000.0 * L / 4 * share / (1 + share);
    CHECK(r.added_members[0].Mj == near(M));
    CHECK(r.added_members[1].Mi == near(M));
    CHECK(r.added_members[0].Mi == near(0.0).margin(1e-6));
    CHECK(r.added_members[0].Vi == near(2000.0 * share / (1 + share)));
    CHECK(a.member_forces(r, once, std::vector<int>{0}).front().Mj == near(4000.0 * L / 4 - M));
  }
  // Beside one half only: between the two.
  const Response half = a.solve(once, {}, {{}, {between(0, 1, EI)}});
  CHECK(std::abs(half.displacements[1].w) < alone);
  CHECK(std::abs(half.displacements[1].w) > alone / 2);
}

TEST_CASE("A crossing member held at its far ends shares the load by stiffness", "[closed-form]") {
  // Two simple beams of stiffness 48EI/L^3 crossing at the middle share a point load equally. The
  // cross member turns its nodes about x, which nothing in the frame resists.
  Builder b;
  const auto n = b.beam({0.0, L / 2, L});
  b.support(n[0]);
  b.support(n[2]);
  const int near_end = b.node(L / 2, -L / 2);
  const int far_end = b.node(L / 2, L / 2);
  b.support(near_end);
  b.support(far_end);
  b.at_node(n[1], -4000.0);
  const Analysis a(b.frame, {b.loads});
  const Response alone = a.solve(once);
  CHECK(alone.displacements[1].w == near(-4000.0 * std::pow(L, 3) / (48 * EI)));
  const Additions cross{{}, {between(near_end, n[1], EI), between(n[1], far_end, EI)}};
  const Response r = a.solve(once, {}, cross);
  REQUIRE_FALSE(r.mechanism.has_value());
  CHECK(r.displacements[1].w == near(-2000.0 * std::pow(L, 3) / (48 * EI)));
  CHECK(r.supports[2] == near(1000.0));
  CHECK(r.added_members[0].Mj == near(2000.0 * L / 4));
  CHECK(std::abs(r.displacements[static_cast<std::size_t>(near_end)].tx) ==
        near(2000.0 * L * L / (16 * EI)));
}

TEST_CASE("Additions cure a loose frame, and one that they do not cure names the piece", "[law]") {
  Builder b;
  const auto n = b.beam({0.0, L / 2, L});
  b.frame.members[0].piece = "old joist";
  b.frame.members[1].piece = "old joist";
  b.support(n[0]);
  b.at_node(n[1], -1000.0);
  const Analysis a(b.frame, {b.loads});
  CHECK(a.solve(once).mechanism.has_value());
  const Response cured = a.solve(once, {}, {{{n[2], 1e4, 0.0, true}}, {}});
  REQUIRE_FALSE(cured.mechanism.has_value());
  CHECK(cured.added_supports.at(0) == near(500.0));
  CHECK(cured.supports.size() == 1);
  const Response tips = a.solve(once, {}, {{{n[0], 1e4, 0.0, true}}, {}});
  REQUIRE(tips.mechanism.has_value());
  CHECK(tips.mechanism->find("old joist") != std::string::npos);
  // A moment about x, which only a cross member with its own support resists.
  Builder c = simple_beam();
  const int aside = c.node(L / 2, 800.0);
  c.support(aside);
  c.at_node(1, 0.0, 1e5, 0.0);
  const Analysis turned(c.frame, {c.loads});
  CHECK(turned.solve(once).mechanism.has_value());
  const Response held = turned.solve(once, {}, {{}, {between(1, aside, EI)}});
  REQUIRE_FALSE(held.mechanism.has_value());
  CHECK(held.added_members.at(0).Mi != 0.0);
}

TEST_CASE("A pad taken away and one like it added in its place change nothing", "[law]") {
  Builder b = simple_beam();
  b.one_way(1, 800.0);
  const Analysis a(b.frame, {b.loads});
  const std::vector<SupportChange> absent{{2, 0.0, {}}};
  const Response moved = a.solve(once, absent, {{{1, 800.0, 0.0, true}}, {}});
  const Response before = a.solve(once);
  CHECK(moved.supports[2] == 0.0);
  CHECK(moved.added_supports.at(0) == near(before.supports[2]));
  CHECK(moved.displacements[1].w == near(before.displacements[1].w));
}

TEST_CASE("What cannot be added is refused", "[law]") {
  const Builder b = simple_beam();
  const Analysis a(b.frame, {b.loads});
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const SupportAddition& s :
       {SupportAddition{7, 1.0, 0.0, true}, SupportAddition{-1, 1.0, 0.0, true},
        SupportAddition{1, -1.0, 0.0, true}, SupportAddition{1, nan, 0.0, true},
        SupportAddition{1, rigid, 0.0, true}, SupportAddition{1, 1.0, nan, true},
        SupportAddition{1, 1.0, 0.5, false}}) {
    CHECK_THROWS_AS(a.solve(once, {}, {{s}, {}}), InvalidFrame);
  }
  for (const Member& m : {between(0, 9, EI), between(0, 0, EI), between(0, 1, 0.0),
                          between(0, 1, nan), between(0, 1, EI, -1.0)}) {
    CHECK_THROWS_AS(a.solve(once, {}, {{}, {m}}), InvalidFrame);
  }
}

TEST_CASE("Supports and members added to the factorisation answer as a frame built with them",
          "[oracle]") {
  int compared = 0, loose = 0, lifting = 0, turned = 0, tipped = 0;
  double worst = 0.0;
  for (std::uint64_t k = 8000; k < 8300; ++k) {
    const RandomCase c = random_grillage(k, 8, k % 3 == 0);
    const Analysis analysis(c.frame, {c.loads});
    oracle::Sequence r(k);
    const int nodes = static_cast<int>(c.frame.nodes.size());
    for (int trial = 0; trial < 3; ++trial) {
      Additions add;
      std::vector<SupportChange> changes;
      Frame built = c.frame;
      for (int s = r.below(3); s > 0; --s) {
        SupportAddition p{r.below(nodes), r.between(100, 1e5), 0.0, r.chance(0.7)};
        if (p.compression_only && r.chance(0.5)) p.gap = r.between(-0.5, 1.5);
        add.supports.push_back(p);
        built.supports.push_back({"new", p.node, p.k_w, 0, 0, p.compression_only, p.gap});
      }
      for (int m = r.below(3) + (add.supports.empty() ? 1 : 0); m > 0; --m) {
        int i = 0, j = 0;
        if (r.chance(0.5)) {  // a sister
          const Member& old = c.frame.members[static_cast<std::size_t>(
              r.below(static_cast<int>(c.frame.members.size())))];
          i = old.i;
          j = old.j;
        } else {
          do {
            i = r.below(nodes);
            j = r.below(nodes);
          } while (std::hypot(c.frame.nodes[static_cast<std::size_t>(i)].x -
                                  c.frame.nodes[static_cast<std::size_t>(j)].x,
                              c.frame.nodes[static_cast<std::size_t>(i)].y -
                                  c.frame.nodes[static_cast<std::size_t>(j)].y) < 1.0);
        }
        Member e = between(i, j, r.between(1e10, 8e11));
        if (r.chance(0.5)) e.kGA = r.between(2e5, 5e6);
        if (r.chance(0.4)) e.GJ = r.between(1e8, 1e10);
        for (EndFixity* f : {&e.end_i, &e.end_j}) {
          if (r.chance(0.3)) f->bending = r.chance(0.5) ? 0.0 : r.between(1e7, 1e9);
          if (r.chance(0.3)) f->torsion = 0.0;
        }
        add.members.push_back(e);
        built.members.push_back(e);
      }
      for (std::size_t s = 0; s < c.frame.supports.size(); ++s) {
        const Support& p = c.frame.supports[s];
        if (p.k_w == 0.0 || (!p.compression_only && std::isinf(p.k_w)) || !r.chance(0.15)) continue;
        changes.push_back({static_cast<int>(s), r.chance(0.5) ? 0.0 : r.between(100, 1e5), {}});
        built.supports[s].k_w = changes.back().k_w;
      }
      INFO("case " << k << " trial " << trial);
      const Response got = analysis.solve(once, changes, add);
      const Analysis fresh(built, {c.loads});
      const Response want = fresh.solve(once);
      if (got.mechanism) INFO(*got.mechanism);
      if (want.mechanism) INFO(*want.mechanism);
      // Question 2 of deck 8069 has all but tipped and moves by metres: rounding of that seems to press
      // a board that no load presses.
      REQUIRE(got.mechanism.has_value() == want.mechanism.has_value());
      tipped += k == 8069 && trial == 2 && want.mechanism ? 1 : 0;
      if (want.mechanism) {
        ++loose;
        continue;
      }
      ++compared;
      lifting += want.something_lifts ? 1 : 0;
      CHECK(got.something_lifts == want.something_lifts);
      std::vector<double> w1, w2, t1, t2;
      for (std::size_t n = 0; n < want.displacements.size(); ++n) {
        w1.push_back(got.displacements[n].w);
        w2.push_back(want.displacements[n].w);
        for (const double t : {got.displacements[n].tx, got.displacements[n].ty}) t1.push_back(t);
        for (const double t : {want.displacements[n].tx, want.displacements[n].ty}) t2.push_back(t);
      }
      std::vector<double> s1 = got.supports, s2 = want.supports;
      s1.insert(s1.end(), got.added_supports.begin(), got.added_supports.end());
      std::vector<double> f1, f2;
      std::vector<int> added, all;
      for (std::size_t m = 0; m < built.members.size(); ++m) {
        (m < c.frame.members.size() ? all : added).push_back(static_cast<int>(m));
      }
      const auto old_forces = analysis.member_forces(got, once, all);
      const auto want_old = fresh.member_forces(want, once, all);
      const auto want_new = fresh.member_forces(want, once, added);
      REQUIRE(got.added_members.size() == want_new.size());
      const auto put = [](std::vector<double>& to, const MemberForces& f) {
        for (const double v : {f.Mi, f.Mj, f.T}) to.push_back(v);
      };
      for (const MemberForces& f : old_forces) put(f1, f);
      for (const MemberForces& f : want_old) put(f2, f);
      for (const MemberForces& f : got.added_members) put(f1, f);
      for (const MemberForces& f : want_new) put(f2, f);
      const double off = std::max({apart(w1, w2, largest(w2)), apart(t1, t2, largest(t2)),
                                   apart(s1, s2, largest(s2)), apart(f1, f2, largest(f2))});
      CHECK(off < 1e-8);
      worst = std::max(worst, off);
      for (const double t : t2) turned += t != 0.0 ? 1 : 0;
    }
  }
  UNSCOPED_INFO("worst difference " << worst);
  CHECK(compared > 250);
  CHECK(loose > 20);
  CHECK(lifting > 100);
  CHECK(turned > 1000);
  CHECK(tipped == 1);
}

}  // namespace additions_test_file
