#include "envelope.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace underprop::assessment {

using standards::Purpose;

namespace {

bool of_boards(const Item& item) {
  return item.source == Source::boards_bending || item.source == Source::boards_shear;
}

/// Reads the demand of an item. `support`, `crossing`: forces of a solver support, of a crossing.
template <class OfSupport, class OfCrossing>
Peak demand_of(const Item& item, const model::Model& m, const Effects& e, const OfSupport& support,
               const OfCrossing& crossing) {
  const auto i = static_cast<std::size_t>(item.index);
  const auto force = [](double N) { return Peak{N, 0.0}; };
  const auto part = [&](const LineEffects& line) -> const SectionEffects& {
    return item.section < 0 ? line : line.sections[static_cast<std::size_t>(item.section)];
  };
  switch (item.source) {
    case Source::joist_sag:
      return part(e.joists[i]).sag;
    case Source::joist_hog:
      return part(e.joists[i]).hog;
    case Source::joist_shear:
      return part(e.joists[i]).shear;
    case Source::bearer_sag:
      return part(e.bearers[i]).sag;
    case Source::bearer_hog:
      return part(e.bearers[i]).hog;
    case Source::bearer_shear:
      return part(e.bearers[i]).shear;
    case Source::ledger_sag:
      return part(e.ledgers[i]).sag;
    case Source::ledger_hog:
      return part(e.ledgers[i]).hog;
    case Source::ledger_shear:
      return part(e.ledgers[i]).shear;
    case Source::boards_bending:
      return force(std::max(e.boards.sag.value, e.boards.hog.value));
    case Source::boards_shear:
      return force(e.boards.shear.value);
    case Source::crossing:
    case Source::ground_wall:
      return force(crossing(m.crossings[i]));
    case Source::crossing_lift:
      return force(-crossing(m.crossings[i]));
    case Source::prop: {
      if (item.mean_of.empty()) return force(std::abs(support(m.props[i].solver_support)));
      double sum = 0.0;
      for (const int prop : item.mean_of)
        sum += std::abs(support(m.props[static_cast<std::size_t>(prop)].solver_support));
      return force(sum / static_cast<double>(item.mean_of.size()));
    }
    case Source::ground_support:
      return force(support(m.support_of[i]));
  }
  return {};
}

}  // namespace

Envelope::Envelope(std::vector<Item> items, const LoadedDeck& deck, const model::Model& model)
    : deck_(deck), items_(std::move(items)), worst_(items_.size()) {
  for (std::size_t k = 0; k < items_.size(); ++k) {
    worst_[k].resize(deck.basis().combinations.at(items_[k].purpose).size());
    (of_boards(items_[k]) ? board_items_ : by_purpose_[items_[k].purpose])
        .push_back(static_cast<int>(k));
  }
  sort_by_line(model);
}

void Envelope::tell(FirstFailure& first) {
  first_ = &first;
  first.begin(items_);
  // Not where every joist's own moment is asked for: beams that sway, boards that may be jointed.
  only_the_largest_ = !deck_.basis().raised && !joints_open(deck_.deck());
}

void Envelope::sort_by_line(const model::Model& model) {
  const std::size_t bearers = model.joists.size(), ledgers = bearers + model.bearers.size();
  const std::size_t lines = ledgers + model.ledgers.size();
  line_items_.assign(3 * lines, {});
  for (std::size_t k = 0; k < items_.size(); ++k) {
    const auto put = [&](std::size_t first, Source sag) {
      const int effect = static_cast<int>(items_[k].source) - static_cast<int>(sag);
      line_items_[3 * (first + static_cast<std::size_t>(items_[k].index)) +
                  static_cast<std::size_t>(effect)]
          .push_back(static_cast<int>(k));
    };
    switch (items_[k].source) {
      case Source::joist_sag:
      case Source::joist_hog:
      case Source::joist_shear:
        put(0, Source::joist_sag);
        break;
      case Source::bearer_sag:
      case Source::bearer_hog:
      case Source::bearer_shear:
        put(bearers, Source::bearer_sag);
        break;
      case Source::ledger_sag:
      case Source::ledger_hog:
      case Source::ledger_shear:
        put(ledgers, Source::ledger_sag);
        break;
      default:
        break;
    }
  }
  const std::vector<double> any(lines, std::numeric_limits<double>::infinity());
  limits_ = none_ = {any, any, any};
}

const solver::Limits& Envelope::limits(const StateId& id) {
  if (id.purpose != Purpose::strength) return none_;
  const auto of = [&](const std::vector<int>& items) {
    double least = std::numeric_limits<double>::infinity();
    for (const int k : items) {
      const auto i = static_cast<std::size_t>(k);
      double enough = worst_[i][static_cast<std::size_t>(id.combination)].demand;
      if (first_ != nullptr && only_the_largest_)
        enough = std::max(enough, first_->enough(i, id.combination));
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

void Envelope::record(std::size_t k, Peak peak, const StateId& id, PatternDemands* demands) {
  if (demands != nullptr)
    (*demands)[{static_cast<int>(k), id.combination}][id.pattern] = peak.value;
  Worst& worst = worst_[k][static_cast<std::size_t>(id.combination)];
  // Numbers that differ in rounding only keep the first state, so that mirror images read alike.
  if (peak.value <= worst.demand * (1.0 + 1e-9) + 1e-9) return;
  worst = {peak.value, peak.at, id};
  if (first_ == nullptr) return;
  const auto& combinations = deck_.basis().combinations.at(id.purpose);
  first_->take(items_, k, peak.value, combinations[static_cast<std::size_t>(id.combination)],
               id.combination);
}

void Envelope::take(const SolvedState& solved, PatternDemands* demands) {
  const LoadedFrame& frame = solved.frame;
  Effects e;
  if (solved.id.purpose == Purpose::strength)
    e = effects(frame.model(), frame.probes, solved.state);
  for (const int k : by_purpose_[solved.id.purpose]) {
    const auto i = static_cast<std::size_t>(k);
    const Peak peak = demand_of(
        items_[i], frame.model(), e,
        [&](int support) { return frame.reaction(support, solved.state); },
        [&](const model::Crossing& crossing) { return frame.force(crossing, solved.state); });
    record(i, peak, solved.id, demands);
  }
  if (solved.id.boards && !board_items_.empty()) take_boards(solved, demands);
}

void Envelope::take_boards(const SolvedState& solved, PatternDemands* demands) {
  const solver::State& state = solved.state;
  const LoadedFrame& frame = solved.frame;
  Effects e;
  double& bending = e.boards.sag.value;
  double& shear = e.boards.shear.value;
  double between = 0.0;
  for (Eigen::Index k = frame.states->read_always(); 4 * k < state.ends.size(); ++k) {
    const double Mi = state.ends[4 * k], Mj = state.ends[4 * k + 1];
    bending = std::max({bending, std::abs(Mi), std::abs(Mj)});
    shear = std::max({shear, std::abs(state.ends[4 * k + 2]), std::abs(state.ends[4 * k + 3])});
    const double q = std::max(0.0, -state.spans[k]);
    if (state.free[k] > 0.0) {
      const double L = frame.states->length(static_cast<int>(k));
      between = std::max(between, std::max(Mi, Mj) + state.free[k] + q * L * L / 8.0);
    } else if (q > 0.0 && state.ends[4 * k + 2] > 0.0 && state.ends[4 * k + 3] < 0.0) {
      // Under a uniform load the largest is where V = 0: M = Mi + Vi^2 / 2q.
      const double Vi = state.ends[4 * k + 2];
      bending = std::max(bending, std::abs(Mi + Vi * Vi / (2.0 * q)));
    }
  }
  double least = between;
  for (const int k : board_items_) {
    const auto i = static_cast<std::size_t>(k);
    if (items_[i].source == Source::boards_bending)
      least = std::min(least, worst_[i][static_cast<std::size_t>(solved.id.combination)].demand);
  }
  if (between > bending && between > least) {
    // Perhaps the largest is between the joists: look exactly.
    const solver::Response response = frame.whole().solve(solved.factors, solved.changes);
    e = effects(frame.model(), frame.whole(), frame.probes, response, solved.factors, true);
  }
  const auto none = [](const auto&) { return 0.0; };
  for (const int k : board_items_) {
    const auto i = static_cast<std::size_t>(k);
    const Peak peak = demand_of(items_[i], frame.model(), e, none, none);
    record(i, {peak.value, 0.0}, solved.id, demands);
  }
}

std::map<int, double> Envelope::sagging_moments() const {
  std::map<int, double> moments;
  for (std::size_t k = 0; k < items_.size(); ++k) {
    if (items_[k].source != Source::joist_sag) continue;
    double& moment = moments[items_[k].index];
    for (const Worst& worst : worst_[k]) moment = std::max(moment, worst.demand);
  }
  return moments;
}

double demand_in(const Item& item, const LoadedFrame& frame, const solver::Analysis& analysis,
                 const solver::Response& response, std::span<const solver::CaseFactor> factors) {
  const Effects e = effects(frame.model(), analysis, frame.probes, response, factors, true);
  const auto support = [&](int s) { return response.supports[static_cast<std::size_t>(s)]; };
  return demand_of(item, frame.model(), e, support,
                   [&](const model::Crossing& crossing) {
                     return crossing.link >= 0
                                ? response.links[static_cast<std::size_t>(crossing.link)]
                                : support(crossing.support);
                   })
      .value;
}

}  // namespace underprop::assessment
