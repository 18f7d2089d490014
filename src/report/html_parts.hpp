// The sections of the HTML report; each function gives the markup of one section's body.
#pragma once

#include "underprop/base/format.hpp"
#include "underprop/report/report.hpp"

#include <set>
#include <string>
#include <vector>

namespace underprop::report {

/// What the sections share.
struct Context {
  const Report& report;
  const deck::Deck& deck;  ///< all facts cautious
  UnitSystem units;
};

[[nodiscard]] std::string verdict_section(const Context& context);
[[nodiscard]] std::string plan_section(const Context& context);
[[nodiscard]] std::string placement_section(const Context& context);
[[nodiscard]] std::string governing_section(const Context& context);
[[nodiscard]] std::string facts_section(const Context& context);
/// Every finding as one line, the worst with their arithmetic.
[[nodiscard]] std::string arithmetic_section(const Context& context);

[[nodiscard]] std::string works_section(const Context& context);
[[nodiscard]] std::string cost_section(const Context& context);

}  // namespace underprop::report
