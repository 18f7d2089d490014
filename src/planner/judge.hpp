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
  bool possible = false;  ///< the works can be written into the record, and judged
  bool unproved = false;  ///< a solve of it failed its own proof: it is not judged
  bool passes = false;
  std::string stage;                ///< in which judgement it failed
  std::vector<Failure> failures;    ///< worst first
  std::vector<std::string> refers;  ///< reasons to refer that the deck as found does not have
  double score = std::numeric_limits<double>::infinity();  ///< how far from passing; 0 passes
};

/// The works of a set sorted by id, without doubles.
[[nodiscard]] WorkSet united(WorkSet a, const WorkSet& b);
[[nodiscard]] WorkSet without(const WorkSet& set, const std::string& id);
/// Pits that a set digs, and whether it digs at all.
[[nodiscard]] std::size_t pits(const WorkSet& set);
/// In the order in which they are built.
[[nodiscard]] WorkSet in_building_order(WorkSet set);

/// What is promised of a set that passes, told by a fresh assessment of the deck with its works done: safe at
/// cautious facts, fit for use at likely ones; what nobody has seen yet may still keep it from "carries".
[[nodiscard]] bool as_promised(const assessment::Assessment& after);

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
  /// Of these: how many could not be judged.
  [[nodiscard]] std::size_t unproved() const;
  [[nodiscard]] const record::Survey& survey() const { return survey_; }
  static assessment::PlanCases plan_cases(const WorkSet& set);

private:
  [[nodiscard]] Judgement ask(const WorkSet& set) const;
  /// Throws solver::ProofFailed.
  [[nodiscard]] Judgement judged(const WorkSet& set) const;
  bool take(Judgement& j, const assessment::DeckAssessment& d, bool service,
            const std::string& stage) const;

  const record::Survey& survey_;
  const standards::Standard& standard_;
  const costing::PriceBook& book_;
  std::set<std::string> known_refers_;  ///< of the deck as found, its facts cautious
  // By all that the works of a set say, not by their names alone.
  std::map<WorkSet, Judgement> known_;
  std::map<WorkSet, double> costs_;
  std::map<WorkSet, bool> missing_;
};

}  // namespace underprop::planner
