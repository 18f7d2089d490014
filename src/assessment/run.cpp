#include "run.hpp"

#include "stability.hpp"
#include "underprop/base/geometry.hpp"
#include "underprop/catalog/table.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace underprop::assessment {

using standards::Purpose;
using standards::Term;

std::string Variant::words() const {
  const auto ground = [](GroundBound g) {
    return g == GroundBound::soft ? "soft" : g == GroundBound::stiff ? "stiff" : "middling";
  };
  std::string text = std::string(ground(old_ground)) + " ground";
  if (new_ground != old_ground)
    text = std::string("old ground ") + ground(old_ground) + ", new ground " + ground(new_ground);
  if (term == Term::long_term) text += ", timber after creep";
  text += bounds.stiff_shell ? ", stiff base" : ", soft base";
  if (bounds.joists_lapped) text += ", joists jointed over bearers";
  if (bounds.boards_jointed) text += ", boards jointed under the load";
  return text;
}

bool Variant::same_frame(const Variant& other) const {
  return old_ground == other.old_ground && new_ground == other.new_ground && term == other.term &&
         bounds.joists_lapped == other.bounds.joists_lapped &&
         bounds.boards_jointed == other.bounds.boards_jointed &&
         bounds.stiff_shell == other.bounds.stiff_shell;
}

namespace {

std::shared_ptr<Kept> keep(const deck::Deck& deck, const standards::Standard& standard) {
  auto kept = std::make_shared<Kept>();
  kept->timbers = timbers(deck, standard);
  kept->values = standard.loads(deck.height);
  // A local rule may ask for more than the standard, not for less.
  if (deck.site.imposed_load)
    kept->values.imposed = max(kept->values.imposed, *deck.site.imposed_load);
  if (deck.site.concentrated_load)
    kept->values.concentrated = max(kept->values.concentrated, *deck.site.concentrated_load);
  standards::Circumstances circumstances;
  circumstances.snow = deck.site.snow_load && deck.site.snow_load->value() > 0.0;
  for (const deck::Load& load : deck.loads) {
    if (load.empty_for_months) circumstances.contents_permanent = false;
  }
  for (const Purpose purpose : {Purpose::strength, Purpose::uplift, Purpose::ground,
                                Purpose::service_now, Purpose::service_long}) {
    kept->combinations[purpose] = standard.combinations(purpose, circumstances);
  }
  kept->raised = raised(deck);
  kept->braced = braced_both_ways(deck, kept->timbers, standard);
  return kept;
}

}  // namespace

Run::Run(const deck::Deck& deck, const standards::Standard& standard, const PlanCases& plan_cases)
    : Run(deck, standard, plan_cases, keep(deck, standard)) {
  find_dead_load_shape();
}

Run::Run(const deck::Deck& deck, const standards::Standard& standard, const PlanCases& plan_cases,
         std::shared_ptr<Kept> kept)
    : deck_(deck),
      standard_(standard),
      plan_cases_(plan_cases),
      kept_(std::move(kept)),
      timbers_(kept_->timbers),
      values_(kept_->values),
      combinations_(kept_->combinations) {
  loaded_joists_.assign(deck.joists.size(), false);
  loaded_bearers_.assign(deck.bearers.size(), false);
  loaded_ledgers_.assign(deck.ledgers.size(), false);
  loaded_supports_.assign(deck.supports.size(), false);
  loaded_walls_.assign(deck.walls.size(), false);
}

std::vector<Variant> Run::variants() const {
  // Forces depend on the ratio of timber to ground stiffness only: creep softens timber, not ground.
  // Fresh timber on soft ground and crept timber on stiff ground are the two ends of that ratio.
  std::vector<Variant> list;
  const bool lap_open =
      std::any_of(deck_.joists.begin(), deck_.joists.end(),
                  [](const deck::Joist& joist) { return !joist.continuous_recorded; });
  const bool has_full_base =
      std::any_of(deck_.loads.begin(), deck_.loads.end(),
                  [](const deck::Load& load) { return load.base == record::BaseKind::full; });
  struct Ground {
    GroundBound old_ground, new_ground;
    Term term;
  };
  std::vector<Ground> grounds{{GroundBound::soft, GroundBound::soft, Term::now},
                              {GroundBound::stiff, GroundBound::stiff, Term::long_term}};
  if (plan_cases_.new_and_old_ground_differ) {
    grounds.push_back({GroundBound::stiff, GroundBound::soft, Term::long_term});
    grounds.push_back({GroundBound::soft, GroundBound::stiff, Term::now});
  }
  for (const Ground& ground : grounds) {
    for (const bool stiff : {false, true}) {
      if (stiff && (!has_full_base || plan_cases_.screening)) continue;
      for (const bool lapped : {false, true}) {
        if (lapped && !lap_open) continue;
        Variant v;
        v.old_ground = ground.old_ground;
        v.new_ground = ground.new_ground;
        v.term = ground.term;
        v.bounds.stiff_shell = stiff;
        v.bounds.joists_lapped = lapped;
        list.push_back(v);
      }
    }
  }
  return list;
}

std::vector<PadChange> Run::pad_changes(const Prepared& prepared) const {
  // Every pad that carries some of the load, each in turn unlike its neighbours.
  std::vector<std::pair<double, std::size_t>> ranked;
  std::vector<solver::CaseFactor> whole;
  for (std::size_t k = 0; k < prepared.cases->infos.size(); ++k) {
    if (prepared.cases->infos[k].kind == model::CaseKind::self_weight)
      whole.push_back({static_cast<int>(k), 1.0});
    if (prepared.cases->infos[k].kind == model::CaseKind::whole) {
      const deck::Load& load = deck_.loads[static_cast<std::size_t>(prepared.cases->infos[k].load)];
      whole.push_back({static_cast<int>(k), weight(load.dry_mass + load.contents).value()});
    }
  }
  solver::State state;
  prepared.states->solve(whole, -1, false, state, nullptr, -1);
  if (state.mechanism) return {};
  double total = 0.0;
  for (const deck::Load& load : deck_.loads) total += weight(load.dry_mass + load.contents).value();
  const double share = catalog::number(catalog::table("scope.json"), "changed_pad_share");
  for (std::size_t s = 0; s < deck_.supports.size(); ++s) {
    const int index = prepared.model().support_of[s];
    if (index < 0) continue;
    const double reaction = state.springs[prepared.states->of_support(index)];
    if (reaction > share * total) ranked.emplace_back(-reaction, s);
  }
  std::sort(ranked.begin(), ranked.end());
  std::vector<PadChange> list;
  const bool soft_here = prepared.variant.old_ground == GroundBound::soft;
  for (const auto& [minus_reaction, s] : ranked) {
    const deck::Support& support = deck_.supports[s];
    const int index = prepared.model().support_of[s];
    const double other = support_stiffness(deck_, timbers_, standard_, s,
                                           soft_here ? GroundBound::stiff : GroundBound::soft);
    list.push_back({support.id + (soft_here ? " stiff among soft" : " soft among stiff"),
                    {{index, other, {}}}});
    if (!support.footing.contact_recorded)
      list.push_back({support.id + " absent", {{index, 0.0, {}}}});
  }
  return list;
}

void Run::find_loaded(const Prepared& prepared) {
  std::vector<solver::CaseFactor> whole;
  double total = 0.0;
  for (std::size_t k = 0; k < prepared.cases->infos.size(); ++k) {
    if (prepared.cases->infos[k].kind != model::CaseKind::whole) continue;
    const deck::Load& load = deck_.loads[static_cast<std::size_t>(prepared.cases->infos[k].load)];
    const double w = weight(load.dry_mass + load.contents).value();
    total += w;
    whole.push_back({static_cast<int>(k), w});
  }
  whole.push_back({0, 1.0});
  solver::State with, without;
  prepared.states->solve(whole, -1, false, with, nullptr, -1);
  loaded_known_ = true;
  if (with.mechanism) {
    // Everything may be reached by the load.
    loaded_joists_.assign(deck_.joists.size(), true);
    loaded_bearers_.assign(deck_.bearers.size(), true);
    loaded_supports_.assign(deck_.supports.size(), true);
    loaded_walls_.assign(deck_.walls.size(), true);
    loaded_ledgers_.assign(deck_.ledgers.size(), true);
    return;
  }
  const solver::CaseFactor dead{0, 1.0};
  prepared.states->solve({&dead, 1}, -1, false, without, nullptr, -1);
  const double share = catalog::number(catalog::table("scope.json"), "loaded_share") * total;
  const auto more = [&](int spring) {
    if (spring < 0) return std::numeric_limits<double>::infinity();  // rigid, not read: loaded
    return std::abs(with.springs[spring] - (without.mechanism ? 0.0 : without.springs[spring]));
  };
  const model::Model& m = prepared.model();
  for (const model::Crossing& crossing : m.crossings) {
    const double force = more(crossing.link >= 0 ? prepared.states->of_link(crossing.link)
                                                 : prepared.states->of_support(crossing.support));
    if (force < 0.5 * share) continue;
    loaded_joists_[static_cast<std::size_t>(crossing.joist)] = true;
    const auto other = static_cast<std::size_t>(crossing.other);
    if (crossing.kind == model::CrossingKind::bearer) loaded_bearers_[other] = true;
    if (crossing.kind == model::CrossingKind::ledger) loaded_ledgers_[other] = true;
    if (crossing.kind == model::CrossingKind::support) loaded_supports_[other] = true;
    if (crossing.kind == model::CrossingKind::wall) loaded_walls_[other] = true;
  }
  for (const model::Prop& prop : m.props) {
    if (prop.support < 0) continue;
    if (more(prepared.states->of_support(prop.solver_support)) >= 0.5 * share) {
      loaded_supports_[static_cast<std::size_t>(prop.support)] = true;
    }
  }
  // Any joist under the footprint is loaded, however the boards share.
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    const deck::Joist& joist = deck_.joists[j];
    for (const deck::Load& load : deck_.loads) {
      for (const Interval& interval :
           line_intervals(load.footprint, joist.direction, joist.position)) {
        if (interval.high > joist.from && interval.low < joist.to) loaded_joists_[j] = true;
      }
    }
  }
}

void Run::record(Item& item, double demand, double along, const Question& question, int variant,
                 int change) {
  if (question.situation == seek_situation_ && change < 0) {
    const auto index = static_cast<int>(&item - (bare_ ? bare_items_ : items_).data());
    by_pattern_[{index, question.combination}][question.pattern] = demand;
  }
  Worst& worst = item.worst[static_cast<std::size_t>(question.combination)];
  // Numbers that differ in rounding only keep the first state, so that mirror images read alike.
  if (demand <= worst.demand * (1.0 + 1e-9) + 1e-9) return;
  worst = {demand, along, variant, question.situation, question.pattern, change};
  if (!quick_ || bare_ || stop_) return;
  const auto index = static_cast<std::size_t>(&item - items_.data());
  const double u = utilisation(index, demand, question.combination);
  if (allowed_[index] <= most_) largest_ = std::max(largest_, u);
  if (u > allowed_[index]) stop_ = Stop{u, item.piece, item.check};
}

double Run::utilisation(std::size_t index, double demand, int combination) {
  auto& all = kept_->resistance;
  if (all.size() != items_.size()) all.assign(items_.size(), {});
  const Item& item = items_[index];
  const auto& combinations = combinations_.at(item.purpose);
  auto& known = all[index];
  if (known.size() != combinations.size()) known.assign(combinations.size(), {});
  const auto c = static_cast<std::size_t>(combination);
  const auto ask = [&](double d) { return item.judge(d, combinations[c]).utilisation; };
  if (!known[c]) {
    // Most rules are a demand over a resistance; that is tried, not assumed.
    const double u = ask(demand), half = ask(0.5 * demand), twice = ask(2.0 * demand);
    const bool proportional =
        std::isfinite(twice) && u > 0.0 && std::abs(2.0 * half - u) <= 1e-10 * u &&
        std::abs(twice - 2.0 * u) <= 1e-10 * u &&
        // Rules of two branches may change over between here and the limit.
        std::abs(ask(demand / u) - 1.0) <= 1e-10 && std::abs(ask(4.0 * demand / u) - 4.0) <= 1e-9;
    known[c] = proportional ? demand / u : std::numeric_limits<double>::quiet_NaN();
  }
  return std::isnan(*known[c]) ? ask(demand) : demand / *known[c];
}

void Run::safety_until(double most, const std::map<std::string, double>& ordinary) {
  quick_ = true;
  most_ = most;
  bare_known_ = &ordinary;
  safety(true);
  quick_ = false;
  if (!stop_ && !mechanism_ && !not_modelled_ && !variants_.empty() && !loaded_known_)
    find_loaded(prepare(variants_.front()));
  if (mechanism_ && !stop_)
    stop_ = Stop{std::numeric_limits<double>::infinity(), "deck", "equilibrium"};
}

std::string Run::why_not_judged() {
  if (variants_.empty()) variants_ = variants();
  const Prepared prepared = prepare(variants_.front());
  // What is not modelled, or loose, is told where the safety checks meet it.
  if (!prepared.ready()) return {};
  find_loaded(prepared);
  const std::vector<std::string> reasons = loaded_scope().refer_reasons;
  return reasons.empty() ? std::string() : reasons.front();
}

Scope Run::loaded_scope() const {
  std::vector<std::size_t> supports, walls;
  for (std::size_t s = 0; s < loaded_supports_.size(); ++s) {
    if (loaded_supports_[s]) supports.push_back(s);
  }
  for (std::size_t w = 0; w < loaded_walls_.size(); ++w) {
    if (loaded_walls_[w]) walls.push_back(w);
  }
  return scope(deck_, supports, walls);
}

std::map<std::string, double> Run::bare_utilisations() const {
  std::map<std::string, double> bare;
  for (const Item& item : bare_items_) {
    if (const auto found = worst_of(item)) {
      double& u = bare[item.piece + "/" + item.check];
      u = std::max(u, found->second.utilisation);
    }
  }
  return bare;
}

void Run::take(const Prepared& prepared, int variant, Purpose purpose, const Question& question,
               int change, int handle, bool boards) {
  const auto& combination =
      combinations_.at(purpose)[static_cast<std::size_t>(question.combination)];
  const Situation& situation =
      situations_[bare_ ? 1 : 0][static_cast<std::size_t>(question.situation)];
  const auto factors = factored(deck_, prepared.cases->infos, values_, combination, situation,
                                patterns_[static_cast<std::size_t>(question.pattern)]);
  // While patterns are sought every demand is compared, else only what may be the worst.
  const bool sought = question.situation == seek_situation_ && change < 0;
  const int kind = question.situation * 4096 + question.pattern;
  prepared.states->solve(factors, handle, boards, state_,
                         sought ? nullptr : &limits(purpose, question.combination), kind);
  ++solves_;
  if (state_.mechanism) {
    // A rigid base without its contents may rock on a ridge that people press up round it: it has no
    // rest of its own then. The soft base answers that question; the deck's own looseness shows there too.
    const bool rocks = prepared.variant.bounds.stiff_shell && !situation.full;
    if (!bare_ && !mechanism_ && !rocks) {
      mechanism_ = *state_.mechanism + " (" + situation.name + ", " + prepared.variant.words() +
                   (change >= 0 ? ", " + changes_[static_cast<std::size_t>(change)].words : "") +
                   ")";
    }
    return;
  }
  const model::Model& m = prepared.model();
  const auto support = [&](int s) { return state_.springs[prepared.states->of_support(s)]; };
  const auto crossing = [&](std::size_t c) {
    const model::Crossing& at = m.crossings[c];
    return at.link >= 0 ? state_.springs[prepared.states->of_link(at.link)] : support(at.support);
  };
  Effects e;
  if (purpose == Purpose::strength) e = effects(m, state_);
  std::vector<Item>& list = bare_ ? bare_items_ : items_;
  for (const int k : by_purpose_[purpose]) {
    Item& item = list[static_cast<std::size_t>(k)];
    const auto i = static_cast<std::size_t>(item.index);
    Peak peak;
    switch (item.source) {
      case Source::joist_sag:
        peak = e.joists[i].sag;
        break;
      case Source::joist_hog:
        peak = e.joists[i].hog;
        break;
      case Source::joist_shear:
        peak = e.joists[i].shear;
        break;
      case Source::bearer_sag:
        peak = e.bearers[i].sag;
        break;
      case Source::bearer_hog:
        peak = e.bearers[i].hog;
        break;
      case Source::bearer_shear:
        peak = e.bearers[i].shear;
        break;
      case Source::ledger_sag:
        peak = e.ledgers[i].sag;
        break;
      case Source::ledger_hog:
        peak = e.ledgers[i].hog;
        break;
      case Source::ledger_shear:
        peak = e.ledgers[i].shear;
        break;
      case Source::crossing:
      case Source::ground_wall:
        peak.value = crossing(i);
        break;
      case Source::crossing_lift:
        peak.value = -crossing(i);
        break;
      case Source::prop:
        peak.value = std::abs(support(m.props[i].solver_support));
        break;
      case Source::ground_support:
        peak.value = support(m.support_of[i]);
        break;
      case Source::boards_bending:
      case Source::boards_shear:
        continue;
    }
    record(item, peak.value, peak.at, question, variant, change);
  }
  if (boards && !board_items_.empty()) take_boards(prepared, factors, question, variant, change);
  if (bare_ || change >= 0 || (purpose != Purpose::strength && purpose != Purpose::ground)) return;
  for (std::size_t s = 0; s < m.support_of.size(); ++s) {
    if (m.support_of[s] < 0) continue;
    const Force reaction(support(m.support_of[s]));
    Force& kept =
        purpose == Purpose::ground ? reactions_[s].characteristic : reactions_[s].factored;
    kept = max(kept, reaction);
  }
}

void Run::take_boards(const Prepared& prepared, std::span<const solver::CaseFactor> factors,
                      const Question& question, int variant, int change) {
  std::vector<Item>& list = bare_ ? bare_items_ : items_;
  const auto first = static_cast<Eigen::Index>(prepared.probes.frame_members.size());
  double bending = 0.0, shear = 0.0, between = 0.0;
  for (Eigen::Index k = first; 4 * k < state_.ends.size(); ++k) {
    const double Mi = state_.ends[4 * k], Mj = state_.ends[4 * k + 1];
    bending = std::max({bending, std::abs(Mi), std::abs(Mj)});
    shear = std::max({shear, std::abs(state_.ends[4 * k + 2]), std::abs(state_.ends[4 * k + 3])});
    const double q = std::max(0.0, -state_.spans[k]);
    if (state_.free[k] > 0.0) {
      const double L = prepared.states->length(static_cast<int>(k));
      between = std::max(between, std::max(Mi, Mj) + state_.free[k] + q * L * L / 8.0);
    } else if (q > 0.0 && state_.ends[4 * k + 2] > 0.0 && state_.ends[4 * k + 3] < 0.0) {
      // Under a uniform load the largest is where V = 0: M = Mi + Vi^2 / 2q.
      const double Vi = state_.ends[4 * k + 2];
      bending = std::max(bending, std::abs(Mi + Vi * Vi / (2.0 * q)));
    }
  }
  double least = between;
  for (const int k : board_items_) {
    const Item& item = list[static_cast<std::size_t>(k)];
    if (item.source == Source::boards_bending)
      least = std::min(least, item.worst[static_cast<std::size_t>(question.combination)].demand);
  }
  if (between > bending && between > least) {
    // Perhaps the largest is between the joists: look exactly.
    const solver::Response response = prepared.analysis().solve(
        factors, change >= 0 ? std::span<const solver::SupportChange>(
                                   changes_[static_cast<std::size_t>(change)].changes)
                             : std::span<const solver::SupportChange>{});
    const Effects e =
        effects(prepared.model(), prepared.analysis(), prepared.probes, response, factors, true);
    bending = std::max(e.boards.sag.value, e.boards.hog.value);
    shear = e.boards.shear.value;
  }
  for (const int k : board_items_) {
    Item& item = list[static_cast<std::size_t>(k)];
    record(item, item.source == Source::boards_bending ? bending : shear, 0.0, question, variant,
           change);
  }
}

void Run::ask(const Prepared& prepared, int variant, Purpose purpose, bool with_load) {
  const std::size_t set = with_load ? 0 : 1;
  for (const Question& question :
       questions(combinations_.at(purpose), situations_[set], patterns_)) {
    if (stop_ || done_loose()) return;
    if (static_cast<std::size_t>(question.pattern) >= first_patterns_) continue;
    take(prepared, variant, purpose, question, -1, -1,
         purpose == Purpose::strength && question.pattern <= 1);
  }
}

void Run::safety(bool with_load) {
  bare_ = !with_load;
  if (variants_.empty()) variants_ = variants();
  if (with_load) {
    reactions_.clear();
    for (const deck::Support& support : deck_.supports)
      reactions_.push_back({support.id, support.at, {}, {}});
  }
  std::vector<Variant> list = variants_;
  bool first = true;
  for (std::size_t v = 0; v < list.size(); ++v) {
    const Variant variant = list[v];
    if (!with_load && variant.bounds.stiff_shell) continue;
    if (stop_ || done_loose()) return;
    const Prepared prepared = prepare(variant);
    if (!prepared.not_modelled.empty()) {
      // A base that is too narrow for a rigid plate is judged as a soft one alone.
      if (variant.bounds.stiff_shell) continue;
      not_modelled_ = prepared.not_modelled;
      return;
    }
    if (prepared.loose) {
      mechanism_ = *prepared.loose;
      return;
    }
    if (first) {
      first = false;
      situations_[0] = situations(deck_, prepared.cases->infos, true);
      situations_[1] = situations(deck_, prepared.cases->infos, false);
      if (patterns_.empty()) {
        patterns_ = patterns(prepared.model().bays.size());
        first_patterns_ = patterns_.size();
      }
      std::vector<Item>& target = with_load ? items_ : bare_items_;
      target = items(deck_, prepared.model(), timbers_, standard_, kept_->self_weight_moments,
                     kept_->braced);
      by_purpose_.clear();
      board_items_.clear();
      for (std::size_t k = 0; k < target.size(); ++k) {
        Item& item = target[k];
        item.worst.resize(combinations_.at(item.purpose).size());
        const bool of_boards =
            item.source == Source::boards_bending || item.source == Source::boards_shear;
        (of_boards ? board_items_ : by_purpose_[item.purpose]).push_back(static_cast<int>(k));
      }
      sort_items_by_line(prepared.model());
      if (with_load && !quick_) find_loaded(prepared);
      if (quick_) {
        // As in result(): what fails without the load, and hardly worse with it, is ordinary use.
        const double raised_by = catalog::number(catalog::table("scope.json"), "raised_by");
        allowed_.clear();
        for (const Item& item : items_) {
          const auto bare = bare_known_->find(item.piece + "/" + item.check);
          const bool already = bare != bare_known_->end() && bare->second > 1.0;
          allowed_.push_back(already ? std::max(most_, (1.0 + raised_by) * bare->second) : most_);
        }
      }
    }
    if (plan_cases_.service_only) return;
    for (const Purpose purpose : {Purpose::strength, Purpose::ground}) {
      ask(prepared, static_cast<int>(v), purpose, with_load);
      propose(prepared, static_cast<int>(v), purpose);
    }
    if (!variant.bounds.stiff_shell) {
      ask(prepared, static_cast<int>(v), Purpose::uplift, with_load);
      propose(prepared, static_cast<int>(v), Purpose::uplift);
    }
    if (!with_load || plan_cases_.screening) continue;
    // Each pad that matters, unlike its neighbours; with the people in their main places. Under a rigid
    // base a hard pad among soft ones draws much more.
    for (const PadChange& change : pad_changes(prepared)) {
      changes_.push_back(change);
      const int index = static_cast<int>(changes_.size()) - 1;
      const int handle = prepared.states->prepare(change.changes);
      for (const Purpose purpose : {Purpose::strength, Purpose::ground}) {
        for (const Question& question :
             questions(combinations_.at(purpose), situations_[0], patterns_)) {
          const Situation& s = situations_[0][static_cast<std::size_t>(question.situation)];
          if (stop_ || done_loose()) return;
          if (question.pattern > 1 || !s.full || s.bathers == Bathers::quarter || s.free_end >= 0)
            continue;
          take(prepared, static_cast<int>(v), purpose, question, index, handle, false);
        }
      }
    }
    // Boards whose joints nobody recorded: all jointed over the joist that bends most, and over each one
    // that bends as much (as on a deck that mirrors itself).
    if (joints_open() && !variant.bounds.stiff_shell && !variant.bounds.joists_lapped &&
        !variant.bounds.boards_jointed) {
      std::map<int, double> moments;
      double most = 0.0;
      for (const Item& item : items_) {
        if (item.source != Source::joist_sag) continue;
        double& moment = moments[item.index];
        for (const Worst& worst : item.worst) moment = std::max(moment, worst.demand);
        most = std::max(most, moment);
      }
      constexpr double alike = 1e-6;
      for (const auto& [joist, moment] : moments) {
        if (most <= 0.0 || moment < most * (1.0 - alike)) continue;
        Variant jointed = variant;
        jointed.bounds.boards_jointed = joist;
        list.push_back(jointed);
        variants_.push_back(jointed);
      }
    }
  }
}

}  // namespace underprop::assessment
