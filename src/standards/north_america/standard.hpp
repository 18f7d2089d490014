// NDS allowable stress design behind the Standard interface. Private: make_north_america_us() is the
// door.
#pragma once

#include "prescriptive.hpp"
#include "standard_tables.hpp"
#include "standards/combination_book.hpp"
#include "standards/north_america/dowel.hpp"
#include "standards/sheet.hpp"
#include "underprop/standards/standard.hpp"

#include <string>
#include <vector>

namespace underprop::standards::north_america {

class NorthAmericaUs final : public Standard {
public:
  NorthAmericaUs();

  [[nodiscard]] std::string name() const override { return "NDS allowable stress with US values"; }
  [[nodiscard]] bool us_customary() const override { return true; }
  [[nodiscard]] std::vector<Combination> combinations(Purpose, const Circumstances&) const override;

  /// NDS Supplement Tables 4A and 4B; both sides 4 1/2 in. and more: Table 4D. The values are those
  /// of the table for that width; C_F, C_M, C_i and the rest come in at each check. A grade that the
  /// table of that size lacks takes the next lower one of its species, and the label says so.
  [[nodiscard]] Timber timber(const std::string& name, Role, Length breadth, Length depth,
                              bool incised) const override;
  [[nodiscard]] std::vector<std::string> timber_names() const override;
  /// E C_M C_i; in the long term divided by K_cr of wet service.
  [[nodiscard]] Elastic elastic(const Timber&, Term) const override;
  [[nodiscard]] Stress E_stability(const Timber&) const override;
  [[nodiscard]] Stress E_across(const Timber&) const override;

  [[nodiscard]] Check bending(const BendingDemand&, const Combination&) const override;
  [[nodiscard]] Check shear(const ShearDemand&, const Combination&) const override;
  [[nodiscard]] Check bearing(const BearingDemand&, const Combination&) const override;
  /// The moment is put about the weaker axis, whichever way the offset lies. With a moment the
  /// demand is the sum of stress ratios of (15.4-1) and the resistance 1.
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
  /// The load stands at mid-span for bending and beside a support for shear.
  [[nodiscard]] Check board_point_load(const Timber&, Length width, Length thickness, Length span,
                                       bool continuous, Force load) const override;
  [[nodiscard]] Check board_overhang(const Timber&, Length width, Length thickness, Length overhang,
                                     Force load) const override;

  /// Between the soft and the stiff slip per nail (geometric mean), no more nails than the generic
  /// hanger counts.
  [[nodiscard]] Stiffness hanger_slip(int nails, const Timber& joist) const override;
  /// NDS 11.3.6, wood to wood. The hole's clearance is no stiffness: a gap.
  [[nodiscard]] Stiffness bolt_slip(Length diameter, const Timber&) const override;

  [[nodiscard]] GroundModuli moduli(SoilKind) const override;
  [[nodiscard]] ServiceLimits limits() const override { return tables_.limits; }
  [[nodiscard]] LoadValues loads(Length deck_height) const override;
  [[nodiscard]] const PrescriptiveTables* prescriptive() const override {
    return prescriptive_.get();
  }

private:
  [[nodiscard]] Check board_strength(Sheet&, const Timber&) const;
  /// What the size and the use of one piece make of its reference values.
  struct Adjusted {
    bool timbers = false;
    bool below_tables = false;  ///< thinner than 2 in. nominal: no size or flat use factor
    SawnLumberFactors factors;
  };
  /// A ledger fixing before duration and wet service, in lb.
  struct LedgerValue {
    std::string symbol = "Z";
    double Z_lb = 0.0;
    double C_M = 1.0;
    bool yield = false;  ///< from the yield equations: C_D above 1 counts; tested values never rise
    Citation source;
  };

  [[nodiscard]] std::vector<Combination> build(Purpose, const Circumstances&) const;
  /// Thinner than the 2 in. nominal with which the tables of dimension lumber begin.
  [[nodiscard]] bool is_below_tables(Length breadth, Length depth) const;
  [[nodiscard]] bool is_timber_size(Length breadth, Length depth) const;
  [[nodiscard]] double nominal_width(Length width) const;
  [[nodiscard]] double nominal_thickness(Length thickness) const;
  [[nodiscard]] Adjusted adjust(const Timber&, double C_D, bool sharing) const;
  /// The adjusted moduli, and those values that C_D = 1 and no sharing leave.
  [[nodiscard]] AdjustedValues adjusted(const Timber&) const;

  /// Lines of "F = reference", the factors that are not 1, and the adjusted value; returns psi.
  double bending_lines(Sheet&, const Timber&, const Adjusted&) const;
  double shear_lines(Sheet&, const Timber&, const Adjusted&) const;
  double compression_lines(Sheet&, const Timber&, const Adjusted&) const;
  const Citation& wet_source(const Adjusted&) const;
  void spread_of_plain_concrete(Sheet&) const;
  /// Bearing resistance in lb.
  double bearing_resistance(Sheet&, const BearingDemand&, Length length) const;
  void stability_modulus_lines(Sheet&, const Timber&, const Adjusted&) const;
  struct Factor {
    const char* symbol;
    const char* what;
    double value;
    Citation source;
    bool always;  ///< a line of its own even where it is 1
  };
  std::string factor_lines(Sheet&, const std::string& reference,
                           const std::vector<Factor>& factors) const;
  /// One plane or two, with R_e, R_t, k, R_d and the governing mode; Z in lb.
  static double yield_lines(Sheet&, const DowelJoint&, bool two_planes);
  static Stress dowel_bearing_line(Sheet&, const char* symbol, const std::string& G,
                                   const std::string& D, const std::string& remark);
  [[nodiscard]] const Screw* lag_screw(Length diameter) const;
  double penetration_lines(Sheet&, Length l_m, Length D, double least, double full,
                           const char* D_symbol) const;
  /// Nails of a ledger strip under one joist, line Z_strip in lb.
  double ledger_strip_nails(Sheet&, const EndDemand&) const;

  /// C_D (no more than `greatest_C_D`) and C_M on the line `of` of a joint, line Z' in lb.
  double joint_resistance(Sheet&, const std::string& of, const Combination&, double C_M,
                          double greatest_C_D, const Citation& wet) const;
  LedgerValue ledger_value(Sheet&, const LedgerFixingDemand&) const;
  double hanger_nail_value(Sheet&, const Timber& carrier) const;
  const Cited* tested_value(const LedgerFixingDemand&) const;
  double toe_nail_value(Sheet&, const Timber& joist, const Timber& carrier) const;

  Tables tables_;
  std::unique_ptr<PrescriptiveTables> prescriptive_ = prescriptive_tables(tables_);
  CombinationBook combinations_;
};

/// C_D lies between 0 and this, NDS Table 2.3.2.
inline constexpr double most_C_D = 2.0;
inline Citation nds(const char* where) { return Citation{"nds", where}; }
/// N mm as lb in.
constexpr double in_pound_inches(Moment m) { return in_pounds_force(m / inches(1.0)); }
void need_timber(const Timber& timber);
void given_section(Sheet& sheet, Length breadth, Length depth);

}  // namespace underprop::standards::north_america
