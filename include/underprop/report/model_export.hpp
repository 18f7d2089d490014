// The analysis models as JSON in SI units (m, N, rad), z and w up: see data/schema/model.json.
#pragma once

#include "underprop/assessment/exported.hpp"

#include <nlohmann/json_fwd.hpp>

namespace underprop::report {

/// Format "underprop/model/1". Ids are unique within each list; `rigid` stiffnesses are the word "rigid".
nlohmann::ordered_json model_json(const assessment::ExportedModels& models);

}  // namespace underprop::report
