// The freedoms and matrices of a plane frame (see solver/plane_frame.hpp).
#pragma once

#include "solver/plane_frame.hpp"

#include <Eigen/Dense>
#include <Eigen/Sparse>

#include <array>

namespace underprop::solver::plane {

/// One element of a member in its own axes: end 1, end 2 along, across, rotation.
struct Element {
  int member = -1;
  std::array<int, 6>
      freedom{};  ///< global u1, w1, theta1, u2, w2, theta2; -1: held or without meaning
  double length = 0.0, c = 1.0, s = 0.0;
  double EA = 0.0, EI = 0.0, phi = 0.0;  ///< phi = 12 EI / (kGA L2)
};

using Matrix6 = Eigen::Matrix<double, 6, 6>;
using Vector6 = Eigen::Matrix<double, 6, 1>;

Matrix6 local_stiffness(const Element& element);
/// For a tension of 1 N.
Matrix6 local_geometric(const Element& element);
Matrix6 to_local(const Element& element);

class System {
public:
  explicit System(const Frame& frame);

  [[nodiscard]] int size() const { return static_cast<int>(pieces_.size()); }
  [[nodiscard]] Eigen::SparseMatrix<double> stiffness() const;
  /// One axial force per element, tension positive.
  [[nodiscard]] Eigen::SparseMatrix<double> geometric(const std::vector<double>& N) const;
  [[nodiscard]] Eigen::VectorXd loads(const std::vector<Load>& loads) const;
  [[nodiscard]] std::vector<double> axial(const Eigen::VectorXd& x) const;
  [[nodiscard]] Vector6 local(const Element& element, const Eigen::VectorXd& x) const;
  /// The piece that moves most where the matrix has no stiffness; nothing if it has.
  [[nodiscard]] std::optional<std::string> loose(const Eigen::SparseMatrix<double>& K) const;

  [[nodiscard]] const std::vector<Element>& elements() const { return elements_; }
  /// u, w, theta of a node; -1: held; -2: without meaning.
  [[nodiscard]] const std::array<int, 3>& node(int index) const {
    return nodes_[static_cast<std::size_t>(index)];
  }

private:
  const Frame& frame_;
  std::vector<std::array<int, 3>> nodes_;
  std::vector<std::string> pieces_;  ///< per freedom
  std::vector<Element> elements_;
  struct Spring {
    int a = -1, b = -1;  ///< between two freedoms; b = -1: to the ground
    double k = 0.0;
  };
  std::vector<Spring> springs_;
};

}  // namespace underprop::solver::plane
