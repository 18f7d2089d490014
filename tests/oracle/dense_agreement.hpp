// One random frame through the solver and through its dense twin.
#pragma once

#include "oracle/dense_frame.hpp"
#include "oracle/dense_random.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <vector>

namespace oracle {

/// Largest difference over the largest value of its kind.
struct Difference {
  double worst = 0.0;
  void compare(const std::vector<double>& a, const std::vector<double>& b) {
    REQUIRE(a.size() == b.size());
    double scale = 0.0, off = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) {
      scale = std::max(scale, std::abs(b[i]));
      off = std::max(off, std::abs(a[i] - b[i]));
    }
    if (scale > 0.0) worst = std::max(worst, off / scale);
    if (scale == 0.0) worst = std::max(worst, off);
  }
};

/// What a sequence of comparisons went through.
struct Agreement {
  int compared = 0, mechanisms = 0, lifting = 0;
  double worst = 0.0;
};

inline void agree(std::uint64_t number, const RandomCase& c, Agreement& seen) {
  INFO("case " << number);
  const DenseAnswer expected = DenseFrame(c.frame, c.loads).solve();
  const Analysis analysis(c.frame, {c.loads});
  const std::vector<CaseFactor> combination{{0, 1.0}};
  const Response got = analysis.solve(combination);
  if (got.mechanism) INFO(*got.mechanism);
  REQUIRE(got.mechanism.has_value() == expected.mechanism);
  if (expected.mechanism) {
    ++seen.mechanisms;
    return;
  }
  seen.lifting += got.something_lifts ? 1 : 0;
  Difference d;
  std::vector<double> w, turn, w2, turn2, M, M2, V, V2;
  for (std::size_t n = 0; n < c.frame.nodes.size(); ++n) {
    w.push_back(got.displacements[n].w);
    turn.push_back(got.displacements[n].tx);
    turn.push_back(got.displacements[n].ty);
    w2.push_back(expected.displacements[n].w);
    turn2.push_back(expected.displacements[n].tx);
    turn2.push_back(expected.displacements[n].ty);
  }
  d.compare(w, w2);
  d.compare(turn, turn2);
  // Rigid contacts may be more than statics needs; ours are not (the twin chooses one state).
  d.compare(got.supports, expected.supports);
  d.compare(got.links, expected.links);
  for (std::size_t p = 0; p < got.plates.size(); ++p) {
    d.compare(got.plates[p].contacts, expected.plates[p].contacts);
    d.compare({got.plates[p].w}, {expected.plates[p].w});
    d.compare({got.plates[p].tx, got.plates[p].ty}, {expected.plates[p].tx, expected.plates[p].ty});
  }
  std::vector<int> members(c.frame.members.size());
  for (std::size_t m = 0; m < members.size(); ++m) members[m] = static_cast<int>(m);
  const auto forces = analysis.member_forces(got, combination, members);
  for (std::size_t m = 0; m < members.size(); ++m) {
    const auto& e = expected.members[m];
    M.insert(M.end(), {forces[m].Mi, forces[m].Mj, forces[m].T});
    M2.insert(M2.end(), {e[0], e[1], e[4]});
    V.insert(V.end(), {forces[m].Vi, forces[m].Vj});
    V2.insert(V2.end(), {e[2], e[3]});
  }
  d.compare(M, M2);
  d.compare(V, V2);
  CHECK(d.worst < 1e-8);
  seen.worst = std::max(seen.worst, d.worst);
  ++seen.compared;

  // The same contacts press.
  std::vector<double> ours, theirs;
  for (std::size_t k = 0; k < c.frame.supports.size(); ++k) {
    if (!c.frame.supports[k].compression_only) continue;
    ours.push_back(got.supports[k]);
    theirs.push_back(expected.supports[k]);
  }
  for (std::size_t k = 0; k < c.frame.links.size(); ++k) {
    if (!c.frame.links[k].compression_only) continue;
    ours.push_back(got.links[k]);
    theirs.push_back(expected.links[k]);
  }
  for (std::size_t p = 0; p < got.plates.size(); ++p) {
    ours.insert(ours.end(), got.plates[p].contacts.begin(), got.plates[p].contacts.end());
    theirs.insert(theirs.end(), expected.plates[p].contacts.begin(),
                  expected.plates[p].contacts.end());
  }
  double most = 0.0;
  for (const double N : theirs) most = std::max(most, N);
  for (std::size_t k = 0; k < ours.size(); ++k) {
    INFO("contact " << k << ": " << ours[k] << " against " << theirs[k]);
    CHECK(ours[k] >= 0.0);
    CHECK((ours[k] > 1e-8 * most) == (theirs[k] > 1e-8 * most));
  }
}

}  // namespace oracle
