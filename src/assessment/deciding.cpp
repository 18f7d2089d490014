#include "deciding.hpp"

#include "figures.hpp"

#include <algorithm>
#include <cmath>

namespace underprop::assessment {

using record::Act;
using record::Reading;

namespace {

/// Every set of so many acts, those of the first acts first.
std::vector<std::set<Act>> choose(const std::vector<Act>& acts, std::size_t many) {
  std::vector<std::set<Act>> sets{{}};
  for (std::size_t k = 0; k < many; ++k) {
    std::vector<std::set<Act>> longer;
    for (const std::set<Act>& set : sets) {
      for (const Act act : acts) {
        std::set<Act> with = set;
        if (with.insert(act).second && std::ranges::find(longer, with) == longer.end())
          longer.push_back(std::move(with));
      }
    }
    sets = std::move(longer);
  }
  return sets;
}

/// A loose deck has no figure; any that has one is better.
double capped(double safety) { return std::isfinite(safety) ? safety : 99.0; }

}  // namespace

Override Deciding::settled(const std::set<Act>& acts) const {
  Override found;
  for (const deck::OpenFact& fact : readings_.open()) {
    if (acts.contains(fact.act)) found[fact.field] = Reading::favourable;
  }
  return found;
}

void Deciding::rank(Assessment& a, double now) {
  // Where something is loose at cautious facts, one fact found well seldom mends it, and all would rank
  // alike: there a fact counts by the harm that it alone does where the others turn out well. A few bounds
  // do for that order.
  const bool stands = std::isfinite(now);
  const Outcome cautious = readings_.screened(Reading::cautious, {});
  const double at_best = stands ? 0.0 : readings_.screened(Reading::favourable, {}).safety;
  struct Moved {
    double by = 0.0;
    bool refers = false;
  };
  const auto moved = [&](const Override& found, const Override& harm) -> Moved {
    Outcome o = cautious;
    if (stands || cautious.referrals > 0) o = readings_.screened(Reading::cautious, found);
    const double by =
        stands ? capped(cautious.safety) - capped(o.safety)
               : capped(readings_.screened(Reading::favourable, harm).safety) - capped(at_best);
    return {std::max(0.0, by), o.referrals < cautious.referrals};
  };
  std::vector<std::pair<Act, Moved>> by_act;
  for (const deck::OpenFact& fact : readings_.open()) {
    if (std::ranges::find(by_act, fact.act, &std::pair<Act, Moved>::first) != by_act.end())
      continue;
    Override found = settled({fact.act}), harm = found;
    for (auto& [field, reading] : harm) reading = Reading::cautious;
    by_act.emplace_back(fact.act, moved(found, harm));
  }
  const auto moves_more = [](const Moved& x, const Moved& y) {
    return x.refers != y.refers ? x.refers : x.by > y.by;
  };
  std::stable_sort(by_act.begin(), by_act.end(),
                   [&](const auto& x, const auto& y) { return moves_more(x.second, y.second); });
  for (const auto& [act, by] : by_act) acts_.push_back(act);
  for (const deck::OpenFact& fact : readings_.open()) {
    // Of an act that moves nothing no fact does.
    const Moved all = std::ranges::find(by_act, fact.act, &std::pair<Act, Moved>::first)->second;
    const Moved by = all.refers || all.by > 0.0 ? moved({{fact.field, Reading::favourable}},
                                                        {{fact.field, Reading::cautious}})
                                                : Moved{};
    a.unknowns.push_back({fact, by.by, by.refers});
  }
  std::stable_sort(a.unknowns.begin(), a.unknowns.end(), [&](const Unknown& x, const Unknown& y) {
    return moves_more({x.swing, x.refers}, {y.swing, y.refers});
  });
  for (const Unknown& unknown : a.unknowns) ranked_.push_back(unknown.field);
}

std::set<Act> Deciding::missing_acts(const Assessment& a) {
  std::set<Act> acts;
  for (const MustSee& item : a.must_see) {
    if (!item.recorded) acts.insert(item.act);
  }
  return acts;
}

void Deciding::leave_out(Override& found, const std::vector<std::string>& some) {
  if (some.empty()) return;
  Override without = found;
  for (const std::string& field : some) without.erase(field);
  if (readings_.would_carry(without)) {
    found = std::move(without);
    return;
  }
  if (some.size() == 1) return;
  const auto half = some.begin() + static_cast<std::ptrdiff_t>(some.size() / 2);
  leave_out(found, {some.begin(), half});
  leave_out(found, {half, some.end()});
}

Decides Deciding::narrowed(const Assessment& a, const std::set<Act>& acts) {
  Override found = settled(acts);
  Decides decides;
  std::vector<std::string> spare;  // what moves least first
  for (auto field = ranked_.rbegin(); field != ranked_.rend(); ++field) {
    const bool seen = std::ranges::any_of(
        a.must_see, [&](const MustSee& item) { return item.field == *field && !item.recorded; });
    if (found.contains(*field) && !seen) spare.push_back(*field);
  }
  leave_out(found, spare);
  // Numbers together no better than they need be: the limit, halved towards; then words.
  const auto best = readings_.taken(found, 1.0), half = readings_.taken(found, 0.5);
  constexpr int halvings = 5;
  double share = 1.0, fails_at = 0.0;
  for (int k = 0; k < halvings && best != half; ++k) {
    const double middle = 0.5 * (share + fails_at);
    (readings_.would_carry(found, middle) ? share : fails_at) = middle;
  }
  Override usual = found;
  for (auto& [field, reading] : usual) {
    const deck::OpenFact* fact = readings_.open(field);
    const bool word = best.contains(field) && best.at(field) == half.at(field);
    if (word && fact->likely != fact->cautious) reading = Reading::likely;
  }
  if (usual != found && readings_.would_carry(usual, share)) found = std::move(usual);
  const auto values = readings_.taken(found, share);
  for (const MustSee& item : a.must_see) {
    if (!item.recorded) decides.fields.push_back(item.field);
  }
  for (const std::string& field : ranked_) {
    if (found.contains(field) && std::ranges::find(decides.fields, field) == decides.fields.end())
      decides.fields.push_back(field);
  }
  for (const std::string& field : decides.fields) {
    const auto value = values.find(field);
    decides.passes_if.push_back(value == values.end() ? "" : value->second);
  }
  return decides;
}

bool Deciding::find(Assessment& a) {
  constexpr std::size_t pool_size = 7;
  const std::set<Act> always = missing_acts(a);
  if (always.size() > most_acts) return false;
  std::vector<Act> pool;
  for (const Act act : acts_) {
    if (!always.contains(act) && pool.size() < pool_size) pool.push_back(act);
  }
  for (std::size_t more = 0; always.size() + more <= most_acts; ++more) {
    for (const std::set<Act>& set : choose(pool, more)) {
      std::set<Act> acts = always;
      acts.insert(set.begin(), set.end());
      if (readings_.would_carry(settled(acts))) a.decides.push_back(narrowed(a, acts));
    }
    if (!a.decides.empty()) return true;
  }
  return false;
}

bool Deciding::one_or_two_would_do() {
  constexpr std::size_t pool_size = 6;
  const std::vector<Act> pool(acts_.begin(), acts_.begin() + static_cast<std::ptrdiff_t>(std::min(
                                                                 acts_.size(), pool_size)));
  for (const std::size_t many : {std::size_t{1}, std::size_t{2}}) {
    for (const std::set<Act>& acts : choose(pool, many)) {
      if (readings_.passes(Reading::likely, readings_.as_seen(settled(acts)))) return true;
    }
  }
  return false;
}

}  // namespace underprop::assessment
