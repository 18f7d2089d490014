// Names: each piece has one of its own, and whatever is named is there.
#include "read_checks.hpp"

#include "base/edit_distance.hpp"
#include "underprop/deck/pieces.hpp"
#include "underprop/record/facts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace underprop::deck {
namespace {

struct NamedGroup {
  std::string name;
  std::string pointer;
};

std::vector<NamedGroup> groups_of(const record::DeckRecord& deck) {
  std::vector<NamedGroup> groups;
  const auto add = [&](std::string_view list, const auto& items) {
    for (std::size_t i = 0; i < items.size(); ++i) {
      groups.push_back({items[i].name, place_of(list, i, "name")});
    }
  };
  add("/deck/joists", deck.joists);
  add("/deck/bearers", deck.bearers);
  add("/deck/rims", deck.rims);
  add("/deck/ledgers", deck.ledgers);
  add("/deck/supports", deck.supports);
  add("/deck/walls", deck.walls);
  add("/deck/blocking", deck.blocking);
  return groups;
}

class References {
public:
  explicit References(ErrorList& errors) : errors_(errors) {}

  /// Adds an error unless `name` is among `known`.
  void need(const std::string& pointer, const std::string& name, const std::set<std::string>& known,
            std::string_view what) {
    if (name.empty() || known.count(name) > 0 || reported(errors_, pointer)) return;
    std::vector<std::string_view> views(known.begin(), known.end());
    // Beyond what is told anyway no time is spent on guesses.
    const bool kept = errors_.errors().size() < ErrorList::max_errors;
    const std::string_view near = kept ? nearest_word(name, views) : std::string_view();
    std::string allowed = fmt::format("the name of {}", what);
    constexpr std::size_t most_listed = 12;
    for (std::size_t i = 0; i < views.size() && i < most_listed; ++i) {
      allowed += fmt::format("{} \"{}\"", i == 0 ? ":" : ",", views[i]);
    }
    if (views.size() > most_listed) allowed += " ...";
    if (views.empty()) allowed += "; the survey has none";
    errors_.add(pointer, quote(name) + " is not there", allowed,
                near.empty() ? std::string("record it, or correct the name")
                             : fmt::format("did you mean \"{}\"?", near));
  }

private:
  ErrorList& errors_;
};

template <class T>
std::set<std::string> names_in(const std::vector<T>& items) {
  std::set<std::string> names;
  for (const T& item : items) names.insert(item.name);
  return names;
}

// The single pieces must not share a name with each other or with another group.
void check_piece_names(const record::Survey& survey, const Layout& layout, ErrorList& errors) {
  std::map<std::string, std::string> owners;  // piece or group -> pointer of its group
  for (const NamedGroup& group : groups_of(survey.deck)) owners[group.name] = group.pointer;
  const auto check = [&](const std::string& id, const std::string& group,
                         const std::string& pointer) {
    if (id == group) return;
    const auto [owner, fresh] = owners.emplace(id, pointer);
    if (fresh || owner->second == pointer) return;
    errors.add(pointer,
               fmt::format("{} has a piece called {}, and so has {}", quote(group), quote(id),
                           owner->second),
               "names that stay apart once pieces are numbered", "rename one of the two");
  };
  const record::DeckRecord& deck = survey.deck;
  const auto all = [&](const auto& lines, const auto& groups, std::string_view list) {
    for (const auto& line : lines) {
      const auto source = static_cast<std::size_t>(line.source);
      check(line.id, groups[source].name, place_of(list, source, "name"));
    }
  };
  all(layout.joists, deck.joists, "/deck/joists");
  all(layout.bearers, deck.bearers, "/deck/bearers");
  all(layout.ledgers, deck.ledgers, "/deck/ledgers");
  all(layout.supports, deck.supports, "/deck/supports");
}

}  // namespace

const std::vector<std::string_view>& words_for_all() {
  static const std::vector<std::string_view> words{"all",     "joists",   "bearers", "ledger",
                                                   "ledgers", "posts",    "rims",    "walls",
                                                   "boards",  "supports", "blocking"};
  return words;
}

void check_names(const record::Survey& survey, ErrorList& errors) {
  std::map<std::string, std::string> seen;
  for (const NamedGroup& group : groups_of(survey.deck)) {
    if (group.name.empty() || reported(errors, group.pointer)) continue;
    const auto& reserved = words_for_all();
    if (std::ranges::find(reserved, group.name) != reserved.end()) {
      errors.add(group.pointer, quote(group.name) + " is a word for all pieces of a sort",
                 "another name", "choose one such as \"J\" or \"B1\"");
      continue;
    }
    const auto [first, fresh] = seen.emplace(group.name, group.pointer);
    if (!fresh) {
      errors.add(group.pointer,
                 fmt::format("{} is also the name at {}", quote(group.name), first->second),
                 "a name of its own", "rename one of the two");
    }
  }
  std::map<std::string, std::string> loads;
  for (std::size_t i = 0; i < survey.loads.size(); ++i) {
    const std::string pointer = place_of("/loads", i, "name");
    const auto [first, fresh] = loads.emplace(survey.loads[i].name, pointer);
    if (!fresh && !reported(errors, pointer)) {
      errors.add(
          pointer,
          fmt::format("{} is also the name at {}", quote(survey.loads[i].name), first->second),
          "a name of its own", "rename one of the two");
    }
  }
}

void check_references(const record::Survey& survey, const Layout& layout, ErrorList& errors) {
  const record::DeckRecord& deck = survey.deck;
  References references(errors);
  check_piece_names(survey, layout, errors);

  std::set<std::string> joists;
  for (const PieceLine& joist : layout.joists) joists.insert(joist.id);
  const std::set<std::string> joist_groups = names_in(deck.joists);
  for (std::size_t i = 0; i < deck.joist_ends.size(); ++i) {
    references.need(place_of("/deck/joist_ends", i, "joist"), deck.joist_ends[i].joist, joists,
                    "a single joist");
  }
  for (std::size_t i = 0; i < deck.rims.size(); ++i) {
    references.need(place_of("/deck/rims", i, "joists"), deck.rims[i].joists, joist_groups,
                    "a group of joists");
  }
  for (std::size_t i = 0; i < deck.blocking.size(); ++i) {
    references.need(place_of("/deck/blocking", i, "joists"), deck.blocking[i].joists, joist_groups,
                    "a group of joists");
  }
  for (std::size_t i = 0; i < deck.sisters.size(); ++i) {
    references.need(place_of("/deck/sisters", i, "joist"), deck.sisters[i].joist, joists,
                    "a single joist");
  }
  std::set<std::string> carried = names_in(deck.bearers);
  const std::set<std::string> bearers = carried;
  carried.insert(joist_groups.begin(), joist_groups.end());
  std::set<std::string> carried_or_single = carried;
  carried_or_single.insert(joists.begin(), joists.end());
  for (std::size_t i = 0; i < deck.supports.size(); ++i) {
    const record::Supports& group = deck.supports[i];
    const std::string under = place_of("/deck/supports", i, "under");
    if (carried_or_single.count(group.under) == 0) {
      references.need(under, group.under, carried, "a bearer or a group of joists");
      continue;
    }
    const std::string only = place_of("/deck/supports", i, "only");
    if (bearers.count(group.under) > 0) {
      if (!group.only.empty()) {
        errors.add(only, "\"only\" for supports under the bearer " + quote(group.under),
                   "\"only\" where \"under\" names a group of joists (" + under + ")", "delete it");
      }
      continue;
    }
    std::set<std::string> members;
    for (const PieceLine& joist : layout.joists) {
      const std::string& name = deck.joists[static_cast<std::size_t>(joist.source)].name;
      if (name == group.under || joist.id == group.under) members.insert(joist.id);
    }
    for (std::size_t k = 0; k < group.only.size(); ++k) {
      references.need(child_pointer(only, k), group.only[k], members,
                      fmt::format("a joist of {}", quote(group.under)));
    }
  }

  std::set<std::string> pieces;
  for (const PieceName& piece : piece_names(survey)) {
    pieces.insert(piece.id);
    pieces.insert(piece.group);
  }
  std::set<std::string> pieces_and_words = pieces;
  for (const std::string_view word : words_for_all()) pieces_and_words.emplace(word);
  for (std::size_t i = 0; i < deck.probed.pieces.size(); ++i) {
    references.need(child_pointer("/deck/probed/pieces", i), deck.probed.pieces[i],
                    pieces_and_words, "a piece or a group, or a word for all of a sort");
  }
  for (std::size_t i = 0; i < deck.condition.size(); ++i) {
    const std::string pointer = place_of("/deck/condition", i, "piece");
    references.need(pointer, deck.condition[i].piece, pieces, "a piece or a group");
    if (reported(errors, place_of("/deck/condition", i))) continue;
    const std::string reason = why_not(survey, deck.condition[i]);
    if (!reason.empty()) {
      errors.add(place_of("/deck/condition", i), reason,
                 "a defect that the piece can have, where it is",
                 "correct the defect, the piece or the place");
    }
  }
}

}  // namespace underprop::deck
