// The data tables as JSON values, parsed once.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include <string_view>

namespace underprop::catalog {

/// The embedded table of that path below data/, e.g. "scope.json". Throws std::logic_error if there is
/// none or it is not JSON: a fault of the build, not of any input.
const nlohmann::json& table(std::string_view path);

/// A number that stands as {"value": x, "source": ...} under `name`. Throws std::logic_error.
double number(const nlohmann::json& rows, std::string_view name);

}  // namespace underprop::catalog
