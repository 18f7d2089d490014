// How the clause functions reject arguments for which their formula has no meaning.
#pragma once

#include <stdexcept>

namespace underprop::standards::north_america {

/// Throws std::domain_error with `message` unless `condition` holds. Conditions are written so that
/// a NaN fails them. This guards against faults of the caller; a fixing or a member that merely
/// lies outside a clause's range of validity gets no capacity or std::nullopt from that clause
/// instead.
inline void require(bool condition, const char* message) {
  if (!condition) throw std::domain_error(message);
}

}  // namespace underprop::standards::north_america
