// The retrofit beside a concrete pad and a new low deck, on equal terms.
#pragma once

#include "underprop/planner/planner.hpp"

#include <string>
#include <vector>

namespace underprop::comparison {

struct Option {
  std::string name;  ///< "least retrofit", "concrete pad on the ground", "new low deck"
  costing::Bill bill;
  bool possible = true;  ///< false: no plan exists, why in notes
  bool carries = false;
  std::vector<std::string> notes;
  std::optional<assessment::Assessment>
      judged;  ///< the last trial of a new low deck, if none carries
};

struct Comparison {
  std::vector<Option> options;
  std::string cheapest;  ///< name of the cheapest option (likely cost) that carries
  std::vector<std::string> tips_the_balance;
};

Comparison compare(const record::Survey& survey, const planner::Result& retrofit,
                   const standards::Standard& standard, const costing::PriceBook& book);

}  // namespace underprop::comparison
