// Works: what can be done to a deck, what each changes in its record, and how it is told to a builder.
//
// A Work is plain data. `apply` writes it into a Survey, where the same assessment that judged the
// deck as found judges it again; `costing` takes off its quantities.
#pragma once

#include "underprop/deck/deck.hpp"

#include <stdexcept>
#include <string>
#include <vector>

namespace underprop::works {

enum class Measure {
  pack,            ///< pack or re-wedge an existing support tight
  move_load,       ///< move or turn the load
  pad,             ///< new pad under a joist or a bearer
  sleeper,         ///< strip or sleeper under three or more joists on close pads
  bearer_on_pads,  ///< new bearer on pads or posts, each joist packed
  sister,          ///< full-length second joist alongside
  added_joist,     ///< new joist between two joists
  blocking,        ///< row of blocking: holds joists upright, never strength
  hangers,         ///< hangers at the named joist ends
  bigger_pad,      ///< an existing pad replaced by a larger one
  brace,           ///< a resisting line in one direction
  ledger_bolts     ///< bolts with washers through a ledger and the wood behind it
};

/// Which members a measure reads; the rest stay as they are.
///   pack            pieces: supports (ids or groups), walls, or a bearer or joist for all below it
///   move_load       load, load_at, load_rotation_deg
///   pad             pieces: the bearer or joist above (one for all places, or one for each), places,
///                   pad_*, post_height, timber of the post
///   sleeper,        direction, position, from, to, breadth, depth, plies, timber; places and pad_* of
///   bearer_on_pads  the pads below it, post_height
///   sister          pieces: joists; breadth, depth, timber
///   added_joist     direction, position, from, to, breadth, depth, timber; fasteners: nails of hangers
///   blocking        pieces: joist groups (or joists of them); position along them; breadth, depth,
///                   timber for the list only
///   hangers         pieces: joists; places: one near each end meant, in the same order, or none for
///                   both ends of each; fasteners
///   bigger_pad      pieces: supports; pad_*
///   brace           direction, pieces: where (a support group or side); places: one for each brace;
///                   breadth, depth, timber; fasteners: bolts at each end; from, to: its run in plan
///   ledger_bolts    pieces: one recorded ledger; places: one for each bolt; bolt_diameter, bolt_spacing
/// New posts have the section of data/building.json. All new timber is recorded and probed.
struct Work {
  std::string id;  ///< stable and unique within a plan: "pad-B1-1250"
  Measure measure = Measure::pad;
  std::vector<std::string> pieces;  ///< joists, bearer, supports it concerns
  std::vector<Point> places;        ///< of pads, packers, hangers: in plan from corner A
  Axis direction = Axis::x;
  Length position, from, to;  ///< of a line: bearer, sleeper, joist, blocking
  Length breadth, depth;      ///< section of new timber (one ply)
  int plies = 1;
  std::string timber;
  Length pad_width, pad_length, pad_thickness, pad_depth;
  Length post_height;  ///< 0: none, the bearer stands on the pad
  int fasteners = 0;   ///< nails in a hanger, bolts of a brace
  Length bolt_diameter;
  Length bolt_spacing;  ///< along the ledger, at most
  Point load_at;        ///< move_load
  double load_rotation_deg = 0.0;
  int load = 0;                     ///< index of the load moved
  bool rewedge_after_fill = false;  ///< wedges re-driven after the first fill

  /// By all that it says, the id first.
  auto operator<=>(const Work&) const = default;
};

/// A work that cannot be written into a record.
struct Impossible : std::invalid_argument {
  using std::invalid_argument::invalid_argument;
};

/// The survey with the work done. Pieces it adds are marked `added`: they join the settled deck.
/// Throws Impossible if the work names a piece that is not there, a place beyond the ends
/// of its piece, or a size that is not positive.
/// New pieces are named N1P1, N1B, N1J1, N1K (pads, bearer, joists, blocking of the first such work),
/// with the next number for the next work; numbers that the survey uses already are passed over.
/// Where only some supports of a group change, every support of the group becomes a group of its own:
/// P2 is then P2.1 (group "P2."). Works that name P2 still find it.
record::Survey apply(const record::Survey& survey, const Work& work);
record::Survey apply(const record::Survey& survey, const std::vector<Work>& works);

/// The id a support had in the record before works split its group: "P2.1" is "P2"; others unchanged.
std::string recorded_name(const std::string& id);

/// One sentence for a builder, with positions by tape from corner A, in the deck's units:
/// "New pad 450 x 450 x 150 mm under bearer B1, centre 1250 mm from A along x and 2900 mm along y".
std::string describe(const Work& work, const record::Survey& survey);

/// Steps in building order with the cautions that belong to each (drain, services, holes 1-3-5 then
/// 2-4-6, 7 days before packing, 28 before full, fill by thirds, re-pack after a month ...).
struct BuildStep {
  std::string text;
  std::vector<std::string> cautions;
};
std::vector<BuildStep> order_of_work(const std::vector<Work>& works, const record::Survey& survey);

/// Cutting list: new timber by piece, largest section first, then by length. Bearers longer than the
/// longest stock are spliced over a pad. Throws Impossible as apply does.
struct Cut {
  std::string section;  ///< "47 x 195 C24"
  Length breadth, depth, length;
  std::string timber;
  int count = 0;
  std::string use;
};
std::vector<Cut> cutting_list(const std::vector<Work>& works, const record::Survey& survey);

}  // namespace underprop::works
