#include "findings.hpp"

#include "figures.hpp"
#include "stability.hpp"
#include "underprop/base/geometry.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <stdexcept>
#include <vector>

namespace underprop::assessment {

using standards::Check;

std::optional<GoverningCheck> governing_check(const Envelope& envelope, const StateList& states,
                                              std::size_t item) {
  std::optional<GoverningCheck> result;
  const Item& of = envelope.items()[item];
  const std::vector<Worst>& worst = envelope.worst(item);
  const auto& combinations = states.combinations(of.purpose);
  for (std::size_t c = 0; c < worst.size(); ++c) {
    if (worst[c].demand <= 0.0) continue;
    Check check = of.judge(worst[c].demand, combinations[c]);
    if (std::isnan(check.utilisation))
      throw std::logic_error("a check of " + of.piece + " gave no number");
    if (!result || check.utilisation > result->check.utilisation) result = {c, std::move(check)};
  }
  return result;
}

Finding plain_finding(const std::string& piece, Check check, std::string where, Point at,
                      std::string situation) {
  Finding f;
  f.id = piece + "/" + check.check;
  f.piece = piece;
  f.where = std::move(where);
  f.at = at;
  f.situation = std::move(situation);
  f.combination = "-";
  f.bound = "-";
  f.check = std::move(check);
  return f;
}

namespace {

bool worse(const Finding& a, const Finding& b) {
  if (a.check.utilisation != b.check.utilisation) return a.check.utilisation > b.check.utilisation;
  return a.id < b.id;
}

Finding finding(const Swept& swept, std::size_t item, GoverningCheck governing) {
  const Item& of = swept.envelope->items()[item];
  const Worst& worst = swept.envelope->worst(item)[governing.combination];
  const StateId& state = worst.state;
  Finding f;
  f.kind = Kind::safety;
  f.piece = of.piece;
  f.where = of.where(worst.at);
  f.at = of.place(worst.at);
  f.situation = swept.states->words(state);
  f.combination = swept.states->combination(state).id;
  f.bound = swept.bounds[static_cast<std::size_t>(state.bound)].words();
  if (state.change >= 0)
    f.bound += ", " + swept.changes[static_cast<std::size_t>(state.change)].words;
  f.check = std::move(governing.check);
  f.check.call(of.kind);
  f.id = of.piece + "/" + of.check;
  return f;
}

/// What governs is solved again from scratch, changes written into the frame, before it is printed.
void verify(const LoadedDeck& deck, const Swept& swept, std::size_t item, const Worst& worst) {
  const auto fresh = deck.frame(swept.bounds[static_cast<std::size_t>(worst.state.bound)]);
  solver::Frame frame = fresh->model().frame;
  frame.plates = fresh->cases->plates;
  if (worst.state.change >= 0) {
    for (const solver::SupportChange& change :
         swept.changes[static_cast<std::size_t>(worst.state.change)].changes) {
      solver::Support& support = frame.supports[static_cast<std::size_t>(change.support)];
      support.k_w = change.k_w;
      if (change.k_w == 0.0) {
        support.compression_only = false;
        support.gap = 0.0;
      }
    }
  }
  const solver::Analysis analysis(frame, fresh->cases->cases);
  const auto factors = swept.states->factors(worst.state, fresh->cases->infos);
  const solver::Response response = analysis.solve(factors);
  const Item& of = swept.envelope->items()[item];
  const double again =
      response.mechanism ? infinite : demand_in(of, *fresh, analysis, response, factors);
  if (!(std::abs(again - worst.demand) <= 1e-6 * std::abs(worst.demand) + 1e-3)) {
    throw solver::ProofFailed("the governing demand of " + of.piece + " (" + of.check +
                              ") did not come out the same when solved from scratch: " +
                              std::to_string(worst.demand) + " against " + std::to_string(again));
  }
}

/// The pieces that the load reaches and the next joists, by name.
std::set<std::string> names_within_reach(const deck::Deck& deck, const LoadedPieces& loaded) {
  const std::vector<std::string> ids = within_reach(deck, loaded).ids(deck);
  return {ids.begin(), ids.end()};
}

/// Fails by calculation, but the piece meets a published table and the new load changes nothing worth
/// telling: then it passes as a piece of a deck, and says by which row.
bool passes_by_table(const BareDeck& bare, bool without_load, Finding& f) {
  if (!fails(f.check.utilisation)) return false;
  const auto* row = bare.deemed.of(f.piece, f.check.kind, f.check.utilisation);
  if (row == nullptr) return false;
  const auto ordinary = bare.ordinary.find(f.id);
  if (!without_load && (ordinary == bare.ordinary.end() || f.check.utilisation >= ordinary->second))
    return false;
  f.kind = Kind::ordinary_use;
  f.deemed = *row;
  return true;
}

/// The worst finding of every check, into the result; what governs is verified if asked to. Returns, per
/// ledger, how far each of its fixings is used.
std::map<std::string, std::vector<double>> state_findings(const LoadedDeck& deck,
                                                          const Swept& swept,
                                                          const LoadedPieces& loaded,
                                                          const BareDeck& bare, bool verified,
                                                          DeckAssessment& result) {
  const std::set<std::string> reached = names_within_reach(deck.deck(), loaded);
  std::map<std::string, std::map<int, double>> used_of;  // per ledger and fixing: its worst check
  const double raised_by = figure("raised_by");
  std::optional<std::size_t> governing;
  std::size_t governing_combination = 0;
  double most = 0.0;
  std::map<std::string, Finding> worst;
  const std::vector<Item>& items = swept.envelope->items();
  for (std::size_t k = 0; k < items.size(); ++k) {
    const Item& item = items[k];
    auto found = governing_check(*swept.envelope, *swept.states, k);
    if (item.source == Source::prop && item.kind == standards::CheckKind::ledger_fixing)
      used_of[item.piece][item.index] = std::max(
          used_of[item.piece][item.index], found ? std::min(1.0, found->check.utilisation) : 0.0);
    if (!found) continue;
    const std::string id = item.piece + "/" + item.check;
    const double u = found->check.utilisation;
    const auto known = worst.find(id);
    if (known != worst.end() && u <= known->second.check.utilisation * (1.0 + 1e-9)) continue;
    const auto without = bare.utilisations.find(id);
    const bool already = without != bare.utilisations.end() && fails(without->second) &&
                         u < (1.0 + raised_by) * without->second;
    const bool elsewhere = already && !reached.contains(item.piece);
    if (!elsewhere && u > most && std::isfinite(u)) {
      most = u;
      governing = k;
      governing_combination = found->combination;
    }
    worst[id] = finding(swept, k, std::move(*found));
    worst[id].already = already;
    if (elsewhere) worst[id].kind = Kind::ordinary_use;
  }
  // The load may only take the place of the people: a piece is no stronger for that.
  for (const auto& [id, f] : bare.failing) {
    if (!reached.contains(f.piece)) continue;
    const auto known = worst.find(id);
    if (known == worst.end() || known->second.check.utilisation < f.check.utilisation)
      worst[id] = f;
  }
  for (auto& [id, f] : worst) {
    if (passes_by_table(bare, deck.deck().loads.empty(), f)) {
      result.deemed.push_back(std::move(f));
      continue;
    }
    (f.kind == Kind::ordinary_use ? result.ordinary_use : result.findings).push_back(std::move(f));
  }
  if (verified && governing)
    verify(deck, swept, *governing, swept.envelope->worst(*governing)[governing_combination]);
  std::map<std::string, std::vector<double>> ledger_used;
  for (const auto& [ledger, fixings] : used_of) {
    for (const auto& [fixing, used] : fixings) ledger_used[ledger].push_back(used);
  }
  return ledger_used;
}

/// What was taken of the site beside what the standard says.
void site_assumptions(const LoadedDeck& loaded, DeckAssessment& result) {
  const deck::Site& site = loaded.deck().site;
  const standards::LoadValues& values = loaded.basis().values;
  const UnitSystem units = unit_system(loaded.standard());
  if (site.imposed_load && *site.imposed_load < values.imposed)
    result.assumptions.push_back(
        "people on the rest of the deck: " + format_pressure(values.imposed, units) +
        " by the standard, which is more than what is recorded");
  if (site.concentrated_load && *site.concentrated_load < values.concentrated)
    result.assumptions.push_back(
        "one person on one board: " + format_force(values.concentrated, units) +
        " by the standard, which is more than what is recorded");
  if (!site.snow_load) result.assumptions.push_back("no snow lies on the deck: none is recorded");
}

/// Of a deck without a load the sag too is what the tables' spans were made for.
void service_by_table(const BareDeck& bare, DeckAssessment& result) {
  std::vector<Finding> left;
  for (Finding& f : result.findings) {
    const bool passes = f.kind == Kind::service && passes_by_table(bare, true, f);
    (passes ? result.deemed : left).push_back(std::move(f));
  }
  result.findings = std::move(left);
}

void sway_findings(const LoadedDeck& loaded, const Swept& swept,
                   std::map<std::string, std::vector<double>> ledger_used, Depth depth,
                   DeckAssessment& result) {
  const deck::Deck& deck = loaded.deck();
  const standards::LoadValues& values = loaded.basis().values;
  StabilityLoads loads{};
  loads.people = values.imposed * area(deck.outline);
  loads.vertical = loads.people;
  for (const deck::Load& load : deck.loads) {
    const Force bathers = weight(values.person) * static_cast<double>(load.people);
    loads.vertical += weight(load.dry_mass + load.contents) + bathers;
    loads.people += bathers;
  }
  loads.reactions = swept.reactions;
  loads.found = result.findings;
  loads.found.insert(loads.found.end(), result.ordinary_use.begin(), result.ordinary_use.end());
  loads.ledger_used = std::move(ledger_used);
  loads.compare = depth == Depth::full;
  Stability stable = stability(deck, loaded.basis().timbers, loaded.standard(), loads);
  for (Finding& f : stable.findings) {
    (f.kind == Kind::ordinary_use ? result.ordinary_use : result.findings).push_back(std::move(f));
  }
  for (std::string& words : stable.assumptions) result.assumptions.push_back(std::move(words));
}

Finding mechanism_finding(const deck::Deck& deck, const std::string& mechanism) {
  Check check;
  check.call(standards::CheckKind::equilibrium);
  check.utilisation = infinite;
  check.source = {"judgement", "a piece that nothing holds carries nothing"};
  Finding f = plain_finding("deck", std::move(check), mechanism, centroid(deck.outline), "-");
  f.combination = "mechanism";
  return f;
}

}  // namespace

BareDeck bare_deck(const LoadedDeck& deck, const Swept& swept) {
  BareDeck result;
  result.deemed = DeemedPieces(deck);
  if (!swept.envelope) return result;
  const double raised = 1.0 + figure("raised_by");
  const std::vector<Item>& items = swept.envelope->items();
  for (std::size_t k = 0; k < items.size(); ++k) {
    auto found = governing_check(*swept.envelope, *swept.states, k);
    if (!found) continue;
    const std::string id = items[k].piece + "/" + items[k].check;
    const double utilisation = found->check.utilisation;
    double& u = result.utilisations[id];
    if (utilisation <= u) continue;
    u = utilisation;
    const bool deemed = result.deemed.of(items[k].piece, items[k].kind, u) != nullptr;
    result.failing.erase(id);
    result.ordinary.erase(id);
    if (fails(u) || deemed) result.ordinary[id] = raised * u;
    if (!fails(u) || deemed) continue;
    Finding f = finding(swept, k, std::move(*found));
    f.already = true;
    result.failing[id] = std::move(f);
  }
  return result;
}

const Finding* fails_in_reach(const deck::Deck& deck, const BareDeck& bare,
                              const LoadedPieces& loaded) {
  if (bare.failing.empty()) return nullptr;
  const std::set<std::string> reached = names_within_reach(deck, loaded);
  const Finding* worst = nullptr;
  for (const auto& [id, f] : bare.failing) {
    if (reached.contains(f.piece) &&
        (worst == nullptr || f.check.utilisation > worst->check.utilisation))
      worst = &f;
  }
  return worst;
}

DeckAssessment findings(const LoadedDeck& loaded, const Swept& swept, const LoadedPieces& pieces,
                        const BareDeck& bare, const Options& options) {
  const deck::Deck& deck = loaded.deck();
  DeckAssessment result;
  result.assumptions = deck.assumptions;
  site_assumptions(loaded, result);
  if (!swept.not_modelled.empty()) {
    result.refer_reasons.push_back(swept.not_modelled + ": such a deck is not modelled");
    return result;
  }
  Scope seen = scope(deck, pieces);
  result.refer_reasons = std::move(seen.refer_reasons);
  result.feared = std::move(seen.feared);
  result.mechanism = swept.mechanism;
  result.solves = swept.solves;
  const bool full = options.depth == Depth::full;
  if (swept.envelope) {
    auto ledger_used = state_findings(loaded, swept, pieces, bare, full, result);
    static_findings(loaded, pieces, result);
    sway_findings(loaded, swept, std::move(ledger_used), options.depth, result);
    if (!result.mechanism) service_findings(loaded, *swept.states, pieces, full, result);
    if (deck.loads.empty()) service_by_table(bare, result);
  }
  // Of a deck that does not stand nothing else is told: what is rotten is why.
  if (!swept.envelope) decay_findings(loaded, LoadedPieces(deck, true), result);
  if (result.mechanism) result.findings.push_back(mechanism_finding(deck, *result.mechanism));
  std::stable_sort(result.findings.begin(), result.findings.end(), worse);
  std::stable_sort(result.ordinary_use.begin(), result.ordinary_use.end(), worse);
  std::stable_sort(result.deemed.begin(), result.deemed.end(), worse);
  for (const Finding& f : result.findings) {
    double& u = f.kind == Kind::service ? result.service : result.safety;
    u = std::max(u, f.check.utilisation);
  }
  // Of a loose deck there is no state whose reactions could be told.
  if (!result.mechanism) result.reactions = swept.reactions;
  result.loaded_pieces = pieces.ids(deck);
  return result;
}

namespace {

DeckAssessment assess_as_held(const deck::Deck& deck, const standards::Standard& standard,
                              const Options& options) {
  const LoadedDeck loaded(deck, std::make_shared<FrameCache>(deck, standard, options.plan_cases));
  LoadedPieces pieces(deck);
  const auto first = loaded.frame(safety_bounds(deck, options).front());
  if (first->ready()) pieces = loaded_pieces(loaded, *first);
  // A deck without a load is judged as a deck, with people on it.
  const Swept swept = deck.loads.empty()
                          ? Sweep(loaded, options, safety_bounds(deck, options)).run()
                          : Sweep(loaded, options).run();
  BareDeck bare;
  if (deck.loads.empty()) bare.deemed = DeemedPieces(loaded);
  std::size_t solves = 0;
  const bool only_loose = options.stop_when_loose && swept.mechanism;
  if (!deck.loads.empty() && !only_loose) {
    const Swept without = Sweep(loaded, options, swept.bounds).run();
    bare = bare_deck(loaded, without);
    solves = without.solves;
  }
  DeckAssessment result = findings(loaded, swept, pieces, bare, options);
  result.solves += solves;
  return result;
}

bool pulled_out(const DeckAssessment& found) {
  const auto out = [](const Finding& f) {
    return f.check.kind == standards::CheckKind::hold_down && fails(f.check.utilisation);
  };
  return std::any_of(found.findings.begin(), found.findings.end(), out) ||
         std::any_of(found.ordinary_use.begin(), found.ordinary_use.end(), out);
}

}  // namespace

deck::Deck free_to_lift(deck::Deck deck) {
  for (deck::Bearer& bearer : deck.bearers) bearer.may_lift = true;
  return deck;
}

DeckAssessment assess_deck(const deck::Deck& deck, const standards::Standard& standard,
                           const Options& options) {
  DeckAssessment held = assess_as_held(deck, standard, options);
  if (!pulled_out(held)) return held;
  // Nails that give way hold nothing, and a deck is no worse for them: it may stand with joists that lift.
  const deck::Deck lifting = free_to_lift(deck);
  DeckAssessment lifted = assess_as_held(lifting, standard, options);
  lifted.solves += held.solves;
  const bool better = !lifted.mechanism && !(lifted.safety > std::max(1.0, held.safety));
  if (!better) {
    held.solves = lifted.solves;
    return held;
  }
  lifted.assumptions.push_back(
      "joists may lift off their bearers: what holds them down there would be pulled out, and the "
      "deck is judged without it");
  return lifted;
}

}  // namespace underprop::assessment
