#include "standards/ledger_couple.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace underprop::standards {

Force pull_of_couple(Force V, Length arm, Length lever) {
  if (!(V.value() >= 0.0) || !(arm.value() >= 0.0) || !(lever.value() > 0.0))
    throw std::domain_error("pull_of_couple: meaningless argument");
  return V * (arm / lever);
}

Length lever_of_rows(std::span<const Length> rows) {
  if (rows.empty()) throw std::domain_error("lever_of_rows: no row");
  double squares = 0.0, highest = 0.0;
  for (const Length row : rows) {
    if (!std::isfinite(row.value())) throw std::domain_error("lever_of_rows: heights");
    const double y = std::max(0.0, row.value());
    squares += y * y;
    highest = std::max(highest, y);
  }
  return highest > 0.0 ? mm(squares / (static_cast<double>(rows.size()) * highest)) : mm(0.0);
}

Length least_lever_of_two_rows(Length mean) {
  if (!(mean.value() > 0.0)) throw std::domain_error("least_lever_of_two_rows: the mean");
  return 2.0 * (std::sqrt(2.0) - 1.0) * mean;
}

}  // namespace underprop::standards
