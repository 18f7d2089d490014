// Compression across the grain: EN 1995-1-1 6.1.5 (as amended by A1:2008).
//
// Units: N, mm, MPa. Arguments without meaning throw std::domain_error.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards::eurocode {

/// One side of a contact, along the member's grain.
struct BearingSide {
  Length to_member_end;    ///< a: from the contact's edge to the member's end, mm, >= 0
  Length to_next_contact;  ///< l_1: clear distance to the next contact on the same face, mm; a
                           ///< large number where there is none
};

/// Contact length that counts, l_ef: the contact l plus, on each side, the smallest of 30 mm, a, l
/// and l_1/2. EN 1995-1-1 6.1.5(1). `l` along the grain of the piece that is checked.
Length effective_contact_length(Length l, const BearingSide& left, const BearingSide& right);

/// sigma_c,90 = F/(b l_ef), b the contact width across the grain. EN 1995-1-1 6.1.5(1), (6.4).
Stress bearing_stress(Force F, Length b, Length l_ef);

/// How the piece that is compressed across the grain rests.
enum class BearingSupport {
  continuous,  ///< supported all along under the contact: a sole plate on a pad
  discrete     ///< on separate supports: a joist on a bearer, a bearer on a post
};

/// k_c,90 of solid softwood. EN 1995-1-1 6.1.5(2) to (4): 1.25 on continuous and 1.5 on discrete
/// supports where l_1 >= 2h; 1.0 otherwise and for every other timber. `l_1` clear distance to the
/// next contact on the same face, `h` depth of the member.
double k_c_90(BearingSupport support, bool solid_softwood, Length l_1, Length h);

/// Characteristic resistance k_c,90 f_c,90,k b l_ef. EN 1995-1-1 6.1.5(1), (6.3), (6.4).
Force bearing_resistance_characteristic(double k_c_90, Stress f_c_90_k, Length b, Length l_ef);

}  // namespace underprop::standards::eurocode
