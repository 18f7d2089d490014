// Reference design values of sawn lumber and the factors that adjust them: NDS chapters 2 and 4.
//
// Tables are data: the functions here take the rows, and hold only the rules for using them.
#pragma once

#include "underprop/base/quantity.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace underprop::standards::north_america {

/// Reference design values, normal duration, dry. NDS Supplement Tables 4A, 4B and 4D.
struct ReferenceValues {
  Stress F_b;       ///< bending
  Stress F_t;       ///< tension parallel to grain
  Stress F_v;       ///< shear parallel to grain
  Stress F_c_perp;  ///< compression perpendicular to grain
  Stress F_c;       ///< compression parallel to grain
  Stress E;         ///< modulus of elasticity
  Stress E_min;     ///< modulus of elasticity for stability
};

/// A nominal size with its dressed size. NDS Supplement Table 1A.
struct DressedSize {
  double nominal_in = 0.0;
  Length dressed;
};

/// The smallest nominal size whose dressed size is at least `actual` (1 mm of measuring error
/// allowed), so that a size between two is taken as the next larger, whose size factor is not more.
/// `sizes` ascending. std::nullopt if `actual` is larger than the last.
std::optional<double> nominal_size(std::span<const DressedSize> sizes, Length actual);

/// A row of the size factor table. NDS Supplement Table 4A, "Size factors, C_F".
struct SizeFactorRow {
  double nominal_width_in = 0.0;
  double F_b_2_3 = 1.0;  ///< for F_b, 2 and 3 in. thick
  double F_b_4 = 1.0;    ///< for F_b, 4 in. thick
  double F_t = 1.0;
  double F_c = 1.0;
};
struct SizeFactors {
  double F_b = 1.0, F_t = 1.0, F_c = 1.0;
};
/// C_F of dimension lumber graded other than Southern Pine: the first row not narrower than
/// `nominal_width_in`, else the last ("14 in. and wider"). NDS 4.3.6.1, Supplement Table 4A.
SizeFactors size_factors(std::span<const SizeFactorRow> rows, double nominal_width_in,
                         double nominal_thickness_in);

/// C_F = (12/d)^(1/9) <= 1 on F_b of beams 5x5 in. and larger deeper than 12 in. NDS 4.3.6.2.
double size_factor_timber(Length d);

/// A row of the flat use factor table. NDS Supplement Table 4A, "Flat use factor, C_fu".
struct FlatUseRow {
  double nominal_width_in = 0.0;
  double thick_2_3 = 1.0;
  double thick_4 = 1.0;
};
/// C_fu of lumber loaded on its wide face: the last row not wider than `nominal_width_in`. NDS
/// 4.3.7.
double flat_use_factor(std::span<const FlatUseRow> rows, double nominal_width_in,
                       double nominal_thickness_in);

/// One factor for each design value of NDS Table 4.3.1.
struct PerValue {
  double F_b = 1.0, F_t = 1.0, F_v = 1.0, F_c_perp = 1.0, F_c = 1.0, E = 1.0, E_min = 1.0;
};

/// Wet service factors, with the values up to which C_M is 1. NDS Supplement Tables 4A, 4B, 4D.
struct WetServiceRow {
  PerValue factors;
  Stress F_b_limit;  ///< C_M = 1 for F_b if F_b C_F is not more; zero: no such rule
  Stress F_c_limit;  ///< C_M = 1 for F_c if F_c C_F is not more; zero: no such rule
};
/// C_M for timber whose moisture content exceeds 19 % in use. NDS 4.3.3 and the footnotes of the
/// Supplement's tables.
PerValue wet_service_factors(const WetServiceRow& row, const ReferenceValues& values,
                             const SizeFactors& C_F);

/// Repetitive member factor on F_b of lumber 2 to 4 in. thick: `C_r` if three or more members are
/// joined by load-distributing elements at no more than 24 in., else 1. NDS 4.3.9.
double repetitive_member_factor(double C_r, int members, Length spacing,
                                double nominal_thickness_in);

/// The factors of NDS Table 4.3.1 (ASD). Those for stability and bearing come from their clauses.
struct SawnLumberFactors {
  double C_D = 1.0;   ///< load duration; not on F_c_perp, E, E_min
  PerValue C_M;       ///< wet service
  PerValue C_t;       ///< temperature
  PerValue C_i;       ///< incising
  SizeFactors C_F;    ///< size; F_b, F_t, F_c
  double C_fu = 1.0;  ///< flat use; F_b
  double C_r = 1.0;   ///< repetitive member; F_b
  double C_L = 1.0;   ///< beam stability; F_b
  double C_P = 1.0;   ///< column stability; F_c
  double C_b = 1.0;   ///< bearing area; F_c_perp
};
/// One factor that is not 1, as applied to one design value.
struct AppliedFactor {
  std::string value;   ///< "F_b"
  std::string symbol;  ///< "C_F"
  double factor = 1.0;
};
struct AdjustedValues {
  Stress F_b_star;         ///< F_b* for C_L: all factors except C_fu and C_L (3.3.3.8)
  Stress F_b_double_star;  ///< F_b** of (3.9-2): all factors except C_V
  Stress F_b_prime, F_t_prime, F_v_prime, F_c_perp_prime;
  Stress F_c_star;  ///< F_c* for C_P: all factors except C_P (3.7.1.5)
  Stress F_c_prime, E_prime, E_min_prime;
  std::vector<AppliedFactor> applied;  ///< in the order of Table 4.3.1
};
/// Reference values times the applicable factors. NDS 4.3.1, Table 4.3.1.
AdjustedValues adjusted_values(const ReferenceValues& reference, const SawnLumberFactors& factors);

}  // namespace underprop::standards::north_america
