#include "loaded.hpp"

#include "figures.hpp"
#include "underprop/base/geometry.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace underprop::assessment {

namespace {

/// Away from the load a board does not feel how stiff its base is, and the soft base answers for it: of
/// a stiff one only the boards under it and one bay beyond are read.
void keep_boards_near_loads(const deck::Deck& deck, const model::Model& model, Probes& probes) {
  double bay = 0.0;
  for (const model::Line& board : model.boards) {
    for (std::size_t k = 1; k < board.at.size(); ++k)
      bay = std::max(bay, board.at[k] - board.at[k - 1]);
  }
  bay *= 1.0 + model::Bounds{}.contacts_between_joists;
  std::erase_if(probes.board_members, [&](int m) {
    const solver::Member& member = model.frame.members[static_cast<std::size_t>(m)];
    const solver::Node& i = model.frame.nodes[static_cast<std::size_t>(member.i)];
    const solver::Node& j = model.frame.nodes[static_cast<std::size_t>(member.j)];
    return std::none_of(deck.loads.begin(), deck.loads.end(), [&](const auto& load) {
      const Interval x = extent(load.footprint, Axis::x);
      const Interval y = extent(load.footprint, Axis::y);
      return std::max(i.x, j.x) >= x.low.value() - bay &&
             std::min(i.x, j.x) <= x.high.value() + bay &&
             std::max(i.y, j.y) >= y.low.value() - bay &&
             std::min(i.y, j.y) <= y.high.value() + bay;
    });
  });
}

double weight_of(const deck::Load& load) { return weight(load.dry_mass + load.contents).value(); }

double weight_of(const std::vector<deck::Load>& loads) {
  double total = 0.0;
  for (const deck::Load& load : loads) total += weight_of(load);
  return total;
}

/// The loads full, without people, by their cases.
std::vector<solver::CaseFactor> full_loads(const deck::Deck& deck, const model::Cases& cases) {
  std::vector<solver::CaseFactor> factors;
  for (std::size_t k = 0; k < cases.infos.size(); ++k) {
    if (cases.infos[k].kind == model::CaseKind::whole)
      factors.push_back({static_cast<int>(k),
                         weight_of(deck.loads[static_cast<std::size_t>(cases.infos[k].load)])});
  }
  return factors;
}

constexpr solver::CaseFactor dead{0, 1.0};

}  // namespace

double LoadedFrame::force(const model::Crossing& crossing, const solver::State& state) const {
  return crossing.link >= 0 ? state.springs[states->of_link(crossing.link)]
                            : reaction(crossing.support, state);
}

LoadedDeck::LoadedDeck(const deck::Deck& deck, std::shared_ptr<FrameCache> frames)
    : deck_(deck), frames_(std::move(frames)) {}

std::shared_ptr<const LoadedFrame> LoadedDeck::frame(const Bound& bound) const {
  if (last_ && last_->bound.same_frame(bound)) return last_;
  auto loaded = std::make_shared<LoadedFrame>();
  last_ = loaded;
  loaded->bound = bound;
  loaded->bare = frames_->frame(bound);
  const model::Model& model = loaded->model();
  loaded->not_modelled = model.not_modelled;
  loaded->loose = model.loose;
  if (!loaded->not_modelled.empty() || loaded->loose) return loaded;
  // Members and nodes are numbered alike whatever the ground, the term and the joints; but a board
  // jointed over a joist takes no moment there.
  auto& cases = cases_[{bound.model.boards_jointed.value_or(-1), bound.model.stiff_shell}];
  if (!cases) {
    cases = std::make_shared<model::Cases>(
        model::load_cases(deck_, frames_->properties(bound), bound.model, model));
  }
  loaded->cases = cases;
  loaded->loose = cases->loose;
  loaded->not_modelled = cases->not_modelled;
  if (!loaded->not_modelled.empty() || loaded->loose) return loaded;
  loaded->probes = loaded->bare->probes;
  if (bound.model.stiff_shell) {
    keep_boards_near_loads(deck_, model, loaded->probes);
    loaded->states = std::make_unique<solver::Plated>(*loaded->bare->bed, cases->plates,
                                                      cases->cases, loaded->probes.board_members);
    return loaded;
  }
  loaded->analysis = std::make_unique<solver::Analysis>(*loaded->bare->analysis, cases->cases);
  loaded->states = std::make_unique<solver::Condensed>(*loaded->bare->condensed, *loaded->analysis);
  return loaded;
}

LoadedPieces::LoadedPieces(const deck::Deck& deck, bool all)
    : joists(deck.joists.size(), all),
      bearers(deck.bearers.size(), all),
      ledgers(deck.ledgers.size(), all),
      supports(deck.supports.size(), all),
      walls(deck.walls.size(), all) {}

std::vector<std::string> LoadedPieces::ids(const deck::Deck& deck) const {
  std::vector<std::string> list;
  const auto put = [&](const std::vector<bool>& loaded, const auto& pieces) {
    for (std::size_t k = 0; k < loaded.size(); ++k) {
      if (loaded[k]) list.push_back(pieces[k].id);
    }
  };
  put(joists, deck.joists);
  put(bearers, deck.bearers);
  put(ledgers, deck.ledgers);
  put(supports, deck.supports);
  put(walls, deck.walls);
  return list;
}

LoadedPieces loaded_pieces(const LoadedDeck& loaded, const LoadedFrame& frame) {
  const deck::Deck& deck = loaded.deck();
  std::vector<solver::CaseFactor> whole = full_loads(deck, *frame.cases);
  whole.push_back(dead);
  solver::State with, without;
  frame.states->solve(whole, -1, false, with, nullptr, -1);
  if (with.mechanism) return LoadedPieces(deck, true);
  frame.states->solve({&dead, 1}, -1, false, without, nullptr, -1);
  LoadedPieces result(deck);
  const double share = figure("loaded_share") * weight_of(deck.loads);
  const auto more = [&](int spring) {
    if (spring < 0) return std::numeric_limits<double>::infinity();  // rigid, not read: loaded
    return std::abs(with.springs[spring] - (without.mechanism ? 0.0 : without.springs[spring]));
  };
  const model::Model& m = frame.model();
  for (const model::Crossing& crossing : m.crossings) {
    const double force = more(crossing.link >= 0 ? frame.states->of_link(crossing.link)
                                                 : frame.states->of_support(crossing.support));
    if (force < 0.5 * share) continue;
    result.joists[static_cast<std::size_t>(crossing.joist)] = true;
    const auto other = static_cast<std::size_t>(crossing.other);
    if (crossing.kind == model::CrossingKind::bearer) result.bearers[other] = true;
    if (crossing.kind == model::CrossingKind::ledger) result.ledgers[other] = true;
    if (crossing.kind == model::CrossingKind::support) result.supports[other] = true;
    if (crossing.kind == model::CrossingKind::wall) result.walls[other] = true;
  }
  for (const model::Prop& prop : m.props) {
    if (prop.support < 0) continue;
    if (more(frame.states->of_support(prop.solver_support)) >= 0.5 * share)
      result.supports[static_cast<std::size_t>(prop.support)] = true;
  }
  // Any joist under the footprint is loaded, however the boards share.
  for (std::size_t j = 0; j < deck.joists.size(); ++j) {
    const deck::Joist& joist = deck.joists[j];
    for (const deck::Load& load : deck.loads) {
      for (const Interval& interval :
           line_intervals(load.footprint, joist.direction, joist.position)) {
        if (interval.high > joist.from && interval.low < joist.to) result.joists[j] = true;
      }
    }
  }
  return result;
}

LoadedPieces within_reach(const deck::Deck& deck, LoadedPieces pieces) {
  const std::vector<bool> under = pieces.joists;
  for (std::size_t j = 0; j < deck.joists.size(); ++j) {
    if (!under[j]) continue;
    const deck::Joist& joist = deck.joists[j];
    for (const double side : {-1.0, 1.0}) {
      // The next joist that runs beside it; several at one place (a lap, a double one) are all next.
      const auto off = [&](std::size_t k) {
        const deck::Joist& other = deck.joists[k];
        const bool beside = k != j && other.direction == joist.direction && other.from < joist.to &&
                            other.to > joist.from;
        const double distance = side * (other.position - joist.position).value();
        return beside && distance > 0.0 ? distance : infinite;
      };
      double nearest = infinite;
      for (std::size_t k = 0; k < deck.joists.size(); ++k) nearest = std::min(nearest, off(k));
      for (std::size_t k = 0; std::isfinite(nearest) && k < deck.joists.size(); ++k) {
        if (off(k) <= nearest * (1.0 + 1e-9)) pieces.joists[k] = true;
      }
    }
  }
  return pieces;
}

Scope scope(const deck::Deck& deck, const LoadedPieces& loaded) {
  const auto indices = [](const std::vector<bool>& is) {
    std::vector<std::size_t> list;
    for (std::size_t k = 0; k < is.size(); ++k) {
      if (is[k]) list.push_back(k);
    }
    return list;
  };
  return scope(deck, indices(loaded.supports), indices(loaded.walls));
}

std::vector<ChangedSupport> changed_supports(const LoadedDeck& loaded, const LoadedFrame& frame) {
  const deck::Deck& deck = loaded.deck();
  std::vector<solver::CaseFactor> whole = full_loads(deck, *frame.cases);
  whole.insert(whole.begin(), dead);
  solver::State state;
  frame.states->solve(whole, -1, false, state, nullptr, -1);
  if (state.mechanism) return {};
  const double least = figure("changed_pad_share") * weight_of(deck.loads);
  std::vector<std::pair<double, std::size_t>> ranked;
  for (std::size_t s = 0; s < deck.supports.size(); ++s) {
    const int index = frame.model().support_of[s];
    if (index < 0) continue;
    const double reaction = frame.reaction(index, state);
    if (reaction > least) ranked.emplace_back(-reaction, s);
  }
  std::sort(ranked.begin(), ranked.end());
  std::vector<ChangedSupport> list;
  const bool soft_here = frame.bound.old_ground == GroundBound::soft;
  for (const auto& [minus_reaction, s] : ranked) {
    const deck::Support& support = deck.supports[s];
    const int index = frame.model().support_of[s];
    const double other = support_stiffness(deck, loaded.basis().timbers, loaded.standard(), s,
                                           soft_here ? GroundBound::harder : GroundBound::softer);
    list.push_back({support.id + (soft_here ? " stiff among soft" : " soft among stiff"),
                    {{index, other, {}}}});
    if (!support.footing.contact_recorded)
      list.push_back({support.id + " absent", {{index, 0.0, {}}}});
  }
  return list;
}

}  // namespace underprop::assessment
