// The single pieces of a survey by name, and what has no place.
#pragma once

#include "underprop/record/survey.hpp"

#include <string>
#include <vector>

namespace underprop::deck {

enum class PieceKind { joist, bearer, ledger, rim, blocking, support, wall };

/// The single pieces of a survey in the order of resolving: joists "J1" and so on, bearers, ledgers,
/// rims, blocking, supports, walls. Depends on no fact.
struct PieceName {
  std::string id;
  std::string group;  ///< the name in the survey; equal to id for pieces recorded singly
  PieceKind kind = PieceKind::joist;
  bool timber = true;  ///< false: a wall, or a support without a post
};
[[nodiscard]] std::vector<PieceName> piece_names(const record::Survey& survey);

/// Pieces that have no place: positions outside the outline, supports beyond what they carry. Each
/// one sentence; `resolve` leaves them out and repeats these among the deck's assumptions.
[[nodiscard]] std::vector<std::string> pieces_without_place(const record::Survey& survey);

/// Why a condition makes no sense for the piece it names (which may be a group); "" if it does. A
/// reader must refuse a condition with a reason: `resolve` throws std::logic_error for it.
[[nodiscard]] std::string why_not(const record::Survey& survey, const record::Condition& condition);

}  // namespace underprop::deck
