// The tables of data/eurocode that the checks use, read once. Private to src/standards/eurocode.
#pragma once

#include "standards/eurocode/actions.hpp"
#include "standards/shared.hpp"
#include "standards/sheet.hpp"
#include "underprop/standards/standard.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace underprop::standards::eurocode {

/// A row of EN 338; MPa and kg/m3.
struct ClassRow {
  std::string name;
  double f_m, f_t_0, f_c_0, f_c_90, f_v, E_mean, E_05, E_90, G, rho_k, rho_mean;
  bool hardwood = false;
};

struct Screw {
  double d = 0.0, root = 0.0, head = 0.0, f_u = 0.0, length = 0.0;  // mm, MPa
};

struct AnnexD {
  double phi_deg = 0.0, c_kPa = 0.0, moist_kN_m3 = 0.0, submerged_kN_m3 = 0.0;
  Citation source;
};

/// Undrained shear strength that a consistency told by hand stands for, kPa.
struct Undrained {
  double c_u_kPa = 0.0;
  Citation source;
};

/// What this standard knows of a soil besides.
struct SoilExtra {
  std::optional<Length> bedded_from;  ///< depth of the underside from which the bedded value holds
  std::optional<AnnexD> annex_d;
  std::optional<Undrained> undrained;
};

/// k_mod of service class 3 by duration.
struct Durations {
  double permanent = 0.0, long_term = 0.0, medium = 0.0, brief = 0.0;
};

struct Psi {
  double psi_0 = 0.0, psi_2 = 0.0;
};

struct GroundFactors {
  double Q = 1.0, phi = 1.0, c = 1.0, cu = 1.0;
};

struct Tables {
  // factors.json
  Durations k_mod;
  Citation k_mod_source;
  double k_def = 0.0;
  Cited gamma_M, gamma_M_joint, k_cr, k_sys, k_m, k_n, beta_c;
  PartialFactors str, equ;
  Citation str_source, equ_source;
  GroundFactors c1, c2;
  Psi domestic, snow, water;
  Citation psi_source;
  // timber.json
  std::vector<ClassRow> classes;
  Citation class_source;
  // fixings.json
  std::vector<Screw> screws;  ///< by diameter
  Screw hold_down_screw, hold_down_nail, strip_nail;
  double bolt_f_u = 0.0;
  Citation fastener_source;
  double hanger_nail_R_k = 0.0;  // N
  HangerNails hanger;
  Screw hanger_nail;
  Cited hanger_nail_in_timber_mm;
  double hanger_slip_soft = 0.0, hanger_slip_stiff = 0.0;  // N/mm per nail
  Citation hanger_source, end_grain_source;
  // ground.json
  std::vector<Soil> soils;  ///< kPa, by SoilKind
  std::vector<SoilExtra> soil_extras;
  Cited wet_factor, f_ctk_MPa, alpha_ct_pl, gamma_C;
  // limits.json, loads.json
  ServiceLimits limits;
  double slender_unheld = 0.0, slender_ends = 0.0, slender_both = 0.0;
  Citation slender_source;
  double hole_share = 0.0, hole_clear_depths = 0.0;
  Citation holes_source;
  LoadValues raised_loads, low_loads;
  double raised_above_mm = 0.0;
  Cited concrete_kN_m3;
  // rules.json
  Cited length_ends_not_held, packers_in_full, packed_share, seat_unknown_mm;
  Cited length_braced, length_cantilever;
  Cited band_mm, anchor_gamma_M, least_fastener_mm, screw_penetration, root_share;
  Cited washer_in_d, head_in_d, pull_of_stated, most_of_one;
  ClassRow band;
  Cited splitting_share, strip_mm;
  Cited hold_down_count, nail_point_mm, nailed_wet, screw_thread_mm, screw_angle_deg, strap_nails;
  Cited displaced_soil_kN_m3, E_to_G;

  /// The row of that class; std::out_of_range naming those there are.
  [[nodiscard]] const ClassRow& row(const std::string& name) const;
  [[nodiscard]] const Soil& soil(SoilKind kind) const;
  [[nodiscard]] const SoilExtra& extra(SoilKind kind) const;
};

/// Throws std::logic_error if the data are broken.
Tables read_tables();

}  // namespace underprop::standards::eurocode
