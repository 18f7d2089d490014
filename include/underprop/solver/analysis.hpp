// Grillage analysis with one-way contact: factor once, then answer many questions.
//
// The stiffness matrix is assembled with every one-way contact closed, and factored once. A
// combination of load cases is superposed from kept unit responses; if every one-way contact is in
// compression that superposition is the solution. Otherwise the contact problem is solved on the
// condensed contact freedoms (a linear complementarity problem, see contact.hpp).
//
// An Analysis keeps responses as it goes: it may be asked by one thread at a time.
#pragma once

#include "underprop/solver/frame.hpp"

#include <memory>
#include <optional>
#include <span>
#include <stdexcept>
#include <string>
#include <vector>

namespace underprop::solver {

/// The frame or a load is not a valid model (zero-length member, unknown index, NaN ...): a fault of
/// the caller.
struct InvalidFrame : std::logic_error {
  using std::logic_error::logic_error;
};

/// A solve failed its own proof of residual, balance or complementarity. Never an answer.
struct ProofFailed : std::runtime_error {
  using std::runtime_error::runtime_error;
};

class Responses;

struct CaseFactor {
  int load_case = -1;  ///< index into the cases given to Analysis
  double factor = 0.0;
};

/// A support that differs from the factored frame in this question only: a pad softer or stiffer
/// than its neighbours, or absent (k_w = 0). Solved as a low-rank change of the one factorisation.
/// The frame's own support must be one-way or of finite k_w: a rigid two-way support is a constraint
/// and cannot change (InvalidFrame).
struct SupportChange {
  int support = -1;
  double k_w = 0.0;           ///< N/mm, finite
  std::optional<double> gap;  ///< mm; none: as in the frame
};

/// A support that this question adds under an existing node, by default one-way:
/// R = k_w max(0, -w - gap), upward on the structure.
struct SupportAddition {
  int node = -1;
  double k_w = 0.0;  ///< N/mm, finite, >= 0
  double gap = 0.0;  ///< mm, as in Support; 0 unless compression_only
  bool compression_only = true;
};

/// What this question adds to the factored frame: new supports, and new members between existing nodes
/// (a sister, blocking, a bearer under a line of nodes). Solved as a change of the one factorisation of
/// rank 1 per support and at most 3 per member (a member resists two bending deformations and a
/// twist), by the same formula as a SupportChange. No load acts on an added member: its weight is
/// given as nodal loads. Where the frame alone is loose, a load turns a node about a direction that
/// only an added member resists, or added members roll, the frame is built anew with the additions:
/// slower, the same answer.
struct Additions {
  std::vector<SupportAddition> supports;
  std::vector<Member> members;
  [[nodiscard]] bool empty() const { return supports.empty() && members.empty(); }
};

/// How far an answer may be trusted; all values are relative and dimensionless. Anything over 1e-6
/// throws ProofFailed (short stiff members may add what rounding of the displacements does to the
/// residual, up to 1e-4). On decks they are 1e-12 and less.
struct Proof {
  double residual = 0.0;  ///< |K u - f| over the largest force, moments over the largest moment
  double balance = 0.0;   ///< sum of reactions against sum of loads, vertical and both moments
  double complementarity = 0.0;  ///< worst violation of R >= 0, gap >= 0, R gap = 0
};

struct PlateResponse {
  double w = 0.0, tx = 0.0, ty = 0.0;
  std::vector<double> contacts;  ///< force per contact, N, >= 0
};

/// Internal forces of one member, x' from i to j: bending moments at both ends (sagging positive),
/// shears V = +dM/dx', torque T = GJ (phi_j - phi_i)/L.
struct MemberForces {
  double Mi = 0.0, Mj = 0.0, Vi = 0.0, Vj = 0.0, T = 0.0;
  double Mmax = 0.0, Vmax = 0.0;  ///< largest absolute values over the member, between the ends too
};

struct Displacement {
  double w = 0.0, tx = 0.0, ty = 0.0;
};

/// The response to one combination. If `mechanism` has a value there is no equilibrium (or the
/// displacements are not unique): it says which piece is loose, and there are no numbers. A contact
/// that touches without force holds nothing. Where rigid two-way links and supports close a ring,
/// the force of one of them is reported as 0 and the others balance.
struct Response {
  std::optional<std::string> mechanism;
  /// Of a mechanism: how each node moves, 1 at most, up positive, the way that the loads work on it; empty:
  /// not known.
  std::vector<double> loose_w;
  std::vector<Displacement> displacements;  ///< per node
  std::vector<double> supports;  ///< vertical reaction per support, upward on the structure
  std::vector<double> links;     ///< force per link, compression positive
  std::vector<PlateResponse> plates;
  std::vector<double> added_supports;       ///< reaction per added support, as `supports`
  std::vector<MemberForces> added_members;  ///< per added member
  bool something_lifts = false;             ///< some one-way contact is open
  Proof proof;
};

class Analysis {
public:
  /// Assembles and factors. Throws InvalidFrame. A frame that is loose even with all contacts closed
  /// is not an error: every solve then reports the mechanism.
  Analysis(Frame frame, std::vector<LoadCase> cases);
  /// The same factored frame under other load cases: nothing is assembled or factored again, and what
  /// the loads do not change is shared with `other` (so both belong to one thread). Throws InvalidFrame.
  Analysis(const Analysis& other, std::vector<LoadCase> cases);
  ~Analysis();
  Analysis(Analysis&&) noexcept;
  Analysis& operator=(Analysis&&) noexcept;

  [[nodiscard]] const Frame& frame() const;
  [[nodiscard]] const std::vector<LoadCase>& cases() const;

  /// Solves one combination with its own contact state. Throws InvalidFrame for a combination, change
  /// or addition that is none (unknown index, stiffness negative or not finite ...), ProofFailed.
  [[nodiscard]] Response solve(std::span<const CaseFactor> combination,
                               std::span<const SupportChange> changes = {},
                               const Additions& additions = {}) const;

  /// Internal forces of the named members for a response of this analysis to this combination.
  [[nodiscard]] std::vector<MemberForces> member_forces(const Response& response,
                                                        std::span<const CaseFactor> combination,
                                                        std::span<const int> members) const;

  /// Bending moment at a distance from end i of a member, sagging positive, and the shear there
  /// (just right of the point).
  struct Section {
    double M = 0.0, V = 0.0;
  };
  [[nodiscard]] Section section(const Response& response, std::span<const CaseFactor> combination,
                                int member, double at) const;

  /// Deflection (w, up positive) at a distance from end i of a member, loads on the member included.
  [[nodiscard]] double deflection(const Response& response, std::span<const CaseFactor> combination,
                                  int member, double at) const;

  /// For the parts of the solver that build on it.
  [[nodiscard]] const Responses& responses() const;

private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace underprop::solver
