#include "staging.hpp"

#include "effects.hpp"
#include "figures.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace underprop::assessment {

using standards::Term;

std::optional<BeforeWorks> before_works(const deck::Deck& deck,
                                        const standards::Standard& standard) {
  const auto added = [](const deck::Piece& piece) { return piece.added; };
  const bool any = std::any_of(deck.supports.begin(), deck.supports.end(), added) ||
                   std::any_of(deck.bearers.begin(), deck.bearers.end(), added) ||
                   std::any_of(deck.walls.begin(), deck.walls.end(), added);
  const bool sisters = std::any_of(deck.joists.begin(), deck.joists.end(),
                                   [](const deck::Joist& joist) { return !joist.sisters.empty(); });
  if (!any && !sisters) return std::nullopt;
  BeforeWorks result;
  std::vector<std::size_t>& kept = result.joists;
  deck::Deck before = deck;
  before.joists.clear();
  for (std::size_t j = 0; j < deck.joists.size(); ++j) {
    if (deck.joists[j].added) continue;
    kept.push_back(j);
    before.joists.push_back(deck.joists[j]);
    before.joists.back().sisters.clear();
  }
  std::vector<int> bearer_index(deck.bearers.size(), -1), joist_index(deck.joists.size(), -1);
  for (std::size_t k = 0; k < kept.size(); ++k) joist_index[kept[k]] = static_cast<int>(k);
  before.bearers.clear();
  for (std::size_t b = 0; b < deck.bearers.size(); ++b) {
    if (deck.bearers[b].added) continue;
    bearer_index[b] = static_cast<int>(before.bearers.size());
    before.bearers.push_back(deck.bearers[b]);
  }
  before.supports.clear();
  for (const deck::Support& support : deck.supports) {
    if (support.added) continue;
    deck::Support copy = support;
    if (copy.bearer >= 0) copy.bearer = bearer_index[static_cast<std::size_t>(copy.bearer)];
    if (copy.joist >= 0) copy.joist = joist_index[static_cast<std::size_t>(copy.joist)];
    if (copy.bearer < 0 && copy.joist < 0) continue;
    before.supports.push_back(std::move(copy));
  }
  std::erase_if(before.walls, added);
  deck::find_meetings(before);
  before.loads.clear();
  const Timbers old_timbers = timbers(before, standard);
  result.model = model::build(
      before, properties(before, old_timbers, standard, GroundBound::middle, Term::now),
      model::Bounds{});
  return result;
}

Sagged::Sagged(const deck::Deck& deck, const standards::Standard& standard) {
  moments_.assign(deck.joists.size(), 0.0);
  const std::optional<BeforeWorks> before = before_works(deck, standard);
  if (!before || !before->model.not_modelled.empty() || before->model.loose) return;
  const model::Model& model = before->model;
  const solver::Analysis analysis(model.frame, model.cases);
  const solver::CaseFactor dead{0, 1.0};
  const solver::Response response = analysis.solve({&dead, 1});
  if (response.mechanism) return;
  shape_.resize(deck.joists.size());
  const Effects e = effects(model, analysis, probes(model), response, {&dead, 1}, false);
  for (std::size_t k = 0; k < before->joists.size(); ++k) {
    const std::size_t j = before->joists[k];
    moments_[j] = std::max(e.joists[k].sag.value, e.joists[k].hog.value);
    const model::Line& line = model.joists[k];
    for (std::size_t n = 0; n < line.nodes.size(); ++n) {
      shape_[j].emplace_back(line.at[n],
                             response.displacements[static_cast<std::size_t>(line.nodes[n])].w);
    }
  }
}

double Sagged::at(int joist, double along) const {
  const auto j = static_cast<std::size_t>(joist);
  if (j >= shape_.size() || shape_[j].empty()) return 0.0;
  const auto& shape = shape_[j];
  if (along <= shape.front().first) return std::max(0.0, -shape.front().second);
  for (std::size_t k = 0; k + 1 < shape.size(); ++k) {
    if (along > shape[k + 1].first) continue;
    const double f = (along - shape[k].first) / (shape[k + 1].first - shape[k].first);
    return std::max(0.0, -(shape[k].second + f * (shape[k + 1].second - shape[k].second)));
  }
  return std::max(0.0, -shape.back().second);
}

void stage(model::Model& model, const deck::Deck& deck, const Sagged& sagged,
           const PlanCases& plan_cases) {
  const double extra = !plan_cases.gap_under_new_supports
                           ? 0.0
                           : figure(plan_cases.rewedged ? "gap_rewedged_mm" : "gap_under_new_mm");
  for (const model::Crossing& crossing : model.crossings) {
    const auto other = static_cast<std::size_t>(crossing.other);
    if (crossing.kind == model::CrossingKind::bearer && !crossing.end_joint &&
        deck.bearers[other].added) {
      solver::Link& link = model.frame.links[static_cast<std::size_t>(crossing.link)];
      if (link.compression_only) link.gap += sagged.at(crossing.joist, crossing.at_joist) + extra;
    } else if (crossing.kind == model::CrossingKind::support && deck.supports[other].added) {
      model.frame.supports[static_cast<std::size_t>(crossing.support)].gap +=
          sagged.at(crossing.joist, crossing.at_joist) + extra;
    } else if (crossing.kind == model::CrossingKind::wall && deck.walls[other].added) {
      model.frame.supports[static_cast<std::size_t>(crossing.support)].gap +=
          sagged.at(crossing.joist, crossing.at_joist) + extra;
    }
  }
  // A new pad under an old bearer is packed too.
  for (const model::Prop& prop : model.props) {
    if (prop.support < 0 || prop.ledger) continue;
    const auto s = static_cast<std::size_t>(prop.support);
    const auto b = static_cast<std::size_t>(prop.piece);
    if (!deck.supports[s].added || deck.bearers[b].added) continue;
    // The bearer's sag is taken from the nearest joist that lies on it.
    double nearest = 1e300, drop = 0.0;
    for (const model::Crossing& crossing : model.crossings) {
      if (crossing.kind != model::CrossingKind::bearer || crossing.other != prop.piece) continue;
      if (std::abs(crossing.at_other - prop.at) < nearest) {
        nearest = std::abs(crossing.at_other - prop.at);
        drop = sagged.at(crossing.joist, crossing.at_joist);
      }
    }
    model.frame.supports[static_cast<std::size_t>(prop.solver_support)].gap += drop + extra;
  }
}

}  // namespace underprop::assessment
