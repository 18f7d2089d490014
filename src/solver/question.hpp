// One combination with its own supports and its own contact state: the work behind Analysis::solve.
#pragma once

#include "solver/added.hpp"
#include "solver/responses.hpp"
#include "underprop/solver/analysis.hpp"

namespace underprop::solver {

class Question {
public:
  /// Valid combination, changes and additions.
  Question(const Responses& responses, std::span<const CaseFactor> combination,
           std::span<const SupportChange> changes, const Additions& additions = {});
  /// Whether the additions reach beyond the factored frame: it is loose, or a load turns a node about a
  /// direction that it does not resist, or new members roll. Then answer() does not know what the
  /// additions do.
  [[nodiscard]] bool beyond_factored() const {
    return s_.loose() || response_.mechanism || added_.rolls();
  }
  [[nodiscard]] Response answer();  ///< once

private:
  void superpose(std::span<const CaseFactor> combination);
  void change(std::span<const SupportChange> changes);

  /// Prepares the low-rank change. False: the frame is loose with the changed supports.
  bool weaken();
  /// Response to the forces c of a spring that is changed, added, or a contact.
  [[nodiscard]] const Eigen::VectorXd& column(int spring) const;
  /// c_j'K_c^-1 c_i of two such springs.
  [[nodiscard]] double flexibility_between(int i, int j) const;
  /// From a response of the factored frame to that of the changed frame, same loads.
  [[nodiscard]] Eigen::VectorXd corrected(const Eigen::VectorXd& response) const;
  /// c_j' K'^-1 c_i for every contact j.
  [[nodiscard]] Eigen::VectorXd flexibility(int i) const;

  /// Finds the contact state. False: there is none, or it is not unique.
  bool close_contacts();
  /// The motion (up to a factor) in which the contacts open by d (scaled by the roots of k).
  [[nodiscard]] Eigen::VectorXd opening_motion(const Eigen::VectorXd& d) const;
  /// Of the largest force on the largest deflection, and of moments likewise.
  [[nodiscard]] double most_work(const Eigen::VectorXd& motion) const;
  [[nodiscard]] bool is_free(const Eigen::VectorXd& d) const;
  [[nodiscard]] bool is_free(const Eigen::VectorXd& u, const std::vector<double>& k) const;
  [[nodiscard]] Response mechanism(const Eigen::VectorXd& motion, const std::string& when) const;

  void finish();
  void prove(const Eigen::VectorXd& u, const Eigen::Vector3d& reactions, double largest);
  [[nodiscard]] Eigen::VectorXd freedoms_of(const Eigen::VectorXd& response) const;

  const Responses& r_;
  const Structure& s_;
  Added added_;
  std::size_t added_supports_ = 0;
  std::vector<const Spring*> spring_;  ///< those of the structure, then the added ones
  int own_;                            ///< number of springs of the structure
  std::vector<int> contact_;           ///< spring of each one-way contact
  int contacts_ = 0;
  bool any_rigid_ = false;
  std::vector<double> k_, gap_;  ///< per spring, as in this question
  std::vector<char> rigid_;      ///< per spring
  std::vector<double> force_;    ///< per spring, as reported
  std::vector<int> changed_;     ///< springs that differ from the factored frame
  Eigen::VectorXd raw_;          ///< freedoms, then reactions
  Eigen::VectorXd loads_;        ///< over freedoms
  Eigen::VectorXd stretch_;      ///< of the contacts, all of them closed
  Eigen::Vector3d total_ = Eigen::Vector3d::Zero();
  Eigen::MatrixXd woodbury_;  ///< W
  Eigen::VectorXd root_k_;    ///< sqrt(k) per contact
  Eigen::VectorXd N_;         ///< contact forces from the complementarity problem
  Eigen::VectorXd opened_;    ///< lambda >= 0
  Response response_;
};

}  // namespace underprop::solver
