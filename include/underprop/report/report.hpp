// Everything that is shown: one Report value, as text, JSON or one HTML file.
#pragma once

#include "underprop/comparison/comparison.hpp"
#include "underprop/placement/placement.hpp"
#include "underprop/planner/planner.hpp"
#include "underprop/record/format.hpp"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string>
#include <vector>

namespace underprop::report {

/// Printed at the top of every surface.
std::string notice();
/// "Valid for the recorded date and condition; ..." and what is not checked.
std::string validity(const record::Survey& survey);

struct Report {
  record::Survey survey;
  std::string file;  ///< where the survey stands, for the commands that are told; may be empty
  std::vector<record::Warning> warnings;
  assessment::Assessment assessment;
  std::optional<placement::Placement> placement;
  std::optional<planner::Result> retrofit;
  std::optional<comparison::Comparison> comparison;
};

// Terminal text, at most `width` columns wide.
std::string assessment_text(const Report& report, int width = 80);
std::string placement_text(const Report& report, int width = 80);
std::string retrofit_text(const Report& report, int width = 80);
std::string comparison_text(const Report& report, int width = 80);
/// One finding's arithmetic, line by line, with clauses. Empty if there is no such finding.
std::string explain_text(const Report& report, const std::string& finding_id, int width = 80);
/// Every rule with its clause and the number of its published values; from data/clauses.json.
std::string clauses_text(int width = 80);
/// Why a measure is never selected, and what is instead. Empty if there is no such topic.
std::string never_selected_text(const std::string& topic, int width = 80);
/// The topics, "blocking, plywood, ...".
std::string never_selected_topics();

/// "underprop/assess/1" and so on: the formats of the results and of the exported model.
std::vector<std::string> result_formats();

// JSON with the fixed keys of the published schema (data/schema/result.json).
nlohmann::ordered_json assessment_json(const assessment::Assessment& assessment);
nlohmann::ordered_json placement_json(const placement::Placement& placement);
nlohmann::ordered_json retrofit_json(const planner::Result& result);
nlohmann::ordered_json comparison_json(const comparison::Comparison& comparison);

/// One self-contained HTML file: no network reference in it.
std::string html(const Report& report);

}  // namespace underprop::report
