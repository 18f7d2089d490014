#include "parts.hpp"
#include "underprop/record/standard_facts.hpp"

#include "works/rules.hpp"

#include <algorithm>
#include <map>
#include <stdexcept>

namespace underprop::works {
namespace {

using deck::Joist;
using record::Survey;

// "P12" -> "P"
std::string without_index(std::string name) {
  while (!name.empty() && name.back() >= '0' && name.back() <= '9') name.pop_back();
  return name;
}

}  // namespace

Pieces::Pieces(const Survey& survey)
    : survey_(survey), deck_(deck::resolve(survey, record::Reading::likely).deck) {}

std::set<std::string> Pieces::supports(const std::string& name) const {
  std::set<std::string> by_id, by_group, below;
  for (const deck::Support& support : deck_.supports) {
    const std::string& group = survey_.deck.supports[static_cast<std::size_t>(support.group)].name;
    const std::string recorded = recorded_name(support.id);
    if (support.id == name || recorded == name) by_id.insert(support.id);
    if (group == name || (recorded != support.id && without_index(recorded) == name)) {
      by_group.insert(support.id);
    }
    if (support.bearer >= 0) {
      const auto& bearer = deck_.bearers[static_cast<std::size_t>(support.bearer)];
      const std::string& whole = survey_.deck.bearers[static_cast<std::size_t>(bearer.index)].name;
      if (bearer.id == name || whole == name) below.insert(support.id);
    } else if (support.joist >= 0 &&
               deck_.joists[static_cast<std::size_t>(support.joist)].id == name) {
      below.insert(support.id);
    }
  }
  return !by_id.empty() ? by_id : !by_group.empty() ? by_group : below;
}

const Joist& Pieces::joist(const std::string& id) const {
  for (const Joist& joist : deck_.joists) {
    if (joist.id == id) return joist;
  }
  throw Impossible("there is no joist " + id);
}

std::vector<const Joist*> Pieces::joists(const std::string& name) const {
  std::vector<const Joist*> found;
  for (const Joist& joist : deck_.joists) {
    if (joist.id == name) return {&joist};
    if (group_of(joist) == name) found.push_back(&joist);
  }
  if (found.empty()) throw Impossible("there is no joist or group of joists " + name);
  return found;
}

const deck::Bearer* Pieces::bearer(const std::string& name) const {
  for (const deck::Bearer& bearer : deck_.bearers) {
    if (bearer.id == name ||
        survey_.deck.bearers[static_cast<std::size_t>(bearer.index)].name == name) {
      return &bearer;
    }
  }
  return nullptr;
}

std::vector<const Joist*> Pieces::crossed(Axis direction, Length position, Length from,
                                          Length to) const {
  std::vector<const Joist*> found;
  for (const Joist& joist : deck_.joists) {
    if (joist.direction == direction) continue;
    if (joist.position < from || joist.position > to) continue;
    if (position < joist.from || position > joist.to) continue;
    found.push_back(&joist);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Joist* a, const Joist* b) { return a->position < b->position; });
  return found;
}

const Joist* Pieces::neighbour(Axis direction, Length position, Length from, Length to) const {
  const Length middle = 0.5 * (from + to);
  const Joist* nearest = nullptr;
  for (const Joist& joist : deck_.joists) {
    if (joist.direction != direction || middle < joist.from || middle > joist.to) continue;
    if (nearest == nullptr || abs(joist.position - position) < abs(nearest->position - position)) {
      nearest = &joist;
    }
  }
  return nearest;
}

const std::string& Pieces::group_of(const Joist& joist) const {
  return deck_.joist_groups[static_cast<std::size_t>(joist.group)];
}

void fault(const Work& work, const std::string& what) {
  throw Impossible("the work " + work.id + ": " + what);
}

std::vector<Interval> runs(const Work& work, record::StandardId standard) {
  const Length longest = stock(standard).lengths.back();
  std::vector<Length> pads;
  for (const Point& place : work.places) pads.push_back(along(place, work.direction));
  std::sort(pads.begin(), pads.end());
  std::vector<Interval> result;
  Length start = work.from;
  while (work.to - start > longest) {
    // Over the last pad within reach; without one the splice hangs, which the assessment will see.
    Length splice = start + longest;
    for (const Length pad : pads) {
      if (pad > start && pad - start <= longest) splice = pad;
    }
    result.push_back({start, splice});
    start = splice;
  }
  result.push_back({start, work.to});
  return result;
}

bool nearer_start(const Joist& joist, Point place) {
  return along(place, joist.direction) <= 0.5 * (joist.from + joist.to);
}

std::string recorded_name(const std::string& id) {
  constexpr std::string_view mark = ".1";
  if (id.size() > mark.size() && id.ends_with(mark)) return id.substr(0, id.size() - mark.size());
  return id;
}

std::vector<std::size_t> isolate(Survey& survey, const std::set<std::string>& ids) {
  const deck::Deck deck = deck::resolve(survey, record::Reading::likely).deck;
  std::vector<std::vector<const deck::Support*>> members(survey.deck.supports.size());
  for (const deck::Support& support : deck.supports) {
    members[static_cast<std::size_t>(support.group)].push_back(&support);
  }

  std::vector<record::Supports> groups;
  std::vector<std::size_t> changed;
  std::map<std::string, std::string> single;                 // P2 -> P2.1
  std::map<std::string, std::vector<std::string>> split_up;  // P -> P1.1, P2.1 ...
  for (std::size_t g = 0; g < members.size(); ++g) {
    const record::Supports& group = survey.deck.supports[g];
    const auto wanted = [&](const deck::Support* s) { return ids.count(s->id) > 0; };
    const auto count = std::count_if(members[g].begin(), members[g].end(), wanted);
    if (count == 0 || count == static_cast<std::ptrdiff_t>(members[g].size())) {
      if (count > 0) changed.push_back(groups.size());
      groups.push_back(group);
      continue;
    }
    for (const deck::Support* member : members[g]) {
      record::Supports alone = group;
      alone.name = member->id + ".";
      Axis direction = Axis::x;
      if (member->bearer >= 0) {
        direction = deck.bearers[static_cast<std::size_t>(member->bearer)].direction;
      } else {
        const Joist& joist = deck.joists[static_cast<std::size_t>(member->joist)];
        direction = joist.direction;
        alone.under = joist.id;
      }
      alone.positions = {along(member->at, direction)};
      alone.only.clear();
      if (wanted(member)) changed.push_back(groups.size());
      groups.push_back(std::move(alone));
      single[member->id] = member->id + ".1";
      split_up[group.name].push_back(member->id + ".1");
    }
  }
  if (single.empty()) return changed;
  survey.deck.supports = std::move(groups);

  const auto new_names = [&](const std::string& name) {
    if (const auto one = single.find(name); one != single.end()) {
      return std::vector<std::string>{one->second};
    }
    if (const auto all = split_up.find(name); all != split_up.end()) return all->second;
    return std::vector<std::string>{name};
  };
  std::vector<record::Condition> conditions;
  for (const record::Condition& condition : survey.deck.condition) {
    for (const std::string& name : new_names(condition.piece)) {
      conditions.push_back(condition);
      conditions.back().piece = name;
    }
  }
  survey.deck.condition = std::move(conditions);
  std::vector<std::string> probed;
  for (const std::string& piece : survey.deck.probed.pieces) {
    for (const std::string& name : new_names(piece)) probed.push_back(name);
  }
  survey.deck.probed.pieces = std::move(probed);
  for (record::Brace& brace : survey.deck.braces) {
    const std::string first = new_names(brace.at).front();
    if (first != brace.at) brace.at = first.substr(0, first.size() - 1);  // the group: "P1."
  }
  return changed;
}

UnitSystem units_of(const Survey& survey) { return record::facts_of(survey.standard).units; }

}  // namespace underprop::works
