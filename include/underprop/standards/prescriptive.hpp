// Pieces of a deck as the published prescriptive tables see them: size, spacing, span. In ordinary use,
// people and no new heavy load, a piece that meets a row to the letter is deemed to satisfy.
//
// Lengths in mm. Each question answers with the row that covers the piece, or with nothing: no row does,
// or the piece differs from what the table assumes. Whether it is whole (no decay, notch, split, hole) is
// the caller's to know.
#pragma once

#include "underprop/standards/standard.hpp"

#include <optional>
#include <string>
#include <vector>

namespace underprop::standards {

struct DeemedToSatisfy {
  Citation table;
  std::string row;  ///< "Hem-Fir 2x8 at 16 in: 11 ft 1 in"
};

/// What the tables assume of the whole deck.
struct PrescriptiveBasis {
  Pressure people, snow;  ///< on the deck, characteristic
  Length boards;          ///< thickness of the boarding, for its weight
};
/// On two lines of carriers, hung or resting; everything else has no row.
struct PrescriptiveJoist {
  Timber timber;
  Length breadth, depth;
  Length spacing;     ///< the widest to a neighbour
  Length clear_span;  ///< between the faces of what carries it
  Length overhang;    ///< beyond the middle of its carrier, the longer one; 0: none
  Length seat;        ///< the shorter of its bearings
};
/// Under joists that come from one side only.
struct PrescriptiveBeam {
  Timber timber;
  int plies = 1;  ///< fixed together
  Length ply_breadth, depth;
  Length span;      ///< the longest, from middle to middle of its posts
  Length overhang;  ///< the longest beyond its last post
  Length joist_span, joist_overhang;
  Length seat;  ///< the shortest of its bearings
};
/// A post or its footing: what comes down on it.
struct PrescriptiveTributary {
  Length beam_span, beam_overhang, joist_span, joist_overhang;
};
struct PrescriptivePost {
  Timber timber;
  Length breadth, depth, height;
  PrescriptiveTributary from;
};
struct PrescriptiveFooting {
  SoilKind soil = SoilKind::unknown;
  Outlook outlook = Outlook::cautious;
  Length width, length, thickness, depth, offset;
  PrescriptiveTributary from;
};
struct PrescriptiveLedger {
  bool lag_screws = false;  ///< false: bolts through the band
  Length diameter, spacing, band;
  Length depth;                 ///< of the ledger
  std::vector<Length> heights;  ///< of the rows of fixings above its lower edge
  Length joist_span, joist_overhang;
};
struct PrescriptiveHanger {
  Length joist_breadth, joist_depth, seat;
  Force stated;
};

class PrescriptiveTables {
public:
  virtual ~PrescriptiveTables() = default;
  /// Live load, snow and boarding no heavier than the tables'.
  [[nodiscard]] virtual bool covers(const PrescriptiveBasis&) const = 0;
  /// Calculated use above which a row is not believed to be met: something is recorded amiss.
  [[nodiscard]] virtual double most_use() const = 0;
  [[nodiscard]] virtual std::optional<DeemedToSatisfy> joist(const PrescriptiveJoist&) const = 0;
  [[nodiscard]] virtual std::optional<DeemedToSatisfy> beam(const PrescriptiveBeam&) const = 0;
  [[nodiscard]] virtual std::optional<DeemedToSatisfy> post(const PrescriptivePost&) const = 0;
  [[nodiscard]] virtual std::optional<DeemedToSatisfy> footing(
      const PrescriptiveFooting&) const = 0;
  [[nodiscard]] virtual std::optional<DeemedToSatisfy> ledger(const PrescriptiveLedger&) const = 0;
  [[nodiscard]] virtual std::optional<DeemedToSatisfy> hanger(const PrescriptiveHanger&) const = 0;
};

}  // namespace underprop::standards
