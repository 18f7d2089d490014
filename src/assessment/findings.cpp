#include "figures.hpp"
#include "run.hpp"
#include "scope.hpp"
#include "stability.hpp"
#include "underprop/base/format.hpp"
#include "underprop/base/geometry.hpp"
#include "underprop/catalog/table.hpp"
#include "underprop/standards/sheet.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace underprop::assessment {

using standards::Check;
using standards::Purpose;
using standards::Term;

namespace {

bool worse(const Finding& a, const Finding& b) {
  if (a.check.utilisation != b.check.utilisation) return a.check.utilisation > b.check.utilisation;
  return a.id < b.id;
}

}  // namespace

std::optional<std::pair<std::size_t, Check>> Run::worst_of(const Item& item) const {
  std::optional<std::pair<std::size_t, Check>> result;
  const auto& combinations = combinations_.at(item.purpose);
  for (std::size_t c = 0; c < item.worst.size(); ++c) {
    if (item.worst[c].demand <= 0.0) continue;
    Check check = item.judge(item.worst[c].demand, combinations[c]);
    if (std::isnan(check.utilisation))
      throw std::logic_error("a check of " + item.piece + " gave no number");
    if (!result || check.utilisation > result->second.utilisation)
      result.emplace(c, std::move(check));
  }
  return result;
}

Finding Run::finding(const Item& item, std::size_t combination, Check check) const {
  const Worst& worst = item.worst[combination];
  Finding f;
  f.kind = Kind::safety;
  f.piece = item.piece;
  f.where = item.where(worst.at);
  f.at = item.place(worst.at);
  const bool bare = &item >= bare_items_.data() && &item < bare_items_.data() + bare_items_.size();
  f.situation = situations_[bare ? 1 : 0][static_cast<std::size_t>(worst.situation)].name;
  if (worst.pattern > 0)
    f.situation += "; " + patterns_[static_cast<std::size_t>(worst.pattern)].name;
  f.combination = combinations_.at(item.purpose)[combination].id;
  f.bound = variants_[static_cast<std::size_t>(worst.variant)].words();
  if (worst.change >= 0) f.bound += ", " + changes_[static_cast<std::size_t>(worst.change)].words;
  check.call(item.kind);
  f.check = std::move(check);
  f.id = item.piece + "/" + item.check;
  return f;
}

double Run::demand_in(const Item& item, const Prepared& prepared, const solver::Analysis& analysis,
                      const solver::Response& response,
                      std::span<const solver::CaseFactor> factors) const {
  const model::Model& m = prepared.model();
  const auto k = static_cast<std::size_t>(item.index);
  const auto crossing_force = [&] {
    const model::Crossing& crossing = m.crossings[k];
    return crossing.link >= 0 ? response.links[static_cast<std::size_t>(crossing.link)]
                              : response.supports[static_cast<std::size_t>(crossing.support)];
  };
  const Effects e = effects(m, analysis, prepared.probes, response, factors, true);
  switch (item.source) {
    case Source::joist_sag:
      return e.joists[k].sag.value;
    case Source::joist_hog:
      return e.joists[k].hog.value;
    case Source::joist_shear:
      return e.joists[k].shear.value;
    case Source::bearer_sag:
      return e.bearers[k].sag.value;
    case Source::bearer_hog:
      return e.bearers[k].hog.value;
    case Source::bearer_shear:
      return e.bearers[k].shear.value;
    case Source::ledger_sag:
      return e.ledgers[k].sag.value;
    case Source::ledger_hog:
      return e.ledgers[k].hog.value;
    case Source::ledger_shear:
      return e.ledgers[k].shear.value;
    case Source::boards_bending:
      return std::max(e.boards.sag.value, e.boards.hog.value);
    case Source::boards_shear:
      return e.boards.shear.value;
    case Source::crossing:
    case Source::ground_wall:
      return crossing_force();
    case Source::crossing_lift:
      return -crossing_force();
    case Source::prop:
      return std::abs(response.supports[static_cast<std::size_t>(m.props[k].solver_support)]);
    case Source::ground_support:
      return response.supports[static_cast<std::size_t>(m.support_of[k])];
  }
  return 0.0;
}

void Run::verify(const Item& item, std::size_t combination) const {
  // What governs is solved again from scratch, changes written into the frame, before it is printed.
  const Worst& worst = item.worst[combination];
  const Prepared fresh = prepare(variants_[static_cast<std::size_t>(worst.variant)]);
  solver::Frame frame = fresh.model().frame;
  frame.plates = fresh.cases->plates;
  std::set<int> gone;
  if (worst.change >= 0) {
    for (const solver::SupportChange& change :
         changes_[static_cast<std::size_t>(worst.change)].changes) {
      frame.supports[static_cast<std::size_t>(change.support)].k_w = change.k_w;
      if (change.k_w == 0.0) {
        frame.supports[static_cast<std::size_t>(change.support)].compression_only = false;
        frame.supports[static_cast<std::size_t>(change.support)].gap = 0.0;
      }
    }
  }
  const solver::Analysis analysis(frame, fresh.cases->cases);
  const auto factors =
      factored(deck_, fresh.cases->infos, values_, combinations_.at(item.purpose)[combination],
               situations_[0][static_cast<std::size_t>(worst.situation)],
               patterns_[static_cast<std::size_t>(worst.pattern)]);
  const solver::Response response = analysis.solve(factors);
  const double again = response.mechanism ? std::numeric_limits<double>::infinity()
                                          : demand_in(item, fresh, analysis, response, factors);
  if (!(std::abs(again - worst.demand) <= 1e-6 * std::abs(worst.demand) + 1e-3)) {
    throw solver::ProofFailed("the governing demand of " + item.piece + " (" + item.check +
                              ") did not come out the same when solved from scratch: " +
                              std::to_string(worst.demand) + " against " + std::to_string(again));
  }
}

DeckAssessment Run::result(Depth depth) {
  DeckAssessment result;
  result.assumptions = deck_.assumptions;
  const UnitSystem units = standard_.us_customary() ? UnitSystem::us_customary : UnitSystem::metric;
  if (deck_.site.imposed_load && *deck_.site.imposed_load < values_.imposed)
    result.assumptions.push_back(
        "people on the rest of the deck: " + format_pressure(values_.imposed, units) +
        " by the standard, which is more than what is recorded");
  if (deck_.site.concentrated_load && *deck_.site.concentrated_load < values_.concentrated)
    result.assumptions.push_back(
        "one person on one board: " + format_force(values_.concentrated, units) +
        " by the standard, which is more than what is recorded");
  if (!deck_.site.snow_load)
    result.assumptions.push_back("no snow lies on the deck: none is recorded");
  if (not_modelled_) {
    result.refer_reasons.push_back(*not_modelled_ + ": such a deck is not modelled");
    return result;
  }
  const Scope seen = loaded_scope();
  result.refer_reasons = seen.refer_reasons;
  result.feared = seen.feared;
  result.mechanism = mechanism_;

  // Demands of the deck without its new load, by check: what fails already is ordinary use.
  const std::map<std::string, double> bare = bare_known_ ? *bare_known_ : bare_utilisations();
  const double raised_by = figure("raised_by");
  const Item* governing = nullptr;
  std::size_t governing_combination = 0;
  double most = 0.0;
  std::map<std::string, Finding> worst;
  std::map<std::string, std::vector<double>> ledger_used;
  for (const Item& item : items_) {
    auto found = worst_of(item);
    if (item.source == Source::prop && item.kind == standards::CheckKind::ledger_fixing) {
      ledger_used[item.piece].push_back(found ? std::min(1.0, found->second.utilisation) : 0.0);
    }
    if (!found) continue;
    const std::string id = item.piece + "/" + item.check;
    const double u = found->second.utilisation;
    const auto known = worst.find(id);
    if (known != worst.end() && u <= known->second.check.utilisation * (1.0 + 1e-9)) continue;
    const auto without = bare.find(id);
    const bool already =
        without != bare.end() && without->second > 1.0 && u < (1.0 + raised_by) * without->second;
    if (!already && u > most && std::isfinite(u)) {
      most = u;
      governing = &item;
      governing_combination = found->first;
    }
    worst[id] = finding(item, found->first, std::move(found->second));
    if (already) worst[id].kind = Kind::ordinary_use;
  }
  for (auto& [id, f] : worst) {
    (f.kind == Kind::ordinary_use ? result.ordinary_use : result.findings).push_back(std::move(f));
  }
  if (depth == Depth::full && governing != nullptr) verify(*governing, governing_combination);

  if (!items_.empty()) {
    static_findings(result);
    Force vertical(0.0), people(0.0);
    const Force imposed = values_.imposed * area(deck_.outline);
    vertical += imposed;
    people += imposed;
    for (const deck::Load& load : deck_.loads) {
      const Force bathers = weight(values_.person) * static_cast<double>(load.people);
      vertical += weight(load.dry_mass + load.contents) + bathers;
      people += bathers;
    }
    StabilityLoads loads{vertical,        people,      reactions_,
                         result.findings, ledger_used, depth == Depth::full};
    loads.found.insert(loads.found.end(), result.ordinary_use.begin(), result.ordinary_use.end());
    Stability stable = stability(deck_, timbers_, standard_, loads);
    for (Finding& f : stable.findings) result.findings.push_back(std::move(f));
    for (std::string& words : stable.assumptions) result.assumptions.push_back(std::move(words));
    if (!mechanism_) service_findings(result, depth == Depth::full);
  }
  if (mechanism_) {
    Finding f;
    f.id = "deck/equilibrium";
    f.piece = "deck";
    f.where = *mechanism_;
    f.at = centroid(deck_.outline);
    f.situation = "-";
    f.combination = "mechanism";
    f.bound = "-";
    f.check.call(standards::CheckKind::equilibrium);
    f.check.utilisation = std::numeric_limits<double>::infinity();
    f.check.source = {"judgement", "a piece that nothing holds carries nothing"};
    result.findings.push_back(std::move(f));
  }
  std::stable_sort(result.findings.begin(), result.findings.end(), worse);
  std::stable_sort(result.ordinary_use.begin(), result.ordinary_use.end(), worse);
  for (const Finding& f : result.findings) {
    double& u = f.kind == Kind::service ? result.service : result.safety;
    u = std::max(u, f.check.utilisation);
  }
  // Of a loose deck there is no state whose reactions could be told.
  if (!mechanism_) result.reactions = reactions_;
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    if (loaded_joists_[j]) result.loaded_pieces.push_back(deck_.joists[j].id);
  }
  for (std::size_t b = 0; b < deck_.bearers.size(); ++b) {
    if (loaded_bearers_[b]) result.loaded_pieces.push_back(deck_.bearers[b].id);
  }
  for (std::size_t l = 0; l < deck_.ledgers.size(); ++l) {
    if (loaded_ledgers_[l]) result.loaded_pieces.push_back(deck_.ledgers[l].id);
  }
  for (std::size_t s = 0; s < loaded_supports_.size(); ++s) {
    if (loaded_supports_[s]) result.loaded_pieces.push_back(deck_.supports[s].id);
  }
  for (std::size_t w = 0; w < loaded_walls_.size(); ++w) {
    if (loaded_walls_[w]) result.loaded_pieces.push_back(deck_.walls[w].id);
  }
  result.solves = solves_;
  return result;
}

DeckAssessment assess_deck(const deck::Deck& deck, const standards::Standard& standard,
                           const PlanCases& plan_cases, Depth depth) {
  Run run(deck, standard, plan_cases);
  run.safety(true);
  if (!deck.loads.empty() && !run.done_loose()) run.safety(false);
  return run.result(depth);
}

}  // namespace underprop::assessment
