// A deck with its loads where they stand: its frames under their load cases, what the loads reach, and
// which supports are tried unlike their neighbours.
#pragma once

#include "frames.hpp"
#include "scope.hpp"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace underprop::assessment {

/// A frame of one bound under the load cases, its rigid bases laid on.
struct LoadedFrame {
  Bound bound;
  std::shared_ptr<const BareFrame> bare;
  std::shared_ptr<const model::Cases> cases;
  std::optional<std::string> loose;
  std::string not_modelled;
  /// The members that are read; of a stiff base only the boards near the loads.
  Probes probes;
  std::unique_ptr<solver::Analysis> analysis;  ///< that the states of a soft base read
  std::unique_ptr<solver::States> states;      ///< none: loose, or not modelled

  [[nodiscard]] const model::Model& model() const { return bare->model; }
  [[nodiscard]] bool ready() const { return states != nullptr; }
  /// With its rigid bases in the matrix. Precondition: ready.
  [[nodiscard]] const solver::Analysis& whole() const { return states->whole(); }
  /// Compression in a crossing, N.
  [[nodiscard]] double force(const model::Crossing& crossing, const solver::State& state) const;
  /// Reaction of a solver support, N.
  [[nodiscard]] double reaction(int support, const solver::State& state) const {
    return state.springs[states->of_support(support)];
  }
};

/// Not for more than one thread at a time.
class LoadedDeck {
public:
  /// `deck` must outlive this; `frames` were made of it, wherever its loads stood then.
  LoadedDeck(const deck::Deck& deck, std::shared_ptr<FrameCache> frames);

  [[nodiscard]] const deck::Deck& deck() const { return deck_; }
  [[nodiscard]] const standards::Standard& standard() const { return frames_->standard(); }
  [[nodiscard]] const Basis& basis() const { return frames_->basis(); }
  [[nodiscard]] FrameCache& frames() const { return *frames_; }
  /// The last one asked for is kept.
  [[nodiscard]] std::shared_ptr<const LoadedFrame> frame(const Bound& bound) const;

private:
  const deck::Deck& deck_;
  std::shared_ptr<FrameCache> frames_;
  /// By the joist over which boards are jointed, and whether bases are stiff.
  mutable std::map<std::pair<int, bool>, std::shared_ptr<const model::Cases>> cases_;
  mutable std::shared_ptr<const LoadedFrame> last_;
};

/// Which pieces the loads reach, per piece of the deck.
struct LoadedPieces {
  explicit LoadedPieces(const deck::Deck& deck, bool all = false);
  std::vector<bool> joists, bearers, ledgers, supports, walls;
  [[nodiscard]] std::vector<std::string> ids(const deck::Deck& deck) const;
};
/// One state with the loads and one without tell: a piece is reached that takes a share of them
/// (data/scope.json). Where the deck does not stand, everything may be. Precondition: ready.
[[nodiscard]] LoadedPieces loaded_pieces(const LoadedDeck& deck, const LoadedFrame& frame);
/// These and the joists next to them: within one span and one spacing of the load. What fails there as a
/// piece of the deck already cannot carry it, however little the load adds.
[[nodiscard]] LoadedPieces within_reach(const deck::Deck& deck, LoadedPieces pieces);
/// What of the load path may not be judged.
[[nodiscard]] Scope scope(const deck::Deck& deck, const LoadedPieces& loaded);

/// A support that is unlike its neighbours.
struct ChangedSupport {
  std::string words;  ///< "P2 absent"
  std::vector<solver::SupportChange> changes;
};
/// Every support that carries some of the loads, the most loaded first, each as stiff among soft or soft
/// among stiff and, if nobody recorded its contact, absent. Precondition: ready.
[[nodiscard]] std::vector<ChangedSupport> changed_supports(const LoadedDeck& deck,
                                                           const LoadedFrame& frame);

}  // namespace underprop::assessment
