// Facts in the words of somebody who stands beside the deck.
#include "spoken.hpp"

#include "catalog/table.hpp"
#include "underprop/record/facts.hpp"
#include "underprop/record/wording.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <charconv>
#include <span>
#include <utility>

namespace underprop::record {
namespace {

template <class Pieces>
std::string name_in(const Pieces& pieces, std::string_view index) {
  std::size_t i = 0;
  const auto read = std::from_chars(index.data(), index.data() + index.size(), i);
  if (read.ec != std::errc{} || i >= pieces.size()) return {};
  return pieces[i].name;
}

/// Start and end are never said without their side.
std::string side(bool start) { return start ? "the end nearer to corner A" : "the far end"; }

/// What a key is called, where it is not just the key.
std::string key_words(const std::string& key) {
  static constexpr std::pair<std::string_view, std::string_view> names[] = {
      {"recorded_on", "the day of the record"},
      {"positions", "places"},
      {"at", "place"},
      {"fixed_to", "what is behind it"},
      {"held", "how it is held"},
      {"dry_mass", "weight when empty"},
      {"contents_mass", "weight of the contents"},
      {"ply_breadth", "breadth of one piece"},
      {"plies", "number of pieces"},
      {"imposed_load", "live load"},
      {"stated_capacity", "what a test or the maker states"}};
  for (const auto& [name, words] : names) {
    if (key == name) return std::string(words);
  }
  std::string words = key;
  std::ranges::replace(words, '_', ' ');
  return words;
}

/// "joists J" for /deck/joists/0. `one`: "joists ".
template <class Pieces>
std::string piece_words(const std::string& one, const Pieces& pieces, const std::string& index) {
  const std::string name = name_in(pieces, index);
  if (!name.empty()) return one + name;
  std::size_t number = 0;
  const auto read = std::from_chars(index.data(), index.data() + index.size(), number);
  return one + (read.ec == std::errc{} ? std::to_string(number + 1) : index);
}

struct Numbered {
  std::string name;
};

std::string place_words(const Survey& survey, const std::string& pointer) {
  const std::vector<std::string> keys = split(pointer, '/');
  const auto key = [&](std::size_t i) { return i < keys.size() ? keys[i] : std::string(); };
  const DeckRecord& deck = survey.deck;
  constexpr std::span<const Numbered> no_names;
  std::string text;
  std::size_t next = 0;
  if (key(0) == "deck") {
    next = 3;
    if (key(1) == "joists") {
      text = piece_words("joists ", deck.joists, key(2));
    } else if (key(1) == "bearers") {
      text = piece_words("bearer ", deck.bearers, key(2));
    } else if (key(1) == "ledgers") {
      text = piece_words("ledger ", deck.ledgers, key(2));
    } else if (key(1) == "rims") {
      text = piece_words("rim ", deck.rims, key(2));
    } else if (key(1) == "supports") {
      text = piece_words("supports ", deck.supports, key(2));
    } else if (key(1) == "walls") {
      text = piece_words("wall ", deck.walls, key(2));
    } else if (key(1) == "condition") {
      text = piece_words("what was found wrong, number ", no_names, key(2));
    } else if (key(1) == "braces") {
      text = piece_words("brace ", no_names, key(2));
    } else {
      text = "the deck";
      next = 1;
    }
  } else if (key(0) == "loads") {
    text = piece_words("the ", survey.loads, key(1));
    next = 2;
  } else if (key(0) == "site") {
    text = "the site";
    next = 1;
  }
  for (std::size_t i = next; i < keys.size(); ++i) {
    text += (text.empty() ? "" : ", ") + key_words(keys[i]);
  }
  return text;
}

}  // namespace

namespace {

std::string with_office(std::string text, StandardId standard) {
  constexpr std::string_view mark = "{building_office}";
  const std::size_t at = text.find(mark);
  if (at == std::string::npos) return text;
  const auto& rows = catalog::table("standards.json").at("standards");
  return text.replace(
      at, mark.size(),
      rows.at(static_cast<std::size_t>(standard)).at("building_office").get<std::string>());
}

}  // namespace

std::string how_to_find_out(const FactKind& kind, StandardId standard) {
  return with_office(kind.find_out, standard);
}

std::string act_in_words(Act act, StandardId standard) {
  return with_office(act_on_site(act).what, standard);
}

std::string in_words(const Survey& survey, const std::string& text) {
  std::string told;
  const auto part_of_pointer = [](char c) {
    return c == '/' || c == '_' || (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z');
  };
  for (std::size_t at = 0; at < text.size();) {
    const bool starts = text[at] == '/' &&
                        (at == 0 || text[at - 1] == ' ' || text[at - 1] == '(') &&
                        at + 1 < text.size() && text[at + 1] >= 'a' && text[at + 1] <= 'z';
    if (!starts) {
      told += text[at++];
      continue;
    }
    std::size_t end = at;
    while (end < text.size() && part_of_pointer(text[end])) ++end;
    told += place_words(survey, text.substr(at, end - at));
    at = end;
  }
  return told;
}

std::string fact_words(const Survey& survey, const std::string& field, const std::string& what,
                       const std::vector<std::string>& also) {
  const std::vector<std::string> keys = split(field, '/');
  const auto key = [&](std::size_t i) { return i < keys.size() ? keys[i] : std::string(); };
  const DeckRecord& deck = survey.deck;
  std::string piece, where;
  bool only = false;  // there is no other of its kind
  if (key(0) == "deck") {
    const std::string& list = key(1);
    if (list == "probed") piece = key(2);
    if (list == "joists") {
      piece = name_in(deck.joists, key(2));
      only = deck.joists.size() == 1;
      if (key(3) == "start" || key(3) == "end") where = side(key(3) == "start");
    }
    if (list == "joist_ends") {
      std::size_t i = 0;
      const std::string index = key(2);
      const auto read = std::from_chars(index.data(), index.data() + index.size(), i);
      if (read.ec == std::errc{} && i < deck.joist_ends.size()) {
        piece = deck.joist_ends[i].joist;
        where = side(deck.joist_ends[i].at_start);
      }
    }
    if (list == "bearers") {
      piece = name_in(deck.bearers, key(2));
      only = deck.bearers.size() == 1;
    }
    if (list == "ledgers") {
      piece = name_in(deck.ledgers, key(2));
      only = deck.ledgers.size() == 1;
    }
    if (list == "rims") piece = name_in(deck.rims, key(2));
    if (list == "walls") {
      piece = name_in(deck.walls, key(2));
      only = deck.walls.size() == 1;
    }
    if (list == "supports") {
      piece = name_in(deck.supports, key(2));
      only = deck.supports.size() == 1;
    }
  } else if (key(0) == "site" && keys.size() > 3) {
    const Site& site = survey.site;
    piece = key(1) == "retaining_walls" ? name_in(site.retaining_walls.items, key(2))
            : key(1) == "house_walls"   ? name_in(site.house_walls.items, key(2))
            : key(1) == "drains"        ? name_in(site.drains.items, key(2))
                                        : name_in(site.ponds.items, key(2));
  } else if (key(0) == "loads") {
    piece = name_in(survey.loads, key(1));
    if (piece.empty()) piece = "load " + key(1);
    only = survey.loads.size() == 1;
  }
  for (std::size_t i = 0; i < also.size(); ++i)
    piece += (i + 1 == also.size() ? " and " : ", ") + also[i];
  if (only) piece.clear();
  if (piece.empty() && where.empty()) return what;
  return what + " (" + piece + (piece.empty() || where.empty() ? "" : ", ") + where + ")";
}

}  // namespace underprop::record
