#include "catalogue.hpp"
#include "underprop/record/standard_facts.hpp"

#include "catalog/table.hpp"

#include <nlohmann/json.hpp>

#include <stdexcept>

namespace underprop::planner {

Catalogue catalogue(record::StandardId standard) {
  const nlohmann::json& all = catalog::table("works_catalogue.json");
  try {
    const nlohmann::json& region = all.at(record::facts_of(standard).key);
    Catalogue c;
    c.timber = region.at("timber").at("value").get<std::string>();
    for (const auto& row : region.at("bearers").at("rows")) {
      c.bearers.push_back({row.at("plies").get<int>(), mm(row.at("breadth_mm").get<double>()),
                           mm(row.at("depth_mm").get<double>())});
    }
    for (const auto& row : region.at("pads_mm").at("rows")) c.pads.push_back(mm(row.get<double>()));
    c.pad_depth = mm(catalog::number(region, "pad_depth_mm"));
    c.pad_step = mm(catalog::number(region, "pad_step_mm"));
    const auto& brace = region.at("brace").at("value");
    c.brace = {1, mm(brace.at(0).get<double>()), mm(brace.at(1).get<double>())};
    c.ledger_bolt = mm(catalog::number(region, "ledger_bolt_mm"));
    for (const auto& row : all.at("ledger_bolt_spacings_mm").at("rows")) {
      c.ledger_bolt_spacings.push_back(mm(row.get<double>()));
    }
    c.ledger_bolt_end = mm(catalog::number(all, "ledger_bolt_end_mm"));
    for (const auto& row : all.at("pad_spacings_mm").at("rows")) {
      c.pad_spacings.push_back(mm(row.get<double>()));
    }
    c.overhang = mm(catalog::number(all, "overhang_mm"));
    c.least_post = mm(catalog::number(all, "least_post_mm"));
    c.third_points_from = mm(catalog::number(all, "third_points_from_mm"));
    c.move_step = mm(catalog::number(all, "move_step_mm"));
    c.move_grid = static_cast<int>(catalog::number(all, "move_grid"));
    return c;
  } catch (const nlohmann::json::exception& error) {
    throw std::logic_error(std::string("data/works_catalogue.json: ") + error.what());
  }
}

}  // namespace underprop::planner
