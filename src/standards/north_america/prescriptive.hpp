// The rows of data/north_america/prescriptive.json: DCA 6, IRC R507, Wisconsin UDC Appendix B. Private.
#pragma once

#include "standard_tables.hpp"
#include "underprop/standards/prescriptive.hpp"

namespace underprop::standards::north_america {

/// `tables` must outlive it.
[[nodiscard]] std::unique_ptr<PrescriptiveTables> prescriptive_tables(const Tables& tables);

}  // namespace underprop::standards::north_america
