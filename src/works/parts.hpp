// What applying, describing and listing works share.
#pragma once

#include "underprop/base/format.hpp"
#include "underprop/base/geometry.hpp"
#include "underprop/deck/deck.hpp"
#include "underprop/record/facts.hpp"
#include "underprop/works/work.hpp"

#include <cstddef>
#include <set>
#include <string>
#include <vector>

namespace underprop::works {

/// The pieces of a survey by name, in one reading of its facts (the likely one).
class Pieces {
public:
  explicit Pieces(const record::Survey& survey);

  /// The ids of the supports meant: an id, a group, an id or group from before a split, or all below
  /// a bearer or joist. Empty if the name is none of these.
  [[nodiscard]] std::set<std::string> supports(const std::string& name) const;
  /// Throws std::invalid_argument if there is no such joist.
  [[nodiscard]] const deck::Joist& joist(const std::string& id) const;
  /// Joists of that id or of that group. Throws std::invalid_argument if there are none.
  [[nodiscard]] std::vector<const deck::Joist*> joists(const std::string& name) const;
  /// nullptr if there is no such bearer; by piece id or name in the survey.
  [[nodiscard]] const deck::Bearer* bearer(const std::string& name) const;
  /// Joists that a line across them would pass below, in order of position.
  [[nodiscard]] std::vector<const deck::Joist*> crossed(Axis direction, Length position,
                                                        Length from, Length to) const;
  /// The joist nearest in position to a line along its own direction; nullptr if there is none.
  [[nodiscard]] const deck::Joist* neighbour(Axis direction, Length position, Length from,
                                             Length to) const;
  [[nodiscard]] const std::string& group_of(const deck::Joist& joist) const;
  [[nodiscard]] const deck::Deck& deck() const { return deck_; }
  [[nodiscard]] const record::Survey& survey() const { return survey_; }

private:
  const record::Survey& survey_;
  deck::Deck deck_;
};

/// How an end of an added joist is held: in a hanger where its neighbour's end is fastened, else as
/// the neighbour; resting where there is none that ends there.
[[nodiscard]] record::Hold hold_like_neighbour(const Work& work, const Pieces& pieces,
                                               bool at_start);

[[noreturn]] void fault(const Work& work, const std::string& what);

/// A bearer's lengths between splices, each no longer than the longest stock if a cut allows it.
[[nodiscard]] std::vector<Interval> runs(const Work& work, record::StandardId standard);

/// Which end of the joist a place lies nearer to.
[[nodiscard]] bool nearer_start(const deck::Joist& joist, Point place);

/// Makes every support in `ids` stand in a group without others; returns the indices of the groups,
/// ascending. Conditions, probed pieces and braces follow their supports.
std::vector<std::size_t> isolate(record::Survey& survey, const std::set<std::string>& ids);

[[nodiscard]] UnitSystem units_of(const record::Survey& survey);

}  // namespace underprop::works
