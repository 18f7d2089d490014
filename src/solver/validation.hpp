// Refusing what is not a model. All functions throw InvalidFrame, naming the item and the reason.
#pragma once

#include "underprop/solver/analysis.hpp"

namespace underprop::solver {

/// Indices in range; finite coordinates; members of non-zero length with EI > 0, kGA > 0, GJ >= 0;
/// stiffnesses >= 0 and not NaN; gaps finite and 0 unless compression_only; link nodes on one
/// vertical; a plate has at least three contacts that are not on one line, on different nodes.
void validate(const Frame& frame);

/// Indices in range, finite values, 0 <= a < b <= L for line loads, 0 <= a <= L for point loads.
/// Positions may pass an end by rounding (1e-9 L) and are then moved to it.
void validate(const Frame& frame, LoadCase& load_case);

void validate(const std::vector<LoadCase>& cases, std::span<const CaseFactor> combination);

/// A rigid two-way support is a constraint of the factored frame and cannot change.
void validate(const Frame& frame, std::span<const SupportChange> changes);

/// Added supports stand under existing nodes with finite k_w >= 0; added members as in a frame.
void validate(const Frame& frame, const Additions& additions);

/// The largest extent of the nodes in x or y, mm.
[[nodiscard]] double extent(const Frame& frame);

}  // namespace underprop::solver
