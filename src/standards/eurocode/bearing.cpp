#include "standards/eurocode/bearing.hpp"

#include "standards/eurocode/require.hpp"

namespace underprop::standards::eurocode {

namespace {

Length extra_length(Length l, const BearingSide& side) {
  require(side.to_member_end.value() >= 0 && side.to_next_contact.value() >= 0,
          "effective_contact_length: distances must not be negative");
  return min(min(mm(30.0), side.to_member_end), min(l, side.to_next_contact / 2.0));
}

}  // namespace

Length effective_contact_length(Length l, const BearingSide& left, const BearingSide& right) {
  require(l.value() > 0, "effective_contact_length: contact must be positive");
  return l + extra_length(l, left) + extra_length(l, right);
}

Stress bearing_stress(Force F, Length b, Length l_ef) {
  require(b.value() > 0 && l_ef.value() > 0, "bearing_stress: contact must be positive");
  return F / (b * l_ef);
}

double k_c_90(BearingSupport support, bool solid_softwood, Length l_1, Length h) {
  require(h.value() > 0 && l_1.value() >= 0, "k_c_90: sizes");
  if (!solid_softwood || l_1 < 2.0 * h) return 1.0;
  return support == BearingSupport::continuous ? 1.25 : 1.5;
}

Force bearing_resistance_characteristic(double k_c_90, Stress f_c_90_k, Length b, Length l_ef) {
  require(k_c_90 >= 1.0 && f_c_90_k.value() > 0, "bearing_resistance: strength");
  require(b.value() > 0 && l_ef.value() > 0, "bearing_resistance: contact must be positive");
  return k_c_90 * f_c_90_k * (b * l_ef);
}

}  // namespace underprop::standards::eurocode
