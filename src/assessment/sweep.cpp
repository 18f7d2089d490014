#include "sweep.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

namespace underprop::assessment {

using standards::Purpose;

namespace {

/// A motion in which one side goes up and the other down is a deck that tips: which side lifts.
std::optional<std::string> tipping(const solver::Frame& frame, const std::vector<double>& w) {
  if (w.size() != frame.nodes.size()) return std::nullopt;
  constexpr double told = 0.05;  // of the largest motion
  double up[3] = {0.0, 0.0, 0.0}, down[3] = {0.0, 0.0, 0.0};
  for (std::size_t n = 0; n < w.size(); ++n) {
    double* of = w[n] > told ? up : w[n] < -told ? down : nullptr;
    if (of == nullptr) continue;
    of[0] += std::abs(w[n]);
    of[1] += std::abs(w[n]) * frame.nodes[n].x;
    of[2] += std::abs(w[n]) * frame.nodes[n].y;
  }
  if (!(up[0] > 0.0) || !(down[0] > 0.0)) return std::nullopt;
  std::string piece;
  double moved = 0.0;
  for (const solver::Member& member : frame.members) {
    const double here = std::max(std::abs(w[static_cast<std::size_t>(member.i)]),
                                 std::abs(w[static_cast<std::size_t>(member.j)]));
    if (member.piece.empty() || !(here > moved * (1.0 + 1e-6))) continue;
    moved = here;
    piece = member.piece;
  }
  const double dx = up[1] / up[0] - down[1] / down[0], dy = up[2] / up[0] - down[2] / down[0];
  const bool along_x = std::abs(dx) > std::abs(dy);
  const double d = along_x ? dx : dy;
  return "the deck tips, most at " + piece + ": its side towards " + (d > 0.0 ? "+" : "-") +
         (along_x ? "x" : "y") + " lifts, and nothing that counts holds it down";
}

}  // namespace

Sweep::Sweep(const LoadedDeck& deck, const Options& options, FirstFailure* first)
    : deck_(deck), options_(options), first_(first) {
  swept_.bounds = safety_bounds(deck.deck(), options);
  for (const deck::Support& support : deck.deck().supports)
    swept_.reactions.push_back({support.id, support.at, {}, {}});
}

Sweep::Sweep(const LoadedDeck& deck, const Options& options, std::vector<Bound> bounds)
    : deck_(deck), options_(options), with_load_(false) {
  swept_.bounds = std::move(bounds);
  // How stiff the load's base is does not matter where there is none.
  std::erase_if(swept_.bounds, [](const Bound& bound) { return bound.model.stiff_shell; });
}

bool Sweep::done() const {
  if (first_ != nullptr && first_->stop()) return true;
  return (first_ != nullptr || options_.stop_when_loose) && swept_.mechanism.has_value();
}

Swept Sweep::run() {
  // Bounds join the list while it is worked through.
  for (std::size_t b = 0; b < swept_.bounds.size() && !done(); ++b) {
    const Bound bound = swept_.bounds[b];
    const auto frame = deck_.frame(bound);
    if (!frame->ready()) {
      // A base that is too narrow for a rigid plate is judged as a soft one alone.
      if (bound.model.stiff_shell && !frame->not_modelled.empty()) continue;
      swept_.not_modelled = frame->not_modelled;
      if (frame->not_modelled.empty()) swept_.mechanism = frame->loose;
      break;
    }
    if (!swept_.states) begin(*frame);
    if (options_.extent == Extent::service) break;
    sweep(*frame, static_cast<int>(b));
    if (!with_load_ || options_.extent == Extent::screening || done()) continue;
    with_changed_supports(*frame, static_cast<int>(b));
    if (!done()) add_jointed(bound);
  }
  return std::move(swept_);
}

void Sweep::begin(const LoadedFrame& frame) {
  const Basis& basis = deck_.basis();
  swept_.states.emplace(deck_.deck(), basis, frame.cases->infos, frame.model().bays.size(),
                        with_load_);
  swept_.envelope.emplace(items(deck_.deck(), frame.model(), basis.timbers, deck_.standard(),
                                deck_.frames().sagged().moments(), basis.braced, with_load_),
                          deck_, frame.model());
  if (first_ != nullptr) swept_.envelope->tell(*first_);
}

void Sweep::sweep(const LoadedFrame& frame, int bound) {
  for (const Purpose purpose : {Purpose::strength, Purpose::ground, Purpose::uplift}) {
    if (purpose == Purpose::uplift && frame.bound.model.stiff_shell) continue;
    const AskState one = [&](StateId id, PatternDemands* demands) {
      if (done()) return false;
      id.bound = bound;
      ask(frame, id, -1, demands);
      return !done();
    };
    for (const StateId& id : swept_.states->usual(purpose)) {
      if (!one(id, nullptr)) return;
    }
    search_patterns(*swept_.states, purpose, one);
  }
}

void Sweep::with_changed_supports(const LoadedFrame& frame, int bound) {
  // Under a rigid base a hard pad among soft ones draws much more.
  for (const ChangedSupport& change : changed_supports(deck_, frame)) {
    swept_.changes.push_back(change);
    const int handle = frame.states->prepare(change.changes);
    for (const Purpose purpose : {Purpose::strength, Purpose::ground}) {
      for (StateId id : swept_.states->main(purpose)) {
        id.bound = bound;
        id.change = static_cast<int>(swept_.changes.size()) - 1;
        ask(frame, id, handle, nullptr);
        if (done()) return;
      }
    }
  }
}

void Sweep::add_jointed(const Bound& bound) {
  if (!joints_open(deck_.deck()) || bound.model.stiff_shell || bound.model.joists_lapped ||
      bound.model.boards_jointed)
    return;
  const std::map<int, double> moments = swept_.envelope->sagging_moments();
  double most = 0.0;
  for (const auto& [joist, moment] : moments) most = std::max(most, moment);
  constexpr double alike = 1e-6;
  for (const auto& [joist, moment] : moments) {
    if (most > 0.0 && moment >= most * (1.0 - alike))
      swept_.bounds.push_back(jointed(bound, joist));
  }
}

void Sweep::ask(const LoadedFrame& frame, StateId id, int handle, PatternDemands* demands) {
  StateList& states = *swept_.states;
  const auto factors = states.factors(id, frame.cases->infos);
  // While patterns are sought every demand is compared, else only what may be the worst.
  const solver::Limits* limits = demands != nullptr ? nullptr : &swept_.envelope->limits(id);
  const int kind = id.situation * 4096 + id.pattern;
  frame.states->solve(factors, handle, id.boards, state_, limits, kind);
  ++swept_.solves;
  std::span<const solver::SupportChange> changes;
  if (id.change >= 0) changes = swept_.changes[static_cast<std::size_t>(id.change)].changes;
  if (state_.mechanism) {
    const Situation& situation = states.situation(id);
    // A rigid base without its contents may rock on a ridge that people press up round it: it has no
    // rest of its own then. The soft base answers that question; the deck's own looseness shows there too.
    const bool rocks = frame.bound.model.stiff_shell && !situation.full;
    if (with_load_ && !swept_.mechanism && !rocks) {
      swept_.mechanism =
          tipping(frame.model().frame, state_.loose_w).value_or(*state_.mechanism) + " (" +
          situation.name + ", " + frame.bound.words() +
          (id.change >= 0 ? ", " + swept_.changes[static_cast<std::size_t>(id.change)].words : "") +
          ")";
    }
    return;
  }
  swept_.envelope->take({frame, id, state_, factors, changes}, demands);
  if (with_load_ && id.change < 0) take_reactions(frame, id);
}

void Sweep::take_reactions(const LoadedFrame& frame, const StateId& id) {
  if (id.purpose != Purpose::strength && id.purpose != Purpose::ground) return;
  const std::vector<int>& supports = frame.model().support_of;
  for (std::size_t s = 0; s < supports.size(); ++s) {
    if (supports[s] < 0) continue;
    Reaction& reaction = swept_.reactions[s];
    Force& most = id.purpose == Purpose::ground ? reaction.characteristic : reaction.factored;
    most = max(most, Force(frame.reaction(supports[s], state_)));
  }
}

}  // namespace underprop::assessment
