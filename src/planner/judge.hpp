// Judging sets of works: by the same assessment that judged the deck as found.
#pragma once

#include "underprop/assessment/assessment.hpp"
#include "underprop/costing/costing.hpp"
#include "underprop/works/work.hpp"

#include <limits>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace underprop::planner {

using WorkSet = std::vector<works::Work>;  ///< sorted by id, no id twice

/// One failing check of a set.
struct Failure {
  std::string id, piece, check;
  Point at;
  double utilisation = 0.0;
  bool service = false;
};

struct Judgement {
  bool possible = false;  ///< the works can be written into the record
  bool passes = false;
  std::string stage;                ///< in which judgement it failed
  std::vector<Failure> failures;    ///< worst first
  std::vector<std::string> refers;  ///< reasons to refer that the deck as found does not have
  double score = std::numeric_limits<double>::infinity();  ///< how far from passing; 0 passes
};

/// The works of a set sorted by id, without doubles.
[[nodiscard]] WorkSet united(WorkSet a, const WorkSet& b);
[[nodiscard]] std::string key(const WorkSet& set);
[[nodiscard]] WorkSet without(const WorkSet& set, const std::string& id);
/// Pits that a set digs, and whether it digs at all.
[[nodiscard]] std::size_t pits(const WorkSet& set);
/// In the order in which they are built.
[[nodiscard]] WorkSet in_building_order(WorkSet set);

/// Judges sets under one survey, remembers every answer, counts what it asked. Deterministic.
class Judge {
public:
  Judge(const record::Survey& survey, const standards::Standard& standard,
        const costing::PriceBook& book);

  /// Safety at cautious and service at likely facts, as found and with the plan's own cases: a gap
  /// under every new support, new ground unlike old.
  const Judgement& judge(const WorkSet& set);
  /// The same for many, on all cores; the answers do not depend on their number.
  void judge_all(const std::vector<WorkSet>& sets);
  /// As judge, and with each new pad missing in turn the deck must not become a mechanism.
  bool passes_with_pads_missing(const WorkSet& set);
  /// Likely cost; infinity if the works cannot be priced.
  double cost(const WorkSet& set);
  [[nodiscard]] costing::Bill bill(const WorkSet& set) const;

  [[nodiscard]] std::size_t assessed() const { return known_.size(); }
  [[nodiscard]] const record::Survey& survey() const { return survey_; }
  /// Every set judged so far that passes.
  [[nodiscard]] std::vector<WorkSet> passing() const;

  static assessment::PlanCases plan_cases(const WorkSet& set);

private:
  [[nodiscard]] Judgement ask(const WorkSet& set) const;
  bool take(Judgement& j, const assessment::DeckAssessment& d, bool service,
            const std::string& stage) const;

  const record::Survey& survey_;
  const standards::Standard& standard_;
  const costing::PriceBook& book_;
  std::set<std::string> known_refers_;  ///< of the deck as found, its facts cautious
  std::map<std::string, Judgement> known_;
  std::map<std::string, WorkSet> sets_;
  std::map<std::string, double> costs_;
  std::map<std::string, bool> missing_;
};

}  // namespace underprop::planner
