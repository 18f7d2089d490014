// Which demands of a state need not be told, because they change nothing.
#include "run.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace underprop::assessment {

using standards::Purpose;

void Run::sort_items_by_line(const model::Model& model) {
  const std::vector<Item>& list = bare_ ? bare_items_ : items_;
  const std::size_t lines = model.joists.size() + model.bearers.size() + model.ledgers.size();
  line_items_.assign(3 * lines, {});
  for (std::size_t k = 0; k < list.size(); ++k) {
    const auto put = [&](std::size_t first, int effect) {
      line_items_[3 * (first + static_cast<std::size_t>(list[k].index)) +
                  static_cast<std::size_t>(effect)]
          .push_back(static_cast<int>(k));
    };
    const std::size_t bearers = model.joists.size(), ledgers = bearers + model.bearers.size();
    switch (list[k].source) {
      case Source::joist_sag:
      case Source::joist_hog:
      case Source::joist_shear:
        put(0, static_cast<int>(list[k].source) - static_cast<int>(Source::joist_sag));
        break;
      case Source::bearer_sag:
      case Source::bearer_hog:
      case Source::bearer_shear:
        put(bearers, static_cast<int>(list[k].source) - static_cast<int>(Source::bearer_sag));
        break;
      case Source::ledger_sag:
      case Source::ledger_hog:
      case Source::ledger_shear:
        put(ledgers, static_cast<int>(list[k].source) - static_cast<int>(Source::ledger_sag));
        break;
      default:
        break;
    }
  }
  const double any = std::numeric_limits<double>::infinity();
  for (solver::Limits* limits : {&limits_, &no_limits_needed_}) {
    limits->sag.assign(lines, any);
    limits->hog.assign(lines, any);
    limits->shear.assign(lines, any);
  }
}

const solver::Limits& Run::limits(Purpose purpose, int combination) {
  if (purpose != Purpose::strength) return no_limits_needed_;
  const std::vector<Item>& list = bare_ ? bare_items_ : items_;
  const auto c = static_cast<std::size_t>(combination);
  const auto of = [&](const std::vector<int>& items) {
    double least = std::numeric_limits<double>::infinity();
    for (const int k : items) {
      const auto i = static_cast<std::size_t>(k);
      double enough = list[i].worst[c].demand;
      // Not where every joist's own moment is asked for: beams that sway, boards that may be jointed.
      if (quick_ && !bare_ && !kept_->raised && !joints_open() &&
          kept_->resistance.size() == items_.size() && c < kept_->resistance[i].size()) {
        // A demand that makes less of a utilisation than the largest so far is not the largest.
        const std::optional<double>& resistance = kept_->resistance[i][c];
        if (resistance && !std::isnan(*resistance))
          enough = std::max(enough, largest_ * *resistance);
      }
      least = std::min(least, enough);
    }
    return least;
  };
  for (std::size_t g = 0; g < limits_.sag.size(); ++g) {
    limits_.sag[g] = of(line_items_[3 * g]);
    limits_.hog[g] = of(line_items_[3 * g + 1]);
    limits_.shear[g] = of(line_items_[3 * g + 2]);
  }
  return limits_;
}

}  // namespace underprop::assessment
