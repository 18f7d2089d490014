#include "underprop/assessment/exported.hpp"

#include "run.hpp"

#include <algorithm>
#include <numeric>

namespace underprop::assessment {

using standards::Purpose;
using standards::Term;

namespace {

/// The situations and patterns that are exported: the load full, people in their main places.
bool main_one(const Situation& situation, int pattern) {
  return situation.full && situation.bathers != Bathers::quarter && situation.free_end < 0 &&
         pattern <= 1;
}

void solve(ExportedModel& model, const solver::Analysis& analysis, std::string id,
           std::vector<solver::CaseFactor> factors,
           std::span<const solver::SupportChange> changes = {}) {
  std::vector<int> members(model.frame.members.size());
  std::iota(members.begin(), members.end(), 0);
  ExportedCombination combination;
  combination.id = std::move(id);
  combination.factors = std::move(factors);
  combination.response = analysis.solve(combination.factors, changes);
  if (!combination.response.mechanism) {
    combination.members =
        analysis.member_forces(combination.response, combination.factors, members);
  }
  model.combinations.push_back(std::move(combination));
}

/// The combination that puts most on the supports; -1: all are mechanisms.
int heaviest(const ExportedModel& model) {
  int best = -1;
  double most = 0.0;
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    const solver::Response& r = model.combinations[c].response;
    if (r.mechanism) continue;
    const double carried = std::accumulate(r.supports.begin(), r.supports.end(), 0.0);
    if (best >= 0 && carried <= most) continue;
    best = static_cast<int>(c);
    most = carried;
  }
  return best;
}

/// The joist with the largest moment; -1: none.
int most_bent(const model::Model& model, const ExportedModel& exported) {
  int joist = -1;
  double most = 0.0;
  for (const ExportedCombination& c : exported.combinations) {
    if (c.members.empty()) continue;
    for (std::size_t j = 0; j < model.joists.size(); ++j) {
      for (const int m : model.joists[j].members) {
        if (m < 0 || c.members[static_cast<std::size_t>(m)].Mmax <= most) continue;
        most = c.members[static_cast<std::size_t>(m)].Mmax;
        joist = static_cast<int>(j);
      }
    }
  }
  return joist;
}

}  // namespace

ExportedModel Run::exported_model(const Variant& variant, std::span<const Purpose> purposes,
                                  const Prepared& prepared) const {
  const std::vector<Situation> all = situations(deck_, prepared.cases->infos, true);
  const std::vector<Pattern> with = patterns(prepared.model().bays.size());
  ExportedModel model;
  model.bound = variant.words();
  model.stage = kept_->dead_shape.empty()
                    ? "from the unloaded state"
                    : "from the unloaded state; new supports meet the settled deck through gaps";
  model.frame = prepared.model().frame;
  model.frame.plates = prepared.cases->plates;
  model.cases = prepared.cases->cases;
  for (const Purpose purpose : purposes) {
    const auto& combinations = combinations_.at(purpose);
    const char* what = purpose == Purpose::uplift   ? "uplift: "
                       : purpose == Purpose::ground ? "ground: "
                                                    : "";
    for (const Question& question : questions(combinations, all, with)) {
      const Situation& situation = all[static_cast<std::size_t>(question.situation)];
      const Pattern& pattern = with[static_cast<std::size_t>(question.pattern)];
      const auto& combination = combinations[static_cast<std::size_t>(question.combination)];
      if (!main_one(situation, question.pattern)) continue;
      // Strength is shown with the people in all their main places, the rest with them all round.
      if (purpose != Purpose::strength &&
          (question.pattern > 0 || situation.bathers == Bathers::half))
        continue;
      solve(model, prepared.analysis(),
            what + combination.id + "; " + situation.name +
                (question.pattern > 0 ? "; " + pattern.name : ""),
            factored(deck_, prepared.cases->infos, values_, combination, situation, pattern));
    }
  }
  return model;
}

std::optional<ExportedModel> Run::exported_before_works() const {
  std::vector<std::size_t> kept;
  const std::optional<model::Model> before = before_works(kept);
  if (!before || !before->not_modelled.empty() || before->loose) return std::nullopt;
  ExportedModel model;
  model.bound = "middling ground, no load";
  model.stage = "before the works, under its own weight: new pieces meet the deck so settled";
  model.frame = before->frame;
  model.cases = {before->cases.front()};
  const solver::Analysis analysis(model.frame, model.cases);
  solve(model, analysis, "own weight", {{0, 1.0}});
  return model;
}

ExportedModels Run::exported() {
  ExportedModels result;
  if (auto before = exported_before_works()) result.models.push_back(std::move(*before));
  for (const Variant& variant : variants()) {
    const Prepared prepared = prepare(variant);
    if (!prepared.ready()) {
      if (variant.bounds.stiff_shell) continue;
      result.why = prepared.loose ? *prepared.loose : prepared.not_modelled;
      return result;
    }
    std::vector<Purpose> purposes{Purpose::strength, Purpose::ground};
    if (!variant.bounds.stiff_shell) purposes.push_back(Purpose::uplift);
    result.models.push_back(exported_model(variant, purposes, prepared));
    const ExportedModel base = result.models.back();
    // Each pad that matters, unlike its neighbours: under the combination that puts most on them.
    const int worst = heaviest(base);
    if (worst >= 0) {
      const ExportedCombination& combination = base.combinations[static_cast<std::size_t>(worst)];
      for (const PadChange& change : pad_changes(prepared)) {
        ExportedModel model{
            base.bound + ", " + change.words, base.stage, base.frame, base.cases, {}};
        for (const solver::SupportChange& c : change.changes) {
          solver::Support& support = model.frame.supports[static_cast<std::size_t>(c.support)];
          support.k_w = c.k_w;
          support.gap = c.gap.value_or(support.gap);
        }
        solve(model, prepared.analysis(), combination.id, combination.factors, change.changes);
        result.models.push_back(std::move(model));
      }
    }
    const int joist = variant.bounds.stiff_shell ? -1 : most_bent(prepared.model(), base);
    if (!joints_open() || variant.bounds.joists_lapped || joist < 0) continue;
    Variant jointed = variant;
    jointed.bounds.boards_jointed = joist;
    const Prepared with_joints = prepare(jointed);
    const std::vector<Purpose> strength{Purpose::strength};
    if (with_joints.ready())
      result.models.push_back(exported_model(jointed, strength, with_joints));
  }
  return result;
}

void Run::exported_service(std::vector<ExportedModel>& models) const {
  std::vector<bool> lapped{false};
  if (std::any_of(deck_.joists.begin(), deck_.joists.end(),
                  [](const deck::Joist& joist) { return !joist.continuous_recorded; })) {
    lapped.push_back(true);
  }
  for (const bool lap : lapped) {
    for (const Term term : {Term::now, Term::long_term}) {
      Variant variant;
      variant.old_ground = variant.new_ground = GroundBound::middle;
      variant.bounds.joists_lapped = lap;
      variant.term = term;
      const Prepared prepared = prepare(variant);
      if (!prepared.ready()) return;
      std::vector<Purpose> purposes{Purpose::service_long};
      if (term == Term::now) purposes.insert(purposes.begin(), Purpose::service_now);
      ExportedModel model = exported_model(variant, purposes, prepared);
      model.bound = "service at likely facts: " + model.bound;
      models.push_back(std::move(model));
    }
  }
}

ExportedModels exported_models(const record::Survey& survey, const standards::Standard& standard) {
  const deck::Resolved resolved = deck::resolve(survey, record::Reading::cautious);
  const std::string why = model::why_not_modelled(resolved.deck);
  if (!why.empty()) return {{}, why};
  ExportedModels result = Run(resolved.deck, standard, {}).exported();
  const deck::Resolved likely = deck::resolve(survey, record::Reading::likely);
  Run(likely.deck, standard, {}).exported_service(result.models);
  return result;
}

}  // namespace underprop::assessment
