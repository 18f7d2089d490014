// Where on the deck the load can stand, which way round, and how much the deck takes as it is.
//
// Every place is judged by the assessment itself (assessment/prepared.hpp): a place that passes has
// passed every safety check in every bound at cautious facts, and every service check at likely ones.
#pragma once

#include "underprop/assessment/prepared.hpp"
#include "underprop/deck/pieces.hpp"
#include "underprop/record/survey.hpp"
#include "underprop/standards/standard.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace underprop::placement {

struct Spot {
  Point centre;               ///< of the load, in plan
  double rotation_deg = 0.0;  ///< as in the survey, from +x towards +y
  double utilisation = 0.0;   ///< worst safety check; infinity: loose
  bool at_least = false;      ///< done with at the first check that failed: it may be worse
  double service = 0.0;       ///< worst service check; 0 where safety fails
  bool passes = false;        ///< all checks, safety and service
  bool refers = false;        ///< the load path there meets something that may not be judged
  std::string why;            ///< it refers: the first reason; then no number is told
  std::string piece, check;   ///< of the utilisation
};

/// What the deck takes where the load is wanted, each alone; none: not even an empty one passes, or
/// there is no such thing (a load that holds no water, or no people).
struct Capacity {
  std::optional<double> water_l;       ///< litres of contents, with the recorded people
  std::optional<bool> water_full;      ///< the recorded contents and people pass
  std::optional<int> people;           ///< with the recorded contents
  std::optional<double> pressure_kPa;  ///< uniform, lasting, on the footprint, everything included
  std::string water_limited_by, people_limited_by, pressure_limited_by;  ///< "B1, bending"
};

struct Placement {
  std::string why_not;  ///< why no place was looked at; empty: they were
  Length step;          ///< between neighbouring places
  Length service_gap;   ///< kept from obstacles
  std::vector<Spot> spots;
  Spot wanted;
  /// Least utilisation among those that pass; if none does, the least overloaded of the few that were
  /// looked at in full; none if all refer.
  std::optional<Spot> best;
  std::optional<Spot> nearest_passing;  ///< to the wanted place
  Capacity capacity;
  std::size_t passing = 0;
  Point half_size;  ///< half the load's extent in x and y, not turned further
};

struct Wishes {
  std::optional<Length> step;  ///< none: as in data/placement.json
  bool turned = true;          ///< also turned by a right angle
  bool capacity = true;
};

/// True: go on. Called now and then with the share done, 0 to 1; never twice at a time, but from any thread.
using Progress = std::function<bool(double)>;

/// The first load of the survey is moved; others stay where they are. Runs on every core; the answer does
/// not depend on how many there are.
[[nodiscard]] Placement place(const record::Survey& survey, const standards::Standard& standard,
                              const Wishes& wishes = {}, const Progress& progress = {});

/// The same load moved in plan.
[[nodiscard]] deck::Load moved(const deck::Load& load, Point by);

/// Does the load stand on the deck, clear of obstacles by its service gap, and beside the other loads?
[[nodiscard]] bool fits(const deck::Deck& deck, const deck::Load& load,
                        const std::vector<deck::Load>& others);

}  // namespace underprop::placement
