#include "underprop/assessment/prepared.hpp"

#include "run.hpp"

#include <cmath>
#include <limits>

namespace underprop::assessment {

struct PreparedDeck::Impl {
  deck::Deck deck;
  const standards::Standard* standard = nullptr;
  PlanCases plan_cases;
  std::shared_ptr<Kept> kept;
  std::map<std::string, double> bare;  ///< utilisations without the load
  bool bare_known = false;
};

PreparedDeck::PreparedDeck(deck::Deck deck, const standards::Standard& standard,
                           const PlanCases& plan_cases)
    : impl_(std::make_unique<Impl>()) {
  impl_->deck = std::move(deck);
  impl_->deck.refer_reasons.clear();
  impl_->standard = &standard;
  impl_->plan_cases = plan_cases;
  impl_->kept = Run(impl_->deck, standard, plan_cases).kept();
}

PreparedDeck::~PreparedDeck() = default;
PreparedDeck::PreparedDeck(PreparedDeck&&) noexcept = default;

const deck::Deck& PreparedDeck::deck() const { return impl_->deck; }

Look PreparedDeck::look(const std::vector<deck::Load>& loads, double most) {
  Look result;
  impl_->deck.loads = loads;
  if (!impl_->bare_known) {
    // The deck without its load: what fails then already is ordinary use, wherever the load stands.
    Run bare(impl_->deck, *impl_->standard, impl_->plan_cases, impl_->kept);
    bare.safety(false);
    impl_->bare = bare.bare_utilisations();
    impl_->bare_known = true;
  }
  Run run(impl_->deck, *impl_->standard, impl_->plan_cases, impl_->kept);
  auto stop = run.boards_fail(most);
  if (!stop && std::isfinite(most)) {
    result.why = run.why_not_judged();
    if (!result.why.empty()) {
      // Outside what is judged: no number is told of it.
      result.refers = result.at_least = true;
      return result;
    }
  }
  if (!stop) {
    run.safety_until(most, impl_->bare);
    stop = run.stop();
  }
  if (stop) {
    result.utilisation = stop->utilisation;
    result.at_least = true;
    result.piece = stop->piece;
    result.check = stop->check;
    return result;
  }
  const DeckAssessment whole = run.result(Depth::utilisation);
  result.solves = whole.solves;
  result.utilisation = whole.mechanism ? std::numeric_limits<double>::infinity() : whole.safety;
  result.service = whole.service;
  result.refers = !whole.refer_reasons.empty();
  if (result.refers) result.why = whole.refer_reasons.front();
  for (const Finding& f : whole.findings) {
    if (f.kind != Kind::safety) continue;
    result.piece = f.piece;
    result.check = f.check.check;
    break;
  }
  return result;
}

}  // namespace underprop::assessment
