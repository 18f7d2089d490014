// One combination with its own supports and its own contact state: the work behind Analysis::solve.
#pragma once

#include "underprop/solver/analysis.hpp"
#include "underprop/solver/responses.hpp"

namespace underprop::solver {

class Question {
public:
  /// Valid combination and changes.
  Question(const Responses& responses, std::span<const CaseFactor> combination,
           std::span<const SupportChange> changes);
  [[nodiscard]] Response answer();  ///< once

private:
  void superpose(std::span<const CaseFactor> combination);
  void change(std::span<const SupportChange> changes);

  /// Prepares the low-rank change. False: the frame is loose with the changed supports.
  bool weaken();
  /// From a response of the factored frame to that of the changed frame, same loads.
  [[nodiscard]] Eigen::VectorXd corrected(const Eigen::VectorXd& response) const;
  /// c_j' K'^-1 c_i for every contact j.
  [[nodiscard]] Eigen::VectorXd flexibility(int i) const;

  /// Finds the contact state. False: there is none, or it is not unique.
  bool close_contacts();
  /// The motion (up to a factor) in which the contacts open by d (scaled by the roots of k).
  [[nodiscard]] Eigen::VectorXd opening_motion(const Eigen::VectorXd& d) const;
  [[nodiscard]] bool is_free(const Eigen::VectorXd& d) const;
  [[nodiscard]] Response mechanism(const Eigen::VectorXd& motion, const std::string& when) const;

  void finish();
  void prove(const Eigen::VectorXd& u, const Eigen::Vector3d& reactions, double largest);
  [[nodiscard]] Eigen::VectorXd freedoms_of(const Eigen::VectorXd& response) const;

  const Responses& r_;
  const Structure& s_;
  int contacts_;
  bool any_rigid_ = false;
  std::vector<double> k_, gap_;  ///< per spring, as in this question
  std::vector<char> rigid_;      ///< per spring
  std::vector<int> changed_;     ///< springs that differ from the factored frame
  Eigen::VectorXd raw_;          ///< freedoms, then reactions
  Eigen::VectorXd loads_;        ///< over freedoms
  Eigen::VectorXd stretch_;      ///< of the changeable springs, all contacts closed
  Eigen::Vector3d total_ = Eigen::Vector3d::Zero();
  Eigen::MatrixXd woodbury_;  ///< W
  Eigen::VectorXd root_k_;    ///< sqrt(k) per contact
  Eigen::VectorXd N_;         ///< contact forces from the complementarity problem
  Eigen::VectorXd opened_;    ///< lambda >= 0
  Response response_;
};

}  // namespace underprop::solver
