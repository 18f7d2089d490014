#include "solver/responses.hpp"
#include "index.hpp"

#include "solver/validation.hpp"

#include <algorithm>

namespace underprop::solver {

using Eigen::Index;
using Eigen::VectorXd;

Responses::Responses(Frame frame, std::vector<LoadCase> cases)
    : shared_(std::make_shared<Shared>(std::move(frame))),
      cases_(std::move(cases)),
      size_(std::max(extent(shared_->structure.frame()), 1.0)) {
  for (const LoadCase& c : cases_) loads_.emplace_back(structure(), c);
  units_.resize(cases_.size());
  shared_->columns.resize(at(structure().changeable()));
  for (const Node& n : structure().frame().nodes) {
    origin_x_ += n.x / static_cast<double>(structure().frame().nodes.size());
    origin_y_ += n.y / static_cast<double>(structure().frame().nodes.size());
  }
}

Responses::Responses(const Responses& other, std::vector<LoadCase> cases)
    : shared_(other.shared_),
      cases_(std::move(cases)),
      origin_x_(other.origin_x_),
      origin_y_(other.origin_y_),
      size_(other.size_) {
  for (const LoadCase& c : cases_) loads_.emplace_back(structure(), c);
  units_.resize(cases_.size());
}

const Unit& Responses::unit(int load_case) const {
  auto& kept = units_[at(load_case)];
  if (!kept) {
    const VectorXd nodal = loads_[at(load_case)].nodal(structure());
    kept = std::make_unique<Unit>();
    kept->response = structure().respond(nodal);
    kept->loads = structure().freedoms().reduce(nodal);
    kept->total = total(nodal);
    kept->idle = structure().freedoms().idle_moments(nodal);
  }
  return *kept;
}

const VectorXd& Responses::gaps() const {
  if (shared_->gaps.size() == 0) {
    VectorXd nodal = VectorXd::Zero(structure().freedoms().nodal_size());
    for (int i = 0; i < structure().contacts(); ++i) {
      const Spring& s = structure().springs()[at(i)];
      for (const auto& [row, c] : s.nodal) nodal[row] += c * s.k * s.gap;
    }
    shared_->gaps = structure().respond(nodal);
  }
  return shared_->gaps;
}

const SpringColumn& Responses::column(int spring) const {
  auto& kept = shared_->columns[at(spring)];
  if (!kept) {
    VectorXd nodal = VectorXd::Zero(structure().freedoms().nodal_size());
    for (const auto& [row, c] : structure().springs()[at(spring)].nodal) nodal[row] += c;
    kept = std::make_unique<SpringColumn>();
    kept->response = structure().respond(nodal);
    kept->stretch = stretches(kept->response);
  }
  return *kept;
}

const VectorXd& Responses::nodal_unit(int row) const {
  const auto [kept, missing] = nodal_units_.try_emplace(row);
  if (missing) {
    kept->second = structure().respond(
        VectorXd::Unit(structure().freedoms().nodal_size(), static_cast<Index>(row)));
  }
  return kept->second;
}

VectorXd Responses::stretches(const VectorXd& response) const {
  VectorXd s(structure().changeable());
  for (Index i = 0; i < s.size(); ++i) s[i] = structure().springs()[at(i)].stretch(response);
  return s;
}

Eigen::Vector3d Responses::total(const VectorXd& nodal) const {
  Eigen::Vector3d sum = Eigen::Vector3d::Zero();
  const auto add = [&](std::size_t n, double x, double y) {
    const Index row = 3 * static_cast<Index>(n);
    sum += about_middle(x, y, nodal[row]);
    sum[1] += nodal[row + 1];
    sum[2] += nodal[row + 2];
  };
  const Frame& frame = structure().frame();
  for (std::size_t n = 0; n < frame.nodes.size(); ++n) add(n, frame.nodes[n].x, frame.nodes[n].y);
  for (std::size_t p = 0; p < frame.plates.size(); ++p) {
    add(frame.nodes.size() + p, frame.plates[p].x, frame.plates[p].y);
  }
  return sum;
}

}  // namespace underprop::solver
