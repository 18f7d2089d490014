#include "crossing.hpp"
#include "resolve_parts.hpp"

#include "underprop/base/format.hpp"
#include "underprop/base/geometry.hpp"
#include "underprop/record/facts.hpp"

#include <algorithm>

namespace underprop::deck {
namespace {

Strip strip_of(const PieceLine& line, Length breadth) {
  return {line.direction, line.position, line.from, line.to, breadth};
}

template <class Piece>
Strip strip_of(const Piece& piece, Length breadth) {
  return {piece.direction, piece.position, piece.from, piece.to, breadth};
}

std::size_t index_of(const Deck& deck, const Joist& joist) {
  return static_cast<std::size_t>(&joist - deck.joists.data());
}

}  // namespace

PiecesInPlan in_plan(const Deck& deck) {
  PiecesInPlan pieces;
  for (const Joist& j : deck.joists) pieces.joists.push_back(strip_of(j, j.breadth));
  for (const Bearer& b : deck.bearers) {
    pieces.bearers.push_back({strip_of(b, static_cast<double>(b.plies) * b.ply_breadth), b.flush});
  }
  for (const Ledger& l : deck.ledgers) pieces.ledgers.push_back(strip_of(l, l.breadth));
  for (const Wall& w : deck.walls) pieces.walls.push_back({w.a, w.b, w.width});
  for (const Support& s : deck.supports) {
    pieces.supports.push_back({s.at, s.bearer, s.joist, s.post ? s.post->breadth : s.footing.width,
                               s.post ? s.post->breadth : s.footing.length});
  }
  return pieces;
}

PiecesInPlan in_plan(const record::Survey& survey, const Layout& layout,
                     const std::function<Length(std::size_t)>& ply_breadth) {
  PiecesInPlan pieces;
  for (const PieceLine& line : layout.joists) pieces.joists.push_back(strip_of(line, Length()));
  for (const PieceLine& line : layout.bearers) {
    const auto source = static_cast<std::size_t>(line.source);
    const record::Bearer& bearer = survey.deck.bearers[source];
    pieces.bearers.push_back(
        {strip_of(line, static_cast<double>(bearer.plies) * ply_breadth(source)),
         bearer.joists == record::JoistsSit::flush});
  }
  for (const PieceLine& line : layout.ledgers) {
    pieces.ledgers.push_back(
        strip_of(line, survey.deck.ledgers[static_cast<std::size_t>(line.source)].breadth));
  }
  for (const record::Wall& w : survey.deck.walls) pieces.walls.push_back({w.from, w.to, w.width});
  for (const SupportPlace& s : layout.supports) {
    pieces.supports.push_back({s.at, s.bearer, s.joist, Length(), Length()});
  }
  return pieces;
}

void find_meetings(Deck& deck) { deck.meetings = meet(in_plan(deck), meeting_limits()).met; }

bool carried_at(const Strip& line, std::size_t joist, PieceEnd end, const std::vector<Meeting>& met,
                const MeetingLimits& limits) {
  return std::ranges::any_of(met, [&](const Meeting& m) {
    if (m.kind == MeetingKind::bearer_on_support || m.piece != joist) return false;
    if (at_side(m.kind)) return m.end == end;
    return (end == PieceEnd::start ? m.seat.low - line.from : line.to - m.seat.high) <= limits.near;
  });
}

std::optional<Meeting> missed_at(const Strip& line, std::size_t joist, PieceEnd end,
                                 const Meetings& meetings, const MeetingLimits& limits) {
  std::optional<Meeting> missed;
  const bool carried = carried_at(line, joist, end, meetings.met, limits);
  for (const Meeting& m : meetings.missed) {
    if (m.piece != joist || m.end != end) continue;
    if (carried && m.miss >= mm(0.0)) continue;
    if (!missed || abs(m.miss) < abs(missed->miss)) missed = m;
  }
  return missed;
}

std::string miss_words(const Meeting& miss, const std::string& carrier,
                       const std::string& distance) {
  if (miss.miss > mm(0.0)) return "ends " + distance + " short of " + carrier;
  if (miss.miss < mm(0.0)) return "passes " + carrier + " by " + distance;
  return "ends just where " + carrier + " begins";
}

void resolve_meetings(const FactTaker& facts, Deck& deck) {
  const PiecesInPlan pieces = in_plan(deck);
  const MeetingLimits& limits = meeting_limits();
  Meetings found = meet(pieces, limits);
  for (std::size_t j = 0; j < deck.joists.size(); ++j) {
    for (const PieceEnd end : {PieceEnd::start, PieceEnd::end}) {
      const auto missed = missed_at(pieces.joists[j], j, end, found, limits);
      if (!missed) continue;
      const std::size_t c = missed->carrier;
      const std::string carrier =
          missed->kind == MeetingKind::joist_on_wall     ? "wall " + deck.walls[c].id
          : missed->kind == MeetingKind::joist_on_ledger ? "ledger " + deck.ledgers[c].id
                                                         : "bearer " + deck.bearers[c].id;
      deck.assumptions.push_back(
          deck.joists[j].id + " " +
          miss_words(*missed, carrier, format_length(abs(missed->miss), facts.units())) +
          ": it does not carry the joist");
    }
  }
  deck.meetings = std::move(found.met);
}

bool lies_on(const Deck& deck, const Joist& joist, const Bearer& bearer) {
  const std::size_t j = index_of(deck, joist);
  const auto b = static_cast<std::size_t>(&bearer - deck.bearers.data());
  return std::ranges::any_of(deck.meetings, [&](const Meeting& m) {
    return m.kind == MeetingKind::joist_on_bearer && m.piece == j && m.carrier == b;
  });
}

bool carried_within(const Deck& deck, const Joist& joist, Length from, Length to) {
  const Length low = joist.from + from, high = joist.from + to;
  const auto hits = [&](Length a, Length b) { return low <= b && a <= high; };
  const Length reach = mm(record::resolving_rule("softening/fixing_reach").number);
  if (is_fastened(joist.start.held) && hits(joist.from - reach, joist.from + reach)) return true;
  if (is_fastened(joist.end.held) && hits(joist.to - reach, joist.to + reach)) return true;
  const std::size_t j = index_of(deck, joist);
  return std::ranges::any_of(deck.meetings, [&](const Meeting& m) {
    return m.kind != MeetingKind::bearer_on_support && m.piece == j &&
           hits(m.seat.low, m.seat.high);
  });
}

}  // namespace underprop::deck
