// What a deck keeps wherever its loads stand: values and rules asked once, frames built and factored once.
#pragma once

#include "bounds.hpp"
#include "effects.hpp"
#include "solver/condensed.hpp"
#include "solver/plated.hpp"
#include "staging.hpp"

#include <map>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace underprop::assessment {

using Combinations = std::map<standards::Purpose, std::vector<standards::Combination>>;

/// A deck's values under its standard.
struct Basis {
  Timbers timbers;
  standards::LoadValues values;
  Combinations combinations;
  bool braced = true;
  bool raised = false;  ///< then what a beam uses by itself counts in the sway of its frame
};

/// A frame of one bound without its loads and their rigid bases.
struct BareFrame {
  model::Model model;
  /// None of these if the model is loose or not modelled.
  std::unique_ptr<solver::Analysis> analysis;
  std::unique_ptr<solver::Condensed> condensed;  ///< for a soft base
  std::unique_ptr<solver::PlateBed> bed;         ///< for a stiff base
  Probes probes;
};

/// Not for more than one thread at a time.
class FrameCache {
public:
  /// Of the loads on `deck` it matters only whether their contents are lasting. `standard` must outlive
  /// this.
  FrameCache(const deck::Deck& deck, const standards::Standard& standard,
             const PlanCases& plan_cases);

  [[nodiscard]] const standards::Standard& standard() const { return standard_; }
  [[nodiscard]] const Basis& basis() const { return basis_; }
  [[nodiscard]] const Sagged& sagged() const { return sagged_; }
  [[nodiscard]] model::Properties properties(const Bound& bound) const;
  /// Built and factored when first asked for.
  [[nodiscard]] std::shared_ptr<const BareFrame> frame(const Bound& bound);

private:
  deck::Deck deck_;  ///< without its loads
  const standards::Standard& standard_;
  PlanCases plan_cases_;
  Basis basis_;
  Sagged sagged_;
  std::vector<std::pair<Bound, std::shared_ptr<const BareFrame>>> frames_;
};

}  // namespace underprop::assessment
