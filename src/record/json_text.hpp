// JSON as text for people: what fits on a line stands on one, the rest is spread, one entry a line.
#pragma once

#include <nlohmann/json.hpp>

#include <string>

namespace underprop::record {

[[nodiscard]] std::string json_text(const nlohmann::ordered_json& value);

}  // namespace underprop::record
