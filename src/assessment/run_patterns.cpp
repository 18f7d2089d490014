// Patterns of live load beyond the usual ones, on decks of more than three bays.
#include "run.hpp"

#include <algorithm>

namespace underprop::assessment {

using standards::Purpose;

void Run::propose(const Prepared& prepared, int variant, Purpose purpose) {
  const std::size_t bays = prepared.model().bays.size();
  if (bays < 4) return;  // all their patterns stand in the list
  const std::vector<Situation>& all = situations_[bare_ ? 1 : 0];
  // With all its people about it, or else as it is.
  int reference = 0;
  for (std::size_t s = 0; s < all.size(); ++s) {
    if (all[s].bathers == Bathers::all_round) reference = static_cast<int>(s);
  }
  const auto& combinations = combinations_.at(purpose);
  // Every combination in turn: which bays make a check worse depends on what else weighs on the deck.
  for (std::size_t c = 0; c < combinations.size(); ++c) {
    if (at(combinations[c].factors, loads::Nature::imposed) == 0.0) continue;
    by_pattern_.clear();
    seek_situation_ = reference;
    std::map<std::vector<double>, int> tried;
    const auto number = [&](const std::vector<double>& on) {
      for (std::size_t p = 0; p < patterns_.size(); ++p) {
        if (patterns_[p].bays == on) return static_cast<int>(p);
      }
      patterns_.push_back(pattern_of(on));
      return static_cast<int>(patterns_.size()) - 1;
    };
    const auto attempt = [&](const std::vector<double>& on) {
      if (tried.count(on) > 0 || stop_ || done_loose()) return;
      const int p = number(on);
      tried[on] = p;
      take(prepared, variant, purpose, {static_cast<int>(c), reference, p}, -1, -1, false);
    };
    for (std::size_t p = 0; p < first_patterns_; ++p)
      attempt(std::vector<double>(patterns_[p].bays));
    std::vector<int> single(bays);
    for (std::size_t k = 0; k < bays; ++k) {
      std::vector<double> only(bays, 0.0);
      only[k] = 1.0;
      attempt(only);
      single[k] = tried.count(only) > 0 ? tried[only] : 0;
    }
    const auto worse = [](double a, double b) { return a > b * (1.0 + 1e-9) + 1e-9; };
    std::vector<std::vector<double>> proposals;
    for (const auto& [key, demand] : by_pattern_) {
      std::vector<double> on(bays, 0.0);
      const double none = demand.count(0) > 0 ? demand.at(0) : 0.0;
      for (std::size_t k = 0; k < bays; ++k) {
        if (demand.count(single[k]) > 0 && worse(demand.at(single[k]), none)) on[k] = 1.0;
      }
      proposals.push_back(std::move(on));
    }
    while (!proposals.empty()) {
      for (const std::vector<double>& on : proposals) attempt(on);
      proposals.clear();
      if (stop_ || done_loose()) break;
      for (const auto& [key, demand] : by_pattern_) {
        int most = 0;
        for (const auto& [p, d] : demand) {
          if (worse(d, demand.count(most) > 0 ? demand.at(most) : 0.0)) most = p;
        }
        for (std::size_t k = 0; k < bays; ++k) {
          std::vector<double> turned = patterns_[static_cast<std::size_t>(most)].bays;
          turned[k] = 1.0 - turned[k];
          if (tried.count(turned) == 0 &&
              std::find(proposals.begin(), proposals.end(), turned) == proposals.end())
            proposals.push_back(std::move(turned));
        }
      }
    }
    seek_situation_ = -1;
    std::vector<bool> governs(patterns_.size(), false);
    for (const auto& [key, demand] : by_pattern_) {
      int most = 0;
      for (const auto& [p, d] : demand) {
        if (worse(d, demand.count(most) > 0 ? demand.at(most) : 0.0)) most = p;
      }
      governs[static_cast<std::size_t>(most)] = true;
    }
    for (const Question& question : questions({combinations[c]}, all, patterns_)) {
      if (stop_ || done_loose()) return;
      const auto p = static_cast<std::size_t>(question.pattern);
      if (p < first_patterns_ || !governs[p] || question.situation == reference) continue;
      take(prepared, variant, purpose, {static_cast<int>(c), question.situation, question.pattern},
           -1, -1, false);
    }
  }
}

}  // namespace underprop::assessment
