#include "works/touched.hpp"

#include "parts.hpp"

#include "works/rules.hpp"

namespace underprop::works {
namespace {

Touched of_one(const Work& work, const Pieces& pieces) {
  Touched result;
  const auto standard = pieces.survey().standard;
  const int nails = work.fasteners > 0 ? work.fasteners
                                       : static_cast<int>(building_value(standard, "hanger/nails"));
  switch (work.measure) {
    case Measure::pack:
    case Measure::bigger_pad: {
      std::set<std::string> ids;
      for (const std::string& name : work.pieces) {
        const std::set<std::string> found = pieces.supports(name);
        ids.insert(found.begin(), found.end());
        for (const record::Wall& wall : pieces.survey().deck.walls) {
          if (wall.name == name) ids.insert(name);
        }
      }
      if (ids.empty()) fault(work, "none of the supports named is there");
      result.supports.assign(ids.begin(), ids.end());
      if (work.measure == Measure::bigger_pad) result.pads = static_cast<int>(ids.size());
      break;
    }
    case Measure::pad:
      result.pads = static_cast<int>(work.places.size());
      break;
    case Measure::sleeper:
    case Measure::bearer_on_pads:
      for (const deck::Joist* joist :
           pieces.crossed(work.direction, work.position, work.from, work.to)) {
        result.joists.push_back(joist->id);
      }
      result.bearer_length = work.to - work.from;
      result.pads = static_cast<int>(work.places.size());
      break;
    case Measure::sister:
      for (const std::string& name : work.pieces) {
        const deck::Joist& joist = pieces.joist(name);
        result.joists.push_back(joist.id);
        result.longest_joist = max(result.longest_joist, joist.to - joist.from);
      }
      break;
    case Measure::added_joist:
      for (const bool at_start : {true, false}) {
        if (hold_like_neighbour(work, pieces, at_start) == record::Hold::hanger) ++result.hangers;
      }
      break;
    case Measure::hangers:
      result.hangers = static_cast<int>(work.pieces.size()) * (work.places.empty() ? 2 : 1);
      break;
    case Measure::move_load:
    case Measure::blocking:
    case Measure::brace:
    case Measure::ledger_bolts:
      break;
  }
  result.nails = result.hangers * nails;
  return result;
}

}  // namespace

record::Hold hold_like_neighbour(const Work& work, const Pieces& pieces, bool at_start) {
  constexpr Length near = mm(100.0);  // it ends where its neighbour ends
  const deck::Joist* beside = pieces.neighbour(work.direction, work.position, work.from, work.to);
  if (beside == nullptr) return record::Hold::resting;
  const Length apart = at_start ? abs(beside->from - work.from) : abs(beside->to - work.to);
  const record::Hold held = at_start ? beside->start.held : beside->end.held;
  if (apart > near || held == record::Hold::resting) return record::Hold::resting;
  return held == record::Hold::free ? record::Hold::free : record::Hold::hanger;
}

std::vector<Touched> touched(const std::vector<Work>& works, const record::Survey& survey) {
  const Pieces pieces(survey);
  std::vector<Touched> result;
  result.reserve(works.size());
  for (const Work& work : works) result.push_back(of_one(work, pieces));
  return result;
}

Length clear_height(const record::Survey& survey) {
  if (survey.allow.clear_height) return *survey.allow.clear_height;
  const deck::Deck deck = deck::resolve(survey, record::Reading::likely).deck;
  Length deepest;
  for (const deck::Joist& joist : deck.joists) deepest = max(deepest, joist.depth);
  return deck.height - deck.boards.thickness - deepest;
}

}  // namespace underprop::works
