// What could be done to this deck: works that answer to the checks that fail.
#pragma once

#include "catalogue.hpp"
#include "judge.hpp"

#include <optional>
#include <vector>

namespace underprop::planner {

class Candidates {
public:
  explicit Candidates(const record::Survey& survey);

  /// Places and turns of the load that lie on the deck and clear of obstacles, nearest first.
  [[nodiscard]] std::vector<WorkSet> moves() const;
  /// Packing of every support that is not recorded as tight; empty if there is none or it isn't allowed.
  [[nodiscard]] WorkSet packing() const;
  /// Ways to carry the joists under the load on new lines: each a set of one line or two, cheap ones first.
  [[nodiscard]] std::vector<WorkSet> lines() const;
  /// Works that answer to one failing check.
  [[nodiscard]] std::vector<WorkSet> answers(const Failure& failure, const WorkSet& present) const;
  /// A second member beside the whole of a joist, of its section.
  [[nodiscard]] works::Work sister_of(const deck::Joist& joist) const;
  /// Bolts through a ledger and the wood recorded behind it; nothing where there is none, where they are
  /// among the works already, or where as many hold it.
  [[nodiscard]] std::optional<works::Work> ledger_bolts(const deck::Ledger& ledger,
                                                        const WorkSet& present) const;
  /// The same work in cheaper and dearer forms: section, spacing and size of pads, spacing of bolts.
  [[nodiscard]] std::vector<works::Work> forms(const works::Work& work) const;
  /// Grouped works as one work for each piece.
  [[nodiscard]] static WorkSet split(const WorkSet& set);
  /// What the user does not allow, in words.
  [[nodiscard]] std::vector<std::string> not_allowed() const;

private:
  struct Under {
    double s_low = 0, s_high = 0, t_low = 0, t_high = 0;  ///< of the joists that the load reaches
  };
  [[nodiscard]] works::Work line(double s, const Section& section, double spacing, double pad,
                                 bool sleeper) const;
  [[nodiscard]] bool pad_fits(Point at, double side) const;
  [[nodiscard]] std::vector<double> positions() const;
  /// Depth of the new pad, and a post on it where there is room for one.
  void sink(works::Work& work, double thickness, double above) const;
  /// One bolt of that work each `spacing` at the most.
  void set_bolts(works::Work& work, const deck::Ledger& ledger, Length spacing) const;
  [[nodiscard]] double pad_thickness(double pad, double standing) const;

  const record::Survey& survey_;
  deck::Deck deck_;
  Catalogue catalogue_;
  Axis along_ = Axis::y;
  Under under_;
  double clear_ = 0.0;
};

}  // namespace underprop::planner
