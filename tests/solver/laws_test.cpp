// What must hold for every frame: equilibrium, reciprocity, superposition, mirror, units, and that a
// changed support is the same as a frame built with it.
#include "oracle/dense_random.hpp"
#include "solver/frames.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <cmath>

namespace laws_test_file {

using namespace frames;
using oracle::random_grillage;
using oracle::RandomCase;

namespace {

const std::vector<CaseFactor> once{{0, 1.0}};

double largest_w(const Response& r) {
  double most = 0.0;
  for (const Displacement& d : r.displacements) most = std::max(most, std::abs(d.w));
  return most;
}

/// The same displacements and forces, within rounding.
void same(const Response& a, const Response& b, double tolerance, double length = 1.0,
          double force = 1.0) {
  REQUIRE(a.mechanism.has_value() == b.mechanism.has_value());
  if (a.mechanism) return;
  const double w = largest_w(a);
  for (std::size_t n = 0; n < a.displacements.size(); ++n) {
    CHECK(std::abs(a.displacements[n].w - b.displacements[n].w / length) <= tolerance * w);
  }
  double most = 0.0;
  for (const double R : a.supports) most = std::max(most, std::abs(R));
  for (std::size_t k = 0; k < a.supports.size(); ++k) {
    CHECK(std::abs(a.supports[k] - b.supports[k] / force) <= tolerance * most);
  }
  for (std::size_t k = 0; k < a.links.size(); ++k) {
    CHECK(std::abs(a.links[k] - b.links[k] / force) <= tolerance * most);
  }
  CHECK(a.something_lifts == b.something_lifts);
}

}  // namespace

TEST_CASE("Every answer carries its proof, and reactions balance loads", "[law]") {
  int solved = 0;
  for (std::uint64_t k = 300; k < 340; ++k) {
    const RandomCase c = random_grillage(k, 8, k % 2 == 0);
    const Response r = Analysis(c.frame, {c.loads}).solve(once);
    if (r.mechanism) continue;
    ++solved;
    CHECK(r.proof.residual < 1e-8);
    CHECK(r.proof.balance < 1e-8);
    CHECK(r.proof.complementarity < 1e-8);
    double loads = 0.0, reactions = 0.0, sum = 0.0;
    for (const NodalLoad& l : c.loads.nodal) loads += l.Fz;
    for (const LineLoad& l : c.loads.line) loads += (l.q1 + l.q2) / 2 * (l.b - l.a);
    for (const PointLoad& l : c.loads.point) loads += l.P;
    for (const double R : r.supports) {
      reactions += R;
      sum += std::abs(R);
    }
    CHECK(std::abs(loads + reactions) < 1e-8 * sum);
    for (std::size_t i = 0; i < c.frame.links.size(); ++i) {
      if (c.frame.links[i].compression_only) CHECK(r.links[i] >= 0.0);
    }
  }
  CHECK(solved > 20);
}

TEST_CASE("Reciprocity: what a force at one node does at another, it does in exchange", "[law]") {
  for (std::uint64_t k = 400; k < 410; ++k) {
    const RandomCase c = random_grillage(k, 0, false);
    const int n = static_cast<int>(c.frame.nodes.size());
    LoadCase a, b;
    a.nodal.push_back({1, -1, 1000.0, 0.0, 0.0});
    b.nodal.push_back({n - 2, -1, 1000.0, 0.0, 0.0});
    const Analysis analysis(c.frame, {a, b});
    const Response ra = analysis.solve(once);
    const Response rb = analysis.solve(std::vector<CaseFactor>{{1, 1.0}});
    if (ra.mechanism) continue;
    const double ab = ra.displacements[static_cast<std::size_t>(n - 2)].w;
    const double ba = rb.displacements[1].w;
    CHECK(std::abs(ab - ba) <= 1e-9 * std::max(largest_w(ra), largest_w(rb)));
  }
}

TEST_CASE("Without contacts, cases superpose", "[law]") {
  const RandomCase c = random_grillage(204, 0, false);
  const RandomCase d = random_grillage(204, 0, false);
  LoadCase other = d.loads;
  for (PointLoad& p : other.point) p.P *= -0.3;
  const Analysis a(c.frame, {c.loads, other});
  const Response r1 = a.solve(once);
  const Response r2 = a.solve(std::vector<CaseFactor>{{1, 1.0}});
  const Response both = a.solve(std::vector<CaseFactor>{{0, 1.35}, {1, -0.5}, {0, 0.15}});
  REQUIRE_FALSE(both.mechanism.has_value());
  for (std::size_t n = 0; n < r1.displacements.size(); ++n) {
    CHECK(std::abs(1.5 * r1.displacements[n].w - 0.5 * r2.displacements[n].w -
                   both.displacements[n].w) <= 1e-10 * largest_w(both));
  }
}

TEST_CASE("A frame and its mirror image answer alike", "[law]") {
  for (std::uint64_t k = 500; k < 520; ++k) {
    const RandomCase c = random_grillage(k, 6, false);
    RandomCase m = c;
    for (Node& n : m.frame.nodes) n.y = -n.y;
    for (Plate& p : m.frame.plates) p.y = -p.y;
    for (NodalLoad& l : m.loads.nodal) l.Mx = -l.Mx;  // an axial vector: Mx turns, My stays
    const Response a = Analysis(c.frame, {c.loads}).solve(once);
    const Response b = Analysis(m.frame, {m.loads}).solve(once);
    same(a, b, 1e-8);
  }
}

TEST_CASE("The answer does not depend on the units", "[law]") {
  for (std::uint64_t k = 600; k < 620; ++k) {
    const RandomCase c = random_grillage(k, 6, k % 2 == 1);
    RandomCase m = c;  // N, mm to kN, m
    const double f = 1e-3, l = 1e-3;
    for (Node& n : m.frame.nodes) {
      n.x *= l;
      n.y *= l;
    }
    for (Member& e : m.frame.members) {
      e.EI *= f * l * l;
      e.GJ *= f * l * l;
      e.kGA *= f;
      for (EndFixity* x : {&e.end_i, &e.end_j}) {
        x->bending *= f * l;
        x->torsion *= f * l;
      }
    }
    for (Link& x : m.frame.links) {
      x.k_w *= f / l;
      x.gap *= l;
    }
    for (Support& x : m.frame.supports) {
      x.k_w *= f / l;
      x.k_tx *= f * l;
      x.k_ty *= f * l;
      x.gap *= l;
    }
    for (Plate& p : m.frame.plates) {
      p.x *= l;
      p.y *= l;
      for (PlateContact& x : p.contacts) {
        x.k_w *= f / l;
        x.gap *= l;
      }
    }
    for (NodalLoad& x : m.loads.nodal) {
      x.Fz *= f;
      x.Mx *= f * l;
      x.My *= f * l;
    }
    for (LineLoad& x : m.loads.line) {
      x.q1 *= f / l;
      x.q2 *= f / l;
      x.a *= l;
      x.b *= l;
    }
    for (PointLoad& x : m.loads.point) {
      x.P *= f;
      x.a *= l;
    }
    same(Analysis(c.frame, {c.loads}).solve(once), Analysis(m.frame, {m.loads}).solve(once), 1e-8,
         l, f);
  }
}

TEST_CASE("The same question twice gives the same bits, whatever was asked between", "[law]") {
  const RandomCase c = random_grillage(18, 8, false);
  const Analysis a(c.frame, {c.loads});
  const Response first = a.solve(once);
  (void)a.solve(std::vector<CaseFactor>{{0, -0.7}});
  const Response again = a.solve(once);
  const Response fresh = Analysis(c.frame, {c.loads}).solve(once);
  REQUIRE(first.mechanism.has_value() == again.mechanism.has_value());
  for (std::size_t n = 0; n < first.displacements.size(); ++n) {
    CHECK(first.displacements[n].w == again.displacements[n].w);
    CHECK(first.displacements[n].w == fresh.displacements[n].w);
  }
}

TEST_CASE("A changed support answers as a frame built with it", "[law]") {
  int compared = 0, loose = 0, lifting = 0;
  for (std::uint64_t k = 700; k < 800; ++k) {
    const RandomCase c = random_grillage(k, 8, k % 3 == 0);
    const Analysis analysis(c.frame, {c.loads});
    oracle::Sequence r(k);
    for (int trial = 0; trial < 4; ++trial) {
      std::vector<SupportChange> changes;
      Frame changed = c.frame;
      for (std::size_t s = 0; s < c.frame.supports.size(); ++s) {
        const Support& p = c.frame.supports[s];
        if (p.k_w == 0.0 || (!p.compression_only && std::isinf(p.k_w)) || !r.chance(0.4)) continue;
        SupportChange change{static_cast<int>(s), r.chance(0.4) ? 0.0 : r.between(100, 1e5), {}};
        if (p.compression_only && r.chance(0.4)) change.gap = r.between(-1, 2);
        changes.push_back(change);
        changed.supports[s].k_w = change.k_w;
        if (change.gap) changed.supports[s].gap = *change.gap;
      }
      INFO("case " << k << " trial " << trial);
      const Response low_rank = analysis.solve(once, changes);
      const Response fresh = Analysis(changed, {c.loads}).solve(once);
      if (low_rank.mechanism) INFO(*low_rank.mechanism);
      REQUIRE(low_rank.mechanism.has_value() == fresh.mechanism.has_value());
      loose += fresh.mechanism ? 1 : 0;
      compared += fresh.mechanism ? 0 : 1;
      lifting += fresh.something_lifts ? 1 : 0;
      if (changed.supports.empty()) continue;
      // An absent one-way support lifts nothing.
      same(low_rank, fresh, 1e-7);
    }
  }
  CHECK(compared > 100);
  CHECK(loose > 10);
  CHECK(lifting > 50);
}

TEST_CASE("Many contacts, and stiff ones, end in an answer or a mechanism", "[law]") {
  int solved = 0, loose = 0;
  for (std::uint64_t k = 5000; k < 5400; ++k) {
    RandomCase c = random_grillage(k, 14, k % 2 == 1);
    if (k % 5 == 4) {
      for (Plate& p : c.frame.plates) {
        for (PlateContact& x : p.contacts) x.k_w = 1e9;
      }
    }
    oracle::Sequence r(k);
    INFO("case " << k);
    const Response a =
        Analysis(c.frame, {c.loads}).solve(std::vector<CaseFactor>{{0, r.between(-1, 2)}});
    (a.mechanism ? loose : solved) += 1;
  }
  CHECK(solved > 100);
  CHECK(loose > 100);
}

TEST_CASE("A frame turned in plan answers alike", "[law]") {
  for (std::uint64_t k = 520; k < 560; ++k) {
    RandomCase c = random_grillage(k, 6, k % 2 == 0);
    for (Support& p : c.frame.supports) p.k_ty = p.k_tx;  // springs that know no direction
    c.loads.nodal.push_back({1, -1, 0.0, 0.0, 0.0});
    RandomCase t = c;
    const double angle = 0.1 + 0.17 * static_cast<double>(k - 520);
    const double co = std::cos(angle), si = std::sin(angle);
    const auto turn = [&](double& x, double& y) {
      const double was = x;
      x = co * x - si * y;
      y = si * was + co * y;
    };
    for (Node& n : t.frame.nodes) turn(n.x, n.y);
    for (Plate& p : t.frame.plates) turn(p.x, p.y);
    for (NodalLoad& l : t.loads.nodal) turn(l.Mx, l.My);
    const Response a = Analysis(c.frame, {c.loads}).solve(once);
    const Response b = Analysis(t.frame, {t.loads}).solve(once);
    INFO("case " << k);
    same(a, b, 1e-8);
    if (a.mechanism) continue;
    double most = 0.0;
    for (const Displacement& d : a.displacements) most = std::max(most, std::hypot(d.tx, d.ty));
    for (std::size_t n = 0; n < a.displacements.size(); ++n) {
      double tx = a.displacements[n].tx, ty = a.displacements[n].ty;
      turn(tx, ty);
      CHECK(std::abs(tx - b.displacements[n].tx) <= 1e-8 * most);
      CHECK(std::abs(ty - b.displacements[n].ty) <= 1e-8 * most);
    }
  }
}

TEST_CASE("Loads and gaps in proportion give displacements and forces in proportion", "[law]") {
  for (std::uint64_t k = 620; k < 650; ++k) {
    const RandomCase c = random_grillage(k, 8, k % 2 == 1);
    for (const double factor : {1e-3, 7.0, 1e4}) {
      Frame scaled = c.frame;
      for (Link& x : scaled.links) x.gap *= factor;
      for (Support& x : scaled.supports) x.gap *= factor;
      for (Plate& p : scaled.plates) {
        for (PlateContact& x : p.contacts) x.gap *= factor;
      }
      same(Analysis(c.frame, {c.loads}).solve(once),
           Analysis(scaled, {c.loads}).solve(std::vector<CaseFactor>{{0, factor}}), 1e-8, factor,
           factor);
    }
  }
}

TEST_CASE("Betti: two load cases do the same work on each other's displacements", "[law]") {
  int compared = 0, with_contacts = 0;
  for (std::uint64_t k = 420; k < 520; ++k) {
    RandomCase c = random_grillage(k, k % 2 == 0 ? 0 : 3, false);
    for (Support& x : c.frame.supports) x.gap = 0.0;
    for (Link& x : c.frame.links) x.gap = 0.0;
    oracle::Sequence r(k);
    const int members = static_cast<int>(c.frame.members.size());
    const auto draw = [&] {
      LoadCase l;
      for (int n = 0; n < 3; ++n) {
        const int m = r.below(members);
        const Member& e = c.frame.members[static_cast<std::size_t>(m)];
        const Node& i = c.frame.nodes[static_cast<std::size_t>(e.i)];
        const Node& j = c.frame.nodes[static_cast<std::size_t>(e.j)];
        const double length = std::hypot(j.x - i.x, j.y - i.y);
        l.point.push_back({m, -r.between(100, 4000), r.unit() * length});
        // A couple in the plane of the member, which the member resists.
        const double M = r.between(-2e5, 2e5);
        l.nodal.push_back(
            {e.i, -1, -r.between(0, 1000), M * (j.y - i.y) / length, -M * (j.x - i.x) / length});
      }
      return l;
    };
    const LoadCase one = draw(), two = draw();
    const Analysis a(c.frame, {one, two});
    const std::vector<CaseFactor> first{{0, 1.0}}, second{{1, 1.0}};
    const Response u1 = a.solve(first), u2 = a.solve(second);
    // Where no contact opens in either, both answers are of one linear structure.
    if (u1.mechanism || u2.mechanism || u1.something_lifts || u2.something_lifts) continue;
    const auto work = [&](const LoadCase& l, const Response& u, std::span<const CaseFactor> f) {
      double sum = 0.0, size = 0.0;
      const auto add = [&](double v) {
        sum += v;
        size += std::abs(v);
      };
      for (const PointLoad& p : l.point) add(p.P * a.deflection(u, f, p.member, p.a));
      for (const NodalLoad& n : l.nodal) {
        const Displacement& d = u.displacements[static_cast<std::size_t>(n.node)];
        add(n.Fz * d.w + n.Mx * d.tx + n.My * d.ty);
      }
      return std::pair(sum, size);
    };
    const auto [w12, s12] = work(one, u2, second);
    const auto [w21, s21] = work(two, u1, first);
    INFO("case " << k);
    CHECK(std::abs(w12 - w21) <= 1e-9 * std::max(s12, s21));
    ++compared;
    with_contacts += k % 2;
  }
  CHECK(compared > 20);
  CHECK(with_contacts > 3);
}

TEST_CASE("An added spring or member never makes the loads sink further in sum", "[law]") {
  // A contact of gap g under the force N = k (s - g) stores N^2/2k = (N s - N g)/2, and by virtual work
  // load times displacement is the sum of all N s and of twice the other energies. So the least potential
  // energy is -(load times displacement + sum of N g)/2, and stiffness can only raise it: also where
  // contacts open or close. Without gaps it is load times displacement alone.
  const bool gaps = GENERATE(false, true);
  int compared = 0, changed_state = 0;
  for (std::uint64_t k = 900; k < 1000; ++k) {
    RandomCase c = random_grillage(k, 8, k % 3 == 0);
    if (!gaps) {
      for (Support& x : c.frame.supports) x.gap = 0.0;
      for (Link& x : c.frame.links) x.gap = 0.0;
      for (Plate& p : c.frame.plates) {
        for (PlateContact& x : p.contacts) x.gap = 0.0;
      }
    }
    c.loads.line.clear();
    c.loads.point.clear();
    oracle::Sequence r(k);
    const int nodes = static_cast<int>(c.frame.nodes.size());
    for (int n = 0; n < 5; ++n) {
      c.loads.nodal.push_back({r.below(nodes), -1, r.between(-4000, 1000), 0, 0});
    }
    double size = 0.0;  // of the terms, to measure rounding by
    const auto compliance = [&](const Response& u, const Additions& add) {
      double sum = 0.0;
      size = 0.0;
      const auto contact = [&](double N, double gap) {
        sum += N * gap;
        size += std::abs(N * gap);
      };
      for (std::size_t s = 0; s < u.supports.size(); ++s)
        contact(u.supports[s], c.frame.supports[s].gap);
      for (std::size_t l = 0; l < u.links.size(); ++l) contact(u.links[l], c.frame.links[l].gap);
      for (std::size_t p = 0; p < u.plates.size(); ++p) {
        for (std::size_t x = 0; x < u.plates[p].contacts.size(); ++x)
          contact(u.plates[p].contacts[x], c.frame.plates[p].contacts[x].gap);
      }
      for (std::size_t s = 0; s < u.added_supports.size(); ++s)
        contact(u.added_supports[s], add.supports[s].gap);
      for (const NodalLoad& l : c.loads.nodal) {
        if (l.node >= 0) {
          sum += l.Fz * u.displacements[static_cast<std::size_t>(l.node)].w;
        } else {
          const PlateResponse& p = u.plates[static_cast<std::size_t>(l.plate)];
          sum += l.Fz * p.w + l.Mx * p.tx + l.My * p.ty;
        }
      }
      return sum;
    };
    const Analysis a(c.frame, {c.loads});
    const Response before = a.solve(once);
    if (before.mechanism) continue;
    const double soft = compliance(before, {});
    if (!gaps) CHECK(soft >= 0.0);
    const double rounding = 1e-9 * (std::abs(soft) + size);
    for (int trial = 0; trial < 6; ++trial) {
      Additions add;
      if (trial % 2 == 0) {
        add.supports.push_back(
            {r.below(nodes), std::pow(10.0, r.between(1, 6)), 0.0, r.chance(0.6)});
        if (gaps && add.supports.back().compression_only)
          add.supports.back().gap = r.between(0.0, 1.0);
      } else {
        const Member& old = c.frame.members[static_cast<std::size_t>(
            r.below(static_cast<int>(c.frame.members.size())))];
        add.members.push_back(old);
        add.members.back().EI = std::pow(10.0, r.between(8, 13));
      }
      const Response after = a.solve(once, {}, add);
      INFO("case " << k << " trial " << trial);
      // With gaps the new piece may take all load off the contact that held an unloaded one.
      if (gaps && after.mechanism) continue;
      REQUIRE_FALSE(after.mechanism.has_value());
      CHECK(compliance(after, add) <= soft + rounding);
      ++compared;
      for (std::size_t s = 0; s < before.supports.size(); ++s) {
        if ((before.supports[s] > 0.0) != (after.supports[s] > 0.0)) {
          ++changed_state;
          break;
        }
      }
    }
  }
  CHECK(compared > 200);
  CHECK(changed_state > 10);
}

}  // namespace laws_test_file
