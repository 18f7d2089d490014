// The unit load cases of a model: weight, footprints and their parts, bays, overhanging ends.
#pragma once

#include "layout.hpp"
#include "underprop/model/grillage.hpp"

#include <string>

namespace underprop::model {

class CaseBuilder {
public:
  CaseBuilder(const survey::Deck& deck, const Properties& properties, const Bounds& bounds,
              const Plan& plan, const Model& model)
      : deck_(deck), properties_(properties), bounds_(bounds), plan_(plan), model_(model) {}

  /// All cases of the model, in a fixed order.
  [[nodiscard]] Cases build();

private:
  void self_weight();
  void loads();
  void imposed();
  void free_ends();
  /// A uniform pressure on these polygons that sums to 1 N downwards, laid on boards.
  solver::LoadCase soft(const std::string& id, const std::vector<survey::Polygon>& polygons);
  solver::LoadCase stiff(const std::string& id, std::size_t load,
                         const std::vector<survey::Polygon>& polygons);
  void lay_on_board(solver::LoadCase& load_case, std::size_t board, const survey::Polygon& polygon,
                    double pressure) const;
  void add(CaseKind kind, int load, int part, solver::LoadCase load_case);
  [[nodiscard]] double length_of(int member) const;
  double line_weight(const Line& line, double area, double density, solver::LoadCase& into) const;

  const survey::Deck& deck_;
  const Properties& properties_;
  const Bounds& bounds_;
  const Plan& plan_;
  const Model& model_;
  Cases out_;
};

}  // namespace underprop::model
