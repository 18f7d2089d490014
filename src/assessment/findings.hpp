// What a swept deck is told: findings, cautions, assumptions.
#pragma once

#include "deemed.hpp"
#include "sweep.hpp"
#include "underprop/base/format.hpp"

#include <map>
#include <optional>
#include <string>
#include <utility>

namespace underprop::assessment {

/// How lengths are told: mm, or inches where people measure so.
[[nodiscard]] inline UnitSystem unit_system(const standards::Standard& standard) {
  return standard.us_customary() ? UnitSystem::us_customary : UnitSystem::metric;
}
[[nodiscard]] inline const char* length_unit(const standards::Standard& standard) {
  return standard.us_customary() ? "in" : "mm";
}
[[nodiscard]] inline double in_length_unit(const standards::Standard& standard, Length length) {
  return standard.us_customary() ? in_inches(length) : in_mm(length);
}

/// A check under the combination that governs it.
struct GoverningCheck {
  std::size_t combination = 0;
  standards::Check check;
};
/// None: no demand. Throws std::logic_error if the rule gives no number.
[[nodiscard]] std::optional<GoverningCheck> governing_check(const Envelope& envelope,
                                                            const StateList& states,
                                                            std::size_t item);
/// The deck without its load.
struct BareDeck {
  std::map<std::string, double> utilisations;  ///< of every check, per "piece/check"
  std::map<std::string, Finding> failing;      ///< what fails so already
  DeemedPieces deemed;                         ///< what passes as a deck by a published table
  /// Per "piece/check" the utilisation below which it is ordinary use still: a little over what fails, or
  /// is deemed to satisfy, without the load.
  std::map<std::string, double> ordinary;
};
[[nodiscard]] BareDeck bare_deck(const LoadedDeck& deck, const Swept& swept);
/// The worst check without the load of a piece that the load reaches, if it fails; none: nothing does.
[[nodiscard]] const Finding* fails_in_reach(const deck::Deck& deck, const BareDeck& bare,
                                            const LoadedPieces& loaded);

/// The same deck, its joists held down by nothing.
[[nodiscard]] deck::Deck free_to_lift(deck::Deck deck);

/// A finding of no state of the loads and no bound; its id is "piece/check".
[[nodiscard]] Finding plain_finding(const std::string& piece, standards::Check check,
                                    std::string where, Point at, std::string situation);

/// All there is to tell of a deck. What fails in `bare` already and hardly worse with the load is ordinary
/// use where the load does not reach; where it does, that piece cannot carry it, with or without the load.
[[nodiscard]] DeckAssessment findings(const LoadedDeck& deck, const Swept& swept,
                                      const LoadedPieces& loaded, const BareDeck& bare,
                                      const Options& options);

/// Held upright, splices, frost, the strip round the load, boards: what needs no solving.
void static_findings(const LoadedDeck& deck, const LoadedPieces& loaded, DeckAssessment& result);
/// Decay recorded of joists and bearers.
void decay_findings(const LoadedDeck& deck, const LoadedPieces& loaded, DeckAssessment& result);
/// One board under one person; a stated span where boards do not share.
void board_findings(const LoadedDeck& deck, DeckAssessment& result);
/// One board under one person fails where the load stands: that needs no frame.
[[nodiscard]] std::optional<Stop> boards_fail(const LoadedDeck& deck, double most);

/// Deflections, level of the load, gaps that open. Where a state of service has no equilibrium, or a frame
/// cannot be built, that is told in `mechanism` or `refer_reasons`: never nothing. `shapes`: the deflected
/// deck for the drawing too.
void service_findings(const LoadedDeck& deck, const StateList& states, const LoadedPieces& loaded,
                      bool shapes, DeckAssessment& result);

}  // namespace underprop::assessment
