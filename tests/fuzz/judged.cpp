// Surveys that read well, judged: the slow half of what the fuzzers try.
#include "fuzz/targets.hpp"

#include "underprop/assessment/assessment.hpp"
#include "underprop/base/geometry.hpp"
#include "underprop/base/input_error.hpp"
#include "underprop/deck/read.hpp"

#include <cmath>

namespace underprop::fuzz {
namespace {

// What one solve costs grows with these; larger decks are left to the ordinary tests.
bool small(const deck::Deck& deck) {
  constexpr std::size_t most_joists = 8, most_others = 16;
  const Interval x = extent(deck.outline, Axis::x);
  const Interval y = extent(deck.outline, Axis::y);
  return deck.joists.size() <= most_joists && deck.supports.size() <= most_others &&
         deck.bearers.size() + deck.ledgers.size() + deck.walls.size() <= most_others / 2 &&
         deck.loads.size() <= 2 && x.high - x.low <= metres(6) && y.high - y.low <= metres(6) &&
         deck.boards.width >= mm(60);
}

void assessed(const deck::Deck& deck) {
  const auto standard = assessment::standard_for(deck.standard);
  assessment::Options few;
  few.extent = assessment::Extent::screening;
  const assessment::DeckAssessment result = assessment::assess_deck(deck, *standard, few);
  promise(!std::isnan(result.safety) && !std::isnan(result.service), "a utilisation is a number");
  promise(result.safety >= 0.0, "a utilisation is not negative");
  for (const assessment::Finding& finding : result.findings) {
    promise(!std::isnan(finding.check.utilisation), "a finding's utilisation is a number");
  }
  for (const assessment::Reaction& reaction : result.reactions) {
    promise(
        std::isfinite(reaction.characteristic.value()) && reaction.characteristic.value() >= 0.0,
        "no support pulls");
  }
}

}  // namespace

void judged(std::string_view text) {
  survey(text);
  deck::ReadResult read;
  try {
    read = deck::read_survey(text, "fuzz.json");
  } catch (const InputErrors&) {
    return;
  }
  for (const record::Reading reading : {record::Reading::favourable, record::Reading::cautious}) {
    const deck::Resolved resolved = deck::resolve(read.survey, reading);
    if (small(resolved.deck)) assessed(resolved.deck);
  }
}

}  // namespace underprop::fuzz
