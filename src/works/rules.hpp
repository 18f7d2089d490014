// Rules of building, stock and hours by task: the table data/building.json.
//
// The hard rules of building are what a set of works has to keep whatever the checks say: pits away
// from old footings, least sizes of pads, waiting times. `costing` reads its yields and hours here too.
#pragma once

#include "underprop/base/citation.hpp"
#include "underprop/base/quantity.hpp"
#include "underprop/record/survey.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace underprop::works {

struct BuildingRule {
  std::string rule;    ///< "pad/least_width_mm"
  double value = 0.0;  ///< in `unit`, which the rule's name may repeat
  std::string unit;
  std::string reason;
  Citation source;
  bool read = false;  ///< the source was read, not remembered
};

/// A rule of the region, else the common one. Throws std::logic_error for a name the table lacks.
[[nodiscard]] const BuildingRule& building_rule(record::StandardId standard, std::string_view rule);
/// Its value; lengths in mm, whichever the standard.
[[nodiscard]] double building_value(record::StandardId standard, std::string_view rule);
/// Hours of one person for a task, e.g. "pack one support".
[[nodiscard]] double hours_for(std::string_view task);

/// A section that merchants stock.
struct StockSection {
  std::string name;  ///< "47 x 195", "2x10"
  Length breadth, depth;
};
/// Everything that merchants of the region stock, and the classes whose price the book knows; no
/// classes where the price does not depend on the class.
struct Stock {
  std::vector<Length> lengths;  ///< ascending
  std::vector<StockSection> sections;
  std::vector<std::string> classes;
  std::vector<std::string> not_incised;  ///< words in the names of species that are not incised
};
[[nodiscard]] const Stock& stock(record::StandardId standard);

/// The stocked section with these dressed sizes (2 mm to either side), or nullptr.
[[nodiscard]] const StockSection* stock_section(record::StandardId standard, Length breadth,
                                                Length depth);
/// "47 x 195" or "2x10"; the measured sizes where nobody stocks the section.
[[nodiscard]] std::string section_name(record::StandardId standard, Length breadth, Length depth);
/// Whether new treated timber of that name counts as incised: in North America unless the species
/// takes preservative without it.
[[nodiscard]] bool counts_as_incised(record::StandardId standard, std::string_view timber);

}  // namespace underprop::works
