#include "group_bounds.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::solver {

using Eigen::Index;
using Eigen::VectorXd;

GroupBounds::GroupBounds(std::vector<Group> groups, const std::vector<double>& lengths)
    : groups_(std::move(groups)), lengths_(&lengths) {
  int last = 0;
  for (const Group& group : groups_) {
    if (group.first < last || group.last < group.first ||
        group.last > static_cast<int>(lengths.size()))
      throw InvalidFrame("groups of members must ascend among the members that are read");
    last = group.last;
  }
}

VectorXd GroupBounds::of(const double* readings, const double* spans) const {
  const auto n = static_cast<Index>(groups_.size());
  VectorXd bounds = VectorXd::Zero(3 * n);
  for (Index g = 0; g < n; ++g) {
    const Group& group = groups_[static_cast<std::size_t>(g)];
    double &sag = bounds[3 * g], &hog = bounds[3 * g + 1], &shear = bounds[3 * g + 2];
    for (int m = group.first; m < group.last; ++m) {
      const double L = (*lengths_)[static_cast<std::size_t>(m)];
      const double q = spans != nullptr ? spans[m] : 0.0;
      const double Mi = readings[2 * m], Vi = readings[2 * m + 1];
      const double Mj = Mi + L * (Vi + 0.5 * q * L);
      const double between = 0.125 * q * L * L;  // off the straight line from Mi to Mj
      sag = std::max(sag, std::max(Mi, Mj) + std::max(0.0, -between));
      hog = std::max(hog, std::max(-Mi, -Mj) + std::max(0.0, between));
      shear = std::max({shear, std::abs(Vi), std::abs(Vi + q * L)});
    }
  }
  return bounds;
}

void GroupBounds::add(VectorXd& sum, double factor, const VectorXd& bounds) const {
  if (factor >= 0.0) {
    sum.noalias() += factor * bounds;
    return;
  }
  for (Index g = 0; g < static_cast<Index>(groups_.size()); ++g) {
    sum[3 * g] -= factor * bounds[3 * g + 1];
    sum[3 * g + 1] -= factor * bounds[3 * g];
    sum[3 * g + 2] -= factor * bounds[3 * g + 2];
  }
}

void GroupBounds::choose(const VectorXd& sum, const Limits& limits, std::vector<char>& read) const {
  if (limits.sag.size() != groups_.size() || limits.hog.size() != groups_.size() ||
      limits.shear.size() != groups_.size())
    throw InvalidFrame("limits must be given for every group of members");
  read.assign(groups_.size(), 1);
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    const auto row = 3 * static_cast<Index>(g);
    const bool excused = sum[row] <= limits.sag[g] && sum[row + 1] <= limits.hog[g] &&
                         sum[row + 2] <= limits.shear[g];
    if (excused) read[g] = 0;
  }
}

void expand(const double* reading, double L, double q, double* ends) {
  const double Mi = reading[0], Vi = reading[1];
  ends[0] = Mi;
  ends[1] = Mi + L * (Vi + 0.5 * q * L);
  ends[2] = Vi;
  ends[3] = Vi + q * L;
}

}  // namespace underprop::solver
