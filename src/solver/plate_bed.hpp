// The bed of plated.hpp, and the places on it: what is shared by all that is asked there.
#pragma once

#include "group_bounds.hpp"
#include "solver/contact_memory.hpp"
#include "solver/plated.hpp"
#include "solver/responses.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <array>
#include <map>
#include <memory>
#include <optional>
#include <vector>

namespace underprop::solver {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// A reading, and bounds on it (see GroupBounds).
struct BedColumn {
  VectorXd rows, bounds;
};

/// Plates that press on the same nodes have the same contact problem, whatever they weigh and wherever
/// their loads stand: neighbouring places often do.
struct Stance {
  std::vector<int> top;            ///< node of the bed per contact, of one plate after the other
  std::vector<std::size_t> first;  ///< contact with which each plate begins
  VectorXd k, gap;
  std::vector<std::array<double, 2>> reference;  ///< per plate, x, y: the mean of its contacts
  MatrixXd B;                                    ///< contacts x 3 per plate, about the references
  MatrixXd S;                                    ///< contacts of the frame x contacts of the plates
  Eigen::LLT<MatrixXd> stiffness;                ///< of A + 1/k
  MatrixXd border;                               ///< L^-1 B
  Eigen::LLT<MatrixXd> motion;                   ///< of border' border
  bool rocks = false;                            ///< the plates may: nothing else is valid then
  VectorXd scale;                                ///< of the complementarity problem
  std::vector<std::unique_ptr<VectorXd>> columns;  ///< of its matrix
  VectorXd gap_contacts;                           ///< what the gaps alone do, as contacts()
  ContactMemory memory;

  void gather(const PlateBed::Impl& bed);
  /// W v - Z P: forces of the plates' contacts under deflections v of their nodes and loads P.
  [[nodiscard]] VectorXd press(const VectorXd& v, const VectorXd& P) const;
  /// f0, then s0 + S f0: see plated.hpp.
  [[nodiscard]] VectorXd contacts(const VectorXd& rows, const VectorXd& v, const VectorXd& P) const;
  /// A column of the scaled matrix of the complementarity problem.
  const VectorXd& column(const PlateBed::Impl& bed, int contact);
};

/// Rows of a reading: the stretch of every spring; Mi, Vi of every member; w of every node of the bed;
/// the rotation along its board of every node of the bed.
struct PlateBed::Impl {
  const Analysis* analysis = nullptr;
  std::vector<int> members, boards;
  std::vector<int> support_spring, link_spring;
  std::vector<int> top_of;  ///< per node; -1: not of the bed
  struct Top {
    int node;
    double cx, cy;  ///< direction of its board
  };
  std::vector<Top> tops;
  bool rigid_contacts = false;
  VectorXd k, gap;             ///< per spring
  std::vector<double> length;  ///< of the members
  std::optional<GroupBounds> groups;
  mutable std::vector<std::unique_ptr<BedColumn>> contact_columns, node_columns;
  mutable std::unique_ptr<BedColumn> gaps;
  /// What was open in the last state of a kind: where the next place starts.
  struct Open {
    std::vector<char> lifted;   ///< per node of the bed
    std::vector<int> contacts;  ///< of the frame
  };
  mutable std::map<int, Open> last;
  mutable std::vector<std::shared_ptr<Stance>> stances;  ///< the latest last

  [[nodiscard]] const Structure& structure() const { return analysis->responses().structure(); }
  [[nodiscard]] Index springs() const { return k.size(); }
  [[nodiscard]] Index first_top() const {
    return springs() + 2 * static_cast<Index>(members.size());
  }
  [[nodiscard]] Index rows() const { return first_top() + 2 * static_cast<Index>(tops.size()); }

  [[nodiscard]] VectorXd read(const VectorXd& u, const CaseLoads* loads) const;
  [[nodiscard]] BedColumn column(const VectorXd& forces) const;
  [[nodiscard]] const BedColumn& contact_column(int contact) const;
  [[nodiscard]] const BedColumn& node_column(int top) const;
  [[nodiscard]] const BedColumn& gap_response() const;
  /// The stance on these contacts; what is not known is made. `first`: of each plate among the contacts.
  [[nodiscard]] std::shared_ptr<Stance> stance(const std::vector<int>& top,
                                               const std::vector<std::size_t>& first,
                                               const VectorXd& k, const VectorXd& gap) const;
};

}  // namespace underprop::solver
