// What of a joist, a bearer or a ledger is judged for itself: the places where it is notched or holed,
// and the ends of its spans, where loads on top go straight into the support underneath.
#pragma once

#include "model/grillage.hpp"
#include "underprop/deck/deck.hpp"
#include "underprop/standards/standard.hpp"

#include <string>
#include <vector>

namespace underprop::assessment {

/// A stretch of a piece where its section is its own. Lengths in mm, along the piece as its line counts.
struct Section {
  double from = 0.0, to = 0.0;
  standards::Weakening weakening;
  std::string what;  ///< "notch", "hole"
};

/// A support underneath, whose push meets what lies on top (EN 1995-1-1 6.1.7(3), NDS 3.4.3.1(a)).
struct Seat {
  std::size_t node = 0;  ///< of the line
  double face = 0.0;     ///< half of the contact, mm
};

/// How the effects of one line are read.
struct LineRules {
  std::vector<Section> sections;
  std::vector<Seat> seats;           ///< by node
  std::vector<std::size_t> carried;  ///< nodes where anything carries the piece, ascending
  std::vector<double>
      half_on_top;     ///< per node: half the width of what presses there; < 0: nothing
  double depth = 0.0;  ///< of the piece, mm
  const standards::Standard* standard = nullptr;  ///< which says what share counts
};

/// Per line: joists, bearers, ledgers. `standard` must outlive what is returned.
[[nodiscard]] std::vector<LineRules> line_rules(const deck::Deck& deck, const model::Model& model,
                                                const standards::Standard& standard);

}  // namespace underprop::assessment
