// Rigid plates laid on one frame, wherever they stand: states from condensed columns.
//
// A plate in the matrix (frame.hpp) must be assembled and factored anew for every place. Here the frame
// is factored once without it. The plate presses on nodes with forces f >= 0; for a state
//   (A + 1/k) f - S'x + B p = w - gap     at nodes that are pressed,
//   S f + (1/k - C) x       = gap - s     at contacts of the frame that are open,
//   B'f                     = -P          for the plate,
// where A is the frame's flexibility at those nodes (columns kept for the whole bed of nodes), S and C
// the stretches of the frame's own contacts under f and under their own forces, x what an open contact
// is short of, p the plate's motion, P its load, and w and s come from the other loads (all contacts of
// the frame closed). Which nodes are pressed and which contacts are open is found by block pivoting
// (contact.hpp) from the state before; every inequality is verified. Whatever is out of the ordinary (no
// set found, contacts that touch without force, a plate that may rock) is put to Analysis::solve with
// the plate in the matrix, whose method ends for every input.
//
// Units N, mm, rad and signs as in frame.hpp and analysis.hpp. Not for more than one thread at a time.
#pragma once

#include "underprop/solver/condensed.hpp"

#include <memory>
#include <vector>

namespace underprop::solver {

/// What does not depend on the loads or on where the plates stand.
class PlateBed {
public:
  /// `analysis`: of a frame without plates, and must outlive this; `members`: their end forces are read
  /// always; `boards`: straight members without torsional stiffness, on whose nodes plates may stand.
  /// Throws InvalidFrame for a frame with plates or a member that does not exist.
  PlateBed(const Analysis& analysis, std::vector<int> members, std::vector<int> boards);
  ~PlateBed();
  PlateBed(const PlateBed&) = delete;
  PlateBed& operator=(const PlateBed&) = delete;

private:
  friend class Plated;
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

/// Plates on a bed under load cases.
class Plated {
public:
  /// `bed` must outlive this. Plates must stand on nodes of the bed's boards with finite stiffness;
  /// `cases` may load the plates; of the bed's boards those of `boards` are read. Throws InvalidFrame.
  Plated(const PlateBed& bed, std::vector<Plate> plates, std::vector<LoadCase> cases,
         std::vector<int> boards);
  ~Plated();
  Plated(Plated&&) noexcept;
  Plated& operator=(Plated&&) noexcept;

  /// As Condensed::solve: `members` first, then `boards` when asked to.
  void solve(std::span<const CaseFactor> combination, bool with_boards,
             CondensedState& state) const;

  /// Index into CondensedState::springs; -1: rigid, not read.
  [[nodiscard]] int of_support(int support) const;
  [[nodiscard]] int of_link(int link) const;
  [[nodiscard]] double length(int position) const;  ///< mm, of members then boards
  [[nodiscard]] std::size_t asked_in_full() const;  ///< states put to Analysis::solve so far

  /// The frame with its plates in the matrix; built when first asked for.
  [[nodiscard]] const Analysis& whole() const;

private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace underprop::solver
