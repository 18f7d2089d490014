// Who meets whom: what carries each joist and each bearer, where, and over what length of wood.
//
// The one answer that reader, frame, checks, stability and drawings share. It follows from places and
// breadths alone: no strength, no fixing, nothing assumed. Plan coordinates in mm from corner A, as in
// base/geometry.hpp; "along" is along the carried piece. All functions are pure and throw nothing but
// std::bad_alloc unless they say so.
#pragma once

#include "underprop/base/geometry.hpp"

#include <cstddef>
#include <vector>

namespace underprop::deck {

// --- what is asked: pieces in plan --------------------------------------------------------------------

/// A straight piece: its middle line, and how broad all its plies are together.
struct Strip {
  Axis direction = Axis::x;
  Length position;  ///< across
  Length from, to;  ///< along, from < to
  Length breadth;   ///< not read of joists
};
struct BearerInPlan : Strip {
  bool flush = false;  ///< joists are framed into its sides; false: they lie on it
};
struct WallInPlan {
  Point a, b;    ///< middle line
  Length width;  ///< at the top
};
/// Something short that stands below one bearer or one joist, by name.
struct SupportInPlan {
  Point at;
  int bearer = -1, joist = -1;  ///< index into PiecesInPlan; one of them is -1
  Length size_x, size_y;        ///< of its top
};
struct PiecesInPlan {
  std::vector<Strip> joists;
  std::vector<BearerInPlan> bearers;
  /// A ledger's place is its middle line or either face, as people measure it: usually the edge of the
  /// deck. So it counts as reaching its whole breadth to both sides.
  std::vector<Strip> ledgers;
  std::vector<WallInPlan> walls;
  std::vector<SupportInPlan> supports;
};

/// data/facts.json, rules "meeting/...". mm, not negative.
struct MeetingLimits {
  Length tape;      ///< a middle line this far beyond the end of what crosses it still crosses it
  Length hung_gap;  ///< an end this far from the side of what it is framed into still meets it
  Length near;      ///< an end that stops no farther than this short of a carrier just misses it
};
/// As the data have them. Throws std::logic_error if these are broken: a build fault.
[[nodiscard]] const MeetingLimits& meeting_limits();

// --- what is answered -------------------------------------------------------------------------------

enum class MeetingKind {
  joist_on_bearer,    ///< lies on it
  joist_into_bearer,  ///< its end is framed into the side of a flush bearer
  joist_on_ledger,    ///< its end hangs on a ledger, or rests on it
  joist_on_wall,
  joist_on_support,
  bearer_on_support
};
enum class PieceEnd { start, end };

struct Meeting {
  MeetingKind kind = MeetingKind::joist_on_bearer;
  std::size_t piece = 0;    ///< what is carried: a joist, or (bearer_on_support) a bearer
  std::size_t carrier = 0;  ///< a bearer, ledger, wall or support
  /// The end framed in or hung (joist_into_bearer, joist_on_ledger); of a miss the end that misses. Not
  /// read of pieces that lie on their carrier.
  PieceEnd end = PieceEnd::start;
  Length place;  ///< of the carrier's middle, along; may lie beyond the piece's end
  /// The stretch of the piece that lies over the carrier: where the extents of the two overlap. Both
  /// ends are the same, at the piece's end, where it only stands before the carrier's side.
  Interval seat;
  Length
      overlap;  ///< how long that is: the carrier's whole breadth to the last digit if no end cuts it
  /// Of a miss: how far the end stops short of the carrier's nearer side, > 0 (0: exactly at it, with
  /// nothing on it); or < 0, how far it passes the farther side of what it should be framed into. Of a
  /// meeting at a side the gap that is left, 0 if none; of any other 0.
  Length miss;
};
/// Is the piece's end framed into or hung on the carrier's side, rather than the piece lying on it?
[[nodiscard]] constexpr bool at_side(MeetingKind kind) {
  return kind == MeetingKind::joist_into_bearer || kind == MeetingKind::joist_on_ledger;
}

struct Meetings {
  std::vector<Meeting> met;  ///< by kind, then carrier, then piece
  std::vector<Meeting>
      missed;  ///< pairs that would meet if an end lay a little elsewhere; same order
};

/// Two pieces cross if they run square to each other (walls: at any slant) and the carried one's middle
/// line passes within the length of the carrier, give or take MeetingLimits::tape. Then it
///  - lies on a bearer or wall if their extents overlap, by whatever length: that is its seat;
///  - is framed into a flush bearer or hung on a ledger if one end lies within the carrier's sides, give
///    or take MeetingLimits::hung_gap;
///  - else misses it, if it stops within MeetingLimits::near short of it, or passes what it should end at.
/// A support meets what it stands below. In mirrored pieces the same meet, with seats mirrored; in
/// another order the same meet, renumbered.
[[nodiscard]] Meetings meet(const PiecesInPlan& pieces, const MeetingLimits& limits);

/// What this end of the joist is framed into or hung on: those of `met`, in their order.
[[nodiscard]] std::vector<Meeting> framed_at(const std::vector<Meeting>& met, std::size_t joist,
                                             PieceEnd end);

/// How far boards reach beyond the joists that carry them.
struct BoardLine {
  std::vector<std::size_t>
      joists;             ///< those that it crosses, in order of their places; one of a pair
                          ///< that stands side by side
  Length before, beyond;  ///< free length at the low and at the high end; all of it if no joist
};
/// A board along `across`, its middle line at `at` along the joists, over `reach` (along `across`). Joists
/// run square to it; one carries the board if `at` lies within its ends and `counts[joist]`. Joists
/// closer than `pair` count as one line; `tape` as above.
[[nodiscard]] BoardLine board_line(const std::vector<Strip>& joists,
                                   const std::vector<bool>& counts, Length at, Interval reach,
                                   Length pair, Length tape);

}  // namespace underprop::deck
