#include "verdict_words.hpp"

#include "underprop/record/wording.hpp"

#include <algorithm>

namespace underprop::assessment {

std::string told_as_unseen(std::string mechanism, const record::Survey& survey) {
  constexpr std::string_view unsound = "(corroded, split or loose)";
  const auto found_bad = [&](const std::string& piece) {
    return std::any_of(
        survey.deck.condition.begin(), survey.deck.condition.end(),
        [&](const record::Condition& condition) { return condition.piece == piece; });
  };
  const auto replace = [&](const std::string& before, const char* kind) {
    const std::size_t at = mechanism.find(before + std::string(unsound));
    if (at == std::string::npos) return;
    std::string how = record::how_to_find_out(record::fact_kind(kind), survey.standard);
    if (how.ends_with('.')) how.pop_back();
    mechanism.replace(at + before.size(), unsound.size(),
                      "as long as nobody has looked whether they are sound. " + how);
  };
  for (const record::Ledger& ledger : survey.deck.ledgers) {
    if (ledger.sound.is_unknown() && !found_bad(ledger.name))
      replace("ledger " + ledger.name + ", whose fixings count for nothing ", "ledgers/sound");
  }
  for (const record::Joists& group : survey.deck.joists) {
    // The joist that the text speaks of: of this group, and not described on its own.
    const std::string start = "joist " + group.name;
    if (!mechanism.starts_with(start)) continue;
    const std::size_t end_of_name = std::min(mechanism.find(' ', start.size()), mechanism.size());
    const std::string number = mechanism.substr(start.size(), end_of_name - start.size());
    if (number.find_first_not_of("0123456789") != std::string::npos) continue;
    const std::string joist = group.name + number;
    const bool own = std::any_of(survey.deck.joist_ends.begin(), survey.deck.joist_ends.end(),
                                 [&](const record::JoistEnd& end) { return end.joist == joist; });
    if (own || found_bad(joist) || found_bad(group.name)) continue;
    if (group.start.sound.is_unknown())
      replace("what holds its start counts for nothing ", "joists/sound");
    if (group.end.sound.is_unknown())
      replace("what holds its end counts for nothing ", "joists/sound");
  }
  return mechanism;
}

std::string with_reason(const std::string& mechanism, const deck::Deck& deck) {
  std::string why;
  const auto look = [&](const deck::Piece& piece) {
    if (!why.empty() || piece.absent.empty()) return;
    if (mechanism.starts_with(piece.id + " ") || mechanism.starts_with("joist " + piece.id + " "))
      why = "; a part of it counts as absent: " + piece.absent.front().why;
  };
  for (const deck::Joist& joist : deck.joists) look(joist);
  for (const deck::Bearer& bearer : deck.bearers) look(bearer);
  return mechanism + why;
}

}  // namespace underprop::assessment
