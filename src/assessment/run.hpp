// One run over a settled deck: every bound, situation, pattern and combination, each with its own
// contact state; the worst demand per check is kept with the state it arose in.
#pragma once

#include "actions.hpp"
#include "effects.hpp"
#include "items.hpp"
#include "properties.hpp"
#include "underprop/assessment/exported.hpp"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace underprop::assessment {

/// One set of bounds of the model.
struct Variant {
  GroundBound old_ground = GroundBound::soft;
  GroundBound new_ground = GroundBound::soft;
  standards::Term term = standards::Term::now;
  model::Bounds bounds;
  [[nodiscard]] std::string words() const;
};

/// A built and factored model.
struct Prepared {
  Variant variant;
  model::Model model;
  std::unique_ptr<solver::Analysis> analysis;
  Probes probes;
};

struct PadChange {
  std::string words;  ///< "pad P2 absent"
  std::vector<solver::SupportChange> changes;
};

class Run {
public:
  Run(const survey::Deck& deck, const standards::Standard& standard, const PlanCases& plan_cases);

  /// Strength, uplift and ground over all bounds, with the load (or without it).
  void safety(bool with_load);
  [[nodiscard]] DeckAssessment result(Depth depth);
  /// Every bound's model with the responses of its main strength combinations.
  [[nodiscard]] ExportedModels exported();

private:
  Prepared prepare(const Variant& variant) const;
  model::Properties properties_of(const Variant& variant) const;
  void stage(model::Model& model) const;
  [[nodiscard]] std::vector<Variant> variants() const;
  void find_dead_load_shape();
  void ask(const Prepared& prepared, int variant, standards::Purpose purpose, bool with_load);
  void take(const Prepared& prepared, int variant, standards::Purpose purpose,
            const Question& question, int change, std::span<const solver::SupportChange> changes,
            bool boards);
  void record(Source source, std::size_t index, standards::Purpose purpose, double demand,
              double along, const Question& question, int variant, int change);
  [[nodiscard]] std::vector<PadChange> pad_changes(const Prepared& prepared) const;
  void find_loaded(const Prepared& prepared);
  [[nodiscard]] Finding finding(const Item& item, std::size_t combination,
                                standards::Check check) const;
  [[nodiscard]] std::optional<std::pair<std::size_t, standards::Check>> worst_of(
      const Item& item) const;
  /// Lengths of findings: mm, or inches where people measure so.
  [[nodiscard]] const char* length_unit() const { return standard_.us_customary() ? "in" : "mm"; }
  [[nodiscard]] double in_length_unit(Length length) const {
    return standard_.us_customary() ? in_inches(length) : in_mm(length);
  }
  void static_findings(DeckAssessment& result) const;
  void service_findings(DeckAssessment& result, bool shapes);
  void verify(const Item& item, std::size_t combination) const;
  [[nodiscard]] double demand_in(const Item& item, const Prepared& prepared,
                                 const solver::Response& response,
                                 std::span<const solver::CaseFactor> factors) const;

  const survey::Deck& deck_;
  const standards::Standard& standard_;
  PlanCases plan_cases_;
  Timbers timbers_;
  standards::LoadValues values_;
  bool braced_ = true;
  std::map<standards::Purpose, std::vector<standards::Combination>> combinations_;
  std::vector<Variant> variants_;
  std::vector<std::vector<Situation>> situations_{2};  ///< with load, without
  std::vector<Pattern> patterns_;
  std::vector<PadChange> changes_;
  std::vector<Item> items_, bare_items_;  ///< with the load, without
  bool bare_ = false;                     ///< which of the two is being filled
  std::map<std::pair<int, int>, std::vector<int>> by_source_;
  std::vector<double> self_weight_moments_;
  /// Deflection under existing dead load, before the works: per joist, its stations and w (up positive).
  std::vector<std::vector<std::pair<double, double>>> dead_shape_;
  std::vector<bool> loaded_joists_, loaded_bearers_, loaded_ledgers_, loaded_supports_,
      loaded_walls_;
  std::vector<Reaction> reactions_;
  std::optional<std::string> mechanism_, not_modelled_;
  std::size_t solves_ = 0;
};

}  // namespace underprop::assessment
