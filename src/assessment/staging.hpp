// New pieces join the deck as it has sagged under its own weight: the deck before its works, and the gaps
// through which new supports meet it.
#pragma once

#include "properties.hpp"

#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace underprop::assessment {

/// The deck as it stood before the works, on middling ground and without its loads.
struct BeforeWorks {
  model::Model model;
  std::vector<std::size_t>
      joists;  ///< per joist of the model: its index in the deck with the works
};
/// None if nothing was added.
[[nodiscard]] std::optional<BeforeWorks> before_works(const deck::Deck& deck,
                                                      const standards::Standard& standard);

/// What existing dead load had done to the joists when the works began.
class Sagged {
public:
  /// Nothing, if nothing was added or nothing stood by itself.
  Sagged(const deck::Deck& deck, const standards::Standard& standard);

  [[nodiscard]] bool any() const { return !shape_.empty(); }
  /// How far a joist hangs at a coordinate along it, mm, down positive; 0 where it is not known.
  [[nodiscard]] double at(int joist, double along) const;
  /// Its own moment then, N mm; per joist of the deck with the works.
  [[nodiscard]] const std::vector<double>& moments() const { return moments_; }

private:
  std::vector<double> moments_;
  std::vector<std::vector<std::pair<double, double>>> shape_;  ///< stations and w (up positive)
};

/// Sets the gaps of new supports: today's is zero, not that of a weightless deck; in the plan's gap case it
/// is wider by what a careless wedge leaves (data/scope.json).
void stage(model::Model& model, const deck::Deck& deck, const Sagged& sagged,
           const PlanCases& plan_cases);

}  // namespace underprop::assessment
