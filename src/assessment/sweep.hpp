// One sweep of the checks of strength, ground and uplift through all bounds and states of a deck, with its
// load or without it.
#pragma once

#include "envelope.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace underprop::assessment {

/// What a sweep found. Findings are written of it (findings.hpp).
struct Swept {
  std::vector<Bound> bounds;  ///< StateId::bound counts these
  std::vector<ChangedSupport> changes;
  /// None: the frame of the first bound is loose, or not modelled.
  std::optional<StateList> states;
  std::optional<Envelope> envelope;
  std::vector<Reaction> reactions;  ///< of all supports, with the load, nothing changed
  std::optional<std::string> mechanism;
  std::string not_modelled;
  std::size_t solves = 0;
};

class Sweep {
public:
  /// `deck`, and `first` if there is one, must outlive this. With the load; then the sweep is done with at
  /// the first failure of `first`, or at a mechanism.
  Sweep(const LoadedDeck& deck, const Options& options, FirstFailure* first = nullptr);
  /// Without the load, in these bounds.
  Sweep(const LoadedDeck& deck, const Options& options, std::vector<Bound> bounds);

  /// Of service alone only the lists of states and checks are made.
  Swept run();

private:
  [[nodiscard]] bool done() const;
  void begin(const LoadedFrame& frame);
  void sweep(const LoadedFrame& frame, int bound);
  void with_changed_supports(const LoadedFrame& frame, int bound);
  /// Boards whose joints nobody recorded: all jointed over the joist that bends most, and over each one
  /// that bends as much (as on a deck that mirrors itself).
  void add_jointed(const Bound& bound);
  void ask(const LoadedFrame& frame, StateId id, int handle, PatternDemands* demands);
  void take_reactions(const LoadedFrame& frame, const StateId& id);

  const LoadedDeck& deck_;
  Options options_;
  bool with_load_ = true;
  FirstFailure* first_ = nullptr;
  Swept swept_;
  solver::State state_;
};

}  // namespace underprop::assessment
