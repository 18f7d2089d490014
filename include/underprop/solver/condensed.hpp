// Thousands of states of one structure, by condensed quantities only.
//
// Most questions about a deck ask for a few hundred numbers (forces in its supports and links, forces
// at the ends of the members that are checked), not for every displacement. Each of these is linear in
// the loads while the contact state holds. So every load case and every one-way contact is solved once
// against the factored frame, only those numbers are kept, and a state costs a sum of short vectors
// and a complementarity problem on the contacts (contact.hpp). The open sets met so far are kept with
// their factors: the next state mostly has one of them.
//
// It gives the numbers of Analysis::solve for the same question; whatever is out of the ordinary
// (mechanisms, contacts that touch without force, rigid contacts, idle moments) is put to
// Analysis::solve itself. Complementarity is verified here for every state; the residual is not: what
// governs is to be solved again by Analysis::solve before it is printed.
//
// Units N, mm, rad and signs as in analysis.hpp. Not for more than one thread at a time.
#pragma once

#include "underprop/solver/analysis.hpp"

#include <Eigen/Core>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace underprop::solver {

/// Members that are read together, those of one joist, say: positions [first, last) among the members
/// that are read always.
struct Group {
  int first = 0, last = 0;
};

/// What need not be told of a group: where a bound shows that its largest sagging moment, hogging moment
/// and shear are all at most these, its end forces are not summed. Per group; N mm, N.
struct Limits {
  std::vector<double> sag, hog, shear;
};

/// What is read of one state.
struct CondensedState {
  std::optional<std::string> mechanism;  ///< then there are no numbers
  Eigen::VectorXd springs;  ///< force per spring: see Condensed::of_support and of_link
  Eigen::VectorXd ends;     ///< Mi, Mj, Vi, Vj of each member read
  Eigen::VectorXd spans;    ///< per member: uniform load over it, N/mm, up positive
  Eigen::VectorXd free;     ///< per member: at most so much sagging moment, N mm, is added between
                            ///< the ends by loads that are not uniform
  bool with_deflections = false;  ///< set by who asks
  Eigen::VectorXd w;              ///< then: of every node, mm, up positive
  std::vector<char> read;         ///< per group: 0 where limits let it be (its numbers are then 0)
  bool asked_in_full = false;     ///< answered by Analysis::solve
};

class Condensed {
public:
  /// Reads the end forces of `first` always and those of `second` when asked to. Members of `first` are
  /// read quickest where loads between their ends are uniform (their own weight); any others put the
  /// question to Analysis::solve. `groups`: of `first`, ascending, for limits. `analysis` must outlive
  /// this. Throws InvalidFrame for a member that does not exist or groups that are none.
  Condensed(const Analysis& analysis, std::vector<int> first, std::vector<int> second,
            std::vector<Group> groups = {});
  /// The same frame (an analysis made from the other's, see Analysis) under other load cases; what
  /// does not depend on the loads is shared.
  Condensed(const Condensed& other, const Analysis& analysis);
  ~Condensed();
  Condensed(Condensed&&) noexcept;
  Condensed& operator=(Condensed&&) noexcept;

  /// Prepares support changes; the returned number is good for every Condensed of this frame.
  /// -1 is "no change".
  [[nodiscard]] int prepare(std::span<const SupportChange> changes) const;

  /// Solves one combination with its own contact state into `state`; with `limits`, one per group, what
  /// they make unnecessary is left out. `kind`: see ContactMemory, for speed. Throws as Analysis::solve.
  void solve(std::span<const CaseFactor> combination, int change, bool with_second,
             CondensedState& state, const Limits* limits = nullptr, int kind = -1) const;

  /// Index into CondensedState::springs; -1: a rigid support or link, not read.
  [[nodiscard]] int of_support(int support) const;
  [[nodiscard]] int of_link(int link) const;
  /// Members in the order in which they are read: `first`, then `second`.
  [[nodiscard]] const std::vector<int>& members() const;
  [[nodiscard]] double length(int position) const;  ///< mm, of members()[position]

  [[nodiscard]] std::size_t asked_in_full() const;  ///< states put to Analysis::solve so far

private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace underprop::solver
