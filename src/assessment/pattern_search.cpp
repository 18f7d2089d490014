#include "pattern_search.hpp"

#include <algorithm>
#include <set>

namespace underprop::assessment {

using standards::Purpose;

namespace {

using Bays = std::vector<double>;

bool worse(double a, double b) { return a > b * (1.0 + 1e-9) + 1e-9; }

/// Of one check: the pattern that is worst for it so far.
int worst_pattern(const std::map<int, double>& demand) {
  int most = 0;
  for (const auto& [pattern, d] : demand) {
    if (worse(d, demand.count(most) > 0 ? demand.at(most) : 0.0)) most = pattern;
  }
  return most;
}

/// One combination in one situation.
class Search {
public:
  Search(StateList& states, StateId id, const AskState& ask)
      : states_(states), id_(id), ask_(ask) {}

  /// False: nothing more is asked for.
  bool run() {
    for (std::size_t p = 0; p < states_.usual_patterns(); ++p) {
      if (!attempt(Bays(states_.patterns()[p].bays))) return false;
    }
    std::vector<int> single;
    for (std::size_t k = 0; k < states_.bays(); ++k) {
      Bays only(states_.bays(), 0.0);
      only[k] = 1.0;
      if (!attempt(only)) return false;
      single.push_back(states_.number_of(only));
    }
    for (std::vector<Bays> next = by_influence(single); !next.empty(); next = turned()) {
      for (const Bays& on : next) {
        if (!attempt(on)) return false;
      }
    }
    return true;
  }

  /// Is a pattern the worst of some check?
  [[nodiscard]] std::set<int> governing() const {
    std::set<int> patterns;
    for (const auto& [check, demand] : demands_) patterns.insert(worst_pattern(demand));
    return patterns;
  }

private:
  bool attempt(const Bays& on) {
    if (!tried_.insert(on).second) return true;
    id_.pattern = states_.number_of(on);
    return ask_(id_, &demands_);
  }
  /// Per check: the bays that by themselves make it worse.
  [[nodiscard]] std::vector<Bays> by_influence(const std::vector<int>& single) const {
    std::vector<Bays> proposals;
    for (const auto& [check, demand] : demands_) {
      Bays on(states_.bays(), 0.0);
      const double none = demand.count(0) > 0 ? demand.at(0) : 0.0;
      for (std::size_t k = 0; k < on.size(); ++k) {
        if (demand.count(single[k]) > 0 && worse(demand.at(single[k]), none)) on[k] = 1.0;
      }
      proposals.push_back(std::move(on));
    }
    return proposals;
  }
  /// Per check: its worst pattern with each bay turned over.
  [[nodiscard]] std::vector<Bays> turned() const {
    std::vector<Bays> proposals;
    for (const auto& [check, demand] : demands_) {
      const auto most = static_cast<std::size_t>(worst_pattern(demand));
      for (std::size_t k = 0; k < states_.bays(); ++k) {
        Bays on = states_.patterns()[most].bays;
        on[k] = 1.0 - on[k];
        if (!tried_.contains(on) &&
            std::find(proposals.begin(), proposals.end(), on) == proposals.end())
          proposals.push_back(std::move(on));
      }
    }
    return proposals;
  }

  StateList& states_;
  StateId id_;
  const AskState& ask_;
  std::set<Bays> tried_;
  PatternDemands demands_;
};

}  // namespace

void search_patterns(StateList& states, Purpose purpose, const AskState& ask) {
  if (states.bays() < 4) return;  // all their patterns are usual
  // With all its people about it, or else as it is.
  StateId id;
  id.purpose = purpose;
  for (std::size_t s = 0; s < states.situations().size(); ++s) {
    if (states.situations()[s].bathers == Bathers::all_round) id.situation = static_cast<int>(s);
  }
  // Every combination in turn: which bays make a check worse depends on what else weighs on the deck.
  const auto& combinations = states.combinations(purpose);
  for (std::size_t c = 0; c < combinations.size(); ++c) {
    if (at(combinations[c].factors, loads::Nature::imposed) == 0.0) continue;
    id.combination = static_cast<int>(c);
    Search search(states, id, ask);
    if (!search.run()) return;
    const std::set<int> governing = search.governing();
    for (const StateId& other : states.beyond_usual(purpose, id.combination)) {
      if (!governing.contains(other.pattern) || other.situation == id.situation) continue;
      if (!ask(other, nullptr)) return;
    }
  }
}

}  // namespace underprop::assessment
