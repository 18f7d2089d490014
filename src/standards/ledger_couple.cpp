#include "underprop/standards/ledger_couple.hpp"

#include <stdexcept>

namespace underprop::standards {

Force pull_of_couple(Force V, Length arm, Length lever) {
  if (!(V.value() >= 0.0) || !(arm.value() >= 0.0) || !(lever.value() > 0.0))
    throw std::domain_error("pull_of_couple: meaningless argument");
  return V * (arm / lever);
}

}  // namespace underprop::standards
