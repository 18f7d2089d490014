// Rigid plates laid on one frame, wherever they stand: states from condensed columns.
//
// A plate in the matrix (frame.hpp) must be assembled and factored anew for every place. Here the frame
// is factored once without it, and the flexibility A of the nodes on which plates may stand is kept. At
// one place, with all contacts pressed, the forces f on the nodes and the motion p of the plate follow
// from
//   (A + 1/k) f + B p = w - gap,   B'f = -P,
// where w comes from the other loads and P is the plate's load. What lifts (a node from the plate, or a
// contact of the frame) is found as in condensed.hpp, by a complementarity problem on the contacts:
// with W the projected inverse of A + 1/k, S the stretches of the frame's contacts under f, C those under
// their own forces, h the openings under the plate and x what an open contact of the frame is short of,
//   f = f0 + W (h + S'x) >= 0,   s - gap = s0 + S f + (1/k - C) x >= 0,
// each complementary to h and x; the matrix is symmetric and positive semidefinite. Everything is
// verified; whatever is out of the ordinary (contacts that touch without force, a plate that may rock) is
// put to Analysis::solve with the plate in the matrix.
//
// Units N, mm, rad and signs as in frame.hpp and analysis.hpp. Not for more than one thread at a time.
#pragma once

#include "solver/states.hpp"

#include <memory>
#include <vector>

namespace underprop::solver {

/// What does not depend on the loads or on where the plates stand.
class PlateBed {
public:
  /// `analysis`: of a frame without plates, and must outlive this; `members`: their end forces are read
  /// always, in `groups` as in Condensed; `boards`: straight members without torsional stiffness, on whose nodes plates may stand.
  /// Throws InvalidFrame for a frame with plates or a member that does not exist.
  PlateBed(const Analysis& analysis, std::vector<int> members, std::vector<int> boards,
           std::vector<Group> groups = {});
  ~PlateBed();
  PlateBed(const PlateBed&) = delete;
  PlateBed& operator=(const PlateBed&) = delete;

  struct Impl;

private:
  friend class Plated;
  std::unique_ptr<Impl> impl_;
};

/// Plates on a bed under load cases.
class Plated final : public States {
public:
  /// `bed` must outlive this. Plates must stand on nodes of the bed's boards with finite stiffness;
  /// `cases` may load the plates; of the bed's boards those of `boards` are read. Throws InvalidFrame.
  Plated(const PlateBed& bed, std::vector<Plate> plates, std::vector<LoadCase> cases,
         std::vector<int> boards);
  ~Plated() override;
  Plated(Plated&&) noexcept;
  Plated& operator=(Plated&&) noexcept;

  /// One changed support that is one-way is a border of the contact problem; any others are put to
  /// Analysis::solve.
  [[nodiscard]] int prepare(std::span<const SupportChange> changes) const override;
  /// `members` first, then `boards` when asked to. Deflections are told by Analysis::solve only.
  void solve(std::span<const CaseFactor> combination, int change, bool with_others, State& state,
             const Limits* limits = nullptr, int kind = -1) const override;

  [[nodiscard]] int of_support(int support) const override;
  [[nodiscard]] int of_link(int link) const override;
  [[nodiscard]] double length(int position) const override;
  [[nodiscard]] int read_always() const override;

  /// The frame with its plates in the matrix; built when first asked for.
  [[nodiscard]] const Analysis& whole() const override;
  [[nodiscard]] std::size_t asked_in_full() const override;

private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace underprop::solver
