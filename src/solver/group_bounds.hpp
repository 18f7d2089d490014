// Bounds on the largest effects in groups of members, from those of the responses that are summed.
#pragma once

#include "solver/states.hpp"

#include <Eigen/Core>
#include <span>
#include <vector>

namespace underprop::solver {

/// Readings of a member are Mi and Vi; with a uniform load q over it, up positive, M = Mi + Vi x + q x^2/2.
class GroupBounds {
public:
  /// `lengths`: mm, of the members read. Throws InvalidFrame unless the groups ascend within them.
  GroupBounds(std::vector<Group> groups, const std::vector<double>& lengths);

  [[nodiscard]] std::size_t size() const { return groups_.size(); }
  [[nodiscard]] const Group& operator[](std::size_t g) const { return groups_[g]; }

  /// Per group: at least its largest sagging moment, its largest hogging moment, its largest shear.
  /// `spans`: q per member, or null.
  [[nodiscard]] Eigen::VectorXd of(const double* readings, const double* spans) const;

  /// Adds the bounds of a response times a factor: the largest of a sum is at most the sum of the
  /// largest, and a negative factor exchanges sagging and hogging.
  void add(Eigen::VectorXd& sum, double factor, const Eigen::VectorXd& bounds) const;

  /// Which groups a sum of bounds does not excuse. `read` gets one entry per group.
  void choose(const Eigen::VectorXd& sum, const Limits& limits, std::vector<char>& read) const;

private:
  std::vector<Group> groups_;
  const std::vector<double>* lengths_;
};

/// Mi, Mj, Vi, Vj from a reading.
void expand(const double* reading, double L, double q, double* ends);

}  // namespace underprop::solver
