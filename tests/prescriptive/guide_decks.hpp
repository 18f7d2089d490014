// Whole decks built from the rows of the published prescriptive tables (data/north_america/prescriptive.json:
// DCA 6, IRC R507, Wisconsin UDC Appendix B), recorded in full, and the same decks with one rule of the
// guide broken by half. Inches. What no table says (site, boards, bracing members) is invented and common
// practice, no source.
#pragma once

#include "support/decks.hpp"

#include <functional>
#include <string>
#include <vector>

namespace underprop::test::prescriptive {

/// What one deck takes from the tables.
struct GuideDeck {
  std::string family;   ///< "joists", "beams", "posts and footings", "ledger fixings"
  std::string row;      ///< the row that it stands for
  std::string species;  ///< of all members
  bool hung = true;     ///< from a ledger; false: on two beams
  // Joists.
  int joist_nominal = 8;  ///< 2x6 to 2x12
  double joist_spacing = 16, joist_span = 0, joist_overhang = 0;
  // Beams.
  int plies = 2, beam_nominal = 8;
  double ply_breadth = 1.5;
  double beam_span = 0, beam_overhang = 6;
  int bays = 1;  ///< spans of the beam; spliced over its inner posts
  // Posts and footings.
  double post_height = 24;
  double footing = 16, footing_thickness = 8;
  // The ledger's fixings.
  std::string fixing = "bolt";
  double band = 1.5, fixing_spacing = 24;
};

/// Every row of the tables in combinations that they allow.
[[nodiscard]] std::vector<GuideDeck> joist_decks();
[[nodiscard]] std::vector<GuideDeck> beam_decks();
[[nodiscard]] std::vector<GuideDeck> footing_decks();
[[nodiscard]] std::vector<GuideDeck> ledger_decks();
[[nodiscard]] std::vector<GuideDeck> all_decks();

enum class Loaded { no, planter };
/// The deck with the longest beam that the tables allow it, and the footings that go with that.
[[nodiscard]] GuideDeck with_longest_beam(GuideDeck deck);
/// The deck's full record, with nothing on it or with 40 kg on 16 x 16 in. in its middle.
[[nodiscard]] Json survey_of(const GuideDeck& deck, Loaded loaded);

/// One rule of the guide broken by half.
struct Fault {
  std::string what;
  std::function<void(GuideDeck&)> choose;  ///< before the deck is written down; may be empty
  std::function<void(Json&)> write;        ///< in its record; may be empty
  bool hung_only = false;
  /// Fails as a deck; a light load far from it changes nothing there, and it is told as ordinary use.
  bool told_beside = false;
};
[[nodiscard]] std::vector<Fault> faults();

}  // namespace underprop::test::prescriptive
