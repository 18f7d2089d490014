// The condensed states give what Analysis::solve gives.
#include "solver/condensed.hpp"

#include "oracle/dense_random.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <cmath>

namespace condensed_test_file {

using namespace underprop::solver;

namespace {

/// Compares one state by both ways.
void same(const Analysis& analysis, const Condensed& condensed, const std::vector<CaseFactor>& f,
          const std::vector<SupportChange>& changes, int& lifting, int& mechanisms) {
  const Response full = analysis.solve(f, changes);
  State state;
  condensed.solve(f, condensed.prepare(changes), true, state);
  REQUIRE(full.mechanism.has_value() == state.mechanism.has_value());
  if (full.mechanism) {
    ++mechanisms;
    return;
  }
  lifting += full.something_lifts ? 1 : 0;
  double largest = 0.0;
  for (const double R : full.supports) largest = std::max(largest, std::abs(R));
  for (const double N : full.links) largest = std::max(largest, std::abs(N));
  for (std::size_t s = 0; s < full.supports.size(); ++s) {
    const int k = condensed.of_support(static_cast<int>(s));
    if (k >= 0) CHECK(std::abs(state.springs[k] - full.supports[s]) <= 1e-8 * largest);
  }
  for (std::size_t l = 0; l < full.links.size(); ++l) {
    const int k = condensed.of_link(static_cast<int>(l));
    if (k >= 0) CHECK(std::abs(state.springs[k] - full.links[l]) <= 1e-8 * largest);
  }
  const auto forces = analysis.member_forces(full, f, condensed.members());
  double moment = 0.0, shear = largest;
  for (const MemberForces& m : forces) {
    moment = std::max({moment, std::abs(m.Mi), std::abs(m.Mj)});
    shear = std::max({shear, std::abs(m.Vi), std::abs(m.Vj)});
  }
  for (std::size_t m = 0; m < forces.size(); ++m) {
    const auto row = 4 * static_cast<Eigen::Index>(m);
    CHECK(std::abs(state.ends[row] - forces[m].Mi) <= 1e-8 * moment);
    CHECK(std::abs(state.ends[row + 1] - forces[m].Mj) <= 1e-8 * moment);
    CHECK(std::abs(state.ends[row + 2] - forces[m].Vi) <= 1e-8 * shear);
    CHECK(std::abs(state.ends[row + 3] - forces[m].Vj) <= 1e-8 * shear);
    // What is said of the loads between the ends is not less than the truth.
    const double ends = std::max(forces[m].Mi, forces[m].Mj);
    const double L = condensed.length(static_cast<int>(m));
    const double q = state.spans[static_cast<Eigen::Index>(m)];
    const double between =
        ends + state.free[static_cast<Eigen::Index>(m)] + std::max(0.0, -q) * L * L / 8.0;
    const double low = std::max(std::abs(forces[m].Mi), std::abs(forces[m].Mj));
    if (forces[m].Mmax > low && q >= 0.0 && forces[m].Mmax > 0.0) {
      CHECK(forces[m].Mmax <=
            std::max(between, low + state.free[static_cast<Eigen::Index>(m)]) + 1e-8 * moment);
    }
  }
}

std::vector<int> all_members(const Frame& frame) {
  std::vector<int> all(frame.members.size());
  for (std::size_t k = 0; k < all.size(); ++k) all[k] = static_cast<int>(k);
  return all;
}

}  // namespace

TEST_CASE("Condensed states agree with full ones, contacts, changes and mechanisms included",
          "[law]") {
  int lifting = 0, mechanisms = 0;
  for (std::uint64_t k = 0; k < 120; ++k) {
    INFO("random grillage " << k);
    oracle::RandomCase random = oracle::random_grillage(k, 6, k % 5 == 4);
    oracle::RandomCase other = oracle::random_grillage(k, 6, k % 5 == 4);
    for (auto& load : other.loads.line) load.q1 *= -0.3;
    for (auto& load : other.loads.nodal) load.Fz *= 0.7;
    other.loads.id = "other";
    const Analysis analysis(random.frame, {random.loads, other.loads});
    // Half of the members as those that are read always: then uneven loads on them are asked in full.
    std::vector<int> first = k % 2 == 0 ? std::vector<int>{} : all_members(random.frame), second;
    if (k % 2 == 0) second = all_members(random.frame);
    const Condensed condensed(analysis, first, second);
    std::vector<SupportChange> changes;
    for (std::size_t s = 0; s < random.frame.supports.size() && changes.empty(); ++s) {
      const Support& support = random.frame.supports[s];
      if (std::isfinite(support.k_w) && support.k_w > 0.0)
        changes.push_back({static_cast<int>(s), 0.2 * support.k_w, {}});
    }
    for (const double a : {1.0, 0.4, 2.5}) {
      for (const double b : {0.0, 1.0, -0.6}) {
        same(analysis, condensed, {{0, a}, {1, b}}, {}, lifting, mechanisms);
        if (!changes.empty())
          same(analysis, condensed, {{0, a}, {1, b}}, changes, lifting, mechanisms);
      }
    }
    if (!changes.empty()) {
      changes.front().k_w = 0.0;
      same(analysis, condensed, {{0, 1.0}}, changes, lifting, mechanisms);
    }
    // Other loads on the same factored frame.
    const Analysis moved(analysis, {other.loads});
    const Condensed reading(condensed, moved);
    same(moved, reading, {{0, 1.0}}, {}, lifting, mechanisms);
    same(moved, reading, {{0, 1.0}}, changes, lifting, mechanisms);
  }
  CHECK(lifting >= 200);
  CHECK(mechanisms > 0);
}

}  // namespace condensed_test_file
