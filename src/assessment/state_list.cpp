#include "state_list.hpp"

#include <algorithm>

namespace underprop::assessment {

using loads::Nature;
using standards::Purpose;

namespace {

bool in_main_places(const Situation& s) {
  return s.full && s.bathers != Bathers::quarter && s.free_end < 0;
}

}  // namespace

StateList::StateList(const deck::Deck& deck, const Basis& basis,
                     const std::vector<model::CaseInfo>& infos, std::size_t bays, bool with_load)
    : deck_(deck),
      basis_(basis),
      bays_(bays),
      situations_(assessment::situations(deck, infos, with_load)),
      patterns_(assessment::patterns(bays)),
      usual_patterns_(patterns_.size()) {}

std::vector<StateId> StateList::list(Purpose purpose) const {
  std::vector<StateId> states;
  const auto& all = combinations(purpose);
  for (std::size_t c = 0; c < all.size(); ++c) {
    const bool people = at(all[c].factors, Nature::people) != 0.0;
    const bool imposed = at(all[c].factors, Nature::imposed) != 0.0;
    for (std::size_t s = 0; s < situations_.size(); ++s) {
      const Situation& situation = situations_[s];
      if (!people && (situation.bathers != Bathers::none || situation.free_end >= 0)) continue;
      for (std::size_t p = 0; p < patterns_.size(); ++p) {
        if (p > 0 && (!imposed || situation.free_end >= 0)) break;
        StateId id;
        id.purpose = purpose;
        id.combination = static_cast<int>(c);
        id.situation = static_cast<int>(s);
        id.pattern = static_cast<int>(p);
        states.push_back(id);
      }
    }
  }
  return states;
}

std::vector<StateId> StateList::usual(Purpose purpose) const {
  std::vector<StateId> states = list(purpose);
  std::erase_if(states, [&](const StateId& id) {
    return static_cast<std::size_t>(id.pattern) >= usual_patterns_;
  });
  for (StateId& id : states) id.boards = purpose == Purpose::strength && id.pattern <= 1;
  return states;
}

std::vector<StateId> StateList::main(Purpose purpose) const {
  std::vector<StateId> states = list(purpose);
  std::erase_if(
      states, [&](const StateId& id) { return id.pattern > 1 || !in_main_places(situation(id)); });
  return states;
}

std::vector<StateId> StateList::service() const {
  std::vector<StateId> states;
  StateId id;
  id.purpose = Purpose::service_now;
  for (std::size_t s = 0; s < situations_.size(); ++s) {
    const Situation& situation = situations_[s];
    if (!in_main_places(situation)) continue;
    id.situation = static_cast<int>(s);
    for (std::size_t p = 0; p < std::min<std::size_t>(patterns_.size(), 2); ++p) {
      id.pattern = static_cast<int>(p);
      states.push_back(id);
    }
  }
  return states;
}

std::vector<StateId> StateList::beyond_usual(Purpose purpose, int combination) const {
  std::vector<StateId> states = list(purpose);
  std::erase_if(states, [&](const StateId& id) {
    return id.combination != combination || static_cast<std::size_t>(id.pattern) < usual_patterns_;
  });
  return states;
}

int StateList::number_of(const std::vector<double>& bays) {
  const auto known = std::find_if(patterns_.begin(), patterns_.end(),
                                  [&](const Pattern& p) { return p.bays == bays; });
  if (known != patterns_.end()) return static_cast<int>(known - patterns_.begin());
  patterns_.push_back(pattern_of(bays));
  return static_cast<int>(patterns_.size()) - 1;
}

std::string StateList::words(const StateId& id) const {
  const std::string& name = situation(id).name;
  return id.pattern > 0 ? name + "; " + patterns_[static_cast<std::size_t>(id.pattern)].name : name;
}

std::vector<solver::CaseFactor> StateList::factors(
    const StateId& id, const std::vector<model::CaseInfo>& infos) const {
  return factored(deck_, infos, basis_.values, combination(id), situation(id),
                  patterns_[static_cast<std::size_t>(id.pattern)]);
}

}  // namespace underprop::assessment
