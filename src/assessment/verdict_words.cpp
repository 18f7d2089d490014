#include "verdict_words.hpp"

#include "underprop/record/wording.hpp"

#include <algorithm>
#include <map>

namespace underprop::assessment {

namespace {

/// "A, B and C"
std::string and_list(const std::vector<std::string>& items) {
  std::string text;
  for (std::size_t k = 0; k < items.size(); ++k)
    text += (k == 0 ? "" : k + 1 == items.size() ? " and " : ", ") + items[k];
  return text;
}

}  // namespace

std::vector<std::string> few_words(const std::vector<const MustSee*>& missing) {
  std::vector<std::string> probe, contact, rest, result;
  std::map<std::string, std::vector<std::string>> ends;  // per group: what was said of each end
  const auto between = [](const std::string& text, const std::string& a, const std::string& b) {
    const std::size_t from = text.find(a) + a.size();
    return text.substr(from, text.find(b, from) - from);
  };
  for (const MustSee* item : missing) {
    const std::string& what = item->what;
    if (what.starts_with("what holds ")) {
      ends[between(what, "what holds ", " at the ")].push_back(what);
    } else if (item->field.starts_with("/deck/probed/")) {
      probe.push_back(item->field.substr(std::string("/deck/probed/").size()));
    } else if (what.starts_with("whether the wood stands tight on the supports ")) {
      contact.push_back(
          what.substr(std::string("whether the wood stands tight on the supports ").size()));
    } else {
      rest.push_back(what);
    }
  }
  for (const auto& [joists, said] : ends)
    result.push_back(said.size() > 1 ? "what holds " + joists + " at both ends" : said.front());
  if (!probe.empty())
    result.push_back("whether " + and_list(probe) + (probe.size() > 1 ? " are" : " is") +
                     " sound, with a screwdriver");
  if (!contact.empty())
    result.push_back("whether the wood stands tight on the supports " + and_list(contact));
  result.insert(result.end(), rest.begin(), rest.end());
  return result;
}

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

std::string listed(const std::vector<std::string>& items, std::size_t most) {
  std::string text;
  for (std::size_t k = 0; k < std::min(most, items.size()); ++k)
    text += (k == 0 ? "" : "; ") + items[k];
  if (items.size() > most) text += "; and " + std::to_string(items.size() - most) + " more";
  return text;
}

}  // namespace underprop::assessment
