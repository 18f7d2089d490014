// One deck prepared once; then every place, turn, filling and number of people costs only what
// depends on it: load cases, back-substitutions and small contact problems. The judging is that of
// assess_deck, check by check and bound by bound.
#pragma once

#include "underprop/assessment/assessment.hpp"

#include <memory>
#include <string>
#include <vector>

namespace underprop::assessment {

/// What was found of one load case on a prepared deck.
struct Look {
  /// Worst safety utilisation; if `at_least`, only the first one found above the limit. Infinity: loose.
  double utilisation = 0.0;
  bool at_least = false;
  double service = 0.0;  ///< worst service utilisation; 0 if not looked at
  /// The load path meets something that may not be judged; with a finite limit nothing else is then
  /// looked at (`at_least` of nothing).
  bool refers = false;
  std::string why;           ///< it refers: the first reason
  std::string piece, check;  ///< of the utilisation
  std::size_t solves = 0;
  [[nodiscard]] bool passes() const { return !refers && !at_least && !fails(utilisation); }
};

/// Not for more than one thread at a time.
class PreparedDeck {
public:
  /// `deck`: resolved; what stands on it does not matter, only whether its contents are lasting. Reasons to
  /// refer that the record gives (Deck::refer_reasons) may depend on where the loads stand: they are left
  /// out here and are the caller's to settle for the place asked for.
  /// `options`: their depth does not matter.
  PreparedDeck(deck::Deck deck, const standards::Standard& standard, const Options& options = {});
  ~PreparedDeck();
  PreparedDeck(PreparedDeck&&) noexcept;

  /// Every safety check in every bound, done with at the first whose utilisation exceeds `most`; then,
  /// if none does, the rest of an assessment (what is static, sway, scope, service). Infinity for
  /// `most`: always everything.
  [[nodiscard]] Look look(const std::vector<deck::Load>& loads, double most = 1.0);
  [[nodiscard]] const deck::Deck& deck() const;

private:
  [[nodiscard]] Look look_as_held(const std::vector<deck::Load>& loads, double most);

  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace underprop::assessment
