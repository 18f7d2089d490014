// Thousands of states of one structure, by condensed quantities only.
//
// Most questions about a deck ask for a few hundred numbers (forces in its supports and links, forces
// at the ends of the members that are checked), not for every displacement. Each of these is linear in
// the loads while the contact state holds. So every load case and every one-way contact is solved once
// against the factored frame, only those numbers are kept, and a state costs a sum of short vectors
// and a complementarity problem on the contacts (contact.hpp). The open sets met so far are kept with
// their factors: the next state mostly has one of them.
//
// It gives the numbers of Analysis::solve for the same question; whatever is out of the ordinary
// (mechanisms, contacts that touch without force, rigid contacts, idle moments) is put to
// Analysis::solve itself. Complementarity is verified here for every state; the residual is not: what
// governs is to be solved again by Analysis::solve before it is printed.
//
// Units N, mm, rad and signs as in analysis.hpp. Not for more than one thread at a time.
#pragma once

#include "solver/states.hpp"

#include <memory>
#include <vector>

namespace underprop::solver {

class Condensed final : public States {
public:
  /// Reads the end forces of `first` always and those of `second` when asked to. Members of `first` are
  /// read quickest where loads between their ends are uniform (their own weight); any others put the
  /// question to Analysis::solve. `groups`: of `first`, ascending, for limits. `analysis` must outlive
  /// this. Throws InvalidFrame for a member that does not exist or groups that are none.
  Condensed(const Analysis& analysis, std::vector<int> first, std::vector<int> second,
            std::vector<Group> groups = {});
  /// The same frame (an analysis made from the other's, see Analysis) under other load cases; what
  /// does not depend on the loads is shared.
  Condensed(const Condensed& other, const Analysis& analysis);
  ~Condensed() override;
  Condensed(Condensed&&) noexcept;
  Condensed& operator=(Condensed&&) noexcept;

  /// The number is good for every Condensed of this frame.
  [[nodiscard]] int prepare(std::span<const SupportChange> changes) const override;
  void solve(std::span<const CaseFactor> combination, int change, bool with_others, State& state,
             const Limits* limits = nullptr, int kind = -1) const override;

  [[nodiscard]] int of_support(int support) const override;
  [[nodiscard]] int of_link(int link) const override;
  [[nodiscard]] double length(int position) const override;
  [[nodiscard]] int read_always() const override;
  /// Members in the order in which they are read: `first`, then `second`.
  [[nodiscard]] const std::vector<int>& members() const;

  [[nodiscard]] const Analysis& whole() const override;
  [[nodiscard]] std::size_t asked_in_full() const override;

private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace underprop::solver
