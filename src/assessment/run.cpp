#include "run.hpp"

#include "stability.hpp"
#include "underprop/catalog/table.hpp"
#include "underprop/survey/geometry.hpp"

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

std::shared_ptr<Kept> keep(const survey::Deck& deck, const standards::Standard& standard) {
  auto kept = std::make_shared<Kept>();
  kept->timbers = timbers(deck, standard);
  kept->values = standard.loads(deck.height);
  if (deck.site.imposed_load) kept->values.imposed = *deck.site.imposed_load;
  if (deck.site.concentrated_load) kept->values.concentrated = *deck.site.concentrated_load;
  standards::Circumstances circumstances;
  circumstances.snow = deck.site.snow_load && deck.site.snow_load->value() > 0.0;
  for (const survey::SettledLoad& load : deck.loads) {
    if (load.empty_for_months) circumstances.contents_permanent = false;
  }
  for (const Purpose purpose : {Purpose::strength, Purpose::uplift, Purpose::ground,
                                Purpose::service_now, Purpose::service_long}) {
    kept->combinations[purpose] = standard.combinations(purpose, circumstances);
  }
  kept->braced = braced_both_ways(deck, kept->timbers, standard);
  return kept;
}

}  // namespace

Run::Run(const survey::Deck& deck, const standards::Standard& standard, const PlanCases& plan_cases)
    : Run(deck, standard, plan_cases, keep(deck, standard)) {
  find_dead_load_shape();
}

Run::Run(const survey::Deck& deck, const standards::Standard& standard, const PlanCases& plan_cases,
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

model::Properties Run::properties_of(const Variant& variant) const {
  model::Properties p = properties(deck_, timbers_, standard_, variant.old_ground, variant.term);
  if (variant.new_ground != variant.old_ground) {
    for (std::size_t s = 0; s < deck_.supports.size(); ++s) {
      if (deck_.supports[s].added) {
        p.supports[s] = support_stiffness(deck_, timbers_, standard_, s, variant.new_ground);
      }
    }
  }
  return p;
}

void Run::find_dead_load_shape() {
  const auto added = [](const survey::Piece& piece) { return piece.added; };
  const bool any = std::any_of(deck_.supports.begin(), deck_.supports.end(), added) ||
                   std::any_of(deck_.bearers.begin(), deck_.bearers.end(), added) ||
                   std::any_of(deck_.walls.begin(), deck_.walls.end(), added);
  const bool sisters =
      std::any_of(deck_.joists.begin(), deck_.joists.end(),
                  [](const survey::Joist& joist) { return !joist.sisters.empty(); });
  kept_->self_weight_moments.assign(deck_.joists.size(), 0.0);
  if (!any && !sisters) return;
  // The deck as it stood before the works, under its own weight, on middling ground.
  survey::Deck before = deck_;
  std::vector<std::size_t> kept;
  before.joists.clear();
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    if (deck_.joists[j].added) continue;
    kept.push_back(j);
    before.joists.push_back(deck_.joists[j]);
    before.joists.back().sisters.clear();
  }
  std::vector<int> bearer_index(deck_.bearers.size(), -1), joist_index(deck_.joists.size(), -1);
  for (std::size_t k = 0; k < kept.size(); ++k) joist_index[kept[k]] = static_cast<int>(k);
  before.bearers.clear();
  for (std::size_t b = 0; b < deck_.bearers.size(); ++b) {
    if (deck_.bearers[b].added) continue;
    bearer_index[b] = static_cast<int>(before.bearers.size());
    before.bearers.push_back(deck_.bearers[b]);
  }
  before.supports.clear();
  for (const survey::SettledSupport& support : deck_.supports) {
    if (support.added) continue;
    survey::SettledSupport copy = support;
    if (copy.bearer >= 0) copy.bearer = bearer_index[static_cast<std::size_t>(copy.bearer)];
    if (copy.joist >= 0) copy.joist = joist_index[static_cast<std::size_t>(copy.joist)];
    if (copy.bearer < 0 && copy.joist < 0) continue;
    before.supports.push_back(std::move(copy));
  }
  std::erase_if(before.walls, added);
  before.loads.clear();
  const Timbers old_timbers = timbers(before, standard_);
  const model::Model model = model::build(
      before, properties(before, old_timbers, standard_, GroundBound::middle, Term::now),
      model::Bounds{});
  if (!model.not_modelled.empty() || model.loose)
    return;  // nothing stood by itself: no shape to keep
  const solver::Analysis analysis(model.frame, model.cases);
  const solver::CaseFactor dead{0, 1.0};
  const solver::Response response = analysis.solve({&dead, 1});
  if (response.mechanism) return;
  kept_->dead_shape.resize(deck_.joists.size());
  const Probes probe = probes(model);
  const Effects e = effects(model, analysis, probe, response, {&dead, 1}, false);
  for (std::size_t k = 0; k < kept.size(); ++k) {
    kept_->self_weight_moments[kept[k]] = std::max(e.joists[k].sag.value, e.joists[k].hog.value);
    const model::Line& line = model.joists[k];
    for (std::size_t n = 0; n < line.nodes.size(); ++n) {
      kept_->dead_shape[kept[k]].emplace_back(
          line.at[n], response.displacements[static_cast<std::size_t>(line.nodes[n])].w);
    }
  }
}

void Run::stage(model::Model& model) const {
  // A new support meets the deck as it has settled: the gap of today is zero, not that of a weightless
  // deck; in the plan's gap case it is wider by what a careless wedge leaves.
  const auto& data = catalog::table("scope.json");
  const double extra =
      !plan_cases_.gap_under_new_supports
          ? 0.0
          : catalog::number(data, plan_cases_.rewedged ? "gap_rewedged_mm" : "gap_under_new_mm");
  const auto sag = [&](int joist, double at) {
    const auto j = static_cast<std::size_t>(joist);
    if (j >= kept_->dead_shape.size() || kept_->dead_shape[j].empty()) return 0.0;
    const auto& shape = kept_->dead_shape[j];
    if (at <= shape.front().first) return std::max(0.0, -shape.front().second);
    for (std::size_t k = 0; k + 1 < shape.size(); ++k) {
      if (at > shape[k + 1].first) continue;
      const double f = (at - shape[k].first) / (shape[k + 1].first - shape[k].first);
      return std::max(0.0, -(shape[k].second + f * (shape[k + 1].second - shape[k].second)));
    }
    return std::max(0.0, -shape.back().second);
  };
  for (const model::Crossing& crossing : model.crossings) {
    const auto other = static_cast<std::size_t>(crossing.other);
    if (crossing.kind == model::CrossingKind::bearer && !crossing.end_joint &&
        deck_.bearers[other].added) {
      solver::Link& link = model.frame.links[static_cast<std::size_t>(crossing.link)];
      if (link.compression_only) link.gap += sag(crossing.joist, crossing.at_joist) + extra;
    } else if (crossing.kind == model::CrossingKind::support && deck_.supports[other].added) {
      model.frame.supports[static_cast<std::size_t>(crossing.support)].gap +=
          sag(crossing.joist, crossing.at_joist) + extra;
    } else if (crossing.kind == model::CrossingKind::wall && deck_.walls[other].added) {
      model.frame.supports[static_cast<std::size_t>(crossing.support)].gap +=
          sag(crossing.joist, crossing.at_joist) + extra;
    }
  }
  // A new pad under an old bearer is packed too.
  for (const model::Prop& prop : model.props) {
    if (prop.support < 0 || prop.ledger) continue;
    const auto s = static_cast<std::size_t>(prop.support);
    const auto b = static_cast<std::size_t>(prop.piece);
    if (!deck_.supports[s].added || deck_.bearers[b].added) continue;
    // The bearer's sag is taken from the nearest joist that lies on it.
    double nearest = 1e300, drop = 0.0;
    for (const model::Crossing& crossing : model.crossings) {
      if (crossing.kind != model::CrossingKind::bearer || crossing.other != prop.piece) continue;
      if (std::abs(crossing.at_other - prop.at) < nearest) {
        nearest = std::abs(crossing.at_other - prop.at);
        drop = sag(crossing.joist, crossing.at_joist);
      }
    }
    model.frame.supports[static_cast<std::size_t>(prop.solver_support)].gap += drop + extra;
  }
}

namespace {

/// Away from the load a board does not feel how stiff its base is, and the soft base answers for it: of
/// a stiff one only the boards under it and one bay beyond are read.
void keep_boards_near_loads(const survey::Deck& deck, const model::Model& model, Probes& probes) {
  double bay = 0.0;
  for (const model::Line& board : model.boards) {
    for (std::size_t k = 1; k < board.at.size(); ++k)
      bay = std::max(bay, board.at[k] - board.at[k - 1]);
  }
  bay *= 1.0 + model::Bounds{}.contacts_between_joists;
  std::erase_if(probes.board_members, [&](int m) {
    const solver::Member& member = model.frame.members[static_cast<std::size_t>(m)];
    const solver::Node& i = model.frame.nodes[static_cast<std::size_t>(member.i)];
    const solver::Node& j = model.frame.nodes[static_cast<std::size_t>(member.j)];
    return std::none_of(deck.loads.begin(), deck.loads.end(), [&](const auto& load) {
      const survey::Interval x = survey::extent(load.footprint, survey::Axis::x);
      const survey::Interval y = survey::extent(load.footprint, survey::Axis::y);
      return std::max(i.x, j.x) >= x.low.value() - bay &&
             std::min(i.x, j.x) <= x.high.value() + bay &&
             std::max(i.y, j.y) >= y.low.value() - bay &&
             std::min(i.y, j.y) <= y.high.value() + bay;
    });
  });
}

}  // namespace

std::shared_ptr<const Built> Run::built(const Variant& variant) const {
  if (!variant.bounds.stiff_shell) {
    for (const auto& [known, built] : kept_->built) {
      if (known.same_frame(variant)) return built;
    }
  }
  auto fresh = std::make_shared<Built>();
  if (variant.bounds.stiff_shell) {
    fresh->model = model::build(deck_, properties_of(variant), variant.bounds);
  } else {
    survey::Deck bare = deck_;
    bare.loads.clear();
    fresh->model = model::build(bare, properties_of(variant), variant.bounds);
  }
  model::Model& model = fresh->model;
  if (model.not_modelled.empty() && !model.loose) {
    stage(model);
    fresh->analysis =
        std::make_unique<solver::Analysis>(model.frame, std::vector<solver::LoadCase>{});
    fresh->probes = probes(model);
    if (variant.bounds.stiff_shell) keep_boards_near_loads(deck_, model, fresh->probes);
    fresh->condensed = std::make_unique<solver::Condensed>(
        *fresh->analysis, fresh->probes.frame_members, fresh->probes.board_members);
  }
  if (!variant.bounds.stiff_shell) kept_->built.emplace_back(variant, fresh);
  return fresh;
}

Prepared Run::prepare(const Variant& variant) const {
  Prepared prepared;
  prepared.variant = variant;
  prepared.built = built(variant);
  const model::Model& model = prepared.built->model;
  prepared.not_modelled = model.not_modelled;
  prepared.loose = model.loose;
  if (!prepared.not_modelled.empty() || prepared.loose) return prepared;
  if (variant.bounds.stiff_shell) {
    prepared.cases = std::make_shared<model::Cases>(model::Cases{model.cases, model.infos, {}});
  } else {
    // Members and nodes are numbered alike whatever the ground, the term and the joints; but a board
    // jointed over a joist takes no moment there.
    auto& cases = cases_[variant.bounds.boards_jointed.value_or(-1)];
    if (!cases) {
      cases =
          std::make_shared<model::Cases>(model::load_cases(deck_, properties_of(variant), model));
    }
    prepared.cases = cases;
    prepared.loose = cases->loose;
    if (prepared.loose) return prepared;
  }
  prepared.analysis =
      std::make_unique<solver::Analysis>(*prepared.built->analysis, prepared.cases->cases);
  prepared.condensed =
      std::make_unique<solver::Condensed>(*prepared.built->condensed, *prepared.analysis);
  return prepared;
}

std::vector<Variant> Run::variants() const {
  // Forces depend on the ratio of timber to ground stiffness only: creep softens timber, not ground.
  // Fresh timber on soft ground and crept timber on stiff ground are the two ends of that ratio.
  std::vector<Variant> list;
  const bool lap_open =
      std::any_of(deck_.joists.begin(), deck_.joists.end(),
                  [](const survey::Joist& joist) { return !joist.continuous_recorded; });
  const bool has_full_base = std::any_of(
      deck_.loads.begin(), deck_.loads.end(),
      [](const survey::SettledLoad& load) { return load.base == survey::BaseKind::full; });
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
  // The pads that carry most of the load, each in turn unlike its neighbours.
  std::vector<std::pair<double, std::size_t>> ranked;
  std::vector<solver::CaseFactor> whole;
  for (std::size_t k = 0; k < prepared.cases->infos.size(); ++k) {
    if (prepared.cases->infos[k].kind == model::CaseKind::self_weight)
      whole.push_back({static_cast<int>(k), 1.0});
    if (prepared.cases->infos[k].kind == model::CaseKind::whole) {
      const survey::SettledLoad& load =
          deck_.loads[static_cast<std::size_t>(prepared.cases->infos[k].load)];
      whole.push_back({static_cast<int>(k), weight(load.dry_mass + load.contents).value()});
    }
  }
  const solver::Response response = prepared.analysis->solve(whole);
  if (response.mechanism) return {};
  double total = 0.0;
  for (const survey::SettledLoad& load : deck_.loads)
    total += weight(load.dry_mass + load.contents).value();
  for (std::size_t s = 0; s < deck_.supports.size(); ++s) {
    const int index = prepared.model().support_of[s];
    if (index < 0) continue;
    const double reaction = response.supports[static_cast<std::size_t>(index)];
    if (reaction > 0.01 * total) ranked.emplace_back(-reaction, s);
  }
  std::sort(ranked.begin(), ranked.end());
  constexpr std::size_t most = 16;
  if (ranked.size() > most) ranked.resize(most);
  std::vector<PadChange> list;
  const bool soft_here = prepared.variant.old_ground == GroundBound::soft;
  for (const auto& [minus_reaction, s] : ranked) {
    const survey::SettledSupport& support = deck_.supports[s];
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
    const survey::SettledLoad& load =
        deck_.loads[static_cast<std::size_t>(prepared.cases->infos[k].load)];
    const double w = weight(load.dry_mass + load.contents).value();
    total += w;
    whole.push_back({static_cast<int>(k), w});
  }
  whole.push_back({0, 1.0});
  const solver::Response response = prepared.analysis->solve(whole);
  if (response.mechanism) {
    // Everything may be reached by the load.
    loaded_joists_.assign(deck_.joists.size(), true);
    loaded_bearers_.assign(deck_.bearers.size(), true);
    loaded_supports_.assign(deck_.supports.size(), true);
    loaded_walls_.assign(deck_.walls.size(), true);
    loaded_ledgers_.assign(deck_.ledgers.size(), true);
    return;
  }
  const solver::CaseFactor dead{0, 1.0};
  const solver::Response alone = prepared.analysis->solve({&dead, 1});
  const double share = catalog::number(catalog::table("scope.json"), "loaded_share") * total;
  const auto more = [&](const std::vector<double>& with, const std::vector<double>& without,
                        int index) {
    const auto i = static_cast<std::size_t>(index);
    return std::abs(with[i] - (alone.mechanism ? 0.0 : without[i]));
  };
  const model::Model& m = prepared.model();
  for (const model::Crossing& crossing : m.crossings) {
    const double force = crossing.link >= 0
                             ? more(response.links, alone.links, crossing.link)
                             : more(response.supports, alone.supports, crossing.support);
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
    if (more(response.supports, alone.supports, prop.solver_support) >= 0.5 * share) {
      loaded_supports_[static_cast<std::size_t>(prop.support)] = true;
    }
  }
  // Any joist under the footprint is loaded, however the boards share.
  for (std::size_t j = 0; j < deck_.joists.size(); ++j) {
    const survey::Joist& joist = deck_.joists[j];
    for (const survey::SettledLoad& load : deck_.loads) {
      for (const survey::Interval& interval :
           survey::line_intervals(load.footprint, joist.direction, joist.position)) {
        if (interval.high > joist.from && interval.low < joist.to) loaded_joists_[j] = true;
      }
    }
  }
}

void Run::record(Item& item, double demand, double along, const Question& question, int variant,
                 int change) {
  Worst& worst = item.worst[static_cast<std::size_t>(question.combination)];
  // Numbers that differ in rounding only keep the first state, so that mirror images read alike.
  if (demand <= worst.demand * (1.0 + 1e-9) + 1e-9) return;
  worst = {demand, along, variant, question.situation, question.pattern, change};
  if (!quick_ || bare_ || stop_) return;
  const auto index = static_cast<std::size_t>(&item - items_.data());
  const double u = utilisation(index, demand, question.combination);
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
    const bool proportional = std::isfinite(twice) && u > 0.0 &&
                              std::abs(2.0 * half - u) <= 1e-10 * u &&
                              std::abs(twice - 2.0 * u) <= 1e-10 * u;
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
  if (!stop_ && !mechanism_ && !not_modelled_ && !variants_.empty())
    find_loaded(prepare(variants_.front()));
  if (mechanism_ && !stop_)
    stop_ = Stop{std::numeric_limits<double>::infinity(), "deck", "equilibrium"};
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
               int change, int condensed_change, bool boards) {
  const auto& combination =
      combinations_.at(purpose)[static_cast<std::size_t>(question.combination)];
  const Situation& situation =
      situations_[bare_ ? 1 : 0][static_cast<std::size_t>(question.situation)];
  const auto factors = factored(deck_, prepared.cases->infos, values_, combination, situation,
                                patterns_[static_cast<std::size_t>(question.pattern)]);
  const solver::Condensed& condensed = *prepared.condensed;
  condensed.solve(factors, condensed_change, boards, state_);
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
  const auto support = [&](int s) { return state_.springs[condensed.of_support(s)]; };
  const auto crossing = [&](std::size_t c) {
    const model::Crossing& at = m.crossings[c];
    return at.link >= 0 ? state_.springs[condensed.of_link(at.link)] : support(at.support);
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
  const auto first = static_cast<Eigen::Index>(prepared.built->probes.frame_members.size());
  double bending = 0.0, shear = 0.0, between = 0.0;
  for (Eigen::Index k = first; 4 * k < state_.ends.size(); ++k) {
    const double Mi = state_.ends[4 * k], Mj = state_.ends[4 * k + 1];
    bending = std::max({bending, std::abs(Mi), std::abs(Mj)});
    shear = std::max({shear, std::abs(state_.ends[4 * k + 2]), std::abs(state_.ends[4 * k + 3])});
    const double L = prepared.condensed->length(static_cast<int>(k));
    const double added = state_.free[k] + std::max(0.0, -state_.spans[k]) * L * L / 8.0;
    if (added > 0.0) between = std::max(between, std::max(Mi, Mj) + added);
  }
  double least = between;
  for (const int k : board_items_) {
    const Item& item = list[static_cast<std::size_t>(k)];
    if (item.source == Source::boards_bending)
      least = std::min(least, item.worst[static_cast<std::size_t>(question.combination)].demand);
  }
  if (between > bending && between > least) {
    // Perhaps the largest is between the joists: look exactly.
    const solver::Response response = prepared.analysis->solve(
        factors, change >= 0 ? std::span<const solver::SupportChange>(
                                   changes_[static_cast<std::size_t>(change)].changes)
                             : std::span<const solver::SupportChange>{});
    const Effects e = effects(prepared.model(), *prepared.analysis, prepared.built->probes,
                              response, factors, true);
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
    if (stop_ || (quick_ && mechanism_)) return;
    take(prepared, variant, purpose, question, -1, -1,
         purpose == Purpose::strength && question.pattern <= 1);
  }
}

void Run::safety(bool with_load) {
  bare_ = !with_load;
  if (variants_.empty()) variants_ = variants();
  if (with_load) {
    reactions_.clear();
    for (const survey::SettledSupport& support : deck_.supports)
      reactions_.push_back({support.id, support.at, {}, {}});
  }
  std::vector<Variant> list = variants_;
  bool first = true;
  for (std::size_t v = 0; v < list.size(); ++v) {
    const Variant variant = list[v];
    if (!with_load && variant.bounds.stiff_shell) continue;
    if (stop_ || (quick_ && mechanism_)) return;
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
      patterns_ = patterns(prepared.model().bays.size());
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
    ask(prepared, static_cast<int>(v), Purpose::strength, with_load);
    ask(prepared, static_cast<int>(v), Purpose::ground, with_load);
    if (!variant.bounds.stiff_shell) ask(prepared, static_cast<int>(v), Purpose::uplift, with_load);
    if (!with_load || plan_cases_.screening) continue;
    // Each pad that matters, unlike its neighbours; with the people in their main places.
    if (!variant.bounds.stiff_shell) {
      for (const PadChange& change : pad_changes(prepared)) {
        changes_.push_back(change);
        const int index = static_cast<int>(changes_.size()) - 1;
        const int handle = prepared.condensed->prepare(change.changes);
        for (const Purpose purpose : {Purpose::strength, Purpose::ground}) {
          for (const Question& question :
               questions(combinations_.at(purpose), situations_[0], patterns_)) {
            const Situation& s = situations_[0][static_cast<std::size_t>(question.situation)];
            if (stop_ || (quick_ && mechanism_)) return;
            if (question.pattern > 1 || !s.full || s.bathers == Bathers::quarter || s.free_end >= 0)
              continue;
            take(prepared, static_cast<int>(v), purpose, question, index, handle, false);
          }
        }
      }
    }
    // Boards whose joints nobody recorded: all jointed over the joist that bends most.
    const bool joints_open =
        !deck_.boards.joints_recorded || deck_.boards.joints == survey::BoardJoints::staggered;
    if (joints_open && !variant.bounds.stiff_shell && !variant.bounds.joists_lapped &&
        !variant.bounds.boards_jointed) {
      double most = -1.0;
      int joist = -1;
      for (const Item& item : items_) {
        if (item.source != Source::joist_sag) continue;
        for (const Worst& worst : item.worst) {
          if (worst.demand > most) {
            most = worst.demand;
            joist = item.index;
          }
        }
      }
      Variant jointed = variant;
      jointed.bounds.boards_jointed = joist;
      list.push_back(jointed);
      variants_.push_back(jointed);
    }
  }
}

}  // namespace underprop::assessment
