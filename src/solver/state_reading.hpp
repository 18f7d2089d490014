// What the two ways to a state (condensed.hpp, plated.hpp) read alike.
#pragma once

#include "group_bounds.hpp"
#include "solver/case_loads.hpp"
#include "solver/states.hpp"
#include "solver/structure.hpp"

#include <span>

namespace underprop::solver {

/// A state of these sizes, without numbers: `springs`, and `members` whose ends are read.
void begin(State& state, Eigen::Index springs, Eigen::Index members);

/// Takes the whole answer to `combination` into a state that began: forces of `springs`, ends of the
/// first of `members`, every one of `groups`.
void take(State& state, const Response& response, const Analysis& analysis,
          std::span<const CaseFactor> combination, std::span<const Spring> springs,
          std::span<const int> members, std::size_t groups);

/// Calls tell(from, to) for the members, up to `last`, of all groups that are read; the ends of the others
/// are set to nothing.
template <class Tell>
void tell_what_is_read(const GroupBounds& groups, Eigen::Index last, State& state,
                       const Tell& tell) {
  Eigen::Index done = 0;
  const auto until = [&](Eigen::Index to) {
    if (to > done) tell(done, to);
  };
  for (std::size_t g = 0; g < groups.size(); ++g) {
    if (state.read[g] != 0) continue;
    until(groups[g].first);
    state.ends.segment(4 * groups[g].first, 4 * (groups[g].last - groups[g].first)).setZero();
    done = groups[g].last;
  }
  until(last);
}

/// What one load case puts on a member between its ends.
struct Between {
  bool any = false;
  bool uniform = false;  ///< over the whole of it, and nothing else
  double q = 0.0;        ///< then: N/mm, up positive
  double most = 0.0;     ///< else: the largest moment in a simple span, N mm
  LoadEffect effect;
};
Between between(const CaseLoads& loads, int member, double length);

}  // namespace underprop::solver
