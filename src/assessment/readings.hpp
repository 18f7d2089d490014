// The deck under the readings of its open facts, each assessed once.
#pragma once

#include "underprop/assessment/assessment.hpp"

#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace underprop::assessment {

/// Which fields are read otherwise than the rest, by JSON Pointer.
using Override = std::map<std::string, record::Reading>;

/// What one reading of the facts says.
struct Outcome {
  double safety = 0.0;  ///< infinity: loose
  double service = 0.0;
  std::size_t referrals = 0;  ///< reasons to refer
  [[nodiscard]] bool passes() const { return !fails(safety) && referrals == 0; }
};
[[nodiscard]] Outcome outcome_of(const DeckAssessment& deck);

/// Not for more than one thread at a time.
class Readings {
public:
  /// `survey` and `standard` must outlive this.
  Readings(const record::Survey& survey, const standards::Standard& standard,
           const PlanCases& plan_cases)
      : survey_(survey), standard_(standard), plan_cases_(plan_cases) {}

  /// The facts that are open in the cautious reading, in survey order.
  void open_facts(std::vector<deck::OpenFact> open) { open_ = std::move(open); }
  [[nodiscard]] const std::vector<deck::OpenFact>& open() const { return open_; }
  [[nodiscard]] const deck::OpenFact* open(const std::string& field) const;

  /// The whole of what is asked, a plan's cases included.
  [[nodiscard]] DeckAssessment all_cases(const deck::Deck& deck, Depth depth,
                                         bool stop_when_loose = false) const;
  /// With a few facts found otherwise.
  [[nodiscard]] Outcome outcome(record::Reading base, const Override& single);
  void known(record::Reading base, const Override& single, const Outcome& outcome) {
    known_[{base, single}] = outcome;
  }
  /// Whether safety passes so. What fails in a few bounds need not be asked in all.
  [[nodiscard]] bool passes(record::Reading base, const Override& single);
  /// In a few bounds only: of safety a lower bound; infinity where something is loose.
  [[nodiscard]] Outcome screened(record::Reading base, const Override& single) const;
  /// Likely facts, with what must be seen found as it usually is.
  [[nodiscard]] Override as_seen(Override found) const;
  /// Would the deck carry with these facts found so? Safety with the rest cautious, service with the rest
  /// likely.
  [[nodiscard]] bool would_carry(const Override& found);
  /// Likewise with numbers found only that share of the way to their best (deck::resolve).
  [[nodiscard]] bool would_carry(const Override& found, double share) const;
  /// What these facts are then taken as, per field, in words; nothing for a field that is not open.
  [[nodiscard]] std::map<std::string, std::string> taken(const Override& found, double share) const;

private:
  const record::Survey& survey_;
  const standards::Standard& standard_;
  PlanCases plan_cases_;
  std::vector<deck::OpenFact> open_;
  std::map<std::pair<record::Reading, Override>, Outcome> known_;
  std::set<std::pair<record::Reading, Override>> failed_;  ///< in a few bounds already
};

}  // namespace underprop::assessment
