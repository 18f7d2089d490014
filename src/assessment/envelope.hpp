// The worst demand of every check over the states taken, with the state it arose in.
#pragma once

#include "first_failure.hpp"
#include "items.hpp"
#include "loaded.hpp"
#include "pattern_search.hpp"

#include <map>
#include <span>
#include <string>
#include <vector>

namespace underprop::assessment {

/// The worst demand so far of one check under one combination.
struct Worst {
  double demand = 0.0;  ///< N or N mm
  double at = 0.0;      ///< along the piece, mm
  StateId state;
};

/// A solved state, with what was asked.
struct SolvedState {
  const LoadedFrame& frame;
  const StateId& id;
  const solver::State& state;
  std::span<const solver::CaseFactor> factors;
  std::span<const solver::SupportChange> changes;
};

class Envelope {
public:
  /// `model`: of any bound; all have the same pieces. `deck` must outlive this.
  Envelope(std::vector<Item> items, const LoadedDeck& deck, const model::Model& model);

  /// Every new worst demand is also told to `first`, which must outlive this.
  void tell(FirstFailure& first);

  void take(const SolvedState& solved, PatternDemands* demands);
  /// What need not be told of a state that changes nothing here: demands of the lines (joists, bearers,
  /// ledgers: the groups of the frames) that are no more than the worst so far, or, where only the largest
  /// utilisation is asked for, than that.
  const solver::Limits& limits(const StateId& id);

  [[nodiscard]] const std::vector<Item>& items() const { return items_; }
  /// Per combination of the item's purpose.
  [[nodiscard]] const std::vector<Worst>& worst(std::size_t item) const { return worst_[item]; }
  /// The largest moment of every joist so far, sagging, N mm.
  [[nodiscard]] std::map<int, double> sagging_moments() const;

private:
  void sort_by_line(const model::Model& model);
  void take_boards(const SolvedState& solved, PatternDemands* demands);
  void record(std::size_t item, Peak peak, const StateId& id, PatternDemands* demands);

  const LoadedDeck& deck_;
  std::vector<Item> items_;
  std::vector<std::vector<Worst>> worst_;                      ///< per item, per combination
  std::map<standards::Purpose, std::vector<int>> by_purpose_;  ///< items, those of boards apart
  std::vector<int> board_items_;
  std::vector<std::vector<int>> line_items_;  ///< per group: items of sag, hog, shear
  solver::Limits limits_, none_;
  FirstFailure* first_ = nullptr;
  bool only_the_largest_ = false;
};

/// The demand of an item in a whole answer.
[[nodiscard]] double demand_in(const Item& item, const LoadedFrame& frame,
                               const solver::Analysis& analysis, const solver::Response& response,
                               std::span<const solver::CaseFactor> factors);

}  // namespace underprop::assessment
