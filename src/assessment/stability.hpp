// What keeps a deck from swaying or toppling, in both plan directions.
//
// A raised deck is taken as stiff in its own plane. What resists a push along x or y are vertical
// frames (sway_frames.hpp), a ledger whose fixings count and pass, and walls the deck stands between.
// The push is shared by stiffness about the centre of rigidity, torsion in plan included; each frame
// is then solved to second order under its share, its posts' loads, and the posts that lean on it.
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

/// Raised decks: one finding "sway along x" and one along y, the worst of bolts, braces, posts, beam,
/// uplift of a foot and critical load; infinite where nothing resists, or nothing resists turning in
/// plan. Low decks: the support that is nearest to toppling; where it would, and braces, walls or ledgers
/// hold the deck, the findings of sway in its place.
Stability stability(const deck::Deck& deck, const Timbers& timbers,
                    const standards::Standard& standard, const StabilityLoads& loads);

/// Do braces, ledgers or walls keep the deck from swaying along x and along y? Fixed feet alone do not:
/// such posts sway with K = 2.1.
bool braced_both_ways(const deck::Deck& deck, const Timbers& timbers,
                      const standards::Standard& standard);

}  // namespace underprop::assessment
