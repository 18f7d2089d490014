// Facts in the words of somebody who stands beside the deck.
#include "spoken.hpp"

#include "underprop/survey/facts.hpp"

#include <charconv>

namespace underprop::survey {
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

}  // namespace

std::string fact_words(const Survey& survey, const std::string& field, const std::string& what) {
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
  } else if (key(0) == "loads") {
    piece = name_in(survey.loads, key(1));
    if (piece.empty()) piece = "load " + key(1);
    only = survey.loads.size() == 1;
  }
  if (only) piece.clear();
  if (piece.empty() && where.empty()) return what;
  return what + " (" + piece + (piece.empty() || where.empty() ? "" : ", ") + where + ")";
}

}  // namespace underprop::survey
