#include "index.hpp"
#include "solver/beam_element.hpp"
#include "state_reading.hpp"

#include <algorithm>

namespace underprop::solver {

void begin(State& state, Eigen::Index springs, Eigen::Index members) {
  state.mechanism.reset();
  state.loose_w.clear();
  state.asked_in_full = false;
  state.springs.resize(springs);
  state.ends.resize(4 * members);
  state.spans.setZero(members);
  state.free.setZero(members);
}

void take(State& state, const Response& response, const Analysis& analysis,
          std::span<const CaseFactor> combination, std::span<const Spring> springs,
          std::span<const int> members, std::size_t groups) {
  state.asked_in_full = true;
  state.read.assign(groups, 1);
  state.mechanism = response.mechanism;
  state.loose_w = response.loose_w;
  if (response.mechanism) return;
  for (Eigen::Index i = 0; i < state.springs.size(); ++i) {
    const Spring& spring = springs[at(i)];
    state.springs[i] = spring.link >= 0 ? response.links[at(spring.link)]
                       : spring.support >= 0
                           ? response.supports[at(spring.support)]
                           : response.plates[at(spring.plate)].contacts[at(spring.contact)];
  }
  if (state.with_deflections) {
    state.w.resize(static_cast<Eigen::Index>(response.displacements.size()));
    for (Eigen::Index i = 0; i < state.w.size(); ++i) state.w[i] = response.displacements[at(i)].w;
  }
  const auto forces =
      analysis.member_forces(response, combination, members.first(at(state.ends.size() / 4)));
  for (std::size_t m = 0; m < forces.size(); ++m)
    state.ends.segment<4>(4 * static_cast<Eigen::Index>(m)) << forces[m].Mi, forces[m].Mj,
        forces[m].Vi, forces[m].Vj;
}

Between between(const CaseLoads& loads, int member, double length) {
  Between result;
  SpanLoads on;
  loads.add(member, 1.0, result.effect, &on);
  if (on.line.empty() && on.point.empty()) return result;
  result.any = true;
  result.uniform =
      on.point.empty() && std::all_of(on.line.begin(), on.line.end(), [&](const LineLoad& q) {
        return q.q1 == q.q2 && q.a <= 1e-9 * length && q.b >= length * (1.0 - 1e-9);
      });
  if (result.uniform) {
    for (const LineLoad& q : on.line) result.q += q.q1;
  } else {
    const EndForces simple{0.0, 0.0, -result.effect.F_i, result.effect.F_j, 0.0};
    result.most = extremes(length, simple, on).M;
  }
  return result;
}

}  // namespace underprop::solver
