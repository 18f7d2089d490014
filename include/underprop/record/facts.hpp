// The table of fact kinds: what is assumed where somebody does not know, why, and how to find it out.
//
// The table is data/facts.json. Each kind of fact has a cautious, a likely and a favourable value for
// each standard; `resolve` (deck.hpp) uses them. Rules are the single numbers that resolving itself
// needs, such as how far decay counts beyond a soft spot.
#pragma once

#include "underprop/base/citation.hpp"
#include "underprop/record/survey.hpp"

#include <array>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace underprop::record {

/// Which end of what nobody knows is taken.
enum class Reading { cautious, likely, favourable };

enum class FactQuantity {
  length,
  force,
  pressure,
  word,
  yes_or_no,
  count,
  slope,
  share,
  kg_per_litre,
  kg_per_m2,
  m2_per_person
};

/// What somebody does once on site, whatever number of facts it settles. In the table's order.
enum class Act {
  ask_household,
  look_at_load,
  probe,
  look_underneath,
  look_at_boards,
  walk_round,
  dig_beside_footing,
  dig_beside_wall,
  look_behind_ledger,
  ask_authority,
  ask_maker,
  lift_covers
};
constexpr std::size_t number_of_acts = 12;

struct ActOnSite {
  Act act = Act::probe;
  std::string word;  ///< "probe"
  std::string what;  ///< in words: "one round with a screwdriver: ..."; see `act_in_words`
  int minutes = 0;
  Citation source;
};

/// One value of the table. `number`: mm for lengths, N for forces, N/mm2 for pressures, 1 or 0 for yes or no, rise over run for slopes,
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
  std::string find_out;            ///< with a tape, a level, a screwdriver or a spade
  Act act = Act::look_underneath;  ///< what settles it, and others with it
  int effort_minutes = 0;
  bool must_see = false;  ///< "carries" requires it where the load reaches

  [[nodiscard]] const FactDefault& value(StandardId standard, Reading reading) const {
    return values[static_cast<std::size_t>(standard)][static_cast<std::size_t>(reading)];
  }
};

struct ResolvingRule {
  std::string rule;  ///< "decay/margin"
  FactQuantity quantity = FactQuantity::length;
  double number = 0.0;  ///< as in FactDefault
  std::string reason;
  Citation source;
};

/// What a species is where nobody knows its grade: timbers of the tables.
struct SpeciesRow {
  std::string species;
  StandardId standard = StandardId::eurocode_uk;
  std::array<std::string, 3> timbers;  ///< by reading
  std::string large_cautious;          ///< the cautious one of posts and timbers
  std::string reason;
  Citation source;
};

/// Read once from the embedded data. Throws std::logic_error if they are broken: a build fault.
[[nodiscard]] const std::vector<FactKind>& fact_kinds();
[[nodiscard]] const std::vector<ResolvingRule>& resolving_rules();
/// The species of that name, spelt as in the table; nullptr if it is none.
[[nodiscard]] const SpeciesRow* species_row(StandardId standard, std::string_view name);
[[nodiscard]] const ActOnSite& act_on_site(Act act);
/// Throws std::logic_error for a key the table does not have.
[[nodiscard]] const FactKind& fact_kind(std::string_view kind);
[[nodiscard]] bool has_fact_kind(std::string_view kind);
[[nodiscard]] const ResolvingRule& resolving_rule(std::string_view rule);

/// A fact in words: what it is (FactKind::what) and, where there are several, of which piece or load:
/// "depth of the joists (K)".
/// `also`: like pieces that it holds for too: "width of the footings across x (P1, P2 and P3)".
[[nodiscard]] std::string fact_words(const Survey& survey, const std::string& field,
                                     const std::string& what,
                                     const std::vector<std::string>& also = {});

}  // namespace underprop::record
