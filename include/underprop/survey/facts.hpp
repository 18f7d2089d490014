// The table of fact kinds: what is assumed where somebody does not know, why, and how to find it out.
//
// The table is data/facts.json. Each kind of fact has a cautious, a likely and a favourable value for
// each standard; `settle` (deck.hpp) uses them. Rules are the single numbers that settling itself
// needs, such as how far decay counts beyond a soft spot.
#pragma once

#include "underprop/base/citation.hpp"
#include "underprop/survey/deck.hpp"

#include <array>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace underprop::survey {

enum class FactQuantity {
  length,
  force,
  word,
  yes_or_no,
  count,
  slope,
  share,
  kg_per_litre,
  kg_per_m2,
  m2_per_person
};

/// One value of the table. `number`: mm for lengths, N for forces, 1 or 0 for yes or no, rise over run for slopes,
/// else in the quantity's own unit; 0 for words.
struct FactDefault {
  std::string text;
  double number = 0.0;
};

struct FactKind {
  std::string kind;  ///< "joists/timber"
  std::string what;  ///< in words: "strength class of the joists"
  FactQuantity quantity = FactQuantity::word;
  bool smaller_is_worse = false;  ///< which end of a range is the cautious one
  /// [standard][reading], in the order of the enumerations.
  std::array<std::array<FactDefault, 3>, 2> values;
  std::string reason;
  Citation source;
  std::string find_out;  ///< with a tape, a level, a screwdriver or a spade
  int effort_minutes = 0;
  bool must_see = false;  ///< "carries" requires it where the load reaches

  [[nodiscard]] const FactDefault& value(StandardId standard, Reading reading) const {
    return values[static_cast<std::size_t>(standard)][static_cast<std::size_t>(reading)];
  }
};

struct SettlingRule {
  std::string rule;  ///< "decay/margin"
  FactQuantity quantity = FactQuantity::length;
  double number = 0.0;  ///< as in FactDefault
  std::string reason;
  Citation source;
};

/// Read once from the embedded data. Throws std::logic_error if they are broken: a build fault.
[[nodiscard]] const std::vector<FactKind>& fact_kinds();
[[nodiscard]] const std::vector<SettlingRule>& settling_rules();
/// Throws std::logic_error for a key the table does not have.
[[nodiscard]] const FactKind& fact_kind(std::string_view kind);
[[nodiscard]] bool has_fact_kind(std::string_view kind);
[[nodiscard]] const SettlingRule& settling_rule(std::string_view rule);

/// A fact in words: what it is (FactKind::what) and, where there are several, of which piece or load:
/// "depth of the joists (K)".
[[nodiscard]] std::string fact_words(const Survey& survey, const std::string& field,
                                     const std::string& what);

// --- names of pieces ---------------------------------------------------------------------------------

enum class PieceKind { joist, bearer, ledger, rim, blocking, support, wall };

/// The single pieces of a survey in the order of settling: joists "J1" and so on, bearers, ledgers,
/// rims, blocking, supports, walls. Depends on no fact.
struct PieceName {
  std::string id;
  std::string group;  ///< the name in the survey; equal to id for pieces recorded singly
  PieceKind kind = PieceKind::joist;
  bool timber = true;  ///< false: a wall, or a support without a post
};
[[nodiscard]] std::vector<PieceName> piece_names(const Survey& survey);

/// Pieces that have no place: positions outside the outline, supports beyond what they carry. Each
/// one sentence; `settle` leaves them out and repeats these among the deck's assumptions.
[[nodiscard]] std::vector<std::string> pieces_without_place(const Survey& survey);

/// Why a condition makes no sense for the piece it names (which may be a group); "" if it does. A
/// reader must refuse a condition with a reason: `settle` throws std::logic_error for it.
[[nodiscard]] std::string why_not(const Survey& survey, const Condition& condition);

}  // namespace underprop::survey
