// How much the deck takes as it is, where the load is wanted.
#pragma once

#include "underprop/placement/placement.hpp"

#include <optional>
#include <vector>

namespace underprop::placement {

/// Where the first load is looked at: moved in plan from where it is recorded, turned as given.
struct Where {
  Point by;
  double rotation_deg = 0.0;
};

/// Judges one load on one deck: safety at cautious facts, service at likely ones.
class Judge {
public:
  Judge(const record::Survey& survey, const standards::Standard& standard);
  [[nodiscard]] assessment::Look look(const deck::Load& first, const deck::Load& likely_first,
                                      const Where& where, double most = 1.0);

private:
  record::Survey survey_;
  std::optional<assessment::PreparedDeck> cautious_, likely_;
  std::vector<deck::Load> loads_, likely_loads_;
};

[[nodiscard]] Capacity capacity(Judge& judge, const deck::Load& load, const deck::Load& likely,
                                const Where& where);

}  // namespace underprop::placement
