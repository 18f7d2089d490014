#include "underprop/assessment/exported.hpp"

#include "loaded.hpp"
#include "state_list.hpp"

#include <algorithm>
#include <numeric>

namespace underprop::assessment {

using standards::Purpose;
using standards::Term;

namespace {

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

/// The states that are exported: the load full, people in their main places; strength with all of those,
/// the rest with people all round.
std::vector<StateId> exported_states(const StateList& states, Purpose purpose) {
  std::vector<StateId> list = states.main(purpose);
  if (purpose != Purpose::strength) {
    std::erase_if(list, [&](const StateId& id) {
      return id.pattern > 0 || states.situation(id).bathers == Bathers::half;
    });
  }
  return list;
}

const char* prefix(Purpose purpose) {
  return purpose == Purpose::uplift ? "uplift: " : purpose == Purpose::ground ? "ground: " : "";
}

ExportedModel exported_model(const LoadedDeck& loaded, const LoadedFrame& frame,
                             const std::vector<Purpose>& purposes) {
  const StateList states(loaded.deck(), loaded.basis(), frame.cases->infos,
                         frame.model().bays.size(), true);
  ExportedModel model;
  model.bound = frame.bound.words();
  model.stage = loaded.frames().sagged().any()
                    ? "from the unloaded state; new supports meet the settled deck through gaps"
                    : "from the unloaded state";
  model.frame = frame.model().frame;
  model.frame.plates = frame.cases->plates;
  model.cases = frame.cases->cases;
  for (const Purpose purpose : purposes) {
    for (const StateId& id : exported_states(states, purpose)) {
      solve(model, frame.whole(),
            prefix(purpose) + states.combination(id).id + "; " + states.words(id),
            states.factors(id, frame.cases->infos));
    }
  }
  return model;
}

/// The deck before works that add pieces; none if it does not stand by itself.
std::optional<ExportedModel> exported_before_works(const LoadedDeck& loaded) {
  const std::optional<BeforeWorks> before = before_works(loaded.deck(), loaded.standard());
  if (!before || !before->model.not_modelled.empty() || before->model.loose) return std::nullopt;
  ExportedModel model;
  model.bound = "middling ground, no load";
  model.stage = "before the works, under its own weight: new pieces meet the deck so settled";
  model.frame = before->model.frame;
  model.cases = {before->model.cases.front()};
  const solver::Analysis analysis(model.frame, model.cases);
  solve(model, analysis, "own weight", {{0, 1.0}});
  return model;
}

/// Each support that matters, unlike its neighbours: under the combination that puts most on them.
void export_changed_supports(const LoadedDeck& loaded, const LoadedFrame& frame,
                             const ExportedModel& base, std::vector<ExportedModel>& models) {
  const int worst = heaviest(base);
  if (worst < 0) return;
  const ExportedCombination& combination = base.combinations[static_cast<std::size_t>(worst)];
  for (const ChangedSupport& change : changed_supports(loaded, frame)) {
    ExportedModel model{base.bound + ", " + change.words, base.stage, base.frame, base.cases, {}};
    for (const solver::SupportChange& c : change.changes) {
      solver::Support& support = model.frame.supports[static_cast<std::size_t>(c.support)];
      support.k_w = c.k_w;
      support.gap = c.gap.value_or(support.gap);
    }
    solve(model, frame.whole(), combination.id, combination.factors, change.changes);
    models.push_back(std::move(model));
  }
}

/// The models of the checks of strength, ground and uplift.
ExportedModels exported_safety(const LoadedDeck& loaded) {
  ExportedModels result;
  if (auto before = exported_before_works(loaded)) result.models.push_back(std::move(*before));
  for (const Bound& bound : safety_bounds(loaded.deck(), {})) {
    const bool stiff = bound.model.stiff_shell;
    const auto frame = loaded.frame(bound);
    if (!frame->ready()) {
      if (stiff) continue;
      result.why = frame->loose ? *frame->loose : frame->not_modelled;
      return result;
    }
    std::vector<Purpose> purposes{Purpose::strength, Purpose::ground};
    if (!stiff) purposes.push_back(Purpose::uplift);
    const ExportedModel base = exported_model(loaded, *frame, purposes);
    result.models.push_back(base);
    export_changed_supports(loaded, *frame, base, result.models);
    const int joist = stiff ? -1 : most_bent(frame->model(), base);
    if (!joints_open(loaded.deck()) || bound.model.joists_lapped || joist < 0) continue;
    const auto with_joints = loaded.frame(jointed(bound, joist));
    if (with_joints->ready())
      result.models.push_back(exported_model(loaded, *with_joints, {Purpose::strength}));
  }
  return result;
}

/// The models of the service checks: middling ground, before and after creep.
void export_service(const LoadedDeck& loaded, std::vector<ExportedModel>& models) {
  for (const bool lapped : {false, true}) {
    if (lapped && !laps_open(loaded.deck())) continue;
    for (const Term term : {Term::now, Term::long_term}) {
      const auto frame = loaded.frame(service_bound(lapped, term));
      if (!frame->ready()) return;
      std::vector<Purpose> purposes{Purpose::service_long};
      if (term == Term::now) purposes.insert(purposes.begin(), Purpose::service_now);
      ExportedModel model = exported_model(loaded, *frame, purposes);
      model.bound = "service at likely facts: " + model.bound;
      models.push_back(std::move(model));
    }
  }
}

}  // namespace

ExportedModels exported_models(const record::Survey& survey, const standards::Standard& standard) {
  const deck::Resolved resolved = deck::resolve(survey, record::Reading::cautious);
  const std::string why = model::why_not_modelled(resolved.deck);
  if (!why.empty()) return {{}, why};
  const auto with_loads = [&](const deck::Deck& deck) {
    return LoadedDeck(deck, std::make_shared<FrameCache>(deck, standard, PlanCases{}));
  };
  ExportedModels result = exported_safety(with_loads(resolved.deck));
  const deck::Resolved likely = deck::resolve(survey, record::Reading::likely);
  export_service(with_loads(likely.deck), result.models);
  return result;
}

}  // namespace underprop::assessment
