// The tables of data/north_america that the checks use, read once. Private.
#pragma once

#include "standards/north_america/actions.hpp"
#include "standards/north_america/material.hpp"
#include "standards/shared.hpp"
#include "standards/sheet.hpp"
#include "underprop/standards/standard.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace underprop::standards::north_america {

/// One species and grade with what the tables hold of it.
struct GradeRow {
  struct Sized {
    double nominal_width_in = 0.0;  ///< 0: for every width
    ReferenceValues values;
  };
  std::string name, species, grade;
  double G = 0.0;
  bool sized_by_width = false;             ///< the rows hold the size factor already
  std::vector<Sized> dimension;            ///< 2 to 4 in. thick; ascending widths; empty: none
  std::optional<ReferenceValues> timbers;  ///< 5x5 in. and larger
  bool timbers_wet_factors = true;
};

/// A row of the tests of ledgers: bands of at least that thickness.
struct TestedBand {
  double least_in = 0.0;
  bool laminated = false;  ///< only of laminated veneer lumber
  Cited lag_lb, bolt_lb;
};

struct Nail {
  Length D, length;
  Stress F_yb;
};
struct Screw {
  Length D, root;
  Stress F_yb;
};

struct Tables {
  // factors.json
  LoadDurations C_D;
  Citation C_D_source, water_source;
  WetServiceRow wet_dimension, wet_timbers;
  Citation wet_dimension_source, wet_timbers_source;
  Cited lateral_wet, withdrawal_screw_wet, withdrawal_nail_wet;
  std::vector<SizeFactorRow> C_F;
  Citation C_F_source;
  std::vector<FlatUseRow> C_fu;
  Citation C_fu_source;
  PerValue C_i;
  Citation C_i_source;
  Cited C_r, column_c, K_e_braced, K_e_cantilever, K_cr, G_over_E, across_over_E;
  Cited toe_lateral, toe_withdrawal;
  Citation end_grain_source;
  double lag_least_D = 0.0, lag_full_D = 0.0, nail_least_D = 0.0, nail_full_D = 0.0;
  Citation penetration_source;
  // lumber.json, sizes.json
  std::vector<GradeRow> grades;  ///< in table order
  Citation dimension_source, timbers_source;
  Cited wider_than_12, thick_4_wide_8;
  std::vector<DressedSize> thicknesses, widths;  ///< widths as green, which covers dry
  Length least_timber;
  // fixings.json
  Stress bolt_F_yb;
  Citation bolt_source, screw_source, nail_source;
  std::vector<Screw> lags;  ///< by diameter
  Nail toe_nail, hold_down_nail, strip_nail;
  Screw hold_down_screw;
  HangerNails hanger;
  Nail hanger_nail;
  Cited hanger_plate_in, plate_psi;
  double hanger_slip_soft = 0.0, hanger_slip_stiff = 0.0;
  int hanger_least_nails = 0;
  Cited concrete_psi;
  std::vector<TestedBand> tested_bands;  ///< the thickest first
  double tested_D_in = 0.0, ledger_top_in = 0.0, ledger_bottom_in = 0.0;
  Citation ledger_edges_source, no_capacity_source;
  // ground.json
  std::vector<Soil> soils;  ///< psf, by SoilKind
  std::array<double, 3> surface_limit_psf{};
  Citation surface_limit_source;
  Cited wet_factor, bedded_from_in, reference_width_in, concrete_pcf;
  Cited footing_psi, plain_phi, cast_on_soil_in, plain_load_factor;
  // limits.json, loads.json
  ServiceLimits limits;
  LoadValues loads;
  double board_C_D = 1.0;
  // rules.json
  Cited beam_shaped_F_c, beam_shaped_in;
  Cited packers_in_full, packed_share, C_b_end_in, seat_unknown_in;
  Cited upright_both;
  Cited hole_share;
  int toe_least = 0;
  double toe_side_share = 0.0, toe_angle_deg = 0.0;
  Citation toe_source;
  Cited tested_tolerance_mm, tested_least_G, tested_thickness_in, band_in, band_G, wall_embedment;
  Cited bolt_least_in, bolt_most_in, bolt_group_centre, strip_in;
  Cited washer_in_D, band_F_c_perp, pull_of_stated, most_of_one;
  Cited board_span_in, board_least_in;
  Cited hold_down_count, hold_down_thread_in, hold_down_askew, hold_down_stated_C_D;

  /// The row that gives the values of that size: that grade, or the next lower one of the species
  /// where the table has none. Throws std::out_of_range naming the classes there are.
  [[nodiscard]] const GradeRow& grade(const std::string& name, bool timbers) const;
  [[nodiscard]] const Soil& soil(SoilKind kind) const;
};

/// Throws std::logic_error if the data are broken.
Tables read_tables();

}  // namespace underprop::standards::north_america
