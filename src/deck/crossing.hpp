// What carries what in a resolved deck, and how the pieces of a survey lie in plan.
#pragma once

#include "layout.hpp"

#include "underprop/deck/deck.hpp"

#include <functional>
#include <optional>
#include <string>

namespace underprop::deck {

/// Held by fixings, not only by what it lies on.
[[nodiscard]] constexpr bool is_fastened(record::Hold hold) {
  return hold != record::Hold::resting && hold != record::Hold::free;
}

/// The joist lies on the bearer.
[[nodiscard]] bool lies_on(const Deck& deck, const Joist& joist, const Bearer& bearer);

/// Does anything carry the joist, or any fixing hold it, between `from` and `to` along it?
[[nodiscard]] bool carried_within(const Deck& deck, const Joist& joist, Length from, Length to);

/// The pieces of a survey in plan. Breadths of joists and tops of supports are left 0: who meets whom
/// does not depend on them. `ply_breadth` gives that of a bearer of the survey, which may be unknown.
[[nodiscard]] PiecesInPlan in_plan(const record::Survey& survey, const Layout& layout,
                                   const std::function<Length(std::size_t)>& ply_breadth);

/// The carrier that this end of a joist was meant to reach and does not: the nearest of those that it stops
/// short of, where nothing else carries the joist within MeetingLimits::near of the end; or one that it
/// passes although it should end there.
[[nodiscard]] std::optional<Meeting> missed_at(const Strip& line, std::size_t joist, PieceEnd end,
                                               const Meetings& meetings,
                                               const MeetingLimits& limits);
/// Does anything carry the joist, or hold it by a side, no farther than MeetingLimits::near from this end?
[[nodiscard]] bool carried_at(const Strip& line, std::size_t joist, PieceEnd end,
                              const std::vector<Meeting>& met, const MeetingLimits& limits);

/// "ends 23 mm short of bearer B1", "passes ledger L by 30 mm".
[[nodiscard]] std::string miss_words(const Meeting& miss, const std::string& carrier,
                                     const std::string& distance);

}  // namespace underprop::deck
