// One run over a resolved deck: every bound, situation, pattern and combination, each with its own
// contact state; the worst demand per check is kept with the state it arose in.
#pragma once

#include "actions.hpp"
#include "effects.hpp"
#include "items.hpp"
#include "properties.hpp"
#include "scope.hpp"
#include "underprop/assessment/exported.hpp"
#include "underprop/solver/condensed.hpp"
#include "underprop/solver/plated.hpp"

#include <map>
#include <memory>
#include <optional>
#include <span>
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
  /// The same frame, the loads apart?
  [[nodiscard]] bool same_frame(const Variant& other) const;
};

/// A built and factored frame: without loads, and without their rigid bases.
struct Built {
  model::Model model;
  std::unique_ptr<solver::Analysis> analysis;
  std::unique_ptr<solver::Condensed> condensed;  ///< soft base
  std::unique_ptr<solver::PlateBed> bed;         ///< stiff base
  Probes probes;
};

/// A frame under the load cases of one run.
struct Prepared {
  Variant variant;
  std::shared_ptr<const Built> built;
  std::shared_ptr<const model::Cases> cases;
  std::optional<std::string> loose;
  std::string not_modelled;
  /// The members that are read; of a stiff base only the boards near the loads.
  Probes probes;
  std::unique_ptr<solver::Analysis> soft;  ///< that the states of a soft base read
  std::unique_ptr<solver::States> states;

  [[nodiscard]] const model::Model& model() const { return built->model; }
  /// Neither loose nor outside what is modelled?
  [[nodiscard]] bool ready() const { return states != nullptr; }
  /// Of the frame with its rigid bases. Precondition: ready.
  [[nodiscard]] const solver::Analysis& analysis() const { return states->whole(); }
};

/// What a deck keeps for every run over it, wherever its loads stand: values, rules asked once, frames.
struct Kept {
  Timbers timbers;
  standards::LoadValues values;
  std::map<standards::Purpose, std::vector<standards::Combination>> combinations;
  bool braced = true;
  bool raised = false;  ///< then what a beam uses by itself counts in the sway of its frame
  std::vector<double> self_weight_moments;
  /// Deflection under existing dead load, before the works: per joist, its stations and w (up positive).
  std::vector<std::vector<std::pair<double, double>>> dead_shape;
  /// Frames of the variants; these do not depend on where the loads stand.
  std::vector<std::pair<Variant, std::shared_ptr<const Built>>> built;
  /// Demand at which the utilisation is 1, per item and combination; NaN: not proportional.
  std::vector<std::vector<std::optional<double>>> resistance;
};

struct PadChange {
  std::string words;  ///< "pad P2 absent"
  std::vector<solver::SupportChange> changes;
};

class Run {
public:
  Run(const deck::Deck& deck, const standards::Standard& standard, const PlanCases& plan_cases);
  /// The same deck with its loads elsewhere: frames and values are shared.
  Run(const deck::Deck& deck, const standards::Standard& standard, const PlanCases& plan_cases,
      std::shared_ptr<Kept> kept);
  [[nodiscard]] const std::shared_ptr<Kept>& kept() const { return kept_; }

  /// Strength, uplift and ground over all bounds, with the load (or without it).
  void safety(bool with_load);
  /// The same with the load, but done with at the first check whose utilisation exceeds `most`; a check
  /// that fails without the load already, by as much, does not count (`ordinary`: per item id).
  void safety_until(double most, const std::map<std::string, double>& ordinary);
  [[nodiscard]] bool done_loose() const {
    return (quick_ || plan_cases_.stop_when_loose) && mechanism_.has_value();
  }
  struct Stop {
    double utilisation = 0.0;  ///< infinity: a mechanism
    std::string piece, check;
  };
  [[nodiscard]] const std::optional<Stop>& stop() const { return stop_; }
  /// One board under one person fails where the load stands: that needs no frame.
  [[nodiscard]] std::optional<Stop> boards_fail(double most) const;
  /// Why the load path, as the load stands, may not be judged (scope.hpp), the first reason; empty: it may.
  /// One state tells which pieces are loaded.
  [[nodiscard]] std::string why_not_judged();
  /// Utilisation without the load, per "piece/check".
  [[nodiscard]] std::map<std::string, double> bare_utilisations() const;
  /// Takes another run's judgement of the deck without its load.
  void bare_from(const std::map<std::string, double>& bare) { bare_known_ = &bare; }
  [[nodiscard]] DeckAssessment result(Depth depth);
  /// Every bound's model with the responses of its main combinations for strength, ground and uplift.
  [[nodiscard]] ExportedModels exported();
  /// The models of the service checks: middling ground, before and after creep.
  void exported_service(std::vector<ExportedModel>& models) const;

private:
  Prepared prepare(const Variant& variant) const;
  model::Properties properties_of(const Variant& variant) const;
  void stage(model::Model& model) const;
  [[nodiscard]] std::vector<Variant> variants() const;
  /// May the boards be jointed under the load? Then they are, over the joist that bends most.
  [[nodiscard]] bool joints_open() const {
    return !deck_.boards.joints_recorded || deck_.boards.joints == record::BoardJoints::staggered;
  }
  /// The deck as it stood before the works, on middling ground, and which of its joists were there; none
  /// if nothing is added.
  [[nodiscard]] std::optional<model::Model> before_works(std::vector<std::size_t>& kept) const;
  [[nodiscard]] std::optional<ExportedModel> exported_before_works() const;
  [[nodiscard]] ExportedModel exported_model(const Variant& variant,
                                             std::span<const standards::Purpose> purposes,
                                             const Prepared& prepared) const;
  void find_dead_load_shape();
  [[nodiscard]] std::shared_ptr<const Built> built(const Variant& variant) const;
  void ask(const Prepared& prepared, int variant, standards::Purpose purpose, bool with_load);
  void take(const Prepared& prepared, int variant, standards::Purpose purpose,
            const Question& question, int change, int handle, bool boards);
  void take_boards(const Prepared& prepared, std::span<const solver::CaseFactor> factors,
                   const Question& question, int variant, int change);
  /// Demands of the lines (joists, bearers, ledgers: the groups of the frames) that tell nothing new:
  /// no more than the worst so far, or, where only the largest utilisation is asked for, than that.
  const solver::Limits& limits(standards::Purpose purpose, int combination);
  void sort_items_by_line(const model::Model& model);
  /// Utilisation of an item; `resistance` is kept where the rule is proportional.
  double utilisation(std::size_t item, double demand, int combination);
  /// Finds the patterns of live load that the list of patterns() lacks, for every check. In one situation:
  /// the bays that make a check worse, each by itself (its influence), are loaded together; then every
  /// bay of the worst pattern so far is loaded or unloaded in turn, each time with its own contact state,
  /// until no check gets worse. It ends: every step tries patterns that were not tried, and there are
  /// finitely many. Patterns that turned out worst for some check are then asked in every situation.
  void propose(const Prepared& prepared, int variant, standards::Purpose purpose);
  void record(Item& item, double demand, double along, const Question& question, int variant,
              int change);
  [[nodiscard]] std::vector<PadChange> pad_changes(const Prepared& prepared) const;
  void find_loaded(const Prepared& prepared);
  [[nodiscard]] Scope loaded_scope() const;
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
  void board_findings(DeckAssessment& result) const;
  void service_findings(DeckAssessment& result, bool shapes);
  void verify(const Item& item, std::size_t combination) const;
  [[nodiscard]] double demand_in(const Item& item, const Prepared& prepared,
                                 const solver::Analysis& analysis, const solver::Response& response,
                                 std::span<const solver::CaseFactor> factors) const;

  const deck::Deck& deck_;
  const standards::Standard& standard_;
  PlanCases plan_cases_;
  std::shared_ptr<Kept> kept_;
  const Timbers& timbers_;
  const standards::LoadValues& values_;
  const std::map<standards::Purpose, std::vector<standards::Combination>>& combinations_;
  /// By the joist over which boards are jointed, and whether bases are stiff.
  mutable std::map<std::pair<int, bool>, std::shared_ptr<const model::Cases>> cases_;
  std::vector<Variant> variants_;
  std::vector<std::vector<Situation>> situations_{2};  ///< with load, without
  std::vector<Pattern> patterns_;
  std::size_t first_patterns_ = 0;  ///< how many stood in the list before propose()
  std::vector<PadChange> changes_;
  std::vector<Item> items_, bare_items_;                       ///< with the load, without
  bool bare_ = false;                                          ///< which of the two is being filled
  std::map<standards::Purpose, std::vector<int>> by_purpose_;  ///< items
  std::vector<int> board_items_;
  std::vector<std::vector<int>> line_items_;  ///< per group: items of sag, hog, shear
  solver::Limits limits_, no_limits_needed_;
  double largest_ = 0.0;  ///< utilisation so far of what is not ordinary use (quick)
  solver::State state_;
  /// While patterns are sought: demand per item and combination, per pattern, in one situation.
  std::map<std::pair<int, int>, std::map<int, double>> by_pattern_;
  int seek_situation_ = -1;
  bool quick_ = false;
  double most_ = 1.0;
  std::vector<double> allowed_;  ///< utilisation allowed per item (quick)
  std::optional<Stop> stop_;
  const std::map<std::string, double>* bare_known_ = nullptr;
  bool loaded_known_ = false;
  std::vector<bool> loaded_joists_, loaded_bearers_, loaded_ledgers_, loaded_supports_,
      loaded_walls_;
  std::vector<Reaction> reactions_;
  std::optional<std::string> mechanism_, not_modelled_;
  std::size_t solves_ = 0;
};

}  // namespace underprop::assessment
