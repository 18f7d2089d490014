// Lateral resistance of dowel-type fasteners, per shear plane: EN 1995-1-1 8.2.
//
// Units: N, mm, MPa, N mm. Arguments without meaning throw std::domain_error.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::eurocode {

/// Share of the Johansen part up to which the rope effect counts. EN 1995-1-1 8.2.2(2): values are
/// data (round nails 15 %, square 25 %, other nails 50 %, screws 100 %, bolts 25 %, dowels 0).
/// The rope effect of a mode is min(F_ax,Rk/4; share x its Johansen part).
struct Rope {
  Force F_ax_Rk;       ///< characteristic withdrawal of the fastener; 0 = not counted
  double share = 0.0;  ///< 0 to 1
};

/// A timber-to-timber joint. Piece 1 holds the head (double shear: the two side pieces), piece 2
/// the point (double shear: the middle piece).
struct TimberToTimber {
  Stress f_h_1_k;  ///< embedment strength of piece 1
  Stress f_h_2_k;  ///< embedment strength of piece 2
  Length t_1;      ///< thickness of piece 1, or penetration in it
  Length t_2;      ///< penetration in piece 2; double shear: thickness of the middle piece
  Length d;        ///< diameter
  Moment M_y_Rk;   ///< yield moment
  Rope rope;
};

/// All modes of a joint and the one that governs, for printing. Each mode includes its rope effect.
struct SingleShear {
  Force a, b, c, d, e, f;  ///< (8.6) (a) to (f), N per shear plane
  Force F_v_Rk;            ///< the smallest
  char governing = 'a';
};
struct DoubleShear {
  Force g, h, j, k;  ///< (8.7) (g) to (k), N per shear plane
  Force F_v_Rk;      ///< the smallest
  char governing = 'g';
};

/// EN 1995-1-1 8.2.2(1), (8.6), with beta = f_h,2/f_h,1, (8.8).
SingleShear timber_to_timber_single_shear(const TimberToTimber& joint);

/// EN 1995-1-1 8.2.2(1), (8.7): two side pieces, per shear plane.
DoubleShear timber_to_timber_double_shear(const TimberToTimber& joint);

/// A steel plate on the outside of a timber piece.
struct SteelToTimber {
  Stress f_h_k;   ///< embedment strength of the timber
  Length t_1;     ///< penetration in the timber (single shear)
  Length plate;   ///< thickness of the plate
  Length d;       ///< diameter
  Moment M_y_Rk;  ///< yield moment
  Rope rope;
};

/// The modes of a steel-to-timber joint in single shear, for printing.
struct SteelSingleShear {
  Force a, b;     ///< thin plate, (8.9)
  Force c, d, e;  ///< thick plate, (8.10): f_h t_1 d; one hinge; two hinges
  Force thin;     ///< min(a, b)
  Force thick;    ///< min(c, d, e)
  Force F_v_Rk;   ///< thin for plate <= 0.5 d, thick for plate >= d, linear between
};

/// EN 1995-1-1 8.2.3(1) and (3), (8.9), (8.10). A plate counts as thick only where the hole's
/// clearance is below 0.1 d (8.2.3(1)): set `close_fit` false otherwise and it counts as thin.
SteelSingleShear steel_to_timber_single_shear(const SteelToTimber& joint, bool close_fit);

}  // namespace underprop::standards::eurocode
