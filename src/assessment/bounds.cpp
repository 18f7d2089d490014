#include "bounds.hpp"

#include <algorithm>

namespace underprop::assessment {

using standards::Term;

std::string Bound::words() const {
  const auto ground = [](GroundBound g) {
    return g == GroundBound::soft ? "soft" : g == GroundBound::stiff ? "stiff" : "middling";
  };
  std::string text = std::string(ground(old_ground)) + " ground";
  if (new_ground != old_ground)
    text = std::string("old ground ") + ground(old_ground) + ", new ground " + ground(new_ground);
  if (term == Term::long_term) text += ", timber after creep";
  text += model.stiff_shell ? ", stiff base" : ", soft base";
  if (model.joists_lapped) text += ", joists jointed over bearers";
  if (model.boards_jointed) text += ", boards jointed under the load";
  return text;
}

bool Bound::same_frame(const Bound& other) const {
  return old_ground == other.old_ground && new_ground == other.new_ground && term == other.term &&
         model.joists_lapped == other.model.joists_lapped &&
         model.boards_jointed == other.model.boards_jointed &&
         model.stiff_shell == other.model.stiff_shell;
}

bool laps_open(const deck::Deck& deck) {
  return std::any_of(deck.joists.begin(), deck.joists.end(),
                     [](const deck::Joist& joist) { return !joist.continuous_recorded; });
}

bool joints_open(const deck::Deck& deck) {
  return deck.boards.joints == record::BoardJoints::staggered;
}

std::vector<Bound> safety_bounds(const deck::Deck& deck, const Options& options) {
  // Forces depend on the ratio of timber to ground stiffness only: creep softens timber, not ground.
  // Fresh timber on soft ground and crept timber on stiff ground are the two ends of that ratio.
  struct Ground {
    GroundBound old_ground, new_ground;
    Term term;
  };
  std::vector<Ground> grounds{{GroundBound::soft, GroundBound::soft, Term::now},
                              {GroundBound::stiff, GroundBound::stiff, Term::long_term}};
  if (options.plan_cases.new_and_old_ground_differ) {
    grounds.push_back({GroundBound::stiff, GroundBound::soft, Term::long_term});
    grounds.push_back({GroundBound::soft, GroundBound::stiff, Term::now});
  }
  const bool has_full_base =
      std::any_of(deck.loads.begin(), deck.loads.end(),
                  [](const deck::Load& load) { return load.base == record::BaseKind::full; });
  std::vector<Bound> list;
  for (const Ground& ground : grounds) {
    for (const bool stiff : {false, true}) {
      if (stiff && (!has_full_base || options.extent == Extent::screening)) continue;
      for (const bool lapped : {false, true}) {
        if (lapped && !laps_open(deck)) continue;
        Bound bound{ground.old_ground, ground.new_ground, ground.term, {}};
        bound.model.stiff_shell = stiff;
        bound.model.joists_lapped = lapped;
        list.push_back(bound);
      }
    }
  }
  return list;
}

Bound jointed(Bound bound, int joist) {
  bound.model.boards_jointed = joist;
  return bound;
}

Bound service_bound(bool lapped, Term term) {
  Bound bound{GroundBound::middle, GroundBound::middle, term, {}};
  bound.model.joists_lapped = lapped;
  return bound;
}

}  // namespace underprop::assessment
