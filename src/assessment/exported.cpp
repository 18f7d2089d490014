#include "underprop/assessment/exported.hpp"

#include "run.hpp"

#include <numeric>

namespace underprop::assessment {

using standards::Purpose;

ExportedModels Run::exported() {
  ExportedModels result;
  for (const Variant& variant : variants()) {
    const Prepared prepared = prepare(variant);
    if (!prepared.ready()) {
      if (variant.bounds.stiff_shell) continue;
      result.why = prepared.loose ? *prepared.loose : prepared.not_modelled;
      return result;
    }
    const std::vector<Situation> all = situations(deck_, prepared.cases->infos, true);
    const std::vector<Pattern> with = patterns(prepared.model().bays.size());
    ExportedModel model;
    model.bound = variant.words();
    model.stage = kept_->dead_shape.empty()
                      ? "from the unloaded state"
                      : "from the unloaded state; new supports meet the settled deck through gaps";
    model.frame = prepared.model().frame;
    model.frame.plates = prepared.cases->plates;
    model.cases = prepared.cases->cases;
    std::vector<int> members(model.frame.members.size());
    std::iota(members.begin(), members.end(), 0);
    const auto& combinations = combinations_.at(Purpose::strength);
    for (const Question& question : questions(combinations, all, with)) {
      const auto s = static_cast<std::size_t>(question.situation);
      const auto p = static_cast<std::size_t>(question.pattern);
      if (!all[s].full || all[s].bathers == Bathers::quarter || all[s].free_end >= 0 || p > 1)
        continue;
      ExportedCombination combination;
      combination.id = combinations[static_cast<std::size_t>(question.combination)].id + "; " +
                       all[s].name + (p > 0 ? "; " + with[p].name : "");
      combination.factors =
          factored(deck_, prepared.cases->infos, values_,
                   combinations[static_cast<std::size_t>(question.combination)], all[s], with[p]);
      combination.response = prepared.analysis().solve(combination.factors);
      if (!combination.response.mechanism) {
        combination.members =
            prepared.analysis().member_forces(combination.response, combination.factors, members);
      }
      model.combinations.push_back(std::move(combination));
    }
    result.models.push_back(std::move(model));
  }
  return result;
}

ExportedModels exported_models(const survey::Survey& survey, const standards::Standard& standard) {
  const survey::Settled settled = survey::settle(survey, survey::Reading::cautious);
  const std::string why = model::why_not_modelled(settled.deck);
  if (!why.empty()) return {{}, why};
  return Run(settled.deck, standard, {}).exported();
}

}  // namespace underprop::assessment
