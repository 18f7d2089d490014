// Thousands of states of one structure, each told by the numbers that checks read.
//
// Two ways lead to them: of a frame alone (condensed.hpp), and of a frame on which rigid plates stand
// (plated.hpp). Whoever asks for states needs not know which.
//
// Units N, mm, rad and signs as in analysis.hpp. Not for more than one thread at a time.
#pragma once

#include "underprop/solver/analysis.hpp"

#include <Eigen/Core>
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
struct State {
  std::optional<std::string> mechanism;  ///< then there are no numbers
  std::vector<double> loose_w;           ///< of a mechanism, as Response
  Eigen::VectorXd springs;               ///< force per spring: see States::of_support and of_link
  Eigen::VectorXd ends;                  ///< Mi, Mj, Vi, Vj of each member read
  Eigen::VectorXd spans;                 ///< per member: uniform load over it, N/mm, up positive
  Eigen::VectorXd free;  ///< per member: at most so much sagging moment, N mm, is added between
                         ///< the ends by loads that are not uniform
  bool with_deflections = false;  ///< set by who asks
  Eigen::VectorXd w;              ///< then: of every node, mm, up positive
  std::vector<char> read;         ///< per group: 0 where limits let it be (its numbers are then 0)
  bool asked_in_full = false;     ///< answered by Analysis::solve
};

/// A frame under load cases, asked for one state after the other. Some of its members are read always,
/// others when asked to. The numbers are those of Analysis::solve for the same question.
class States {
public:
  virtual ~States() = default;

  /// Prepares supports that differ in a state; the number returned is for solve(). -1 is "no change".
  /// Throws InvalidFrame for a support that does not exist or may not change (see SupportChange).
  [[nodiscard]] virtual int prepare(std::span<const SupportChange> changes) const = 0;

  /// Solves one combination with its own contact state into `state`; with `limits`, one per group, what
  /// they make unnecessary is left out. `with_others`: also the members that are read only when asked
  /// to. `kind`: states of one kind mostly have one contact state, for speed (ContactMemory). Throws as
  /// Analysis::solve.
  virtual void solve(std::span<const CaseFactor> combination, int change, bool with_others,
                     State& state, const Limits* limits, int kind) const = 0;

  /// Index into State::springs; -1: a rigid support or link, not read.
  [[nodiscard]] virtual int of_support(int support) const = 0;
  [[nodiscard]] virtual int of_link(int link) const = 0;
  /// mm, of the member read at that position: those always read first, then the others.
  [[nodiscard]] virtual double length(int position) const = 0;
  /// How many of them are read always.
  [[nodiscard]] virtual int read_always() const = 0;

  /// The frame with all that stands on it under the same cases, for whole answers.
  [[nodiscard]] virtual const Analysis& whole() const = 0;
  /// States put to Analysis::solve so far.
  [[nodiscard]] virtual std::size_t asked_in_full() const = 0;

protected:
  States() = default;
  States(const States&) = default;
  States(States&&) = default;
  States& operator=(const States&) = default;
  States& operator=(States&&) = default;
};

}  // namespace underprop::solver
