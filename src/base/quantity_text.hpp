// Reading one quantity: number, unit, and at most one smaller unit. Private to base.
#pragma once

#include "unit_table.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace underprop::detail {

/// What one quantity text was read as, in base units, or why not.
struct Outcome {
  std::optional<double> value;
  std::string problem, remedy;
  bool bare = false;           ///< failed only for want of a unit
  const Unit* unit = nullptr;  ///< of the last component
  int components = 0;
};

/// `text` with typographic characters as the plain ones that read_one knows, blanks at its ends cut.
[[nodiscard]] std::string plain(std::string_view text);

/// Reads one quantity of plain text; messages show `shown`.
[[nodiscard]] Outcome read_one(std::string_view text, std::string_view shown, Dimension dimension);

[[nodiscard]] bool is_feet(const Unit& unit);
[[nodiscard]] bool is_inches(const Unit& unit);

}  // namespace underprop::detail
