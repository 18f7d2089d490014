// What keeps a deck from swaying or toppling, in both plan directions.
//
// The deck is taken as stiff in its own plane. A push along x or y is resisted by supports that right
// themselves on their own base (righting.hpp), by vertical frames (sway_frames.hpp), by ledgers' fixings,
// and by walls the deck stands between. Stability goes by stiffness, about the centre of rigidity, torsion
// in plan included, each frame to second order under its share, its posts' loads, and the posts that lean
// on it; strength by any distribution that is in equilibrium within every capacity (sway_shares.cpp).
#pragma once

#include "properties.hpp"

#include <map>
#include <string>
#include <vector>

namespace underprop::assessment {

struct StabilityLoads {
  Force vertical;  ///< characteristic: the loads with their people, and people on the deck
  Force people;    ///< the part of it that people are
  std::vector<Reaction> reactions;  ///< of Deck::supports, factored
  /// What the other checks found: a ledger or a beam that is in use already has less to give.
  std::vector<Finding> found;
  /// Per ledger id: the use of each of its fixings down the wall, at most 1, each one's own worst. A push
  /// is shared by what all have left: fixings of the dowel sort yield before they fail.
  std::map<std::string, std::vector<double>> ledger_used;
  bool compare = true;  ///< also with the tested push of people who sway in step
};

struct Stability {
  std::vector<Finding> findings;
  std::vector<std::string> assumptions;
};

/// Does the deck stand on posts that sway (scope.json, low_support_mm)?
bool raised(const deck::Deck& deck);

/// One finding "sway along x" and one along y for every deck that stands on something: the push against
/// what resists by the best safe distribution; infinite where nothing does. Where nothing links the heads
/// of the supports, the one that is nearest to toppling by itself.
Stability stability(const deck::Deck& deck, const Timbers& timbers,
                    const standards::Standard& standard, const StabilityLoads& loads);

/// Do braces, ledgers or walls keep the deck from swaying along x and along y? Fixed feet alone do not:
/// such posts sway with K = 2.1.
bool braced_both_ways(const deck::Deck& deck, const Timbers& timbers,
                      const standards::Standard& standard);

}  // namespace underprop::assessment
