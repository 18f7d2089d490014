// The pull on a ledger's fixings from joists hung on its face. Statics: every standard alike.
#pragma once

#include "underprop/base/quantity.hpp"

namespace underprop::standards {

/// T = V a/z: the load V acts at a from the wall, the wall holds the ledger up at its own face, and
/// the couple is held by the fixing's pull and the wall's pressure at z below it.
/// Statics, moments about where the wall presses.
Force pull_of_couple(Force V, Length arm, Length lever);

}  // namespace underprop::standards
