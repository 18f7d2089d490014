// The ends of what nobody can know about a deck: all of them are analysed.
#pragma once

#include "properties.hpp"

#include <string>
#include <vector>

namespace underprop::assessment {

/// One set of ends.
struct Bound {
  GroundBound old_ground = GroundBound::soft;
  GroundBound new_ground = GroundBound::soft;
  standards::Term term = standards::Term::now;
  model::Bounds model;
  [[nodiscard]] std::string words() const;  ///< "soft ground, stiff base"
  /// The same frame, the loads apart?
  [[nodiscard]] bool same_frame(const Bound& other) const;
};

/// May joists be jointed over their inner bearers?
[[nodiscard]] bool laps_open(const deck::Deck& deck);
/// May the boards be jointed under the load? Then they are, over the joist that bends most.
[[nodiscard]] bool joints_open(const deck::Deck& deck);

/// Of the checks of strength, ground and uplift; the first has a soft base and joists as they are. Boards
/// jointed over a joist are left to who knows which joist bends most (`jointed`).
[[nodiscard]] std::vector<Bound> safety_bounds(const deck::Deck& deck, const Options& options);
[[nodiscard]] Bound jointed(Bound bound, int joist);
/// Of the service checks: middling ground, a soft base.
[[nodiscard]] Bound service_bound(bool lapped, standards::Term term);

}  // namespace underprop::assessment
