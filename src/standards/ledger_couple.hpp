// The pull on a ledger's fixings from joists beside the wall's face. Statics: every standard alike.
// Heights are measured upwards from the middle of the wall's pressure on the ledger, mm.
// Errors: std::domain_error if an argument makes no sense.
#pragma once

#include "underprop/base/quantity.hpp"

#include <span>

namespace underprop::standards {

/// T = V a/z: the load V acts at a from the wall, the wall holds the ledger up at its own face, and
/// the couple is held by the fixing's pull and the wall's pressure at z below it.
/// Statics, moments about where the wall presses.
Force pull_of_couple(Force V, Length arm, Length lever);

/// The lever z of fixings in rows with equally many in each, for the one pulled most: the ledger turns
/// as a stiff piece about where the wall presses, so that T_i goes with the height y_i, and
/// n V a = sum T_i y_i gives z = sum y_i^2 / (n max y_i). Rows at or below the pressure hold nothing;
/// 0 if all are. Statics, moments about where the wall presses.
Length lever_of_rows(std::span<const Length> rows);

/// The least that lever_of_rows can be for two rows whose mean height is known and whose spread is
/// not: rows at m + e and m - e give (m^2 + e^2)/(m + e), least at e = (sqrt 2 - 1) m, where it is
/// 2 (sqrt 2 - 1) m. Statics, moments about where the wall presses.
Length least_lever_of_two_rows(Length mean);

}  // namespace underprop::standards
