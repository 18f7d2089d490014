// What a work touches of the deck as it stands: what a take-off has to count.
#pragma once

#include "underprop/works/work.hpp"

#include <string>
#include <vector>

namespace underprop::works {

struct Touched {
  std::vector<std::string> supports;  ///< packed, or given a bigger pad
  std::vector<std::string> joists;    ///< packed on a new bearer, sistered, or over new pads
  int hangers = 0;
  int nails = 0;         ///< of all hangers
  Length bearer_length;  ///< of a new bearer or sleeper
  Length longest_joist;  ///< of the joists sistered
  int pads = 0;          ///< new or replaced
};

/// One entry for each work, in their order. Throws std::invalid_argument as `apply` does where a piece
/// is not there; pieces that an earlier work of the same list adds are not looked up.
[[nodiscard]] std::vector<Touched> touched(const std::vector<Work>& works,
                                           const record::Survey& survey);

/// Clear height below the joists: as allowed for, else from the likely height, boards and deepest joist.
[[nodiscard]] Length clear_height(const record::Survey& survey);

}  // namespace underprop::works
