// A new low deck built for the load alone, judged by the same assessment.
#pragma once

#include "underprop/assessment/assessment.hpp"
#include "underprop/record/survey.hpp"
#include "underprop/standards/standard.hpp"
#include "underprop/works/work.hpp"

#include <optional>
#include <vector>

namespace underprop::comparison {

struct LowDeck {
  record::Survey survey;
  Length joist_breadth, joist_depth, joist_length;
  int joists = 0;
  Length bearer_length;
  int bearers = 0, pads = 0;
  Length pad, pad_thickness, pad_depth;
  Length width, length;
};

/// What the last trial referred for, or the verdict that it failed by.
struct WhyNoLowDeck {
  std::vector<std::string> refer_reasons;
  std::optional<assessment::Assessment> judged;
};

/// The lightest of the catalogue's sections that carries on close pads; none if no section does, and
/// then `why_none` says why, if given.
std::optional<LowDeck> low_deck_for(const record::Survey& survey,
                                    const standards::Standard& standard,
                                    WhyNoLowDeck* why_none = nullptr);

}  // namespace underprop::comparison
