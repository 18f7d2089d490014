// Pieces that meet a published prescriptive table to the letter: in ordinary use they pass as pieces of a
// deck, whatever calculation says within limits. With a new load that changes something only calculation
// counts.
#pragma once

#include "loaded.hpp"
#include "underprop/assessment/assessment.hpp"
#include "underprop/standards/prescriptive.hpp"

#include <map>
#include <string>
#include <utility>

namespace underprop::assessment {

class DeemedPieces {
public:
  DeemedPieces() = default;
  explicit DeemedPieces(const LoadedDeck& deck);
  /// The row by which that finding passes in ordinary use; none: no row, or calculation finds far more
  /// than any row would leave open.
  [[nodiscard]] const standards::DeemedToSatisfy* of(const std::string& piece,
                                                     standards::CheckKind kind,
                                                     double utilisation) const;

private:
  double most_use_ = 0.0;
  std::map<std::pair<std::string, standards::CheckKind>, standards::DeemedToSatisfy> rows_;
};

}  // namespace underprop::assessment
