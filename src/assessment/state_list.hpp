// Which states of a deck are asked for: combinations, situations of the load, patterns of people. Knows no
// frame and no numbers, so that it can be counted.
#pragma once

#include "actions.hpp"
#include "frames.hpp"

#include <cstddef>
#include <vector>

namespace underprop::assessment {

/// One state. Indices into the lists of StateList; into the bounds and changed supports of who asks.
struct StateId {
  standards::Purpose purpose = standards::Purpose::strength;
  int combination = 0, situation = 0, pattern = 0;
  int bound = -1;
  int change = -1;      ///< -1: no support is changed
  bool boards = false;  ///< the boards are read too
};

class StateList {
public:
  /// `deck` and `basis` must outlive this. `infos`: of the deck's load cases. `bays`: of its model.
  /// Without the load the states are those of the deck as it is used without it.
  StateList(const deck::Deck& deck, const Basis& basis, const std::vector<model::CaseInfo>& infos,
            std::size_t bays, bool with_load);

  /// Every combination of the purpose in every situation and usual pattern: without factors on people or
  /// imposed load the situations and patterns that differ only in them are there once. For strength the
  /// boards are read with nobody, or everybody, on the rest of the deck.
  [[nodiscard]] std::vector<StateId> usual(standards::Purpose purpose) const;
  /// Those that are asked with a changed support: the load full, people in their main places, nobody or
  /// everybody on the rest of the deck.
  [[nodiscard]] std::vector<StateId> main(standards::Purpose purpose) const;
  /// Those in which movements are looked at: the load full, people in their main places, nobody or
  /// everybody on the rest of the deck; of each purpose the first combination.
  [[nodiscard]] std::vector<StateId> service() const;
  /// One combination under patterns beyond the usual ones, in every situation.
  [[nodiscard]] std::vector<StateId> beyond_usual(standards::Purpose purpose,
                                                  int combination) const;

  /// The number of a pattern of loaded bays, which joins the list if it is new.
  int number_of(const std::vector<double>& bays);
  /// How many patterns are the usual ones; they come first.
  [[nodiscard]] std::size_t usual_patterns() const { return usual_patterns_; }
  [[nodiscard]] std::size_t bays() const { return bays_; }

  [[nodiscard]] const std::vector<standards::Combination>& combinations(
      standards::Purpose purpose) const {
    return basis_.combinations.at(purpose);
  }
  [[nodiscard]] const standards::Combination& combination(const StateId& id) const {
    return combinations(id.purpose)[static_cast<std::size_t>(id.combination)];
  }
  [[nodiscard]] const std::vector<Situation>& situations() const { return situations_; }
  [[nodiscard]] const Situation& situation(const StateId& id) const {
    return situations_[static_cast<std::size_t>(id.situation)];
  }
  [[nodiscard]] const std::vector<Pattern>& patterns() const { return patterns_; }
  /// "full, people all round; people on bays 1, 3"
  [[nodiscard]] std::string words(const StateId& id) const;
  /// Of the load cases of a frame, each with its factor in that state.
  [[nodiscard]] std::vector<solver::CaseFactor> factors(
      const StateId& id, const std::vector<model::CaseInfo>& infos) const;

private:
  [[nodiscard]] std::vector<StateId> list(standards::Purpose purpose) const;

  const deck::Deck& deck_;
  const Basis& basis_;
  std::size_t bays_ = 0;
  std::vector<Situation> situations_;
  std::vector<Pattern> patterns_;
  std::size_t usual_patterns_ = 0;
};

}  // namespace underprop::assessment
