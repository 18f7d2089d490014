#include "frames.hpp"

#include "stability.hpp"

namespace underprop::assessment {

using standards::Purpose;

namespace {

Basis basis_of(const deck::Deck& deck, const standards::Standard& standard) {
  Basis basis;
  basis.timbers = timbers(deck, standard);
  basis.values = standard.loads(deck.height);
  // A local rule may ask for more than the standard, not for less.
  if (deck.site.imposed_load)
    basis.values.imposed = max(basis.values.imposed, *deck.site.imposed_load);
  if (deck.site.concentrated_load)
    basis.values.concentrated = max(basis.values.concentrated, *deck.site.concentrated_load);
  standards::Circumstances circumstances;
  circumstances.snow = deck.site.snow_load && deck.site.snow_load->value() > 0.0;
  for (const deck::Load& load : deck.loads) {
    if (load.empty_for_months) circumstances.contents_permanent = false;
  }
  for (const Purpose purpose : {Purpose::strength, Purpose::uplift, Purpose::ground,
                                Purpose::service_now, Purpose::service_long}) {
    basis.combinations[purpose] = standard.combinations(purpose, circumstances);
  }
  // What a push leaves to a ledger depends on the use of each of its fixings.
  basis.raised = raised(deck) || !deck.ledgers.empty();
  basis.braced = braced_both_ways(deck, basis.timbers, standard);
  return basis;
}

}  // namespace

FrameCache::FrameCache(const deck::Deck& deck, const standards::Standard& standard,
                       const PlanCases& plan_cases)
    : deck_(deck),
      standard_(standard),
      plan_cases_(plan_cases),
      basis_(basis_of(deck, standard)),
      sagged_(deck, standard) {
  deck_.loads.clear();
}

model::Properties FrameCache::properties(const Bound& bound) const {
  model::Properties p =
      assessment::properties(deck_, basis_.timbers, standard_, bound.old_ground, bound.term);
  if (bound.new_ground != bound.old_ground) {
    for (std::size_t s = 0; s < deck_.supports.size(); ++s) {
      if (deck_.supports[s].added)
        p.supports[s] = support_stiffness(deck_, basis_.timbers, standard_, s, bound.new_ground);
    }
  }
  return p;
}

std::shared_ptr<const BareFrame> FrameCache::frame(const Bound& bound) {
  for (const auto& [known, frame] : frames_) {
    if (known.same_frame(bound)) return frame;
  }
  auto fresh = std::make_shared<BareFrame>();
  fresh->model = model::build(deck_, properties(bound), bound.model);
  model::Model& model = fresh->model;
  if (model.not_modelled.empty() && !model.loose) {
    stage(model, deck_, sagged_, plan_cases_);
    fresh->analysis =
        std::make_unique<solver::Analysis>(model.frame, std::vector<solver::LoadCase>{});
    fresh->probes = probes(model);
    fresh->probes.rules = line_rules(deck_, model, standard_);
    const Probes& read = fresh->probes;
    if (bound.model.stiff_shell) {
      fresh->bed = std::make_unique<solver::PlateBed>(*fresh->analysis, read.frame_members,
                                                      read.board_members, read.lines);
    } else {
      fresh->condensed = std::make_unique<solver::Condensed>(*fresh->analysis, read.frame_members,
                                                             read.board_members, read.lines);
    }
  }
  frames_.emplace_back(bound, fresh);
  return fresh;
}

}  // namespace underprop::assessment
