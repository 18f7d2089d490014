// The frames of a run: built, staged and factored once, kept for every place of the load.
#include "run.hpp"

#include "underprop/base/geometry.hpp"
#include "underprop/catalog/table.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace underprop::assessment {

using standards::Term;

model::Properties Run::properties_of(const Variant& variant) const {
  model::Properties p = properties(deck_, timbers_, standard_, variant.old_ground, variant.term);
  if (variant.new_ground != variant.old_ground) {
    for (std::size_t s = 0; s < deck_.supports.size(); ++s) {
      if (deck_.supports[s].added) {
        p.supports[s] = support_stiffness(deck_, timbers_, standard_, s, variant.new_ground);
      }
    }
  }
  return p;
}

std::optional<model::Model> Run::before_works(std::vector<std::size_t>& kept) const {
  const auto added = [](const deck::Piece& piece) { return piece.added; };
  const bool any = std::any_of(deck_.supports.begin(), deck_.supports.end(), added) ||
                   std::any_of(deck_.bearers.begin(), deck_.bearers.end(), added) ||
                   std::any_of(deck_.walls.begin(), deck_.walls.end(), added);
  const bool sisters = std::any_of(deck_.joists.begin(), deck_.joists.end(),
                                   [](const deck::Joist& joist) { return !joist.sisters.empty(); });
  if (!any && !sisters) return std::nullopt;
  deck::Deck before = deck_;
  before.joists.clear();
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    if (deck_.joists[j].added) continue;
    kept.push_back(j);
    before.joists.push_back(deck_.joists[j]);
    before.joists.back().sisters.clear();
  }
  std::vector<int> bearer_index(deck_.bearers.size(), -1), joist_index(deck_.joists.size(), -1);
  for (std::size_t k = 0; k < kept.size(); ++k) joist_index[kept[k]] = static_cast<int>(k);
  before.bearers.clear();
  for (std::size_t b = 0; b < deck_.bearers.size(); ++b) {
    if (deck_.bearers[b].added) continue;
    bearer_index[b] = static_cast<int>(before.bearers.size());
    before.bearers.push_back(deck_.bearers[b]);
  }
  before.supports.clear();
  for (const deck::Support& support : deck_.supports) {
    if (support.added) continue;
    deck::Support copy = support;
    if (copy.bearer >= 0) copy.bearer = bearer_index[static_cast<std::size_t>(copy.bearer)];
    if (copy.joist >= 0) copy.joist = joist_index[static_cast<std::size_t>(copy.joist)];
    if (copy.bearer < 0 && copy.joist < 0) continue;
    before.supports.push_back(std::move(copy));
  }
  std::erase_if(before.walls, added);
  before.loads.clear();
  const Timbers old_timbers = timbers(before, standard_);
  return model::build(before,
                      properties(before, old_timbers, standard_, GroundBound::middle, Term::now),
                      model::Bounds{});
}

void Run::find_dead_load_shape() {
  kept_->self_weight_moments.assign(deck_.joists.size(), 0.0);
  std::vector<std::size_t> kept;
  const std::optional<model::Model> before = before_works(kept);
  if (!before || !before->not_modelled.empty() || before->loose)
    return;  // nothing was added, or nothing stood by itself: no shape to keep
  const model::Model& model = *before;
  const solver::Analysis analysis(model.frame, model.cases);
  const solver::CaseFactor dead{0, 1.0};
  const solver::Response response = analysis.solve({&dead, 1});
  if (response.mechanism) return;
  kept_->dead_shape.resize(deck_.joists.size());
  const Probes probe = probes(model);
  const Effects e = effects(model, analysis, probe, response, {&dead, 1}, false);
  for (std::size_t k = 0; k < kept.size(); ++k) {
    kept_->self_weight_moments[kept[k]] = std::max(e.joists[k].sag.value, e.joists[k].hog.value);
    const model::Line& line = model.joists[k];
    for (std::size_t n = 0; n < line.nodes.size(); ++n) {
      kept_->dead_shape[kept[k]].emplace_back(
          line.at[n], response.displacements[static_cast<std::size_t>(line.nodes[n])].w);
    }
  }
}

void Run::stage(model::Model& model) const {
  // A new support meets the deck as it has settled: the gap of today is zero, not that of a weightless
  // deck; in the plan's gap case it is wider by what a careless wedge leaves.
  const auto& data = catalog::table("scope.json");
  const double extra =
      !plan_cases_.gap_under_new_supports
          ? 0.0
          : catalog::number(data, plan_cases_.rewedged ? "gap_rewedged_mm" : "gap_under_new_mm");
  const auto sag = [&](int joist, double at) {
    const auto j = static_cast<std::size_t>(joist);
    if (j >= kept_->dead_shape.size() || kept_->dead_shape[j].empty()) return 0.0;
    const auto& shape = kept_->dead_shape[j];
    if (at <= shape.front().first) return std::max(0.0, -shape.front().second);
    for (std::size_t k = 0; k + 1 < shape.size(); ++k) {
      if (at > shape[k + 1].first) continue;
      const double f = (at - shape[k].first) / (shape[k + 1].first - shape[k].first);
      return std::max(0.0, -(shape[k].second + f * (shape[k + 1].second - shape[k].second)));
    }
    return std::max(0.0, -shape.back().second);
  };
  for (const model::Crossing& crossing : model.crossings) {
    const auto other = static_cast<std::size_t>(crossing.other);
    if (crossing.kind == model::CrossingKind::bearer && !crossing.end_joint &&
        deck_.bearers[other].added) {
      solver::Link& link = model.frame.links[static_cast<std::size_t>(crossing.link)];
      if (link.compression_only) link.gap += sag(crossing.joist, crossing.at_joist) + extra;
    } else if (crossing.kind == model::CrossingKind::support && deck_.supports[other].added) {
      model.frame.supports[static_cast<std::size_t>(crossing.support)].gap +=
          sag(crossing.joist, crossing.at_joist) + extra;
    } else if (crossing.kind == model::CrossingKind::wall && deck_.walls[other].added) {
      model.frame.supports[static_cast<std::size_t>(crossing.support)].gap +=
          sag(crossing.joist, crossing.at_joist) + extra;
    }
  }
  // A new pad under an old bearer is packed too.
  for (const model::Prop& prop : model.props) {
    if (prop.support < 0 || prop.ledger) continue;
    const auto s = static_cast<std::size_t>(prop.support);
    const auto b = static_cast<std::size_t>(prop.piece);
    if (!deck_.supports[s].added || deck_.bearers[b].added) continue;
    // The bearer's sag is taken from the nearest joist that lies on it.
    double nearest = 1e300, drop = 0.0;
    for (const model::Crossing& crossing : model.crossings) {
      if (crossing.kind != model::CrossingKind::bearer || crossing.other != prop.piece) continue;
      if (std::abs(crossing.at_other - prop.at) < nearest) {
        nearest = std::abs(crossing.at_other - prop.at);
        drop = sag(crossing.joist, crossing.at_joist);
      }
    }
    model.frame.supports[static_cast<std::size_t>(prop.solver_support)].gap += drop + extra;
  }
}

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

}  // namespace

std::shared_ptr<const Built> Run::built(const Variant& variant) const {
  for (const auto& [known, built] : kept_->built) {
    if (known.same_frame(variant)) return built;
  }
  auto fresh = std::make_shared<Built>();
  deck::Deck bare = deck_;
  bare.loads.clear();
  fresh->model = model::build(bare, properties_of(variant), variant.bounds);
  model::Model& model = fresh->model;
  if (model.not_modelled.empty() && !model.loose) {
    stage(model);
    fresh->analysis =
        std::make_unique<solver::Analysis>(model.frame, std::vector<solver::LoadCase>{});
    fresh->probes = probes(model);
    const Probes& read = fresh->probes;
    if (variant.bounds.stiff_shell) {
      fresh->bed = std::make_unique<solver::PlateBed>(*fresh->analysis, read.frame_members,
                                                      read.board_members, read.lines);
    } else {
      fresh->condensed = std::make_unique<solver::Condensed>(*fresh->analysis, read.frame_members,
                                                             read.board_members, read.lines);
    }
  }
  kept_->built.emplace_back(variant, fresh);
  return fresh;
}

Prepared Run::prepare(const Variant& variant) const {
  Prepared prepared;
  prepared.variant = variant;
  prepared.built = built(variant);
  const model::Model& model = prepared.built->model;
  prepared.not_modelled = model.not_modelled;
  prepared.loose = model.loose;
  if (!prepared.not_modelled.empty() || prepared.loose) return prepared;
  // Members and nodes are numbered alike whatever the ground, the term and the joints; but a board
  // jointed over a joist takes no moment there.
  auto& cases = cases_[{variant.bounds.boards_jointed.value_or(-1), variant.bounds.stiff_shell}];
  if (!cases) {
    cases = std::make_shared<model::Cases>(
        model::load_cases(deck_, properties_of(variant), variant.bounds, model));
  }
  prepared.cases = cases;
  prepared.loose = cases->loose;
  prepared.not_modelled = cases->not_modelled;
  if (!prepared.not_modelled.empty() || prepared.loose) return prepared;
  prepared.probes = prepared.built->probes;
  if (variant.bounds.stiff_shell) {
    keep_boards_near_loads(deck_, model, prepared.probes);
    prepared.states = std::make_unique<solver::Plated>(*prepared.built->bed, cases->plates,
                                                       cases->cases, prepared.probes.board_members);
    return prepared;
  }
  prepared.soft = std::make_unique<solver::Analysis>(*prepared.built->analysis, cases->cases);
  prepared.states = std::make_unique<solver::Condensed>(*prepared.built->condensed, *prepared.soft);
  return prepared;
}

}  // namespace underprop::assessment
