// The analysis models of an assessment with their responses, for anybody's general-purpose solver.
#pragma once

#include "underprop/record/survey.hpp"
#include "underprop/solver/analysis.hpp"
#include "underprop/standards/standard.hpp"

#include <string>
#include <vector>

namespace underprop::assessment {

struct ExportedCombination {
  std::string id;
  std::vector<solver::CaseFactor> factors;
  solver::Response response;
  std::vector<solver::MemberForces>
      members;  ///< one per member of the frame; empty for a mechanism
};

struct ExportedModel {
  std::string bound;
  std::string stage;
  solver::Frame frame;
  std::vector<solver::LoadCase> cases;
  std::vector<ExportedCombination> combinations;
};

/// One model per bound of the structure, all facts at their cautious value: strength combinations of the
/// main situations, ground and uplift with people all round; boards jointed over the joist that bends most;
/// each pad that matters unlike its neighbours, under the combination that puts most on the supports; the
/// deck before works that add pieces; then the service checks' models at likely facts. Without models if
/// the deck cannot be modelled: `why` then says so.
struct ExportedModels {
  std::vector<ExportedModel> models;
  std::string why;
};
ExportedModels exported_models(const record::Survey& survey, const standards::Standard& standard);

}  // namespace underprop::assessment
