#include "standards/combination_book.hpp"

#include "standards/sheet.hpp"

namespace underprop::standards {

namespace {

std::size_t slot(Purpose purpose, const Circumstances& circumstances) {
  const auto index = static_cast<std::size_t>(purpose);
  need(index < 5, "unknown purpose of a combination");
  return index * 4 + (circumstances.contents_permanent ? 2 : 0) + (circumstances.snow ? 1 : 0);
}

}  // namespace

CombinationBook::CombinationBook(const Build& build) {
  for (const Purpose purpose : {Purpose::strength, Purpose::uplift, Purpose::service_now,
                                Purpose::service_long, Purpose::ground}) {
    for (const bool permanent : {false, true}) {
      for (const bool snow : {false, true}) {
        const Circumstances circumstances{permanent, snow};
        combinations_[slot(purpose, circumstances)] = build(purpose, circumstances);
      }
    }
  }
}

const std::vector<Combination>& CombinationBook::of(Purpose purpose,
                                                    const Circumstances& circumstances) const {
  return combinations_[slot(purpose, circumstances)];
}

}  // namespace underprop::standards
