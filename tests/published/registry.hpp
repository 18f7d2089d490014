// The rules that tests/published/**/*.json may name, each as a function from "given" to results.
//
// A rule function reads its numbers from the case's "given" object (unit in the key: "b_mm",
// "f_m_k_MPa") and returns an object with at least the keys that the case lists in "expected".
#pragma once

#include <nlohmann/json.hpp>

#include <functional>
#include <map>
#include <string>

namespace underprop::published {

using Registry = std::map<std::string, std::function<nlohmann::json(const nlohmann::json&)>>;

void register_eurocode_rules(Registry& registry);
void register_eurocode_fixings(Registry& registry);  ///< called by the one above
void register_north_america_rules(Registry& registry);
void register_north_america_connections(Registry& registry);  ///< called by the one above
void register_north_america_members(Registry& registry);      ///< called by the same

}  // namespace underprop::published
