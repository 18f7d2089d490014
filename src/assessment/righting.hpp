// What keeps a support upright by itself, and how a push is shared among all that can resist it.
//
// N, mm. Plan axes as in the survey.
#pragma once

#include "underprop/deck/deck.hpp"

#include <vector>

namespace underprop::assessment {

/// The push at the head, N, under which what stands on a base of width `b` with its head `h` above it
/// still stands: the resultant of `N` and the push then leaves the base a sixth of its width within the
/// edge, e = b/3. Statics: H = N b / (3 h). N >= 0, b >= 0, h > 0.
[[nodiscard]] double righting_push(double N, double b, double h);

/// One joint at which a support could turn over: the foot of a post, the underside of a footing.
struct Joint {
  double height = 0.0;  ///< of the head above it
  double base_x = 0.0, base_y = 0.0;
  double weight = 0.0;  ///< of what stands on it besides the deck, N, taken off its cautious share
};
/// How a support stands. No joint: it hangs or lies so that nothing can turn over.
struct Standing {
  double head = 0.0;  ///< of what it carries above the ground, as the record has it
  std::vector<Joint> joints;
  bool loose_stack = false;  ///< blocks or slabs over 1.5 times their width: nothing
};
/// Of a support, and of a wall across its length (base_x, base_y: infinite along it).
[[nodiscard]] Standing standing(const deck::Deck& deck, std::size_t support);
[[nodiscard]] Standing standing(const deck::Deck& deck, const deck::Wall& wall);
/// The least righting push of its joints under N, no more than friction lets through; 0 of a loose stack.
[[nodiscard]] double holds_by_itself(const Standing& standing, double N, Axis push);

/// Are the supports' heads tied: does every joist that stands on them meet a bearer, wall or ledger, or
/// has a rim or blocking (judgement)?
[[nodiscard]] bool heads_linked(const deck::Deck& deck);

/// A line of resistance in plan, ductile: up to `capacity` N either way along `axis`.
struct ResistingLine {
  Axis axis = Axis::x;
  Point at;
  double capacity = 0.0;
};
/// The largest push through `through` along `push` that a stiff deck on these lines withstands, N: the
/// largest for which forces within every capacity balance it and its couple (static theorem of limit
/// analysis). Found by the mechanisms, of which the weakest has the same push: the deck moves by 1 and
/// turns by t about the push's line, W(t) = sum R |1 + t a| + |t| C, least where one line stands still; C:
/// the lines across, turning about their weighted median.
[[nodiscard]] double largest_push(const std::vector<ResistingLine>& lines, Axis push,
                                  Point through);

}  // namespace underprop::assessment
