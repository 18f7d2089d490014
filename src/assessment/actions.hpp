// Situations of the load, patterns of people on the deck, and the factored cases they make.
#pragma once

#include "model/grillage.hpp"
#include "underprop/solver/analysis.hpp"
#include "underprop/standards/standard.hpp"

#include <string>
#include <vector>

namespace underprop::assessment {

/// Where the people of the load are.
enum class Bathers { none, all_round, half, quarter };

struct Situation {
  std::string name;       ///< "full, people on the half towards +x"
  bool with_load = true;  ///< false: the deck without its new load
  bool full = true;
  Bathers bathers = Bathers::none;
  int part = 0;       ///< of half or quarter
  int free_end = -1;  ///< a person on the tip of an overhang: number of the case
};
std::vector<Situation> situations(const deck::Deck& deck, const std::vector<model::CaseInfo>& infos,
                                  bool with_load);

/// People on the rest of the deck, by bay.
struct Pattern {
  std::string name;
  std::vector<double> bays;
};
/// None, all, odd, even, and every two neighbours: the patterns of continuous beams. Of up to three bays
/// all there are.
std::vector<Pattern> patterns(std::size_t bays);
Pattern pattern_of(const std::vector<double>& bays);

std::vector<solver::CaseFactor> factored(const deck::Deck& deck,
                                         const std::vector<model::CaseInfo>& infos,
                                         const standards::LoadValues& values,
                                         const standards::Combination& combination,
                                         const Situation& situation, const Pattern& pattern);

}  // namespace underprop::assessment
