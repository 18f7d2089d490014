#include "underprop/assessment/prepared.hpp"

#include "figures.hpp"
#include "findings.hpp"

#include <cmath>

namespace underprop::assessment {

struct PreparedDeck::Impl {
  deck::Deck deck;
  Options options;
  std::shared_ptr<FrameCache> frames;
  Resistances resistances;
  std::optional<BareDeck> bare;  ///< without the load
  /// The deck with nothing holding its joists down, made when a place fails for what holds them.
  std::unique_ptr<PreparedDeck> lifting;
};

PreparedDeck::PreparedDeck(deck::Deck deck, const standards::Standard& standard,
                           const Options& options)
    : impl_(std::make_unique<Impl>()) {
  impl_->deck = std::move(deck);
  impl_->deck.refer_reasons.clear();
  impl_->options = options;
  impl_->options.depth = Depth::utilisation;
  impl_->frames = std::make_shared<FrameCache>(impl_->deck, standard, options.plan_cases);
}

PreparedDeck::~PreparedDeck() = default;
PreparedDeck::PreparedDeck(PreparedDeck&&) noexcept = default;

const deck::Deck& PreparedDeck::deck() const { return impl_->deck; }

namespace {

Look failed(const Stop& stop) {
  Look look;
  look.utilisation = stop.utilisation;
  look.at_least = true;
  look.piece = stop.piece;
  look.check = stop.check;
  return look;
}

}  // namespace

Look PreparedDeck::look(const std::vector<deck::Load>& loads, double most) {
  Look held = look_as_held(loads, most);
  if (held.passes() || held.check != standards::name_of(standards::CheckKind::hold_down) ||
      impl_->deck.bearers.empty() || impl_->deck.bearers.front().may_lift)
    return held;
  if (!impl_->lifting)
    impl_->lifting = std::make_unique<PreparedDeck>(free_to_lift(impl_->deck),
                                                    impl_->frames->standard(), impl_->options);
  Look lifted = impl_->lifting->look(loads, most);
  lifted.solves += held.solves;
  return lifted.utilisation < held.utilisation ? lifted : held;
}

Look PreparedDeck::look_as_held(const std::vector<deck::Load>& loads, double most) {
  Impl& p = *impl_;
  p.deck.loads = loads;
  const LoadedDeck loaded(p.deck, p.frames);
  const std::vector<Bound> bounds = safety_bounds(p.deck, p.options);
  // The deck without its load: what fails then already is ordinary use, wherever the load stands.
  if (!p.bare) p.bare = bare_deck(loaded, Sweep(loaded, p.options, bounds).run());
  if (const auto stop = boards_fail(loaded, most)) return failed(*stop);
  // One state tells which pieces the load reaches; what is not modelled, or loose, is told where the
  // checks meet it.
  LoadedPieces pieces(p.deck);
  const auto first = loaded.frame(bounds.front());
  if (first->ready()) pieces = loaded_pieces(loaded, *first);
  if (std::isfinite(most) && first->ready()) {
    const Scope seen = scope(p.deck, pieces);
    if (!seen.refer_reasons.empty()) {
      // Outside what is judged: no number is told of it.
      Look look;
      look.refers = look.at_least = true;
      look.why = seen.refer_reasons.front();
      return look;
    }
  }
  const Finding* already = fails_in_reach(p.deck, *p.bare, pieces);
  if (already != nullptr && already->check.utilisation > most)
    return failed({already->check.utilisation, already->piece, already->check.check});
  FirstFailure failure(most, p.bare->ordinary, p.resistances);
  const Swept swept = Sweep(loaded, p.options, &failure).run();
  if (failure.stop()) return failed(*failure.stop());
  if (swept.mechanism) return failed({infinite, "deck", "equilibrium"});
  const DeckAssessment whole = findings(loaded, swept, pieces, *p.bare, p.options);
  Look look;
  look.solves = whole.solves;
  look.utilisation = whole.mechanism ? infinite : whole.safety;
  look.service = whole.service;
  look.refers = !whole.refer_reasons.empty();
  if (look.refers) look.why = whole.refer_reasons.front();
  for (const Finding& f : whole.findings) {
    if (f.kind != Kind::safety) continue;
    look.piece = f.piece;
    look.check = f.check.check;
    break;
  }
  return look;
}

}  // namespace underprop::assessment
