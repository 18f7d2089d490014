#include "underprop/deck/meeting.hpp"

#include "underprop/record/facts.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace underprop::deck {
namespace {

// Rounding in sums of coordinates, mm: less is no overlap.
constexpr double of_sums = 1e-6;
// A wall whose ends are no farther apart than this across the joists runs along them, mm.
constexpr double alongside = 0.5;

class Finder {
public:
  Finder(const PiecesInPlan& pieces, const MeetingLimits& limits)
      : pieces_(pieces), limits_(limits) {}

  Meetings find() {
    for (std::size_t b = 0; b < pieces_.bearers.size(); ++b) {
      const BearerInPlan& bearer = pieces_.bearers[b];
      if (!bearer.flush) on_strip(MeetingKind::joist_on_bearer, b, bearer, 0.5 * bearer.breadth);
    }
    for (std::size_t b = 0; b < pieces_.bearers.size(); ++b) {
      const BearerInPlan& bearer = pieces_.bearers[b];
      if (bearer.flush) on_strip(MeetingKind::joist_into_bearer, b, bearer, 0.5 * bearer.breadth);
    }
    for (std::size_t l = 0; l < pieces_.ledgers.size(); ++l) {
      on_strip(MeetingKind::joist_on_ledger, l, pieces_.ledgers[l], pieces_.ledgers[l].breadth);
    }
    for (std::size_t w = 0; w < pieces_.walls.size(); ++w) on_wall(w);
    for (std::size_t s = 0; s < pieces_.supports.size(); ++s) on_support(s, false);
    for (std::size_t s = 0; s < pieces_.supports.size(); ++s) on_support(s, true);
    return std::move(found_);
  }

private:
  void on_strip(MeetingKind kind, std::size_t carrier, const Strip& strip, Length half) {
    for (std::size_t j = 0; j < pieces_.joists.size(); ++j) {
      const Strip& joist = pieces_.joists[j];
      if (joist.direction == strip.direction) continue;
      if (joist.position < strip.from - limits_.tape) continue;
      if (joist.position > strip.to + limits_.tape) continue;
      Meeting meeting;
      meeting.kind = kind;
      meeting.piece = j;
      meeting.carrier = carrier;
      meeting.place = strip.position;
      if (at_side(kind)) {
        frame_in(joist, meeting, half);
      } else {
        lay(joist, meeting, half);
      }
    }
  }

  void on_wall(std::size_t w) {
    const WallInPlan& wall = pieces_.walls[w];
    for (std::size_t j = 0; j < pieces_.joists.size(); ++j) {
      const Strip& joist = pieces_.joists[j];
      const Axis axis = joist.direction;
      const Length sa = along(wall.a, axis), sb = along(wall.b, axis);
      const Length ta = along(wall.a, other(axis)), tb = along(wall.b, other(axis));
      const Length run = tb - ta;
      if (abs(run) < mm(alongside)) continue;
      if (joist.position < min(ta, tb) - limits_.tape) continue;
      if (joist.position > max(ta, tb) + limits_.tape) continue;
      Meeting meeting;
      meeting.kind = MeetingKind::joist_on_wall;
      meeting.piece = j;
      meeting.carrier = w;
      meeting.place = sa + (sb - sa) * (joist.position - ta) / run;
      const double slant = std::hypot((sb - sa).value(), run.value()) / std::abs(run.value());
      lay(joist, meeting, 0.5 * slant * wall.width);
    }
  }

  void on_support(std::size_t s, bool of_bearers) {
    const SupportInPlan& support = pieces_.supports[s];
    const int above = of_bearers ? support.bearer : support.joist;
    if (above < 0) return;
    const auto index = static_cast<std::size_t>(above);
    const Strip& piece = of_bearers ? pieces_.bearers[index] : pieces_.joists[index];
    Meeting meeting;
    meeting.kind = of_bearers ? MeetingKind::bearer_on_support : MeetingKind::joist_on_support;
    meeting.piece = index;
    meeting.carrier = s;
    meeting.place = along(support.at, piece.direction);
    const Length half = 0.5 * (piece.direction == Axis::x ? support.size_x : support.size_y);
    find_seat(piece, meeting, half);
    found_.met.push_back(meeting);
  }

  // What of the piece lies within `half` of the carrier's middle; where nothing does, the nearer end.
  static void find_seat(const Strip& piece, Meeting& meeting, Length half) {
    const Length low = meeting.place - half, high = meeting.place + half;
    meeting.seat = {max(piece.from, low), min(piece.to, high)};
    const bool cut = low < piece.from || high > piece.to;
    meeting.overlap = cut ? max(meeting.seat.high - meeting.seat.low, mm(0.0)) : 2.0 * half;
    if (meeting.overlap > mm(of_sums)) return;
    meeting.overlap = mm(0.0);
    meeting.seat.low = meeting.seat.high =
        meeting.place < 0.5 * (piece.from + piece.to) ? piece.from : piece.to;
  }

  // How far the carrier's nearer side lies beyond an end.
  static Length beyond(const Strip& joist, PieceEnd end, Length middle, Length half) {
    return (end == PieceEnd::start ? joist.from - middle : middle - joist.to) - half;
  }
  static PieceEnd nearer_end(const Strip& joist, Length middle) {
    return abs(middle - joist.from) <= abs(middle - joist.to) ? PieceEnd::start : PieceEnd::end;
  }

  void lay(const Strip& joist, Meeting meeting, Length half) {
    find_seat(joist, meeting, half);
    meeting.end = nearer_end(joist, meeting.place);
    if (meeting.overlap > mm(0.0)) {
      found_.met.push_back(meeting);
      return;
    }
    meeting.miss = max(beyond(joist, meeting.end, meeting.place, half), mm(0.0));
    if (meeting.miss <= limits_.near) found_.missed.push_back(meeting);
  }

  void frame_in(const Strip& joist, Meeting meeting, Length half) {
    find_seat(joist, meeting, half);
    meeting.end = nearer_end(joist, meeting.place);
    const Length short_by = beyond(joist, meeting.end, meeting.place, half);
    const Length past = -1.0 * short_by - 2.0 * half;
    const Length gap = limits_.hung_gap + mm(of_sums);
    if (short_by <= gap && past <= gap) {
      meeting.miss = max(short_by, mm(0.0));
      found_.met.push_back(meeting);
      return;
    }
    meeting.miss = past > gap ? -1.0 * past : short_by;
    if (meeting.miss <= limits_.near) found_.missed.push_back(meeting);
  }

  const PiecesInPlan& pieces_;
  const MeetingLimits& limits_;
  Meetings found_;
};

}  // namespace

const MeetingLimits& meeting_limits() {
  static const MeetingLimits limits{mm(record::resolving_rule("meeting/tape").number),
                                    mm(record::resolving_rule("meeting/hung_gap").number),
                                    mm(record::resolving_rule("meeting/near").number)};
  return limits;
}

Meetings meet(const PiecesInPlan& pieces, const MeetingLimits& limits) {
  return Finder(pieces, limits).find();
}

std::vector<Meeting> framed_at(const std::vector<Meeting>& met, std::size_t joist, PieceEnd end) {
  std::vector<Meeting> found;
  std::ranges::copy_if(met, std::back_inserter(found), [&](const Meeting& meeting) {
    return at_side(meeting.kind) && meeting.piece == joist && meeting.end == end;
  });
  return found;
}

BoardLine board_line(const std::vector<Strip>& joists, const std::vector<bool>& counts, Length at,
                     Interval reach, Length pair, Length tape) {
  BoardLine line;
  for (std::size_t j = 0; j < joists.size(); ++j) {
    const Strip& joist = joists[j];
    if (!counts[j] || at < joist.from || at > joist.to) continue;
    if (joist.position < reach.low - tape || joist.position > reach.high + tape) continue;
    line.joists.push_back(j);
  }
  std::ranges::stable_sort(line.joists, {}, [&](std::size_t j) { return joists[j].position; });
  std::vector<std::size_t> kept;
  for (const std::size_t j : line.joists) {
    if (kept.empty() || joists[j].position - joists[kept.back()].position >= pair)
      kept.push_back(j);
  }
  line.joists = std::move(kept);
  const bool any = !line.joists.empty();
  line.before = (any ? joists[line.joists.front()].position : reach.high) - reach.low;
  line.beyond = reach.high - (any ? joists[line.joists.back()].position : reach.low);
  return line;
}

}  // namespace underprop::deck
