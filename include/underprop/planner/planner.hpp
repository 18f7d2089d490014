// The least works after which every check passes.
#pragma once

#include "underprop/assessment/assessment.hpp"
#include "underprop/costing/costing.hpp"
#include "underprop/works/work.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace underprop::planner {

struct Plan {
  std::vector<works::Work> works;  ///< in building order; none can be left out
  costing::Bill bill;
  record::Survey after;               ///< the survey with the works done
  assessment::Assessment assessment;  ///< of `after`, with the plan's own cases
  std::string name;                   ///< "least cost", "no digging", ...
  /// "if the footings prove to be 450 mm square, these pads fall away": facts that the plan pays for.
  std::vector<std::string> rests_on;
};

struct Result {
  bool found = false;  ///< a passing plan was found, or none is needed
  bool none_needed = false;
  bool refers = false;  ///< the deck refers: it gets no plan
  std::vector<std::string> refer_reasons;
  std::optional<Plan> plan;
  std::vector<Plan> alternatives;
  std::vector<std::string>
      why_none;              ///< the check no allowed measure mends, what would have to be allowed
  double lower_bound = 0.0;  ///< on likely cost, rigorous
  bool proved_optimal = false;
  std::size_t sets_assessed = 0;
};

/// Called now and then with a line for the user; returning false stops the search.
using Progress = std::function<bool(const std::string&)>;

Result plan(const record::Survey& survey, const standards::Standard& standard,
            const costing::PriceBook& book, const Progress& progress = {});

}  // namespace underprop::planner
