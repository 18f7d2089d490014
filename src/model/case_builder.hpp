// The unit load cases of a model: weight, footprints and their parts, bays, overhanging ends.
#pragma once

#include "layout.hpp"
#include "model/grillage.hpp"

#include <map>
#include <string>
#include <vector>

namespace underprop::model {

/// A load case while it is laid out; loads on one node are gathered.
struct Laid {
  solver::LoadCase load_case;
  std::map<int, solver::NodalLoad> nodal;
};

/// The rigid bases of the loads on the boards of a model; `why`: what cannot be one.
std::vector<solver::Plate> rigid_bases(const deck::Deck& deck, const Properties& properties,
                                       const Plan& plan, const Model& model, std::string& why);

class CaseBuilder {
public:
  CaseBuilder(const deck::Deck& deck, const Properties& properties, const Bounds& bounds,
              const Plan& plan, const Model& model, std::vector<solver::Plate> plates);

  /// All cases of the model, in a fixed order.
  [[nodiscard]] Cases build();

private:
  void self_weight();
  void loads();
  void imposed();
  void free_ends();
  /// A uniform pressure on these regions that sums to 1 N downwards, laid on boards.
  solver::LoadCase soft(const std::string& id, const std::vector<Region>& regions) const;
  /// 1 N downwards at the centroid of these regions, on a rigid base.
  solver::LoadCase stiff(const std::string& id, std::size_t plate_index,
                         const std::vector<Region>& regions) const;
  void lay_on_board(Laid& laid, std::size_t board, const Region& region, double pressure) const;
  void tilt_joists(Laid& laid, const BoardPlace& place, const Line& line, double t, double force,
                   double off_axis) const;
  void add(CaseKind kind, int load, int part, solver::LoadCase load_case);
  [[nodiscard]] double length_of(int member) const;
  double line_weight(const Line& line, double area, double density, solver::LoadCase& into) const;

  const deck::Deck& deck_;
  const Properties& properties_;
  const Bounds& bounds_;
  const Plan& plan_;
  const Model& model_;
  Cases out_;
  std::vector<int> joist_under_;      ///< per board node on a joist: the joist's node; else -1
  std::vector<bool> turns_a_member_;  ///< per node: some member resists its rotation
};

}  // namespace underprop::model
