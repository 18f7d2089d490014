// Every check that a deck gets, as a list made once: which demand it takes and which rule judges it.
#pragma once

#include "effects.hpp"
#include "properties.hpp"

#include <functional>
#include <string>
#include <vector>

namespace underprop::assessment {

/// Where an item's demand comes from.
enum class Source {
  joist_sag,
  joist_hog,
  joist_shear,
  bearer_sag,
  bearer_hog,
  bearer_shear,
  ledger_sag,
  ledger_hog,
  ledger_shear,
  boards_bending,
  boards_shear,
  crossing,        ///< compression in a crossing (link or support under a joist)
  crossing_lift,   ///< tension in a two-way crossing
  prop,            ///< force in a support of a bearer, or in a ledger fixing
  ground_support,  ///< reaction of a Deck::supports entry
  ground_wall      ///< force in a wall crossing
};

struct Item {
  Source source = Source::joist_sag;
  int index = 0;  ///< of the line, crossing, prop, support
  /// What its rule took of where the loads stand; where it differs, resistances do.
  double variant = 0.0;
  int section = -1;          ///< of a line, LineRules::sections; -1: all of it
  std::vector<int> mean_of;  ///< props whose mean force it is, with its own; none: its own alone
  standards::Purpose purpose = standards::Purpose::strength;
  std::string piece;
  standards::CheckKind kind = standards::CheckKind::bending;
  std::string check;  ///< its name
  /// Demand in N or N mm.
  std::function<standards::Check(double, const standards::Combination&)> judge;
  std::function<Point(double)> place;  ///< of a coordinate along the piece
  std::function<std::string(double)> where;
};

/// All items of a deck. `self_weight_moments`: per joist, characteristic, for joists that were loaded
/// before their sister came. `with_load`: false: of the deck without its loads.
std::vector<Item> items(const deck::Deck& deck, const model::Model& model, const Timbers& timbers,
                        const standards::Standard& standard,
                        const std::vector<double>& self_weight_moments, bool braced,
                        bool with_load);

}  // namespace underprop::assessment
