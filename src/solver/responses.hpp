// Responses of a structure with all contacts closed, computed when first asked for, and kept.
#pragma once

#include "solver/case_loads.hpp"
#include "solver/structure.hpp"

#include <Eigen/Core>
#include <map>
#include <memory>
#include <vector>

namespace underprop::solver {

/// Response of the structure with all contacts closed to one set of loads.
struct Unit {
  Eigen::VectorXd response;                ///< freedoms, then reactions
  Eigen::VectorXd loads;                   ///< over freedoms
  Eigen::Vector3d total;                   ///< Fz, Mx, My about the origin
  std::vector<Freedoms::IdleMoment> idle;  ///< moments that nothing resists
};

/// Response to the unit forces c of one spring.
struct SpringColumn {
  Eigen::VectorXd response;  ///< freedoms, then reactions
  Eigen::VectorXd stretch;   ///< c_j' K_c^-1 c for every changeable spring j
};

/// Not for more than one thread at a time.
class Responses {
public:
  Responses(Frame frame, std::vector<LoadCase> cases);  ///< both valid
  /// The same factored structure under other cases (valid); what the loads do not change is shared.
  Responses(const Responses& other, std::vector<LoadCase> cases);

  [[nodiscard]] const Structure& structure() const { return shared_->structure; }
  [[nodiscard]] const std::vector<LoadCase>& cases() const { return cases_; }
  [[nodiscard]] const std::vector<CaseLoads>& loads() const { return loads_; }

  [[nodiscard]] const Unit& unit(int load_case) const;
  /// The response to the forces c k g of the gaps.
  [[nodiscard]] const Eigen::VectorXd& gaps() const;
  /// The response to the forces c of a spring; the spring is one of Structure::changeable().
  [[nodiscard]] const SpringColumn& column(int spring) const;

  /// The response to a unit force or moment at one nodal displacement.
  [[nodiscard]] const Eigen::VectorXd& nodal_unit(int row) const;

  /// c'u of every changeable spring.
  [[nodiscard]] Eigen::VectorXd stretches(const Eigen::VectorXd& response) const;

  /// Fz, Mx, My of a vertical force at a place, about the middle of the nodes.
  [[nodiscard]] Eigen::Vector3d about_middle(double x, double y, double Fz) const {
    return {Fz, (y - origin_y_) * Fz, -(x - origin_x_) * Fz};
  }
  [[nodiscard]] double size() const { return size_; }  ///< extent in plan, mm

private:
  [[nodiscard]] Eigen::Vector3d total(const Eigen::VectorXd& nodal) const;

  /// What belongs to the structure alone.
  struct Shared {
    explicit Shared(Frame frame) : structure(std::move(frame)) {}
    Structure structure;
    std::vector<std::unique_ptr<SpringColumn>> columns;
    Eigen::VectorXd gaps;
  };

  std::shared_ptr<Shared> shared_;
  std::vector<LoadCase> cases_;
  std::vector<CaseLoads> loads_;
  double origin_x_ = 0.0, origin_y_ = 0.0, size_ = 1.0;
  mutable std::vector<std::unique_ptr<Unit>> units_;
  mutable std::map<int, Eigen::VectorXd> nodal_units_;
};

}  // namespace underprop::solver
