// Eurocode 5 with UK values behind the Standard interface. Private: make_eurocode_uk() is the door.
#pragma once

#include "standards/combination_book.hpp"
#include "standards/sheet.hpp"
#include "tables.hpp"
#include "underprop/standards/standard.hpp"

#include <string>
#include <vector>

namespace underprop::standards::eurocode {

class EurocodeUk final : public Standard {
public:
  EurocodeUk();

  [[nodiscard]] std::string name() const override { return "Eurocode 5 with UK values"; }
  [[nodiscard]] bool us_customary() const override { return false; }
  [[nodiscard]] std::vector<Combination> combinations(Purpose, const Circumstances&) const override;

  /// EN 338. Incising slits have no factor in this standard; the mark is kept.
  [[nodiscard]] Timber timber(const std::string& name, Role, Length breadth, Length depth,
                              bool incised) const override;
  [[nodiscard]] std::vector<std::string> timber_names() const override;
  /// Mean values; in the long term divided by 1 + k_def, (2.7), (2.8) with psi_2 = 1.
  [[nodiscard]] Elastic elastic(const Timber&, Term) const override;
  [[nodiscard]] Stress E_stability(const Timber&) const override;
  [[nodiscard]] Stress E_across(const Timber&) const override;

  [[nodiscard]] Check bending(const BendingDemand&, const Combination&) const override;
  [[nodiscard]] Check shear(const ShearDemand&, const Combination&) const override;
  [[nodiscard]] Check bearing(const BearingDemand&, const Combination&) const override;
  /// The moment is put about the weaker axis, whichever way the offset lies. With a moment the
  /// demand is the sum of stress ratios of (6.24) and the resistance 1.
  [[nodiscard]] Check column(const ColumnDemand&, const Combination&) const override;
  [[nodiscard]] Check joist_end(const EndDemand&, const Combination&) const override;
  [[nodiscard]] bool joist_end_counts(const EndDemand&) const override;
  [[nodiscard]] Check ledger_fixing(const LedgerFixingDemand&, const Combination&) const override;
  [[nodiscard]] Check ledger_pull_off(const LedgerFixingDemand&, const Combination&) const override;
  [[nodiscard]] bool ledger_fixing_counts(const LedgerFixingDemand&) const override;
  [[nodiscard]] Check side_bolts(const SideBoltDemand&, const Combination&) const override;
  [[nodiscard]] Check hold_down(const HoldDownDemand&, const Combination&) const override;
  [[nodiscard]] Check ground(const GroundDemand&, const Combination&) const override;
  [[nodiscard]] std::string not_allowed(const Weakening&) const override;
  [[nodiscard]] double shear_share(Length from, Length to, Length depth) const override;
  [[nodiscard]] Check held_upright(Length breadth, Length depth, bool ends_held,
                                   bool edge_held) const override;
  [[nodiscard]] Check board_point_load(const Timber&, Length width, Length thickness, Length span,
                                       bool continuous, Force load) const override;
  [[nodiscard]] Check board_overhang(const Timber&, Length width, Length thickness, Length overhang,
                                     Force load) const override;

  /// Between the single and the doubled slip modulus of Table 7.1 (geometric mean), no more nails
  /// than the generic hanger counts.
  [[nodiscard]] Stiffness hanger_slip(int nails, const Timber& joist) const override;
  /// K_ser of one shear plane, Table 7.1. The hole's clearance is no stiffness: a gap.
  [[nodiscard]] Stiffness bolt_slip(Length diameter, const Timber&) const override;

  [[nodiscard]] GroundModuli moduli(SoilKind) const override;
  [[nodiscard]] ServiceLimits limits() const override { return tables_.limits; }
  [[nodiscard]] LoadValues loads(Length deck_height) const override;

private:
  [[nodiscard]] Check board_strength(Sheet&, const Timber&, Length thickness) const;
  [[nodiscard]] std::vector<Combination> build(Purpose, const Circumstances&) const;
  void k_mod(Sheet&, const Combination&) const;
  double characteristic_ledger_fixing(Sheet&, const LedgerFixingDemand&) const;
  /// R_d = k_mod R_k/gamma_M of a joint, in N; R_k is a line of the sheet.
  double joint_resistance(Sheet&, const Combination&) const;
  /// Splitting of a piece whose breadth is line `b` and depth line h, line F_90,Rk in N.
  double hanger_nail_value(Sheet&, const Timber& carrier) const;
  double splitting(Sheet&, const Timber&, const char* b,
                   std::optional<Length> h_e = std::nullopt) const;
  double bearing_resistance(Sheet&, const BearingDemand&, const Combination&) const;
  /// Lines of the reference strength, gamma_M and the design strength, which is `factors` times it.
  void strength(Sheet&, const char* symbol, const char* reference, Stress f_k, const Timber&,
                const std::string& factors) const;
  /// Nails of a ledger strip under one joist; R_strip,k in N.
  double ledger_strip_nails(Sheet&, const EndDemand&) const;
  void pulled_through(Sheet&, const LedgerFixingDemand&, const Cited& disc, const char* what) const;
  void spread_of_plain_concrete(Sheet&, const std::string& allowed) const;
  double allowable_on_sand(Sheet&, const std::string& name, const AnnexD&, bool waterlogged,
                           Length depth) const;

  double allowable_on_clay(Sheet&, const GroundDemand&, const std::optional<Undrained>&) const;

  Tables tables_;
  CombinationBook combinations_;
};

/// k_mod lies between 0 and this, Table 3.1.
inline constexpr double most_k_mod = 1.1;
inline Citation ec5(const char* where) { return Citation{"en1995-1-1", where}; }
inline Citation ec7(const char* where) { return Citation{"en1997-1", where}; }
void need_timber(const Timber& timber);

}  // namespace underprop::standards::eurocode
